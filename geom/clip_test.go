package geom

import (
	"fmt"
	"math"
	"math/rand"
	"testing"
)

// wantCut cuts the ring on both sides and holds the pieces against everything a cut promises.
func wantCut(t *testing.T, what string, ring Ring, h Half) {
	t.Helper()
	const made = -7
	s := Shape{Ring: ring, Tags: make([]int, len(ring))}
	for i := range s.Tags {
		s.Tags[i] = i + 1
	}
	total := 0.0
	for side, h := range []Half{h, h.Flip()} {
		sum := 0.0
		for k, p := range s.Cut(h, made) {
			name := fmt.Sprintf("%s, side %d, piece %d", what, side, k)
			sum += p.Ring.Area()
			if p.Ring.Area()*ring.Area() <= 0 {
				t.Errorf("%s: area %g, ring's %g: direction lost", name, p.Ring.Area(), ring.Area())
			}
			wantSimple(t, name, p.Ring, true)
			if len(p.Tags) != len(p.Ring) {
				t.Fatalf("%s: %d tags for %d corners", name, len(p.Tags), len(p.Ring))
			}
			for i, a := range p.Ring {
				b := p.Ring[(i+1)%len(p.Ring)]
				if h.Off(a) > 1e-9 {
					t.Errorf("%s: corner %v lies %g outside", name, a, h.Off(a))
				}
				if p.Tags[i] == made {
					if math.Abs(h.Off(a)) > 1e-9 || math.Abs(h.Off(b)) > 1e-9 {
						t.Errorf("%s: edge %v–%v carries the cut's tag, is off the cut", name, a, b)
					}
					continue
				}
				from := p.Tags[i] - 1
				c, d := ring[from], ring[(from+1)%len(ring)]
				if math.Sqrt(math.Max(segDist2(a, c, d), segDist2(b, c, d))) > 1e-9 {
					t.Errorf("%s: edge %v–%v carries the tag of %v–%v", name, a, b, c, d)
				}
			}
		}
		near(t, what+fmt.Sprintf(": Within, side %d", side), ring.Within(h).Area(), sum, 1e-7)
		total += sum
	}
	near(t, what+": both sides", total, ring.Area(), 1e-7)
}

func TestCutRandom(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for k := 0; k < 1500; k++ {
		var ring Ring
		if k%2 == 0 {
			ring = star(r, 3+r.Intn(20), Pt{10 * r.Float64(), 5}, 1, 20)
		} else {
			ring = comb(r, 1+r.Intn(8), 2*math.Pi*r.Float64())
		}
		if k%3 == 0 {
			ring = ring.Reverse()
		}
		b := ring.Box()
		a := Pt{b.Min.X + b.W()*r.Float64(), b.Min.Y + b.H()*r.Float64()}
		n := Polar(2 * math.Pi * r.Float64())
		switch k % 5 {
		case 1: // through a corner
			a = ring[r.Intn(len(ring))]
		case 2: // through two corners, perhaps along an edge
			i := r.Intn(len(ring))
			a = ring[i]
			n = ring[(i+1+r.Intn(2)*r.Intn(len(ring)-1))%len(ring)].Sub(a).Unit().Left()
			if n == (Pt{}) {
				continue
			}
		}
		wantCut(t, fmt.Sprintf("case %d", k), ring, Half{n, n.Dot(a)})
	}
}

// TestCutOnLattice cuts rings with whole-number corners along lattice lines: corners on the cut, edges
// along it, and touches, in every mixture.
func TestCutOnLattice(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for k := 0; k < 3000; k++ {
		// a skyline over a skyline: x-monotone, so simple
		n := 3 + r.Intn(8)
		var ring Ring
		for i := 0; i < n; i++ {
			ring = append(ring, Pt{float64(i), float64(r.Intn(4))})
		}
		for i := n - 1; i >= 0; i-- {
			ring = append(ring, Pt{float64(i), 4 + float64(r.Intn(4))})
		}
		if k%2 == 0 {
			ring = ring.Reverse()
		}
		h := Half{Pt{0, 1}, float64(r.Intn(8))}
		if k%3 == 0 {
			h = LeftOf(ring[r.Intn(n)], Pt{float64(r.Intn(n)) + 0.5, float64(r.Intn(8))})
		}
		wantCut(t, fmt.Sprintf("case %d: %v cut by %v", k, ring, h), ring, h)
	}
}

