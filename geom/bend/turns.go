package bend

import (
	"math"
	"sort"

	"ribwright/geom"
)

// turns is how the direction of a curve changes along it. The curve is given by points on it; between two
// of them it runs, half-way, in the direction of their chord.
type turns struct {
	pts   []geom.Pt
	arc   []float64 // of the points
	mid   []float64 // arc of the chords' middles
	angle []float64 // direction there, less the corners passed
}

// corner is the turn, radians, above which a point of a curve is a corner, such as the step where a skin ends.
const corner = 0.2

func newTurns(pts []geom.Pt) turns {
	t := turns{pts: pts, arc: make([]float64, len(pts))}
	for i := 1; i < len(pts); i++ {
		d := pts[i].Sub(pts[i-1])
		t.arc[i] = t.arc[i-1] + d.Len()
		t.mid = append(t.mid, (t.arc[i-1]+t.arc[i])/2)
		a := 0.0
		if i > 1 {
			before := pts[i-1].Sub(pts[i-2])
			if a = math.Atan2(before.Cross(d), before.Dot(d)); math.Abs(a) > corner {
				a = 0
			}
			a += t.angle[i-2]
		}
		t.angle = append(t.angle, a)
	}
	return t
}

// at returns the direction at an arc length; beyond the outermost chords' middles it stays.
func (t turns) at(s float64) float64 {
	i := sort.SearchFloat64s(t.mid, s)
	switch {
	case i == 0:
		return t.angle[0]
	case i == len(t.mid):
		return t.angle[i-1]
	}
	a, b := t.mid[i-1], t.mid[i]
	return t.angle[i-1] + float64((t.angle[i]-t.angle[i-1])*(s-a)/(b-a))
}

// sweep is the angle, radians, over which the curvature is taken when it is held against a radius. The points are
// right to a few thousandths of a millimetre only where two stretches of a contour were joined; over this angle
// such a hair is smoothed out, and a curve whose radius changes like a section's is not.
const sweep = 1.0 / 16

// behind returns the arc length and the station behind which the curve is nowhere tighter than a radius: its
// start where it is nowhere.
func (t turns) behind(radius float64) (arc, station float64) {
	if len(t.mid) == 0 {
		return 0, 0
	}
	w := float64(radius * sweep)
	first, last := t.mid[0], t.mid[len(t.mid)-1]
	over := func(s float64) float64 { // by how much the curvature is over the limit
		a, b := math.Max(s-float64(w/2), first), math.Min(s+float64(w/2), last)
		if b <= a {
			return -1
		}
		return math.Abs(t.at(b)-t.at(a))/(b-a) - 1/radius
	}
	for i := len(t.arc) - 1; i >= 0; i-- {
		o := over(t.arc[i])
		if o <= 0 {
			continue
		}
		if i == len(t.arc)-1 {
			return t.arc[i], t.pts[i].X
		}
		next := over(t.arc[i+1])
		share := o / (o - next)
		return t.arc[i] + float64((t.arc[i+1]-t.arc[i])*share), t.pts[i].Lerp(t.pts[i+1], share).X
	}
	return 0, t.pts[0].X
}
