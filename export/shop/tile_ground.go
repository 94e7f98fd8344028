package shop

import (
	"math"
	"math/bits"

	"ribwright/geom"
)

// ground is ink that windows are to cover, looked at in strips that run up: flipped, for strips that run across.
// Its grid finds the lines of a place. Its bits tell quickly, to a square, where a strip has ink; the
// few strips for which that is not enough are looked at line by line.
type ground struct {
	lines      []inkLine
	box        geom.Box // of the lines, and half a line's width more
	cols, rows int      // of the grid
	first      []int32  // where a cell's lines begin among ids, column by column; one more at the end
	ids        []int32
	bits       strata
}

// Sizes of a ground's squares, mm.
const (
	gridSide   = 16.0
	squareSide = 1.0 // at least
)

func newGround(runs []inkRun, flip bool) *ground {
	n := 0
	for _, r := range runs {
		n += len(r.lines)
	}
	g := &ground{lines: make([]inkLine, 0, n)}
	for _, r := range runs {
		for _, s := range r.lines {
			if flip {
				s.a, s.b = geom.Pt{X: s.a.Y, Y: s.a.X}, geom.Pt{X: s.b.Y, Y: s.b.X}
				s.box = flipped(s.box)
			}
			g.lines = append(g.lines, s)
			g.box = g.box.Union(s.box)
		}
	}
	g.box = g.box.Grow(lineEdge)
	g.cols, g.rows = int(g.box.W()/gridSide)+1, int(g.box.H()/gridSide)+1
	g.index()
	g.bits = newStrata(g.lines, g.box)
	return g
}

// index makes the grid.
func (g *ground) index() {
	g.first = make([]int32, g.cols*g.rows+1)
	each := func(f func(cell, line int)) {
		for i := range g.lines {
			g.lines[i].squares(g.box.Min, gridSide, func(x, y0, y1 int) {
				for y := max(0, y0); y <= min(g.rows-1, y1) && x >= 0 && x < g.cols; y++ {
					f(x*g.rows+y, i)
				}
			})
		}
	}
	each(func(cell, _ int) { g.first[cell+1]++ })
	for i := range g.cols * g.rows {
		g.first[i+1] += g.first[i]
	}
	next := append([]int32(nil), g.first...)
	g.ids = make([]int32, g.first[len(g.first)-1])
	each(func(cell, line int) {
		g.ids[next[cell]] = int32(line)
		next[cell]++
	})
}

// fuzz is how near to a square's edge a line counts as in it, mm.
const fuzz = 1e-6

// squares calls f for every column of squares that a line runs through, with the rows there, from the first to the last.
func (l *inkLine) squares(o geom.Pt, side float64, f func(x, y0, y1 int)) {
	at := func(v float64) int { return int(math.Floor(v / side)) }
	x0, x1 := at(l.box.Min.X-fuzz-o.X), at(l.box.Max.X+fuzz-o.X)
	if y0, y1 := at(l.box.Min.Y-fuzz-o.Y), at(l.box.Max.Y+fuzz-o.Y); x0 == x1 || y0 == y1 {
		for x := x0; x <= x1; x++ {
			f(x, y0, y1)
		}
		return
	}
	slope := (l.b.Y - l.a.Y) / (l.b.X - l.a.X)
	more := fuzz + float64(fuzz*math.Abs(slope))
	height := func(x int) float64 {
		y := l.a.Y + float64((o.X+float64(float64(x)*side)-l.a.X)*slope)
		return max(l.box.Min.Y, min(l.box.Max.Y, y))
	}
	from := height(x0)
	for x := x0; x <= x1; x++ {
		to := height(x + 1)
		f(x, at(max(l.box.Min.Y, min(from, to)-more)-o.Y), at(min(l.box.Max.Y, max(from, to)+more)-o.Y))
		from = to
	}
}

// clipped returns between which heights a line lies in a slab.
func (l *inkLine) clipped(lo, hi float64) (low, high float64, ok bool) {
	if l.box.Max.X < lo || l.box.Min.X > hi {
		return 0, 0, false
	}
	if l.box.Min.X >= lo && l.box.Max.X <= hi || l.a.X == l.b.X {
		return l.box.Min.Y, l.box.Max.Y, true
	}
	at := func(x float64) float64 {
		t := math.Max(0, math.Min(1, (x-l.a.X)/(l.b.X-l.a.X)))
		return l.a.Y + float64(t*(l.b.Y-l.a.Y))
	}
	p, q := at(lo), at(hi)
	return math.Min(p, q), math.Max(p, q), true
}

// below returns the highest ink of a slab that lies below a height; −∞ where there is none.
func (g *ground) below(lo, hi, y float64) float64 {
	best := math.Inf(-1)
	x0, x1 := g.column(lo), g.column(hi)
	for row := g.row(y); row >= 0; row-- {
		for x := x0; x <= x1; x++ {
			for _, id := range g.cell(x, row) {
				if low, high, ok := g.lines[id].clipped(lo, hi); ok && low < y {
					best = max(best, min(high, y))
				}
			}
		}
		if best >= g.box.Min.Y+float64(float64(row)*gridSide) {
			break // further down nothing is higher
		}
	}
	return best
}

