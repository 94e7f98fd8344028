package curve

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/interp"

	"ribwright/geom"
)

// ErrTooFew says that a spline was asked for through fewer than two points.
var ErrTooFew = errors.New("a spline needs two points or more")

// Spline is the natural cubic spline x(s), y(s) through points; s is the length of the chords from the
// first point on, in mm. Its curvature is 0 at both ends.
type Spline struct {
	knots []float64
	spans []span // one for each step between knots
	last  geom.Pt
}

// span holds the cubics of one step: value = c0 + c1·d + c2·d² + c3·d³, d counted from the step's first knot.
type span struct{ x, y cubic }

type cubic [4]float64

// Fit returns the spline through the points in their order. Points that follow each other must not
// coincide, and every coordinate must be finite.
func Fit(pts []geom.Pt) (*Spline, error) {
	n := len(pts)
	if n < 2 {
		return nil, ErrTooFew
	}
	knots, xs, ys := make([]float64, n), make([]float64, n), make([]float64, n)
	for i, p := range pts {
		if !finite(p.X) || !finite(p.Y) {
			return nil, fmt.Errorf("point %d is not a finite number: (%v, %v)", i, p.X, p.Y)
		}
		xs[i], ys[i] = p.X, p.Y
		if i == 0 {
			continue
		}
		knots[i] = knots[i-1] + p.Dist(pts[i-1])
		if !(knots[i] > knots[i-1]) || math.IsInf(knots[i], 1) {
			return nil, fmt.Errorf("points %d and %d coincide, or lie too far apart: (%v, %v)", i-1, i, p.X, p.Y)
		}
	}
	var px, py interp.NaturalCubic
	if err := px.Fit(knots, xs); err != nil {
		return nil, fmt.Errorf("spline through %d points: %w", n, err)
	}
	if err := py.Fit(knots, ys); err != nil {
		return nil, fmt.Errorf("spline through %d points: %w", n, err)
	}
	s := &Spline{knots: knots, spans: make([]span, n-1), last: pts[n-1]}
	for i := range s.spans {
		s.spans[i] = span{hermite(&px, knots[i], knots[i+1], xs[i], xs[i+1]), hermite(&py, knots[i], knots[i+1], ys[i], ys[i+1])}
	}
	return s, nil
}

// hermite takes one step's cubic out of the fitted spline, from its values and slopes at the step's ends
// (gonum keeps its coefficients to itself, and gives no second derivative).
func hermite(p interp.DerivativePredictor, a, b, ya, yb float64) cubic {
	h, ma, mb := b-a, p.PredictDerivative(a), p.PredictDerivative(b)
	m := (yb - ya) / h
	return cubic{ya, ma, (float64(3*m) - float64(2*ma) - mb) / h, (ma + mb - float64(2*m)) / h / h}
}

func (c *cubic) value(d float64) float64 {
	return c[0] + float64(d*(c[1]+float64(d*(c[2]+float64(d*c[3])))))
}

func (c *cubic) slope(d float64) float64 {
	return c[1] + float64(d*(float64(2*c[2])+float64(d*float64(3*c[3]))))
}

func (c *cubic) bend(d float64) float64 { return float64(2*c[2]) + float64(d*float64(6*c[3])) }

// find returns the step that holds s, and how far s lies in it. Outside the domain the end steps go on.
func (s *Spline) find(t float64) (*span, float64) {
	i := sort.SearchFloat64s(s.knots, t)
	if i == len(s.knots) || s.knots[i] != t {
		i--
	}
	i = max(0, min(i, len(s.spans)-1))
	return &s.spans[i], t - s.knots[i]
}

// At returns the point at the parameter t. At a knot it is the point given, exactly.
func (s *Spline) At(t float64) geom.Pt {
	if t == s.knots[len(s.knots)-1] {
		return s.last
	}
	sp, d := s.find(t)
	return geom.Pt{X: sp.x.value(d), Y: sp.y.value(d)}
}

// Deriv returns the derivative by the parameter; its length is near 1 where the knots stand close.
func (s *Spline) Deriv(t float64) geom.Pt {
	sp, d := s.find(t)
	return geom.Pt{X: sp.x.slope(d), Y: sp.y.slope(d)}
}

// Curvature returns the signed curvature in 1/mm: positive where the curve turns counter-clockwise.
// It is 0 where the curve stands still.
func (s *Spline) Curvature(t float64) float64 {
	sp, d := s.find(t)
	v := geom.Pt{X: sp.x.slope(d), Y: sp.y.slope(d)}
	w := geom.Pt{X: sp.x.bend(d), Y: sp.y.bend(d)}
	l := v.Len()
	if l == 0 {
		return 0
	}
	return v.Cross(w) / l / l / l
}

// Domain returns 0 and the sum of the chords.
func (s *Spline) Domain() (lo, hi float64) { return 0, s.knots[len(s.knots)-1] }

// Knots returns the parameters of the points, in a new slice.
func (s *Spline) Knots() []float64 { return append([]float64(nil), s.knots...) }

// Length returns the arc length in mm, by Gauss–Legendre with 16 nodes on each step.
func (s *Spline) Length() float64 {
	sum := 0.0
	for i := range s.spans {
		sp := &s.spans[i]
		speed := func(d float64) float64 { return geom.Pt{X: sp.x.slope(d), Y: sp.y.slope(d)}.Len() }
		sum += quad.Fixed(speed, 0, s.knots[i+1]-s.knots[i], 16, quad.Legendre{}, 0)
	}
	return sum
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
