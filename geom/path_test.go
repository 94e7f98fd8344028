package geom

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand"
	"reflect"
	"testing"
)

// curved returns a random path of lines and arcs.
func curved(r *rand.Rand, n int, closed bool) Path {
	at := func() Pt { return Pt{200*r.Float64() - 100, 200*r.Float64() - 100} }
	p := Path{Start: at(), Closed: closed}
	for i := 0; i < n; i++ {
		g := Seg{End: at()}
		if r.Intn(3) > 0 {
			g.Bulge = 4*r.Float64() - 2
		}
		p.Segs = append(p.Segs, g)
	}
	return p
}

func TestZeroValuesAreEmpty(t *testing.T) {
	var (
		b  Box
		r  Ring
		p  Path
		g  Region
		s  Shape
		tr Transform
	)
	empty := map[string]bool{
		"box is empty":              b.Empty() && b.W() == 0 && b.H() == 0 && !b.Holds(Pt{}) && !b.Meets(b) && !b.Meets(NewBox(Pt{})),
		"box grows to the first":    b.Add(Pt{1, 2}) == NewBox(Pt{1, 2}) && b.Union(NewBox(Pt{1, 2})) == NewBox(Pt{1, 2}),
		"box stays empty":           b.Grow(3).Empty() && b.Move(Pt{1, 1}).Empty() && b.Union(b).Empty() && NewBox().Empty(),
		"ring has no measures":      r.Area() == 0 && r.Girth() == 0 && r.Box().Empty() && !r.Holds(Pt{}),
		"ring has no parts":         len(r.Cut(Before(0))) == 0 && len(r.Within(Before(0))) == 0 && len(r.Reverse()) == 0 && !r.Path().Closed,
		"path has no measures":      p.Area() == 0 && p.Length() == 0 && p.Box().Empty() && p.Flatten(Flat) == nil,
		"path has no parts":         len(p.Reverse().Segs) == 0 && len(p.Tidy(1).Segs) == 0 && len(Polyline().Segs) == 0,
		"region has no area":        g.Area() == 0,
		"shape has no parts":        len(s.Cut(Before(0), 1)) == 0 && Largest(nil).Ring == nil,
		"nothing in common":         DiscRing(Pt{}, 1, nil) == 0 && CommonArea(nil, r) == 0 && ConvexRing(nil, nil) == 0,
		"no disc in it":             len(DiscClip(Pt{}, 1, nil)) == 0,
		"the zero map is no map":    tr != Identity && tr.Pt(Pt{3, 4}) == Pt{},
		"unit of the zero vector":   Pt{}.Unit() == Pt{},
		"a lone point is no circle": func() bool { _, _, ok := p.IsCircle(); return !ok }(),
	}
	for what, ok := range empty {
		if !ok {
			t.Errorf("%s: not so", what)
		}
	}
}