func TestCutNamedCases(t *testing.T) {
	below := Half{Pt{0, 1}, 0}
	for _, c := range []struct {
		name   string
		ring   Ring
		pieces []float64 // areas, in the order of the ring
	}{
		{"empty", nil, nil},
		{"whole inside", Ring{{0, -2}, {1, -2}, {1, -1}, {0, -1}}, []float64{1}},
		{"whole outside", Ring{{0, 2}, {1, 2}, {1, 3}, {0, 3}}, nil},
		{"edge on the cut, inside", Ring{{0, -2}, {1, -2}, {1, 0}, {0, 0}}, []float64{2}},
		{"edge on the cut, outside", Ring{{0, 0}, {1, 0}, {1, 3}, {0, 3}}, nil},
		{"corner touches from outside", Ring{{0, 0}, {1, 1}, {-1, 1}}, nil},
		{"corner touches from inside", Ring{{0, 0}, {-1, -1}, {1, -1}}, []float64{1}},
		{"step on the cut, material outside it", Ring{{0, 0}, {2, 0}, {2, -1}, {4, -1}, {4, 1}, {0, 1}}, []float64{2}},
		{"step on the cut, material inside it", Ring{{0, -1}, {4, -1}, {4, 1}, {2, 1}, {2, 0}, {0, 0}}, []float64{4}},
		{"bridge on the cut", Ring{{0, -2}, {1, -2}, {1, 0}, {2, 0}, {2, -2}, {3, -2}, {3, 1}, {0, 1}}, []float64{2, 2}},
		{"notch that just reaches the cut", Ring{{0, -2}, {1, -2}, {1.5, 0}, {2, -2}, {3, -2}, {3, 1}, {0, 1}}, []float64{2.5, 2.5}},
		{"slot down to the cut", Ring{{0, -1}, {3, -1}, {3, 1}, {2, 1}, {2, 0}, {1, 0}, {1, 1}, {0, 1}}, []float64{3}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := c.ring.Cut(below)
			if len(got) != len(c.pieces) {
				t.Fatalf("%v: got %d pieces %v, want %d", c.ring, len(got), got, len(c.pieces))
			}
			for i, p := range got {
				near(t, fmt.Sprintf("area of piece %d, %v", i, p), p.Area(), c.pieces[i], 1e-12)
			}
			if len(c.ring) > 0 {
				wantCut(t, c.name, c.ring, below)
				wantCut(t, c.name+", backwards", c.ring.Reverse(), below)
			}
		})
	}
}

// TestCutTags shows which edge is tagged as what.
func TestCutTags(t *testing.T) {
	s := Shape{Ring{{0, 0}, {4, 0}, {4, 2}, {0, 2}}, []int{1, 2, 3, 4}}
	for _, c := range []struct {
		name string
		h    Half
		want string
	}{
		{"across", Before(1), "[{[{0 0} {1 0} {1 2} {0 2}] [1 9 3 4]}]"},
		{"along an edge: it keeps its tag", Before(4), "[{[{0 0} {4 0} {4 2} {0 2}] [1 2 3 4]}]"},
		{"through corners", LeftOf(Pt{4, 2}, Pt{0, 0}), "[{[{0 0} {4 0} {4 2}] [1 2 9]}]"},
	} {
		var got []string
		for _, p := range s.Cut(c.h, 9) {
			i := 0 // begin at the corner that is lowest, then leftmost: where a piece begins is not promised
			for k, q := range p.Ring {
				if q.Y < p.Ring[i].Y || q.Y == p.Ring[i].Y && q.X < p.Ring[i].X {
					i = k
				}
			}
			got = append(got, fmt.Sprint(Shape{append(p.Ring[i:len(p.Ring):len(p.Ring)], p.Ring[:i]...),
				append(p.Tags[i:len(p.Tags):len(p.Tags)], p.Tags[:i]...)}))
		}
		if fmt.Sprint(got) != c.want {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
	if got := (Shape{Ring: s.Ring}).Cut(Before(1), 9)[0]; len(got.Tags) != 4 {
		t.Errorf("nil tags: got %v, want four", got.Tags)
	}
}

func TestHalf(t *testing.T) {
	h := LeftOf(Pt{0, 0}, Pt{2, 0})
	for _, c := range []struct {
		h    Half
		p    Pt
		want float64
	}{
		{h, Pt{5, 3}, -3}, {h, Pt{5, -3}, 3}, {h, Pt{9, 1e-11}, 0}, {h.Flip(), Pt{5, 3}, 3},
		{Before(2), Pt{1, 7}, -1}, {After(2), Pt{1, 7}, 1},
	} {
		if got := c.h.Off(c.p); got != c.want {
			t.Errorf("%v.Off(%v): got %g, want %g", c.h, c.p, got, c.want)
		}
	}
}

func TestLargest(t *testing.T) {
	if got := Largest(nil); got.Ring != nil {
		t.Errorf("of nothing: got %v", got)
	}
	ring := Ring{{0, -2}, {1, -2}, {1, 1}, {2, 1}, {2, -3}, {4, -3}, {4, 2}, {0, 2}}
	got := Largest(Shape{Ring: ring}.Cut(Half{Pt{0, 1}, 0}, 1))
	near(t, "largest piece", got.Ring.Area(), 6, 1e-12)
}

// TestStretches cuts segments by a ring: what is left lies inside, and with what lies outside makes the whole.
func TestStretches(t *testing.T) {
	comb := Ring{{0, 0}, {9, 0}, {9, 5}, {6, 5}, {6, 2}, {3, 2}, {3, 5}, {0, 5}}
	for _, c := range []struct {
		a, b Pt
		want [][2]Pt
	}{
		{Pt{-1, 4}, Pt{10, 4}, [][2]Pt{{{0, 4}, {3, 4}}, {{6, 4}, {9, 4}}}},
		{Pt{1, 1}, Pt{2, 1}, [][2]Pt{{{1, 1}, {2, 1}}}},
		{Pt{4, 4}, Pt{5, 4}, nil},
		{Pt{1, 4}, Pt{1, 9}, [][2]Pt{{{1, 4}, {1, 5}}}},
	} {
		got := comb.Stretches(c.a, c.b)
		if len(got) != len(c.want) {
			t.Errorf("%v to %v: got %v, want %v", c.a, c.b, got, c.want)
			continue
		}
		for i := range got {
			if got[i][0].Dist(c.want[i][0]) > 1e-12 || got[i][1].Dist(c.want[i][1]) > 1e-12 {
				t.Errorf("%v to %v: got %v, want %v", c.a, c.b, got, c.want)
			}
		}
	}
}
