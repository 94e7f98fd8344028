package shop

import (
	"math"
	"math/bits"
	"slices"

	"ribwright/geom"
)

// freePaper knows where a page has no ink, in small squares, each a bit. Rows are words, so that many squares are
// marked, and many places for a box tried, at once.
type freePaper struct {
	box        geom.Box
	cell       float64 // side of a square, mm
	cols, rows int
	words      int      // of a row
	inked      []uint64 // the lowest row first; in a word the lowest bit is the leftmost square
}

func newFreePaper(b geom.Box) *freePaper { return freePaperIn(b, freeCell(b)) }

// freeCell returns the side of the squares of a page's paper.
func freeCell(b geom.Box) float64 { return math.Max(2, math.Max(b.W(), b.H())/250) }

func freePaperIn(b geom.Box, cell float64) *freePaper {
	p := &freePaper{box: b, cell: cell}
	p.cols, p.rows = max(0, int(b.W()/p.cell)), max(0, int(b.H()/p.cell))
	p.words = (p.cols + 63) / 64
	p.inked = make([]uint64, p.words*p.rows)
	return p
}

func (p *freePaper) clone() *freePaper {
	q := *p
	q.inked = slices.Clone(p.inked)
	return &q
}

// cells is a block of squares, edges included.
type cells struct{ x0, y0, x1, y1 int }

// around returns the squares that a box with air around it meets, those off the paper too.
func (p *freePaper) around(b geom.Box, air float64) cells {
	return p.about(p.at(b.Min), air).with(p.about(p.at(b.Max), air))
}

// at returns a place in squares from the lower left corner.
func (p *freePaper) at(q geom.Pt) geom.Pt {
	return geom.Pt{X: (q.X - p.box.Min.X) / p.cell, Y: (q.Y - p.box.Min.Y) / p.cell}
}

// about returns the squares that a point with air around it meets. The point is counted in squares.
func (p *freePaper) about(q geom.Pt, air float64) cells {
	air /= p.cell
	return cells{int(math.Floor(q.X - air)), int(math.Floor(q.Y - air)), int(math.Floor(q.X + air)), int(math.Floor(q.Y + air))}
}

// with returns the least block that holds both.
func (c cells) with(d cells) cells {
	return cells{min(c.x0, d.x0), min(c.y0, d.y0), max(c.x1, d.x1), max(c.y1, d.y1)}
}

// mark marks squares as inked.
func (p *freePaper) mark(c cells) {
	c.x0, c.y0, c.x1, c.y1 = max(0, c.x0), max(0, c.y0), min(p.cols-1, c.x1), min(p.rows-1, c.y1)
	if c.x0 > c.x1 {
		return
	}
	for w := c.x0 >> 6; w <= c.x1>>6; w++ {
		mask := wordMask(w, c.x0, c.x1)
		for y := c.y0; y <= c.y1; y++ {
			p.inked[y*p.words+w] |= mask
		}
	}
}

// take marks a box as inked, with air around it.
func (p *freePaper) take(b geom.Box, air float64) { p.mark(p.around(b, air)) }

// chain marks lines that mostly follow each other, moved, with air around them.
func (p *freePaper) chain(lines []inkLine, move geom.Pt, air float64) {
	var end, was geom.Pt // of the line before, and the same counted in squares
	var at cells
	for i := range lines {
		l := &lines[i]
		from, a := at, was
		if i == 0 || l.a != end {
			a = p.at(l.a.Add(move))
			from = p.about(a, air)
		}
		b := p.at(l.b.Add(move))
		end, was, at = l.b, b, p.about(b, air)
		if n := int(a.Dist(b)) + 1; n == 1 || math.Abs(a.X-b.X) < fuzz || math.Abs(a.Y-b.Y) < fuzz {
			p.mark(from.with(at))
		} else {
			p.slope(a, b, n, air)
		}
	}
}

