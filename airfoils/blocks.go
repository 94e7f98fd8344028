package airfoils

import (
	"fmt"
	"slices"

	"ribwright/geom/finding"
)

// parted returns the rows of two columns that stand in two blocks, an upper side and a lower one: under
// headings, or, where both run nose to tail, with an empty line between. A continuous table under two
// headings is none.
func parted(rows []row, lay layout) (up, low []row, how string, ok bool) {
	x := func(r row) float64 { return r.cells[lay.x].v }
	headed, far := true, 0.0
	for _, r := range rows {
		headed = headed && r.side != other
		far = max(far, x(r))
		if r.side == upper {
			up = append(up, r)
		} else {
			low = append(low, r)
		}
	}
	if headed && len(up) > 1 && len(low) > 1 {
		round := rows[0].side == upper && x(up[0]) > x(up[len(up)-1]) && x(low[0]) < x(low[len(low)-1])
		return up, low, "under headings", !round
	}
	split := 0
	for i := 1; i < len(rows); i++ {
		if x(rows[i-1]) > far/2 && x(rows[i]) < far/4 {
			if split > 0 || !rows[i].gap {
				return nil, nil, "", false
			}
			split = i
		}
	}
	if split == 0 || x(rows[0]) > far/20 {
		return nil, nil, "", false
	}
	return rows[:split], rows[split:], "parted by an empty line", true
}

// blocks reads an upper and a lower side that have stations of their own.
func (c *checker) blocks(up, low []node, what string) table {
	for _, side := range [][]node{up, low} {
		if side[0].x > side[len(side)-1].x {
			slices.Reverse(side)
		}
	}
	far := largest(append(slices.Clone(up), low...))
	unit, ok := c.setScale(far)
	t := table{upper: up, lower: low}
	t.form = what + ", " + unit + ", " + counted(len(up), len(low))
	if !ok {
		return t
	}
	c.directed(&t)
	c.start(t.upper[0])
	c.start(t.lower[0])
	c.checkSides(t, far)
	return t
}

// points returns the rows' points, from the columns x and y.
func points(rows []row, x, y int) []node {
	var out []node
	for _, r := range rows {
		out = append(out, point(r.cells[x], r.cells[y]))
	}
	return out
}

// once takes the leading edge of a continuous table, and its first or last point, one time only where it
// stands twice; and leaves out a first point that is given again to close the round.
func (c *checker) once(all []node) []node {
	nose := all[0].x
	for _, n := range all {
		nose = min(nose, n.x)
	}
	var out []node
	for i, n := range all {
		if i > 0 && n.x == all[i-1].x && n.y == all[i-1].y && (i == 1 || i == len(all)-1 || n.x == nose || n.x == 0 && n.y == 0) {
			c.again(n)
			continue
		}
		out = append(out, n)
	}
	if k := len(out) - 1; k > 3 && out[k].x == out[0].x && out[k].y == out[0].y && out[k-1].x == out[0].x {
		c.again(out[k])
		out = out[:k]
	}
	return out
}

// onceRow takes the first and the last row of a table one time only where it stands twice.
func (c *checker) onceRow(rows []row) []row {
	var out []row
	for i, r := range rows {
		if i > 0 && (i == 1 || i == len(rows)-1) && slices.EqualFunc(r.cells, rows[i-1].cells, func(a, b cell) bool { return a.v == b.v }) {
			c.again(point(r.cells[0], r.cells[1]))
			continue
		}
		out = append(out, r)
	}
	return out
}

func (c *checker) again(n node) {
	c.say(finding.Note, n.px, "section-doubled", fmt.Sprintf("station %s stands twice with the same ordinates: it was taken once", n.xs), "Strike one of the two lines out.")
}
