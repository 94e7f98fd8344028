package jig

import (
	"math"

	"ribwright/geom/rib"
)

// sizes are those of blocks, in the order in which they are tried.
func (p *planner) sizes() [3][2]float64 {
	l, w := p.set.BlockLength, p.set.BlockWidth
	return [3][2]float64{{l, w}, {l / 2, w}, {l / 2, w / 2}}
}

// try makes the block of a size at a place of a face, where it can stand.
func (p *planner) try(f *face, s float64, size [2]float64) (Block, bool) {
	q := f.stand(s, size[0], size[1], p.set.Clearance)
	if !p.room.free(&q.boxed, p.bears(f, s), f.inside, p.blocks) {
		return Block{}, false
	}
	b := q.block()
	b.face, b.s = f, s
	return b, true
}

// fits reports whether the block of a size can stand at a place of a face.
func (p *planner) fits(f *face, s float64, size [2]float64) bool {
	q := f.stand(s, size[0], size[1], p.set.Clearance)
	return p.room.free(&q.boxed, p.bears(f, s), f.inside, p.blocks)
}

func (p *planner) take(b Block) {
	b.Contacts = p.room.contacts(&b)
	p.blocks = append(p.blocks, b)
}

// bears returns the members that a block at a place of a face is meant to touch.
func (p *planner) bears(f *face, s float64) []string {
	switch {
	case f != &p.inner:
		return f.bears
	case math.Abs(s-p.nose) < p.set.BlockLength:
		return bothCaps
	case s < p.nose:
		return bothCaps[1:]
	}
	return bothCaps[:1]
}

var bothCaps = []string{rib.CapUpper, rib.CapLower}

// walk is the step of the search along a face, mm.
const walk = 2.0

// nearest returns the place nearest to s, in one direction along a face, where a block can stand.
func (p *planner) nearest(f *face, s, dir, limit float64, size [2]float64) (float64, bool) {
	half := float64(size[0] / 2)
	end := f.length() - half
	for d := 0.0; d <= limit; d += walk {
		t := s + float64(dir*d)
		if t < half || t > end {
			if d > 0 {
				return 0, false
			}
			continue
		}
		if !p.fits(f, t, size) {
			continue
		}
		if d == 0 {
			return t, true
		}
		return p.edge(f, s+float64(dir*(d-walk)), t, size), true
	}
	return 0, false
}

// edge narrows down where blocks begin to find room, between a place where one does not and one where it does.
func (p *planner) edge(f *face, no, yes float64, size [2]float64) float64 {
	for range 11 { // to a thousandth of a millimetre
		mid := (no + yes) / 2
		if p.fits(f, mid, size) {
			yes = mid
		} else {
			no = mid
		}
	}
	return yes
}

// clashes reports whether a block stands where others stand by now.
func (p *planner) clashes(b *Block) bool {
	for i := range p.blocks {
		if b.body.foulsBlock(&p.blocks[i].body, p.set.Clearance) {
			return true
		}
	}
	return false
}