// above returns the lowest ink of a slab at a height or above it; ∞ where there is none.
func (g *ground) above(lo, hi, y float64) float64 {
	best := math.Inf(1)
	x0, x1 := g.column(lo), g.column(hi)
	for row := g.row(y); row < g.rows; row++ {
		for x := x0; x <= x1; x++ {
			for _, id := range g.cell(x, row) {
				if low, high, ok := g.lines[id].clipped(lo, hi); ok && high >= y {
					best = min(best, max(low, y))
				}
			}
		}
		if best <= g.box.Min.Y+float64(float64(row+1)*gridSide) {
			break
		}
	}
	return best
}

func (g *ground) cell(x, row int) []int32 {
	i := x*g.rows + row
	return g.ids[g.first[i]:g.first[i+1]]
}

func (g *ground) column(x float64) int { return gridAt(x-g.box.Min.X, g.cols) }
func (g *ground) row(y float64) int    { return gridAt(y-g.box.Min.Y, g.rows) }

// gridAt returns the cell at a distance from the grid's edge, the first or the last where it lies off.
func gridAt(v float64, n int) int {
	return int(max(0, min(float64(n-1), math.Floor(v/gridSide))))
}

// strata tells where columns of small squares have ink: a bit each, row by row upward. The level k holds for every
// column what it and those to its right have, 2^k in all.
type strata struct {
	min    geom.Pt
	side   float64 // of a square
	cols   int
	words  int // of a column
	levels [][]uint64
}

// mostWords is of how many words a column may be.
const mostWords = 32

func newStrata(lines []inkLine, box geom.Box) strata {
	s := strata{min: box.Min, side: math.Max(squareSide, math.Max(box.W(), box.H())/(64*mostWords-2))}
	s.cols, s.words = int(box.W()/s.side)+1, (int(box.H()/s.side)+64)/64
	level := make([]uint64, s.cols*s.words)
	for i := range lines {
		lines[i].squares(s.min, s.side, func(x, y0, y1 int) {
			if x < 0 || x >= s.cols {
				return
			}
			for y := max(0, y0); y <= min(64*s.words-1, y1); y++ {
				level[x*s.words+y>>6] |= 1 << (y & 63)
			}
		})
	}
	s.levels = [][]uint64{level}
	for wide := 1; 2*wide <= s.cols; wide *= 2 {
		next := make([]uint64, (s.cols-2*wide+1)*s.words)
		for i := range next {
			next[i] = level[i] | level[i+wide*s.words]
		}
		s.levels, level = append(s.levels, next), next
	}
	return s
}

// between puts together what columns have, from the first to the last.
func (s *strata) between(first, last int, into *[mostWords]uint64) {
	first, last = max(0, first), min(s.cols-1, last)
	if first > last {
		clear(into[:s.words])
		return
	}
	k := bits.Len(uint(last-first+1)) - 1
	a, b := s.levels[k][first*s.words:], s.levels[k][(last+1-1<<k)*s.words:]
	for i := range s.words {
		into[i] = a[i] | b[i]
	}
}

// top returns the highest row with ink below a row; −1 where there is none.
func (s *strata) top(of *[mostWords]uint64, below int) int {
	for w := min(below-1, 64*s.words-1) >> 6; w >= 0; w-- {
		word := of[w]
		if part := below - w<<6; part < 64 {
			word &= 1<<part - 1
		}
		if word != 0 {
			return w<<6 + bits.Len64(word) - 1
		}
	}
	return -1
}

// nearly is how exactly the place of ink in a square is known, mm.
const nearly = 4 * fuzz

// windows returns how many windows of a height, which overlap where ink goes on, a slab needs at least, and whether they
// surely suffice. Where the edges of windows lie is known to some squares; a slab is not sure if ink may or may not end
// before an edge.
func (s *strata) windows(lo, hi, h, overlap float64) (n int, sure bool) {
	var may, must [mostWords]uint64 // have ink: squares that the slab meets, and those within it
	lo, hi = (lo-s.min.X)/s.side, (hi-s.min.X)/s.side
	s.between(int(math.Floor(lo-nearly)), int(math.Floor(hi+nearly)), &may)
	s.between(int(math.Ceil(lo+nearly)), int(math.Floor(hi-nearly))-1, &must)
	rows := 64 * s.words
	low, high := float64(rows+1), float64(rows+1) // the ink below a height between these is not covered yet; in squares
	for {
		up := min(rows, int(math.Ceil(high+nearly)))
		most := s.top(&may, up)
		if most < 0 {
			return n, true
		}
		least := s.top(&must, min(rows, int(math.Floor(low-nearly))))
		if least < 0 {
			return n, false
		}
		top := [2]float64{float64(least) - nearly + lineEdge/s.side, math.Min(float64(most+1)+nearly, high) + lineEdge/s.side}
		if n > 0 {
			bottom := [2]float64{low - lineEdge/s.side, high - lineEdge/s.side}
			join := [2]float64{bottom[0] + overlap/s.side, bottom[1] + overlap/s.side}
			switch {
			case top[0] >= bottom[1]:
				top = join
			case top[1] >= bottom[0]: // they may join
				top = [2]float64{math.Min(top[0], join[0]), math.Max(top[1], join[1])}
			}
		}
		n++
		low, high = top[0]+(lineEdge-h)/s.side, top[1]+(lineEdge-h)/s.side
	}
}
