package pack

import (
	"math"
	"slices"

	"ribwright/geom"
)

// rule says which of a part's places is the best: the one with the least x·X + y·Y, of the corner
// near the origin or of the far one.
type rule struct {
	x, y float64
	far  bool
	rows bool // lay rows of round parts on a sheet of their own while there are enough of them
	one  bool // copies of a part lie at its first angle as long as that finds a place: equal rows fit one another
}

func (r rule) score(p geom.Pt, f *form) float64 {
	if r.far {
		p = geom.Pt{X: p.X + f.w, Y: p.Y + f.h}
	}
	return float64(r.x*p.X) + float64(r.y*p.Y)
}

// layout is a whole answer.
type layout struct {
	boards []*board
	rest   []int // parts that found no place
}

// better reports whether l is better than o: fewer parts without a place, a lower price, and then, where the price is the
// same, sheets that are fuller in their order, so that what is left is one large piece.
func (l layout) better(o layout) bool {
	if a, b := l.missing(), o.missing(); math.Abs(a-b) > 1e-9*(a+b) {
		return a < b
	}
	if a, b := l.price(), o.price(); math.Abs(a-b) > 1e-9*(a+b) {
		return a < b
	}
	a, b := l.fullness(), o.fullness()
	return a > b*(1+1e-12)
}

func (l layout) missing() float64 {
	s := 0.0
	for _, p := range l.rest {
		b := l.bench()
		if b == nil {
			return float64(len(l.rest))
		}
		s += b.forms[b.parts[p][0].form].area
	}
	return s
}

func (l layout) bench() *bench {
	if len(l.boards) == 0 {
		return nil
	}
	return l.boards[0].b
}

func (l layout) price() float64 {
	s := 0.0
	for _, o := range l.boards {
		s += o.g.price
	}
	return s
}

// fullness is the sum of the squares of what the sheets hold, and a little for what the last one leaves free in one piece.
func (l layout) fullness() float64 {
	s := 0.0
	for i, o := range l.boards {
		s += float64(o.area * o.area)
		if i == len(l.boards)-1 {
			var hi geom.Pt
			for _, it := range o.items {
				f := o.b.forms[it.form]
				hi = geom.Pt{X: max(hi.X, it.at.X+f.w-o.g.lo.X), Y: max(hi.Y, it.at.Y+f.h-o.g.lo.Y)}
			}
			w, h := o.g.hi.X-o.g.lo.X, o.g.hi.Y-o.g.lo.Y
			s += float64(1e-3 * o.g.area * (float64(w*h) - min(float64(hi.X*h), float64(w*hi.Y))))
		}
	}
	return s
}

// write puts the layout into its public form.
func (l layout) write(b *bench, out *Layout) {
	copies := map[int]int{}
	for u, o := range l.boards {
		use := Use{Sheet: o.g.sheet, Parts: len(o.items), SheetAreaMM2: o.g.area}
		for _, it := range o.items {
			use.PartsAreaMM2 += o.b.areas[it.part]
			at := it.at.Sub(it.off)
			out.Placed = append(out.Placed, Placed{it.part, copies[it.part], o.g.sheet, u, it.angle, geom.Pt{X: at.X + 0, Y: at.Y + 0}})
			copies[it.part]++
		}
		out.Uses = append(out.Uses, use)
	}
	rest := slices.Sorted(slices.Values(l.rest))
	for i := 0; i < len(rest); {
		j := i
		for j < len(rest) && rest[j] == rest[i] {
			j++
		}
		why := TooLarge
		if b.fitsAlone(rest[i]) {
			why = SheetsUsed
		}
		out.Unplaced = append(out.Unplaced, Unplaced{rest[i], j - i, why})
		i = j
	}
	slices.SortStableFunc(out.Unplaced, func(a, b Unplaced) int { return a.Part - b.Part })
}

// fitsAlone reports whether the part finds a place on an empty sheet of any kind.
func (b *bench) fitsAlone(part int) bool {
	for _, g := range b.grounds {
		if b.newBoard(g).putBest(part, rules[0]) {
			return true
		}
	}
	return false
}

// fill lays the parts, in the order of the sequence, on as many sheets as they need.
func (b *bench) fill(seq []int, r rule) layout {
	var l layout
	left := make([]int, len(b.grounds))
	for i, g := range b.grounds {
		left[i] = g.left
	}
	for len(seq) > 0 {
		var best *board
		var rest []int
		at := -1
		for i, g := range b.grounds {
			if left[i] == 0 {
				continue
			}
			o, after := b.fillBoard(g, seq, r)
			if len(o.items) > 0 && (best == nil || dearer(best, o, len(rest), len(after))) {
				best, rest, at = o, after, i
			}
		}
		if best == nil {
			l.rest = seq
			break
		}
		left[at]--
		l.boards = append(l.boards, best)
		for range b.repeats(best, seq, rest) {
			l.boards, rest = append(l.boards, best), best.less(rest)
		}
		seq = rest
		if b.whole && b.out() { // there is a layout already
			l.rest = seq
			break
		}
	}
	return l
}

