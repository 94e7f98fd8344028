package shop

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"ribwright/airfoils"
	"ribwright/export/png"
	"ribwright/export/svg"
)

// wrongClarkY is the Clark Y with 9.15 at 60 % written as 9.51.
func wrongClarkY(t *testing.T) airfoils.Section {
	t.Helper()
	s, found := airfoils.Ordinates([][3]float64{{0, 3.5, 3.5}, {1.25, 5.45, 1.93}, {2.5, 6.5, 1.47}, {5, 7.9, 0.93}, {7.5, 8.85, 0.63},
		{10, 9.6, 0.42}, {15, 10.69, 0.15}, {20, 11.36, 0.03}, {30, 11.7, 0}, {40, 11.4, 0}, {50, 10.52, 0},
		{60, 9.51, 0}, {70, 7.35, 0}, {80, 5.22, 0}, {90, 2.8, 0}, {95, 1.49, 0}, {100, 0.12, 0}})
	if len(found) != 1 || found[0].Code != "section-unfair" || found[0].Key != "section.ordinates[11]" || !strings.Contains(found[0].Message, "9.15: two digits") {
		t.Fatalf("got %v, want the row of the swapped digits", found)
	}
	s.Name = "Clark Y"
	return s
}

func TestCurvatureDrawing(t *testing.T) {
	s := wrongClarkY(t)
	suspects := s.Suspects()
	if len(suspects) != 1 || suspects[0].Cause != airfoils.DigitSwap {
		t.Fatalf("got %+v, want one swap of digits", suspects)
	}
	d := Curvature(s, suspects)
	if err := d.Check(); err != nil {
		t.Fatal(err)
	}
	rings := 0
	for _, p := range d.Sheets[0].Parts {
		for _, it := range p.Items {
			if c, r, ok := it.Path.IsCircle(); ok && it.Layer == layerSuspect {
				rings++
				if want := plotLeft + 0.6*plotWide; math.Abs(r-ringSize) > 1e-9 || math.Abs(c.X-want) > 1e-9 {
					t.Errorf("the ring stands at %v, want x = %v", c, want)
				}
			}
		}
	}
	if rings != 1 {
		t.Errorf("got %d rings, want 1", rings)
	}
	var a, b bytes.Buffer
	if err := svg.Write(&a, d, 0); err != nil || !strings.Contains(a.String(), "likely 9.15 %: two digits") {
		t.Errorf("SVG: %v, or the words are missing", err)
	}
	if err := png.Write(&b, d, 0, 100); err != nil {
		t.Error(err)
	}
}

func TestCurvatureOfNothing(t *testing.T) {
	naca, _ := airfoils.NACA("23012")
	for _, s := range []airfoils.Section{{}, naca} {
		d := Curvature(s, nil)
		if err := d.Check(); err != nil {
			t.Errorf("%q: %v", s.Name, err)
		}
	}
}
