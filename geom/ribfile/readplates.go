package ribfile

import (
	"fmt"
	"regexp"
)

var (
	plateSize = limit{min: 2, max: 500}
	jointName = regexp.MustCompile(`^[UL][1-9][0-9]{0,3}$`)
)

func (r *reader) gussets(t tab) {
	def := Plate{Shape: defaultShape, Diameter: defaultDiameter, Length: defaultLength, Height: defaultHeight, Grain: defaultGrain}
	p := r.plate(t, def)
	p.Thickness, _ = t.length("thickness", defaultPlate, limit{min: 0.2, max: 25})
	p.Material = t.material("material", defaultPlywood, Plywoods)
	p.Faces = t.whole("faces", defaultFaces, 1, 2, "faces")
	p.Face = t.choice("face", defaultFace, "near", "far")
	r.doc.Gusset = p
	if t.v == nil {
		return
	}
	lines := map[string]int{} // of the joints named
	for _, at := range r.tableList("gusset.at", "at", t.v) {
		r.doc.Gussets = append(r.doc.Gussets, PlateAt{Joints: r.joints(at, lines), Plate: r.plate(at, p)})
	}
}

// plate reads the keys that [gusset] and [[gusset.at]] share.
func (r *reader) plate(t tab, def Plate) Plate {
	p := def
	p.Shape = t.choice("shape", def.Shape, "round", "rectangle", "none")
	p.Diameter, _ = t.length("diameter", def.Diameter, plateSize)
	p.Length, _ = t.length("length", def.Length, plateSize)
	p.Height, _ = t.length("height", def.Height, plateSize)
	p.Inset, _ = t.length("inset", def.Inset, limit{min: 0, max: r.doc.Cap.Depth, why: ", the depth of the caps"})
	p.Grain = t.choice("grain", def.Grain, "cap", "stick", "45", "any")
	return p
}

func (r *reader) joints(t tab, lines map[string]int) []string {
	const example = `joints = ["U1", "L1"]`
	t.missing("joints", example)
	v := t.get("joints")
	if v == nil {
		return nil
	}
	if v.kind != listKind || len(v.items) == 0 {
		t.wrongType(v, "a list of joints", example)
		return nil
	}
	var out []string
	for _, item := range v.items {
		if item.kind != textKind {
			t.wrongType(item, "a joint's name in quotation marks", example)
			continue
		}
		name := item.raw
		if !jointName.MatchString(name) {
			r.tell(CodeJointName, item.key, item.at, quote(name)+" is not the name of a joint.", "Joints are U1, U2 … along the upper cap and L1, L2 … along the lower one, in capitals.")
			continue
		}
		if line, twice := lines[name]; twice {
			r.tell(CodeJointDoubled, item.key, item.at, fmt.Sprintf("Joint %s is named twice; the first is in line %d.", name, line), "Name each joint once.")
			continue
		}
		lines[name] = r.src.place(item.at).line
		out = append(out, name)
	}
	return out
}
