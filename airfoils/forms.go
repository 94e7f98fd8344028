package airfoils

import (
	"fmt"
	"math"

	"ribwright/geom/finding"
)

// three reads station, upper and lower ordinate, nose to tail.
func (c *checker) three(rows []row, lay layout) table {
	var t table
	for _, r := range c.onceRow(rows) {
		t.upper = append(t.upper, point(r.cells[lay.station], r.cells[lay.upper]))
		t.lower = append(t.lower, point(r.cells[lay.station], r.cells[lay.lower]))
	}
	unit, ok := c.setScale(largest(t.upper))
	t.form = fmt.Sprintf("three columns (station, upper, lower), %s, %d stations", unit, len(t.upper))
	if lay.left > 0 {
		t.form = fmt.Sprintf("station, upper and lower out of %d columns, %s, %d stations", lay.left+3, unit, len(t.upper))
	}
	if ok {
		c.directed(&t)
		c.checkThree(t)
	}
	return t
}

// checkThree checks a table whose sides have their stations in common.
func (c *checker) checkThree(t table) {
	last := t.upper[len(t.upper)-1]
	if !c.broken {
		c.few(last.px, "the table", len(t.upper))
	}
	c.start(t.upper[0])
	c.stations(t.upper, false)
	c.ordinates(t.upper)
	c.ordinates(t.lower)
	var bad []node
	closed := c.closedFrom(t.upper, t.lower, 1)
	for i, l := range t.lower {
		u, ends := t.upper[i], l.x <= 0 || i >= closed || i == len(t.lower)-1
		if u.y < l.y || u.y == l.y && !ends {
			bad = append(bad, l)
		}
	}
	c.sayCrossed(bad, len(t.lower))
}

// isCounts reports whether the first of the rows of two columns is a line of point counts: two whole
// numbers, and then either as many rows, or a row at the nose where a continuous table would still be at
// the tail.
func isCounts(rows []row) bool {
	if len(rows) < 2 {
		return false
	}
	a, b := rows[0].cells[0].v, rows[0].cells[1].v
	if a < 2 || b < 2 || a != math.Trunc(a) || b != math.Trunc(b) || a > most || b > most {
		return false
	}
	chord := 0.0
	for _, r := range rows[1:] {
		chord = math.Max(chord, r.cells[0].v)
	}
	return a+b == float64(len(rows)-1) || rows[1].cells[0].v < chord/2
}

// twoSurfaces reads the upper side and then the lower one, each nose to tail, after a line of point counts.
func (c *checker) twoSurfaces(rows []row, lay layout) table {
	var all []node
	for _, r := range rows[1:] {
		all = append(all, point(r.cells[lay.x], r.cells[lay.y]))
	}
	far := largest(all)
	unit, ok := c.setScale(far)
	if !ok {
		return table{form: "two columns, upper side and then lower side, " + unit}
	}
	n, m := int(rows[0].cells[0].v), int(rows[0].cells[1].v)
	split := n
	// The lower side begins where the stations fall back to the nose.
	for i := 1; i < len(all); i++ {
		if all[i-1].x > c.scale/2 && all[i].x < c.scale/4 {
			split = i
			break
		}
	}
	if !c.broken && (split != n || len(all) != n+m) {
		got := fmt.Sprintf("%d and %d", split, len(all)-split)
		if split >= len(all) {
			got = fmt.Sprint(len(all)) + " in all"
		}
		c.refuse(rows[0].cells[0].at, "section-counts", "Put the counts right, or look for lines missing or doubled.",
			"the counts say %d upper and %d lower points, but the file holds %s", n, m, got)
	}
	split = min(split, len(all))
	t := table{upper: all[:split], lower: all[split:]}
	t.form = "two columns, upper side and then lower side, " + unit + ", " + counted(len(t.upper), len(t.lower))
	if len(t.upper) == 0 || len(t.lower) == 0 {
		return t
	}
	c.directed(&t)
	c.start(t.upper[0])
	c.start(t.lower[0])
	c.checkSides(t, far)
	return t
}

// continuous reads the points from the trailing edge over the upper side and the nose to the lower side.
func (c *checker) continuous(rows []row, lay layout) table {
	var all []node
	for _, r := range rows {
		all = append(all, point(r.cells[lay.x], r.cells[lay.y]))
	}
	all = c.once(all)
	far := largest(all)
	unit, ok := c.setScale(far)
	t := table{form: "two columns, continuous from the trailing edge over the upper side, " + unit}
	if !ok {
		return t
	}
	if all[0].x < c.scale/2 {
		c.refuse(all[0].px, "section-start",
			"Begin with the trailing edge and go over the upper side; or put a line of two point counts above an upper and a lower side that run nose to tail, or a heading above each: upper, lower.",
			"a table of two columns begins at the trailing edge, but this one begins at station %s", all[0].xs)
		return t
	}
	k := c.foremost(all)
	for i := k; i >= 0; i-- {
		t.upper = append(t.upper, all[i])
	}
	t.lower = append(t.lower, all[k:]...)
	if nose := all[k]; !c.broken && (nose.x > float64(5*atNose*c.scale) || nose.x < -float64(overhang*c.scale)) {
		c.refuse(nose.px, "section-start", "The table must pass through the leading edge, station 0.",
			"the table's foremost point is at station %s, not at the leading edge", nose.xs)
	}
	t.form += ", " + counted(len(t.upper), len(t.lower))
	if closes(t.lower, all[0]) {
		t.lower = append(t.lower, all[0])
		t.form += ", the trailing edge given once"
	}
	c.checkSides(t, far)
	if above, crossed := c.above(t); above && !crossed && !c.failed() {
		c.say(finding.Warning, t.lower[1].py, "section-lower-down", "the lower side lies above the line from leading to trailing edge, from the nose on",
			"If its ordinates are measured down, put a minus before each of them.")
	}
	return t
}

// foremost returns the index of the leading edge: the point at (0, 0), or else the foremost one. On a
// cambered section from equations the upper side hangs over the point (0, 0), which is its leading edge.
func (c *checker) foremost(all []node) int {
	const exact = 1e-6
	k := 0
	for i, n := range all {
		if math.Abs(n.x) <= float64(exact*c.scale) && math.Abs(n.y) <= float64(exact*c.scale) {
			return i
		}
		if n.x < all[k].x {
			k = i
		}
	}
	return k
}

// closes reports whether the lower side lacks its last point because the table gave the trailing edge
// once, as its first point: then the step to it goes on aft, and is not much longer than the step before.
func closes(lower []node, tail node) bool {
	n := len(lower)
	if n < 2 {
		return false
	}
	a, b := lower[n-2], lower[n-1]
	dx, dy := tail.x-b.x, tail.y-b.y
	return dx > math.Abs(dy) && dx <= 1.5*math.Hypot(b.x-a.x, b.y-a.y)
}

// checkSides checks sides that have stations of their own.
func (c *checker) checkSides(t table, far node) {
	for _, s := range []struct {
		what string
		side []node
	}{{"upper", t.upper}, {"lower", t.lower}} {
		last := s.side[len(s.side)-1]
		if !c.broken {
			c.few(last.px, "the "+s.what+" side", len(s.side))
		}
		c.end(s.what, last, far)
		c.stations(s.side, true)
		c.ordinates(s.side)
	}
	before := len(c.found)
	c.crossed(t.upper, t.lower)
	if len(c.found) == before && !c.failed() {
		c.nose(t.upper, t.lower)
	}
}

func largest(side []node) node {
	out := side[0]
	for _, n := range side {
		if n.x > out.x {
			out = n
		}
	}
	return out
}
