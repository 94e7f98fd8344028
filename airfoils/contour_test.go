package airfoils

import (
	"math"
	"os"
	"slices"
	"testing"

	"ribwright/geom"
)

// onContour checks that every point of the table is a vertex of the contour, and that the sides begin together.
func onContour(t *testing.T, name string, s Section, chord float64) {
	t.Helper()
	u, l := s.Contour(chord, geom.Flat)
	if len(u) == 0 || len(l) == 0 || u[0] != l[0] {
		t.Errorf("%s: the sides do not begin together", name)
		return
	}
	for _, c := range []struct{ line, table []geom.Pt }{{u, s.Upper}, {l, s.Lower}} {
		for _, p := range c.table {
			if !slices.Contains(c.line, p.Mul(chord)) {
				t.Errorf("%s: %v is not on the contour", name, p)
			}
		}
		if c.line[len(c.line)-1] != c.table[len(c.table)-1].Mul(chord) {
			t.Errorf("%s: the contour ends at %v", name, c.line[len(c.line)-1])
		}
	}
}

// tableOf returns an equation's points as a table: n cosine-spaced points on each side, and the nose.
func tableOf(s Section, n int) Section {
	out := Section{Upper: []geom.Pt{{}}, Lower: []geom.Pt{{}}}
	for k := 1; k <= n; k++ {
		u := math.Sqrt((1 - math.Cos(math.Pi*float64(k)/float64(n))) / 2)
		out.Upper = append(out.Upper, s.eq.point(u))
		out.Lower = append(out.Lower, s.eq.point(-u))
	}
	return out
}

// off returns the largest distance of the exact contour from the polylines, mm.
func off(s Section, chord float64, u, l []geom.Pt) float64 {
	worst := 0.0
	for k := -4000; k <= 4000; k++ {
		p, line := s.eq.point(float64(k)/4000).Mul(chord), u
		if k < 0 {
			line = l
		}
		best := math.Inf(1)
		for i := 1; i < len(line); i++ {
			a, d := line[i-1], line[i].Sub(line[i-1])
			f := math.Max(0, math.Min(1, p.Sub(a).Dot(d)/d.Dot(d)))
			best = math.Min(best, p.Dist(a.Along(d, f)))
		}
		worst = math.Max(worst, best)
	}
	return worst
}

// The spline through a section's points against the section: 80 points in all on a chord of 300 mm, and 60
// cosine-spaced points a side on 1,500 mm. (With 60 in all it is 0.055 mm off on that chord, at the nose.)
func TestSplineAgainstEquation(t *testing.T) {
	for _, c := range []struct {
		points       int // a side
		chord, limit float64
	}{{40, 300, 0.004}, {60, 1500, 0.03}} {
		for _, code := range []string{"0012", "2412", "4412"} {
			s := mustNACA(t, code)
			u, l := tableOf(s, c.points).Contour(c.chord, 1e-4)
			got := off(s, c.chord, u, l)
			t.Logf("NACA %s, %d points a side, chord %v: %.4f mm", code, c.points, c.chord, got)
			if got > c.limit {
				t.Errorf("NACA %s, %d points a side, chord %v: the spline is %.4f mm off, want at most %v", code, c.points, c.chord, got, c.limit)
			}
		}
	}
}

// The flattened contour keeps to its tolerance.
func TestContourTolerance(t *testing.T) {
	for _, code := range []string{"0012", "4412", "9221"} {
		s := mustNACA(t, code)
		for _, tol := range []float64{1, 0.1, geom.Flat} {
			u, l := s.Contour(1400, tol)
			if got := off(s, 1400, u, l); got > tol {
				t.Errorf("NACA %s: %.5f mm off with a tolerance of %v", code, got, tol)
			}
		}
	}
}

func outline(t testing.TB) Section {
	t.Helper()
	data, err := os.ReadFile(corpus + "/good-outline-1400.csv")
	if err != nil {
		t.Fatal(err)
	}
	s, found := Read("outline.csv", data)
	if len(found) > 0 {
		t.Fatal(found)
	}
	return s
}

// A dense outline is split at its leading edge, though the upper side hangs over it.
func TestOutline(t *testing.T) {
	s := outline(t)
	if s.Upper[0] != (geom.Pt{}) || s.Lower[0] != (geom.Pt{}) {
		t.Errorf("the sides begin at %v and %v, want the origin", s.Upper[0], s.Lower[0])
	}
	if a, b := s.Upper[200], s.Lower[200]; a != (geom.Pt{X: 1}) || b != a {
		t.Errorf("the sides end at %v and %v, want (1, 0)", a, b)
	}
	if s.Upper[1].X >= 0 {
		t.Errorf("the upper side's second point is %v, want it ahead of the leading edge", s.Upper[1])
	}
	onContour(t, "outline", s, 1400)
	if got := len(s.Stations()); got != len(customary) {
		t.Errorf("%d stations, want the customary ones", got)
	}
}

