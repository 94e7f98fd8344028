package ribfile

// Web is [web]: one sheet of plywood over a whole face of the rib, in place of that face's plates.
type Web struct {
	Faces     string // "none", "near", "far" or "both"
	Thickness float64
	Material  string
	Inset     float64 // of its edge, inside the contour
	Grain     string  // which way the face grain runs: along the "chord" line, "upright", at "45" degrees, "any"
}

// Defaults of a web; its thickness and its material are the plates'.
const (
	defaultWeb      = "none"
	defaultWebGrain = "chord" // common practice, no source; the plans rule
)

// web comes behind the plates: a face with a web has none.
func (r *reader) web(t tab) {
	w, p := &r.doc.Web, &r.doc.Gusset
	w.Faces = t.choice("faces", defaultWeb, "none", "near", "far", "both")
	w.Thickness, _ = t.length("thickness", p.Thickness, limit{min: 0.2, max: 25})
	w.Material = t.material("material", p.Material, Plywoods)
	w.Inset, _ = t.length("inset", 0, limit{min: 0, max: r.doc.Cap.Depth / 2, why: ", half the depth of the caps"})
	w.Grain = t.choice("grain", defaultWebGrain, "chord", "upright", "45", "any")
	bare := w.Faces == "both" || p.Faces == 1 && w.Faces == p.Face
	switch {
	case bare:
		p.Shape = "none"
		for i := range r.doc.Gussets {
			r.doc.Gussets[i].Plate.Shape = "none"
		}
	case w.Faces == "near":
		p.Faces, p.Face = 1, "far"
	case w.Faces == "far":
		p.Faces, p.Face = 1, "near"
	}
	for i := range r.doc.Gussets {
		at := &r.doc.Gussets[i].Plate
		at.Faces, at.Face = p.Faces, p.Face
	}
}
