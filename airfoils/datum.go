package airfoils

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ribwright/geom"
	"ribwright/geom/finding"
)

const (
	level     = 0.0005 // share of the chord within which a point stands on its line
	clearly   = 0.01   // share of the chord from which a base line stands clearly below the section
	tailLevel = 0.002  // share of the chord within which a thick trailing edge stands about the chord line
)

// directed settles which way lower ordinates are measured. Text on it is followed. Without, two columns
// that are alike are a symmetrical section. A lower side that lies above the line from leading to trailing
// edge, from the nose on and over most of the chord, is refused: the nose of such a section has no round,
// and it is nearly always a column measured down.
func (c *checker) directed(t *table) {
	switch {
	case c.down < 0:
		t.lower = turned(t.lower)
		t.form += ", lower ordinates measured down"
		if le := t.lower[0]; !c.broken && math.Abs(t.upper[0].y-le.y) > float64(level*c.scale) || !belowed(t.lower) {
			c.refuse(le.py, "section-lower-down", "Put # before that line, or put the ordinates right.",
				"the text says that lower ordinates are measured down, but then the two sides do not meet at the leading edge, or the lower side lies above it")
		}
		return
	case c.down > 0:
		t.form += ", lower ordinates measured up"
		return
	case c.broken || len(t.upper) < fewest || len(t.lower) < fewest:
		return
	}
	first := t.lower[1]
	switch above, crossed := c.above(*t); {
	case alike(*t) && math.Abs(t.upper[0].y) <= float64(level*c.scale) && above:
		t.lower = turned(t.lower)
		t.form += ", lower ordinates measured down"
		c.say(finding.Note, first.py, "section-lower-down", "upper and lower ordinates are alike: the section is taken as symmetrical, its lower ordinates as measured down",
			"If it is not symmetrical, put the ordinates right.")
	case above && !crossed:
		c.refuse(first.py, "section-lower-down",
			"If the lower ordinates are measured down, put a minus before each of them, or write a line above the table: lower ordinates measured down. If the lower side does lie so high, write, in a file: lower ordinates measured up.",
			"the lower side lies above the line from leading to trailing edge, from the nose on: it is not clear whether its ordinates are measured down")
		t.lower = turned(t.lower)
	}
}

// above reports whether the lower side lies above the line from leading to trailing edge at its first
// station aft of the nose and over most of the chord; and whether most of it lies above the upper side.
func (c *checker) above(t table) (above, crossed bool) {
	if len(t.lower) < 3 || len(t.upper) < 3 {
		return false, false
	}
	count, high, over := 0, 0, 0
	end := t.lower[len(t.lower)-1]
	le := (t.upper[0].y + t.lower[0].y) / 2
	te := (t.upper[len(t.upper)-1].y + end.y) / 2
	firstHigh := false
	for _, n := range t.lower[1 : len(t.lower)-1] {
		x := n.x / c.scale
		if !(x > 0) || n.x >= end.x {
			continue
		}
		count++
		rel := n.y - float64(le*(1-x)) - float64(te*x)
		if rel > float64(sameStation*c.scale) {
			high++
			firstHigh = firstHigh || count == 1
		}
		if u, ok := polyline(t.upper, n.x); ok && n.y > u {
			over++
		}
	}
	return firstHigh && 2*high > count, 2*over > count
}

// belowed reports whether a side has any point below the line it is measured from.
func belowed(side []node) bool {
	return slices.ContainsFunc(side, func(n node) bool { return n.y < 0 })
}

// alike reports whether both sides have the same stations and ordinates.
func alike(t table) bool {
	if len(t.upper) != len(t.lower) {
		return false
	}
	for i, u := range t.upper {
		if u.x != t.lower[i].x || u.y != t.lower[i].y {
			return false
		}
	}
	return true
}

// turned returns a side whose ordinates are measured down.
func turned(side []node) []node {
	out := make([]node, len(side))
	for i, n := range side {
		n.y = 0 - n.y
		if s, minus := strings.CutPrefix(plainSigns(n.ys), "-"); minus || n.y == 0 {
			n.ys = s
		} else {
			n.ys = "-" + n.ys
		}
		out[i] = n
	}
	return out
}

