package airfoils

import (
	"fmt"
	"math"
	"sort"
	"strconv"
	"unicode"
	"unicode/utf8"

	"ribwright/geom"
	"ribwright/geom/finding"
)

const (
	fewest   = 5     // stations of a side; with fewer no curve is known
	most     = 4000  // points of a table: what is read in a breath
	noseZone = 0.01  // share of the chord where an upper side may hang over its leading edge
	overhang = 0.02  // share of the chord that a nose may reach ahead of station 0
	atNose   = 0.001 // share of the chord within which a side begins at the leading edge
	atTail   = 0.01  // share of the chord within which a side ends at the trailing edge
)

// place is where a number stands: in a file, or under a key of the rib file.
type place struct {
	line, column int
	key          string
}

// node is one point of a table as it stands there.
type node struct {
	x, y   float64
	xs, ys string // as written
	px, py place
}

// checker gathers what is wrong with one table.
type checker struct {
	file     string
	scale    float64 // the chord, in the table's own unit
	length   bool    // the table is in lengths
	broken   bool    // a row could not be read: what hangs on its place is not checked
	unit     string  // the unit that the text names, "percent", "inches", "mm" or "cm"; empty where it names none
	unitAt   place
	unitFirm bool // a heading of the columns, or marks at the numbers, name it
	down     int  // the text says that lower ordinates are measured down, -1, or up, 1
	found    []finding.Finding
}

func (c *checker) say(s finding.Severity, at place, code, message, fix string) {
	f := finding.Finding{Severity: s, Code: code, Message: sentence(message), Fix: fix, Key: at.key}
	if at.key == "" {
		f.File, f.Line, f.Column = c.file, at.line, at.column
	}
	c.found = append(c.found, f)
}

// sentence begins a message with a capital and ends it with a full stop.
func sentence(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:] + "."
}

func (c *checker) refuse(at place, code, fix, message string, args ...any) {
	c.say(finding.Error, at, code, fmt.Sprintf(message, args...), fix)
}

func (c *checker) failed() bool { return finding.HasError(c.found) }

// setScale takes the chord from the largest station: 1, 100, or a length. It returns what the unit is
// called, and is not ok without a chord.
func (c *checker) setScale(largest node) (unit string, ok bool) {
	near := func(v, of float64) bool { return math.Abs(v-of) <= of/100 }
	x, full := largest.x, 0.0
	for _, f := range [...]float64{1, 100} {
		if near(x, f) {
			full = f
		}
	}
	if !(x > 0) {
		c.refuse(largest.px, "section-scale", "Give the stations aft of the leading edge: in percent, in shares of the chord, or as lengths.",
			"no station lies aft of the leading edge")
		return "no chord", false
	}
	if !c.unitAgrees(full, largest.xs) {
		return "no chord", false
	}
	switch {
	case c.unitFirm && c.unit != "percent":
	case full == 1:
		c.scale = 1
		return "unit chord", true
	case full == 100:
		c.scale = 100
		return "percent of chord", true
	}
	c.scale, c.length = x, true
	if c.unit != "" {
		return c.unit + " on a chord of " + largest.xs, true
	}
	for _, full := range []float64{1, 100} {
		if math.Abs(x-full) <= full/10 && !c.broken {
			c.say(finding.Warning, largest.px, "section-scale",
				"the last station is "+largest.xs+": the table is taken for lengths on a chord of "+largest.xs+", not for percent or shares of the chord",
				"If it is not in lengths, end it with the trailing edge, station "+plain(full)+".")
		}
	}
	return "lengths on a chord of " + largest.xs, true
}

