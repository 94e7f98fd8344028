package cut

import (
	"fmt"

	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// Ply is a plywood.
type Ply struct {
	Thickness float64
	Material  string
}

// plyOf is the plywood of a rib's plates.
func plyOf(doc *ribfile.Doc) Ply { return Ply{doc.Gusset.Thickness, doc.Gusset.Material} }

// MainPly is the plywood that the sheets in stock are taken to be: that of most plates of the set.
func MainPly(set rib.Set) Ply {
	var best Ply
	most, count := -1, map[Ply]int{}
	for _, e := range set {
		p := plyOf(e.Doc)
		for _, g := range e.Rib.Gussets {
			count[p] += e.Rib.Count * len(g.On())
		}
	}
	for _, e := range set { // of as many, that of the first rib
		if p := plyOf(e.Doc); count[p] > most {
			best, most = p, count[p]
		}
	}
	return best
}

// FindPly tells of ribs whose plates are of other plywood than the sheets.
func FindPly(set rib.Set) []finding.Finding {
	var out []finding.Finding
	main := MainPly(set)
	for _, e := range set {
		p := plyOf(e.Doc)
		if p == main || len(e.Rib.Gussets) == 0 {
			continue
		}
		out = append(out, finding.Finding{Severity: finding.Note, Code: "plate-plywood", Key: "gusset.thickness", Part: e.Name,
			Got: p.Thickness, Limit: main.Thickness, Unit: "mm",
			Message: fmt.Sprintf("The plates of rib %s are of %s, %s thick, and the sheets in stock are for those of most plates, of %s, %s thick: they lie on none.",
				e.Name, p.Material, e.Doc.Length(p.Thickness), main.Material, e.Doc.Length(main.Thickness)),
			Fix: "Cut them by the file of that rib's plates from a sheet of their own; the list of what to buy has their area."})
	}
	return out
}
