package rib

import "ribwright/geom"

// A doubled stick is strips side by side in the plane of the rib, so that the plates still lie flat: the rib is laid out
// with their whole depth, and each strip is a piece to cut.

// PlyDepth returns the depth of one of a stick's strips.
func (r *Rib) PlyDepth() float64 { return r.StickDepth / float64(max(1, r.StickPlies)) }

// seam returns the line on which a stick's strip k and the next one meet, seen from its first end from right to left,
// as the half-plane to its right.
func (r *Rib) seam(s Stick, k int) geom.Half {
	left := s.Axis[1].Sub(s.Axis[0]).Unit().Left()
	return geom.Half{N: left, D: left.Dot(s.Axis[0]) - float64(r.StickDepth/2) + float64(float64(k+1)*r.PlyDepth())}
}

// Seams returns the lines in a stick on which its strips meet.
func (r *Rib) Seams(s Stick) [][2]geom.Pt {
	var out [][2]geom.Pt
	for k := range r.StickPlies - 1 {
		h := r.seam(s, k)
		along, foot := h.N.Left(), h.N.Mul(h.D)
		mid := foot.Along(along, s.Axis[0].Dot(along))
		reach := 2 * (s.Axis[0].Dist(s.Axis[1]) + r.StickDepth)
		out = append(out, s.Outline.Stretches(mid.Along(along, -reach), mid.Along(along, reach))...)
	}
	return out
}

// between returns the area in which a stick's strips are glued to each other.
func (b *builder) between(s Stick) float64 {
	sum := 0.0
	for _, p := range b.Seams(s) {
		sum += float64(p[0].Dist(p[1]) * b.StickWidth)
	}
	return sum
}

// Pieces returns the pieces that the sticks are cut as: the sticks themselves, or the strips of doubled ones, called S5a, S5b …
// from the right one to the left, seen from the stick's first end. A strip's ends are its own part of the stick's cuts.
func (r *Rib) Pieces() []Stick {
	if r.StickPlies < 2 {
		return r.Sticks
	}
	var out []Stick
	for _, s := range r.Sticks {
		for k := range r.StickPlies {
			p := r.strip(s, k)
			if len(p.Outline) > 0 {
				out = append(out, p)
			}
		}
	}
	return out
}

// strip returns one strip of a stick.
func (r *Rib) strip(s Stick, k int) Stick {
	p := s
	p.ID += string(rune('a' + k))
	p.PliesMM2 = 0
	shape := geom.Shape{Ring: s.Outline}
	var keep []geom.Half
	if k > 0 {
		keep = append(keep, r.seam(s, k-1).Flip())
	}
	if k < r.StickPlies-1 {
		keep = append(keep, r.seam(s, k))
	}
	for _, h := range keep {
		shape = geom.Largest(shape.Cut(h, 0))
	}
	p.Outline = shape.Ring
	if len(p.Outline) == 0 {
		return p
	}
	p.LongPoint = extent(p.Outline, s.Axis[1].Sub(s.Axis[0]).Unit())
	for e := range p.Ends {
		p.Ends[e].Cuts = nil
		for _, c := range s.Ends[e].Cuts {
			for _, h := range keep {
				c = c.within(h)
			}
			if c.A.Dist(c.B) >= hair {
				p.Ends[e].Cuts = append(p.Ends[e].Cuts, c)
			}
		}
	}
	return p
}

// within returns the part of a cut in a half-plane; outside it nothing is left between its ends.
func (c Cut) within(h geom.Half) Cut {
	u, v := h.Off(c.A), h.Off(c.B)
	switch {
	case u >= 0 && v >= 0:
		c.B = c.A
	case u > 0:
		c.A = c.A.Lerp(c.B, u/(u-v))
	case v > 0:
		c.B = c.A.Lerp(c.B, u/(u-v))
	}
	return c
}
