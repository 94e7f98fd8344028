package jig

import (
	"cmp"
	"math"
	"slices"

	"ribwright/geom"
)

// A plate's arc bulges over its chords, and a round plate over the contour's: by less than this.
const bulge = 0.011

// hair is what rounding may take from a clearance.
const hair = 1e-7

// free reports whether a block can stand where it is, bearing on wood of the members given, beside those taken.
func (m *room) free(q *boxed, bears []string, inside bool) bool {
	keep := bulge
	if inside {
		keep = m.plates + bulge
	}
	fouls := func(e *edge) bool {
		gap, t := keep, &m.things[e.thing]
		if t.member != "" {
			gap = m.clearance - hair
			if slices.Contains(bears, t.member) {
				gap = 0 // its clearance is square to the block's edge
			}
		}
		return q.fouls(e.a, e.b, gap)
	}
	hole := func(h *Hole) bool { return q.nearer(h.At, h.Diameter/2) }
	block := func(b *boxed) bool { return q.foulsBlock(b, m.clearance) }
	// Along a face most places are barred by what barred the place before.
	was := &m.last
	if was.edge != nil && fouls(was.edge) || was.hole != nil && hole(was.hole) || was.block != nil && block(was.block) {
		return false
	}
	box := q.box().Grow(math.Max(keep, m.clearance))
	x0, x1, _, _ := m.span(box)
	for x := x0; x <= x1; x++ {
		for _, h := range m.holes[x] {
			if hole(h) {
				m.last.hole = h
				return false
			}
		}
		for _, b := range m.blocks[x] {
			if block(b) {
				m.last.block = b
				return false
			}
		}
	}
	ok := true
	m.near(box, func(e *edge) bool {
		if ok = !fouls(e); !ok {
			m.last.edge = e
		}
		return ok
	})
	// Else it may stand in a thing whole.
	return ok && !m.holds(q.o, func(t *thing) bool { return !slices.Contains(bears, t.member) })
}

// underPlate reports whether a block inside the rib fouls a plate or an opening.
func (m *room) underPlate(q *boxed) bool {
	plate := func(t *thing) bool { return t.member == "" }
	found, keep := false, m.plates+bulge
	m.near(q.box().Grow(keep), func(e *edge) bool {
		found = plate(&m.things[e.thing]) && q.fouls(e.a, e.b, keep)
		return !found
	})
	return found || m.holds(q.o, plate)
}

// boxed is a block in its own axes.
type boxed struct {
	o, u, v geom.Pt // its middle, and its unit axes
	w, h    float64 // half its sides
	corners [4]geom.Pt
}

// newBoxed returns the block with the corners given, the first two along its length.
func newBoxed(c [4]geom.Pt, length, width float64) boxed {
	u := c[0].Sub(c[1]).Unit()
	return boxed{c[0].Lerp(c[2], 0.5), u, u.Left(), length / 2, width / 2, c}
}

func (q *boxed) box() geom.Box { return geom.NewBox(q.corners[:]...) }

func (q *boxed) local(p geom.Pt) geom.Pt {
	d := p.Sub(q.o)
	return geom.Pt{X: d.Dot(q.u), Y: d.Dot(q.v)}
}

// dist returns the distance of a point from the block.
func (q *boxed) dist(p geom.Pt) float64 {
	d := q.local(p)
	return math.Hypot(math.Max(0, math.Abs(d.X)-q.w), math.Max(0, math.Abs(d.Y)-q.h))
}

// far reports of most points that are further than a distance from the block that they are.
func (q *boxed) far(p geom.Pt, than float64) bool {
	x, y, reach := p.X-q.o.X, p.Y-q.o.Y, q.w+q.h+float64(than)
	return float64(x*x)+float64(y*y) > float64(reach*reach)
}

// nearer reports whether a point is nearer to the block than a distance.
func (q *boxed) nearer(p geom.Pt, than float64) bool {
	d := q.local(p)
	x, y := math.Abs(d.X)-q.w, math.Abs(d.Y)-q.h
	if x >= than || y >= than {
		return false
	}
	x, y = max(x, 0), max(y, 0)
	return float64(x*x)+float64(y*y) < float64(than*than)
}

