package airfoils

import (
	"ribwright/geom"
	"ribwright/geom/curve"
)

// Contour returns the section's outline for a chord in mm, as two polylines from the leading edge to the
// tail; both begin at the same point. No place of the curve stands further than tol, mm, from them.
//
// Sections from equations are evaluated; a table's points are joined by one natural cubic spline from the
// tail over the upper side, round the nose and back along the lower side, and every point of the table is
// on the outline. Where a nose radius is given, each side is a spline of its own, and the two meet with that
// radius. Where the table gives two ordinates at its first station the nose is blunt: it is cut
// there by a straight line, and the leading edge is the middle of it. The tail is left as it is: open
// where the two sides end apart.
func (s Section) Contour(chord, tol float64) (upper, lower []geom.Pt) {
	u, l, ok := s.sides(chord)
	if !ok {
		return nil, nil
	}
	return u.flatten(tol), l.flatten(tol)
}

// side is one side of the section as a curve: from breaks[0] at the nose to the last break at the tail.
type side struct {
	curve  func(float64) geom.Pt
	breaks []float64
	blunt  *geom.Pt // the leading edge, where it is not the curve's first point
}

func (d side) flatten(tol float64) []geom.Pt {
	line := curve.Flatten(d.curve, d.breaks, tol)
	if d.blunt != nil {
		line = append([]geom.Pt{*d.blunt}, line...)
	}
	return line
}

// sides returns the two sides at a chord in mm. It is not ok for a section without points.
func (s Section) sides(chord float64) (upper, lower side, ok bool) {
	switch {
	case s.eq.t > 0:
		upper, lower = s.eq.sides(chord)
		ok = true
	case s.mix != nil:
		upper, lower, ok = s.mix.sides(chord)
	default:
		return s.tableSides(chord)
	}
	if s.wedge.half > 0 {
		upper, lower = s.wedge.opened(upper, chord, 1), s.wedge.opened(lower, chord, -1)
	}
	return upper, lower, ok
}

// tableSides draws the sides through a table's points.
func (s Section) tableSides(chord float64) (upper, lower side, ok bool) {
	if len(s.Upper) < 2 || len(s.Lower) < 2 {
		return side{}, side{}, false
	}
	if s.NoseRadius > 0 {
		if upper, lower, ok = s.noseSides(chord); ok {
			return upper, lower, true
		}
	}
	if squareNose(s.Upper, s.Lower) {
		return s.squareSides(chord)
	}
	blunt := s.Upper[0] != s.Lower[0]
	round := make([]geom.Pt, 0, len(s.Upper)+len(s.Lower))
	for i := len(s.Upper) - 1; i >= 0; i-- {
		round = append(round, s.Upper[i].Mul(chord))
	}
	nose := len(round) - 1
	foot := nose // where the lower side begins
	if blunt {
		round = append(round, s.Lower[0].Mul(chord))
		foot++
	}
	for _, p := range s.Lower[1:] {
		round = append(round, p.Mul(chord))
	}
	spline, err := curve.Fit(round)
	if err != nil {
		return side{}, side{}, false
	}
	knots := spline.Knots()
	upper = backwards(spline, knots[:nose+1])
	lower = side{curve: spline.At, breaks: knots[foot:]}
	if blunt {
		mid := round[nose].Lerp(round[foot], 0.5)
		upper.blunt, lower.blunt = &mid, &mid
	}
	return upper, lower, true
}

// backwards returns the side that runs against the spline's parameter, from its last knot to its first.
func backwards(s *curve.Spline, knots []float64) side {
	n := len(knots)
	out := make([]float64, n)
	for i, k := range knots {
		out[n-1-i] = -k
	}
	return side{curve: func(t float64) geom.Pt { return s.At(-t) }, breaks: out}
}

// squareNose reports whether the nose is cut so bluntly that a curve round it would be no nose of this
// section's: the first station is at least half as deep as the next one.
func squareNose(upper, lower []geom.Pt) bool {
	gap, next := upper[0].Y-lower[0].Y, upper[1].Y-lower[1].Y
	return upper[0] != lower[0] && gap >= next/2
}

// squareSides draws each side of a squarely cut nose on its own.
func (s Section) squareSides(chord float64) (upper, lower side, ok bool) {
	mid := s.Upper[0].Lerp(s.Lower[0], 0.5).Mul(chord)
	draw := func(pts []geom.Pt) (side, error) {
		big := make([]geom.Pt, len(pts))
		for i, p := range pts {
			big[i] = p.Mul(chord)
		}
		spline, err := curve.Fit(big)
		if err != nil {
			return side{}, err
		}
		return side{curve: spline.At, breaks: spline.Knots(), blunt: &mid}, nil
	}
	upper, errU := draw(s.Upper)
	lower, errL := draw(s.Lower)
	return upper, lower, errU == nil && errL == nil
}
