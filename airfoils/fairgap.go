package airfoils

import (
	"math"

	"ribwright/geom"
)

const (
	asPrinted = 0.0015 // share of the chord within which a station is the customary one
	rareAt    = 25.0   // percent: the customary station that many tables leave out
	customed  = 13     // customary stations that a table must have to be one of that custom
)

// lost returns the points that are missing from a side's customary row of stations, both sides' where
// both lack it, with the ordinate of the curve. A table with stations of its own has no such row.
func (s Section) lost(c chain, step float64) []Suspect {
	if len(c) < 2*fewest {
		return nil
	}
	var out []Suspect
	for side, pts := range [][]geom.Pt{UpperSide: s.Upper, LowerSide: s.Lower} {
		at, index, ok := missing(pts)
		if !ok {
			continue
		}
		t := math.Sqrt(at)
		if Side(side) == LowerSide {
			t = -t
		}
		y, _ := c.predict(t, step)
		step := step / 100
		out = append(out, Suspect{Side: Side(side), Index: index, Station: at,
			Likely: float64(math.Round(y/100/step)*step) + 0, Score: certain, Cause: LostPoint})
	}
	return out
}

// missing finds the one customary station that a side lacks, and the index of the point after it.
func missing(pts []geom.Pt) (at float64, index int, ok bool) {
	have := 0
	for _, c := range customary {
		if c == rareAt {
			continue
		}
		found := false
		for _, p := range pts {
			found = found || math.Abs(p.X-c/100) <= asPrinted
		}
		switch {
		case found:
			have++
		case at > 0:
			return 0, 0, false
		default:
			at = c / 100
		}
	}
	for index < len(pts) && pts[index].X <= at {
		index++
	}
	// A table with more stations than the custom has its own way of leaving some out.
	return at, index, at > 0 && at < 1 && have >= customed && len(pts) <= len(customary)+1
}