func TestClarkY(t *testing.T) {
	s, found := Builtin("clark-y")
	if len(found) > 0 {
		t.Fatal(found)
	}
	if s.Name != "Clark Y" || s.Source == "" || len(s.Stations()) != 17 {
		t.Errorf("name %q, source %q, stations %v", s.Name, s.Source, s.Stations())
	}
	onContour(t, "Clark Y", s, 1400)
	u, l := s.Contour(1000, geom.Flat)
	if u[0] != (geom.Pt{Y: 35}) {
		t.Errorf("the leading edge is at %v, want (0, 35)", u[0])
	}
	for _, p := range l {
		if p.X >= 300 && math.Abs(p.Y) > 0.05 {
			t.Errorf("the flat side stands at %v", p)
		}
	}
	if _, found := Builtin("Clark Y"); len(found) > 0 {
		t.Error(found)
	}
	for _, name := range []string{"", "no-such", "../section", "clark-y.txt"} {
		if s, found := Builtin(name); len(found) != 1 || found[0].Key != "section.builtin" || len(s.Upper) > 0 {
			t.Errorf("Builtin(%q): %v", name, found)
		}
	}
	for _, name := range BuiltinNames() {
		if s, found := Builtin(name); len(found) > 0 || s.Source == "" || len(s.Upper) == 0 {
			t.Errorf("%s: %v, source %q", name, found, s.Source)
		}
	}
}

// A nose with two ordinates is cut straight: nothing of it stands ahead of the first station.
func TestBluntNose(t *testing.T) {
	for _, half := range []float64{0.01, 1, 4} {
		rows := [][3]float64{{0, half, -half}, {2.5, half + 2, -half - 1}, {10, 7, -5}, {30, 9, -5}, {60, 6, -3}, {100, .1, -.1}}
		s, found := Ordinates(rows)
		if len(found) != 1 || found[0].Code != "section-blunt" || found[0].Key != "section.ordinates[0]" {
			t.Errorf("half %v: %v, want a note", half, found)
		}
		onContour(t, "blunt", s, 1000)
		u, l := s.Contour(1000, geom.Flat)
		if u[0] != (geom.Pt{}) {
			t.Errorf("half %v: the leading edge is %v", half, u[0])
		}
		for _, p := range append(u, l...) {
			if p.X < -0.3 {
				t.Errorf("half %v: %v stands ahead of the leading edge", half, p)
			}
		}
	}
}

func TestAt(t *testing.T) {
	s := mustNACA(t, "4412")
	for _, x := range []float64{-0.01, 1.02, math.NaN(), math.Inf(1)} {
		if u, l, ok := s.At(x); ok {
			t.Errorf("At(%v) = %v, %v: want none", x, u, l)
		}
	}
	if _, _, ok := (Section{}).At(0.5); ok {
		t.Error("a section without points has ordinates")
	}
	if u, l := (Section{}).Contour(1000, 1); u != nil || l != nil || (Section{}).Stations() != nil {
		t.Error("a section without points has a contour")
	}
	if u, l, ok := s.At(0); u != 0 || l != 0 || !ok {
		t.Errorf("At(0) = %v, %v, %v: want the leading edge", u, l, ok)
	}
}

// Twice the chord, twice the contour; millimetres and inches of the same table give one section.
func TestScale(t *testing.T) {
	s, _ := Builtin("clark-y")
	a, _ := s.Contour(700, 0.0025)
	b, _ := s.Contour(1400, geom.Flat)
	if len(a) != len(b) {
		t.Fatalf("%d and %d points", len(a), len(b))
	}
	for i := range a {
		if a[i].Mul(2).Dist(b[i]) > 1e-9 {
			t.Errorf("point %d: %v doubled is not %v", i, a[i], b[i])
		}
	}
}

func BenchmarkContourClarkY(b *testing.B) {
	s, _ := Builtin("clark-y")
	for b.Loop() {
		s.Contour(1400, geom.Flat)
	}
}

func BenchmarkContourOutline(b *testing.B) {
	s := outline(b)
	for b.Loop() {
		s.Contour(1400, geom.Flat)
	}
}

func BenchmarkAtClarkY(b *testing.B) {
	s, _ := Builtin("clark-y")
	for b.Loop() {
		s.At(0.37)
	}
}