// TestInputsStay hands every function that takes a slice one with room behind it, and finds slice and room
// as they were.
func TestInputsStay(t *testing.T) {
	r := rand.New(rand.NewSource(13))
	for k := 0; k < 100; k++ {
		pts := make([]Pt, 0, 100)
		pts = append(pts, smooth(r, 40, 30, 0.4)...)
		pts = append(pts, pts[39], pts[0]) // doubled, so that there is something to tidy
		tags := make([]int, len(pts), 100)
		segs := append(make([]Seg, 0, 50), curved(r, 20, true).Segs...)
		segs = append(segs, segs[19])
		other := star(r, 9, Pt{10, 5}, 5, 30)
		copies := func() []any {
			return []any{append([]Pt(nil), pts[:100]...), append([]int(nil), tags[:100]...), append([]Seg(nil), segs[:50]...), append(Ring(nil), other...)}
		}
		before := copies()
		ring, p := Ring(pts), Path{Segs: segs, Closed: true}
		used := []Ring{ring.Reverse(), ring.Within(Before(3))}
		used = append(used, ring.Cut(After(-1000))...)
		for _, h := range []Half{Before(3), After(-1000), Before(-1000)} {
			for _, s := range (Shape{ring, tags}).Cut(h, 5) {
				used = append(used, s.Ring)
				for i := range s.Tags {
					s.Tags[i] = 99
				}
			}
		}
		for _, d := range []float64{0, 1, -1, 7} {
			a, b := Parallel(pts, true, d)
			_, c := Parallel(pts, false, d)
			used = append(append(append(used, a...), b), c)
		}
		used = append(used, Identity.Pts(pts), Ring(ring.Path().Flatten(Flat)))
		CommonArea(ring, other)
		ConvexRing(other, ring)
		DiscRing(Pt{1, 1}, 20, ring)
		for _, q := range append(DiscClip(Pt{1, 1}, 20, ring), ring.Path(), p.Reverse(), p.Tidy(1), Identity.Path(p)) {
			for i := range q.Segs {
				q.Segs[i].Bulge = 77
			}
		}
		p.Flatten(Flat)
		for _, u := range used { // results are the caller's own
			for i := range u {
				u[i] = Pt{-9, -9}
			}
		}
		if after := copies(); !reflect.DeepEqual(before, after) {
			t.Fatalf("case %d: a slice was changed", k)
		}
	}
}

func TestReverse(t *testing.T) {
	r := rand.New(rand.NewSource(14))
	for k := 0; k < 300; k++ {
		p := curved(r, 1+r.Intn(9), k%2 == 0)
		q := p.Reverse()
		what := fmt.Sprintf("case %d: %v", k, p)
		near(t, what+": area", q.Area(), -p.Area(), 1e-7)
		near(t, what+": length", q.Length(), p.Length(), 1e-9)
		a, b := p.Box(), q.Box()
		near(t, what+": box", a.Min.Dist(b.Min)+a.Max.Dist(b.Max), 0, 1e-9)
		if back := q.Reverse(); !reflect.DeepEqual(back, p) {
			t.Errorf("%s: twice: got %v", what, back)
		}
	}
}

func TestPathBoxAndFlatten(t *testing.T) {
	r := rand.New(rand.NewSource(15))
	for k := 0; k < 200; k++ {
		p := curved(r, 1+r.Intn(6), k%2 == 0)
		box, pts := p.Box(), p.Flatten(1e-5)
		what := fmt.Sprintf("case %d: %v", k, p)
		got := NewBox(pts...)
		near(t, what+": box", got.Min.Dist(box.Min)+got.Max.Dist(box.Max), 0, 1e-4)
		for _, q := range pts {
			if !box.Grow(1e-9).Holds(q) {
				t.Errorf("%s: %v outside %v", what, q, box)
			}
		}
		near(t, what+": length", Polyline(append(pts, p.Segs[len(p.Segs)-1].End)...).Length()+closing(p), p.Length(), 1e-3)
	}
}

func closing(p Path) float64 {
	if p.Closed {
		return p.Segs[len(p.Segs)-1].End.Dist(p.Start)
	}
	return 0
}

