package geom

import (
	"fmt"
	"math"
	"math/rand"
	"testing"
)

// anyRing returns a star or a comb, now and then turned about and far from the origin.
func anyRing(r *rand.Rand, k int) Ring {
	at := Pt{20 * r.Float64(), 20 * r.Float64()}
	if k%7 == 0 {
		at = at.Add(Pt{2000, -500})
	}
	if k%2 == 0 {
		return star(r, 3+r.Intn(25), at, 1, 25)
	}
	return Move(at.Sub(Pt{20, 20})).Pts(comb(r, 1+r.Intn(6), 2*math.Pi*r.Float64()))
}

func TestDiscRingAgainstSlabs(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for k := 0; k < 800; k++ {
		ring := anyRing(r, k)
		c, rad := ring[r.Intn(len(ring))].Add(Pt{30*r.Float64() - 15, 30*r.Float64() - 15}), 0.2+25*r.Float64()
		got, want := DiscRing(c, rad, ring), slabDisc(c, rad, ring)
		near(t, fmt.Sprintf("case %d: DiscRing(%v, %g, %v)", k, c, rad, ring), got, want, 1e-8*(1+want))
		near(t, fmt.Sprintf("case %d, backwards", k), DiscRing(c, rad, ring.Reverse()), -got, 1e-9)
	}
}

func TestDiscRingClosedForms(t *testing.T) {
	square := Ring{{-10, -10}, {10, -10}, {10, 10}, {-10, 10}}
	for _, c := range []struct {
		name string
		c    Pt
		r    float64
		ring Ring
		want float64
	}{
		{"no ring", Pt{}, 5, nil, 0},
		{"no disc", Pt{}, 0, square, 0},
		{"disc inside", Pt{1, 2}, 5, square, 25 * math.Pi},
		{"ring inside", Pt{1, 2}, 50, square, 400},
		{"apart", Pt{40, 0}, 5, square, 0},
		{"inscribed: all four edges tangent", Pt{}, 10, square, 100 * math.Pi},
		{"circumscribed: all four corners on the circle", Pt{}, 10 * math.Sqrt2, square, 400},
		{"centre on an edge", Pt{10, 0}, 4, square, 8 * math.Pi},
		{"centre on a corner", Pt{10, 10}, 4, square, 4 * math.Pi},
		{"touches from outside", Pt{15, 0}, 5, square, 0},
		// a segment of height 2 of a circle of radius 5: r²·acos(1 − h/r) − (r − h)·√(2rh − h²)
		{"segment", Pt{13, 0}, 5, square, 25*math.Acos(0.6) - 3*4},
	} {
		near(t, c.name, DiscRing(c.c, c.r, c.ring), c.want, 1e-11*(1+c.want))
	}
}

func TestCommonAreaAgainstSlabs(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	for k := 0; k < 600; k++ {
		a, b := anyRing(r, 2*k), anyRing(r, 2*k+k%2)
		want := slabCommon(a, b)
		near(t, fmt.Sprintf("case %d: CommonArea(%v, %v)", k, a, b), CommonArea(a, b), want, 1e-8*(1+want))
		near(t, fmt.Sprintf("case %d, exchanged", k), CommonArea(b, a), want, 1e-8*(1+want))
		near(t, fmt.Sprintf("case %d, one backwards", k), CommonArea(a.Reverse(), b), want, 1e-8*(1+want))
		if k%2 == 0 {
			convex := hull(a)
			want := slabCommon(convex, b)
			near(t, fmt.Sprintf("case %d: ConvexRing", k), ConvexRing(convex, b), want, 1e-8*(1+want))
			near(t, fmt.Sprintf("case %d: ConvexRing backwards", k), ConvexRing(convex, b.Reverse()), -want, 1e-8*(1+want))
		}
	}
}