// fouls reports whether the segment ab comes nearer to the block than the gap, or runs through it.
func (q *boxed) fouls(a, b geom.Pt, gap float64) bool {
	c, d := q.local(a), q.local(b)
	w, h := q.w+gap, q.h+gap
	if c.X > w && d.X > w || c.X < -w && d.X < -w || c.Y > h && d.Y > h || c.Y < -h && d.Y < -h {
		return false
	}
	if q.through(c, d) {
		return true
	}
	if gap <= 0 {
		return false
	}
	if q.nearer(a, gap) || q.nearer(b, gap) {
		return true
	}
	for _, k := range [4]geom.Pt{{X: q.w, Y: q.h}, {X: -q.w, Y: q.h}, {X: -q.w, Y: -q.h}, {X: q.w, Y: -q.h}} {
		if geom.Distance(k, []geom.Pt{c, d}, false) < gap {
			return true
		}
	}
	return false
}

// through reports whether a segment in the block's axes runs through the block's inside.
func (q *boxed) through(c, d geom.Pt) bool {
	t0, t1 := 0.0, 1.0
	e := d.Sub(c)
	for _, s := range [2]struct{ at, by, half float64 }{{c.X, e.X, q.w - hair}, {c.Y, e.Y, q.h - hair}} {
		if s.by == 0 {
			if math.Abs(s.at) >= s.half {
				return false
			}
			continue
		}
		lo, hi := (-s.half-s.at)/s.by, (s.half-s.at)/s.by
		t0, t1 = math.Max(t0, math.Min(lo, hi)), math.Min(t1, math.Max(lo, hi))
	}
	return t0 < t1
}

// foulsBlock reports whether another block overlaps this one, or comes nearer than the gap.
func (q *boxed) foulsBlock(r *boxed, gap float64) bool {
	if q.far(r.o, r.w+r.h+gap) {
		return false
	}
	for i, a := range r.corners {
		if q.fouls(a, r.corners[(i+1)%4], gap-hair) {
			return true
		}
	}
	return r.dist(q.o) == 0 || q.dist(r.o) == 0
}

// touch is how much wider than the clearance a gap may be to count as a contact.
const touch = geom.Flat

// contacts returns where members rest against the block: at its corners, and at their own. Of many in a row along one side of
// the block the outer two stay.
func (m *room) contacts(b *Block) []Contact {
	q := &b.body
	reach := m.clearance + touch
	type found struct {
		Contact
		thing, side int
		along       float64
	}
	var all []found
	add := func(k int, at, n geom.Pt) {
		side, along := 0, at.Sub(q.o).Dot(q.u)
		if math.Abs(n.Dot(q.u)) > math.Abs(n.Dot(q.v)) {
			side, along = 1, at.Sub(q.o).Dot(q.v)
		}
		if n.Dot(q.u)+n.Dot(q.v) > 0 {
			side += 2
		}
		all = append(all, found{Contact{Member: m.things[k].member, At: at, Normal: n, Block: true}, k, side, along})
	}
	m.near(q.box().Grow(reach), func(e *edge) bool {
		if m.things[e.thing].member == "" || !q.fouls(e.a, e.b, reach) {
			return true
		}
		d := e.b.Sub(e.a)
		l := d.Len()
		if l == 0 {
			return true
		}
		in := d.Left().Mul(1 / l)
		for _, c := range q.corners { // the block's corners on the member's edge
			t := c.Sub(e.a).Dot(d) / (l * l)
			if gap := -c.Sub(e.a).Dot(in); t >= 0 && t <= 1 && gap > -touch && gap <= reach {
				add(e.thing, e.a.Along(d, t), in)
			}
		}
		if c := q.local(e.a); q.dist(e.a) <= reach { // the member's corner on the block's edge
			switch {
			case math.Abs(c.X) <= q.w && math.Abs(c.Y) >= q.h-touch:
				add(e.thing, e.a, q.v.Mul(math.Copysign(1, c.Y)))
			case math.Abs(c.Y) <= q.h && math.Abs(c.X) >= q.w-touch:
				add(e.thing, e.a, q.u.Mul(math.Copysign(1, c.X)))
			}
		}
		return true
	})
	slices.SortStableFunc(all, func(a, b found) int { return cmp.Or(cmp.Compare(a.thing, b.thing), cmp.Compare(a.side, b.side)) })
	var out []Contact
	for len(all) > 0 {
		lo, hi, n := 0, 0, 1
		for ; n < len(all) && all[n].thing == all[0].thing && all[n].side == all[0].side; n++ {
			if all[n].along < all[lo].along {
				lo = n
			}
			if all[n].along > all[hi].along {
				hi = n
			}
		}
		out = append(out, all[lo].Contact)
		if all[hi].along > all[lo].along+geom.Coincident {
			out = append(out, all[hi].Contact)
		}
		all = all[n:]
	}
	return out
}
