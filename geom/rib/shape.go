package rib

import (
	"fmt"

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
		found = append(append(found, more...), bentFlat(doc, sec, opened)...)
		sec = opened
	}
	return sec, found
}

// bentFlat tells how far a tail that was opened bends a flat bottom.
func bentFlat(doc *ribfile.Doc, before, after airfoils.Section) []finding.Finding {
	_, was, ok := before.At(1)
	_, is, more := after.At(1)
	flat, down := before.FlatShare(), (was-is)*doc.Rib.Chord
	if !ok || !more || flat == 0 || !(down > 0) {
		return nil
	}
	return []finding.Finding{{Severity: finding.Note, Code: "section-tail-flat", Key: "section.tail_thickness",
		Message: fmt.Sprintf("The tail is opened half upward and half downward: the lower side, straight over %.0f %% of the chord, bends down by %s at the trailing edge.",
			100*flat, doc.Length(down)),
		Fix: "If it shall stay flat, leave tail_thickness out, and raise the upper ordinates of the tail in the table.", Got: down, Unit: "mm"}}
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
