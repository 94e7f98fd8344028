package rib

import (
	"testing"

	"ribwright/geom"
)

// TestSamePlate holds that plates are compared in their own axes, with the hair that a saw takes.
func TestSamePlate(t *testing.T) {
	half := geom.Path{Start: geom.Pt{X: 19}, Segs: []geom.Seg{{End: geom.Pt{X: -19}, Bulge: 1}}, Closed: true}
	placed := func(at geom.Pt, angle float64, outline geom.Path) Gusset {
		return Gusset{Shape: Round, Centre: at, Angle: angle, Outline: geom.Turn(geom.Pt{}, angle).Then(geom.Move(at)).Path(outline)}
	}
	first := placed(geom.Pt{}, 0, half)
	for _, c := range []struct {
		name string
		is   Gusset
		want bool
	}{
		{"elsewhere and turned", placed(geom.Pt{X: 300, Y: 70}, 0.3, half), true},
		{"a hair longer", placed(geom.Pt{X: 300}, 0, geom.Path{Start: geom.Pt{X: 19}, Segs: []geom.Seg{{End: geom.Pt{X: -19.09}, Bulge: 1}}, Closed: true}), true},
		{"longer", placed(geom.Pt{X: 300}, 0, geom.Path{Start: geom.Pt{X: 19}, Segs: []geom.Seg{{End: geom.Pt{X: -19.11}, Bulge: 1}}, Closed: true}), false},
		{"rounder", placed(geom.Pt{X: 300}, 0, geom.Path{Start: geom.Pt{X: 19}, Segs: []geom.Seg{{End: geom.Pt{X: -19}, Bulge: 1.01}}, Closed: true}), false},
		{"whole", placed(geom.Pt{X: 300}, 0, geom.Circle(geom.Pt{}, 19)), false},
	} {
		if got := SamePlate(first, c.is); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
	disc := placed(geom.Pt{}, 0, geom.Circle(geom.Pt{}, 19))
	if !SamePlate(disc, placed(geom.Pt{X: 9}, 1, geom.Circle(geom.Pt{}, 19))) || SamePlate(disc, placed(geom.Pt{}, 0, geom.Circle(geom.Pt{}, 19.01))) {
		t.Error("whole discs are told by their radius")
	}
}