// slope marks a line that slopes, in so many steps. Its ends are counted in squares.
func (p *freePaper) slope(a, b geom.Pt, n int, air float64) {
	paper := geom.NewBox(geom.Pt{}, geom.Pt{X: float64(p.cols), Y: float64(p.rows)}).Grow(air/p.cell + 1)
	first, last := 0, n-1
	if !paper.Holds(a) || !paper.Holds(b) {
		t0, t1, ok := boxQuad(paper).within(a, b)
		if !ok {
			return
		}
		first, last = int(t0*float64(n)), min(n-1, int(t1*float64(n)))
	}
	step := b.Sub(a).Mul(1 / float64(n))
	from := p.about(a.Along(step, float64(first)), air)
	for i := first + 1; i <= last+1; i++ {
		to := p.about(a.Along(step, float64(i)), air)
		p.mark(from.with(to))
		from = to
	}
}

// places returns, for a box of some squares, where its lower left square may lie so that all of it is free: a bit each.
func (p *freePaper) places(cw, ch int) []uint64 {
	n := p.words * (p.rows - ch + 1)
	free := make([]uint64, len(p.inked))
	for i, w := range p.inked {
		free[i] = ^w
	}
	if last := p.cols & 63; last > 0 { // beyond the paper nothing is free
		for i := p.words - 1; i < len(free); i += p.words {
			free[i] &= 1<<last - 1
		}
	}
	for have := 1; have < ch; { // so many rows from each one up are free
		by := min(have, ch-have)
		for i, w := range free[by*p.words:] {
			free[i] &= w
		}
		have += by
	}
	free = free[:n]
	for have := 1; have < cw; {
		by := min(have, cw-have)
		whole, part := by>>6, uint(by&63)
		for row := 0; row < n; row += p.words {
			on := free[row : row+p.words]
			for i := range on {
				from := uint64(0)
				if k := i + whole; k < len(on) {
					if from = on[k] >> part; part > 0 && k+1 < len(on) {
						from |= on[k+1] << (64 - part)
					}
				}
				on[i] &= from
			}
		}
		have += by
	}
	return free
}

// any reports whether there is a bit among those of places, in columns and rows from the first to the last.
func (p *freePaper) any(places []uint64, c cells) bool {
	c.x0, c.y0, c.x1, c.y1 = max(0, c.x0), max(0, c.y0), min(p.cols-1, c.x1), min(len(places)/p.words-1, c.y1)
	if c.x0 > c.x1 {
		return false
	}
	for w := c.x0 >> 6; w <= c.x1>>6; w++ {
		mask := wordMask(w, c.x0, c.x1)
		for y := c.y0; y <= c.y1; y++ {
			if places[y*p.words+w]&mask != 0 {
				return true
			}
		}
	}
	return false
}

// wordMask returns which bits of a row's word are columns from the first to the last.
func wordMask(word, first, last int) uint64 {
	mask := ^uint64(0)
	if word == first>>6 {
		mask <<= first & 63
	}
	if word == last>>6 {
		mask &= ^uint64(0) >> (63 - last&63)
	}
	return mask
}

// find returns the free box of the size given that is nearest to a corner; of equals the lowest, then the
// leftmost. Where fit is not nil, only boxes that it takes count.
func (p *freePaper) find(w, h float64, fit func(geom.Box) bool) (geom.Box, bool) {
	cw, ch := int(math.Ceil(w/p.cell)), int(math.Ceil(h/p.cell))
	best, least := geom.Box{}, math.MaxInt
	if cw > p.cols || ch > p.rows {
		return best, false
	}
	free := p.places(cw, ch)
	for i, word := range free {
		y := i / p.words
		up := min(y, p.rows-ch-y)
		for ; word != 0 && up < least; word &= word - 1 {
			x := i%p.words<<6 + bits.TrailingZeros64(word)
			far := min(x, p.cols-cw-x) + up
			if far >= least {
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