func TestTidy(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"corner on a line", "{[0 0] [{[1 0] 0} {[3 0] 0} {[3 2] 0}] false}", "{[0 0] [{[3 0] 0} {[3 2] 0}] false}"},
		{"a spike stays", "{[0 0] [{[3 0] 0} {[1 0] 0} {[1 2] 0}] false}", "{[0 0] [{[3 0] 0} {[1 0] 0} {[1 2] 0}] false}"},
		{"short edge", "{[0 0] [{[3 0] 0} {[3 1e-07] 0} {[3 2] 0}] true}", "{[0 0] [{[3 0] 0} {[3 2] 0}] true}"},
		{"short last edge, closed", "{[0 0] [{[3 0] 0} {[3 2] 0} {[0 1e-07] 0} {[0 0] 0}] true}", "{[0 0] [{[3 0] 0} {[3 2] 0} {[0 0] 0}] true}"},
		{"short last edge, open", "{[0 0] [{[3 0] 0} {[3 1e-07] 0}] false}", "{[0 0] [{[3 0] 0} {[3 1e-07] 0}] false}"},
		{"arcs stay", "{[0 0] [{[1 0] 0} {[2 0] 1} {[3 0] 0}] false}", "{[0 0] [{[1 0] 0} {[2 0] 1} {[3 0] 0}] false}"},
	} {
		p := parsePath(t, c.in)
		if got, want := p.Tidy(Coincident), parsePath(t, c.want); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %v: got %v, want %v", c.name, p, got, want)
		}
	}
	r := rand.New(rand.NewSource(16))
	for k := 0; k < 200; k++ {
		p := curved(r, 8, true)
		p.Segs = append(p.Segs, Seg{End: p.Start})
		for i := range p.Segs { // put corners on the lines
			if p.Segs[i].Bulge == 0 && i > 0 {
				p.Segs = append(p.Segs[:i:i], append([]Seg{{End: p.Segs[i-1].End.Lerp(p.Segs[i].End, 0.4)}}, p.Segs[i:]...)...)
			}
		}
		q := p.Tidy(Coincident)
		if len(q.Segs) > 9 {
			t.Errorf("case %d: %v: got %d segments, want at most 9", k, p, len(q.Segs))
		}
		near(t, fmt.Sprintf("case %d: area", k), q.Area(), p.Area(), 1e-7)
		near(t, fmt.Sprintf("case %d: length", k), q.Length(), p.Length(), 1e-9)
	}
}

// parsePath reads a path as %v prints it, points in square brackets.
func parsePath(t *testing.T, s string) (p Path) {
	t.Helper()
	var x, y, b float64
	var rest string
	if _, err := fmt.Sscanf(s, "{[%g %g] [", &p.Start.X, &p.Start.Y); err != nil {
		t.Fatal(s, err)
	}
	rest = s[len(fmt.Sprintf("{[%g %g] [", p.Start.X, p.Start.Y)):]
	for rest[0] == '{' || rest[0] == ' ' {
		if rest[0] == ' ' {
			rest = rest[1:]
		}
		if _, err := fmt.Sscanf(rest, "{[%g %g] %g}", &x, &y, &b); err != nil {
			t.Fatal(s, err)
		}
		p.Segs = append(p.Segs, Seg{Pt{x, y}, b})
		rest = rest[len(fmt.Sprintf("{[%g %g] %g}", x, y, b)):]
	}
	p.Closed = rest == "] true}"
	return p
}

func TestIsCircle(t *testing.T) {
	c := Circle(Pt{3, 4}, 5)
	turned := Turn(Pt{1, 1}, 0.3).Path(c)
	for _, k := range []struct {
		name string
		p    Path
		ok   bool
		c    Pt
	}{
		{"circle", c, true, Pt{3, 4}},
		{"backwards", c.Reverse(), true, Pt{3, 4}},
		{"turned", turned, true, Turn(Pt{1, 1}, 0.3).Pt(Pt{3, 4})},
		{"mirrored", Zoom(-1, 1).Path(c), true, Pt{-3, 4}},
		{"twice as big", Zoom(0.5, 0.5).Path(Circle(Pt{6, 8}, 10)), true, Pt{3, 4}},
		{"lens", Path{c.Start, []Seg{{Pt{-2, 4}, 0.5}, {c.Start, 0.5}}, true}, false, Pt{}},
		{"to and fro on half a circle", Path{c.Start, []Seg{{Pt{-2, 4}, 1}, {c.Start, -1}}, true}, false, Pt{}},
		{"open", Path{c.Start, c.Segs, false}, false, Pt{}},
		{"square", Rect(NewBox(Pt{}, Pt{1, 1})), false, Pt{}},
	} {
		at, r, ok := k.p.IsCircle()
		if ok != k.ok || at.Dist(k.c) > 1e-12 || ok && math.Abs(r-5) > 1e-12 {
			t.Errorf("%s: %v: got %v, %g, %v, want %v, %v", k.name, k.p, at, r, ok, k.c, k.ok)
		}
	}
}

