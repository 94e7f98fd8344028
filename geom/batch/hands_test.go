package batch_test

import (
	"math"
	"testing"

	"ribwright/geom/batch"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// TestRightRibs: right ribs of plates on one face get them as their other side, so that they take adhesive for the joints alone where
// left ones take it for the plates too; all together the set takes as much as if all were left.
func TestRightRibs(t *testing.T) {
	for _, c := range []struct {
		gusset, session string
		left, right     [2]bool // a side is glued
	}{
		{`{ faces = 1 }`, "", [2]bool{true, false}, [2]bool{true, true}},
		{`{ faces = 1, face = "far" }`, "", [2]bool{true, true}, [2]bool{true, false}},
		{`{ faces = 1 }`, `session = { time = "3 h" }`, [2]bool{true, false}, [2]bool{true, true}},
		{`{ faces = 2 }`, "", [2]bool{true, true}, [2]bool{true, true}},
	} {
		doc, found := ribfile.Read("rib.toml", []byte(`
units = "mm"
section = { naca = "4412" }
rib = { chord = 1400, count = 6 }
nose = { block_to = "5%" }
tail = { block_from = "93%" }
spar = [{ name = "front", at = "15%", width = 19 }, { name = "rear", at = "62%", width = 16 }]
bay = [{ from = "front", to = "rear", panels = 6 }]
gusset = `+c.gusset+"\n"+c.session))
		if len(found) > 0 {
			t.Fatal(found)
		}
		sec, _ := rib.Section(doc, nil)
		r, _ := rib.Build(doc, sec)
		r.Mirrored = 3
		take := takeoff.Of(r, doc)
		sum, done := 0.0, map[[2]int]bool{}
		for _, run := range batch.Runs(rib.One(r, doc), []takeoff.TakeOff{take}) {
			for _, s := range run {
				sum += s.MixedG
				done[[2]int{s.Rib, s.Face}] = true
				if want := take.Side(s.Rib > 3, s.Face).MixedG; s.MixedG != want {
					t.Errorf("%s: side %d of rib %d takes %g g, want %g", c.gusset, s.Face+1, s.Rib, s.MixedG, want)
				}
			}
		}
		for n := 1; n <= 6; n++ {
			want := c.left
			if n > 3 {
				want = c.right
			}
			for face := range 2 {
				if done[[2]int{n, face}] != want[face] {
					t.Errorf("%s %s: side %d of rib %d is glued: %v", c.gusset, c.session, face+1, n, !want[face])
				}
			}
		}
		if want := 6 * (take.Sides[0].MixedG + take.Sides[1].MixedG); math.Abs(sum-want) > 1e-9 {
			t.Errorf("%s: %g g in all, want %g", c.gusset, sum, want)
		}
	}
}
