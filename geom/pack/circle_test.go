package pack

import (
	"fmt"
	"math"
	"testing"

	"ribwright/geom"
)

// TestDiscs200 is a set of round plates as a club needs it: 200 of 38 mm, 3 mm apart, on sheets of 600 × 300 mm. Plain staggered rows
// bring 112 on the first sheet. No layout brings more than the hexagonal density π/√12 of discs grown by half the gap allows on a
// sheet grown likewise, 122 (Tóth, Lagerungen in der Ebene, 1953; from memory).
func TestDiscs200(t *testing.T) {
	job := discs200()
	job.Effort = 100_000
	l := Nest(job)
	checkLayout(t, "discs", job, l)
	d := 38 + job.Gap
	bound := int((600 + job.Gap) * (300 + job.Gap) * math.Pi / math.Sqrt(12) / (math.Pi * d * d / 4))
	if got := l.Uses[0].Parts; got < 112 || got > bound {
		t.Errorf("%d discs on the first sheet, want 112 to %d", got, bound)
	}
}

// TestDiscsInSquare holds rows of discs against the best packings known (testdata/packing/circles_in_unit_square.txt): in the
// least square known to hold n discs, rows may hold n and never more than n discs, and they hold most of them.
func TestDiscsInSquare(t *testing.T) {
	exact := 0
	for _, line := range readLines(t, "circles_in_unit_square.txt") {
		var n int
		var r float64
		if _, err := fmt.Sscan(line, &n, &r); err != nil {
			t.Fatal(err)
		}
		w := 1/r - 2 // the box of the centres of discs of radius 1
		got := len(discRows(w+1e-6, w+1e-6, 2))
		if got > n {
			t.Errorf("%d discs in the square of %d: impossible", got, n)
		}
		if got == n {
			exact++
		}
		if got < n-1-n/5 {
			t.Errorf("rows hold %d discs, want nearly %d", got, n)
		}
	}
	if exact < 8 {
		t.Errorf("rows are as good as the best known for %d counts, want 8 at least", exact)
	}
}

// TestDiscRowsKeepTheirDistance lays rows on many sheets and measures them.
func TestDiscRowsKeepTheirDistance(t *testing.T) {
	for w := 0.0; w < 12; w += 0.37 {
		for h := 0.0; h < 12; h += 0.41 {
			pts := discRows(w, h, 2)
			bound := (w + 2) * (h + 2) * math.Pi / math.Sqrt(12) / math.Pi
			if len(pts) < 1 || float64(len(pts)) > bound+1e-9 {
				t.Errorf("%g × %g: %d discs, bound %.1f", w, h, len(pts), bound)
			}
			for i, p := range pts {
				if !geom.NewBox(geom.Pt{}, geom.Pt{X: w, Y: h}).Grow(1e-6).Holds(p) {
					t.Errorf("%g × %g: a centre at %v", w, h, p)
				}
				for _, q := range pts[:i] {
					if p.Dist(q) < 2-1e-6 {
						t.Errorf("%g × %g: centres %v and %v are too near", w, h, p, q)
					}
				}
			}
		}
	}
}