// repeats returns how often the next sheet comes out as board o, which was filled from seq and left rest: as long as the same kinds of
// part are there to be tried, in the same order, and enough of them to fill it. It says 0 where parts are mixed, or sheets are counted.
func (b *bench) repeats(o *board, seq, rest []int) int {
	if len(b.grounds) > 1 || b.grounds[0].left > 0 {
		return 0
	}
	left, put := make([]int, len(b.parts)), make([]int, len(b.parts))
	for _, p := range rest {
		left[p]++
	}
	for _, it := range o.items {
		put[it.part]++
	}
	times, tried := len(rest), make([]bool, len(b.parts))
	for i, p := range seq {
		switch {
		case i > 0 && p == seq[i-1]:
		case tried[p] || left[p] == 0:
			return 0
		case put[p] > 0:
			times = min(times, left[p]/put[p])
		}
		tried[p] = true
	}
	return times
}

// less returns the sequence without the parts on the board.
func (o *board) less(seq []int) []int {
	put := make([]int, len(o.b.parts))
	for _, it := range o.items {
		put[it.part]++
	}
	var rest []int
	for _, p := range seq {
		if put[p] > 0 {
			put[p]--
		} else {
			rest = append(rest, p)
		}
	}
	return rest
}

// dearer reports whether sheet a is a worse choice than b: of sheets that take all that is left the cheaper one is
// better, else the one that costs less for the area laid on it.
func dearer(a, b *board, leftA, leftB int) bool {
	if leftA == 0 && leftB == 0 {
		return b.g.price < a.g.price
	}
	return float64(b.g.price*a.area) < float64(a.g.price*b.area)
}

// fillBoard lays on one sheet what finds a place, and returns the rest of the sequence.
func (b *bench) fillBoard(g *ground, seq []int, r rule) (*board, []int) {
	o := b.newBoard(g)
	if r.rows {
		seq = o.layRows(seq)
	}
	var rest []int
	full := make([]bool, len(b.parts))
	for _, p := range seq {
		if !full[p] && !o.putBest(p, r) {
			full[p] = true
		}
		if full[p] {
			rest = append(rest, p)
		}
	}
	return o, rest
}

// putBest lays the part in its best place, if there is any.
func (o *board) putBest(part int, r rule) bool {
	for {
		best, where, found := math.Inf(1), geom.Pt{}, -1
		for k, v := range o.b.parts[part] {
			if r.one && k > 0 && found >= 0 {
				break
			}
			f := o.b.forms[v.form]
			for _, p := range o.spotsOf(v.form) {
				if s := r.score(p, f); s < best-1e-9 {
					best, where, found = s, p, k
				}
			}
		}
		if found < 0 {
			return false
		}
		v := o.b.parts[part][found]
		if o.clear(v.form, where) {
			o.put(part, v, where)
			return true
		}
		s := &o.free[v.form]
		s.pts = slices.DeleteFunc(s.pts, func(p geom.Pt) bool { return p == where })
	}
}

// clear makes sure of a place by the outlines themselves, where one of two parts is hollow: a place on the seam
// between two convex pieces may pass for free.
func (o *board) clear(f int, at geom.Pt) bool {
	a := o.b.forms[f]
	var ring geom.Ring
	for k := range o.items {
		it := &o.items[k]
		c := o.b.forms[it.form]
		if len(a.cores) == 1 && len(c.cores) == 1 {
			continue
		}
		n := o.b.bar(it.form, f)
		if d := at.Sub(it.at); d.X <= n.lo.X || d.X >= n.hi.X || d.Y <= n.lo.Y || d.Y >= n.hi.Y {
			continue
		}
		if ring == nil {
			ring = geom.Move(at).Pts(a.ring)
		}
		if !apart(ring, geom.Move(it.at).Pts(c.ring), a, c, at, it.at, o.b.job.Gap) {
			return false
		}
	}
	return true
}

// apart reports whether two forms keep the gap, by their outlines.
func apart(p, q geom.Ring, a, c *form, at, ct geom.Pt, gap float64) bool {
	if gap > 0 {
		if a.radius > 0 {
			return geom.Distance(at.Add(a.inner), q, true) >= a.radius+gap-geom.Coincident/2 && !q.Holds(at.Add(a.inner))
		}
		if c.radius > 0 {
			return geom.Distance(ct.Add(c.inner), p, true) >= c.radius+gap-geom.Coincident/2 && !p.Holds(ct.Add(c.inner))
		}
		return ringDist(p, q, gap) >= gap-geom.Coincident/2 && !p.Holds(ct.Add(c.inner)) && !q.Holds(at.Add(a.inner))
	}
	if a.radius > 0 {
		return geom.Distance(at.Add(a.inner), q, true) >= a.radius-geom.Coincident/2 && !q.Holds(at.Add(a.inner))
	}
	if c.radius > 0 {
		return geom.Distance(ct.Add(c.inner), p, true) >= c.radius-geom.Coincident/2 && !p.Holds(ct.Add(c.inner))
	}
	return geom.CommonArea(p, q) <= float64(geom.Coincident*(a.w+a.h))
}
