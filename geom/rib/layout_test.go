package rib_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
)

// plain is a symmetrical rib with two spars; tests add bays and plates to it.
const plain = `units = "mm"
section = { naca = "0015" }
rib = { chord = 1200 }
cap = { depth = 6, width = 12 }
stick = { depth = 6, width = 12, meet = "butt" }
[[spar]]
name = "front"
at = "15%"
width = 16
clearance = 0.5
[[spar]]
name = "rear"
at = "65%"
width = 12
`

// bay returns a bay between the spars.
func bay(pattern string, panels int, start string) string {
	return fmt.Sprintf("[[bay]]\nfrom = \"front\"\nto = \"rear\"\npattern = %q\npanels = %d\nstart = %q\n", pattern, panels, start)
}

// run lists a rib's sticks as kind, from and to.
func run(r *rib.Rib) []string {
	var out []string
	for _, s := range r.Sticks {
		out = append(out, string(s.Kind[:1])+" "+s.From+" "+s.To)
	}
	return out
}

func TestPatterns(t *testing.T) {
	posts := []string{"p L1 U1", "p L2 U2"}
	for _, c := range []struct {
		name, text string
		want       []string // after the front spar's two posts: the rear one's, uprights, diagonals
	}{
		{"warren from above", bay("warren", 4, "upper"), []string{"p L5 U4", "p L6 U5", "d U2 L3", "d L3 U3", "d U3 L4", "d L4 U4"}},
		{"warren from below", bay("warren", 3, "lower"), []string{"p L4 U4", "p L5 U5", "d L2 U3", "d U3 L3", "d L3 U4"}},
		{"pratt slopes to the middle", bay("pratt", 4, "upper"), []string{"p L6 U6", "p L7 U7", "u L3 U3", "u L4 U4", "u L5 U5",
			"d U2 L3", "d U3 L4", "d L4 U5", "d L5 U6"}},
		{"uprights", bay("uprights", 3, "upper"), []string{"p L5 U5", "p L6 U6", "u L3 U3", "u L4 U4"}},
		{"none", bay("none", 1, "upper"), []string{"p L3 U3", "p L4 U4"}},
		{"pratt behind the rear spar", "[[bay]]\nfrom = \"rear\"\nto = \"80%\"\npattern = \"pratt\"\npanels = 2\nstart = \"upper\"\n",
			[]string{"p L3 U3", "p L4 U4", "u L5 U5", "u L6 U6", "d U4 L5", "d U5 L6"}},
		{"lines", "[[line]]\nfrom = \"lower front aft\"\nto = \"upper 30%\"\n[[line]]\nfrom = \"upper 40%\"\nto = \"lower 40%\"\n",
			[]string{"p L4 U5", "p L5 U6", "u U4 L3", "d L2 U3"}},
	} {
		want := append(slices.Clone(posts), c.want...)
		if got := run(mustBuild(t, plain+"[gusset]\nshape = \"none\"\n"+c.text, "")); !slices.Equal(got, want) {
			t.Errorf("%s:\ngot  %v\nwant %v", c.name, got, want)
		}
	}
}

// TestPostsFalse holds that without posts a bay's diagonals begin at the opening's face.
func TestPostsFalse(t *testing.T) {
	text := strings.ReplaceAll(plain, "at =", "posts = false\nat =") + "[gusset]\nshape = \"none\"\n"
	r := mustBuild(t, text+bay("warren", 4, "upper"), "")
	if r.Sticks[0].Kind != rib.Diagonal {
		t.Fatalf("got a %s first, want no posts", r.Sticks[0].Kind)
	}
	if got, want := r.Joints[0].Station, 180+8.5; math.Abs(got-want) > 1e-9 {
		t.Errorf("first panel point: got %g, want the face at %g", got, want)
	}
	if b := r.Sticks[0].Outline.Box(); b.Min.X < r.Spars[0].Aft-1e-9 {
		t.Errorf("the diagonal begins at %g, in the opening that ends at %g", b.Min.X, r.Spars[0].Aft)
	}
}

