package airfoils

import (
	"math"
	"slices"
	"testing"

	"ribwright/geom"
)

// Half way from NACA 4415 to 4409 stands NACA 4412.
func TestBlendOfOneFamily(t *testing.T) {
	s, want := Blend(mustNACA(t, "4415"), mustNACA(t, "4409"), 0.5), mustNACA(t, "4412")
	if s.Name != "NACA 4415 to NACA 4409, 50 %" || s.Source != report460 || len(s.Stations()) != 18 {
		t.Errorf("%q, %q, %v", s.Name, s.Source, s.Stations())
	}
	u, l := s.Contour(1000, 1e-3)
	got := off(want, 1000, u, l)
	t.Logf("%.5f mm off NACA 4412 on a chord of 1,000", got)
	if got > 0.01 { // 0.1 % of the chord is 1 mm
		t.Errorf("%.4f mm off NACA 4412", got)
	}
}

// pairs are sections of all kinds: equations, tables with a drawn and a given nose, a blunt one, an
// outline that hangs over its leading edge, an opened tail, a blend.
func pairs(t *testing.T) []Section {
	clark, _ := Builtin("clark-y")
	goe, _ := Builtin("goe-387")
	round, found := clark.WithNose(0.0125, 0)
	if len(found) > 0 {
		t.Fatal(found)
	}
	open, _ := goe.WithTail(0.01)
	blunt, _ := Ordinates([][3]float64{{0, 1, -1}, {2.5, 3, -2}, {10, 7, -5}, {30, 9, -5}, {60, 6, -3}, {100, .1, -.1}})
	return []Section{mustNACA(t, "4415"), mustNACA(t, "23012"), clark, open, round, blunt, outline(t), Blend(clark, mustNACA(t, "0009"), 0.4)}
}

// At the shares 0 and 1 the blend is the given section; close to them it is close to it, and all between has
// depths that go from one to the other in one direction, and sides that neither cross nor stop.
func TestBlendOfAll(t *testing.T) {
	all := pairs(t)
	for i, a := range all {
		for k, b := range all {
			if i == k {
				continue
			}
			for share, want := range map[float64]Section{0: a, 1: b, -1: a, 2: b} {
				s := Blend(a, b, share)
				u, l := s.Contour(1000, 0.01)
				wu, wl := want.Contour(1000, 0.01)
				if !slices.Equal(u, wu) || !slices.Equal(l, wl) {
					t.Errorf("%s, %s at %v is not the section given", a.Name, b.Name, share)
				}
			}
			near(t, a, b, 1e-9, a)
			near(t, a, b, 1-1e-9, b)
			half := Blend(a, b, 0.5)
			for _, x := range []float64{0.02, 0.1, 0.3, 0.5, 0.7, 0.9, 0.98} {
				ua, la, _ := a.At(x)
				ub, lb, _ := b.At(x)
				u, l, ok := half.At(x)
				if da, db, d := ua-la, ub-lb, u-l; !ok || d < math.Min(da, db)-0.0005 || d > math.Max(da, db)+0.0005 || math.Abs(2*d-da-db) > 0.003 {
					t.Errorf("%s: depth %.5f at %v, want midway between %.5f and %.5f", half.Name, d, x, da, db)
				}
			}
		}
	}
}

// near holds the blend's contour at a share next to 0 or 1 against the section that it nearly is.
func near(t *testing.T, a, b Section, share float64, want Section) {
	t.Helper()
	s := Blend(a, b, share)
	u, l := s.Contour(1000, 0.005)
	wu, wl := want.Contour(1000, 0.005)
	if u[0] != l[0] {
		t.Errorf("%s: the sides begin at %v and %v", s.Name, u[0], l[0])
	}
	ring := append(slices.Clone(wu), wl...)
	slices.Reverse(ring[:len(wu)])
	worst := 0.0
	for _, p := range append(u, l...) {
		worst = math.Max(worst, offLine(p, ring))
	}
	back := append(slices.Clone(u), l...)
	slices.Reverse(back[:len(u)])
	for _, p := range ring {
		worst = math.Max(worst, offLine(p, back))
	}
	if limit := 0.0101; worst > limit && s.mix != nil {
		t.Errorf("%s at %v: %.4f mm from %s", s.Name, share, worst, want.Name)
	}
}

func TestBlendDepthIsMonotone(t *testing.T) {
	clark, _ := Builtin("clark-y")
	a, b := mustNACA(t, "4415"), clark
	for _, x := range []float64{0.0125, 0.05, 0.2, 0.4, 0.8, 0.95} {
		before := 0.0
		for k := 0; k <= 20; k++ {
			u, l, _ := Blend(b, a, float64(k)/20).At(x)
			if k > 0 && u-l <= before {
				t.Errorf("at %v the depth does not grow from share %v on: %v, %v", x, float64(k-1)/20, before, u-l)
			}
			before = u - l
		}
	}
	for _, s := range []Section{Blend(Section{}, a, 0.5), Blend(a, Section{}, 0.5)} {
		if u, _ := s.Contour(1000, geom.Flat); u != nil || len(s.Upper) > 0 {
			t.Error("a blend with nothing is not empty")
		}
	}
}

func BenchmarkBlendContour(b *testing.B) {
	clark, _ := Builtin("clark-y")
	s := Blend(clark, mustNACA(b, "4412"), 0.5)
	for b.Loop() {
		s.Contour(1400, geom.Flat)
	}
}
