package shop

import (
	"fmt"
	"math"
	"testing"

	"ribwright/geom"
	"ribwright/geom/bend"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

func ribOf(t *testing.T, section string, depth float64) (*rib.Rib, *ribfile.Doc) {
	t.Helper()
	doc, fs := ribfile.Read("rib.toml", []byte(fmt.Sprintf("units = \"mm\"\nsection = %s\nrib = { chord = 1400, count = 3 }\ncap = { depth = %g, width = 12 }\n", section, depth)))
	sec, more := rib.Section(doc, nil)
	if len(fs)+len(more) > 0 {
		t.Fatal(fs, more)
	}
	r, _ := rib.Build(doc, sec)
	return r, doc
}

// TestFormIsInnerEdge holds that without spring-back the form is the caps' inner edge, which geom/rib makes by
// another way, as the parallel of the whole contour: to 0.01 mm.
func TestFormIsInnerEdge(t *testing.T) {
	for _, section := range []string{`{ naca = "4412" }`, `{ naca = "0015" }`, `{ naca = "23012" }`, `{ builtin = "clark-y" }`} {
		r, doc := ribOf(t, section, 6)
		doc.Bend.SpringBack = 0
		for i, s := range takeoff.Strips(r) {
			lower := r.Caps[i].Side == rib.Lower
			f := newForm(s, lower, doc.Bend)
			if len(f.edge) < 20 {
				t.Fatalf("%s, %s: a form of %d points", section, s.ID, len(f.edge))
			}
			// Lay it back into the rib by its first chord.
			k, way, normals := 0, 1.0, bend.Tangents(s.Edge)
			for s.Edge[k].X < f.stations[0] {
				k++
			}
			if lower {
				way = -1
			}
			p, q := s.Edge[k].Along(normals[k].Left(), -way*s.Depth), s.Edge[k-1].Along(normals[k-1].Left(), -way*s.Depth)
			back := geom.Move(f.edge[0].Mul(-1)).Then(geom.Turn(geom.Pt{}, q.Sub(p).Angle()-f.edge[1].Sub(f.edge[0]).Angle())).Then(geom.Move(p))
			worst := 0.0
			for _, q := range f.edge {
				worst = math.Max(worst, off(r.Contour.Inner, back.Pt(q)))
			}
			if worst > 0.01 {
				t.Errorf("%s, %s: the form stands off the inner edge by %.4f mm", section, s.ID, worst)
			}
		}
	}
}

// off returns the distance of a point from a ring's edges.
func off(r geom.Ring, p geom.Pt) float64 {
	d := math.Inf(1)
	for i, a := range r {
		d = math.Min(d, distance(p, a, r[(i+1)%len(r)]))
	}
	return d
}

// TestFormSprings holds that with a spring-back of 10 % the form turns by 1/0.9 of the inner edge's angle at the
// same length, and that the board below it can be sawn.
func TestFormSprings(t *testing.T) {
	r, doc := ribOf(t, `{ naca = "4412" }`, 6)
	for i, s := range takeoff.Strips(r) {
		lower := r.Caps[i].Side == rib.Lower
		rules := doc.Bend
		rules.SpringBack = 0
		plain := newForm(s, lower, rules)
		rules.SpringBack = 0.1
		bent := newForm(s, lower, rules)
		if got, want := turnOf(bent.edge), turnOf(plain.edge)/0.9; math.Abs(got-want) > 1e-9 || len(bent.edge) != len(plain.edge) {
			t.Errorf("%s: turns by %.4f, want %.4f", s.ID, got, want)
		}
		if a, b := length(bent.edge), length(plain.edge); math.Abs(a-b) > 1e-9 {
			t.Errorf("%s: %.4f mm long, want %.4f", s.ID, a, b)
		}
		for _, f := range []form{plain, bent} {
			if !f.board().Simple() || f.board().Area() <= 0 {
				t.Errorf("%s: the board's outline crosses itself", s.ID)
			}
			if u := f.normal[0]; math.Abs(u.X) > 1e-9 || u.Y < 0 {
				t.Errorf("%s: the strip does not lie on top of the board: %v", s.ID, u)
			}
		}
	}
}

func turnOf(p []geom.Pt) float64 {
	sum := 0.0
	for i := 2; i < len(p); i++ {
		a, b := p[i-1].Sub(p[i-2]), p[i].Sub(p[i-1])
		sum += math.Atan2(a.Cross(b), a.Dot(b))
	}
	return math.Abs(sum)
}

func length(p []geom.Pt) float64 {
	sum := 0.0
	for i := 1; i < len(p); i++ {
		sum += p[i].Dist(p[i-1])
	}
	return sum
}

// TestFormNone holds that a rib whose caps bend dry everywhere has no form, and that a nose rounder than the strip is
// deep still has one, behind it.
func TestFormNone(t *testing.T) {
	r, doc := ribOf(t, `{ naca = "0030" }`, 0.9)
	if take := takeoff.Of(r, doc); NeedsFormer(take) {
		t.Errorf("a strip of 0.9 mm round a nose of 139 mm: %+v", take.Bends)
	}
	r, doc = ribOf(t, `{ naca = "0006" }`, 12)
	s := takeoff.Strips(r)[0]
	f := newForm(s, false, doc.Bend)
	if len(f.edge) == 0 || f.stations[len(f.stations)-1] <= 0 || !f.board().Simple() {
		t.Errorf("a nose of %.1f mm and a strip of 12 mm: a form of %d points", s.Radius, len(f.edge))
	}
}

// TestFormAtTheEnd: a cap that is too round only at its very end, as that of a tail rib behind the spar, has a form too.
func TestFormAtTheEnd(t *testing.T) {
	r, doc := ribOf(t, `{ builtin = "clark-y" }`, 6)
	s := takeoff.Strips(r)[0]
	for len(s.Edge) > 0 && s.Edge[0].X < 350 {
		s.Edge = s.Edge[1:]
	}
	for _, dry := range []float64{60, 100, 125, 150} {
		doc.Bend.Dry = dry
		if f := newForm(s, false, doc.Bend); len(f.edge) < formPoints {
			t.Errorf("dry from %g: a form of %d points", dry, len(f.edge))
		}
	}
}
