package export_test

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/internal/sample"
	"ribwright/geom"
)

func TestAppendNum(t *testing.T) {
	for _, c := range []struct {
		v      float64
		places int
		want   string
	}{
		{0, 4, "0"}, {math.Copysign(0, -1), 4, "0"}, {-0.00001, 4, "0"}, {1.5, 4, "1.5"}, {100, 4, "100"}, {100, 0, "100"},
		{1e21, 4, "1000000000000000000000"}, {1e-8, 4, "0"}, {-12.34567, 4, "-12.3457"}, {-0.4, 0, "0"}, {0.00005, 4, "0.0001"},
		{9999.9999, 4, "9999.9999"}, {10000, 4, "10000"}, {-10000.0001, 4, "-10000.0001"}, {9999.5, 0, "10000"}, {99999999, 0, "99999999"},
	} {
		if got := string(export.AppendNum([]byte("x"), c.v, c.places)); got != "x"+c.want {
			t.Errorf("%v with %d places: got %q, want %q", c.v, c.places, got, "x"+c.want)
		}
	}
}

// TestAppendNumRounds compares with strconv, which rounds the number's exact decimal: on ties and beside them, at every size.
func TestAppendNumRounds(t *testing.T) {
	want := func(v float64, places int) string {
		s := strconv.FormatFloat(v, 'f', places, 64)
		if strings.Contains(s, ".") {
			s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
		}
		if s == "-0" {
			return "0"
		}
		return s
	}
	r := rand.New(rand.NewPCG(1, 2))
	for i := range 400_000 {
		places := i % 13
		v := math.Ldexp(r.Float64(), r.IntN(60)-20)
		switch i % 4 {
		case 0: // a tie, or what is nearest to one
			v = (math.Floor(v) + 0.5) / math.Pow10(places)
		case 1:
			v = math.Nextafter((math.Floor(v)+0.5)/math.Pow10(places), v)
		case 2: // already rounded, as the writers have them
			v = math.Round(v*math.Pow10(places)) / math.Pow10(places)
		}
		for _, v := range []float64{v, -v, 594 - v} {
			if got := string(export.AppendNum(nil, v, places)); got != want(v, places) {
				t.Fatalf("%v with %d places: got %q, want %q", v, places, got, want(v, places))
			}
		}
	}
}

// TestStepIsSmallEnough justifies geom.Step: rounded to it, a path keeps its area within its length times
// half the step.
func TestStepIsSmallEnough(t *testing.T) {
	for seed := range uint64(500) {
		p := sample.Path(seed, true)
		l, a := sample.Measure(p)
		sl, sa := sample.Measure(export.Snap(p, 4))
		if math.Abs(a-sa) > l*geom.Step || math.Abs(l-sl) > float64(len(p.Segs)+1)*10*geom.Step {
			t.Errorf("seed %d: length %v area %v became %v, %v", seed, l, a, sl, sa)
		}
	}
}

func TestSnap(t *testing.T) {
	p := geom.Path{Start: geom.Pt{X: 1, Y: 1}, Closed: true, Segs: []geom.Seg{
		{End: geom.Pt{X: 1.00001, Y: 1}}, {End: geom.Pt{X: 3, Y: 1}, Bulge: 1e-9}, {End: geom.Pt{X: 3, Y: 2}, Bulge: 0.5},
		{End: geom.Pt{X: 3, Y: 2.00004}, Bulge: 7}, {End: geom.Pt{X: 1, Y: 1.00002}},
	}}
	want := []geom.Seg{{End: geom.Pt{X: 3, Y: 1}}, {End: geom.Pt{X: 3, Y: 2}, Bulge: 0.5}}
	got := export.Snap(p, 4)
	if len(got.Segs) != 2 || got.Segs[0] != want[0] || got.Segs[1] != want[1] || !got.Closed {
		t.Errorf("got %+v, want %+v", got.Segs, want)
	}
	if dot := export.Snap(geom.Line(p.Start, p.Start), 4); len(dot.Segs) != 0 {
		t.Errorf("a line of no length: got %+v, want no steps", dot.Segs)
	}
	for step, want := range map[float64]bool{0: true, 0.00003: true, 0.00006: false, -0.00003: true, 1: false} {
		q := geom.Polyline(p.Start, geom.Pt{X: 1.00004, Y: 1}, geom.Pt{X: 1, Y: 1 + step}, p.Start)
		if got := export.Vanishes(q, 4); got != want || got != (len(export.Snap(q, 4).Segs) == 0) {
			t.Errorf("a step of %v mm vanishes: %v, want %v", step, got, want)
		}
	}
	if len(p.Segs) != 5 || p.Segs[1].Bulge != 1e-9 {
		t.Error("the path handed in was changed")
	}
}

// TestSplitArc: the pieces lie on the arc, none turns too far, and together they are as long.
func TestSplitArc(t *testing.T) {
	for seed := range uint64(300) {
		p := sample.Path(seed, false)
		out := geom.Path{Start: p.Start}
		at := p.Start
		for _, s := range p.Segs {
			pieces := export.SplitArc(at, s, math.Pi/2)
			for _, q := range pieces {
				if sweep := 4 * math.Abs(math.Atan(q.Bulge)); sweep > math.Pi/2+1e-8 {
					t.Errorf("seed %d: a piece turns %v", seed, sweep)
				}
			}
			out.Segs = append(out.Segs, pieces...)
			at = s.End
		}
		l, a := sample.Measure(p)
		gl, ga := sample.Measure(out)
		if math.Abs(l-gl) > 1e-8*l || math.Abs(a-ga) > 1e-8*l*l {
			t.Errorf("seed %d: length %v area %v, want %v and %v", seed, gl, ga, l, a)
		}
	}
}

// TestBounds compares with the box of a path broken into pieces of 0.001 rad, which is at most r/8·1e-6 smaller.
func TestBounds(t *testing.T) {
	for seed := range uint64(100) {
		p := sample.Path(seed, true)
		var want geom.Box
		want = want.Add(p.Start)
		at := p.Start
		for _, s := range p.Segs {
			for _, q := range export.SplitArc(at, s, 1e-3) {
				want = want.Add(q.End)
			}
			at = s.End
		}
		got := export.Bounds(p)
		for _, d := range []float64{want.Min.X - got.Min.X, want.Min.Y - got.Min.Y, got.Max.X - want.Max.X, got.Max.Y - want.Max.Y} {
			if d < -1e-9 || d > 1e-4 {
				t.Errorf("seed %d: got %v, want %v", seed, got, want)
				break
			}
		}
	}
}

func FuzzAppendNum(f *testing.F) {
	for _, v := range []float64{0, -0.00001, 1e20, 123.45678, -99.99995} {
		f.Add(v, uint8(4))
	}
	f.Fuzz(func(t *testing.T, v float64, places uint8) {
		places %= 13
		if math.IsNaN(v) || math.Abs(v) > 1e9 {
			return
		}
		s := string(export.AppendNum(nil, v, int(places)))
		got, err := strconv.ParseFloat(s, 64)
		if err != nil || math.Abs(got-v) > 0.5001*math.Pow10(-int(places))+1e-15*math.Abs(v) || s == "-0" {
			t.Errorf("%v with %d places: got %q", v, places, s)
		}
	})
}

func BenchmarkAppendNum(b *testing.B) {
	var out []byte
	for b.Loop() {
		out = export.AppendNum(out[:0], 1234.5678, 4)
	}
}
