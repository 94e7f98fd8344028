package geom

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand"
	"strconv"
	"strings"
	"testing"

	"ribwright/geom/outside"
)

// plateLike returns a random plate: a disc, a disc trimmed by straight lines, by a wavy contour, by a star, a
// rectangle trimmed by a contour; lines and arcs, often concave.
func plateLike(r *rand.Rand, kind int) Path {
	c, rad := Pt{40*r.Float64() - 20, 40*r.Float64() - 20}, 12+15*r.Float64()
	var ring Ring
	switch kind % 6 {
	case 0:
		return Circle(c, rad)
	case 1: // straight lines
		ring = Ring{c.Add(Pt{-99, -99}), c.Add(Pt{99, -99}), c.Add(Pt{99, 99}), c.Add(Pt{-99, 99})}
		for range 1 + r.Intn(3) {
			n := Polar(7 * r.Float64())
			ring = ring.Within(Half{n, n.Dot(c) + rad*(0.2+0.7*r.Float64())})
		}
	case 2: // a contour of many short chords
		ring = smooth(r, 400, 30+20*r.Float64(), 0.3)
	case 3:
		ring = star(r, 3+r.Intn(8), c, rad/2, 2*rad)
	case 4:
		ring = smooth(r, 200, 40, 0.4)
		for i, a := range box4(c, rad, rad/2) {
			ring = ring.Within(LeftOf(a, box4(c, rad, rad/2)[(i+1)%4]))
		}
		return ring.Path().Tidy(Coincident)
	case 5:
		ring = comb(r, 2+r.Intn(4), 7*r.Float64())
	}
	best := Path{}
	for _, p := range DiscClip(c, rad, ring) {
		if p.Area() > best.Area() {
			best = p
		}
	}
	if len(best.Segs) == 0 {
		return Circle(c, rad)
	}
	return best
}

func box4(c Pt, w, h float64) Ring {
	return Ring{c.Add(Pt{-w, -h}), c.Add(Pt{w, -h}), c.Add(Pt{w, h}), c.Add(Pt{-w, h})}
}

// outlineArea is the area of outlines with their holes.
func outlineArea(ps []Path) float64 {
	a := 0.0
	for _, p := range ps {
		a += p.Area()
	}
	return a
}

// TestGrowAgainstGEOS holds grown and shrunk plates against the buffers of GEOS, by way of Debian's python3-shapely.
func TestGrowAgainstGEOS(t *testing.T) {
	r := rand.New(rand.NewSource(31))
	var cases []geosCase
	for k := range 600 {
		p := plateLike(r, k)
		ring := Ring(p.Flatten(1e-5))
		if len(ring) < 3 || p.Area() < 1 || !ring.Simple() {
			continue
		}
		d := []float64{0.1, -0.1, 1.6, -1.6, 6, -6, 20 * r.Float64()}[k/6%7]
		got := p.Grow(d)
		near(t, fmt.Sprintf("case %d: grown by %g, against Parallel", k, d), outlineArea(got), outlineArea(growFlat(p, d)), 1.2*roundTol*(ring.Girth()+7*max(d, 0)))
		// GEOS' arcs have 1024 corners a turn: short by 6.3e-6 of a disc; the flattened arcs by 1e-5 mm. Where it
		// shrinks it first smooths the outline by up to a hundredth of the distance (BufferInputLineSimplifier).
		tol := 1e-5*ring.Girth() + 1e-4 + 4e-5*d*d*float64(len(p.Segs))
		if d < -2 {
			tol += -0.001 * d * ring.Girth()
		}
		cases = append(cases, geosCase{Op: "round", A: ring, D: d, ours: outlineArea(got), tol: tol})
		for _, g := range got {
			for i, q := range g.Flatten(0.01) {
				if off := p.Distance(q) - math.Abs(d); off < -1e-5 || off > roundTol/10+1e-5 {
					t.Fatalf("case %d: point %d, %v, stands %.3g too far from %v grown by %g", k, i, q, off, p, d)
				}
			}
		}
	}
	var in bytes.Buffer
	enc := json.NewEncoder(&in)
	for _, c := range cases {
		if err := enc.Encode(c); err != nil {
			t.Fatal(err)
		}
	}
	python := outside.Python(t, "shapely")
	out := bufio.NewScanner(strings.NewReader(outside.Run(t, python, "testdata/geos.py", outside.File(t, "cases.json", in.Bytes()))))
	for k, c := range cases {
		if !out.Scan() {
			t.Fatalf("%d areas for %d cases", k, len(cases))
		}
		want, err := strconv.ParseFloat(out.Text(), 64)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("case %d: grown by %g, %d corners", k, c.D, len(c.A)), c.ours, want, c.tol)
	}
	if len(cases) < 500 {
		t.Errorf("%d cases only", len(cases))
	}
}

