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

// sparLine is where a spar's centre plane crosses the root's chord line, y = 0, in plan. Seen along the spar it leans by the
// tilt that the file gives it at the root, aft at the top; the plane is straight from root to tip.
func (l *layout) sparLine(i int) SparLine {
	s := l.doc.Spars[i]
	at := l.tipPlace.InWing(geom.Pt{X: l.wing.TipSpars[i]})
	line := SparLine{Name: s.Name, Root: s.At, Tip: at.X - float64(at.Y*math.Tan(s.Tilt)), Tilt: s.Tilt}
	slope := (line.Tip - line.Root) / l.wing.SemiSpan
	line.Sweep = math.Atan(slope * math.Cos(s.Tilt)) // seen along its faces
	return line
}

// standing is the rib at a span station, as the rib file needs to know it.
func (l *layout) standing(span float64) ribfile.Standing {
	t := span / l.wing.SemiSpan
	s := ribfile.Standing{Chord: near(l.chord(t), l.doc.Rib.Chord)}
	nose, turn := l.nose(t), l.turn(t)
	for i, spar := range l.doc.Spars {
		line := l.spars[i]
		lean := math.Tan(line.Tilt)
		// The chord line runs from the nose at the slope of turn; the plane stands at x = at + y·lean.
		at := (lerp(line.Root, line.Tip, t) + float64(nose.Y*lean) - nose.X) / (math.Cos(turn) - float64(math.Sin(turn)*lean))
		s.Spars = append(s.Spars, ribfile.SparStanding{At: near(at, spar.At), Tilt: near(line.Tilt+turn, spar.Tilt), Sweep: near(line.Sweep, 0)})
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
