package airfoils

import (
	"math"
	"slices"
	"strings"

	"ribwright/geom/finding"
)

// closing is the share of the chord aft of which the sides of a fine table may meet before the trailing edge.
const closing = 0.95

// closedFrom returns the index of the first point of a side from which on, as far as its figures go, it has
// met the other side: the tail of a fine table, where a thickness below the last place is written as none.
// A side that meets the other at its end alone, or nowhere, gives its length. The sign is 1 for the upper side.
func (c *checker) closedFrom(side, other []node, sign float64) int {
	out, n := len(side), len(side)
	if n < 2 || len(other) < 2 || !rising(side) || !rising(other) {
		return n
	}
	slack := lastPlace(side) / 2 // a point between two of the other side may cross by rounding
	if side[n-2].px == other[len(other)-2].px {
		slack = 0
	}
	for i := n - 1; i > 0 && side[i].x >= float64(closing*c.scale); i-- {
		y, ok := polyline(other, side[i].x)
		if i == n-1 {
			y, ok = other[len(other)-1].y, math.Abs(other[len(other)-1].x-side[i].x) <= float64(sameStation*c.scale)
		}
		if gap := float64(sign * (side[i].y - y)); !ok || math.Abs(gap) > math.Max(slack, float64(sameStation*c.scale)) {
			break
		}
		out = i
	}
	if out >= n-1 {
		return n
	}
	return out
}

// lastPlace is the value of the last decimal place that a side's ordinates are written to, 0 for fractions.
func lastPlace(side []node) float64 {
	most := 0
	for _, n := range side {
		if strings.Contains(n.ys, "/") {
			return 0
		}
		_, after, _ := strings.Cut(strings.ReplaceAll(n.ys, ",", "."), ".")
		most = max(most, len(after))
	}
	if most > 9 {
		return 0
	}
	return math.Pow10(-most)
}

// close leaves out the points of a closed tail between which there is no thickness, but for the trailing edge:
// curves through them would cross each other.
func (c *checker) close(t table) table {
	u, l := c.closedFrom(t.upper, t.lower, 1), c.closedFrom(t.lower, t.upper, -1)
	if u == len(t.upper) && l == len(t.lower) {
		return t
	}
	cut := func(side []node, from int) []node {
		if from == len(side) {
			return side
		}
		return append(slices.Clone(side[:from]), side[len(side)-1])
	}
	at := t.upper[min(u, len(t.upper)-1)]
	if l < len(t.lower) && (u == len(t.upper) || t.lower[l].x < at.x) {
		at = t.lower[l]
	}
	c.say(finding.Note, at.py, "section-tail-closed", "from station "+at.xs+" aft upper and lower ordinate are the same: the sides are drawn to meet at the trailing edge, without these points",
		"Nothing is to be done, unless the tail should be open.")
	t.upper, t.lower = cut(t.upper, u), cut(t.lower, l)
	return t
}
