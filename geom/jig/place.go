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
	if !p.room.free(&q.boxed, p.bears(f, s), f.inside) {
		return Block{}, false
	}
	b := q.block()
	b.face, b.s = f, s
	return b, true
}

// fits reports whether the block of a size can stand at a place of a face.
func (p *planner) fits(f *face, s float64, size [2]float64) bool {
	q := f.stand(s, size[0], size[1], p.set.Clearance)
	return p.room.free(&q.boxed, p.bears(f, s), f.inside)
}

func (p *planner) take(b Block) {
	b.Contacts = p.room.contacts(&b)
	p.blocks = append(p.blocks, b)
	p.room.put(b.body)
	clear(p.searched)
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

// search is a look along a face for room, one way from a place.
type search struct {
	face *face
	s    float64
	dir  float64
	size [2]float64
}

// found is what a search came to. It holds until a block more is taken.
type found struct {
	limit float64 // how far was looked
	d     float64 // at which step the block stands; more than the limit: nowhere
	at    float64
}

// nearest returns the place nearest to s, in one direction along a face, where a block can stand.
func (p *planner) nearest(f *face, s, dir, limit float64, size [2]float64) (float64, bool) {
	q := search{f, s, dir, size}
	r, ok := p.searched[q]
	if !ok || r.d > r.limit && r.limit < limit {
		r = p.search(q, limit)
		p.searched[q] = r
	}
	return r.at, r.d <= limit
}

// search looks for the nearest place.
func (p *planner) search(q search, limit float64) found {
	r := found{limit: limit}
	half := float64(q.size[0] / 2)
	end := q.face.length() - half
	for ; r.d <= limit; r.d += walk {
		r.at = q.s + float64(q.dir*r.d)
		if r.at < half || r.at > end {
			if r.d > 0 {
				r.d = math.Inf(1)
			}
			continue
		}
		if p.fits(q.face, r.at, q.size) {
			if r.d > 0 {
				r.at = p.edge(q.face, q.s+float64(q.dir*(r.d-walk)), r.at, q.size)
			}
			break
		}
	}
	return r
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
