package jig

import (
	"math"
	"testing"

	"ribwright/geom"
	"ribwright/geom/rib"
)

// wood lists the outlines of every member by its name.
func woodOf(r *rib.Rib) map[string]geom.Ring {
	out := map[string]geom.Ring{}
	for _, c := range r.Caps {
		out[c.ID] = c.Outline
	}
	for _, k := range r.Blocks {
		out[k.ID] = k.Outline
	}
	for _, s := range r.Sticks {
		if len(s.Outline) > 0 {
			out[s.ID] = s.Outline
		}
	}
	return out
}

// TestNothingFouls holds every block against wood, plates, openings, holes and its neighbours by areas in common, which
// the planner does not use.
func TestNothingFouls(t *testing.T) {
	const tiny = 1e-4 // mm²
	for _, one := range append(demos(t), randoms(t, 50)...) {
		j := one.j
		if len(j.Blocks) == 0 {
			t.Errorf("%s: no blocks", one.name)
		}
		for i, b := range j.Blocks {
			fouls := func(what string, a float64) {
				if a > tiny {
					t.Errorf("%s: %s at %v overlaps %s by %g mm²", one.name, b.ID, b.At, what, a)
				}
			}
			if b.Outline.Area() <= 0 || math.Abs(b.Outline.Area()-b.Length*b.Width) > 1e-6 {
				t.Errorf("%s: %s has the area %g, want %g × %g", one.name, b.ID, b.Outline.Area(), b.Length, b.Width)
			}
			for id, ring := range woodOf(one.r) {
				fouls(id, geom.ConvexRing(b.Outline, ring))
			}
			inside := one.r.Contour.Outline.Holds(b.Outline[0].Lerp(b.Outline[2], 0.5))
			for _, s := range one.r.Spars {
				if len(s.Opening) > 0 {
					fouls("the opening of "+s.Name, geom.ConvexRing(b.Outline, s.Opening))
				}
			}
			for _, g := range one.r.Gussets {
				ring := geom.Ring(g.Outline.Flatten(1e-3))
				fouls("plate "+g.ID, geom.ConvexRing(b.Outline, ring))
				if d := geom.Distance(g.Centre, b.Outline, true); inside && g.Shape == rib.Round && len(g.Outline.Segs) == 2 && d < g.Size[0]/2+one.doc.Jig.Room-1e-3 {
					t.Errorf("%s: %s is %g from the middle of plate %s: less room than %g", one.name, b.ID, d, g.ID, one.doc.Jig.Room)
				}
			}
			for _, h := range j.Holes {
				fouls("the relief hole of "+h.Joint, geom.DiscRing(h.At, h.Diameter/2, b.Outline))
			}
			for _, o := range j.Blocks[i+1:] {
				fouls("block "+o.ID, geom.ConvexRing(b.Outline, o.Outline))
			}
			if box := b.Outline.Box(); !j.Board.Holds(box.Min) || !j.Board.Holds(box.Max) {
				t.Errorf("%s: %s stands off the board", one.name, b.ID)
			}
		}
		if t.Failed() {
			t.FailNow()
		}
	}
}
