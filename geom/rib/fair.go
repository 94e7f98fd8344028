package rib

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ribwright/airfoils"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// worthTelling is the least move that is listed, mm: a thousandth of an inch.
const worthTelling = 0.001 * ribfile.MMPerInch

// faired moves the section's points to a fair curve, and returns with it the note of what moved.
func faired(doc *ribfile.Doc, sec airfoils.Section) (airfoils.Section, finding.Finding) {
	chord, limit := doc.Rib.Chord, doc.Section.Fair
	out, moves := sec.Fair(limit / chord)
	note := finding.Finding{Severity: finding.Note, Code: "section-faired", Key: "section.fair", Limit: limit, Unit: "mm"}
	var list []string
	most := 0.0
	for _, m := range moves {
		by := (m.To - m.From) * chord
		most = math.Max(most, math.Abs(by))
		if math.Abs(by) > worthTelling {
			list = append(list, fmt.Sprintf("%s at %s by %s", m.Side, doc.Decimal(m.Station*chord), signed(doc.Units, by)))
		}
	}
	note.Got = most
	allowed := "of the " + doc.Length(limit) + " that section.fair allows"
	switch {
	case len(moves) == 0:
		note.Message = "Fairing moved nothing: sections from equations are fair, and tables of very few or of hundreds of points are left as they are."
		note.Fix = "Leave section.fair out."
	case len(list) == 0:
		note.Message = fmt.Sprintf("Fairing moved no ordinate by more than %s, %s.", unsigned(doc.Units, worthTelling), allowed)
		note.Fix = "The table is fair: section.fair may be left out."
	default:
		note.Message = fmt.Sprintf("Fairing moved %d ordinates by up to %s, %s. Stations and moves in %s, + is up: %s.",
			len(list), unsigned(doc.Units, most), allowed, doc.Units, strings.Join(list, "; "))
		if rest := len(moves) - len(list); rest > 0 {
			note.Message += fmt.Sprintf(" Another %d moved by less than %s.", rest, unsigned(doc.Units, worthTelling))
		}
		note.Fix = "Compare the larger moves with the plans before cutting wood. Without section.fair nothing moves."
	}
	return out, note
}

// signed formats a move in the file's unit: three decimals of an inch, two of a millimetre.
func signed(units ribfile.Units, mm float64) string {
	if mm < 0 {
		return "-" + unsigned(units, -mm)
	}
	return "+" + unsigned(units, mm)
}

func unsigned(units ribfile.Units, mm float64) string {
	if units == ribfile.Inch {
		return strconv.FormatFloat(mm/ribfile.MMPerInch, 'f', 3, 64)
	}
	return strconv.FormatFloat(mm, 'f', 2, 64)
}
