package airfoils

import (
	"math"
	"sort"

	"ribwright/geom"
	"ribwright/geom/finding"
)

// The leading edge of a table whose radius is given.
//
// Laid along the radius through the leading edge, and drawn over u = √x, a round nose is a smooth line y(u)
// through u = 0 with the slope √(2R): x = y²/2R near the nose, the circle of radius R. So each side is one
// cubic spline y(u) through all points of the table, clamped to that slope at the nose and natural at
// the tail. Both sides have the radius R at the leading edge, and no joint.

// How many times a given radius may be larger or smaller than the one that the table's first points suggest,
// before it is doubted, and before it is refused: the two then do not belong together.
const (
	noseDoubt  = 2.0
	noseRefuse = 4.0
)

// WithNose returns the section of a table with the leading-edge radius given in the plans, a share of the
// chord. slope is that of the radius drawn through the leading edge, against the chord; 0: not given, it is
// taken from the table's points. All points of the table stay on the contour. Findings have the key
// "section.nose_radius"; where one is an error the section is returned as it was.
func (s Section) WithNose(radius, slope float64) (Section, []finding.Finding) {
	tell := func(severity finding.Severity, message, fix string) []finding.Finding {
		return []finding.Finding{{Severity: severity, Code: "section-nose", Key: "section.nose_radius", Message: message, Fix: fix}}
	}
	out := s
	out.NoseRadius, out.NoseSlope = radius, slope
	switch {
	case s.eq.t > 0 || s.mix != nil:
		return s, tell(finding.Error, "The section has its nose from its equations.", "Take nose_radius out; it belongs to tables of ordinates.")
	case !(radius > 0 && radius <= 0.2) || math.IsNaN(slope) || math.Abs(slope) > 1:
		return s, tell(finding.Error, "The nose radius is not between 0 and a fifth of the chord.", "Give the radius that the plans print for the leading edge; mind the unit.")
	case len(s.Upper) < 2 || len(s.Lower) < 2:
		return s, nil
	case s.Upper[0] != s.Lower[0]:
		return s, tell(finding.Error, "The table has two ordinates at its leading edge, and a nose radius is given: a nose is cut straight or it is round.",
			"Take nose_radius out, or give one ordinate at station 0.")
	}
	upper, lower, ok := out.noseLines()
	if !ok {
		return s, tell(finding.Error, "The table's points draw the nose themselves, up to the leading edge and ahead of it; a nose radius has no place among them.",
			"Take nose_radius out, or the points closest to the leading edge.")
	}
	table, apart := suggested(upper, lower, radius)
	if apart <= noseDoubt {
		return out, nil
	}
	message := "The nose radius does not suit the table: its first points are those of a radius near " +
		plain(math.Round(table*1e4)/100) + " % of the chord, and " + plain(math.Round(radius*1e4)/100) + " % is given."
	const fix = "Look for a slip in nose_radius, or in its unit."
	if !(apart <= noseRefuse) {
		return s, tell(finding.Error, message, fix)
	}
	return out, tell(finding.Warning, message, fix)
}

// suggested returns the nose radius of the table's first points, and how many times the given one is larger
// or smaller: near the nose y/√x is √(2R).
func suggested(upper, lower *clamped, radius float64) (table, apart float64) {
	rise := (upper.v[1]/upper.u[1] + lower.v[1]/lower.u[1]) / 2
	table = float64(float64(rise*rise) / 2)
	return table, math.Max(radius/table, table/radius)
}

// noseSides draws a table whose nose radius is given. It is not ok where the radius cannot be the table's.
func (s Section) noseSides(chord float64) (upper, lower side, ok bool) {
	u, l, ok := s.noseLines()
	if !ok {
		return side{}, side{}, false
	}
	if _, apart := suggested(u, l, s.NoseRadius); !(apart <= noseRefuse) {
		return side{}, side{}, false
	}
	along := geom.Polar(math.Atan(s.noseSlope()))
	draw := func(line *clamped, sign float64) side {
		return side{breaks: line.u, curve: func(t float64) geom.Pt {
			p := s.Upper[0].Along(along, float64(t*t)).Along(along.Left(), float64(sign*line.at(t)))
			return p.Mul(chord)
		}}
	}
	return draw(u, 1), draw(l, -1), true
}

// noseLines returns both sides over u = √x, laid along the radius through the leading edge; the lower one
// is mirrored, so that both rise from 0. They are not ok where a point stands ahead of the one before it.
func (s Section) noseLines() (upper, lower *clamped, ok bool) { return s.noseLinesAt(s.noseSlope()) }

