package airfoils

import (
	"math"

	"ribwright/geom"
	"ribwright/geom/finding"
)

// MeasuredDown takes lower ordinates that a builder measured down from the chord line, and wrote without a minus,
// for what they are: where the contour's lower side lies clearly below that line, nearly all of them are positive, and
// with the other sign they come much nearer to it. A note, on the file named, tells of it. The sides are mm, nose to
// tail; the readings handed in stay as they are.
func MeasuredDown(file string, upper, lower []geom.Pt, readings []Reading) ([]Reading, []finding.Finding) {
	const (
		least  = 3    // readings
		clear  = 0.01 // share of the chord: nearer to the line the sign tells nothing
		mostly = 0.8  // of them with the wrong sign
		nearer = 0.5  // of the distance as it was written
	)
	c := newComparer(upper, lower, readings, false)
	n, wrong, first := 0, 0, 0
	var asWritten, turned float64
	for _, r := range readings {
		nominal, ok := c.nominal(r.Of, r.Station)
		if r.Of != OfLower || !ok || math.Abs(nominal) < clear*c.chord {
			continue
		}
		if n++; n == 1 {
			first = r.Line
		}
		if float64(nominal*r.Value) < 0 {
			wrong++
		}
		asWritten += math.Abs(r.Value - nominal)
		turned += math.Abs(-r.Value - nominal)
	}
	if n < least || float64(wrong) < mostly*float64(n) || turned > nearer*asWritten {
		return readings, nil
	}
	out := make([]Reading, len(readings))
	for i, r := range readings {
		if r.Of == OfLower {
			r.Value = 0 - r.Value
		}
		out[i] = r
	}
	return out, []finding.Finding{{Severity: finding.Note, Code: "measured-down", File: file, Line: first, Column: 1,
		Message: "The lower ordinates are taken as measured down from the chord line: as they stand, without a minus, they lie far off the contour.",
		Fix:     "Put a minus before ordinates below the chord line, and this note goes."}}
}
