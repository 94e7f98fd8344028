package shop

import (
	"iter"
	"math"
	"slices"

	"ribwright/geom"
)

// cell is the width of the squares in which lines are looked up, mm.
const cell = 8.0

// lookup finds things by their place: each square holds the numbers of those in it. Squares are found by hashing and never
// walked over, and no answer depends on the order of what a square holds.
type lookup struct {
	squares []square // a power of two, at most half of them in use
	used    int
	links   []link
	seen    []int // by thing: the last query that met it
	query   int
}

// square is a list of things: first is the number of its first link, counted from 1; 0: the square is not in use.
type square struct{ x, y, first int32 }

type link struct{ thing, next int32 }

func (c lookup) clone() lookup {
	c.squares, c.links, c.seen = slices.Clone(c.squares), slices.Clone(c.links), slices.Clone(c.seen)
	return c
}

// span returns the squares that a box meets, by their first and last columns and rows.
func span(b geom.Box) (x0, y0, x1, y1 int32) {
	at := func(v float64) int32 { return int32(math.Floor(v / cell)) }
	return at(b.Min.X), at(b.Min.Y), at(b.Max.X), at(b.Max.Y)
}

// find returns the place of a square: its own, or a free one.
func (c *lookup) find(x, y int32) *square {
	const golden = 0x9e3779b97f4a7c15 // 2^64 divided by the golden ratio spreads neighbours (Knuth)
	h := (uint64(uint32(x))<<32 | uint64(uint32(y))) * golden >> 32
	for {
		s := &c.squares[h&uint64(len(c.squares)-1)]
		if s.first == 0 || s.x == x && s.y == y {
			return s
		}
		h++
	}
}

// put takes a thing into the squares of a box.
func (c *lookup) put(thing int, b geom.Box) {
	for thing >= len(c.seen) {
		c.seen = append(c.seen, 0)
	}
	x0, y0, x1, y1 := span(b)
	for x := x0; x <= x1; x++ {
		for y := y0; y <= y1; y++ {
			c.into(thing, x, y)
		}
	}
}

func (c *lookup) into(thing int, x, y int32) {
	if 2*c.used >= len(c.squares) {
		c.grow()
	}
	s := c.find(x, y)
	if s.first == 0 {
		c.used++
	} else if c.links[s.first-1].thing == int32(thing) {
		return
	}
	c.links = append(c.links, link{int32(thing), s.first})
	*s = square{x, y, int32(len(c.links))}
}

func (c *lookup) grow() {
	old := c.squares
	c.squares = make([]square, max(256, 2*len(old)))
	for _, s := range old {
		if s.first != 0 {
			*c.find(s.x, s.y) = s
		}
	}
}

// near returns the things in the squares that a box meets, each once.
func (c *lookup) near(b geom.Box) iter.Seq[int] {
	return func(yield func(int) bool) {
		c.query++
		c.in(b, yield)
	}
}

// along returns the things in the squares that a segment runs through, each once.
func (c *lookup) along(p, q geom.Pt) iter.Seq[int] {
	return func(yield func(int) bool) {
		c.query++
		for b := range pieces(p, q) {
			if !c.in(b, yield) {
				return
			}
		}
	}
}

// in goes on with a query in the squares that a box meets, until it has enough.
func (c *lookup) in(b geom.Box, yield func(int) bool) bool {
	if len(c.squares) == 0 {
		return true
	}
	x0, y0, x1, y1 := span(b)
	for x := x0; x <= x1; x++ {
		for y := y0; y <= y1; y++ {
			for k := c.find(x, y).first; k != 0; k = c.links[k-1].next {
				thing := c.links[k-1].thing
				if c.seen[thing] == c.query {
					continue
				}
				c.seen[thing] = c.query
				if !yield(int(thing)) {
					return false
				}
			}
		}
	}
	return true
}

