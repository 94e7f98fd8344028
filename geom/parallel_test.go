package geom

import (
	"fmt"
	"math"
	"math/rand"
	"testing"
)

// wantParallel holds a parallel against what it promises: no point nearer to the chain than d or farther
// from it, no edge across another, the chain's direction, the right side.
func wantParallel(t *testing.T, what string, pts []Pt, closed bool, d float64) (rings []Ring, open []Pt) {
	t.Helper()
	rings, open = Parallel(pts, closed, d)
	if closed && open != nil {
		t.Errorf("%s: a closed chain gave an open curve of %d points", what, len(open))
	}
	look := func(name string, curve []Pt, shut bool) {
		if shut {
			wantSimple(t, name, curve, true)
		} else {
			wantSimple(t, name, curve, false)
		}
		n := len(curve)
		if !shut {
			n--
		}
		for i := 0; i < n; i++ {
			a, b := curve[i], curve[(i+1)%len(curve)]
			for _, q := range []Pt{a, a.Lerp(b, 0.5)} {
				got := Distance(q, pts, closed)
				if got < math.Abs(d)-2*roundTol || got > math.Abs(d)+2*roundTol {
					t.Errorf("%s: %v stands at %.6f, want %g", name, q, got, math.Abs(d))
					return
				}
			}
		}
	}
	for k, r := range rings {
		look(fmt.Sprintf("%s, ring %d of %d", what, k, len(rings)), r, true)
	}
	if open != nil {
		look(what+", open", open, false)
	}
	return rings, open
}

func total(rings []Ring) float64 {
	s := 0.0
	for _, r := range rings {
		s += r.Area()
	}
	return s
}

// TestParallelConvex holds parallels of convex rings against the Steiner formulas (J. Steiner, 1840):
// outward and rounded A + P·d + π·d²; inward and mitred A − P·d + d²·Σ tan(turn/2), as long as no edge vanishes.
func TestParallelConvex(t *testing.T) {
	r := rand.New(rand.NewSource(9))
	for k := 0; k < 400; k++ {
		ring := hull(star(r, 6+r.Intn(20), Pt{50 * r.Float64(), 50 * r.Float64()}, 30, 60))
		n, tans, least := len(ring), 0.0, math.Inf(1)
		tan := func(i int) float64 {
			u, v := ring[(i+n)%n].Sub(ring[(i+n-1)%n]), ring[(i+1)%n].Sub(ring[(i+n)%n])
			return math.Tan(math.Atan2(u.Cross(v), u.Dot(v)) / 2)
		}
		for i := range ring {
			tans += tan(i)
			least = math.Min(least, ring[i].Dist(ring[(i+1)%n])/(tan(i)+tan(i+1)))
		}
		what := fmt.Sprintf("case %d: %v", k, ring)
		d := 10 * r.Float64()
		rings, _ := wantParallel(t, what+" outward", ring, true, -d)
		if len(rings) != 1 {
			t.Fatalf("%s: outward %g gave %d rings", what, d, len(rings))
		}
		near(t, what+" outward", rings[0].Area(), ring.Area()+ring.Girth()*d+math.Pi*d*d, 2*math.Pi*d*roundTol)
		d = least * r.Float64()
		rings, _ = wantParallel(t, what+" inward", ring, true, d)
		if len(rings) != 1 {
			t.Fatalf("%s: inward %g gave %d rings", what, d, len(rings))
		}
		near(t, what+" inward", rings[0].Area(), ring.Area()-ring.Girth()*d+tans*d*d, 1e-7)
		// beyond that the inner parallel is still the common part of the shifted half-planes
		d = 25 * r.Float64()
		rings, _ = wantParallel(t, what+" far inward", ring, true, d)
		want := ring
		for i, a := range ring {
			h := LeftOf(a, ring[(i+1)%n])
			h.D -= d
			want = want.Within(h)
		}
		near(t, what+fmt.Sprintf(" far inward %g", d), total(rings), want.Area(), 1e-6)
	}
}

