package shop

import (
	"cmp"
	"math"
	"slices"

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
	lines   []inkLine // flipped, where flip is set; the highest first
	box     geom.Box  // of the lines, and half a line's width more
	w, h    float64   // of a window, across and along the strips
	overlap float64
	flip    bool
}

// lineEdge is how far a line's ink may reach beyond its middle, mm.
const lineEdge = wide / 2

func newCover(lines []inkLine, w, h, overlap float64, flip bool) cover {
	c := cover{lines: lines, w: w, h: h, overlap: overlap, flip: flip}
	if flip {
		c.w, c.h = h, w
	}
	for i := range lines {
		c.box = c.box.Union(lines[i].box)
	}
	c.box = c.box.Grow(lineEdge)
	return c
}

// coverLines returns the lines to be covered, the highest first; flipped, those that reach farthest aft.
func coverLines(ink inked, flip bool) []inkLine {
	var out []inkLine
	for i := range ink {
		for _, s := range ink[i].outlines() {
			if flip {
				s.a, s.b = geom.Pt{X: s.a.Y, Y: s.a.X}, geom.Pt{X: s.b.Y, Y: s.b.X}
			}
			s.box = geom.NewBox(s.a, s.b)
			out = append(out, s)
		}
	}
	slices.SortFunc(out, func(a, b inkLine) int { return cmp.Compare(b.box.Max.Y, a.box.Max.Y) })
	return out
}

// outlines returns an item's lines, of lettering the sides of its box.
func (k *itemInk) outlines() []inkLine {
	if k.item.Text == nil {
		return k.segs
	}
	q := k.text.corners()
	out := make([]inkLine, 4)
	for i := range out {
		out[i].a, out[i].b = q[i], q[(i+1)%4]
	}
	return out
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

// clipped returns between which heights a line lies in a slab.
func (l *inkLine) clipped(lo, hi float64) (low, high float64, ok bool) {
	if l.box.Max.X < lo || l.box.Min.X > hi {
		return 0, 0, false
	}
	if l.box.Min.X >= lo && l.box.Max.X <= hi || l.a.X == l.b.X {
		return l.box.Min.Y, l.box.Max.Y, true
	}
	at := func(x float64) float64 {
		t := math.Max(0, math.Min(1, (x-l.a.X)/(l.b.X-l.a.X)))
		return l.a.Y + float64(t*(l.b.Y-l.a.Y))
	}
	p, q := at(lo), at(hi)
	return math.Min(p, q), math.Max(p, q), true
}

// tops returns the upper edges of the fewest windows that each strip needs, from the highest ink down; nothing where
// they are more than most in all.
func (c *cover) tops(shift float64, most int) [][]float64 {
	n, all := c.strips(shift), 0
	out := make([][]float64, n)
	below := make([]float64, n) // ink under this height is not covered yet
	for k := range below {
		below[k] = math.Inf(1)
	}
	for more := true; more; {
		more = false
		for k, y := range c.highest(below, n, shift) {
			if below[k] = math.Inf(-1); math.IsInf(y, -1) {
				continue
			}
			if all++; all > most {
				return nil
			}
			top := y + lineEdge
			if m := len(out[k]); m > 0 {
				if bottom := out[k][m-1] - c.h; top >= bottom {
					top = bottom + c.overlap // the ink goes on: the windows join
				}
			}
			out[k], more = append(out[k], top), true
			below[k] = top - c.h + lineEdge
		}
	}
	return out
}

// highest returns, of each strip, the highest ink below a height; −∞ where there is none.
func (c *cover) highest(below []float64, n int, shift float64) []float64 {
	out := make([]float64, n)
	los, his := make([]float64, n), make([]float64, n)
	for k := range out {
		out[k] = math.Inf(-1)
		los[k], his[k] = c.slab(k, n, shift)
	}
	first, most := c.box.Min.X-shift, slices.Max(below)
	for i := range c.lines {
		l := &c.lines[i]
		if l.box.Min.Y >= most {
			continue // all of it is covered
		}
		if i%64 == 0 && c.reached(out, below, l.box.Max.Y) {
			break // what follows is lower
		}
		from := max(0, int((l.box.Min.X-first-c.overlap)/c.pitch()))
		for k := from; k < n && los[k] <= l.box.Max.X; k++ {
			if math.IsInf(below[k], -1) || math.Min(l.box.Max.Y, below[k]) <= out[k] {
				continue
			}
			if low, high, ok := l.clipped(los[k], his[k]); ok && low < below[k] {
				out[k] = math.Max(out[k], math.Min(high, below[k]))
			}
		}
	}
	return out
}

// reached reports whether the highest ink of every strip is known: no line that ends at y or lower can be higher.
func (c *cover) reached(out, below []float64, y float64) bool {
	for k := range out {
		if !math.IsInf(below[k], -1) && out[k] < y {
			return false
		}
	}
	return true
}

// slots returns the windows for a place of the strips. What the windows are larger than the ink stands
// above it by the share given, and below it by the rest. Where windows in even rows are not more, they stand so.
func (c *cover) slots(shift, share float64) []slot {
	tops := c.tops(shift, math.MaxInt)
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
		below := make([]float64, n)
		for k := range below {
			below[k] = high
		}
		for k, y := range c.highest(below, n, shift) {
			if y >= low {
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
			floor, least := column[to]-c.h, math.Inf(1)
			for i := range c.lines {
				if low, high, ok := c.lines[i].clipped(lo, hi); ok && high >= floor+lineEdge {
					least = math.Min(least, math.Max(low, floor+lineEdge))
				}
			}
			up := share * (least - lineEdge - floor)
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
