package geom

import (
	"math"
	"math/rand"
	"testing"
)

// TestCoincident justifies 1e-6 mm. Above it: what rounding leaves between two ways to one point, even 10 m
// from the origin and after a dozen maps, is a thousandth of it. Below it: the finest step that is
// written is a hundred times as long, so that no two points which a file tells apart are taken for one.
func TestCoincident(t *testing.T) {
	r := rand.New(rand.NewSource(19))
	worst := 0.0
	for k := 0; k < 1000; k++ {
		p := Pt{1e4 * r.Float64(), 1e4 * r.Float64()}
		there, back := Identity, Identity
		for i := 0; i < 6; i++ {
			c, a, v := Pt{1e4 * r.Float64(), 1e4 * r.Float64()}, 7*r.Float64(), Pt{1e4 * r.Float64(), -1e4 * r.Float64()}
			there = there.Then(Turn(c, a)).Then(Move(v))
			back = Move(v.Mul(-1)).Then(Turn(c, -a)).Then(back)
		}
		worst = math.Max(worst, back.Pt(there.Pt(p)).Dist(p))
	}
	if worst > Coincident/1000 {
		t.Errorf("rounding leaves %g mm, want at most a thousandth of %g", worst, Coincident)
	}
	if Coincident > Step/100 {
		t.Errorf("Coincident %g is not far below Step %g", Coincident, Step)
	}
}

// TestFlat justifies 0.005 mm. It is what Flatten keeps; it is a twentieth of a laser's kerf of 0.1 mm
// (common practice, no source); it costs the smallest plate about a thousandth of its area, which is less than
// the saw does; and it is no finer than it need be: a large plate is still fewer than 180 chords.
func TestFlat(t *testing.T) {
	r := rand.New(rand.NewSource(20))
	for k := 0; k < 300; k++ {
		for _, tol := range []float64{Flat, Step, 0.1} {
			a, b, bulge := Pt{100 * r.Float64(), 0}, Pt{100 * r.Float64(), 50 * r.Float64()}, 4*r.Float64()-2
			if k%10 == 0 {
				b = a.Along(Polar(r.Float64()), 0.02*r.Float64()) // smaller than the tolerance, nearly
			}
			c, rad, _, _ := Arc(a, b, bulge)
			pts := Path{Start: a, Segs: []Seg{{b, bulge}}}.Flatten(tol)
			if pts[0] != a || pts[len(pts)-1] != b {
				t.Errorf("ends: got %v and %v, want %v and %v", pts[0], pts[len(pts)-1], a, b)
			}
			for i := 1; i < len(pts); i++ {
				if off := rad - pts[i-1].Lerp(pts[i], 0.5).Dist(c); off > tol*(1+1e-9)+1e-12 && rad > tol {
					t.Errorf("arc of radius %g, tolerance %g: chord %d is %g off", rad, tol, i, off)
				}
			}
		}
	}
	for _, bulge := range []float64{1e-15, 1e-9, -1e-300} { // all but straight: no more than it takes
		if got := (Path{Segs: []Seg{{Pt{1000, 0}, bulge}}}).Flatten(Flat); len(got) != 2 {
			t.Errorf("bulge %g: got %d points, want 2", bulge, len(got))
		}
	}
	small, large := Circle(Pt{}, 6), Circle(Pt{}, 30) // plates 12 and 60 mm across
	if got := 1 - Ring(small.Flatten(Flat)).Area()/small.Area(); got > 1.2e-3 {
		t.Errorf("a 12 mm plate loses %g of its area", got)
	}
	if got := len(large.Flatten(Flat)); got > 180 {
		t.Errorf("a 60 mm plate has %d chords", got)
	}
}

// TestStep justifies 1e-4 mm, four decimals. Rounding to it moves no point by a measurable amount: a 2 m
// contour of 400 points changes its length and its enclosed area by less than a millionth; it is a
// fiftieth of Flat, so that it spoils no chord; and a length of 10 m still has only nine digits,
// which every reader of files keeps.
func TestStep(t *testing.T) {
	pts := Ring(distinct(naca4(0.04, 0.4, 0.12, 2000, -0.1015, 200), true))
	out := make(Ring, len(pts))
	for i, p := range pts {
		out[i] = Pt{math.Round(p.X/Step) * Step, math.Round(p.Y/Step) * Step}
		if d := out[i].Dist(p); d > Step {
			t.Errorf("%v moved by %g", p, d)
		}
	}
	near(t, "area, as a share", out.Area()/pts.Area(), 1, 1e-6)
	near(t, "length, as a share", out.Girth()/pts.Girth(), 1, 1e-6)
	if Step > Flat/50 || 1e4/Step >= 1e9 {
		t.Errorf("Step %g: a fiftieth of Flat %g, nine digits for 10 m", Step, Flat)
	}
}
