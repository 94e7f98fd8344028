package airfoils

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/finding"
)

func mustNACA(t testing.TB, code string) Section {
	t.Helper()
	s, found := NACA(code)
	if len(found) > 0 {
		t.Fatalf("NACA(%q): %v", code, found)
	}
	return s
}

// printed returns the tables of NACA Report 824: rows of station, upper, lower by the section's number.
func printed(t testing.TB) map[string][][3]float64 {
	t.Helper()
	data, err := os.ReadFile("../testdata/airfoils/printed/naca-report-824.txt")
	if err != nil {
		t.Fatal(err)
	}
	tables := map[string][][3]float64{}
	code := ""
	for _, l := range strings.Split(string(data), "\n") {
		if head, ok := strings.CutPrefix(l, "# "); ok {
			head, _, _ = strings.Cut(strings.TrimPrefix(head, "NACA "), ":")
			code = head
			continue
		}
		var r [3]float64
		switch n, _ := fmt.Sscan(l, &r[0], &r[1], &r[2]); n {
		case 2:
			r[2] = -r[1]
			fallthrough
		case 3:
			tables[code] = append(tables[code], r)
		}
	}
	return tables
}

// The equations against the printed ordinates of NACA Report 824, to 0.02 % of the chord. The ones of 23012
// are from memory: 0.030 %.
func TestPrintedOrdinates(t *testing.T) {
	tables := printed(t)
	for _, code := range []string{"0012", "2412", "4412", "23012"} {
		s, worst, limit := mustNACA(t, code), 0.0, 0.02
		if code == "23012" {
			limit = 0.0305
		}
		if len(tables[code]) < 18 {
			t.Fatalf("NACA %s: %d printed rows", code, len(tables[code]))
		}
		for _, r := range tables[code] {
			u, l, ok := s.At(r[0] / 100)
			worst = max(worst, math.Abs(100*u-r[1]), math.Abs(100*l-r[2]))
			if !ok || math.Abs(100*u-r[1]) > limit || math.Abs(100*l-r[2]) > limit {
				t.Errorf("NACA %s at %v %%: got %.3f and %.3f, printed %v and %v", code, r[0], 100*u, 100*l, r[1], r[2])
			}
		}
		t.Logf("NACA %s: at most %.3f %% of the chord from the printed table", code, worst)
	}
}

// The printed tables are read, and the contour passes their points.
func TestPrintedTableIsPassed(t *testing.T) {
	for code, rows := range printed(t) {
		s, found := Ordinates(rows)
		if len(found) > 0 {
			t.Errorf("NACA %s: %v", code, found)
			continue
		}
		onContour(t, "NACA "+code, s, 1400)
		for _, r := range rows {
			u, l, ok := s.At(r[0] / 100)
			if !ok || math.Abs(100*u-r[1]) > 1e-9 || math.Abs(100*l-r[2]) > 1e-9 {
				t.Errorf("NACA %s at %v: got %v and %v, want %v and %v", code, r[0], 100*u, 100*l, r[1], r[2])
			}
		}
	}
}

// The leading-edge radius is 1.1019 t² (NACA Report 460), and the curve runs smoothly round it. On a
// cambered section that is the radius about the mean line; its points, laid off square to a line that
// itself bends, have a radius smaller by the cosine of the mean line's slope at the nose.
func TestNoseRadius(t *testing.T) {
	for _, code := range []string{"0006", "0012", "0024", "2412", "4412", "6321"} {
		s := mustNACA(t, code)
		u, l := s.Contour(1000, 1e-6)
		_, slope, _ := s.eq.line.at(0)
		want := 1000 * 1.1019 * s.eq.t * s.eq.t * math.Cos(math.Atan(slope))
		if got := radius(u[1], u[0], l[1]); math.Abs(got/want-1) > 0.001 {
			t.Errorf("NACA %s: radius %.4f mm at the nose, want %.4f", code, got, want)
		}
		if u[0] != l[0] || u[0] != (geom.Pt{}) {
			t.Errorf("NACA %s: the sides begin at %v and %v, want the origin", code, u[0], l[0])
		}
	}
}

// radius of the circle through three points.
func radius(a, b, c geom.Pt) float64 {
	return a.Dist(b) * b.Dist(c) * c.Dist(a) / math.Abs(2*b.Sub(a).Cross(c.Sub(a)))
}

