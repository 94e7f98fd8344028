package geom

import "math"

// Transform is an affine map: x' = A·x + C·y + E, y' = B·x + D·y + F. Its zero value is not the identity: use Identity.
type Transform struct{ A, B, C, D, E, F float64 }

// Identity leaves every point where it is.
var Identity = Transform{A: 1, D: 1}

// Move returns the translation by v.
func Move(v Pt) Transform { return Transform{1, 0, 0, 1, v.X, v.Y} }

// Turn returns the rotation about c by a radians, counter-clockwise.
func Turn(c Pt, a float64) Transform {
	s, k := math.Sincos(a)
	t := Transform{A: k, B: s, C: -s, D: k}
	q := t.Pt(c)
	t.E, t.F = c.X-q.X, c.Y-q.Y
	return t
}

// Zoom returns the scaling about the origin, x and y apart.
func Zoom(x, y float64) Transform { return Transform{A: x, D: y} }

// Then returns the map that does t first and u after it.
func (t Transform) Then(u Transform) Transform {
	return Transform{
		float64(u.A*t.A) + float64(u.C*t.B), float64(u.B*t.A) + float64(u.D*t.B),
		float64(u.A*t.C) + float64(u.C*t.D), float64(u.B*t.C) + float64(u.D*t.D),
		float64(u.A*t.E) + float64(u.C*t.F) + u.E, float64(u.B*t.E) + float64(u.D*t.F) + u.F,
	}
}

// Pt maps a point.
func (t Transform) Pt(p Pt) Pt {
	return Pt{float64(t.A*p.X) + float64(t.C*p.Y) + t.E, float64(t.B*p.X) + float64(t.D*p.Y) + t.F}
}

// Pts maps points into a new slice.
func (t Transform) Pts(pts []Pt) []Pt {
	out := make([]Pt, len(pts))
	for i, p := range pts {
		out[i] = t.Pt(p)
	}
	return out
}

// Path maps a path. The map must keep circles circles (moves, turns, equal scaling, mirroring) where the path has arcs.
func (t Transform) Path(p Path) Path {
	sign := 1.0
	if float64(t.A*t.D)-float64(t.B*t.C) < 0 {
		sign = -1
	}
	out := Path{Start: t.Pt(p.Start), Segs: make([]Seg, len(p.Segs)), Closed: p.Closed}
	for i, g := range p.Segs {
		out.Segs[i] = Seg{t.Pt(g.End), float64(sign * g.Bulge)}
	}
	return out
}