// hull returns the convex hull, counter-clockwise, by gift wrapping.
func hull(pts []Pt) Ring {
	at := 0
	for i, p := range pts {
		if p.X < pts[at].X {
			at = i
		}
	}
	var out Ring
	for first := at; len(out) == 0 || at != first; {
		out = append(out, pts[at])
		next := (at + 1) % len(pts)
		for i, p := range pts {
			if pts[next].Sub(pts[at]).Cross(p.Sub(pts[at])) < 0 {
				next = i
			}
		}
		at = next
	}
	return out
}

// TestUnionPlusOverlap holds the areas of two stars against their union, integrated in slabs on its own.
func TestUnionPlusOverlap(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	for k := 0; k < 300; k++ {
		a, b := anyRing(r, 2*k), anyRing(r, 2*k)
		if !a.Box().Meets(b.Box()) {
			continue
		}
		// |A ∪ B| = |box| − |box ∖ A ∖ B|, by clipping the slab sections' complements
		frame := Ring(Rect(a.Box().Union(b.Box()).Grow(1)).Flatten(Flat))
		union := frame.Area() - slabOutside(frame, a, b)
		near(t, fmt.Sprintf("case %d: %v and %v", k, a, b), union+CommonArea(a, b), a.Area()+b.Area(), 1e-7)
	}
}

// slabOutside returns the area of the frame that neither ring covers.
func slabOutside(frame, a, b Ring) float64 {
	lo, hi := frame.Box().Min.Y, frame.Box().Max.Y
	holes := func(ring Ring, x float64) []float64 {
		return append(append([]float64{lo}, section(ring, x)...), hi)
	}
	return slabs(append(append(Ring(nil), frame...), append(crossPoints(a, b), append(append(Ring(nil), a...), b...)...)...),
		func(x float64) float64 { return overlap(holes(a, x), holes(b, x)) })
}

func TestPathArea(t *testing.T) {
	half := Path{Start: Pt{1, 0}, Segs: []Seg{{Pt{-1, 0}, 1}}, Closed: true}
	for _, c := range []struct {
		name string
		p    Path
		want float64
	}{
		{"zero", Path{}, 0},
		{"line", Line(Pt{1, 2}, Pt{3, 4}), 0},
		{"rectangle", Rect(NewBox(Pt{1, 2}, Pt{4, 4})), 6},
		{"circle", Circle(Pt{100, 50}, 3), 9 * math.Pi},
		{"circle, clockwise", Circle(Pt{100, 50}, 3).Reverse(), -9 * math.Pi},
		{"half disc", half, math.Pi / 2},
		{"stadium", Path{Pt{0, 0}, []Seg{{Pt{5, 0}, 0}, {Pt{5, 2}, 1}, {Pt{0, 2}, 0}, {Pt{0, 0}, 1}}, true}, 10 + math.Pi},
		{"round corner", Path{Pt{0, 0}, []Seg{{Pt{1, 0}, 0}, {Pt{0, 1}, math.Tan(math.Pi / 8)}}, true}, math.Pi / 4},
		{"inward corner", Path{Pt{0, 0}, []Seg{{Pt{1, 0}, 0}, {Pt{0, 1}, -math.Tan(math.Pi / 8)}}, true}, 1 - math.Pi/4},
	} {
		near(t, c.name, c.p.Area(), c.want, 1e-12*(1+math.Abs(c.want)))
	}
	if got := (Region{}).Area(); got != 0 {
		t.Errorf("zero region: got %g", got)
	}
	g := Region{Outer: Circle(Pt{}, 3), Holes: []Path{Circle(Pt{1, 0}, 1).Reverse()}}
	near(t, "region with a hole", g.Area(), 8*math.Pi, 1e-12)
}