// stations checks the order of one side, nose to tail. With loose set, points near the nose may hang over.
func (c *checker) stations(side []node, loose bool) {
	for i := 1; i < len(side); i++ {
		a, b := side[i-1], side[i]
		dx, same := (b.x-a.x)/c.scale, math.Abs(b.y-a.y)/c.scale <= sameStation
		switch {
		case math.Abs(dx) <= sameStation && same, !loose && math.Abs(dx) <= sameStation:
			c.refuse(later(a, b).px, "section-doubled", "Strike one of the two lines out, or put its station right.",
				"station %s stands twice", later(a, b).xs)
		case loose && a.x < float64(noseZone*c.scale) && b.x < float64(noseZone*c.scale):
		case math.Abs(dx) <= sameStation:
			c.refuse(later(a, b).px, "section-doubled", "Strike one of the two lines out, or put its station right.",
				"station %s stands twice on the same side", later(a, b).xs)
		case dx < 0 && later(a, b) == b:
			c.refuse(b.px, "section-order", "Stations run from the leading edge to the trailing edge: put the line in its place, or its station right.",
				"station %s stands after station %s", b.xs, a.xs)
		case dx < 0:
			c.refuse(a.px, "section-order", "The upper side runs from the trailing edge to the nose: put the line in its place, or its station right.",
				"station %s stands after station %s", a.xs, b.xs)
		}
	}
}

// later returns the one of two points that stands further down the table.
func later(a, b node) node {
	if a.px.line > b.px.line {
		return a
	}
	return b
}

// ordinates refuses ordinates that are longer than the chord.
func (c *checker) ordinates(side []node) {
	for _, n := range side {
		if math.Abs(n.y) > c.scale {
			c.refuse(n.py, "section-ordinate", "Look for a lost decimal point, or for stations and ordinates in different units.",
				"the ordinate %s at station %s is larger than the chord, %s", n.ys, n.xs, plain(c.scale))
		}
	}
}

// few refuses a side with too few stations; n counts those that could not be read, too.
func (c *checker) few(at place, what string, n int) {
	if n < fewest {
		c.refuse(at, "section-few", "Give all the stations that the plans print; a curve needs "+strconv.Itoa(fewest)+" at the very least.",
			"%s has %d stations: too few", what, n)
	}
}

// start refuses a side that does not begin at the leading edge.
func (c *checker) start(first node) {
	if !c.broken && math.Abs(first.x) > float64(atNose*c.scale) {
		c.refuse(first.px, "section-start", "Begin with the leading edge, station 0.", "the table begins at station %s, not at the leading edge", first.xs)
	}
}

// end refuses a side that does not reach the trailing edge.
func (c *checker) end(what string, last node, largest node) {
	if !c.broken && largest.x-last.x > float64(atTail*c.scale) {
		c.refuse(last.px, "section-end", "Let both sides end at the trailing edge, station "+largest.xs+".",
			"the %s side ends at station %s, before the trailing edge", what, last.xs)
	}
}

// crossed refuses points where the upper side does not stand above the lower one. In the tail's end they may meet.
func (c *checker) crossed(upper, lower []node) {
	if !rising(upper) || !rising(lower) || len(upper) < 2 || len(lower) < 2 {
		return
	}
	tail := math.Min(upper[len(upper)-1].x, lower[len(lower)-1].x)
	var bad []node
	tried := 0
	look := func(side, other []node, sign float64) {
		closed := c.closedFrom(side, other, sign)
		for i, n := range side[1:] {
			y, ok := polyline(other, n.x)
			if !ok || n.x <= 0 || n.x > tail {
				continue
			}
			tried++
			gap := sign * (n.y - y)
			ends := n.x >= tail-float64(sameStation*c.scale) || i == len(side)-2
			if i+1 < closed && (gap < 0 && !(ends && gap > -float64(sameStation*c.scale)) || gap == 0 && !ends) {
				bad = append(bad, n)
			}
		}
	}
	look(upper, lower, 1)
	look(lower, upper, -1)
	c.sayCrossed(bad, tried)
}