// A section without camber is its own mirror image.
func TestMirror(t *testing.T) {
	s := mustNACA(t, "0012")
	u, l := s.Contour(1400, geom.Flat)
	if len(u) != len(l) {
		t.Fatalf("%d upper and %d lower points", len(u), len(l))
	}
	for i := range u {
		if u[i].X != l[i].X || u[i].Y != -l[i].Y {
			t.Fatalf("point %d: upper %v, lower %v", i, u[i], l[i])
		}
	}
	for i := range s.Upper {
		if s.Upper[i].X != s.Lower[i].X || math.Abs(s.Upper[i].Y+s.Lower[i].Y) > 1e-15 {
			t.Errorf("station %v: upper %v, lower %v", s.Upper[i].X, s.Upper[i].Y, s.Lower[i].Y)
		}
	}
}

func TestCodes(t *testing.T) {
	for _, code := range []string{"23012", "NACA 23112", "0012-64", "naca 2412-34", "23012-64", "43018", "63021", "24112", "21012", "25012"} {
		s := mustNACA(t, code)
		if want := "NACA " + plainNumber(code); s.Name != want || s.Source == "" || len(s.Upper) != 18 {
			t.Errorf("NACA(%q) = %q, %d points; want %q", code, s.Name, len(s.Upper), want)
		}
	}
	for _, code := range []string{"4412", "NACA 4412", "naca4412", " NACA-4412 ", "4 4 1 2"} {
		if s := mustNACA(t, code); s.Name != "NACA 4412" || s.Source == "" || s.Form != "" || len(s.Upper) != 18 {
			t.Errorf("NACA(%q) = %q, %d points", code, s.Name, len(s.Upper))
		}
	}
	for _, c := range []struct{ code, part string }{
		{"", "missing"}, {"NACA", "missing"}, {"2012", "leading edge"}, {"36012", "second digit 6"}, {"20012", "second digit 0"}, {"03012", "no design lift"},
		{"23212", "third digit"}, {"21112", "reflexed"}, {"44121", "reflexed"}, {"23000", "thickness"}, {"0012-04", "hyphen"}, {"0012-67", "hyphen"},
		{"0012-61", "hyphen"}, {"0012-6", "four-digit"}, {"0012-644", "four-digit"}, {"12-64", "series"},
		{"63-212", "series"}, {"16-012", "series"}, {"441", "four-digit"}, {"44122", "five-digit"}, {"0441212", "four-digit"},
		{"4400", "thickness"}, {"0000", "thickness"}, {"4012", "leading edge"}, {"0412", "no camber"},
		{"44l2", "four-digit"}, {"−412", "four-digit"}, {"4.412", "four-digit"}, {"clark-y", "four-digit"}, {"4４12", "four-digit"},
		{"9199", "folds"}, {strings.Repeat("9", 1000), "…"},
	} {
		s, found := NACA(c.code)
		if len(found) != 1 || len(s.Upper) != 0 || !strings.Contains(strings.ToLower(found[0].Message), strings.ToLower(c.part)) {
			t.Errorf("NACA(%q): %v, want one finding with %q", c.code, found, c.part)
			continue
		}
		f := found[0]
		if f.Code != "section-naca" || f.Key != "section.naca" || f.Severity != finding.Error || f.Fix == "" {
			t.Errorf("NACA(%q): %+v", c.code, f)
		}
	}
}

// Every number that is taken gives a section whose sides do not cross, and whose tail is open.
func TestAllNumbers(t *testing.T) {
	for m := 0; m <= 9; m++ {
		for p := 0; p <= 9; p++ {
			for _, th := range []int{1, 6, 12, 18, 24, 40} {
				s, found := NACA(fmt.Sprintf("%d%d%02d", m, p, th))
				if len(found) > 0 {
					continue
				}
				for k := 1; k <= 200; k++ {
					x := float64(k) / 200
					if u, l, ok := s.At(x); !ok || !(u > l) {
						t.Fatalf("%s at %v: upper %v, lower %v, %v", s.Name, x, u, l, ok)
					}
				}
			}
		}
	}
}

func BenchmarkContourNACA4412(b *testing.B) {
	s := mustNACA(b, "4412")
	for b.Loop() {
		s.Contour(1400, geom.Flat)
	}
}
