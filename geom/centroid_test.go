package geom

import (
	"math"
	"math/rand"
	"testing"
)

// TestCentroid holds centres of gravity against closed forms: a triangle's is the mean of its corners, a half disc's
// stands 4r/(3π) from its centre, a quarter disc's so far from both its sides.
func TestCentroid(t *testing.T) {
	for _, c := range []struct {
		name string
		path Path
		want Pt
	}{
		{"triangle", Ring{{0, 0}, {6, 0}, {0, 9}}.Path(), Pt{2, 3}},
		{"triangle, clockwise", Ring{{0, 0}, {0, 9}, {6, 0}}.Path(), Pt{2, 3}},
		{"disc", Circle(Pt{5, -7}, 3), Pt{5, -7}},
		{"half disc", Path{Start: Pt{3, 0}, Segs: []Seg{{Pt{-3, 0}, 1}}, Closed: true}, Pt{0, 4 / math.Pi}},
		{"half disc, clockwise", Path{Start: Pt{-3, 0}, Segs: []Seg{{Pt{3, 0}, -1}}, Closed: true}, Pt{0, 4 / math.Pi}},
		{"quarter disc", Path{Start: Pt{3, 0}, Segs: []Seg{{Pt{0, 3}, math.Tan(math.Pi / 8)}, {Pt{0, 0}, 0}}, Closed: true}, Pt{4 / math.Pi, 4 / math.Pi}},
	} {
		if got := c.path.Centroid(); got.Dist(c.want) > 1e-12 {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
	if got := (Ring{{0, 0}, {4, 0}, {4, 3}}).Middle(); got.Dist(Pt{(2*4 + 4*3 + 2*5) / 12.0, (1.5*3 + 1.5*5) / 12.0}) > 1e-12 {
		t.Errorf("edges of a triangle: got %v", got)
	}
	if got := (Path{}).Centroid(); got != (Pt{}) {
		t.Errorf("an empty path: got %v", got)
	}
}

// TestCentroidOfPieces holds that two pieces of a disc balance about the whole one's centre, and against chords.
func TestCentroidOfPieces(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for range 200 {
		c, rad := Pt{100 * r.Float64(), 100 * r.Float64()}, 1+20*r.Float64()
		n := Polar(2 * math.Pi * r.Float64())
		h := Half{n, n.Dot(c) + rad*(1.9*r.Float64()-0.95)}
		square := Ring{{-500, -500}, {700, -500}, {700, 700}, {-500, 700}}
		var sum Pt
		area := 0.0
		for _, half := range []Half{h, h.Flip()} {
			for _, p := range DiscClip(c, rad, square.Within(half)) {
				a := p.Area()
				sum, area = sum.Add(p.Centroid().Mul(a)), area+a
				if d := p.Centroid().Dist(Ring(p.Flatten(1e-4)).Centroid()); d > 1e-3 {
					t.Errorf("a piece of a disc: %g mm off its chords'", d)
				}
			}
		}
		if d := sum.Mul(1 / area).Dist(c); d > 1e-7 {
			t.Errorf("two pieces balance %g mm off the disc's centre", d)
		}
	}
}
