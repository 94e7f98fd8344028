package rib

import (
	"reflect"
	"slices"

	"ribwright/geom/ribfile"
)

// Alike returns for each entry the index of the first one of the set that is the same rib: laid out alike, of the same
// wood and plywood, on the same jig. Keys of the rib file that change nothing of a rib, such as a bay beyond the place where
// it is cut off, do not part it from others; nor do its name and its number in the wing.
func (s Set) Alike() []int {
	type size struct {
		area, girth, inside     float64
		sticks, joints, gussets int
	}
	of := map[size][]int{} // firsts of such a size; looked up only
	out := make([]int, len(s))
	said := make([]string, len(s)) // by those of which another has the size
	says := func(i int) string {
		if said[i] == "" {
			said[i] = s[i].rest().Said()
		}
		return said[i]
	}
	for i, e := range s {
		r := e.Rib
		near := size{r.Contour.AreaMM2, r.Contour.Length, r.Contour.Inner.Area(), len(r.Sticks), len(r.Joints), len(r.Gussets)}
		out[i] = i
		if k := slices.IndexFunc(of[near], func(k int) bool { return says(i) == says(k) && reflect.DeepEqual(r.parts(), s[k].Rib.parts()) }); k >= 0 {
			out[i] = of[near][k]
			continue
		}
		of[near] = append(of[near], i)
	}
	return out
}

// parts is the rib without its name, its count, and sizes of what it has none of.
func (r *Rib) parts() Rib {
	out := *r.Slim() // what that leaves out follows from the rest
	out.Title, out.Count, out.Mirrored, out.Hands = "", 0, 0, nil
	if len(r.Sticks) == 0 {
		out.StickWidth, out.StickDepth, out.StickPlies = 0, 0, 0
	}
	if len(r.Gussets) == 0 {
		out.GussetThickness = 0
	}
	return out
}

// rest is what the rib file says that drawings, lists and sums take from it and that is not in the rib already.
func (e Entry) rest() *ribfile.Doc {
	d := *e.Doc
	d.Title, d.Rib, d.Spars, d.Bays, d.Lines, d.Gussets = "", ribfile.Rib{}, nil, nil, nil, nil
	d.Cap.From = 0
	if !e.Rib.hasBlock(BlockNose) {
		d.Nose = ribfile.Block{}
	}
	if !e.Rib.hasBlock(BlockTail) {
		d.Tail = ribfile.Block{}
	}
	d.Stick = ribfile.Stick{}
	if len(e.Rib.Sticks) > 0 {
		d.Stick.Material = e.Doc.Stick.Material
	}
	for _, g := range e.Rib.Gussets {
		d.Gussets = append(d.Gussets, ribfile.PlateAt{Joints: g.Joints, Plate: ribfile.Plate{Grain: e.Doc.GrainAt(g.Joints[0])}})
	}
	g := e.Doc.Gusset
	d.Gusset = ribfile.Plate{}
	if len(e.Rib.Gussets)+len(e.Rib.Web.Outline) > 0 {
		d.Gusset = ribfile.Plate{Thickness: g.Thickness, Material: g.Material, Faces: g.Faces, Face: g.Face}
	}
	w := e.Doc.Web
	d.Web = ribfile.Web{}
	if len(e.Rib.Web.Outline) > 0 {
		d.Web = ribfile.Web{Thickness: w.Thickness, Material: w.Material, Grain: w.Grain}
	}
	return &d
}

func (r *Rib) hasBlock(id string) bool {
	return slices.ContainsFunc(r.Blocks, func(b Block) bool { return b.ID == id })
}
