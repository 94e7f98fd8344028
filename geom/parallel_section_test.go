package geom

import (
	"fmt"
	"math"
	"math/rand"
	"testing"
)

// TestParallelSections takes NACA 4412, 0012 and 23-per-cent sections, blunt and sharp, open and closed at
// the tail, from 300 to 2000 mm, with caps from 1 to 12 mm deep.
func TestParallelSections(t *testing.T) {
	tight, sharp, open := 0, 0, 0
	for _, chord := range []float64{300, 700, 1400, 2000} {
		for _, d := range []float64{1, 3.175, 6.35, 12} {
			for k, s := range []struct{ m, p, t, last float64 }{
				{0.04, 0.4, 0.12, -0.1015}, {0.04, 0.4, 0.12, -0.1036}, {0, 0, 0.06, -0.1036}, {0.06, 0.3, 0.23, -0.1015},
			} {
				pts := naca4(s.m, s.p, s.t, chord, s.last, 60)
				if s.t*chord < 2.1*d {
					continue // nothing is left
				}
				what := fmt.Sprintf("section %d, chord %g, d %g", k, chord, d)
				ends := pts[0].Dist(pts[len(pts)-1])
				if 1.1019*s.t*s.t*chord < d { // the nose radius (Abbott and von Doenhoff, 6.4)
					tight++
				}
				rings, line := wantParallel(t, what+", open", pts, false, d)
				switch {
				case len(line) > 0:
					open++
					if ends < 2*d || len(rings) > 0 {
						t.Errorf("%s: open, with %d rings, though the tail is %g wide", what, len(rings), ends)
					}
				case len(rings) != 1:
					t.Errorf("%s: got %d rings", what, len(rings))
				default:
					sharp++
				}
				ring := Ring(distinct(pts, true))
				shut, _ := wantParallel(t, what+", closed", ring, true, d)
				if len(shut) != 1 || shut[0].Area() <= 0 || shut[0].Area() >= ring.Area() {
					t.Errorf("%s, closed: got %d rings of %g, section %g", what, len(shut), total(shut), ring.Area())
				}
				if len(rings) == 1 && ends < d/2 { // the tail's own edge is far from what is left
					near(t, what+": open against closed", rings[0].Area(), shut[0].Area(), 1e-6)
				}
				out, _ := wantParallel(t, what+", outward", ring, true, -d)
				if len(out) != 1 {
					t.Fatalf("%s, outward: got %d rings", what, len(out))
				}
				// out by d and in again gives the section back, but for the corners rounded by d on the hollow side
				back, _ := wantParallel(t, what+", out and in", out[0], true, d)
				if len(back) != 1 || math.Abs(total(back)-ring.Area()) > ring.Girth()*2*roundTol+1e-4*ring.Area() {
					t.Errorf("%s: out and in: %d rings of %g, want %g", what, len(back), total(back), ring.Area())
				}
			}
		}
	}
	if tight < 5 || sharp < 20 {
		t.Errorf("%d tight noses, %d sharp tails: the test does not test what it should", tight, sharp)
	}
	// a blunt tail, wider than twice the depth, stays open
	pts := naca4(0.04, 0.4, 0.12, 1400, -0.09, 60)
	rings, line := wantParallel(t, "blunt", pts, false, 3)
	if len(rings) != 0 || len(line) < 100 {
		t.Errorf("blunt tail of %g: got %d rings, %d points open", pts[0].Dist(pts[len(pts)-1]), len(rings), len(line))
	}
}