// TestMirror holds that a symmetrical section with a symmetrical pattern gives sticks that mirror each other.
func TestMirror(t *testing.T) {
	up := mustBuild(t, plain+bay("warren", 5, "upper"), "")
	down := mustBuild(t, plain+bay("warren", 5, "lower"), "")
	for i, s := range up.Sticks {
		m := down.Sticks[i]
		if math.Abs(s.LongPoint-m.LongPoint) > 1e-6 || math.Abs(s.Outline.Area()-m.Outline.Area()) > 1e-6 {
			t.Errorf("%s: long point %.7f and %.7f, area %.7f and %.7f", s.ID, s.LongPoint, m.LongPoint, s.Outline.Area(), m.Outline.Area())
		}
		if s.Kind != rib.Post && math.Abs(s.Ends[0].Cuts[0].Angle+m.Ends[0].Cuts[len(m.Ends[0].Cuts)-1].Angle) > 1e-9 {
			t.Errorf("%s: the mirrored stick's first cut is not the mirrored cut", s.ID)
		}
	}
	for _, g := range up.Gussets {
		i := slices.IndexFunc(down.Gussets, func(h rib.Gusset) bool {
			return h.Centre.Dist(geom.Pt{X: g.Centre.X, Y: -g.Centre.Y}) < 1e-6
		})
		if i < 0 || math.Abs(down.Gussets[i].AreaMM2-g.AreaMM2) > 1e-6 {
			t.Errorf("plate %s has no mirror image", g.ID)
		}
	}
}

// TestMitre holds that two diagonals meet on the bisector of their axes, in the panel point.
func TestMitre(t *testing.T) {
	r := mustBuild(t, strings.Replace(plain, "butt", "mitre", 1)+bay("warren", 6, "upper"), "")
	met := 0
	for _, j := range r.Joints {
		var cuts []rib.Cut
		var dirs []geom.Pt
		for _, s := range r.Sticks {
			for e, id := range []string{s.From, s.To} {
				for _, c := range s.Ends[e].Cuts {
					if id == j.ID && s.Kind == rib.Diagonal && strings.HasPrefix(c.Against, "S") && kind(r, c.Against) == rib.Diagonal {
						cuts = append(cuts, c)
						dirs = append(dirs, s.Axis[1-e].Sub(s.Axis[e]).Unit())
					}
				}
			}
		}
		if len(cuts) != 2 {
			continue
		}
		met++
		bisector := dirs[0].Add(dirs[1]).Unit()
		for _, c := range cuts {
			if d := math.Abs(c.B.Sub(c.A).Unit().Cross(bisector)); d > 1e-9 {
				t.Errorf("%s: the mitre is %g radians off the bisector", j.ID, d)
			}
			if d := geom.LeftOf(c.A, c.B).Off(j.At); math.Abs(d) > 1e-9 {
				t.Errorf("%s: the mitre passes the panel point at %g mm", j.ID, d)
			}
		}
		if a, b := cuts[0].A.Dist(cuts[0].B), cuts[1].A.Dist(cuts[1].B); math.Abs(a-b) > 0.05 {
			t.Errorf("%s: the mitre's two faces are %.3f and %.3f mm long", j.ID, a, b)
		}
	}
	if met < 4 {
		t.Errorf("got %d mitred joints, want at least 4", met)
	}
}

func kind(r *rib.Rib, id string) rib.Kind {
	return r.Sticks[slices.IndexFunc(r.Sticks, func(s rib.Stick) bool { return s.ID == id })].Kind
}

// TestFullDepth holds that one plate serves an upper and a lower joint where the rib is too shallow for two.
func TestFullDepth(t *testing.T) {
	text := plain + "[gusset]\nshape = \"round\"\ndiameter = 40\n[[line]]\nfrom = \"lower 88%\"\nto = \"upper 88%\"\n"
	r := mustBuild(t, text, "")
	g := r.Gussets[slices.IndexFunc(r.Gussets, func(g rib.Gusset) bool { return g.Shape == rib.FullDepth })]
	if g.ID != "U5+L5" || len(g.Joints) != 2 {
		t.Errorf("got %s for %v, want U5+L5", g.ID, g.Joints)
	}
	up, lo, _ := r.Contour.At(0.88 * 1200)
	if math.Abs(g.Size[0]-40) > 1e-6 || math.Abs(g.Size[1]-(up-lo)) > 2*geom.Flat {
		t.Errorf("got size %v, want 40 × %g", g.Size, up-lo)
	}
	s := r.Sticks[slices.IndexFunc(r.Sticks, func(s rib.Stick) bool { return s.Kind == rib.Upright })]
	if got, want := g.GlueMM2[s.ID], s.Outline.Area(); math.Abs(got-want) > 1e-6 {
		t.Errorf("the upright lies under the plate with %g mm², want all of it, %g", got, want)
	}
}

// TestOverlapFits holds that the size the finding names fits, and that one step more does not.
func TestOverlapFits(t *testing.T) {
	plates := func(d float64) string {
		return plain + fmt.Sprintf("[gusset]\nshape = \"round\"\ndiameter = %.3f\n", d) + bay("warren", 12, "upper")
	}
	_, fs := build(t, plates(90), "")
	i := slices.IndexFunc(fs, func(f finding.Finding) bool { return f.Code == "gusset-overlap" })
	if i < 0 {
		t.Fatalf("no overlap found: %v", fs)
	}
	fit := fs[i].Limit
	if _, fs := build(t, plates(fit), ""); finding.HasError(fs) {
		t.Errorf("plates of %g mm should fit: %v", fit, fs)
	}
	if _, fs := build(t, plates(fit+1), ""); !finding.HasError(fs) {
		t.Errorf("plates of %g mm fit too: the finding named %g", fit+1, fit)
	}
}

