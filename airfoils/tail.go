package airfoils

import (
	"slices"

	"ribwright/geom"
	"ribwright/geom/finding"
)

// wedge opens the tail: each side moves out by half·((x − from)/(1 − from))² aft of the station from, where
// the section is deepest. So it begins without a kink, and what lies ahead is not touched.
type wedge struct{ from, half float64 }

func (w wedge) apply(p geom.Pt, sign float64) geom.Pt {
	if p.X <= w.from {
		return p
	}
	z := (p.X - w.from) / (1 - w.from)
	return geom.Pt{X: p.X, Y: p.Y + float64(sign*w.half*z*z)}
}

// opened returns a side with the wedge; sign is 1 for the upper side.
func (w wedge) opened(d side, chord, sign float64) side {
	at := d.curve
	d.curve = func(t float64) geom.Pt { return w.apply(at(t).Mul(1/chord), sign).Mul(chord) }
	return d
}

// WithTail returns the section with at least the thickness given at its trailing edge, a share of the
// chord. A thinner tail is opened by a wedge that begins at the greatest depth, half to each side; a tail
// that is thick enough stays as it is. Findings have the key "section.tail_thickness".
func (s Section) WithTail(least float64) (Section, []finding.Finding) {
	depth, from := s.MaxThickness()
	if !(least >= 0 && least < depth/2) {
		return s, []finding.Finding{{Code: "section-tail", Key: "section.tail_thickness",
			Message: "The tail's thickness is more than half of the section's greatest depth.",
			Fix:     "Give the least thickness of the trailing edge, such as \"1/8 in\"; mind the unit."}}
	}
	upper, lower, ok := s.At(1)
	if !ok || upper-lower >= least {
		return s, nil
	}
	w := wedge{from: from, half: float64((least - (upper - lower)) / 2)}
	if s.eq.t > 0 || s.mix != nil {
		w.half += s.wedge.half
		s.wedge = w
		s.Upper, s.Lower = s.customaryPoints()
		return s, nil
	}
	s.Upper, s.Lower = slices.Clone(s.Upper), slices.Clone(s.Lower)
	for i, p := range s.Upper {
		s.Upper[i] = w.apply(p, 1)
	}
	for i, p := range s.Lower {
		s.Lower[i] = w.apply(p, -1)
	}
	return s, nil
}