// TestParallelProlonged: where the sides are drawn on beyond a sharp tail, and so cross, the tail is
// trimmed as it is without.
func TestParallelProlonged(t *testing.T) {
	for _, last := range []float64{-0.1015, -0.1036} {
		for _, d := range []float64{1, 3, 6.35, 12} {
			pts := naca4(0.04, 0.4, 0.12, 1400, last, 80)
			n := len(pts)
			long := append([]Pt{pts[0].Along(pts[0].Sub(pts[1]).Unit(), 3*d)}, pts...)
			long = append(long, pts[n-1].Along(pts[n-1].Sub(pts[n-2]).Unit(), 3*d))
			rings, open := Parallel(long, false, d)
			want, _ := Parallel(pts, false, d)
			if len(want) != 1 { // blunt: the prolonged sides meet far behind
				continue
			}
			if len(rings) != 1 || len(open) != 0 {
				t.Fatalf("x⁴ %g, d %g: got %d rings and %d open points, want one ring", last, d, len(rings), len(open))
			}
			near(t, fmt.Sprintf("x⁴ %g, d %g", last, d), rings[0].Area(), want[0].Area(), 1e-6)
		}
	}
}

// TestParallelStep: a small step, as the edge of a skin makes it, on an otherwise smooth section.
func TestParallelStep(t *testing.T) {
	done := 0
	for _, step := range []float64{0.8, -0.8, 0.01, 2} {
		for _, d := range []float64{0.5, 0.8, 1, 6.35} {
			pts := naca4(0.04, 0.4, 0.12, 1400, -0.1036, 80)
			stepped := append([]Pt(nil), pts[:40]...) // from 9 to 50 per cent on the upper side, moved inward
			for _, p := range pts[40:65] {
				stepped = append(stepped, Pt{p.X, p.Y - step})
			}
			stepped = append(stepped, pts[65:]...)
			stepped[39].X = stepped[40].X + step/10 // nearly upright
			if _, _, bad := selfMeeting(distinct(stepped, true), true); bad {
				continue
			}
			what := fmt.Sprintf("step %g, d %g", step, d)
			rings, _ := wantParallel(t, what, stepped, false, d)
			if len(rings) != 1 {
				t.Errorf("%s: got %d rings", what, len(rings))
			}
			done++
		}
	}
	if done < 12 {
		t.Errorf("only %d steps looked at", done)
	}
}

// TestParallelMovedTurnedMirrored: the result goes with its input.
func TestParallelMovedTurnedMirrored(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	for k := 0; k < 150; k++ {
		pts, closed := []Pt(smooth(r, 20+r.Intn(60), 60, 0.5+0.3*r.Float64())), true
		if k%3 == 0 {
			pts, closed = naca4(0.04, 0.4, 0.06+0.1*r.Float64(), 400, -0.1036, 30), false
		} else if _, _, bad := selfMeeting(pts, true); bad {
			continue
		}
		d := 0.5 + 30*r.Float64()
		if k%2 == 0 {
			d = -d
		}
		rings, open := Parallel(pts, closed, d)
		m := Turn(Pt{20, 30}, 7*r.Float64()).Then(Move(Pt{500 * r.Float64(), 900 * r.Float64()}))
		for name, c := range map[string]struct {
			m    Transform
			d, s float64
		}{
			"moved and turned": {m, d, 1},
			"mirrored":         {Zoom(1, -1), -d, -1},
			"mirrored, turned": {Zoom(-1, 1).Then(m), -d, -1},
		} {
			got, line := Parallel(c.m.Pts(pts), closed, c.d)
			what := fmt.Sprintf("case %d, d %g, %s", k, d, name)
			if len(got) != len(rings) {
				t.Errorf("%s: got %d rings, want %d", what, len(got), len(rings))
				continue
			}
			near(t, what+": area", total(got), c.s*total(rings), 1e-5)
			near(t, what+": length of the open curve", Polyline(line...).Length(), Polyline(open...).Length(), 1e-6)
		}
		// walked the other way round
		back := []Pt(Ring(pts).Reverse())
		got, line := Parallel(back, closed, -d)
		near(t, fmt.Sprintf("case %d, backwards: area", k), total(got), -total(rings), 1e-5)
		near(t, fmt.Sprintf("case %d, backwards: length", k), Polyline(line...).Length(), Polyline(open...).Length(), 1e-6)
	}
}

