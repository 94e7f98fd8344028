// Package cut plans how the plates of a set are cut: what the tool takes away, which plates there are on both faces
// of all the ribs, where they lie on sheets of plywood with the grain as it must run, and in which order they are cut.
//
// Lengths are millimetres, angles radians, areas mm². A plate has axes of its own: origin in its centre, x along the
// cap at its joint, seen from the side that shows when it is glued on, so that the plates of the second face are the
// mirror images of those of the first. Sheets have their origin in the lower left corner. The package lays nothing
// out on the rib and draws nothing.
package cut

import (
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/fasten"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// Tool is what cuts the plates, and what it takes away.
type Tool struct {
	Name  string  // "line" (nothing is taken), "laser", "hole-saw", "band-saw", "router"
	Kerf  float64 // width of the cut
	Saw   float64 // outer diameter of a hole saw; 0: each plate has a saw that fits it
	Pilot float64 // diameter of the hole saw's pilot drill
	Line  float64 // width of the cut of what saws the plates that a hole saw cannot
}

// ToolOf returns the tool that the rib file names.
func ToolOf(doc *ribfile.Doc) Tool {
	s := doc.Saw
	t := Tool{Name: s.Plates}
	switch t.Name {
	case "laser":
		t.Kerf = s.LaserKerf
	case "hole-saw":
		t.Kerf, t.Saw, t.Pilot, t.Line = s.HoleSawKerf, s.HoleSaw, s.Pilot, s.BandKerf
	case "band-saw":
		t.Kerf = s.BandKerf
	case "router":
		t.Kerf = s.RouterBit
	}
	return t
}

// Gives returns the diameter of the plate that a hole saw leaves: its outer diameter less its teeth on both
// sides; 0 where no saw is named.
func (t Tool) Gives() float64 {
	if t.Saw == 0 {
		return 0
	}
	return t.Saw - float64(2*t.Kerf)
}

// Disc returns the diameter of the round blank for a plate of the diameter given, and the outer diameter
// of its cut.
func (t Tool) Disc(diameter float64) (blank, cut float64) {
	if t.Saw > 0 {
		return t.Gives(), t.Saw
	}
	return diameter, diameter + float64(2*t.Kerf)
}

// Path returns the way of the tool's middle about an outline: half a kerf outside. An outline whose inside corners
// are tighter than the tool may give more than one; the first is the outer one.
func (t Tool) Path(outline geom.Path) []geom.Path {
	if t.Kerf == 0 {
		return []geom.Path{outline}
	}
	return outline.Grow(t.Kerf / 2)
}

// Sawn returns the width of the cut along an outline that is not round, and along a hole in it: a hole saw is no help there.
func (t Tool) Sawn() float64 {
	if t.Name == "hole-saw" {
		return t.Line
	}
	return t.Kerf
}

// HolePath returns the way of the tool's middle in a hole: half a cut inside.
func (t Tool) HolePath(hole geom.Path) []geom.Path {
	if t.Sawn() == 0 {
		return []geom.Path{hole}
	}
	return hole.Grow(-t.Sawn() / 2)
}

// Left returns what a round tool leaves of an outline: its inside corners are no tighter than the tool. deepest is
// the greatest distance from a corner to the wood that stays in it.
func (t Tool) Left(outline geom.Path) (left geom.Path, deepest float64) {
	left = outline
	if t.Kerf == 0 {
		return left, 0
	}
	for _, p := range t.Path(outline)[:1] {
		for _, q := range p.Grow(-t.Kerf / 2) {
			left = q
		}
	}
	for _, q := range outline.Flatten(geom.Flat) {
		deepest = max(deepest, left.Distance(q))
	}
	return left, deepest
}

// Plate is a kind of plate of the set: one joint's on one face, or a web.
type Plate struct {
	ID      string // the joint's, "U4", or "web"; in a set of several kinds "R3 U4"; with "/2" behind it for the second face
	Entry   int    // index in the set
	Gusset  int    // index in the rib's Gussets; −1: the web
	Face    int    // 0 or 1
	Count   int    // in the set
	Outline geom.Path
	Holes   []geom.Path // the openings in a web, clockwise
	Swath   geom.Path   // what the tool takes up, the plate among it: plates lie by this
	Blank   float64     // diameter of the blank from a hole saw; 0: cut along the outline
	Marks   []rib.Mark
	Clamps  [][2]geom.Pt // where its staples or nails go, see fasten.Pattern.Marks
	Grain   []float64    // the ways in which the face grain may run; none: any
	Apart   Apart
	pool    int // of plates that are one piece until they are marked
	of      int // the face that the rib is laid out with
}

// Plates returns the kinds of plates of all the ribs: rib by rib, joint by joint, the first face before the second, and the
// rib's webs behind its plates. clamps are the fasteners of each rib, as fasten.Of places them; nil: they are worked out.
func Plates(set rib.Set, clamps []fasten.Pattern) []Plate {
	out := bare(set)
	if clamps == nil {
		for _, e := range set {
			clamps = append(clamps, fasten.Of(e.Rib, e.Doc))
		}
	}
	for k := range out {
		if p := &out[k]; p.Gusset >= 0 {
			own := set[p.Entry].Rib.Gussets[p.Gusset].OwnAxes(p.Face)
			for _, m := range clamps[p.Entry].Marks(p.Gusset, p.of) {
				p.Clamps = append(p.Clamps, [2]geom.Pt{own.Pt(m[0]), own.Pt(m[1])})
			}
		}
	}
	size := map[int][]int{} // first ones of pools by their area, whole mm²; looked up only
	for k := range out {
		out[k].pool = k
		mm2 := int(math.Floor(out[k].Swath.Area()))
		for _, near := range [3]int{mm2 - 1, mm2, mm2 + 1} {
			for _, o := range size[near] {
				if o < out[k].pool && alike(out[k], out[o]) {
					out[k].pool = o
				}
			}
		}
		if out[k].pool == k {
			size[mm2] = append(size[mm2], k)
		}
	}
	return out
}

// bare is Plates without pools, and without where fasteners go.
func bare(set rib.Set) []Plate {
	var out []Plate
	main := MainPly(set)
	for i, e := range set {
		out = append(out, platesOf(i, e, main)...)
		out = append(out, websOf(i, e, set.Shared(), main)...)
	}
	return out
}

// lie is a face on which a plate lies, of so many ribs. of is the face that the rib is laid out with.
type lie struct {
	face, of, count int
	suffix          string // of the plate's name
}

// laid returns the faces that a plate lies on: of ribs that are built as mirror images, a plate of one face lies on the other.
func laid(faces []int, r *rib.Rib) []lie {
	if len(faces) == 1 && r.Mirrored > 0 {
		out := []lie{{faces[0], faces[0], r.Count - r.Mirrored, " left"}, {1 - faces[0], faces[0], r.Mirrored, " right"}}
		return slices.DeleteFunc(out, func(l lie) bool { return l.count == 0 })
	}
	var out []lie
	for _, f := range faces {
		l := lie{f, f, r.Count, ""}
		if f == 1 {
			l.suffix = "/2"
		}
		out = append(out, l)
	}
	return out
}

func platesOf(entry int, e rib.Entry, main Ply) []Plate {
	tool := ToolOf(e.Doc)
	var out []Plate
	for i, g := range e.Rib.Gussets {
		if len(g.Outline.Segs) == 0 {
			continue
		}
		for _, l := range laid(g.On(), e.Rib) {
			p := Plate{ID: e.Part(g.ID) + l.suffix, Entry: entry, Gusset: i, Face: l.face, Count: l.count, of: l.of}
			own := g.OwnAxes(l.face)
			p.Outline = own.Path(g.Outline)
			if c, rad, ok := p.Outline.IsCircle(); ok {
				p.Outline = geom.Circle(c, rad) // from its rightmost point
			} else if p.Outline.Area() < 0 {
				p.Outline = p.Outline.Reverse()
			}
			for _, m := range g.Marks {
				p.Marks = append(p.Marks, rib.Mark{Kind: m.Kind, A: own.Pt(m.A), B: own.Pt(m.B)})
			}
			p.Grain = grain(e.Rib, e.Doc, g, own)
			p.Blank, p.Swath = swath(tool, g, p.Outline)
			if plyOf(e.Doc) != main {
				p.Apart = OtherPly
			}
			out = append(out, p)
		}
	}
	return out
}

// swath returns what the tool takes up about a plate. A hole saw cuts whole blanks of the round ones, which are
// trimmed afterwards.
func swath(t Tool, g rib.Gusset, outline geom.Path) (blank float64, swath geom.Path) {
	kerf := t.Kerf
	if t.Name == "hole-saw" {
		if g.Shape == rib.Round {
			blank, cut := t.Disc(g.Size[0])
			return blank, geom.Circle(geom.Pt{}, cut/2)
		}
		kerf = t.Line
	}
	return 0, grown(outline, kerf)
}

// grown returns the outer line about an outline at a distance.
func grown(outline geom.Path, by float64) geom.Path {
	if by == 0 {
		return outline
	}
	for _, p := range outline.Grow(by) {
		if p.Area() > 0 {
			return p
		}
	}
	return outline
}

// alike reports whether two plates take up the same of a sheet, whichever way they may lie.
func alike(a, b Plate) bool {
	if a.Apart != b.Apart {
		return false
	}
	_, ra, round := a.Swath.IsCircle()
	_, rb, too := b.Swath.IsCircle()
	if round || too {
		return round && too && ra-rb < geom.Step && rb-ra < geom.Step
	}
	if len(a.Swath.Segs) != len(b.Swath.Segs) || len(a.Grain) != len(b.Grain) || a.Swath.Start.Dist(b.Swath.Start) > geom.Step {
		return false
	}
	for i, s := range a.Swath.Segs {
		if t := b.Swath.Segs[i]; s.End.Dist(t.End) > geom.Step || (s.Bulge == 0) != (t.Bulge == 0) {
			return false
		}
	}
	for i, g := range a.Grain {
		if geom.Polar(g).Dist(geom.Polar(b.Grain[i])) > 1e-9 {
			return false
		}
	}
	return true
}
