package geom

import (
	"math"
	"slices"
)

// Area returns the ring's signed area: positive where it runs counter-clockwise.
func (r Ring) Area() float64 {
	if len(r) < 3 {
		return 0
	}
	o, s := r[0], 0.0 // about its first point, so that a ring far from the origin loses no digits
	for i := 1; i+1 < len(r); i++ {
		s += r[i].Sub(o).Cross(r[i+1].Sub(o))
	}
	return s / 2
}

// Girth returns the length of the closed polygon.
func (r Ring) Girth() float64 {
	s := 0.0
	for i, p := range r {
		s += p.Dist(r[(i+1)%len(r)])
	}
	return s
}

// Box returns the ring's bounds.
func (r Ring) Box() Box { return NewBox(r...) }

// Reverse returns the ring in the opposite direction.
func (r Ring) Reverse() Ring {
	out := make(Ring, len(r))
	for i, p := range r {
		out[len(r)-1-i] = p
	}
	return out
}

// Holds reports whether p lies inside the ring, by the parity of crossings to its right. Points on the
// ring itself may fall on either side.
func (r Ring) Holds(p Pt) bool {
	if len(r) == 0 {
		return false
	}
	in := false
	a := r[len(r)-1]
	for _, b := range r {
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+float64((p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X)) {
			in = !in
		}
		a = b
	}
	return in
}

// Distance returns the least distance from p to the chain of points, closed or open.
func Distance(p Pt, chain []Pt, closed bool) float64 {
	if len(chain) == 1 {
		return p.Dist(chain[0])
	}
	best := math.Inf(1)
	for i := 1; i < len(chain); i++ {
		best = min(best, segDist2(p, chain[i-1], chain[i]))
	}
	if closed && len(chain) > 0 {
		best = min(best, segDist2(p, chain[len(chain)-1], chain[0]))
	}
	return math.Sqrt(best)
}

// segDist2 returns the squared distance from p to the segment ab.
func segDist2(p, a, b Pt) float64 {
	d, q := b.Sub(a), p.Sub(a)
	l := d.Dot(d)
	if l > 0 {
		q = q.Along(d, -max(0, min(1, q.Dot(d)/l)))
	}
	return q.Dot(q)
}

// Area returns the signed area that the path, closed by a straight line, encloses; arcs count in full: to the
// polygon each adds its segment r²·(w − sin w)/2, w its sweep (Bronshtein and Semendyayev, Handbook of Mathematics, 3.1.6).
func (p Path) Area() float64 {
	a, s := p.Start, 0.0
	for _, g := range p.Segs {
		s += float64(a.Sub(p.Start).Cross(g.End.Sub(p.Start)) / 2)
		if g.Bulge != 0 {
			_, r, _, w := Arc(a, g.End, g.Bulge)
			s += float64(r * r * (w - math.Sin(w)) / 2)
		}
		a = g.End
	}
	return s
}

// Length returns the path's length, with its closing line where it is closed.
func (p Path) Length() float64 {
	a, s := p.Start, 0.0
	for _, g := range p.Segs {
		if g.Bulge == 0 {
			s += a.Dist(g.End)
		} else {
			_, r, _, w := Arc(a, g.End, g.Bulge)
			s += float64(r * math.Abs(w))
		}
		a = g.End
	}
	if p.Closed {
		s += a.Dist(p.Start)
	}
	return s
}

// Box returns the path's bounds, arcs included.
func (p Path) Box() Box {
	if len(p.Segs) == 0 {
		return Box{}
	}
	b, a := NewBox(p.Start), p.Start
	for _, g := range p.Segs {
		b = b.Add(g.End)
		if g.Bulge != 0 {
			c, r, t, w := Arc(a, g.End, g.Bulge)
			for k := 0; k < 4; k++ {
				if within(float64(k)*math.Pi/2, t, w) {
					b = b.Add(c.Along(quarters[k], r))
				}
			}
		}
		a = g.End
	}
	return b
}

// quarters are the directions right, up, left, and down.
var quarters = [4]Pt{Polar(0), Polar(math.Pi / 2), Polar(math.Pi), Polar(3 * math.Pi / 2)}

// within reports whether direction q lies in the sweep w that starts at t.
func within(q, t, w float64) bool {
	if w < 0 {
		t, w = t+w, -w
	}
	d := math.Mod(q-t, 2*math.Pi)
	if d < 0 {
		d += 2 * math.Pi
	}
	return d <= w
}