// TestParallelLattice takes shapes whose corners and distances are whole numbers, so that stretches of the
// parallel fall on each other in every way.
func TestParallelLattice(t *testing.T) {
	r := rand.New(rand.NewSource(12))
	for k := 0; k < 1500; k++ {
		var ring Ring
		n := 2 + r.Intn(6)
		for i := 0; i < n; i++ {
			y := float64(r.Intn(6))
			ring = append(ring, Pt{4 * float64(i), y}, Pt{4*float64(i) + 4, y})
		}
		for i := n - 1; i >= 0; i-- {
			y := 6 + float64(r.Intn(6))
			ring = append(ring, Pt{4*float64(i) + 4, y}, Pt{4 * float64(i), y})
		}
		d := []float64{0.5, 1, 1.5, 2, 2.5, 3}[r.Intn(6)]
		what := fmt.Sprintf("case %d: %v, d %g", k, ring, d)
		for _, d := range []float64{d, -d} {
			rings, _ := Parallel(ring, true, d)
			sum := 0.0
			for i, g := range rings {
				if i, j, bad := crossing(g); bad {
					t.Errorf("%s: ring %d: edges %d and %d cross", what, i, i, j)
				}
				for _, q := range g {
					if got := Distance(q, ring, true); got < math.Abs(d)-2*roundTol {
						t.Errorf("%s: ring %d: %v at %g", what, i, q, got)
						break
					}
				}
				sum += g.Area()
			}
			for i := 0; i < 30; i++ {
				p := Pt{28*r.Float64() - 2, 14*r.Float64() - 1}
				dist := Distance(p, ring, true)
				want := ring.Holds(p) && dist > d
				if d < 0 {
					want = ring.Holds(p) || dist < -d
				}
				if math.Abs(dist-math.Abs(d)) > 0.001 && holds(rings, p) != want {
					t.Errorf("%s (%g): %v at %g: got %v", what, d, p, dist, !want)
					break
				}
			}
		}
	}
}

// crossing looks for edges that properly cross; rings on a lattice may touch themselves.
func crossing(g Ring) (i, j int, found bool) {
	c := crossings(g, true)
	for _, x := range c {
		if x.t > 1e-6 && x.t < 1-1e-6 {
			return x.edge, 0, true
		}
	}
	return 0, 0, false
}

// TestParallelCritical looks closely at distances at which a shape just falls apart or a hole just closes.
func TestParallelCritical(t *testing.T) {
	r := rand.New(rand.NewSource(77))
	done := 0
	for k := 0; k < 10; k++ {
		ring := smooth(r, 30+r.Intn(40), 60, 0.5+0.3*r.Float64())
		if _, _, bad := selfMeeting(ring, true); bad {
			continue
		}
		count := func(d float64) int { g, _ := Parallel(ring, true, d); return len(g) }
		for d := 1.0; d < 50; d++ {
			n := count(d)
			if n == count(d+1) {
				continue
			}
			lo, hi := d, d+1
			for i := 0; i < 50; i++ {
				if m := (lo + hi) / 2; count(m) == n {
					lo = m
				} else {
					hi = m
				}
			}
			for _, e := range []float64{0, 1e-12, -1e-12, 1e-9, 1e-7, -1e-7, 1e-5, -1e-5, 1e-4, -1e-4, 3e-4} {
				what := fmt.Sprintf("case %d, d %.9f%+g", k, lo, e)
				rings, _ := Parallel(ring, true, lo+e)
				for _, g := range rings {
					wantSimple(t, what, g, true)
					for _, q := range g {
						near(t, what+": distance", Distance(q, ring, true), lo+e, 1e-3)
					}
				}
				after, _ := Parallel(ring, true, lo+e+0.003)
				near(t, what+": area, against 0.003 mm on", total(rings), total(after), 3)
				done++
			}
		}
	}
	if done < 50 {
		t.Errorf("only %d looked at", done)
	}
}
