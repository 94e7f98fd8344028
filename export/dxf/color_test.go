package dxf

import (
	"encoding/json"
	"math"
	"testing"

	"ribwright/export"
	"ribwright/geom/outside"
)

// TestPalette holds the numbers' colours against those of ezdxf, but for the two darkest shades of each hue:
// some of its figures there stand 50 off their neighbours on the circle. Above 249 readers disagree.
func TestPalette(t *testing.T) {
	python := outside.Python(t, "ezdxf")
	var want [][3]float64
	out := outside.Run(t, python, "-c", "import json; from ezdxf.colors import aci2rgb; print(json.dumps([tuple(aci2rgb(n)) for n in range(1, 250)]))")
	if err := json.Unmarshal([]byte(out), &want); err != nil {
		t.Fatal(err)
	}
	for i, w := range want {
		got := palette(i + 1)
		if n := i + 1; n > 9 && n%10 > 5 {
			continue
		}
		for k := range got {
			if math.Abs(got[k]-w[k]) > 2 {
				t.Errorf("colour %d: got %v, want %v", i+1, got, w)
				break
			}
		}
	}
}

func TestColour(t *testing.T) {
	for _, c := range []struct {
		pen  export.Pen
		want int
	}{
		{export.Pen{}, 7}, {export.Pen{Gray: 0.5}, 8}, {export.Pen{Gray: 0.75}, 9}, {export.Pen{Gray: 0.75, Color: "black"}, 7},
		{export.Pen{Color: "red"}, 1}, {export.Pen{Color: "magenta"}, 6}, {export.Pen{Color: "#ff8000"}, 30}, {export.Pen{Color: "#000000"}, 7},
		{export.Pen{Color: "#0000fe"}, 5}, {export.Pen{Color: "#818181"}, 8}, {export.Pen{Color: "#c8c8c8"}, 9},
	} {
		if got := colour(c.pen); got != c.want {
			t.Errorf("%+v: got %d, want %d", c.pen, got, c.want)
		}
	}
}
