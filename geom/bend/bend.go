// Package bend says how a strip or a sheet of wood can be bent: the strain of a cap strip and what it asks for,
// the laminations that bend in its place, the radii that plywood follows, and the form a strip is bent on.
//
// Lengths are millimetres, stations are measured aft from the leading edge, angles radians; strain is a share.
// The package knows curves and depths, no ribs, and draws nothing. Its limits for strips are the rib file's; its
// table for plywood is the FAA's.
package bend

import (
	"math"

	"ribwright/geom"
	"ribwright/geom/ribfile"
)

// Tier is what bending a strip asks for.
type Tier string

// The tiers, the easiest first.
const (
	Dry   Tier = "dry"   // as it is
	Care  Tier = "care"  // dry, slowly, with straight grain
	Soak  Tier = "soak"  // soaked
	Steam Tier = "steam" // steamed, or laminated of thinner strips
)

// TierOf returns the tier of a ratio of radius to depth. At a limit the easier tier holds.
func TierOf(ratio float64, rules ribfile.Bend) Tier {
	switch {
	case ratio >= rules.Dry:
		return Dry
	case ratio >= rules.Care:
		return Care
	case ratio >= rules.Soak:
		return Soak
	}
	return Steam
}

// Strain returns the stretch of the outermost fibre of a strip whose middle, the neutral line, is bent to a
// radius: half the depth over the radius.
func Strain(depth, radius float64) float64 {
	if radius <= 0 {
		return math.Inf(1)
	}
	return depth / (2 * radius)
}

// Strip is a strip that lies with its outer edge on a curve.
type Strip struct {
	ID       string
	Depth    float64
	Edge     []geom.Pt // the curve, nose to tail
	Radius   float64   // the curve's least radius, and
	RadiusAt float64   // its station
}

// Bend is how a strip is bent where it is bent most. Radii of the strip are those of its middle, half its
// depth inside the curve.
type Bend struct {
	ID     string
	Depth  float64
	Radius float64 // 0 where the curve is tighter than half the depth: no strip goes round
	At     float64 // station
	Place  geom.Pt // on the curve
	Ratio  float64 // Radius over Depth
	Strain float64
	Tier   Tier
	// The stations behind which the whole strip bends dry, with care, and soaked.
	DryFrom, CareFrom, SoakFrom float64
}

// Of returns how a strip is bent.
func Of(s Strip, rules ribfile.Bend) Bend {
	b := Bend{ID: s.ID, Depth: s.Depth, At: s.RadiusAt, Radius: math.Max(0, s.Radius-float64(s.Depth/2))}
	b.Ratio, b.Strain = b.Radius/s.Depth, Strain(s.Depth, b.Radius)
	b.Tier = TierOf(b.Ratio, rules)
	for i, p := range s.Edge {
		if i == 0 || math.Abs(p.X-s.RadiusAt) < math.Abs(b.Place.X-s.RadiusAt) {
			b.Place = p
		}
	}
	turns := newTurns(s.Edge)
	from := func(limit float64) float64 {
		_, x := turns.behind(float64((limit + 0.5) * s.Depth))
		return x
	}
	b.DryFrom, b.CareFrom, b.SoakFrom = from(rules.Dry), from(rules.Care), from(rules.Soak)
	return b
}

// Behind returns the length along the strip's edge from the nose, and the station, behind which the edge is nowhere
// tighter than a radius.
func (s Strip) Behind(radius float64) (arc, station float64) { return newTurns(s.Edge).behind(radius) }

// Laminations returns how many strips of equal thickness make up a depth so that each of them, bent by itself,
// keeps a ratio of radius to thickness. The innermost has the least radius: that of the curve less the depth, plus
// half its own thickness t. With n of them (R − d + t/2)/t ≥ ratio gives n ≥ d·(ratio − 1/2)/(R − d). It returns 0
// where the curve is not wider than the depth.
func Laminations(radius, depth, ratio float64) int {
	inside := radius - depth
	if inside <= 0 {
		return 0
	}
	const hair = 1e-9 // a limit that is just met is met
	return max(1, int(math.Ceil(float64(depth*(ratio-0.5)/inside)-hair)))
}
