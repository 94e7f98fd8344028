package jig

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

const plain = `
units = "mm"
section = { naca = "0014" }
rib = { chord = 1200 }
cap = { depth = 6, width = 12 }
nose = { block_to = "5%" }
spar = [{ name = "front", at = "15%", width = 16 }, { name = "rear", at = "65%", width = 12 }]
bay = [{ from = "front", to = "rear", pattern = "warren", panels = 7, start = "upper" }]
gusset = { diameter = 30 }
`

// TestMirror holds that a rib turned upside down has its blocks turned over.
func TestMirror(t *testing.T) {
	for _, pattern := range []string{"warren", "uprights"} {
		text := strings.Replace(plain, "warren", pattern, 1)
		up, _ := layOutJig(t, text)
		lo, _ := layOutJig(t, strings.Replace(text, `start = "upper"`, `start = "lower"`, 1))
		if len(up.Blocks) != len(lo.Blocks) {
			t.Errorf("%s: %d blocks, turned over %d", pattern, len(up.Blocks), len(lo.Blocks))
		}
		for _, b := range up.Blocks {
			want := geom.Pt{X: b.At.X, Y: -b.At.Y}
			if !slices.ContainsFunc(lo.Blocks, func(o Block) bool { return o.At.Dist(want) < 0.02 }) {
				t.Errorf("%s: %s, which holds %v, has no mirror image at %v", pattern, b.ID, b.Members(), want)
			}
		}
	}
}

func layOutJig(t *testing.T, text string) (Jig, []finding.Finding) {
	t.Helper()
	one := must(t, "rib", text)
	return Plan(one.r, one.doc)
}

// TestUnits holds that inches and millimetres give the same board.
func TestUnits(t *testing.T) {
	inch := `
units = "in"
section = { naca = "2412" }
rib = { chord = 50 }
cap = { depth = 0.25, width = 0.5 }
nose = { block_to = "5%" }
spar = [{ name = "front", at = "15%", width = 0.75 }, { name = "rear", at = "65%", width = 0.5 }]
bay = [{ from = "front", to = "rear", pattern = "pratt", panels = 6 }]
`
	mm := strings.NewReplacer(`"in"`, `"mm"`, "50 ", "1270 ", "0.25,", "6.35,", "width = 0.5 ", "width = 12.7 ", "0.75 ", "19.05 ").Replace(inch)
	a, _ := layOutJig(t, inch)
	b, _ := layOutJig(t, mm)
	if len(a.Blocks) != len(b.Blocks) || math.Abs(a.Height-b.Height) > 1e-9 {
		t.Fatalf("inches: %d blocks %g high, millimetres: %d, %g high", len(a.Blocks), a.Height, len(b.Blocks), b.Height)
	}
	for i, k := range a.Blocks {
		if d := k.At.Dist(b.Blocks[i].At); d > 1e-6 || k.ID != b.Blocks[i].ID {
			t.Errorf("%s stands %g mm off in millimetres", k.ID, d)
		}
	}
}

// TestCaps holds the rules of the caps: a block on each side at every joint as near as can be, none further apart than the spacing
// outside, one in front of the leading edge.
func TestCaps(t *testing.T) {
	for _, one := range append(demos(t), randoms(t, 50)...) {
		j, found := one.j, one.found
		told := func(part string) bool {
			return slices.ContainsFunc(found, func(f finding.Finding) bool {
				return f.Code == "jig-no-place" && slices.Contains(strings.Split(f.Part, ", "), part)
			})
		}
		outside := func(b Block) bool { return !one.r.Contour.Outline.Holds(b.Outline[0].Lerp(b.Outline[2], 0.5)) }
		for _, k := range one.r.Joints {
			wooden := slices.Contains(k.Members, rib.BlockNose) || slices.Contains(k.Members, rib.BlockTail)
			for _, out := range []bool{true, false} {
				if !out && wooden || told(k.ID) {
					continue
				}
				near := math.Inf(1)
				for _, b := range j.Blocks {
					if outside(b) == out && slices.Contains(b.Members(), capOf(k.Side)) {
						near = math.Min(near, b.At.Dist(k.Surface))
					}
				}
				// half a plate, its room and half a block; two joints that share one stand up to a block's length further off
				reach := one.doc.Jig.Spacing/2 + one.doc.Jig.BlockLength + 20
				if near > reach {
					t.Errorf("%s: at %s the nearest block (outside: %v) is %g mm off", one.name, k.ID, out, near)
				}
			}
		}
		if !slices.ContainsFunc(j.Blocks, func(b Block) bool { return b.At.Dist(one.r.Contour.Upper[0]) < 2*one.doc.Jig.Clearance+1 }) {
			t.Errorf("%s: no block in front of the leading edge", one.name)
		}
		for _, side := range [][]geom.Pt{one.r.Contour.Upper, one.r.Contour.Lower} {
			f := newFace(side, false)
			at := []float64{f.length()}
			for _, b := range j.Blocks {
				if outside(b) && b.At.X < side[len(side)-1].X && geom.Distance(b.At, side, false) < 2 {
					at = append(at, f.nearest(b.At))
				}
			}
			slices.Sort(at)
			for i := 1; i < len(at); i++ {
				if d := at[i] - at[i-1]; d > one.doc.Jig.Spacing+1 {
					t.Errorf("%s: outside, blocks stand %g mm apart at %v, want %g at most", one.name, d, f.point(at[i]), one.doc.Jig.Spacing)
				}
			}
		}
	}
}

