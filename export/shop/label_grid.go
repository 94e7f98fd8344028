package shop

import (
	"math"

	"ribwright/geom"
)

// cell is the width of the squares in which lines are looked up, mm.
const cell = 8.0

// lineGrid holds the lines of a drawing so that those near a label are found at once. Its map is looked
// up by place and never walked, so its order does not matter.
type lineGrid struct {
	lines []gridLine
	cells map[[2]int][]int
	seen  []int // by line: the last query that met it
	query int
}

type gridLine struct {
	a, b geom.Pt
	hard bool // the outline of a part: no label may cross it
}

func newLineGrid() *lineGrid { return &lineGrid{cells: map[[2]int][]int{}} }

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
	g.lines, g.seen = append(g.lines, gridLine{a, b, hard}), append(g.seen, 0)
	along(a, b, func(c [2]int) {
		if l := g.cells[c]; len(l) == 0 || l[len(l)-1] != k {
			g.cells[c] = append(l, k)
		}
	})
}

// each calls f for every cell that a box meets.
func each(b geom.Box, f func([2]int)) {
	at := func(v float64) int { return int(math.Floor(v / cell)) }
	for x := at(b.Min.X); x <= at(b.Max.X); x++ {
		for y := at(b.Min.Y); y <= at(b.Max.Y); y++ {
			f([2]int{x, y})
		}
	}
}

// near calls f once for every line in the cells that a box meets.
func (g *lineGrid) near(b geom.Box, f func(l gridLine)) {
	g.query++
	each(b, func(c [2]int) { g.in(c, f) })
}

// in calls f once in a query for every line in a cell.
func (g *lineGrid) in(c [2]int, f func(l gridLine)) {
	for _, k := range g.cells[c] {
		if g.seen[k] != g.query {
			g.seen[k] = g.query
			f(g.lines[k])
		}
	}
}

// count returns how many thin lines run through a quad, and whether an outline does.
func (g *lineGrid) count(q quad) (thin int, hard bool) {
	g.near(q.box(), func(l gridLine) {
		if _, _, hit := q.within(l.a, l.b); hit {
			hard = hard || l.hard
			thin++
		}
	})
	return thin, hard
}

// crossed returns how many outlines the segment ab crosses.
func (g *lineGrid) crossed(a, b geom.Pt) int {
	n := 0
	g.query++
	along(a, b, func(c [2]int) {
		g.in(c, func(l gridLine) {
			if l.hard && segmentsCross(a, b, l.a, l.b) {
				n++
			}
		})
	})
	return n
}

// along calls f for the cells that a segment runs through, some of them twice.
func along(a, b geom.Pt, f func([2]int)) {
	n := int(a.Dist(b)/cell) + 1
	for i := range n {
		each(geom.NewBox(a.Lerp(b, float64(i)/float64(n)), a.Lerp(b, float64(i+1)/float64(n))), f)
	}
}

// quadGrid holds boxes of lettering so that those near a place are found at once.
type quadGrid struct {
	quads []quad
	cells map[[2]int][]int
}

func (g *quadGrid) add(q quad) {
	k := len(g.quads)
	g.quads = append(g.quads, q)
	each(q.box(), func(c [2]int) { g.cells[c] = append(g.cells[c], k) })
}

// meets reports whether a quad overlaps one of the grid.
func (g *quadGrid) meets(q quad) bool {
	found := false
	each(q.box(), func(c [2]int) {
		if found {
			return
		}
		for _, k := range g.cells[c] {
			if q.meets(g.quads[k]) {
				found = true
				return
			}
		}
	})
	return found
}

// hit reports whether a segment runs through a quad of the grid.
func (g *quadGrid) hit(a, b geom.Pt) bool {
	found := false
	along(a, b, func(c [2]int) {
		if found {
			return
		}
		for _, k := range g.cells[c] {
			if _, _, ok := g.quads[k].within(a, b); ok {
				found = true
				return
			}
		}
	})
	return found
}
