package rib_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/rib"
)

// cutDemo is the demo rib with ends of its own and spars that lean.
func cutDemo(t *testing.T, ends string, tilt float64) *rib.Rib {
	t.Helper()
	text := strings.Replace(readFile(t, "../../cmd/ribwright/demo/marsh-wren.toml"), "chord = 1400", "chord = 1400\n"+ends+"\n#", 1)
	for _, w := range []string{"width = 19\n", "width = 16\n"} {
		text = strings.Replace(text, w, fmt.Sprintf("%stilt = %g\n", w, tilt), 1)
	}
	return mustBuild(t, text, "")
}

// TestCutAtSpar holds that a rib cut at a spar is the whole rib's part on that side: contour, caps and inner edge by the overlay of
// polygons, the post that closes it as it stands in the whole rib, and nothing from beyond.
func TestCutAtSpar(t *testing.T) {
	for _, tilt := range []float64{0, 7, -7} {
		whole := cutDemo(t, "", tilt)
		for _, c := range []struct {
			ends                      string
			spar                      int
			aft, tail                 bool // the face, and which side is kept
			sticks, posts, spars, box int
		}{
			{`trailing_edge = "front fore"`, 0, false, false, 2, 1, 0, 1},
			{`trailing_edge = "rear aft"`, 1, true, false, 14, 3, 2, 1},
			{`leading_edge = "rear aft"`, 1, true, true, 3, 1, 0, 1},
			{`leading_edge = "front fore"`, 0, false, true, 15, 3, 2, 1},
		} {
			name := fmt.Sprintf("%s, tilt %g", c.ends, tilt)
			r := cutDemo(t, c.ends, tilt)
			s := whole.Spars[c.spar]
			keep := s.Plane(s.Fore)
			if c.aft {
				keep = s.Plane(s.Aft)
			}
			if c.tail {
				keep = keep.Flip()
			}
			part := func(what string, got, all geom.Ring) {
				t.Helper()
				want := 0.0
				for _, p := range all.Cut(keep) {
					want = math.Max(want, p.Area())
				}
				if math.Abs(got.Area()-want) > 1e-6 || math.Abs(geom.CommonArea(got, all)-want) > 1e-4 || !got.Simple() {
					t.Errorf("%s: %s has %.6f mm², %.6f of it in the whole rib's, want %.6f", name, what, got.Area(), geom.CommonArea(got, all), want)
				}
			}
			part("the contour", r.Contour.Outline, whole.Contour.Outline)
			part("the inner edge", r.Contour.Inner, whole.Contour.Inner)
			for k := range r.Caps {
				part(r.Caps[k].ID, r.Caps[k].Outline, whole.Caps[k].Outline)
			}
			posts := 0
			for _, p := range r.Sticks {
				if p.Kind != rib.Post {
					continue
				}
				posts++
				i := slices.IndexFunc(whole.Sticks, func(o rib.Stick) bool { return o.Kind == rib.Post && o.Axis[0].Dist(p.Axis[0]) < 1e-6 })
				if i < 0 || math.Abs(p.Outline.Area()-geom.CommonArea(p.Outline, whole.Sticks[i].Outline)) > 1e-4 || math.Abs(p.LongPoint-whole.Sticks[i].LongPoint) > 1e-6 {
					t.Errorf("%s: post %s stands otherwise than in the whole rib", name, p.ID)
				}
				for _, e := range p.Ends {
					if len(e.Cuts) != 1 || !strings.HasPrefix(e.Cuts[0].Against, "cap-") {
						t.Errorf("%s: post %s is cut against %v", name, p.ID, e.Cuts)
					}
				}
			}
			if len(r.Sticks) != c.sticks || posts != c.posts || len(r.Spars) != c.spars || len(r.Blocks) != c.box {
				t.Errorf("%s: %d sticks, %d posts, %d spars, %d blocks, want %d, %d, %d, %d", name, len(r.Sticks), posts, len(r.Spars), len(r.Blocks), c.sticks, c.posts, c.spars, c.box)
			}
			if r.Contour.CutAhead() != c.tail {
				t.Errorf("%s: cut ahead: %v", name, r.Contour.CutAhead())
			}
			holdRib(t, r, nil)
		}
	}
}

// TestCutAtSparInset holds that plates kept off the contour are kept off the cut as well, and their glue areas with them.
func TestCutAtSparInset(t *testing.T) {
	for _, ends := range []string{`leading_edge = "rear aft"`, `trailing_edge = "rear fore"`, `leading_edge = "65%"`} {
		text := strings.Replace(readFile(t, "../../cmd/ribwright/demo/marsh-wren.toml"), "chord = 1400", "chord = 1400\n"+ends+"\n#", 1)
		text = strings.NewReplacer("inset = 0 ", "inset = 1.2 ", "diameter = 38 ", "diameter = 26 ", "width = 16\n", "width = 16\ntilt = 6\n", "from = \"rear\"", "from = \"67%\"").Replace(text)
		r := mustBuild(t, text, "")
		for _, g := range r.Gussets {
			for _, p := range g.Outline.Flatten(geom.Flat) {
				if d := geom.Distance(p, r.Contour.Outline, true); d < 1.2-0.02 {
					t.Errorf("%s: plate %s comes within %.3f mm of the rib's edge, want 1.2", ends, g.ID, d)
					break
				}
			}
		}
		holdRib(t, r, nil)
	}
}
