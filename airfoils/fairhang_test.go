package airfoils

import (
	"fmt"
	"math"
	"testing"

	"ribwright/geom/finding"
)

// unfairOf returns the points told of a table that an equation gave at n + 1 cosine-spaced stations, or at the customary
// ones (n = 0), in percent with the decimals given.
func unfairOf(t *testing.T, code string, n, decimals int) (told []finding.Finding) {
	t.Helper()
	stations := []float64{0, 1.25, 2.5, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 95, 100}
	if n > 0 {
		stations = nil
		for i := range n + 1 {
			stations = append(stations, 50*(1-math.Cos(math.Pi*float64(i)/float64(n))))
		}
	}
	s, k := mustNACA(t, code), math.Pow10(decimals)
	var rows [][3]float64
	for _, x := range stations {
		u, l, _ := s.At(x / 100)
		if x == 0 {
			u, l = 0, 0
		}
		rows = append(rows, [3]float64{x, math.Round(100*u*k) / k, math.Round(100*l*k) / k})
	}
	_, found := Ordinates(rows)
	for _, f := range found {
		if f.Code == "section-unfair" {
			told = append(told, f)
		}
	}
	return told
}

// TestHangingNose holds that good tables of sections whose noses hang over their leading edge are not accused, in the
// spacings that people have them in.
func TestHangingNose(t *testing.T) {
	for _, code := range []string{"4424", "4421", "23012", "23024", "21012", "25012"} {
		for _, n := range []int{0, 15, 40, 60} {
			for _, decimals := range []int{2, 4} {
				if told := unfairOf(t, code, n, decimals); len(told) > 0 {
					t.Errorf("NACA %s, %s, %d decimals: %v", code, fmt.Sprintf("%d spaces", n), decimals, told)
				}
			}
		}
	}
}