// noseSlope returns the slope of the radius through the leading edge: the one given, else the one at which the
// nose's axis does not bend at the leading edge, so that both sides leave it with the same second derivative.
func (s Section) noseSlope() float64 {
	if s.NoseSlope != 0 {
		return s.NoseSlope
	}
	bend := func(slope float64) (float64, bool) {
		u, l, ok := s.noseLinesAt(slope)
		if !ok {
			return 0, false
		}
		return u.bendAtNose() - l.bendAtNose(), true
	}
	const step, steps, halvings = 0.05, 20, 40
	best, found := 0.0, false
	for k := -steps; k < steps; k++ { // of several axes the flattest
		lo, hi := float64(step*float64(k)), float64(step*float64(k+1))
		a, ok := bend(lo)
		b, ok2 := bend(hi)
		if !ok || !ok2 || (a > 0) == (b > 0) || found && math.Abs(lo) > math.Abs(best) {
			continue
		}
		for range halvings {
			mid := (lo + hi) / 2
			if m, ok := bend(mid); ok && (m > 0) == (a > 0) {
				lo = mid
			} else {
				hi = mid
			}
		}
		best, found = (lo+hi)/2, true
	}
	return float64(math.Round(best*1e9)/1e9) + 0
}

// bendAtNose is the spline's second derivative at its first point.
func (c *clamped) bendAtNose() float64 {
	h := c.u[1] - c.u[0]
	return (float64(6*(c.v[1]-c.v[0]))/h - float64(4*c.slope[0]) - float64(2*c.slope[1])) / h
}

func (s Section) noseLinesAt(slope float64) (upper, lower *clamped, ok bool) {
	if len(s.Upper) < 2 || len(s.Lower) < 2 || s.Upper[0] != s.Lower[0] {
		return nil, nil, false
	}
	along := geom.Polar(math.Atan(slope))
	line := func(pts []geom.Pt, sign float64) *clamped {
		c := &clamped{}
		for i, p := range pts {
			d := p.Sub(pts[0])
			x := d.Dot(along)
			if i > 0 && !(x > 0 && math.Sqrt(x) > c.u[i-1]) {
				return nil
			}
			c.u, c.v = append(c.u, math.Sqrt(x)), append(c.v, float64(sign*d.Dot(along.Left())))
		}
		c.fit(math.Sqrt(2 * s.NoseRadius))
		return c
	}
	upper, lower = line(s.Upper, 1), line(s.Lower, -1)
	return upper, lower, upper != nil && lower != nil
}

// clamped is a cubic spline v(u) with a given slope at its first point and no curvature at its last.
type clamped struct{ u, v, slope []float64 }

// fit finds the slopes at the points: those between have one second derivative on both sides,
//
//	m[i−1]/h[i−1] + 2 m[i] (1/h[i−1] + 1/h[i]) + m[i+1]/h[i] = 3 (d[i−1]/h[i−1] + d[i]/h[i]),
//
// with h the steps and d the slopes of their chords, and m[n−1] + 2 m[n] = 3 d[n−1] at the end. The system is
// tridiagonal and is solved downward, then back.
func (c *clamped) fit(first float64) {
	n := len(c.u) - 1
	c.slope = make([]float64, n+1)
	factor := make([]float64, n+1) // what m[i+1] takes part with in m[i]
	c.slope[0] = first
	step := func(i int) (h, d float64) {
		h = c.u[i+1] - c.u[i]
		return h, (c.v[i+1] - c.v[i]) / h
	}
	for i := 1; i <= n; i++ {
		h0, d0 := step(i - 1)
		below, diagonal, above, right := 1.0, 2.0, 0.0, float64(3*d0)
		if i < n {
			h1, d1 := step(i)
			below, above = 1/h0, 1/h1
			diagonal, right = float64(2*(below+above)), float64(3*(d0/h0+d1/h1))
		}
		pivot := diagonal - float64(below*factor[i-1])
		factor[i] = above / pivot
		c.slope[i] = (right - float64(below*c.slope[i-1])) / pivot
	}
	for i := n - 1; i > 0; i-- {
		c.slope[i] -= float64(factor[i] * c.slope[i+1])
	}
}

// at returns the spline's value; outside it goes on in a straight line.
func (c *clamped) at(u float64) float64 {
	n := len(c.u) - 1
	if u >= c.u[n] {
		return c.v[n] + float64((u-c.u[n])*c.slope[n])
	}
	i := max(0, min(sort.SearchFloat64s(c.u, u)-1, n-1))
	h := c.u[i+1] - c.u[i]
	t := (u - c.u[i]) / h
	r := 1 - t
	return float64(r*r*(1+float64(2*t))*c.v[i]) + float64(t*t*(1+float64(2*r))*c.v[i+1]) +
		float64(h*t*r*(float64(r*c.slope[i])-float64(t*c.slope[i+1])))
}
