package shop

import (
	"math"

	"ribwright/geom"
)

// slot is one window over the drawing. The window is what its page shows; the core is what it must show: up
// to the match lines, which lie in the middle of what two windows share. Both are in rib axes.
type slot struct {
	strip, index int // the strip it stands in, and its place there, from the top or the left
	window, core geom.Box
}

// cover lays windows of one size over ink. It works in strips: the windows of a strip stand in one column
// (or, where flip is set, in one row), and each strip has its own place along itself. For a given place of
// the strips no arrangement needs fewer windows: each strip is filled greedily from the first ink on.
type cover struct {
	*ground         // flipped, where flip is set
	w, h    float64 // of a window, across and along the strips
	overlap float64
	flip    bool
}

// lineEdge is how far a line's ink may reach beyond its middle, mm.
const lineEdge = wide / 2

func newCover(g *ground, w, h, overlap float64, flip bool) cover {
	if flip {
		w, h = h, w
	}
	return cover{ground: g, w: w, h: h, overlap: overlap, flip: flip}
}

// pitch returns the distance of two strips.
func (c *cover) pitch() float64 { return c.w - c.overlap }

// strips returns how many strips are needed if the first begins the shift before the ink.
func (c *cover) strips(shift float64) int {
	return max(1, int(math.Ceil((c.box.W()+shift-c.overlap)/c.pitch()-1e-9)))
}

// slab returns what of the drawing belongs to a strip, between the match lines.
func (c *cover) slab(k, n int, shift float64) (lo, hi float64) {
	lo = c.box.Min.X - shift + float64(float64(k)*c.pitch())
	hi = lo + c.w
	if k > 0 {
		lo += float64(c.overlap / 2)
	}
	if k < n-1 {
		hi -= float64(c.overlap / 2)
	}
	return lo, hi
}

// least returns how many windows the strips need at least, those of which that is not sure, and what it says of these.
func (c *cover) least(shift float64) (all int, unsure []int, of []int) {
	n := c.strips(shift)
	for k := range n {
		lo, hi := c.slab(k, n, shift)
		m, sure := c.bits.windows(lo, hi, c.h, c.overlap)
		if all += m; !sure {
			unsure, of = append(unsure, k), append(of, m)
		}
	}
	return all, unsure, of
}

// count returns how many windows the strips need; it gives up above the most.
func (c *cover) count(shift float64, most int) (int, bool) {
	all, unsure, of := c.least(shift)
	for i, k := range unsure {
		if all > most {
			break
		}
		all += len(c.column(k, c.strips(shift), shift)) - of[i]
	}
	return all, all <= most
}

// tops returns the upper edges of the fewest windows that each strip needs, from the highest ink down.
func (c *cover) tops(shift float64) [][]float64 {
	out := make([][]float64, c.strips(shift))
	for k := range out {
		out[k] = c.column(k, len(out), shift)
	}
	return out
}

// column returns the upper edges of the windows of one strip of n.
func (c *cover) column(k, n int, shift float64) []float64 {
	var out []float64
	lo, hi := c.slab(k, n, shift)
	below := math.Inf(1) // ink under this height is not covered yet
	for {
		y := c.below(lo, hi, below)
		if math.IsInf(y, -1) {
			return out
		}
		top := y + lineEdge
		if m := len(out); m > 0 {
			if bottom := out[m-1] - c.h; top >= bottom {
				top = bottom + c.overlap // the ink goes on: the windows join
			}
		}
		out = append(out, top)
		below = top - c.h + lineEdge
	}
}

// slots returns the windows for a place of the strips. What the windows are larger than the ink stands
// above it by the share given, and below it by the rest. Where windows in even rows are not more, they stand so.
func (c *cover) slots(shift, share float64) []slot {
	tops := c.tops(shift)
	if even := c.even(shift, share); windows(even) <= windows(tops) {
		tops = even
	} else {
		c.settle(tops, shift, share)
	}
	var out []slot
	n := len(tops)
	for k, column := range tops {
		lo, hi := c.slab(k, n, shift)
		x := c.box.Min.X - shift + float64(float64(k)*c.pitch())
		for i, top := range column {
			s := slot{strip: k, index: i,
				window: geom.NewBox(geom.Pt{X: x, Y: top - c.h}, geom.Pt{X: x + c.w, Y: top}),
				core:   geom.NewBox(geom.Pt{X: lo, Y: top - c.h}, geom.Pt{X: hi, Y: top})}
			if i > 0 && c.join(column[i-1], top) {
				s.core.Max.Y = top - float64(c.overlap/2)
			}
			if i < len(column)-1 && c.join(top, column[i+1]) {
				s.core.Min.Y = top - c.h + float64(c.overlap/2)
			}
			out = append(out, s)
		}
	}
	if c.flip {
		for i := range out {
			out[i].window, out[i].core = flipped(out[i].window), flipped(out[i].core)
		}
	}
	return out
}

// join reports whether a window and the next one below it share the overlap; else ink ends between them.
func (c *cover) join(top, next float64) bool { return math.Abs(top-c.h+c.overlap-next) < 1e-6 }

func flipped(b geom.Box) geom.Box {
	return geom.NewBox(geom.Pt{X: b.Min.Y, Y: b.Min.X}, geom.Pt{X: b.Max.Y, Y: b.Max.X})
}

func windows(tops [][]float64) int {
	n := 0
	for _, c := range tops {
		n += len(c)
	}
	return n
}

// even returns windows in rows that run through all strips, those without ink left out.
func (c *cover) even(shift, share float64) [][]float64 {
	step := c.h - c.overlap
	rows := max(1, int(math.Ceil((c.box.H()-c.overlap)/step-1e-9)))
	slack := float64(float64(rows)*step) + c.overlap - c.box.H()
	n := c.strips(shift)
	out := make([][]float64, n)
	for r := range rows {
		top := c.box.Max.Y + float64(slack*share) - float64(float64(r)*step)
		high, low := top, top-c.h
		if r > 0 {
			high -= float64(c.overlap / 2)
		}
		if r < rows-1 {
			low += float64(c.overlap / 2)
		}
		for k := range out {
			if lo, hi := c.slab(k, n, shift); c.below(lo, hi, high) >= low {
				out[k] = append(out[k], top)
			}
		}
	}
	return out
}

// settle moves every run of windows that join up by a share of what it is longer than its ink.
func (c *cover) settle(tops [][]float64, shift, share float64) {
	n := len(tops)
	for k, column := range tops {
		lo, hi := c.slab(k, n, shift)
		for from := 0; from < len(column); {
			to := from
			for to+1 < len(column) && c.join(column[to], column[to+1]) {
				to++
			}
			floor := column[to] - c.h
			up := share * (c.above(lo, hi, floor+lineEdge) - lineEdge - floor)
			if from > 0 { // it must stay apart from the windows above
				up = math.Max(0, math.Min(up, column[from-1]-c.h-column[from]-1))
			}
			for i := from; i <= to; i++ {
				column[i] += up
			}
			from = to + 1
		}
	}
}
