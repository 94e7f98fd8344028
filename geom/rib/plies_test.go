package rib_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/rib"
)

// TestPliesByHand holds doubled posts between parallel caps against figures by hand.
func TestPliesByHand(t *testing.T) {
	for _, deg := range []float64{0, 10} {
		for n := 2; n <= 3; n++ {
			r := mustBuild(t, bar(leaning+fmt.Sprintf("tilt = %g\n[stick]\ndepth = 5\nplies = %d\n", deg, n)), "")
			a := deg * math.Pi / 180
			long := (barTop - barBottom) / math.Cos(a)
			if math.Abs(r.StickDepth-5*float64(n)) > 1e-12 || math.Abs(r.PlyDepth()-5) > 1e-12 || len(r.Pieces()) != 2*n {
				t.Fatalf("%d strips: depth %g, a strip's %g, %d pieces", n, r.StickDepth, r.PlyDepth(), len(r.Pieces()))
			}
			for _, s := range r.Sticks {
				if want := float64(n-1) * long * 12; math.Abs(s.PliesMM2-want) > 0.05 {
					t.Errorf("tilt %g: the strips of %s are glued over %.3f mm², want %.3f", deg, s.ID, s.PliesMM2, want)
				}
			}
			for k, p := range r.Pieces() {
				if want := fmt.Sprintf("S%d%c", k/n+1, 'a'+k%n); p.ID != want {
					t.Errorf("piece %d is called %s, want %s", k, p.ID, want)
				}
				if math.Abs(p.Outline.Area()-5*long) > 0.01 || math.Abs(p.LongPoint-long-5*math.Tan(a)) > 2e-3 {
					t.Errorf("tilt %g, %s: %.3f mm², %.4f long, want %.3f and %.4f", deg, p.ID, p.Outline.Area(), p.LongPoint, 5*long, long+5*math.Tan(a))
				}
				for _, e := range p.Ends {
					if len(e.Cuts) != 1 || math.Abs(e.Cuts[0].Angle-a) > 1e-4 || math.Abs(e.Cuts[0].A.Dist(e.Cuts[0].B)-5/math.Cos(a)) > 1e-3 {
						t.Errorf("tilt %g, %s: an end's cuts are %+v", deg, p.ID, e.Cuts)
					}
				}
			}
		}
	}
}

// TestPliesAreOneStick holds that a doubled stick is laid out as one of twice the depth, that its strips make it up without gap
// or overlap, and that a strip's cuts run along its own outline.
func TestPliesAreOneStick(t *testing.T) {
	demo := readFile(t, "../../cmd/ribwright/demo/marsh-wren.toml")
	text := func(stick string) string {
		return strings.Replace(strings.Replace(demo, "depth = 6\nwidth = 12\nmeet", stick+"\nwidth = 12\nmeet", 1), "panels = 10", "panels = 6", 1)
	}
	one, two := mustBuild(t, text("depth = 7"), ""), mustBuild(t, text("depth = 3.5\nplies = 2"), "")
	pieces := map[string][]rib.Stick{}
	for _, p := range two.Pieces() {
		id := strings.TrimRight(p.ID, "ab")
		pieces[id] = append(pieces[id], p)
	}
	for i, s := range one.Sticks {
		o := two.Sticks[i]
		if math.Abs(s.Outline.Area()-geom.CommonArea(s.Outline, o.Outline)) > 1e-6 || s.LongPoint != o.LongPoint || s.PliesMM2 != 0 || o.PliesMM2 <= 0 {
			t.Errorf("%s: as one stick %.3f mm², %.3f long; doubled %.3f, %.3f, glued over %.1f mm²", s.ID, s.Outline.Area(), s.LongPoint, o.Outline.Area(), o.LongPoint, o.PliesMM2)
		}
		p := pieces[s.ID]
		if len(p) != 2 {
			t.Fatalf("%s: %d strips", s.ID, len(p))
		}
		if sum := p[0].Outline.Area() + p[1].Outline.Area(); math.Abs(sum-s.Outline.Area()) > 1e-6 || geom.CommonArea(p[0].Outline, p[1].Outline) > 1e-6 {
			t.Errorf("%s: its strips are %.4f mm² together, want %.4f", s.ID, sum, s.Outline.Area())
		}
		seam := 0.0 // the edge that both strips have
		for k, a := range p[0].Outline {
			b := p[0].Outline[(k+1)%len(p[0].Outline)]
			if geom.Distance(a.Lerp(b, 0.5), p[1].Outline, true) < 1e-6 {
				seam += a.Dist(b)
			}
		}
		if math.Abs(seam*12-o.PliesMM2) > 0.5 {
			t.Errorf("%s: the strips are glued over %.3f mm², and touch over %.3f", s.ID, o.PliesMM2, seam*12)
		}
		for _, q := range p {
			if math.Max(p[0].LongPoint, p[1].LongPoint) > s.LongPoint+1e-9 {
				t.Errorf("%s is longer than the stick", q.ID)
			}
			for _, e := range q.Ends {
				for _, c := range e.Cuts {
					if geom.Distance(c.A, q.Outline, true) > 1e-6 || geom.Distance(c.B, q.Outline, true) > 1e-6 {
						t.Errorf("%s: a cut runs off its outline", q.ID)
					}
				}
			}
		}
	}
	for i, g := range one.Gussets {
		for id, a := range g.GlueMM2 {
			if math.Abs(a-two.Gussets[i].GlueMM2[id]) > 1e-9 {
				t.Errorf("plate %s, %s: %g mm², doubled %g", g.ID, id, a, two.Gussets[i].GlueMM2[id])
			}
		}
	}
	if len(one.Pieces()) != len(one.Sticks) {
		t.Error("sticks of one strip are pieces themselves")
	}
}
