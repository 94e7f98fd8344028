package jig

import (
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/rib"
)

// bend returns where a cap bends most between the blocks of wood, on the contour.
func (p *planner) bend(c rib.Cap) (geom.Pt, bool) {
	pts := p.r.Contour.Upper
	if c.Side == rib.Lower {
		pts = p.r.Contour.Lower
	}
	in := p.r.Contour.Inner.Box()
	lo, hi := in.Min.X, in.Max.X
	for _, k := range p.r.Blocks {
		if box := k.Outline.Box(); k.ID == rib.BlockNose {
			lo = box.Max.X
		} else {
			hi = box.Min.X
		}
	}
	f := newFace(pts, false)
	reach := p.set.BlockLength
	best, at := 1e-4, geom.Pt{}
	for s := reach; s < f.length()-reach; s += walk {
		q := f.point(s)
		if q.X < lo || q.X > hi {
			continue
		}
		u, v := q.Sub(f.point(s-reach)), f.point(s+reach).Sub(q)
		if turn := math.Abs(math.Atan2(u.Cross(v), u.Dot(v))); turn > best+1e-9 {
			best, at = turn, q
		}
	}
	return at, best > 1e-4
}

// space adds blocks to a face so that none stand further apart than the spacing, and the cap turns little between them.
func (p *planner) space(f *face) {
	for range 100 {
		s, ok := p.gap(f, p.blocks)
		if !ok {
			return
		}
		p.take(s)
	}
}

// places returns the places of the blocks on a face, in order; outside, with the caps' ends in the tail.
func (p *planner) places(f *face, blocks []Block) []float64 {
	var out []float64
	if f == &p.outer {
		out = append(out, 0, f.length())
	}
	for _, b := range blocks {
		if b.face == f {
			out = append(out, b.s)
		}
	}
	slices.Sort(out)
	return out
}

// mostTurn is how far a cap may turn between two neighbouring blocks, radians: a strip that is bent round a nose wants
// them closer than a straight one (common practice, no source).
const mostTurn = math.Pi / 4

// apart returns into how many parts a stretch of a face between two blocks must be divided: 1 where it is short enough, and
// where a block of wood fills it.
func (p *planner) apart(f *face, a, b float64) float64 {
	nose := p.nose
	if f == &p.outer {
		nose = math.Inf(1)
		if p.r.Contour.CutAhead() { // the cut parts the caps
			nose = f.nearest(p.r.Contour.Upper[0].Lerp(p.r.Contour.Lower[0], 0.5))
		}
	}
	if a < nose && b > nose {
		return 1
	}
	turn := math.Abs(math.Remainder(f.heading(b)-f.heading(a), 2*math.Pi))
	return math.Max(math.Ceil((b-a)/p.set.Spacing-hair), math.Ceil(turn/mostTurn-hair))
}

// share returns the place of the first of the blocks that divide a stretch: after an equal share of its length, or of its turn where that asks for
// more of them.
func (p *planner) share(f *face, a, b, parts float64) float64 {
	if math.Ceil((b-a)/p.set.Spacing-hair) >= parts {
		return a + (b-a)/parts
	}
	from := f.heading(a)
	most := math.Abs(math.Remainder(f.heading(b)-from, 2*math.Pi)) / parts
	turned := func(s float64) bool { return math.Abs(math.Remainder(f.heading(s)-from, 2*math.Pi)) >= most }
	lo, hi := a, b
	for s := a; s < b; s += walk {
		if turned(s) {
			hi = s
			break
		}
		lo = s
	}
	for range 20 {
		if mid := (lo + hi) / 2; turned(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

// gap returns a block to stand in the first stretch of a face that is too long, where it finds a place that shortens it.
func (p *planner) gap(f *face, blocks []Block) (Block, bool) {
	at := p.places(f, blocks)
	for i := 1; i < len(at); i++ {
		parts := p.apart(f, at[i-1], at[i])
		if parts < 2 {
			continue
		}
		s := p.share(f, at[i-1], at[i], parts)
		step := math.Min(s-at[i-1], at[i]-s)
		for _, size := range p.sizes() {
			best, found := 0.0, false
			for _, dir := range [2]float64{1, -1} {
				if t, ok := p.nearest(f, s, dir, step, size); ok && (!found || math.Abs(t-s) < math.Abs(best-s)) {
					best, found = t, true
				}
			}
			if found {
				b, _ := p.try(f, best, size)
				return b, true
			}
		}
	}
	return Block{}, false
}
