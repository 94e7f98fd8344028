package airfoils

import (
	"math"

	"ribwright/geom"
)

// searchSteps is the number of steps in which a section is searched for its thickness and camber.
const searchSteps = 1000

// MaxThickness returns the section's greatest thickness and its station, in shares of the chord. It is
// measured along the ordinates, as a builder measures a rib; an equation's thickness stands square to its mean line.
func (s Section) MaxThickness() (thickness, station float64) {
	return s.largest(func(_, upper, lower float64) float64 { return upper - lower })
}

// MaxCamber returns the greatest height of the mean line, the middle between the ordinates, over the
// straight line from the leading edge to the middle of the tail, and its station, in shares of the chord.
// A mean line that hangs below has a negative camber. It does not depend on the table's datum, except for
// its slope, which moves a section's camber by less than a thousandth of itself.
func (s Section) MaxCamber() (camber, station float64) {
	u0, l0, ok := s.At(0)
	u1, l1, okTail := s.At(1)
	if !ok || !okTail {
		return 0, 0
	}
	nose, tail := (u0+l0)/2, (u1+l1)/2
	height := func(x, upper, lower float64) float64 {
		return float64((upper+lower)/2) - nose - float64((tail-nose)*x)
	}
	up, at := s.largest(height)
	down, below := s.largest(func(x, u, l float64) float64 { return -height(x, u, l) })
	if down > up {
		return -down, below
	}
	return up, at
}

// largest returns the greatest value of f along the chord, and its station.
func (s Section) largest(f func(x, upper, lower float64) float64) (best, at float64) {
	u, l, ok := s.sides(1)
	if !ok {
		return 0, 0
	}
	for i := 0; i <= searchSteps; i++ {
		x := float64(i) / searchSteps
		upper, upOK := u.at(x)
		lower, loOK := l.at(x)
		if v := f(x, upper, lower); upOK && loOK && v > best {
			best, at = v, x
		}
	}
	return best, at
}

// The limits of a flat bottom. Tables are printed to a hundredth of a percent of the chord, so that points
// of a straight line stand off it by no more than their rounding.
const (
	flatTol   = 0.00015 // share of the chord
	flatLeast = 0.3     // share of the chord below which a straight stretch is no flat bottom
	flatFew   = 4       // points below which a stretch is not known to be straight
)

// FlatShare returns how much of the chord the lower side runs straight, by the table's points: 0 where it
// is curved all along, and for equations.
func (s Section) FlatShare() float64 {
	if s.Form == "" {
		return 0
	}
	best := 0.0
	for i := range s.Lower {
		if j := straightFrom(s.Lower[i:]); j+1 >= flatFew {
			best = math.Max(best, s.Lower[i+j].X-s.Lower[i].X)
		}
	}
	if best < flatLeast {
		return 0
	}
	return best
}

// straightFrom returns the last point such that the line to it from the first point passes all points
// between within flatTol. Each point leaves a range of slopes; the line's slope must lie in all of them.
func straightFrom(pts []geom.Pt) int {
	least, most := math.Inf(-1), math.Inf(1)
	last := 0
	for j := 1; j < len(pts); j++ {
		dx, dy := pts[j].X-pts[0].X, pts[j].Y-pts[0].Y
		if dx <= 0 {
			return last
		}
		if slope := dy / dx; slope >= least && slope <= most {
			last = j
		}
		least, most = math.Max(least, (dy-flatTol)/dx), math.Min(most, (dy+flatTol)/dx)
		if least > most {
			return last
		}
	}
	return last
}
