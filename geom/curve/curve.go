// Package curve draws smooth curves through points and turns them into polylines: the natural cubic
// spline over chord length, its slope, curvature and arc length, and flattening to a chord error.
//
// Lengths are millimetres, curvatures 1/mm, positive where the curve turns counter-clockwise (x right,
// y up). The solver is gonum's interp.NaturalCubic and the arc length gonum's Gauss–Legendre rule. A
// Spline is made once and never changes; it keeps its own copy of what it was made from. The package
// offsets nothing and cuts nothing.
package curve

import "ribwright/geom"

// Curve is a plane curve over one parameter.
type Curve interface {
	// At returns the point at the parameter s.
	At(s float64) geom.Pt
	// Domain returns the first and the last parameter.
	Domain() (lo, hi float64)
}
