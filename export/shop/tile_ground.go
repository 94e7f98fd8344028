package shop

import (
	"math"
	"slices"

	"ribwright/geom"
)

// ground is ink that windows are to cover, looked at in strips that run up; flipped, in strips that run across.
// Its grid finds the lines of a place. Its bits tell quickly, to a square, where a strip has ink; the
// few strips for which that is not enough are looked at line by line.
type ground struct {
	lines    []inkLine
	box      geom.Box // of the lines, and half a line's width more
	cols     int      // of the grid
	rows     int
	byX, byY int     // from a cell to the next one, to the right and up
	first    []int32 // where a cell's lines begin among ids; one more at the end
	ids      []int32
	bits     strata
}

// Sizes of a ground's squares, mm.
const (
	gridSide   = 16.0
	strataSide = 1.0 // at least
)

func newGround(runs []inkRun) *ground {
	g := &ground{}
	n := 0
	for i := range runs {
		n, g.box = n+len(runs[i].lines), g.box.Union(runs[i].box)
	}
	g.lines = make([]inkLine, 0, n)
	for i := range runs {
		g.lines = append(g.lines, runs[i].lines...)
	}
	g.box = g.box.Grow(lineEdge)
	g.cols, g.rows = int(g.box.W()/gridSide)+1, int(g.box.H()/gridSide)+1
	g.byX, g.byY = g.rows, 1
	g.index()
	g.bits = newStrata(g.lines, g.box)
	return g
}

// flip returns the ground with x and y exchanged.
func (g *ground) flip() *ground {
	f := *g
	f.lines, f.box = make([]inkLine, len(g.lines)), flipped(g.box)
	for i := range g.lines {
		l := &g.lines[i]
		f.lines[i] = inkLine{geom.Pt{X: l.a.Y, Y: l.a.X}, geom.Pt{X: l.b.Y, Y: l.b.X}, flipped(l.box)}
	}
	f.cols, f.rows, f.byX, f.byY = g.rows, g.cols, g.byY, g.byX
	f.bits = g.bits.flip()
	return &f
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
	next := slices.Clone(g.first)
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
	i := x*g.byX + row*g.byY
	return g.ids[g.first[i]:g.first[i+1]]
}

func (g *ground) column(x float64) int { return gridAt(x-g.box.Min.X, g.cols) }
func (g *ground) row(y float64) int    { return gridAt(y-g.box.Min.Y, g.rows) }

// gridAt returns the cell at a distance from the grid's edge, the first or the last where it lies off.
func gridAt(v float64, n int) int {
	return int(max(0, min(float64(n-1), math.Floor(v/gridSide))))
}
