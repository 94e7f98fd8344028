package airfoils

import (
	"math"
	"testing"

	"ribwright/geom"
)

// TestNoseSlope holds that a nose radius given alone finds its axis in the table's points: the slope of the
// radius through the leading edge that NACA Report 824 prints for the family, and a contour nearer to the
// equation than without the radius.
func TestNoseSlope(t *testing.T) {
	for _, c := range []struct {
		code          string
		radius, slope float64 // of the chord; printed slope
	}{{"0012", 0.0158, 0}, {"2412", 0.0158, 0.1}, {"4412", 0.0158, 0.2}, {"4424", 0.0633, 0.2}, {"23012", 0.0158, 0.305}, {"23018", 0.0356, 0.305}} {
		eq, _ := NACA(c.code)
		s := Section{Name: c.code}
		for _, st := range customary {
			up, lo, _ := eq.At(st / 100)
			if st == 0 {
				up, lo = 0, 0 // as printed
			}
			round := func(v float64) float64 { return math.Round(v*1e4) / 1e4 }
			s.Upper = append(s.Upper, geom.Pt{X: st / 100, Y: round(up)})
			s.Lower = append(s.Lower, geom.Pt{X: st / 100, Y: round(lo)})
		}
		with, found := s.WithNose(c.radius, 0)
		if len(found) > 0 {
			t.Errorf("%s: %v", c.code, found)
		}
		if got := with.noseSlope(); math.Abs(got-c.slope) > 0.01 {
			t.Errorf("%s: slope %.4f, want %g", c.code, got, c.slope)
		}
		if without, given := offEquation(s, eq), offEquation(with, eq); given > without {
			t.Errorf("%s: %.3f %% of the chord off with the radius, %.3f without", c.code, given, without)
		}
	}
}

// offEquation is the largest distance of a section's contour from another's, percent of the chord.
func offEquation(s, eq Section) float64 {
	worst := 0.0
	up, lo := s.Contour(1000, 1e-3)
	eqUp, eqLo := eq.Contour(1000, 1e-3)
	for _, p := range append(up, lo...) {
		worst = math.Max(worst, math.Min(geom.Distance(p, eqUp, false), geom.Distance(p, eqLo, false)))
	}
	return worst / 10
}