// TestInset holds that an inset plate keeps its distance from the contour.
func TestInset(t *testing.T) {
	r := mustBuild(t, plain+"[gusset]\nshape = \"rectangle\"\nlength = 40\nheight = 20\ninset = 1.5\n"+bay("warren", 4, "upper"), "")
	for _, g := range r.Gussets {
		for _, p := range g.Outline.Flatten(geom.Flat) {
			if d := geom.Distance(p, r.Contour.Outline, true); d < 1.5-1e-3 {
				t.Errorf("plate %s comes within %.4f mm of the contour, want 1.5", g.ID, d)
			}
		}
	}
}

// TestSkin holds that a skin is taken off where it lies, and leaves a step where it ends.
func TestSkin(t *testing.T) {
	whole := mustBuild(t, plain, "")
	skinned := mustBuild(t, strings.Replace(plain, `section = { naca = "0015" }`,
		"section = { naca = \"0015\", skin = [{ from = \"0%\", to = \"30%\", thickness = 1.5, side = \"both\" }] }", 1), "")
	for _, x := range []float64{5, 40, 120, 300, 355} {
		up, lo, _ := whole.Contour.At(x)
		for _, y := range []float64{up, lo} {
			if d := geom.Distance(geom.Pt{X: x, Y: y}, skinned.Contour.Outline, true); math.Abs(d-1.5) > 0.01 {
				t.Errorf("station %g: the skinned contour stands %.4f mm inside, want 1.5", x, d)
			}
		}
	}
	for _, x := range []float64{365, 700, 1100} {
		up, _, _ := whole.Contour.At(x)
		if got, _, _ := skinned.Contour.At(x); math.Abs(got-up) > 0.01 {
			t.Errorf("station %g, behind the skin: got %.4f, want %.4f", x, got, up)
		}
	}
	if nose := skinned.Contour.Upper[0]; math.Abs(nose.X-1.5) > 0.01 || math.Abs(nose.Y) > 1e-6 {
		t.Errorf("the skinned nose stands at %v, want (1.5, 0)", nose)
	}
}

// TestCutOff holds that a rib cut off at an aileron spar has an open inner edge and caps to the cut.
func TestCutOff(t *testing.T) {
	r := mustBuild(t, strings.Replace(plain, "chord = 1200", "chord = 1200, trailing_edge = \"75%\"", 1), "")
	if b := r.Contour.Outline.Box(); math.Abs(b.Max.X-900) > 1e-6 {
		t.Errorf("the contour ends at %g, want 900", b.Max.X)
	}
	for _, c := range r.Caps {
		if b := c.Outline.Box(); math.Abs(b.Max.X-900) > 1e-6 {
			t.Errorf("%s ends at %g, want 900", c.ID, b.Max.X)
		}
	}
	if got := r.CapsMeetMM2; got > 6.5*12 {
		t.Errorf("caps are glued to each other over %g mm², want no more than at the nose", got)
	}
}

// TestLargestSpar holds that the spar the take-off names passes, and that it touches the caps; also where a skin
// ends in the opening and the caps step.
func TestLargestSpar(t *testing.T) {
	for _, section := range []string{`naca = "4415"`, `naca = "4415", skin = [{ from = "0%", to = "15%", thickness = 1.5, side = "both" }]`} {
		checkSpars(t, mustBuild(t, strings.Replace(plain, `naca = "0015"`, section, 1), ""))
	}
}

func checkSpars(t *testing.T, r *rib.Rib) {
	t.Helper()
	for _, s := range r.Spars {
		spar := geom.Ring{s.Bottom[0], s.Bottom[1], s.Top[1], s.Top[0]}
		if out := spar.Area() - geom.CommonArea(spar, s.Opening); out > 1e-6 {
			t.Errorf("spar %s: %g mm² of the largest spar do not pass", s.Name, out)
		}
		for _, edge := range [][2]geom.Pt{s.Top, s.Bottom} {
			near := math.Inf(1)
			for _, p := range append(edge[:], r.Contour.Inner...) { // they touch at a corner of one of them
				near = math.Min(near, math.Max(geom.Distance(p, edge[:], false), geom.Distance(p, r.Contour.Inner, true)))
			}
			if near > 1e-6 {
				t.Errorf("spar %s: an edge stands %g mm off the caps", s.Name, near)
			}
		}
	}
}