// TestContacts holds every contact to the outlines: it lies on its member's edge, a clearance from the block, and its normal points
// from the block into the member.
func TestContacts(t *testing.T) {
	for _, one := range append(demos(t), randoms(t, 50)...) {
		j := one.j
		wood, c := woodOf(one.r), one.doc.Jig.Clearance
		for _, b := range j.Blocks {
			if len(b.Contacts) == 0 {
				t.Errorf("%s: %s touches nothing", one.name, b.ID)
			}
			for _, k := range b.Contacts {
				on, off := geom.Distance(k.At, wood[k.Member], true), geom.Distance(k.At, b.Outline, true)
				if on > 1e-6 || off > c+2*touch || off < c*0.7-touch {
					t.Errorf("%s: the contact of %s with %s is %g off the wood, %g off the block; want 0 and %g", one.name, b.ID, k.Member, on, off, c)
				}
				if math.Abs(k.Normal.Len()-1) > 1e-9 || !wood[k.Member].Holds(k.At.Along(k.Normal, 0.05)) && !one.r.Contour.Outline.Holds(k.At.Along(k.Normal, 0.05)) {
					t.Errorf("%s: the contact of %s with %s does not point into it: %v", one.name, b.ID, k.Member, k)
				}
			}
		}
	}
}

func TestFindings(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string // codes; "+": and perhaps more of them
	}{
		{"as usual", plain, nil},
		{"as high as the rib", plain + "[jig]\nblock_height = 12", []string{"jig-block-high"}},
		{"just lower", plain + "[jig]\nblock_height = 11.9", nil},
		{"higher than the sticks", plain + "stick = { depth = 6, width = 8 }\n[jig]\nblock_height = 9", []string{"jig-block-high"}},
		{"long blocks", plain + "[jig]\nblock_length = 90\nblock_width = 60", []string{"jig-loose"}},
		{"no room left", plain + "[jig]\nroom = 50", []string{"jig-loose", "jig-no-place"}},
		{"another jig", plain + "[jig]\nblocks = \"none\"\nblock_height = 20", nil},
	} {
		j, found := layOutJig(t, c.text)
		var got []string
		for _, f := range found {
			if !slices.Contains(got, f.Code) {
				got = append(got, f.Code)
			}
			if f.Severity != finding.Warning || f.Fix == "" || !strings.HasPrefix(f.Key, "jig.") || f.Code != "jig-block-high" && (len(f.At) == 0 || f.Part == "") {
				t.Errorf("%s: a finding that tells too little: %+v", c.name, f)
			}
		}
		slices.Sort(got)
		if len(found) > 2*few {
			t.Errorf("%s: %d findings, want those of one kind told together", c.name, len(found))
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
		if none := strings.Contains(c.text, "none"); none != (len(j.Blocks) == 0) {
			t.Errorf("%s: %d blocks", c.name, len(j.Blocks))
		}
	}
}

// TestSlide holds that a stick too flat to be held well has blocks all the same, that the finding says how far it slides, and that
// linear programs find no arrangement, even of blocks all along its edges, with which it slides much less.
func TestSlide(t *testing.T) {
	one := must(t, "flat", strings.Replace(plain, "0014", "2406", 1)+"line = [{ from = \"lower rear aft\", to = \"upper 72%\" }, { from = \"upper 72%\", to = \"lower 85%\" }]")
	j, found := Plan(one.r, one.doc)
	k := slices.IndexFunc(found, func(f finding.Finding) bool { return f.Code == "jig-slide" })
	if k < 0 {
		t.Fatalf("no stick slides: %v", found)
	}
	p := newPlanner(one.r, one.doc)
	for i, h := range j.Holds {
		if h.Member != found[k].Part {
			continue
		}
		m := &p.members[i]
		var best []rest
		for _, c := range m.given {
			best = append(best, rest{at: c.At, normal: c.Normal})
		}
		for _, f := range m.faces {
			for s := range 21 {
				n := f.pts[1].Sub(f.pts[0]).Unit().Left()
				best = append(best, rest{at: f.pts[0].Lerp(f.pts[1], float64(s)/20), normal: n})
			}
		}
		least := playByLP(m.ends, best)
		if h.Held || len(h.Blocks) == 0 || least <= PlayLimit || h.Play < least-1e-6 || h.Play > flatShare*least || found[k].Got != h.Play {
			t.Errorf("%s: %d blocks, play %g (the finding says %g), with blocks all along %g", h.Member, len(h.Blocks), h.Play, found[k].Got, least)
		}
		if want := one.doc.Length(h.Play * one.doc.Jig.Clearance); !strings.Contains(found[k].Message, want) {
			t.Errorf("%q does not say %s", found[k].Message, want)
		}
	}
}

