package curve

import (
	"math"
	"slices"
	"testing"

	"ribwright/geom"
)

type sample struct {
	name   string
	at     func(float64) geom.Pt
	breaks []float64
}

func samples(t testing.TB) []sample {
	fit := func(pts []geom.Pt) *Spline {
		s, err := Fit(pts)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	clark, wave := fit(clarkYUpper()), fit([]geom.Pt{{X: 0, Y: 0}, {X: 100, Y: 40}, {X: 200, Y: -40}, {X: 300, Y: 0}})
	falling := clark.Knots()
	slices.Reverse(falling)
	return []sample{
		{"circle", func(s float64) geom.Pt { return geom.Polar(s).Mul(500) }, []float64{0, 1.5, 3, 4.5, 2 * math.Pi}},
		{"line", func(s float64) geom.Pt { return geom.Pt{X: s, Y: 2 * s} }, []float64{0, 10, 1000}},
		{"S, inflected in the middle", func(s float64) geom.Pt { return geom.Pt{X: 100 * s, Y: 8 * s * s * s} }, []float64{-1, 1}},
		{"quintic, two inflections", func(s float64) geom.Pt { return geom.Pt{X: 100 * s, Y: 30 * s * (s*s - 0.5) * (s*s - 1)} }, []float64{-1, 1}},
		{"parabola on end, as a nose", func(s float64) geom.Pt { return geom.Pt{X: 1400 * s * s, Y: 200 * s} }, []float64{0, 1}},
		{"Clark Y", clark.At, clark.Knots()},
		{"Clark Y, backwards", clark.At, falling},
		{"Clark Y, ends only", clark.At, []float64{falling[len(falling)-1], falling[0]}},
		{"wave", wave.At, wave.Knots()},
	}
}

// offPolyline is the distance of p from the polyline.
func offPolyline(p geom.Pt, line []geom.Pt) float64 {
	best := math.Inf(1)
	for i := 1; i < len(line); i++ {
		best = math.Min(best, math.Abs(offChord(p, line[i-1], line[i])))
	}
	return best
}

// TestFlat justifies geom.Flat: with it, and with coarser and finer ones, no place of the curve stands
// further from its polyline than the tolerance, and the points are few.
func TestFlat(t *testing.T) {
	for _, c := range samples(t) {
		for _, tol := range []float64{1, 0.1, geom.Flat, 1e-4} {
			got := Flatten(c.at, c.breaks, tol)
			checkBreaks(t, c, got)
			dense := 4000
			if tol < geom.Flat {
				dense = 1000
			}
			worst := 0.0
			for i := 1; i < len(c.breaks); i++ {
				piece := between(got, c.at(c.breaks[i-1]), c.at(c.breaks[i]))
				for k := 0; k <= dense; k++ {
					u := c.breaks[i-1] + (c.breaks[i]-c.breaks[i-1])*float64(k)/float64(dense)
					worst = math.Max(worst, offPolyline(c.at(u), piece))
				}
			}
			if worst > tol {
				t.Errorf("%s at %g: the curve stands %g off its polyline of %d points", c.name, tol, worst, len(got))
			}
			if best := greedy(c, tol); len(got) > best*8/5+len(c.breaks) {
				t.Errorf("%s at %g: %d points, where %d would do", c.name, tol, len(got), best)
			}
		}
	}
}

func checkBreaks(t *testing.T, c sample, got []geom.Pt) {
	t.Helper()
	i := 0
	for _, b := range c.breaks {
		for i < len(got) && got[i] != c.at(b) {
			i++
		}
	}
	if i >= len(got) {
		t.Errorf("%s: the polyline misses a break", c.name)
	}
	for i := 1; i < len(got); i++ {
		if got[i] == got[i-1] {
			t.Errorf("%s: point %d is doubled: %v", c.name, i, got[i])
		}
	}
}

func between(line []geom.Pt, a, b geom.Pt) []geom.Pt {
	i := slices.Index(line, a)
	j := i + 1 + slices.Index(line[i+1:], b)
	return line[i : j+1]
}

// greedy counts the points of a polyline whose every chord is as long as tol allows: nearly the fewest.
func greedy(c sample, tol float64) int {
	n := 1
	f := flattener{at: c.at, tol: tol}
	for i := 1; i < len(c.breaks); i++ {
		a, b := c.breaks[i-1], c.breaks[i]
		for a != b {
			lo, hi := 0.0, 1.0
			if largest(f.offsets(a, b, c.at(a), c.at(b))) > tol {
				for range 40 {
					m := (lo + hi) / 2
					if e := a + (b-a)*m; largest(f.offsets(a, e, c.at(a), c.at(e))) > tol {
						hi = m
					} else {
						lo = m
					}
				}
				a += (b - a) * lo
			} else {
				a = b
			}
			n++
		}
	}
	return n
}

func TestFlattenEdges(t *testing.T) {
	at := func(s float64) geom.Pt { return geom.Polar(s) }
	if got := Flatten(at, nil, 1); got != nil {
		t.Errorf("no breaks: %v, want none", got)
	}
	if got := Flatten(at, []float64{2}, 1); len(got) != 1 || got[0] != at(2) {
		t.Errorf("one break: %v, want its point", got)
	}
	for _, tol := range []float64{0, -1, math.NaN()} {
		if got := Flatten(at, []float64{0, 1}, tol); len(got) < 2 || len(got) > 2000 {
			t.Errorf("tol %v: %d points", tol, len(got))
		}
	}
	gap := func(s float64) geom.Pt { return geom.Pt{X: s, Y: math.Copysign(1, s-0.3)} }
	if got := Flatten(gap, []float64{0, 1}, 0.01); len(got) > 500 {
		t.Errorf("a curve with a gap: %d points", len(got))
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1)} {
		if got := Flatten(func(float64) geom.Pt { return geom.Pt{X: bad, Y: bad} }, []float64{0, 1}, 1); len(got) != 2 {
			t.Errorf("a curve of %v: %d points, want its ends", bad, len(got))
		}
	}
}

func BenchmarkFlattenClarkY(b *testing.B) {
	s, err := Fit(clarkYUpper())
	if err != nil {
		b.Fatal(err)
	}
	knots := s.Knots()
	for b.Loop() {
		Flatten(s.At, knots, geom.Flat)
	}
}
