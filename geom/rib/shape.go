package rib

import (
	"ribwright/airfoils"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// fromNumber makes the section of a NACA number, with the changes that the rib file asks for.
func fromNumber(s ribfile.Section) (airfoils.Section, []finding.Finding) {
	return airfoils.NACAWith(s.NACA, airfoils.Options{ClosedTail: s.ClosedTail, Thickness: s.Thickness, CamberScale: s.Camber})
}

// ends gives the section the nose radius and the least thickness of the tail that the rib file asks for. A
// radius that the section's own table gives in words is checked here, where it is used.
func ends(doc *ribfile.Doc, sec airfoils.Section) (airfoils.Section, []finding.Finding) {
	var found []finding.Finding
	chord := doc.Rib.Chord
	switch {
	case len(sec.Upper) == 0:
		return sec, nil
	case doc.Section.NoseRadius > 0:
		sec, found = sec.WithNose(doc.Section.NoseRadius/chord, sec.NoseSlope)
	case sec.NoseRadius > 0:
		sec, found = ownNose(sec)
	}
	if doc.Section.TailThickness > 0 {
		opened, more := sec.WithTail(doc.Section.TailThickness / chord)
		sec, found = opened, append(found, more...)
	}
	return sec, found
}

// ownNose checks the nose radius that a table brings along. One that does not suit it is left aside, and told.
func ownNose(sec airfoils.Section) (airfoils.Section, []finding.Finding) {
	out, found := sec.WithNose(sec.NoseRadius, sec.NoseSlope)
	if len(found) == 0 {
		return out, nil
	}
	for i := range found {
		found[i].Key = "section.file"
		found[i].Severity = finding.Warning
		found[i].Fix = "Put the radius in the table right, or take its line out. The nose is drawn through the table's points alone."
	}
	sec.NoseRadius, sec.NoseSlope = 0, 0
	return sec, found
}
