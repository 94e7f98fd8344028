package airfoils

import (
	"math"
	"testing"
)

// TestCurvature holds the nose's curvature against the leading-edge radius of NACA Report 460, 1.1019 t²,
// and a circle's against its own.
func TestCurvature(t *testing.T) {
	s, _ := NACA("0012")
	up, lo := s.Curvature()
	if got, want := up[0].Curvature*1.1019*0.12*0.12, 1.0; math.Abs(got-want) > 0.03 {
		t.Errorf("NACA 0012: the nose's curvature is %v of that of its radius", got)
	}
	for i := range up {
		if d := math.Abs(up[i].Curvature - lo[i].Curvature); d > 1e-6*math.Abs(up[i].Curvature)+1e-6 {
			t.Errorf("NACA 0012 at %v: %v above, %v below", up[i].Station, up[i].Curvature, lo[i].Curvature)
		}
	}
	var rows [][3]float64
	for i := range 41 {
		a := math.Pi * float64(i) / 40
		rows = append(rows, [3]float64{50 - 50*math.Cos(a), 50 * math.Sin(a), -50 * math.Sin(a)})
	}
	circle, found := Ordinates(rows)
	up, _ = circle.Curvature()
	for _, b := range up {
		if b.Station < 0.9 && math.Abs(b.Curvature-2) > 0.02 {
			t.Errorf("circle at %v: got %v, want 2 (%v)", b.Station, b.Curvature, found)
		}
	}
}
