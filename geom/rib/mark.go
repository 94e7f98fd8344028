package rib

import (
	"math"

	"ribwright/geom"
)

// marks returns the lines that place a plate: a cross at its centre, the line of the cap's inner edge, and
// the centre lines of its joints' sticks.
func (b *builder) marks(p *placed) []Mark {
	ring := geom.Ring(p.path.Flatten(geom.Flat))
	across := p.along.Left()
	arm := math.Min(p.length/8, 3)
	out := []Mark{
		{"centre", p.centre.Along(p.along, -arm), p.centre.Along(p.along, arm)},
		{"centre", p.centre.Along(across, -arm), p.centre.Along(across, arm)},
	}
	for _, j := range p.joints {
		var a, c geom.Pt
		if p.shape == FullDepth {
			x0, x1 := ring.Box().Min.X, ring.Box().Max.X
			inner := b.innerSide(j.Side)
			a, c = geom.Pt{X: x0, Y: yOn(inner, x0)}, geom.Pt{X: x1, Y: yOn(inner, x1)}
		} else {
			m := j.Surface.Along(j.Normal, b.CapDepth)
			a, c = m.Along(p.along, -p.length), m.Along(p.along, p.length)
		}
		if q, r, ok := inside(ring, a, c); ok {
			out = append(out, Mark{"cap", q, r})
		}
	}
	for _, s := range b.Sticks {
		for _, j := range p.joints {
			if s.From != j.ID && s.To != j.ID {
				continue
			}
			if q, r, ok := inside(s.Outline, s.Axis[0], s.Axis[1]); ok {
				if q, r, ok = inside(ring, q, r); ok {
					out = append(out, Mark{"stick", q, r})
				}
			}
			break
		}
	}
	return out
}

// inside returns the longest stretch of the segment ab that lies in the ring.
func inside(ring geom.Ring, a, b geom.Pt) (p, q geom.Pt, ok bool) {
	for _, s := range ring.Stretches(a, b) {
		if !ok || s[0].Dist(s[1]) > p.Dist(q) {
			p, q, ok = s[0], s[1], true
		}
	}
	return p, q, ok
}