// TestParallelRandom takes smooth shapes, many of them waisted, with points doubled and put on edges.
func TestParallelRandom(t *testing.T) {
	r := rand.New(rand.NewSource(10))
	several := 0
	for k := 0; k < 250; k++ {
		ring := smooth(r, 30+r.Intn(60), 60, 0.5+0.3*r.Float64())
		if _, _, bad := selfMeeting(ring, true); bad {
			continue
		}
		if k%2 == 1 {
			ring = Ring(spoil(r, ring))
		}
		d := 0.5 + 45*r.Float64()
		what := fmt.Sprintf("case %d, d %g", k, d)
		in, _ := wantParallel(t, what+", inward", ring, true, d)
		out, _ := wantParallel(t, what+", outward", ring, true, -d)
		if len(in) > 1 {
			several++
		}
		for _, g := range in {
			if g.Area() <= 0 {
				t.Errorf("%s: inner ring runs clockwise", what)
			}
			for i := 0; i < len(g); i += 7 {
				if !ring.Holds(g[i]) {
					t.Errorf("%s: %v lies outside", what, g[i])
				}
			}
		}
		// the inside of the inner rings is the set of points farther than d from the ring
		for i := 0; i < 60; i++ {
			p := Pt{ring.Box().Min.X + ring.Box().W()*r.Float64(), ring.Box().Min.Y + ring.Box().H()*r.Float64()}
			dist := Distance(p, ring, true)
			if math.Abs(dist-d) < 0.01 {
				continue
			}
			if got, want := holds(in, p), ring.Holds(p) && dist > d; got != want {
				t.Errorf("%s: %v, %g from the ring: in the inner rings: got %v, want %v", what, p, dist, got, want)
			}
			if got, want := holds(out, p), ring.Holds(p) || dist < d; got != want {
				t.Errorf("%s: %v, %g from the ring: in the outer rings: got %v, want %v", what, p, dist, got, want)
			}
		}
		// out, then in, covers the original; holes that the outer parallel closed in have been left out of it
		for _, g := range out {
			if g.Area() < 0 {
				continue
			}
			back, _ := Parallel(g, true, d)
			for i := 0; i < len(ring); i += 5 {
				if !holds(back, ring[i]) && nearest(ring[i], back) > 2*roundTol {
					t.Errorf("%s: out and in again leaves %v out by %g", what, ring[i], nearest(ring[i], back))
				}
			}
		}
	}
	if several < 20 {
		t.Errorf("only %d shapes fell apart: the test does not test what it should", several)
	}
}

// spoil puts points twice, and points on edges.
func spoil(r *rand.Rand, pts []Pt) (out []Pt) {
	for i, p := range pts {
		out = append(out, p)
		switch r.Intn(6) {
		case 0:
			out = append(out, p)
		case 1:
			out = append(out, p.Add(Pt{1e-7 * r.Float64(), 0}))
		case 2:
			out = append(out, p.Lerp(pts[(i+1)%len(pts)], 0.3))
		case 3:
			out = append(out, p.Lerp(pts[(i+1)%len(pts)], 0.1), p.Lerp(pts[(i+1)%len(pts)], 0.5))
		}
	}
	return out
}

func holds(rings []Ring, p Pt) bool {
	in := false
	for _, r := range rings {
		in = in != r.Holds(p)
	}
	return in
}

func nearest(p Pt, rings []Ring) float64 {
	best := math.Inf(1)
	for _, r := range rings {
		best = math.Min(best, Distance(p, r, true))
	}
	return best
}

