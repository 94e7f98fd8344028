package geom

import (
	"fmt"
	"math"
	"math/rand"
	"testing"
)

// wantDiscClip holds the pieces of a disc in a ring against the closed form of their area, and looks at
// every corner and arc.
func wantDiscClip(t *testing.T, what string, c Pt, r float64, ring Ring) []Path {
	t.Helper()
	got := DiscClip(c, r, ring)
	sum := 0.0
	for k, p := range got {
		name := fmt.Sprintf("%s: DiscClip(%v, %g, %v), piece %d %v", what, c, r, ring, k, p)
		if !p.Closed || p.Area() <= 0 {
			t.Errorf("%s: closed %v, area %g: want closed, counter-clockwise", name, p.Closed, p.Area())
		}
		sum += p.Area()
		a := p.Start
		for _, g := range p.Segs {
			if g.Bulge != 0 {
				m, rad, _, _ := Arc(a, g.End, g.Bulge)
				if rad*math.Abs(math.Atan(g.Bulge)) > 1e-3 { // an arc of a hair's length tells nothing of its centre
					near(t, name+": arc's centre off by", m.Dist(c), 0, 1e-5)
				}
				if g.Bulge < 0 || g.Bulge > 1+1e-9 {
					t.Errorf("%s: bulge %g, want 0 to 1", name, g.Bulge)
				}
			}
			a = g.End
		}
		for _, q := range p.Flatten(Flat) {
			if d := q.Dist(c) - r; d > 1e-6 {
				t.Errorf("%s: %v lies %g outside the disc", name, q, d)
			}
			if d := Distance(q, ring, true); d > 1e-6 && !ring.Holds(q) {
				t.Errorf("%s: %v lies %g outside the ring", name, q, d)
			}
		}
	}
	want := DiscRing(c, r, ring)
	near(t, fmt.Sprintf("%s: DiscClip(%v, %g, %v): area of %v", what, c, r, ring, got), sum, want, 1e-9*(1+want))
	return got
}

func TestDiscClipRandom(t *testing.T) {
	r := rand.New(rand.NewSource(8))
	for k := 0; k < 1500; k++ {
		ring := anyRing(r, k)
		c, rad := ring[r.Intn(len(ring))].Add(Pt{30*r.Float64() - 15, 30*r.Float64() - 15}), 0.2+25*r.Float64()
		switch k % 6 {
		case 1: // a corner on the circle
			rad = c.Dist(ring[r.Intn(len(ring))])
		case 2: // the centre at a corner
			c = ring[r.Intn(len(ring))]
		case 3: // the centre on an edge
			c = ring[0].Lerp(ring[1], r.Float64())
		case 4: // an edge's line tangent
			i := r.Intn(len(ring))
			a, b := ring[i], ring[(i+1)%len(ring)]
			c = a.Lerp(b, r.Float64()).Along(b.Sub(a).Unit().Left(), rad*(1-2*float64(r.Intn(2))))
		}
		if rad < 0.1 {
			continue
		}
		wantDiscClip(t, fmt.Sprintf("case %d", k), c, rad, ring)
	}
}

func TestDiscClipNamedCases(t *testing.T) {
	square := Ring{{-10, -10}, {10, -10}, {10, 10}, {-10, 10}}
	fine := func(n int, r float64) Ring {
		out := make(Ring, n)
		for i := range out {
			out[i] = Polar(2 * math.Pi * float64(i) / float64(n)).Mul(r)
		}
		return out
	}
	for _, c := range []struct {
		name   string
		c      Pt
		r      float64
		ring   Ring
		pieces int
		circle bool
		area   float64
	}{
		{"no ring", Pt{}, 5, nil, 0, false, 0},
		{"no disc", Pt{}, 0, square, 0, false, 0},
		{"disc inside", Pt{1, 2}, 5, square, 1, true, 25 * math.Pi},
		{"ring inside", Pt{1, 2}, 50, square, 1, false, 400},
		{"apart", Pt{40, 0}, 5, square, 0, false, 0},
		{"apart, but in the box", Pt{9, 9}, 1, Ring{{-10, -10}, {10, -10}, {-10, 10}}, 0, false, 0},
		{"half", Pt{10, 0}, 4, square, 1, false, 8 * math.Pi},
		{"segment", Pt{13, 0}, 5, square, 1, false, 25*math.Acos(0.6) - 12},
		{"all but a segment", Pt{7, 0}, 5, square, 1, false, 25*math.Pi - 25*math.Acos(0.6) + 12},
		{"corner of a quarter", Pt{10, 10}, 4, square, 1, false, 4 * math.Pi},
		{"tangent to one edge", Pt{6, 0}, 4, square, 1, true, 16 * math.Pi},
		{"tangent to one edge, from outside", Pt{14, 0}, 4, square, 0, false, 0},
		{"inscribed", Pt{}, 10, square, 1, true, 100 * math.Pi},
		{"circumscribed", Pt{}, 10 * math.Sqrt2, square, 1, false, 400},
		{"one corner on the circle, ring inside", Pt{-5, 0}, math.Hypot(15, 10), square, 1, false, 400},
		{"corner touches from outside", Pt{14, 10}, 4, square, 0, false, 0},
		{"notch's corner touches from outside", Pt{}, 5, Ring{{-9, -9}, {9, -9}, {9, -1}, {5, 0}, {9, 1}, {9, 9}, {-9, 9}}, 1, true, 25 * math.Pi},
		{"in two: a bar across", Pt{}, 5, Ring{{-9, -9}, {-1, -9}, {-1, 8}, {1, 8}, {1, -9}, {9, -9}, {9, 9}, {-9, 9}}, 2, false,
			2 * (25*math.Acos(0.2) - math.Sqrt(24))},
		{"ring of chords of the same circle", Pt{}, 10, fine(400, 10), 1, false, fine(400, 10).Area()},
		{"ring of tangents of the same circle", Pt{}, 10, fine(400, 10/math.Cos(math.Pi/400)), 1, true, 100 * math.Pi},
	} {
		t.Run(c.name, func(t *testing.T) {
			for turn := 0; turn < 8; turn++ {
				m := Turn(Pt{}, float64(turn)*math.Pi/4)
				got := wantDiscClip(t, fmt.Sprintf("turned %d eighths", turn), m.Pt(c.c), c.r, m.Pts(c.ring))
				sum := 0.0
				for _, p := range got {
					sum += p.Area()
				}
				near(t, "area", sum, c.area, 1e-8)
				if len(got) != c.pieces {
					t.Errorf("turned %d eighths: got %d pieces %v, want %d", turn, len(got), got, c.pieces)
				}
				if c.circle && len(got) == 1 {
					if _, r, ok := got[0].IsCircle(); !ok || math.Abs(r-c.r) > 1e-12 {
						t.Errorf("turned %d eighths: got %v, want a full circle", turn, got[0])
					}
				}
			}
		})
	}
}
