package rib

import (
	"fmt"

	"ribwright/airfoils"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// Section makes the section that a rib file asks for. A table in a file of its own is fetched with read,
// by its name as the rib file gives it. Findings about the table's file name that file.
func Section(doc *ribfile.Doc, read func(name string) ([]byte, error)) (airfoils.Section, []finding.Finding) {
	s := doc.Section
	switch {
	case s.NACA != "":
		return airfoils.NACA(s.NACA)
	case s.Builtin != "":
		return airfoils.Builtin(s.Builtin)
	case s.File != "":
		data, err := read(s.File)
		if err != nil {
			return airfoils.Section{}, []finding.Finding{{Severity: finding.Error, Code: "section-file", Key: "section.file",
				Message: fmt.Sprintf("The section's table %q cannot be read: %v.", s.File, err),
				Fix:     "Put the file beside the rib file, and give its name as it stands there."}}
		}
		return airfoils.Read(s.File, data)
	}
	rows := s.Ordinates
	if s.OrdinateUnit == "length" {
		rows = make([][3]float64, len(s.Ordinates))
		for i, r := range s.Ordinates {
			for k, v := range r {
				rows[i][k] = 100 * v / doc.Rib.Chord
			}
		}
	}
	return airfoils.Ordinates(rows)
}
