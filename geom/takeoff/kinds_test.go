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