// Flatten returns the path's points with every arc replaced by chords that keep within tol of it. The
// closing point of a closed path is not repeated. A path without segments gives none. An arc whose radius is
// less than tol becomes one line.
func (p Path) Flatten(tol float64) []Pt {
	if len(p.Segs) == 0 {
		return nil
	}
	out, a := make([]Pt, 1, len(p.Segs)+1), p.Start
	out[0] = p.Start
	for i, g := range p.Segs {
		if g.Bulge != 0 {
			c, r, t, w := Arc(a, g.End, g.Bulge)
			n := arcSteps(r, w, tol)
			out = slices.Grow(out, n+len(p.Segs)-i-1)
			for k := 1; k < n; k++ {
				out = append(out, c.Along(Polar(t+float64(w*float64(k)/float64(n))), r))
			}
		}
		out, a = append(out, g.End), g.End
	}
	if p.Closed && len(out) > 1 && out[len(out)-1].Dist(p.Start) < Coincident {
		out = out[:len(out)-1]
	}
	return out
}

// arcSteps returns how many chords keep within tol of an arc. A chord over the angle a stands off by
// r·(1 − cos(a/2)) = 2r·sin²(a/4), which, unlike the cosine, loses no digits where the arc is nearly straight.
func arcSteps(r, sweep, tol float64) int {
	tol = math.Max(tol, Coincident/1000)
	if r <= tol {
		return 1
	}
	return max(1, int(math.Ceil(math.Abs(sweep)/(4*math.Asin(math.Sqrt(tol/(2*r)))))))
}

// Reverse returns the path walked backwards.
func (p Path) Reverse() Path {
	n := len(p.Segs)
	if n == 0 {
		return p
	}
	out := Path{Start: p.Segs[n-1].End, Segs: make([]Seg, n), Closed: p.Closed}
	for i, g := range p.Segs {
		from := p.Start
		if i > 0 {
			from = p.Segs[i-1].End
		}
		out.Segs[n-1-i] = Seg{from, -g.Bulge}
	}
	return out
}

// Area returns the region's area, holes taken off.
func (r Region) Area() float64 {
	a := math.Abs(r.Outer.Area())
	for _, h := range r.Holes {
		a -= math.Abs(h.Area())
	}
	return a
}

// DiscRing returns the area in mm² common to a disc of centre c and radius r and a simple polygon, in closed
// form by Green's theorem (½∮ x dy − y dx about the centre): each edge contributes the triangle it makes with the
// centre, half their vector product, where it runs inside the disc, and a sector, r²/2 times the angle, where it runs outside.
// The sign follows the ring's direction.
func DiscRing(c Pt, r float64, ring Ring) float64 {
	s := 0.0
	for i, a := range ring {
		s += discEdge(a.Sub(c), ring[(i+1)%len(ring)].Sub(c), r)
	}
	return s
}

// discEdge returns the signed area common to the disc about the origin and the triangle 0, a, b.
func discEdge(a, b Pt, r float64) float64 {
	d := b.Sub(a)
	t0, t1, ok := chord(a, d, r)
	if !ok || t1 <= 0 || t0 >= 1 {
		return sector(a, b, r)
	}
	p, q := a, b
	s := 0.0
	if t0 > 0 {
		p = a.Along(d, t0)
		s += sector(a, p, r)
	}
	if t1 < 1 {
		q = a.Along(d, t1)
		s += sector(q, b, r)
	}
	return s + float64(p.Cross(q)/2)
}

// chord returns the shares at which the line a + t·d enters and leaves the disc of radius r about the origin.
func chord(a, d Pt, r float64) (t0, t1 float64, ok bool) {
	dd := d.Dot(d)
	if dd == 0 {
		return 0, 0, false
	}
	h := a.Cross(d) // distance of the line from the centre, times |d|
	disc := float64(r*r*dd) - float64(h*h)
	if disc <= 0 {
		return 0, 0, false
	}
	m, w := -a.Dot(d)/dd, math.Sqrt(disc)/dd
	return m - w, m + w, true
}

// sector returns the signed area of the disc's sector from the direction of a to that of b.
func sector(a, b Pt, r float64) float64 {
	return float64(r * r * math.Atan2(a.Cross(b), a.Dot(b)) / 2)
}

// ConvexRing returns the area common to a convex polygon, counter-clockwise, and a simple polygon; the
// sign follows the second ring's direction.
func ConvexRing(convex, ring Ring) float64 {
	for i, a := range convex {
		ring = ring.Within(LeftOf(a, convex[(i+1)%len(convex)]))
		if len(ring) == 0 {
			return 0
		}
	}
	return ring.Area()
}

// CommonArea returns the area common to two simple polygons. Each is the signed sum of the triangles that its
// edges make with its first point, and triangles are convex.
func CommonArea(a, b Ring) float64 {
	box, s := b.Box(), 0.0
	for i := 1; i+1 < len(a); i++ {
		t, sign := Ring{a[0], a[i], a[i+1]}, 1.0
		if t.Area() < 0 {
			t, sign = t.Reverse(), -1
		}
		if t.Box().Meets(box) {
			s += float64(sign * ConvexRing(t, b))
		}
	}
	return math.Abs(s)
}