// TestSame holds that a plan comes out the same every time.
func TestSame(t *testing.T) {
	for _, one := range demos(t) {
		a, _ := Plan(one.r, one.doc)
		b := one.j
		if fmt.Sprint(a.Report()) != fmt.Sprint(b.Report()) {
			t.Errorf("%s: two plans differ", one.name)
		}
	}
}

// TestBothSides holds that every stick has a block on each side on request, where one finds a place.
func TestBothSides(t *testing.T) {
	for _, one := range demos(t) {
		both := *one.doc
		both.Jig.Blocks = "both-sides"
		j, found := Plan(one.r, &both)
		if len(found) > 0 || len(j.Blocks) <= len(one.j.Blocks) {
			t.Errorf("%s: %d blocks, %d in the fewest; findings: %v", one.name, len(j.Blocks), len(one.j.Blocks), found)
		}
		p := newPlanner(one.r, &both)
		p.plan()
		for i := range p.members {
			m := &p.members[i]
			if m.wood || i < 2 || m.covered {
				continue
			}
			for k := range m.faces {
				f := &m.faces[k]
				n := f.pts[1].Sub(f.pts[0]).Unit().Left()
				beside := slices.ContainsFunc(p.contactsOf(*m), func(c Contact) bool { return c.Block && c.Normal.Dot(n) > 0.99 })
				if free := len(p.stretches(f, p.sizes()[0])) > 0; free && !beside {
					t.Errorf("%s: %s has no block on one side, and there is room for one", one.name, m.id)
				}
			}
		}
	}
}

// TestNearJoints looks for the nearest place at every joint of the demo ribs anew, by areas in common, and holds that a block stands no
// more than its length further away.
func TestNearJoints(t *testing.T) {
	for _, one := range demos(t) {
		p := newPlanner(one.r, one.doc)
		size, wood := p.sizes()[0], woodOf(one.r)
		free := func(b Block, inside bool) bool {
			keep := 0.0
			if inside {
				keep = one.doc.Jig.Room
			}
			for _, g := range one.r.Gussets {
				plate := geom.Ring(g.Outline.Flatten(1e-3))
				near := geom.ConvexRing(b.Outline, plate) > 1e-4
				for _, q := range plate {
					near = near || geom.Distance(q, b.Outline, true) < keep-1e-3
				}
				for _, q := range b.Outline {
					near = near || geom.Distance(q, plate, true) < keep-1e-3
				}
				if near {
					return false
				}
			}
			for _, s := range one.r.Spars {
				box := b.Outline.Box().Grow(keep)
				if inside && box.Max.X > s.Fore && box.Min.X < s.Aft {
					return false
				}
			}
			for _, ring := range wood {
				if geom.ConvexRing(b.Outline, ring) > 1e-4 {
					return false
				}
			}
			for _, j := range one.r.Joints {
				if geom.DiscRing(j.At.Along(j.Normal, one.r.CapDepth/2), one.doc.Jig.Relief/2, b.Outline) > 1e-4 {
					return false
				}
			}
			return true
		}
		for i := range one.r.Joints {
			j := &one.r.Joints[i]
			for _, f := range []*face{&p.outer, &p.inner} {
				if f.inside && p.backed(j) {
					continue
				}
				at := j.Surface
				if f.inside {
					at = at.Along(j.Normal, one.r.CapDepth)
				}
				there := func(s float64) bool {
					q := f.stand(s, size[0], size[1], one.doc.Jig.Clearance)
					return free(q.block(), f.inside)
				}
				s, nearest, got := f.nearest(at), math.Inf(1), math.Inf(1)
				for d := 0.0; d < 120 && math.IsInf(nearest, 1); d++ {
					if there(s+d) || there(s-d) {
						nearest = d
					}
				}
				for _, b := range one.j.Blocks {
					if k := f.nearest(b.At); b.At.Dist(f.point(k)) < 1 {
						got = math.Min(got, math.Abs(k-s))
					}
				}
				if got > nearest+one.doc.Jig.BlockLength+1 {
					t.Errorf("%s: at %s (inside: %v) the block stands %g mm off, want %g and a block's length at most", one.name, j.ID, f.inside, got, nearest)
				}
			}
		}
	}
}
