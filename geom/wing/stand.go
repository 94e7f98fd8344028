package wing

import (
	"math"

	"ribwright/geom"
	"ribwright/geom/ribfile"
)

// hair is the difference below which a length that was worked out is the root's own, mm: rounding, and no taper.
const hair = 1e-9

// lerp is the value at the share t between two; where they are equal, just that value.
func lerp(a, b, t float64) float64 {
	if a == b {
		return a
	}
	return float64((1-t)*a) + float64(t*b)
}

// chord is the chord at the share t of the semi-span.
func (l *layout) chord(t float64) float64 { return lerp(l.doc.Rib.Chord, l.wing.TipChord, t) }

// weight is what the tip counts for in a rib at the share t: the tip's part of the chord there.
func (l *layout) weight(t float64) float64 {
	if t == 0 || t == 1 || l.wing.TipChord == l.doc.Rib.Chord {
		return t
	}
	return float64(t*l.wing.TipChord) / l.chord(t)
}

// turn is how far the rib at the share t is turned nose down. The heights of leading and trailing edge above the axis of
// twist run straight from root to tip, so it is their sine over the chord that goes over in proportion.
func (l *layout) turn(t float64) float64 {
	if l.wing.Washout == 0 {
		return 0
	}
	return math.Asin(float64(l.weight(t) * math.Sin(l.wing.Washout)))
}

// nose is the leading edge at the share t: the point of the chord at the share Align stands on the line of sweep before
// the rib is turned, and the point on the axis of twist stays where it is.
func (l *layout) nose(t float64) geom.Pt {
	w := l.wing
	c := l.chord(t)
	x := float64(w.Align*(l.doc.Rib.Chord-c)) + float64(t*w.SemiSpan*math.Tan(w.Sweep))
	s, k := math.Sincos(l.turn(t))
	a := float64(w.TwistAxis * c)
	return geom.Pt{X: x + float64(a*(1-k)), Y: -float64(a * s)}
}

// place is how a rib stands at the share t.
func (l *layout) place(t float64) Place { return Place{Nose: l.nose(t), Incidence: 0 - l.turn(t)} }

// sparAt is where a spar's centre plane stands in plan at the share t.
func (l *layout) sparAt(i int, t float64) float64 {
	root := l.doc.Spars[i].At
	tip := l.nose(1).X + float64(l.wing.TipSpars[i]*math.Cos(l.wing.Washout))
	return lerp(root, tip, t)
}

// standing is the rib at a span station, as the rib file needs to know it.
func (l *layout) standing(span float64) ribfile.Standing {
	t := span / l.wing.SemiSpan
	s := ribfile.Standing{Chord: near(l.chord(t), l.doc.Rib.Chord)}
	nose, turn := l.nose(t), l.turn(t)
	for i, spar := range l.doc.Spars {
		at := (l.sparAt(i, t) - nose.X) / math.Cos(turn)
		s.Spars = append(s.Spars, ribfile.SparStanding{At: near(at, spar.At)})
	}
	return s
}

// near returns the root's own value where the two differ by rounding alone.
func near(v, root float64) float64 {
	if math.Abs(v-root) < hair {
		return root
	}
	return v
}