func TestArc(t *testing.T) {
	r := rand.New(rand.NewSource(17))
	for k := 0; k < 500; k++ {
		c, rad, t0 := Pt{100 * r.Float64(), 100 * r.Float64()}, 0.1+100*r.Float64(), 2*math.Pi*r.Float64()-math.Pi
		w := (0.01 + 6*r.Float64()) * float64(2*(k%2)-1)
		a, b := c.Along(Polar(t0), rad), c.Along(Polar(t0+w), rad)
		gc, gr, gt, gw := Arc(a, b, math.Tan(w/4))
		if gc.Dist(c) > 1e-9 || math.Abs(gr-rad) > 1e-9 || math.Abs(math.Remainder(gt-t0, 2*math.Pi)) > 1e-9 || math.Abs(gw-w) > 1e-9 {
			t.Errorf("Arc(%v, %v, tan(%g/4)): got %v, %g, %g, %g, want %v, %g, %g", a, b, w, gc, gr, gt, gw, c, rad, t0)
		}
	}
}

func TestPt(t *testing.T) {
	p := Pt{3, 4}
	for what, ok := range map[string]bool{
		"Add": p.Add(Pt{1, 2}) == Pt{4, 6}, "Sub": p.Sub(Pt{1, 2}) == Pt{2, 2}, "Mul": p.Mul(2) == Pt{6, 8},
		"Along": p.Along(Pt{1, 0}, 5) == Pt{8, 4}, "Dot": p.Dot(Pt{2, 1}) == 10, "Cross": p.Cross(Pt{2, 1}) == -5,
		"Len": p.Len() == 5, "Dist": p.Dist(Pt{}) == 5, "Unit": p.Unit() == Pt{0.6, 0.8}, "Left": p.Left() == Pt{-4, 3},
		"Lerp": p.Lerp(Pt{5, 8}, 0.5) == Pt{4, 6}, "Angle": Pt{0, 2}.Angle() == math.Pi/2, "Polar": Polar(0) == Pt{1, 0},
		"Angle of the left axis": Pt{-1, 0}.Angle() == math.Pi,
	} {
		if !ok {
			t.Errorf("%s: wrong", what)
		}
	}
	b, err := json.Marshal([]Pt{{1.5, -2}, {math.Copysign(0, -1), 0}})
	if string(b) != "[[1.5,-2],[0,0]]" || err != nil {
		t.Errorf("as JSON: got %s, %v, want no -0", b, err)
	}
	var back []Pt
	if err := json.Unmarshal(b, &back); err != nil || back[0] != (Pt{1.5, -2}) {
		t.Errorf("from JSON: got %v, %v", back, err)
	}
	if err := json.Unmarshal([]byte(`["x"]`), &p); err == nil {
		t.Error("from JSON: a word passed for a point")
	}
}

func TestBox(t *testing.T) {
	b := NewBox(Pt{3, 1}, Pt{1, 5}, Pt{2, 2})
	if b.Min != (Pt{1, 1}) || b.Max != (Pt{3, 5}) || b.W() != 2 || b.H() != 4 || b.Centre() != (Pt{2, 3}) || b.Empty() {
		t.Errorf("got %v", b)
	}
	if got := b.Grow(1).Move(Pt{10, 0}); got.Min != (Pt{10, 0}) || got.Max != (Pt{14, 6}) {
		t.Errorf("grown and moved: got %v", got)
	}
	for _, c := range []struct {
		o    Box
		want bool
	}{{NewBox(Pt{3, 5}), true}, {NewBox(Pt{3.1, 5}), false}, {NewBox(Pt{0, 0}, Pt{9, 9}), true}, {NewBox(Pt{0, 6}, Pt{9, 9}), false}} {
		if b.Meets(c.o) != c.want || c.o.Meets(b) != c.want {
			t.Errorf("%v meets %v: want %v", b, c.o, c.want)
		}
	}
	if !b.Holds(Pt{1, 5}) || b.Holds(Pt{0.9, 5}) {
		t.Errorf("%v: its edges belong to it, and nothing beyond", b)
	}
}