func TestParallelNamedCases(t *testing.T) {
	square := []Pt{{0, 0}, {10, 0}, {10, 10}, {0, 10}}
	dumbbell := []Pt{{0, 0}, {20, 0}, {20, 8}, {40, 8}, {40, 0}, {60, 0}, {60, 20}, {40, 20}, {40, 12}, {20, 12}, {20, 20}, {0, 20}}
	tri := 1 - 1/(100/(5+math.Hypot(20, 5))) // a triangle shrinks by its inscribed circle's radius, area over half girth
	for _, c := range []struct {
		name   string
		pts    []Pt
		closed bool
		d      float64
		rings  int
		area   float64
		open   float64 // length of the open curve, 0 for none
	}{
		{"nothing", nil, true, 1, 0, 0, 0},
		{"nothing, open", nil, false, 1, 0, 0, 0},
		{"one point", []Pt{{1, 1}}, true, 1, 0, 0, 0},
		{"square in", square, true, 2, 1, 36, 0},
		{"square out", square, true, -2, 1, 100 + 80 + 4*math.Pi, 0},
		{"square, nothing left", square, true, 6, 0, 0, 0},
		{"square, by nothing", square, true, 0, 1, 100, 0},
		{"waist wide enough", dumbbell, true, 1.5, 1, 2*17*17 + 23*1 + 4*2.25*(1-math.Pi/4), 0},
		// each lobe 14 by 14, and the cusp between two circles of radius 3 whose centres are 4 apart
		{"waist falls apart", dumbbell, true, 3, 2, 2 * (14*14 + 4*(3-math.Sqrt(5)) - (9*(math.Pi/2-math.Asin(math.Sqrt(5)/3)) - 2*math.Sqrt(5))), 0},
		{"line", []Pt{{0, 0}, {10, 0}}, false, 2, 0, 0, 10},
		{"corner, inside", []Pt{{0, 0}, {10, 0}, {10, 10}}, false, 2, 0, 0, 16},
		{"corner, outside", []Pt{{0, 0}, {10, 0}, {10, 10}}, false, -2, 0, 0, 20 + math.Pi},
		{"vee", []Pt{{0, 0}, {10, 5}, {0, 10}}, false, 1, 0, 0, 2 * (math.Sqrt(125) - 2)},
		{"vee, all but closed: a sharp tail", []Pt{{20, 5.0001}, {0, 10}, {0, 0}, {20, 4.9999}}, false, 1, 1, tri * tri * 100, 0},
		{"box with a wide mouth: an open curve", []Pt{{4, 10}, {0, 10}, {0, 0}, {10, 0}, {10, 10}, {6, 10}}, false, 2, 0, 0, 22},
		{"slot just as wide as twice d", []Pt{{0, 0}, {20, 0}, {20, 8}, {30, 8}, {30, 12}, {20, 12}, {20, 20}, {0, 20}}, true, 2, 1, 16*16 + 8 - 2*math.Pi, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			rings, open := wantParallel(t, c.name, c.pts, c.closed, c.d)
			if len(rings) != c.rings {
				t.Errorf("got %d rings %v, want %d", len(rings), rings, c.rings)
			}
			near(t, "area", total(rings), c.area, 0.01)
			near(t, "length of the open curve", Polyline(open...).Length(), c.open, 0.01)
		})
	}
}

// TestParallelCircle: a circle's parallel is a circle.
func TestParallelCircle(t *testing.T) {
	for _, n := range []int{12, 100, 720} {
		var ring Ring
		for i := 0; i < n; i++ {
			ring = append(ring, Pt{3, 4}.Along(Polar(2*math.Pi*float64(i)/float64(n)), 50))
		}
		ap := 50 * math.Cos(math.Pi/float64(n)) // inner radius
		for _, d := range []float64{0.01, 1, 25, ap - 0.01} {
			rings, _ := wantParallel(t, fmt.Sprintf("%d-gon, %g in", n, d), ring, true, d)
			near(t, fmt.Sprintf("area of the %d-gon, %g in", n, d), total(rings), ring.Area()*(ap-d)*(ap-d)/(ap*ap), 1e-6)
			wantParallel(t, fmt.Sprintf("%d-gon, %g out", n, d), ring, true, -d)
		}
		if rings, _ := Parallel(ring, true, 51); len(rings) != 0 {
			t.Errorf("%d-gon by more than its radius: got %v", n, rings)
		}
	}
}
