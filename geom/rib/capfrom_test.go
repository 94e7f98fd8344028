package rib_test

import (
	"math"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/rib"
)

// TestCapFrom holds that caps which begin on the nose block leave the rib's wood as it is: the block takes what the caps
// give up, nothing overlaps, and what stands behind the block stays.
func TestCapFrom(t *testing.T) {
	demo := readFile(t, "../../cmd/ribwright/demo/marsh-wren.toml")
	round := mustBuild(t, demo, "")
	const from = 56
	r := mustBuild(t, strings.Replace(demo, "[cap]", "[cap]\nfrom = \"4%\"", 1), "")
	area := func(r *rib.Rib) float64 {
		return r.Caps[0].Outline.Area() + r.Caps[1].Outline.Area() + r.Blocks[0].AreaMM2
	}
	if a, b := area(r), area(round); math.Abs(a-b) > 1e-6*b {
		t.Errorf("caps and nose block: %.4f mm², want %.4f", a, b)
	}
	block := r.Blocks[0].Outline
	if !block.Simple() || block.Area() <= 0 || math.Abs(block.Box().Min.X-round.Contour.Outline.Box().Min.X) > 1e-9 {
		t.Errorf("the block begins at %g, simple %v", block.Box().Min.X, block.Simple())
	}
	for i, c := range r.Caps {
		if b := c.Outline.Box(); math.Abs(b.Min.X-from) > 1e-9 || !c.Outline.Simple() || c.From != from || math.Abs(c.Edge[0].X-from) > 1e-9 {
			t.Errorf("%s begins at %g, %g, want %d", c.ID, b.Min.X, c.Edge[0].X, from)
		}
		if c.Length >= round.Caps[i].Length-from || c.RadiusMin < 5*round.Caps[i].RadiusMin || c.RadiusMinAt < from {
			t.Errorf("%s: %.1f mm long, least radius %.1f mm at %.1f", c.ID, c.Length, c.RadiusMin, c.RadiusMinAt)
		}
	}
	for i, j := range r.Joints { // the cap's end stands against the block: contact is lost ahead, and won on the end
		for _, m := range j.Members {
			got, was := j.ButtMM2[m], round.Joints[i].ButtMM2[m]
			if m == rib.BlockNose {
				inner := 0.0
				for k, p := range round.Contour.Inner {
					q := round.Contour.Inner[(k+1)%len(round.Contour.Inner)]
					if mid := p.Lerp(q, 0.5); mid.X > from && mid.X < 70 && (mid.Y > 0) == (j.Side == rib.Upper) {
						inner += p.Dist(q) * 12
					}
				}
				if got >= was || got < inner-60 || got > inner+6/math.Cos(0.6)*12+60 {
					t.Errorf("%s: the block's contact is %.1f mm², was %.1f; along the inner edge %.1f", j.ID, got, was, inner)
				}
			} else if got != was {
				t.Errorf("%s: %s has %.1f mm² of contact, was %.1f", j.ID, m, got, was)
			}
		}
	}
	for i, g := range r.Gussets {
		for m, a := range g.GlueMM2 {
			if was := round.Gussets[i].GlueMM2[m]; g.Centre.X > 100 && math.Abs(a-was) > 1e-9 {
				t.Errorf("plate %s, %s: %.2f mm², was %.2f", g.ID, m, a, was)
			}
		}
	}
	if r.CapsMeetMM2 >= round.CapsMeetMM2 {
		t.Errorf("the caps still meet at the nose: %.1f mm², was %.1f", r.CapsMeetMM2, round.CapsMeetMM2)
	}
	for _, p := range []geom.Pt{{X: 20, Y: 5}, {X: 3, Y: 1}, {X: 60, Y: 10}} {
		if !block.Holds(p) {
			t.Errorf("%v lies outside the block", p)
		}
	}
}