// settle says what the ordinates are measured from. A table keeps its own datum, unless the base line
// stands clearly below the section: then the section is put down onto it.
func (c *checker) settle(s *Section, t table) string {
	low, at := math.Inf(1), t.lower[0]
	for i, p := range s.Lower {
		if p.Y < low {
			low, at = p.Y, t.lower[i]
		}
	}
	for i, p := range s.Upper {
		if p.Y < low {
			low, at = p.Y, t.upper[i]
		}
	}
	if low > clearly {
		s.Upper, s.Lower = lowered(s.Upper, low), lowered(s.Lower, low)
		s.Datum = "a base line that the lower side touches, after a shift down by " + at.ys
		c.say(finding.Note, at.py, "section-base-line", "all ordinates are measured from a base line below the section: it was shifted down by "+at.ys+", so that its lowest point stands on that line",
			"Nothing is to be done: the shape and the angle are the table's.")
		return ", ordinates from a base line " + at.ys + " below the section, shifted down onto it"
	}
	le, te := s.Upper[0].Lerp(s.Lower[0], 0.5).Y, s.Upper[len(s.Upper)-1].Lerp(s.Lower[len(s.Lower)-1], 0.5).Y
	percent := func(v float64) string { return plain(round3(100*v)) + " % of the chord" }
	switch {
	case math.Abs(le) <= level && math.Abs(te) <= tailLevel:
		s.Datum = "the chord line, from leading to trailing edge"
	case math.Abs(low) <= level:
		s.Datum = "a base line that the lower side touches: leading edge at " + percent(le)
	default:
		s.Datum = "the table's own line: leading edge at " + percent(le) + ", trailing edge at " + percent(te)
	}
	return ""
}

func lowered(side []geom.Pt, by float64) []geom.Pt {
	out := make([]geom.Pt, len(side))
	for i, p := range side {
		out[i] = geom.Pt{X: p.X, Y: p.Y - by + 0}
	}
	return out
}

// remark adds notes on a table that was accepted.
func (c *checker) remark(s *Section, t table) {
	if gap := s.Upper[0].Y - s.Lower[0].Y; gap > sameStation {
		c.say(finding.Note, t.lower[0].px, "section-blunt",
			fmt.Sprintf("the leading edge has two ordinates, %s and %s: the nose is drawn as a straight cut between them", t.upper[0].ys, t.lower[0].ys),
			"If the nose is round, give the leading edge one ordinate, the same for both sides.")
	}
	if slope, foot, ok := sheared(s); ok {
		c.say(finding.Note, t.lower[0].py, "section-sheared",
			fmt.Sprintf("aft of 30 %% the lower side is straight, but rises by %.2f %% of the chord to the tail: the leading edge seems to have been moved to 0, 0", 100*slope*0.7),
			fmt.Sprintf("If the plans measure from a flat lower side, take the ordinates from the plans; or add to the upper and the lower one %s at the leading edge, %s at the trailing edge, and in proportion to the distance between: then the flat lies on its axis again.",
				c.asWritten(-foot), c.asWritten(-foot-slope)))
	}
}

// asWritten writes a share of the chord as the table would.
func (c *checker) asWritten(share float64) string {
	places := 100.0
	if c.scale == 1 {
		places = 10000
	} else if c.length {
		places = 1000
	}
	return plain(math.Round(float64(share*c.scale)*places)/places + 0)
}

// sheared reports whether the lower side aft of 30 % is a straight line that rises to the tail from below
// a leading edge at (0, 0), and returns its
// slope, and its ordinate at the leading edge's station: so a flat-bottomed section is stored in many
// collections of tables. The limits are set so that printed tables of curved sections raise no alarm.
func sheared(s *Section) (slope, foot float64, ok bool) {
	const (
		straight = 0.0003 // how far points may stand off the line
		steep    = 0.005  // the least slope
		tail     = 0.003  // how near 0 the line ends
	)
	if math.Abs(s.Upper[0].Y) > level || math.Abs(s.Lower[0].Y) > level {
		return 0, 0, false
	}
	var n, sx, sy, sxx, sxy float64
	for _, p := range s.Lower {
		if p.X >= 0.3-sameStation {
			n, sx, sy = n+1, sx+p.X, sy+p.Y
			sxx, sxy = sxx+float64(p.X*p.X), sxy+float64(p.X*p.Y)
		}
	}
	det := float64(n*sxx) - float64(sx*sx)
	if n < 4 || !(det > 0) {
		return 0, 0, false
	}
	slope = (float64(n*sxy) - float64(sx*sy)) / det
	foot = (sy - float64(slope*sx)) / n
	for _, p := range s.Lower {
		if p.X >= 0.3-sameStation && math.Abs(p.Y-foot-float64(slope*p.X)) > straight {
			return 0, 0, false
		}
	}
	return slope, foot, slope > steep && math.Abs(foot+slope) < tail
}