// TestPathAgainstRationalArcs integrates ½∮(x dy − y dx) and the length over another form of the same arcs,
// rational quadratic Bézier curves (Piegl and Tiller, The NURBS Book, 7.3).
func TestPathAgainstRationalArcs(t *testing.T) {
	r := rand.New(rand.NewSource(6))
	for k := 0; k < 300; k++ {
		ring := anyRing(r, k)
		p := Path{Start: ring[0], Closed: k%2 == 0}
		area, length := 0.0, 0.0
		for i := range ring {
			a, b := ring[i], ring[(i+1)%len(ring)]
			bulge := 1.4*r.Float64() - 0.7
			if i%3 == 0 {
				bulge = 0
			}
			p.Segs = append(p.Segs, Seg{b, bulge})
			at := rationalArc(a, b, bulge)
			const n = 64 // stretches of the eight-point rule
			const h = 1e-5
			for j := 0; j < n; j++ {
				f := func(t float64) (da, dl float64) {
					v := at(t + h).Sub(at(t - h)).Mul(1 / (2 * h))
					return at(t).Sub(ring[0]).Cross(v) / 2, v.Len()
				}
				area += gauss(func(t float64) float64 { x, _ := f(t); return x }, float64(j)/n, float64(j+1)/n)
				length += gauss(func(t float64) float64 { _, x := f(t); return x }, float64(j)/n, float64(j+1)/n)
			}
		}
		near(t, fmt.Sprintf("case %d: area of %v", k, p), p.Area(), area, 1e-5)
		near(t, fmt.Sprintf("case %d: length of %v", k, p), p.Length(), length, 1e-5)
	}
}

func rationalArc(a, b Pt, bulge float64) func(float64) Pt {
	d := b.Sub(a)
	m := a.Lerp(b, 0.5).Along(d.Left(), -bulge/(1-bulge*bulge))
	w := (1 - bulge*bulge) / (1 + bulge*bulge) // cosine of half the sweep
	return func(t float64) Pt {
		u, v, z := (1-t)*(1-t), 2*t*(1-t)*w, t*t
		return a.Mul(u).Add(m.Mul(v)).Add(b.Mul(z)).Mul(1 / (u + v + z))
	}
}

func TestRingMeasures(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	for k := 0; k < 300; k++ {
		ring := anyRing(r, k)
		near(t, fmt.Sprintf("case %d: Area", k), ring.Area(), slabCommon(ring, ring), 1e-8*(1+ring.Area()))
		near(t, fmt.Sprintf("case %d: path's area", k), ring.Path().Area(), ring.Area(), 1e-9)
		near(t, fmt.Sprintf("case %d: path's length", k), ring.Path().Length(), ring.Girth(), 1e-9)
		near(t, fmt.Sprintf("case %d: Reverse", k), ring.Reverse().Area(), -ring.Area(), 1e-9)
		p := Pt{ring.Box().Min.X + ring.Box().W()*r.Float64(), ring.Box().Min.Y + ring.Box().H()*r.Float64()}
		in, ys := false, section(ring, p.X)
		for i := 0; i+1 < len(ys); i += 2 {
			in = in || ys[i] < p.Y && p.Y < ys[i+1]
		}
		if got := ring.Holds(p); got != in {
			t.Errorf("case %d: %v.Holds(%v): got %v, want %v", k, ring, p, got, in)
		}
	}
}

func TestDistance(t *testing.T) {
	chain := []Pt{{0, 0}, {10, 0}, {10, 5}}
	for _, c := range []struct {
		p      Pt
		chain  []Pt
		closed bool
		want   float64
	}{
		{Pt{5, 2}, chain, false, 2},
		{Pt{5, 2}, chain, true, 0.5 / math.Hypot(1, 0.5)}, // the closing line runs at y = x/2
		{Pt{-3, -4}, chain, false, 5},
		{Pt{3, 4}, []Pt{{0, 0}}, true, 5},
		{Pt{3, 4}, []Pt{{0, 0}, {0, 0}}, false, 5},
		{Pt{3, 4}, nil, true, math.Inf(1)},
	} {
		if got := Distance(c.p, c.chain, c.closed); got != c.want && !(math.Abs(got-c.want) < 1e-12) {
			t.Errorf("Distance(%v, %v, %v): got %g, want %g", c.p, c.chain, c.closed, got, c.want)
		}
	}
}
