package curve

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/interp"

	"ribwright/geom"
)

// clarkYUpper is the upper side of a Clark Y on a chord of 1,400 mm, nose to tail: real points for benchmarks.
func clarkYUpper() []geom.Pt {
	var pts []geom.Pt
	for _, r := range [][2]float64{{0, 3.5}, {1.25, 5.45}, {2.5, 6.5}, {5, 7.9}, {7.5, 8.85}, {10, 9.6}, {15, 10.69}, {20, 11.36},
		{30, 11.7}, {40, 11.4}, {50, 10.52}, {60, 9.15}, {70, 7.35}, {80, 5.22}, {90, 2.8}, {95, 1.49}, {100, 0.12}} {
		pts = append(pts, geom.Pt{X: 14 * r[0], Y: 14 * r[1]})
	}
	return pts
}

func circlePts(r float64, n int) []geom.Pt {
	pts := make([]geom.Pt, n+1)
	for i := range pts {
		pts[i] = geom.Polar(math.Pi * float64(i) / float64(n)).Mul(r)
	}
	return pts
}

func TestFitRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, pts := range map[string][]geom.Pt{
		"none":      nil,
		"one":       {{X: 1, Y: 2}},
		"repeated":  {{X: 0, Y: 0}, {X: 1, Y: 1}, {X: 1, Y: 1}, {X: 2, Y: 0}},
		"NaN":       {{X: 0, Y: 0}, {X: nan, Y: 1}, {X: 2, Y: 0}},
		"infinite":  {{X: 0, Y: 0}, {X: 1, Y: inf}, {X: 2, Y: 0}},
		"too small": {{X: 1e9, Y: 0}, {X: 1e9 + 1e-9, Y: 0}, {X: 0, Y: 0}},
		"too far":   {{X: -1e308, Y: 0}, {X: 1e308, Y: 0}, {X: 0, Y: 0}},
	} {
		if s, err := Fit(pts); err == nil {
			t.Errorf("%s: Fit(%v) = %v, want an error", name, pts, s)
		}
	}
}

// The points are on the curve exactly, and gonum's own prediction agrees between them.
func TestThroughItsPoints(t *testing.T) {
	for _, pts := range [][]geom.Pt{{{X: 0, Y: 0}, {X: 3, Y: 4}}, {{X: 0, Y: 0}, {X: 3, Y: 4}, {X: 9, Y: 1}}, clarkYUpper(), circlePts(10, 30)} {
		s, err := Fit(pts)
		if err != nil {
			t.Fatal(err)
		}
		knots := s.Knots()
		xs, ys := make([]float64, len(pts)), make([]float64, len(pts))
		for i, p := range pts {
			if got := s.At(knots[i]); got != p {
				t.Errorf("%d points: At(knot %d) = %v, want %v", len(pts), i, got, p)
			}
			xs[i], ys[i] = p.X, p.Y
		}
		var px, py interp.NaturalCubic
		if px.Fit(knots, xs) != nil || py.Fit(knots, ys) != nil {
			t.Fatal("gonum refuses")
		}
		lo, hi := s.Domain()
		for k := 0; k <= 1000; k++ {
			u := lo + (hi-lo)*float64(k)/1000
			got, want := s.At(u), geom.Pt{X: px.Predict(u), Y: py.Predict(u)}
			if got.Dist(want) > 1e-10 {
				t.Fatalf("%d points: At(%v) = %v, gonum says %v", len(pts), u, got, want)
			}
			gd, wd := s.Deriv(u), geom.Pt{X: px.PredictDerivative(u), Y: py.PredictDerivative(u)}
			if gd.Dist(wd) > 1e-10 {
				t.Fatalf("%d points: Deriv(%v) = %v, gonum says %v", len(pts), u, gd, wd)
			}
		}
		if a, b := s.Curvature(lo), s.Curvature(hi); math.Abs(a)+math.Abs(b) > 1e-9 {
			t.Errorf("%d points: curvature %g and %g at the ends, want 0", len(pts), a, b)
		}
	}
}

// Half a circle: the curvature is 1/r (plus counter-clockwise, minus the other way) and the length πr.
func TestCircle(t *testing.T) {
	const r, n = 25.0, 60
	pts := circlePts(r, n)
	s, err := Fit(pts)
	if err != nil {
		t.Fatal(err)
	}
	_, hi := s.Domain()
	if got := s.Curvature(hi / 2); math.Abs(got*r-1) > 1e-3 {
		t.Errorf("curvature × r = %v, want 1", got*r)
	}
	if got := s.Length(); math.Abs(got/(math.Pi*r)-1) > 1e-5 {
		t.Errorf("length = %v, want %v", got, math.Pi*r)
	}
	for i, j := 0, n; i < j; i, j = i+1, j-1 {
		pts[i], pts[j] = pts[j], pts[i]
	}
	back, err := Fit(pts)
	if err != nil {
		t.Fatal(err)
	}
	if got := back.Curvature(hi / 2); math.Abs(got*r+1) > 1e-3 {
		t.Errorf("run backwards: curvature × r = %v, want −1", got*r)
	}
	if a, b := s.Length(), back.Length(); math.Abs(a-b) > 1e-9 {
		t.Errorf("length %v forwards, %v backwards", a, b)
	}
}

// The arc length agrees with the sum of many chords.
func TestLength(t *testing.T) {
	s, err := Fit(clarkYUpper())
	if err != nil {
		t.Fatal(err)
	}
	_, hi := s.Domain()
	sum, n := 0.0, 200000
	p := s.At(0)
	for k := 1; k <= n; k++ {
		q := s.At(hi * float64(k) / float64(n))
		sum, p = sum+q.Dist(p), q
	}
	if got := s.Length(); math.Abs(got-sum) > 1e-6 {
		t.Errorf("Length = %.9f, the sum of %d chords is %.9f", got, n, sum)
	}
}

func BenchmarkFit(b *testing.B) {
	pts := clarkYUpper()
	for b.Loop() {
		if _, err := Fit(pts); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAt(b *testing.B) {
	s, err := Fit(clarkYUpper())
	if err != nil {
		b.Fatal(err)
	}
	_, hi := s.Domain()
	i := 0
	for b.Loop() {
		s.At(hi * float64(i%1000) / 1000)
		i++
	}
}
