package bend

import (
	"math"

	"ribwright/geom"
)

// Overbend returns the curve whose curvature is everywhere 1/(1 − share) times that of the curve given, at the
// same length along it: the form that a strip is bent on where it springs back by that share of its curvature. It starts
// where the curve starts, in the same direction. Corners stay as they are. share is at least 0 and less than 1.
//
// Every chord keeps its length, and every turn between two chords grows. A polygon in a circle of radius R, with
// chords h, turns by h/R at each corner to the second order, so the result lies in the circle of radius (1 − share)·R.
func Overbend(pts []geom.Pt, share float64) []geom.Pt {
	if len(pts) < 2 {
		return append([]geom.Pt(nil), pts...)
	}
	out := []geom.Pt{pts[0]}
	grow := 1 / (1 - share)
	// The first chord runs in the middle of its stretch: half of its turn already lies before it.
	first := pts[1].Sub(pts[0])
	start := first.Angle()
	if len(pts) > 2 {
		next := pts[2].Sub(pts[1])
		start += float64((more(first, next, grow) - turn(first, next)) * first.Len() / (first.Len() + next.Len()))
	}
	angle := start
	for i := 1; i < len(pts); i++ {
		d := pts[i].Sub(pts[i-1])
		if i > 1 {
			angle += more(pts[i-1].Sub(pts[i-2]), d, grow)
		}
		out = append(out, out[i-1].Along(geom.Polar(angle), d.Len()))
	}
	return out
}

// more returns the turn from one chord to the next, grown unless it is a corner.
func more(a, b geom.Pt, grow float64) float64 {
	t := turn(a, b)
	if math.Abs(t) > corner {
		return t
	}
	return float64(grow * t)
}

// turn returns the angle from one direction to another.
func turn(a, b geom.Pt) float64 { return math.Atan2(a.Cross(b), a.Dot(b)) }

// Tangents returns the unit direction of a curve at points on it: at each the direction of the circle through it and
// its neighbours.
func Tangents(pts []geom.Pt) []geom.Pt {
	n := len(pts)
	if n < 2 {
		return make([]geom.Pt, n)
	}
	out := make([]geom.Pt, n)
	for i := 1; i+1 < n; i++ {
		u, v := pts[i].Sub(pts[i-1]), pts[i+1].Sub(pts[i])
		out[i] = geom.Polar(u.Angle() + float64(turn(u, v)*u.Len()/(u.Len()+v.Len())))
	}
	for _, e := range [][2]int{{0, 1}, {n - 1, n - 2}} { // a chord's direction is the mean of those at its ends
		chord := pts[max(e[0], e[1])].Sub(pts[min(e[0], e[1])])
		out[e[0]] = chord.Unit()
		if n > 2 {
			out[e[0]] = geom.Polar(chord.Angle() + turn(out[e[1]], chord))
		}
	}
	return out
}
