package rib

import (
	"math"

	"ribwright/geom"
)

// touch is how far a round plate may reach over the polygon that stands for the contour and still count
// as tangent to the contour itself: the polygon runs up to geom.Flat inside the curve.
const touch = 2 * geom.Flat

// insetContour is the contour moved inward by the plates' inset, and the caps as far as they lie in it.
type insetContour struct {
	ring geom.Ring
	caps []geom.Ring
	ends []geom.Half // what lies beyond its ends no plate reaches
}

// box returns a rectangle, counter-clockwise, about c with its length along u.
func box(c, u geom.Pt, length, height float64) geom.Ring {
	s, t := u.Mul(length/2), u.Left().Mul(height/2)
	return geom.Ring{c.Sub(s).Sub(t), c.Add(s).Sub(t), c.Add(s).Add(t), c.Sub(s).Add(t)}
}

// trim cuts the plate to the contour and to the spars' openings, on the side where its joint is.
func (b *builder) trim(p *placed, at geom.Pt) {
	for _, s := range b.Spars {
		if h := s.side(at); p.reach(h) > geom.Coincident {
			p.halves = append(p.halves, h)
		}
	}
	p.path = b.trimmed(p, at)
	p.box = p.path.Box()
}

func (b *builder) trimmed(p *placed, at geom.Pt) geom.Path {
	if p.shape == Round {
		return b.trimRound(p, at)
	}
	pieces := []geom.Ring{b.insetBy(p.spec.Inset).ring}
	for i := range p.rect {
		pieces = cutAll(pieces, geom.LeftOf(p.rect[i], p.rect[(i+1)%4]))
	}
	for _, h := range p.halves {
		pieces = cutAll(pieces, h)
	}
	return largest(pieces).Path().Tidy(geom.Coincident)
}

// reach returns how far the untrimmed plate stands over the edge of a half-plane.
func (p *placed) reach(h geom.Half) float64 {
	if p.shape == Round {
		return h.Off(p.centre) + float64(p.spec.Diameter/2)
	}
	return reach(p.rect, h)
}

// trimRound trims a round plate: where only spars cut it, or nothing, its outline keeps true arcs without
// the hairs that a tangent polygon would leave.
func (b *builder) trimRound(p *placed, at geom.Pt) geom.Path {
	r := p.spec.Diameter / 2
	ring := b.insetBy(p.spec.Inset).ring
	if geom.Distance(p.centre, ring, true) >= float64(r)-touch && ring.Holds(p.centre) {
		if len(p.halves) == 0 {
			return geom.Circle(p.centre, r)
		}
		ring = box(p.centre, geom.Pt{X: 1}, 4*r, 4*r)
	}
	pieces := []geom.Ring{ring}
	for _, h := range p.halves {
		pieces = cutAll(pieces, h)
	}
	var best geom.Path
	for _, piece := range pieces {
		for _, q := range geom.DiscClip(p.centre, r, piece) {
			if q.Area() > best.Area() {
				best = q
			}
		}
	}
	return best.Tidy(geom.Step)
}

func cutAll(pieces []geom.Ring, h geom.Half) []geom.Ring {
	var out []geom.Ring
	for _, p := range pieces {
		out = append(out, p.Cut(h)...)
	}
	return out
}

func largest(pieces []geom.Ring) geom.Ring {
	var best geom.Ring
	for _, p := range pieces {
		if p.Area() > best.Area() {
			best = p
		}
	}
	return best
}

// insetBy returns the contour and the caps moved inward by d; the contour itself for d = 0.
func (b *builder) insetBy(d float64) *insetContour {
	if c := b.inset[d]; c != nil {
		return c
	}
	c := &insetContour{ring: b.Contour.Outline}
	for _, k := range b.Caps {
		c.caps = append(c.caps, k.Outline)
	}
	if d > 0 {
		rings, _ := geom.Parallel(b.Contour.Outline, true, d)
		c.ring, c.caps = largest(rings), nil
	}
	c.ends = append(c.ends, geom.Before(c.ring.Box().Max.X))
	for _, k := range []cutoff{b.ahead, b.behind} {
		if h := k.keep; k.on {
			h.D -= d
			c.ends = append(c.ends, h)
		}
	}
	if d > 0 {
		for _, s := range []Side{Upper, Lower} {
			c.caps = append(c.caps, b.capWithin(c, s, d))
		}
	}
	if b.inset == nil {
		b.inset = map[float64]*insetContour{}
	}
	b.inset[d] = c
	return c
}

// capWithin returns the part of a cap that lies inside a contour inset by d: the strip between that contour's
// side and the inner edge, which ends where that contour does.
func (b *builder) capWithin(c *insetContour, s Side, d float64) geom.Ring {
	ring := c.ring
	if len(ring) == 0 {
		return nil
	}
	n, end := len(ring), ring.Box().Max.X
	var pts []geom.Pt
	step := 1 // counter-clockwise along the lower side
	if s == Upper {
		step = n - 1
	}
	first := 0
	if b.ahead.on {
		first = b.corner(ring, s, d)
	} else {
		nose := b.noseSplit(ring)
		pts, first = append(pts, nose.p), (nose.i+1)%n
		if s == Upper {
			first = nose.i
		}
	}
	for k, i := 0, first; k < n; k, i = k+1, (i+step)%n {
		pts = append(pts, ring[i])
		if u := ring[(i+step)%n].Sub(ring[i]); ring[i].X > end-geom.Flat && u.X < math.Abs(u.Y)/4 {
			break // the tail: the next edge runs down the cut, or back along the other side
		}
		if b.behind.on && b.behind.keep.Off(ring[i]) > -d-geom.Flat {
			break
		}
	}
	out := capOutline(pts, b.innerSide(s), nil, s)
	for _, h := range c.ends {
		out = out.Within(h)
	}
	return out
}
