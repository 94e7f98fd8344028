package airfoils

import (
	"math"
	"strings"
	"testing"
)

// What the sections are known for, read off their tables: thickness and the greatest ordinate's station in
// percent of the chord.
func TestBuiltins(t *testing.T) {
	want := map[string]struct{ thickness, at float64 }{
		"clark-y": {11.70, 30}, "clark-y-14": {14.00, 30}, "curtiss-c-72": {11.73, 30}, "goe-387": {14.85, 30},
		"m6": {12.01, 34}, "n-22": {12.37, 30}, "usa-35b": {11.61, 30},
	}
	infos := Builtins()
	if len(infos) != len(want) {
		t.Errorf("%d sections, want %d", len(infos), len(want))
	}
	for _, i := range infos {
		w := want[i.Name]
		t.Logf("%-13s %-13s thickness %.2f %% at %.0f %%, camber %.2f %% at %.0f %%, flat %.0f %%", i.Name, i.Title,
			100*i.Thickness, 100*i.ThicknessAt, 100*i.Camber, 100*i.CamberAt, 100*i.FlatShare)
		if math.Abs(100*i.Thickness-w.thickness) > 0.1 || math.Abs(100*i.ThicknessAt-w.at) > 4 {
			t.Errorf("%s: thickness %.2f %% at %.1f %%, want %v", i.Name, 100*i.Thickness, 100*i.ThicknessAt, w)
		}
		if i.Title == "" || i.Datum == "" || i.Source == "" || strings.HasPrefix(i.Datum, "Datum") || i.Camber < 0.01 || i.Camber > 0.07 {
			t.Errorf("%+v", i)
		}
	}
}

// Clark Y-14 is Clark Y with every ordinate multiplied by 14/11.70, to the last digit printed.
func TestClarkY14(t *testing.T) {
	y, _ := Builtin("clark-y")
	thick, _ := Builtin("Clark Y-14")
	for i, p := range y.Upper {
		for _, pair := range [][2]float64{{p.Y, thick.Upper[i].Y}, {y.Lower[i].Y, thick.Lower[i].Y}} {
			if got := pair[0] * 14 / 11.70; math.Abs(got-pair[1]) > 0.00011 {
				t.Errorf("at %v: %.4f, the table has %v", p.X, got, pair[1])
			}
		}
	}
}
