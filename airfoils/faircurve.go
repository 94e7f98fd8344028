package airfoils

import (
	"math"
)

// Bend is the curvature of the contour at one place, for chord 1.
type Bend struct {
	Station   float64 // share of the chord
	Curvature float64 // 1 / radius in chords: positive where the contour bulges outward
	Point     bool    // a point of the table stands here
}

// Curvature returns the curvature along both sides, nose to tail: what shows an unfair point at a glance,
// since it is the second derivative that a wrong ordinate bends most. The steps are those of the contour's
// spline, each cut in eight, or finer where they are few. Both are empty for a section without points.
func (s Section) Curvature() (upper, lower []Bend) {
	u, l, ok := s.sides(1)
	if !ok {
		return nil, nil
	}
	return u.bends(-1), l.bends(1)
}

// bends measures a side's curvature; sign is that of an outward bend.
func (d side) bends(sign float64) []Bend {
	const least, inAll = 8, 160
	var out []Bend
	last := len(d.breaks) - 1
	pieces := max(least, inAll/last)
	table := last > 4 // an equation has breaks at its own corners only
	for i := range last {
		a, b := d.breaks[i], d.breaks[i+1]
		for k := range pieces {
			t := a + float64((b-a)*(float64(k)/float64(pieces)))
			out = append(out, d.bend(t, a, b, sign, k == 0 && table))
		}
	}
	return append(out, d.bend(d.breaks[last], d.breaks[last-1], d.breaks[last], sign, table))
}

// bend measures the curvature at t by differences inside the step from a to b.
func (d side) bend(t, a, b, sign float64, point bool) Bend {
	h := float64((b - a) / 64)
	at := d.curve(t)
	m := min(max(t, a+h), b-h) // the parabola through three points has one curvature for all of them, near enough
	p, q, r := d.curve(m-h), d.curve(m), d.curve(m+h)
	area := q.Sub(p).Cross(r.Sub(q))
	sides := p.Dist(q) * q.Dist(r) * p.Dist(r)
	k := 0.0
	if sides > 0 && !math.IsInf(area, 0) {
		k = float64(sign * 2 * area / sides) // the circle through three points: 4 · area of the triangle / product of its sides
	}
	return Bend{at.X, k + 0, point}
}
