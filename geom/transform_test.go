package geom

import (
	"fmt"
	"math"
	"math/rand"
	"testing"
)

func TestTransformRoundTrip(t *testing.T) {
	r := rand.New(rand.NewSource(18))
	for k := 0; k < 300; k++ {
		p := curved(r, 1+r.Intn(8), k%2 == 0)
		c, a, v, z := Pt{100 * r.Float64(), 9}, 20*r.Float64()-10, Pt{300 * r.Float64(), -40}, 0.1+5*r.Float64()
		flip := float64(1 - 2*(k%3%2))
		there := Turn(c, a).Then(Move(v)).Then(Zoom(flip*z, z))
		back := Zoom(flip/z, 1/z).Then(Move(v.Mul(-1))).Then(Turn(c, -a))
		q := there.Path(p)
		what := fmt.Sprintf("case %d: %v by %v", k, p, there)
		near(t, what+": area", q.Area(), flip*z*z*p.Area(), 1e-6*(1+z*z))
		near(t, what+": length", q.Length(), z*p.Length(), 1e-8*(1+z))
		again := back.Path(q)
		for i, g := range again.Segs {
			if g.End.Dist(p.Segs[i].End) > 1e-9 || g.Bulge != p.Segs[i].Bulge || q.Segs[i].Bulge != flip*g.Bulge {
				t.Errorf("%s: and back: segment %d: got %v, want %v", what, i, g, p.Segs[i])
			}
		}
		if got := again.Start.Dist(p.Start); got > 1e-9 || again.Closed != p.Closed {
			t.Errorf("%s: and back: start off by %g, closed %v", what, got, again.Closed)
		}
		// an arc's middle goes where the map takes it
		if g := p.Segs[0]; g.Bulge != 0 {
			m := Path{Start: p.Start, Segs: p.Segs[:1]}.Flatten(1e-4)
			for _, x := range m {
				n, rad, _, _ := Arc(q.Start, q.Segs[0].End, q.Segs[0].Bulge)
				near(t, what+": arc", there.Pt(x).Dist(n), rad, 1e-8*(1+rad))
			}
		}
	}
}

func TestTransformOrder(t *testing.T) {
	for _, c := range []struct {
		name string
		t    Transform
		want Pt
	}{
		{"nothing", Identity, Pt{2, 1}},
		{"move", Move(Pt{1, 1}), Pt{3, 2}},
		{"quarter turn about a point", Turn(Pt{1, 1}, math.Pi/2), Pt{1, 2}},
		{"move, then turn", Move(Pt{1, 0}).Then(Turn(Pt{}, math.Pi/2)), Pt{-1, 3}},
		{"turn, then move", Turn(Pt{}, math.Pi/2).Then(Move(Pt{1, 0})), Pt{0, 2}},
		{"zoom", Zoom(2, -3), Pt{4, -3}},
	} {
		if got := c.t.Pt(Pt{2, 1}); got.Dist(c.want) > 1e-15 {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
		if got := c.t.Pts([]Pt{{2, 1}}); len(got) != 1 || got[0] != c.t.Pt(Pt{2, 1}) {
			t.Errorf("%s: Pts: got %v", c.name, got)
		}
	}
}