// TestGrowSteiner: a convex figure grown by d has the area A + L·d + π·d² (Steiner, 1840).
func TestGrowSteiner(t *testing.T) {
	r := rand.New(rand.NewSource(32))
	for k := range 400 {
		p := hull(star(r, 30, Pt{}, 10, 30)).Path()
		if k%2 == 0 {
			p = plateLike(r, k%4/2) // a disc, or one cut by straight lines
		}
		for _, d := range []float64{0.05, 0.1, 1.6, 20} {
			got := p.Grow(d)
			if len(got) != 1 {
				t.Fatalf("case %d, %v by %g: %d outlines", k, p, d, len(got))
			}
			want := p.Area() + float64(p.Length()*d) + float64(math.Pi*d*d)
			near(t, fmt.Sprintf("case %d: grown by %g", k, d), got[0].Area(), want, 1e-5*d*float64(1+len(p.Segs)))
		}
	}
}

// TestGrowAndBack: what is grown and shrunk again covers the plate; what is shrunk and grown again lies in it. Of a
// convex plate the first is the plate itself.
func TestGrowAndBack(t *testing.T) {
	r := rand.New(rand.NewSource(33))
	for k := range 300 {
		p := plateLike(r, k)
		if p.Area() < 1 || !Ring(p.Flatten(1e-4)).Simple() {
			continue
		}
		for _, d := range []float64{0.1, 1.6, 4} {
			closed, opened := 0.0, 0.0
			for _, g := range p.Grow(d) {
				closed += outlineArea(g.Grow(-math.Copysign(d, g.Area())))
				if g.Area() < 0 {
					closed -= 2 * outlineArea(g.Grow(d))
				}
			}
			for _, g := range p.Grow(-d) {
				opened += outlineArea(g.Grow(d))
			}
			if closed < p.Area()-1e-4 || opened > p.Area()+1e-4 {
				t.Errorf("case %d by %g: area %g, closed %g, opened %g", k, d, p.Area(), closed, opened)
			}
			if k%6 <= 1 {
				near(t, fmt.Sprintf("case %d by %g: convex, out and in", k, d), closed, p.Area(), 1e-4)
			}
		}
	}
}

// TestGrowForms holds what a cutter needs: circles stay circles, arcs arcs, and nothing is added where nothing opens.
func TestGrowForms(t *testing.T) {
	c, r, ok := Circle(Pt{3, 4}, 19).Grow(0.1)[0].IsCircle()
	if !ok || c != (Pt{3, 4}) || r != 19.1 {
		t.Errorf("a circle of 38 mm, kerf 0.2 mm: got centre %v, radius %g, %v", c, r, ok)
	}
	if got := Circle(Pt{}, 2).Grow(-2); got != nil {
		t.Errorf("a circle shrunk to nothing: %v", got)
	}
	half := DiscClip(Pt{}, 19, box4(Pt{-15, 0}, 20, 30))[0] // one arc in pieces, one line
	arcs := func(p Path) (n int) {
		for _, s := range p.Segs {
			if s.Bulge != 0 {
				n++
			}
		}
		return n
	}
	g := half.Grow(0.1)
	if len(g) != 1 || len(g[0].Segs) != len(half.Segs)+2 || arcs(g[0]) != arcs(half)+2 {
		t.Errorf("a cut disc %v: got %v, want two arcs more, at the corners", half, g)
	}
	for _, s := range []Path{{}, Line(Pt{}, Pt{1, 1}), {Start: Pt{1, 1}, Closed: true}} {
		if got := s.Grow(1); got != nil {
			t.Errorf("%v: got %v", s, got)
		}
	}
	ell := Ring{{0, 0}, {30, 0}, {30, 10}, {10, 10}, {10, 30}, {0, 30}}.Path()
	in := ell.Grow(3)[0].Grow(-3)[0] // what a round bit of 6 mm leaves
	near(t, "an inside corner", in.Area()-ell.Area(), 9*(1-math.Pi/4), 1e-9)
	if back := ell.Reverse().Grow(3); math.Abs(back[0].Area()-ell.Grow(3)[0].Area()) > 1e-9 {
		t.Errorf("walked backwards: %v", back)
	}
	ring := Ring{{0, 0}, {30, 0}, {30, 30}, {14, 30}, {14, 29}, {29, 29}, {29, 1}, {1, 1}, {1, 29}, {13, 29}, {13, 30}, {0, 30}}.Path()
	if got := ring.Grow(1); len(got) != 2 || got[0].Area()*got[1].Area() > 0 {
		t.Errorf("a ring with a slot, grown shut: %d outlines, want an outer one and a hole", len(got))
	}
	reg := Region{Circle(Pt{}, 19), []Path{Circle(Pt{}, 3).Reverse()}}.Grow(0.1)
	near(t, "a disc with a hole", reg.Area(), math.Pi*(19.1*19.1-2.9*2.9), 1e-9)
	if _, h, ok := reg.Holes[0].IsCircle(); !ok || h != 2.9 || reg.Holes[0].Area() > 0 {
		t.Errorf("the hole: %v, want a circle of 2.9 mm, clockwise", reg.Holes)
	}
}

func BenchmarkGrow(b *testing.B) {
	r := rand.New(rand.NewSource(34))
	p := plateLike(r, 4)
	b.ReportMetric(float64(len(p.Segs)), "segments")
	for b.Loop() {
		p.Grow(0.1)
	}
}
