package shop

import (
	"math"
	"slices"

	"ribwright/geom"
)

// freePaper knows where a page has no ink, in small squares: sums over everything to the lower
// left of a square tell at once how much ink a box holds.
type freePaper struct {
	box        geom.Box
	cell       float64 // side of a square, mm
	cols, rows int
	inked      []bool
	sums       []int // (cols+1) × (rows+1); nil: to be made anew
}

func newFreePaper(b geom.Box) *freePaper {
	p := &freePaper{box: b, cell: math.Max(2, math.Max(b.W(), b.H())/250)}
	p.cols, p.rows = max(0, int(b.W()/p.cell)), max(0, int(b.H()/p.cell))
	p.inked = make([]bool, p.cols*p.rows)
	return p
}

func (p *freePaper) clone() *freePaper {
	q := *p
	q.inked = slices.Clone(p.inked)
	return &q
}

// take marks a box as inked, with air around it.
func (p *freePaper) take(b geom.Box, air float64) {
	b = b.Grow(air).Move(p.box.Min.Mul(-1))
	at := func(v float64) int { return int(math.Floor(v / p.cell)) }
	x0, x1 := max(0, at(b.Min.X)), min(p.cols-1, at(b.Max.X))
	y0, y1 := max(0, at(b.Min.Y)), min(p.rows-1, at(b.Max.Y))
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			p.inked[y*p.cols+x] = true
		}
	}
	p.sums = nil
}

// line marks a line as inked, step by step.
func (p *freePaper) line(a, b geom.Pt, air float64) {
	if !p.box.Grow(air).Meets(geom.NewBox(a, b)) {
		return
	}
	n := int(a.Dist(b)/p.cell) + 1
	for i := range n {
		p.take(geom.NewBox(a.Lerp(b, float64(i)/float64(n)), a.Lerp(b, float64(i+1)/float64(n))), air)
	}
}

func (p *freePaper) add() {
	w := p.cols + 1
	p.sums = make([]int, w*(p.rows+1))
	for y := range p.rows {
		for x := range p.cols {
			n := 0
			if p.inked[y*p.cols+x] {
				n = 1
			}
			p.sums[(y+1)*w+x+1] = n + p.sums[y*w+x+1] + p.sums[(y+1)*w+x] - p.sums[y*w+x]
		}
	}
}

// find returns the free box of the size given that is nearest to a corner; of equals the lowest, then the
// leftmost. Where fit is not nil, only boxes that it takes count.
func (p *freePaper) find(w, h float64, fit func(geom.Box) bool) (geom.Box, bool) {
	if p.sums == nil {
		p.add()
	}
	cw, ch, row := int(math.Ceil(w/p.cell)), int(math.Ceil(h/p.cell)), p.cols+1
	best, least := geom.Box{}, math.MaxInt
	for y := 0; y+ch <= p.rows; y++ {
		for x := 0; x+cw <= p.cols; x++ {
			far := min(x, p.cols-cw-x) + min(y, p.rows-ch-y)
			if far >= least || p.sums[(y+ch)*row+x+cw]-p.sums[y*row+x+cw]-p.sums[(y+ch)*row+x]+p.sums[y*row+x] > 0 {
				continue
			}
			at := p.box.Min.Add(geom.Pt{X: float64(x) * p.cell, Y: float64(y) * p.cell})
			if b := geom.NewBox(at, at.Add(geom.Pt{X: w, Y: h})); fit == nil || fit(b) {
				best, least = b, far
			}
		}
	}
	return best, least < math.MaxInt
}
