package shop

import (
	"math"
	"math/rand/v2"
	"testing"

	"ribwright/export"
	"ribwright/geom"
)

func TestQuadWithin(t *testing.T) {
	q := textQuad(centred("SPAR", geom.Pt{X: 10, Y: 20}, 5, math.Pi/2, false), 0)
	for _, c := range []struct {
		a, b geom.Pt
		want bool
	}{
		{geom.Pt{X: 0, Y: 20}, geom.Pt{X: 30, Y: 20}, true},
		{geom.Pt{X: 10, Y: 0}, geom.Pt{X: 10, Y: 5}, false},
		{geom.Pt{X: 10, Y: 20}, geom.Pt{X: 10.1, Y: 20}, true}, // inside altogether
		{geom.Pt{X: 20, Y: 0}, geom.Pt{X: 20, Y: 40}, false},
		{geom.Pt{X: 10, Y: 20}, geom.Pt{X: 10, Y: 20}, true}, // no length
	} {
		if _, _, got := q.within(c.a, c.b); got != c.want {
			t.Errorf("within(%v, %v) = %v, want %v", c.a, c.b, got, c.want)
		}
	}
}

// meets agrees with the common area of the two boxes as polygons, worked out by geom.
func TestQuadMeets(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	met := 0
	for range 5000 {
		var q [2]quad
		var p [2]geom.Ring
		for i := range q {
			u := geom.Polar(7 * r.Float64())
			q[i] = quad{geom.Pt{X: 20 * r.Float64(), Y: 20 * r.Float64()}, u, u.Left(), 1 + 12*r.Float64(), 1 + 5*r.Float64()}
			c := q[i].corners()
			p[i] = c[:]
		}
		area := geom.ConvexRing(p[0], p[1])
		if got := q[0].meets(q[1]); got != (area > 0) && math.Abs(area) > 1e-9 {
			t.Fatalf("%v and %v: meets %v, common area %g", q[0], q[1], got, area)
		}
		if area > 0 {
			met++
		}
	}
	if met < 500 || met > 4500 {
		t.Errorf("%d of 5000 pairs meet: no test of both cases", met)
	}
}

// Labels put at random among random lines: none stands on another one or on an outline, the same each time.
func TestPlacer(t *testing.T) {
	for seed := range uint64(10) {
		var first []export.Text
		for range 2 {
			r := rand.New(rand.NewPCG(seed, 3))
			p, c := newPlacer(), &canvas{}
			for range 60 {
				a := geom.Pt{X: 300 * r.Float64(), Y: 200 * r.Float64()}
				l := geom.Line(a, a.Along(geom.Polar(7*r.Float64()), 80*r.Float64()))
				p.lines.add(l, true)
				c.path(layerStick, l)
			}
			var got []export.Text
			for range 60 {
				at := geom.Pt{X: 300 * r.Float64(), Y: 200 * r.Float64()}
				label, ok := p.place(p.around(single("U12", medium, true), 0, []geom.Pt{at}, up, 4, 0))
				if !ok {
					t.Fatalf("seed %d: no place near %v", seed, at)
				}
				got = append(got, label.texts[0])
				c.text(layerName, label.texts[0])
				a, b := label.leader()
				c.line(layerTable, a, b)
			}
			for _, s := range overlaps(c.items, map[string]bool{layerStick: true}) {
				t.Errorf("seed %d: %s", seed, s)
			}
			if first == nil {
				first = got
			}
			for i := range got {
				if got[i] != first[i] {
					t.Fatalf("seed %d: label %d stands at %v, then at %v", seed, i, first[i].At, got[i].At)
				}
			}
		}
	}
}

func TestGaps(t *testing.T) {
	p := newPlacer()
	p.labels = []quad{boxQuad(geom.NewBox(geom.Pt{X: 6, Y: -1}, geom.Pt{X: 8, Y: 1})), boxQuad(geom.NewBox(geom.Pt{X: 2, Y: -1}, geom.Pt{X: 4, Y: 1})),
		boxQuad(geom.NewBox(geom.Pt{X: 3, Y: -1}, geom.Pt{X: 5, Y: 1}))}
	got := p.gaps(geom.Pt{}, geom.Pt{X: 10})
	want := [][2]float64{{0, 2}, {5, 6}, {8, 10}}
	if len(got) != len(want) {
		t.Fatalf("gaps = %v, want %v", got, want)
	}
	for i, w := range want {
		if math.Abs(got[i][0].X-w[0]) > 1e-12 || math.Abs(got[i][1].X-w[1]) > 1e-12 {
			t.Errorf("gap %d = %v, want %v", i, got[i], w)
		}
	}
	if got := p.gaps(geom.Pt{Y: 5}, geom.Pt{X: 10, Y: 5}); len(got) != 1 {
		t.Errorf("a line beside all labels is parted: %v", got)
	}
}
