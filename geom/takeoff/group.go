package takeoff

import (
	"slices"

	"ribwright/geom/rib"
)

// StickGroup is sticks that are the same piece of wood, turned over or end for end where need be.
type StickGroup struct {
	IDs   []string
	First rib.Stick // the first of them: length, ends and outline stand for all
}

// PlateGroup is plates of one rib that are the same; their marks may differ.
type PlateGroup struct {
	IDs   []string
	First rib.Gusset
	Faces int // plates in one rib
}

func groupSticks(r *rib.Rib) []StickGroup {
	var out []StickGroup
	pieces := r.Pieces()
	for _, alike := range rib.Alike(pieces) {
		g := StickGroup{First: pieces[alike[0]]}
		for _, i := range alike {
			g.IDs = append(g.IDs, pieces[i].ID)
		}
		out = append(out, g)
	}
	return out
}

func groupPlates(r *rib.Rib) []PlateGroup {
	var out []PlateGroup
	for _, g := range r.Gussets {
		i := slices.IndexFunc(out, func(o PlateGroup) bool { return rib.SamePlate(g, o.First) })
		if i < 0 {
			out = append(out, PlateGroup{First: g})
			i = len(out) - 1
		}
		out[i].IDs = append(out[i].IDs, g.ID)
		out[i].Faces += g.Faces
	}
	return out
}
