package airfoils

import (
	"math"
	"os"
	"testing"

	"ribwright/geom"
	"ribwright/geom/finding"
)

// FuzzRead: no table makes the reader stumble, and one that is accepted has a contour: finite points in
// order, none doubled, the upper side above the lower one.
func FuzzRead(f *testing.F) {
	for _, file := range corpusFiles(f) {
		data, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		if len(data) < 4000 {
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, found := Read("table.txt", data)
		for _, g := range found {
			if g.Line < 1 || g.Column < 1 || g.Code == "" || g.Fix == "" {
				t.Fatalf("finding without place or remedy: %+v", g)
			}
		}
		if finding.HasError(found) {
			if len(s.Upper)+len(s.Lower) > 0 {
				t.Fatal("a refused table has points")
			}
			return
		}
		checkAccepted(t, s)
	})
}

func checkAccepted(t *testing.T, s Section) {
	t.Helper()
	if len(s.Upper) < fewest || len(s.Lower) < fewest {
		t.Fatalf("accepted with %d and %d points", len(s.Upper), len(s.Lower))
	}
	for _, side := range [][]geom.Pt{s.Upper, s.Lower} {
		for i, p := range side {
			if !(math.Abs(p.X) <= 1.02) || !(math.Abs(p.Y) <= 1.0001) {
				t.Fatalf("point %d is %v", i, p)
			}
			if i > 0 && (p == side[i-1] || p.X <= side[i-1].X && p.X > noseZone) {
				t.Fatalf("point %d, %v, after %v", i, p, side[i-1])
			}
		}
	}
	last := math.Min(s.Upper[len(s.Upper)-1].X, s.Lower[len(s.Lower)-1].X)
	for _, p := range s.Upper[1:] {
		if y, ok := straight(s.Lower, p.X); ok && p.X > noseZone && p.X < last && p.Y <= y {
			t.Fatalf("crossed at %v: lower %v", p, y)
		}
	}
	if !(s.NoseRadius >= 0 && s.NoseRadius <= 0.15) || !(math.Abs(s.NoseSlope) < 1e9) || s.Datum == "" || s.Form == "" {
		t.Fatalf("nose radius %v, slope %v, datum %q, form %q", s.NoseRadius, s.NoseSlope, s.Datum, s.Form)
	}
	u, l := s.Contour(1000, 0.1)
	if len(u) < fewest || len(l) < fewest || u[0] != l[0] {
		t.Fatalf("contour of %d and %d points", len(u), len(l))
	}
	for _, p := range append(u, l...) {
		if math.IsNaN(p.X+p.Y) || math.IsInf(p.X+p.Y, 0) {
			t.Fatalf("contour with %v", p)
		}
	}
}

// straight interpolates a side at x by straight lines.
func straight(side []geom.Pt, x float64) (float64, bool) {
	for i := len(side) - 1; i > 0; i-- {
		if a, b := side[i-1], side[i]; a.X <= x && x <= b.X && b.X > a.X {
			return a.Lerp(b, (x-a.X)/(b.X-a.X)).Y, true
		}
	}
	return 0, false
}
