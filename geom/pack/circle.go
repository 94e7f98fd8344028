package pack

import (
	"math"

	"ribwright/geom"
)

// discRows returns the centres of as many discs as staggered rows bring into the box from 0, 0 to w, h (the box of the
// centres), no two nearer than d. Rows along the length and along the width are tried, and of each: full rows staggered by
// half a step, the step widened until the last disc stands at the edge (so that the rows stand closer), rows by turns one disc
// shorter, and square rows where they gain a disc; pairs of rows that stand square use up what height the staggered ones leave.
func discRows(w, h, d float64) []geom.Pt {
	if w < -hair || h < -hair || !(d > 0) {
		return nil
	}
	w, h = max(w, 0), max(h, 0)
	best := rowsAlong(w, h, d)
	if other := rowsAlong(h, w, d); len(other) > len(best) {
		best = other
		for i, p := range best {
			best[i] = geom.Pt{X: p.Y, Y: p.X}
		}
	}
	return best
}

// rowsAlong returns the best rows along x.
func rowsAlong(w, h, d float64) []geom.Pt {
	long := int(math.Floor((w+hair)/d)) + 1 // discs in a full row
	var best []geom.Pt
	try := func(long, short int, step float64) {
		if short < 1 {
			short = 0
		}
		pitch := d
		if step < 2*d {
			pitch = math.Sqrt(max(0, float64(d*d)-float64(step*step/4)))
		}
		if pitch < d/2 { // rows two apart must not meet either
			pitch = d / 2
		}
		for square := 0; square <= int(h/d)+1; square++ {
			if pts := rowsOf(h, d, long, short, square, step, pitch); len(pts) > len(best) {
				best = pts
			}
		}
	}
	for n := max(1, long-1); n <= long; n++ {
		if n > 1 {
			try(n, n-1, min(w/float64(n-1), 2*d)) // short rows between long ones
		}
		if step := w / (float64(n) - 0.5); step >= d-hair { // all rows of n, shifted by half a step
			try(n, n, min(max(step, d), 2*d))
		}
		if n == 1 && w < d {
			try(1, 1, 2*w) // zigzag
		}
	}
	return best
}

// rowsOf lays rows upward as long as the height lasts. The first "square" of those pairs whose next row would be a
// short one repeat the long row squarely above it instead.
func rowsOf(h, d float64, long, short, square int, step, pitch float64) []geom.Pt {
	var out []geom.Pt
	shifted, y := false, 0.0
	for y <= h+hair {
		n, x := long, 0.0
		if shifted {
			n, x = short, step/2
		}
		for k := 0; k < n; k++ {
			out = append(out, geom.Pt{X: x + float64(step*float64(k)), Y: min(y, h)})
		}
		if !shifted && square > 0 && step >= d-hair {
			square--
			y += d
			continue
		}
		shifted = !shifted
		y += pitch
	}
	return out
}

// layRows lays rows of discs on an empty board where the sequence holds more of one disc than such rows take, or nothing
// but this disc. It returns the sequence without them.
func (o *board) layRows(seq []int) []int {
	if o.g.edges != nil {
		return seq
	}
	count := make([]int, len(o.b.forms))
	for _, p := range seq {
		if v := o.b.parts[p]; len(v) == 1 {
			count[v[0].form]++
		}
	}
	for f, n := range count {
		lo, hi, ok := o.room(o.b.forms[f])
		if o.b.forms[f].radius == 0 || n == 0 || !ok {
			continue
		}
		at := o.b.rowPlaces(o.g, f, lo, hi)
		if n < len(at) && n < len(seq) {
			continue
		}
		var rest []int
		for _, p := range seq {
			if v := o.b.parts[p]; v[0].form == f && len(v) == 1 && len(o.items) < len(at) {
				o.put(p, v[0], at[len(o.items)].Add(lo))
				continue
			}
			rest = append(rest, p)
		}
		o.rows = o.begunWith(f, len(o.items))
		return rest
	}
	return seq
}

// rowPlaces returns the places of discs of a form in rows on a ground, from the corner of their room on.
func (b *bench) rowPlaces(g *ground, form int, lo, hi geom.Pt) []geom.Pt {
	if g.rows == nil {
		g.rows = make([][]geom.Pt, len(b.forms))
	}
	if g.rows[form] == nil {
		g.rows[form] = discRows(hi.X-lo.X, hi.Y-lo.Y, b.forms[form].w+b.job.Gap)
	}
	return g.rows[form]
}

// begunWith returns the board of its kind that holds n discs of the form in rows and nothing else, as o does now.
func (o *board) begunWith(form, n int) *board {
	k := rowsKey{o.g, form, n}
	if o.b.rows == nil {
		o.b.rows = map[rowsKey]*board{}
	}
	if o.b.rows[k] == nil {
		r := o.b.newBoard(o.g)
		for _, it := range o.items {
			r.put(it.part, variant{it.form, it.angle, it.off}, it.at)
		}
		o.b.rows[k] = r
	}
	return o.b.rows[k]
}
