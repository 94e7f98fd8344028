package takeoff

import (
	"math"
	"slices"

	"ribwright/geom/rib"
)

// SetSticks is sticks of a set that are the same piece of wood, whichever ribs they are of.
type SetSticks struct {
	IDs           []string // "R1 S3"
	First         rib.Stick
	Entry         int     // index in the set of the first one's rib
	Depth, Width  float64 // of the strip they are cut from
	Material      string
	Count, Places int // pieces in the set; sticks in one rib of each kind
}

// Sticks pools the sticks of a set: alike ones of one width and material together.
func Sticks(set rib.Set) []SetSticks {
	type wood struct {
		width    float64
		material string
	}
	type place struct{ entry, stick int }
	var woods []wood
	of := map[wood][]place{}
	pieces := make([][]rib.Stick, len(set))
	for i, e := range set {
		w := wood{e.Rib.StickWidth, e.Doc.Stick.Material}
		if !slices.Contains(woods, w) {
			woods = append(woods, w)
		}
		pieces[i] = e.Rib.Pieces()
		for k := range pieces[i] {
			of[w] = append(of[w], place{i, k})
		}
	}
	var out []SetSticks
	for _, w := range woods {
		var sticks []rib.Stick
		for _, p := range of[w] {
			sticks = append(sticks, pieces[p.entry][p.stick])
		}
		for _, alike := range rib.Alike(sticks) {
			first := of[w][alike[0]]
			g := SetSticks{First: sticks[alike[0]], Entry: first.entry, Depth: set[first.entry].Rib.PlyDepth(), Width: w.width, Material: w.material}
			for _, k := range alike {
				e := set[of[w][k].entry]
				g.IDs = append(g.IDs, e.Part(sticks[k].ID))
				g.Count += e.Rib.Count
				g.Places++
			}
			out = append(out, g)
		}
	}
	return out
}

// SetPlates is plates of a set with the same outline.
type SetPlates struct {
	IDs       []string // "R1 U3"
	First     rib.Gusset
	Entry     int // index in the set of the first one's rib
	Thickness float64
	Material  string
	Count     int // plates in the set, on all faces
}

// Plates pools the plates of a set: those of one outline, thickness and material together, whichever ribs they are of.
func Plates(set rib.Set) []SetPlates {
	var out []SetPlates
	size := map[int][]int{} // rows by their plates' area, whole mm²; looked up only
	for i, e := range set {
		for _, g := range e.Rib.Gussets {
			thick, material := e.Rib.GussetThickness, e.Doc.Gusset.Material
			mm2 := int(math.Floor(g.AreaMM2))
			k := len(out)
			for near := mm2 - pooledMM2; near <= mm2+pooledMM2; near++ {
				for _, o := range size[near] {
					if o < k && out[o].Thickness == thick && out[o].Material == material && rib.SamePlate(g, out[o].First) {
						k = o
					}
				}
			}
			if k == len(out) {
				out = append(out, SetPlates{First: g, Entry: i, Thickness: thick, Material: material})
				size[mm2] = append(size[mm2], k)
			}
			out[k].IDs = append(out[k].IDs, e.Part(g.ID))
			out[k].Count += g.Faces * e.Rib.Count
		}
	}
	return out
}

// pooledMM2 is how far areas of plates may be apart, mm², that are still looked at as the same: a tenth of a
// millimetre about a plate as long as a hand is broad.
const pooledMM2 = 30