// sayCrossed makes one finding where the whole table is upside down, and one for each station otherwise.
func (c *checker) sayCrossed(bad []node, tried int) {
	sort.SliceStable(bad, func(i, j int) bool { return bad[i].py.line < bad[j].py.line })
	said := map[float64]bool{}
	if len(bad) > 2 && len(bad) > tried*2/3 {
		c.refuse(bad[0].py, "section-crossed", "Change upper and lower side over. If the plans measure down from a line above the section, put a minus before every ordinate.", "the upper side lies below the lower one along the whole table")
		return
	}
	for _, n := range bad {
		if said[n.x] {
			continue
		}
		said[n.x] = true
		c.refuse(n.py, "section-crossed", "Look for a lost sign, or for a digit miscopied.",
			"at station %s the upper side does not lie above the lower one", n.xs)
	}
}

// rising reports whether the stations of a side rise aft of its nose.
func rising(side []node) bool {
	scale := 0.0
	for _, n := range side {
		scale = math.Max(scale, n.x)
	}
	for i := 1; i < len(side); i++ {
		if !(side[i].x > side[i-1].x) && math.Max(side[i].x, side[i-1].x) >= float64(noseZone*scale) {
			return false
		}
	}
	return true
}

// polyline returns the ordinate of the straight lines through a side at station x, its last crossing.
func polyline(side []node, x float64) (float64, bool) {
	for i := len(side) - 1; i > 0; i-- {
		a, b := side[i-1], side[i]
		switch {
		case a.x > x || b.x < x:
		case b.x == a.x:
			return b.y, true
		default:
			return a.y + float64((b.y-a.y)*((x-a.x)/(b.x-a.x))), true
		}
	}
	return 0, false
}

// nose refuses points near the leading edge that do not follow each other round it: lines between them
// that cross, meet or turn straight back.
func (c *checker) nose(upper, lower []node) {
	var round []node
	for i := len(upper) - 1; i > 0; i-- {
		if upper[i].x < float64(noseZone*c.scale) || upper[i-1].x < float64(noseZone*c.scale) {
			round = append(round, upper[i])
		}
	}
	round = append(round, upper[0])
	for i := range lower {
		if i == 0 && lower[0].x == upper[0].x && lower[0].y == upper[0].y {
			continue
		}
		if lower[i].x < float64(noseZone*c.scale) || i > 0 && lower[i-1].x < float64(noseZone*c.scale) {
			round = append(round, lower[i])
		}
	}
	at := c.share(round)
	for i := 1; i < len(round); i++ {
		for k := 1; k < i; k++ {
			a, b, p, q := at[k-1], at[k], at[i-1], at[i]
			if k == i-1 && !turnsBack(a, b, q) || k < i-1 && !meet(a, b, p, q) {
				continue
			}
			n := later(round[i], round[i-1])
			c.refuse(n.px, "section-crossed", "Look for points out of order, or for a lost sign.",
				"near the leading edge the points do not follow each other round the nose, at station %s", n.xs)
			return
		}
	}
}

// turnsBack reports whether a–b–c goes back along itself.
func turnsBack(a, b, c geom.Pt) bool {
	u, v := b.Sub(a), c.Sub(b)
	return u.Dot(v) < 0 && math.Abs(u.Cross(v)) <= float64(1e-6*float64(u.Len()*v.Len()))
}

// meet reports whether the segments a–b and p–q have a point in common.
func meet(a, b, p, q geom.Pt) bool {
	apart := func(a, b, p, q float64) bool { return max(a, b) < min(p, q) || max(p, q) < min(a, b) }
	if apart(a.X, b.X, p.X, q.X) || apart(a.Y, b.Y, p.Y, q.Y) {
		return false
	}
	ab, pq := b.Sub(a), q.Sub(p)
	return float64(ab.Cross(p.Sub(a))*ab.Cross(q.Sub(a))) <= 0 && float64(pq.Cross(a.Sub(p))*pq.Cross(b.Sub(p))) <= 0
}

// share returns a side's points in shares of the chord.
func (c *checker) share(side []node) []geom.Pt {
	out := make([]geom.Pt, len(side))
	for i, n := range side {
		out[i] = geom.Pt{X: n.x/c.scale + 0, Y: n.y/c.scale + 0}
	}
	return out
}

// plain writes a number as short as it can be told.
func plain(v float64) string { return strconv.FormatFloat(v+0, 'g', -1, 64) }
