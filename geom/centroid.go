package geom

import "math"

// Centroid returns the centre of gravity of the area in a ring; of one without area, that of its points.
func (r Ring) Centroid() Pt {
	if len(r) == 0 {
		return Pt{}
	}
	o := r[0] // about its first point, as Area
	var sum Pt
	area := 0.0
	for i := 1; i+1 < len(r); i++ {
		a, b := r[i].Sub(o), r[i+1].Sub(o)
		w := a.Cross(b)
		area += w
		sum = sum.Add(a.Add(b).Mul(w / 3))
	}
	if area == 0 {
		for _, p := range r {
			sum = sum.Add(p.Sub(o))
		}
		return o.Along(sum, 1/float64(len(r)))
	}
	return o.Along(sum, 1/area)
}

// Centroid returns the centre of gravity of the area that the path, closed by a straight line, encloses; arcs count in
// full. The segment between an arc and its chord has its own at 4r·sin³(w/2)/(3(w − sin w)) from the arc's centre, w its
// sweep (from memory; tests hold it against a half and a quarter disc).
func (p Path) Centroid() Pt {
	area := p.Area()
	if area == 0 {
		return Ring(p.Flatten(Flat)).Centroid()
	}
	pts := Ring{p.Start}
	for _, g := range p.Segs {
		pts = append(pts, g.End)
	}
	polygon := pts.Area()
	sum := pts.Centroid().Sub(p.Start).Mul(polygon)
	if polygon == 0 { // two arcs back to back
		sum = Pt{}
	}
	a := p.Start
	for _, g := range p.Segs {
		if g.Bulge != 0 {
			c, r, t, w := Arc(a, g.End, g.Bulge)
			s := math.Sin(w / 2)
			// area × distance is 2/3·r³·sin³(w/2) whatever the sweep, so that no small segment divides by nothing
			moment := float64(2.0 / 3 * r * r * r * s * s * s)
			segment := float64(r * r * (w - math.Sin(w)) / 2)
			sum = sum.Add(c.Sub(p.Start).Mul(segment)).Along(Polar(t+float64(w/2)), moment)
		}
		a = g.End
	}
	return p.Start.Along(sum, 1/area)
}

// Middle returns the centre of gravity of a ring's edges.
func (r Ring) Middle() Pt {
	var sum Pt
	length := 0.0
	for i, p := range r {
		q := r[(i+1)%len(r)]
		l := p.Dist(q)
		sum, length = sum.Add(p.Lerp(q, 0.5).Mul(l)), length+l
	}
	if length == 0 {
		return r.Centroid()
	}
	return sum.Mul(1 / length)
}
