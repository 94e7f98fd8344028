package takeoff_test

import (
	"math"
	"os"
	"strings"
	"testing"

	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

func kindOf(t *testing.T, old, new string) (*rib.Rib, takeoff.TakeOff) {
	t.Helper()
	data, err := os.ReadFile("../../cmd/ribwright/demo/marsh-wren.toml")
	if err != nil {
		t.Fatal(err)
	}
	doc, found := ribfile.Read("rib.toml", []byte(strings.Replace(string(data), old, new, 1)))
	if len(found) > 0 {
		t.Fatal(found)
	}
	sec, _ := rib.Section(doc, os.ReadFile)
	r, _ := rib.Build(doc, sec)
	return r, takeoff.Of(r, doc)
}

// TestDoubledSticks holds that the strips of doubled sticks are counted as pieces, and their seams as glue area.
func TestDoubledSticks(t *testing.T) {
	const old = "depth = 6\nwidth = 12\nmeet"
	_, one := kindOf(t, old, "depth = 6\nwidth = 12\nmeet")
	r, two := kindOf(t, old, "depth = 3\nplies = 2\nwidth = 12\nmeet")
	n := 0
	for _, g := range two.Sticks {
		n += len(g.IDs)
	}
	seams := 0.0
	for _, s := range r.Sticks {
		seams += s.PliesMM2
	}
	if n != 2*len(r.Sticks) || two.Glue.PliesMM2 != seams || seams < 17*90*12 {
		t.Errorf("%d pieces of %d sticks, strips glued over %.1f mm², seams %.1f", n, len(r.Sticks), two.Glue.PliesMM2, seams)
	}
	if d := two.Glue.TotalMM2 - one.Glue.TotalMM2; math.Abs(d-seams) > 1e-6 {
		t.Errorf("in all %.2f mm² more are glued, want %.2f", d, seams)
	}
	if two.Adhesive.MixedG <= one.Adhesive.MixedG || math.Abs(two.Mass.SticksG-one.Mass.SticksG) > 1e-9 {
		t.Errorf("adhesive %.2f g, was %.2f; sticks %.3f g, was %.3f", two.Adhesive.MixedG, one.Adhesive.MixedG, two.Mass.SticksG, one.Mass.SticksG)
	}
	sum := 0.0
	for _, s := range two.Spots {
		sum += s.Adhesive.MixedG
	}
	if math.Abs(sum-two.Adhesive.MixedG) > 1e-9 {
		t.Errorf("the joints take %.4f g, the rib %.4f", sum, two.Adhesive.MixedG)
	}
}

// TestWeb holds that a web is glued and weighed on its faces, and that every sum of areas, adhesive and mass has it.
func TestWeb(t *testing.T) {
	_, plain := kindOf(t, "faces = 2", "faces = 2")
	for _, c := range []struct {
		faces string
		on    [2]float64
	}{{"near", [2]float64{1, 0}}, {"far", [2]float64{0, 1}}, {"both", [2]float64{1, 1}}} {
		r, q := kindOf(t, "[fastener]", "[web]\ninset = 0.5\nthickness = 1\nfaces = \""+c.faces+"\"\n[fastener]")
		under := takeoff.Sum(r.Web.GlueMM2)
		g := q.Glue
		for side, n := range c.on {
			if g.WebMM2[side] != n*under || g.FaceMM2[side] != (1-n)*plain.Glue.FaceMM2[side] {
				t.Errorf("%s, side %d: plates %.1f mm², web %.1f", c.faces, side+1, g.FaceMM2[side], g.WebMM2[side])
			}
		}
		n := c.on[0] + c.on[1]
		want := float64(n*under) + float64((2-n)*plain.Glue.FaceMM2[0]) + g.ButtMM2 + g.CapsMM2
		if math.Abs(g.TotalMM2-want) > 1e-6 {
			t.Errorf("%s: %.3f mm² in all, want %.3f", c.faces, g.TotalMM2, want)
		}
		spots, parts := 0.0, 0.0
		var moment float64
		for _, s := range q.Spots {
			spots += s.Adhesive.MixedG
		}
		if sides := q.Sides[0].MixedG + q.Sides[1].MixedG; math.Abs(spots-q.Adhesive.MixedG) > 1e-9 || math.Abs(sides-q.Adhesive.MixedG) > 1e-9 {
			t.Errorf("%s: the joints take %.4f g, the sides %.4f, the rib %.4f", c.faces, spots, sides, q.Adhesive.MixedG)
		}
		for _, p := range q.Mass.Parts {
			if p.Kind == "plates" {
				parts += float64(p.MassG * float64(p.Count))
			}
			if p.ID == takeoff.WebID {
				moment = p.At.X * p.VolumeMM3
			}
		}
		// The whole outline less its openings balances where the web does; 680 kg/m³ is the plywood's density.
		whole := r.Web.Outline.Centroid().X * r.Web.Outline.Area()
		for _, h := range r.Web.Holes {
			whole -= float64(h.Ring.Centroid().X * math.Abs(h.Ring.Area()))
		}
		if math.Abs(moment-whole) > 1e-6*whole {
			t.Errorf("%s: the web's moment is %.3f mm⁴, want %.3f", c.faces, moment, whole)
		}
		if want := float64(n*r.Web.AreaMM2*680e-6) + float64((2-n)*plain.Mass.GussetsG/2); math.Abs(parts-want) > 1e-6 || math.Abs(q.Mass.GussetsG-want) > 1e-6 {
			t.Errorf("%s: plywood weighs %.4f g, the sum %.4f, want %.4f", c.faces, parts, q.Mass.GussetsG, want)
		}
	}
}

// TestFarPlates holds that plates on the far face alone are glued with the second side.
func TestFarPlates(t *testing.T) {
	_, near := kindOf(t, "faces = 2", "faces = 1")
	_, far := kindOf(t, "faces = 2", "faces = 1\nface = \"far\"")
	if near.Glue.FaceMM2[1] != 0 || far.Glue.FaceMM2[0] != 0 || near.Glue.FaceMM2[0] != far.Glue.FaceMM2[1] || near.Glue.TotalMM2 != far.Glue.TotalMM2 {
		t.Errorf("near: %v, far: %v", near.Glue, far.Glue)
	}
	if near.Mass.GussetsG != far.Mass.GussetsG {
		t.Errorf("plates weigh %g g, far ones %g", near.Mass.GussetsG, far.Mass.GussetsG)
	}
}
