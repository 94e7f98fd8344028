package rib

import (
	"fmt"
	"math"

	"ribwright/airfoils"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// Section makes the section that a rib file asks for. A table in a file of its own is fetched with read,
// by its name as the rib file gives it. Findings about the table's file name that file.
//
// Where section.fair allows it, the table's points are moved to a fair curve, and a note lists the moves.
// Then the nose and the tail get what the file gives for them.
func Section(doc *ribfile.Doc, read func(name string) ([]byte, error)) (airfoils.Section, []finding.Finding) {
	sec, found := asked(doc, read)
	if len(sec.Upper) == 0 || finding.HasError(found) {
		return sec, found
	}
	if doc.Section.Fair > 0 {
		moved, note := faired(doc, sec)
		sec, found = moved, append(found, note)
	}
	sec, more := ends(doc, sec)
	return sec, append(found, more...)
}

// asked is the section as the rib file or its table has it.
func asked(doc *ribfile.Doc, read func(name string) ([]byte, error)) (airfoils.Section, []finding.Finding) {
	s := doc.Section
	switch {
	case s.NACA != "":
		return fromNumber(s)
	case s.Builtin != "":
		return airfoils.Builtin(s.Builtin)
	case s.File != "":
		data, err := read(s.File)
		if err != nil {
			return airfoils.Section{}, []finding.Finding{{Severity: finding.Error, Code: "section-file", Key: "section.file",
				Message: fmt.Sprintf("The section's table %q cannot be read: %v.", s.File, err),
				Fix:     "Put the file beside the rib file, and give its name as it stands there."}}
		}
		sec, found := airfoils.Read(s.File, data)
		return sec, append(found, chordDiffers(doc, sec)...)
	}
	rows, chord := s.Ordinates, 0.0
	if s.OrdinateUnit == "length" {
		if last := s.Ordinates[len(s.Ordinates)-1][0]; math.Abs(last-doc.Rib.Chord) > doc.Rib.Chord*chordTol {
			return airfoils.Section{}, []finding.Finding{{Severity: finding.Error, Code: "section-chord",
				Key:     fmt.Sprintf("section.ordinates[%d]", len(s.Ordinates)-1),
				Message: fmt.Sprintf("The ordinates end at station %s, and the chord is %s.", doc.Length(last), doc.Length(doc.Rib.Chord)),
				Fix:     "Let the last station be the trailing edge, or put rib.chord right.", Got: last, Limit: doc.Rib.Chord, Unit: "mm"}}
		}
		chord = doc.Rib.Chord
		if doc.Units == ribfile.Inch {
			chord /= ribfile.MMPerInch
		}
		rows = make([][3]float64, len(s.Ordinates))
		for i, r := range s.Ordinates {
			for k, v := range r {
				rows[i][k] = 100 * v / doc.Rib.Chord
			}
		}
	}
	return airfoils.OrdinatesOn(rows, chord)
}

// chordTol is how far, in shares, a table's own chord may differ from the rib's before it is told.
const chordTol = 0.01

// chordDiffers warns where a table in lengths is for another chord than the rib's: it is scaled.
func chordDiffers(doc *ribfile.Doc, sec airfoils.Section) []finding.Finding {
	for _, unit := range []float64{1, ribfile.MMPerInch} { // the table does not say which
		if math.Abs(float64(sec.Chord*unit)-doc.Rib.Chord) <= doc.Rib.Chord*chordTol {
			return nil
		}
	}
	if sec.Chord == 0 {
		return nil
	}
	return []finding.Finding{{Severity: finding.Warning, Code: "section-chord", Key: "section.file",
		Message: fmt.Sprintf("The section's table runs to station %g, and the rib's chord is %s: the section is scaled to the chord.", sec.Chord, doc.Length(doc.Rib.Chord)),
		Fix:     "If the table was drawn for this rib, put rib.chord right; if it is for another chord, this is as it should be."}}
}
