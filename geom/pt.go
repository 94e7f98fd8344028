package geom

import (
	"encoding/json"
	"math"
)

// The three tolerances of the project, in millimetres. Each is justified by a test that carries its name.
const (
	// Coincident is the distance below which two points are one.
	Coincident = 1e-6
	// Flat is the largest distance between a curve and the chords that stand for it.
	Flat = 0.005
	// Step is the finest step that is written to a file.
	Step = 1e-4
)

// Pt is a point or a vector in millimetres. Rib axes: x aft from the leading edge, y up.
type Pt struct{ X, Y float64 }

// MarshalJSON writes the point as [x, y].
func (p Pt) MarshalJSON() ([]byte, error) { return json.Marshal([2]float64{p.X + 0, p.Y + 0}) }

// UnmarshalJSON reads the point from [x, y].
func (p *Pt) UnmarshalJSON(b []byte) error {
	var v [2]float64
	if err := json.Unmarshal(b, &v); err != nil {
		return err
	}
	p.X, p.Y = v[0], v[1]
	return nil
}

// Add returns p + q. Where it is inlined the coordinates may be products: the conversions keep them from
// being fused with the sum.
func (p Pt) Add(q Pt) Pt { return Pt{float64(p.X) + float64(q.X), float64(p.Y) + float64(q.Y)} }

// Sub returns p − q, guarded like Add.
func (p Pt) Sub(q Pt) Pt { return Pt{float64(p.X) - float64(q.X), float64(p.Y) - float64(q.Y)} }

// Mul returns k·p.
func (p Pt) Mul(k float64) Pt { return Pt{float64(k * p.X), float64(k * p.Y)} }

// Along returns p + k·d, the point k times d away from p.
func (p Pt) Along(d Pt, k float64) Pt { return Pt{p.X + float64(k*d.X), p.Y + float64(k*d.Y)} }

// Dot returns the scalar product.
func (p Pt) Dot(q Pt) float64 { return float64(p.X*q.X) + float64(p.Y*q.Y) }

// Cross returns the z of the vector product: positive where q lies to the left of p.
func (p Pt) Cross(q Pt) float64 { return float64(p.X*q.Y) - float64(p.Y*q.X) }

// Len returns the length of the vector.
func (p Pt) Len() float64 { return math.Sqrt(p.Dot(p)) }

// Dist returns the distance between two points.
func (p Pt) Dist(q Pt) float64 { return p.Sub(q).Len() }

// Unit returns the vector of length 1 in the direction of p, and the zero vector for the zero vector.
func (p Pt) Unit() Pt {
	l := p.Len()
	if l == 0 {
		return Pt{}
	}
	return Pt{p.X / l, p.Y / l}
}

// Left returns p turned a quarter turn counter-clockwise.
func (p Pt) Left() Pt { return Pt{-p.Y, p.X} }

// Lerp returns the point at share t of the way from p to q.
func (p Pt) Lerp(q Pt, t float64) Pt { return p.Along(q.Sub(p), t) }

// Angle returns the direction of the vector in radians, in (−π, π].
func (p Pt) Angle() float64 { return math.Atan2(p.Y, p.X) }

// Polar returns the unit vector in the direction a, radians.
func Polar(a float64) Pt { s, c := math.Sincos(a); return Pt{c, s} }