// pieces returns the boxes of pieces of a segment about as long as a square is wide.
func pieces(a, b geom.Pt) iter.Seq[geom.Box] {
	return func(yield func(geom.Box) bool) {
		n := int(a.Dist(b)/cell) + 1
		for i := range n {
			if !yield(geom.NewBox(a.Lerp(b, float64(i)/float64(n)), a.Lerp(b, float64(i+1)/float64(n)))) {
				return
			}
		}
	}
}

// lineGrid holds the lines of a drawing so that those near a label are found at once.
type lineGrid struct {
	lookup
	lines []gridLine
}

type gridLine struct {
	a, b geom.Pt
	hard bool // the outline of a part: no label may cross it
}

func (g lineGrid) clone() lineGrid { return lineGrid{g.lookup.clone(), slices.Clone(g.lines)} }

// add takes in a path, arcs as chords.
func (g *lineGrid) add(p geom.Path, hard bool) {
	pts := p.Flatten(0.05)
	for i := range pts {
		if i > 0 {
			g.addLine(pts[i-1], pts[i], hard)
		}
	}
	if p.Closed && len(pts) > 2 {
		g.addLine(pts[len(pts)-1], pts[0], hard)
	}
}

func (g *lineGrid) addLine(a, b geom.Pt, hard bool) {
	k := len(g.lines)
	g.lines = append(g.lines, gridLine{a, b, hard})
	for piece := range pieces(a, b) {
		g.put(k, piece)
	}
}

// count returns how many lines run through a quad, and whether an outline does.
func (g *lineGrid) count(q quad) (n int, hard bool) {
	for k := range g.near(q.box()) {
		l := &g.lines[k]
		if _, _, hit := q.within(l.a, l.b); hit {
			hard = hard || l.hard
			n++
		}
	}
	return n, hard
}

// thin is count where no outline runs through the quad; else it is not ok.
func (g *lineGrid) thin(q quad) (n int, ok bool) {
	for k := range g.near(q.box()) {
		l := &g.lines[k]
		if _, _, hit := q.within(l.a, l.b); hit {
			if l.hard {
				return 0, false
			}
			n++
		}
	}
	return n, true
}

// crossed returns how many outlines the segment ab crosses.
func (g *lineGrid) crossed(a, b geom.Pt) int {
	n := 0
	for k := range g.along(a, b) {
		if l := &g.lines[k]; l.hard && segmentsCross(a, b, l.a, l.b) {
			n++
		}
	}
	return n
}

// quadGrid holds boxes of lettering so that those near a place are found at once.
type quadGrid struct {
	lookup
	quads []quad
	boxes []geom.Box // about the quads, a little larger
}

func (g quadGrid) clone() quadGrid {
	return quadGrid{g.lookup.clone(), slices.Clone(g.quads), slices.Clone(g.boxes)}
}

func (g *quadGrid) add(q quad) {
	b := q.box()
	g.put(len(g.quads), b)
	g.quads, g.boxes = append(g.quads, q), append(g.boxes, b.Grow(hair))
}

// meets reports whether a quad overlaps one of the grid.
func (g *quadGrid) meets(q quad) bool {
	for k := range g.near(q.box()) {
		if q.meets(g.quads[k]) {
			return true
		}
	}
	return false
}

// hit reports whether a segment runs through a quad of the grid.
func (g *quadGrid) hit(a, b geom.Pt) bool {
	for k := range g.along(a, b) {
		if _, _, ok := g.quads[k].within(a, b); ok {
			return true
		}
	}
	return false
}

// through returns the shares of a segment between which each quad hides it.
func (g *quadGrid) through(a, b geom.Pt) [][2]float64 {
	var out [][2]float64
	box := geom.NewBox(a, b)
	for k := range g.quads {
		if !g.boxes[k].Meets(box) {
			continue
		}
		if t0, t1, hit := g.quads[k].within(a, b); hit {
			out = append(out, [2]float64{t0, t1})
		}
	}
	return out
}
