package jig

import (
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// room knows where a block may stand.
type room struct {
	clearance, plates float64 // kept from wood, and from plates and openings inside the rib
	things            []thing
	holes             []Hole
	cells             map[[2]int][]edge // looked up by place, never walked
	seen              []int
	query             int
}

// thing is what a block must not foul.
type thing struct {
	member string // of wood; empty: a plate or an opening
	ring   geom.Ring
	box    geom.Box
}

// edge is one side of a thing, from a to b with the thing on its left.
type edge struct {
	thing int
	id    int
	a, b  geom.Pt
}

// cell is the width of the squares in which edges are looked up.
const cell = 12.0

func newRoom(r *rib.Rib, set ribfile.Jig, holes []Hole) *room {
	m := &room{clearance: set.Clearance, plates: set.Room, holes: holes, cells: map[[2]int][]edge{}}
	for _, c := range r.Caps {
		m.add(c.ID, c.Outline)
	}
	for _, k := range r.Blocks {
		m.add(k.ID, k.Outline)
	}
	for _, s := range r.Sticks {
		m.add(s.ID, s.Outline)
	}
	for _, s := range r.Spars {
		m.add("", s.Opening)
	}
	for _, g := range r.Gussets {
		if len(g.Outline.Segs) > 0 {
			m.add("", g.Outline.Flatten(geom.Flat))
		}
	}
	return m
}

func (m *room) add(member string, ring geom.Ring) {
	if len(ring) < 3 {
		return
	}
	k := len(m.things)
	m.things = append(m.things, thing{member, ring, ring.Box()})
	for i, a := range ring {
		e := edge{k, len(m.seen), a, ring[(i+1)%len(ring)]}
		m.seen = append(m.seen, 0)
		n := int(e.a.Dist(e.b)/cell) + 1
		for j := range n {
			p, q := e.a.Lerp(e.b, float64(j)/float64(n)), e.a.Lerp(e.b, float64(j+1)/float64(n))
			each(geom.NewBox(p, q), func(c [2]int) {
				if l := m.cells[c]; len(l) == 0 || l[len(l)-1].id != e.id {
					m.cells[c] = append(l, e)
				}
			})
		}
	}
}

func each(b geom.Box, f func([2]int)) {
	at := func(v float64) int { return int(math.Floor(v / cell)) }
	for x := at(b.Min.X); x <= at(b.Max.X); x++ {
		for y := at(b.Min.Y); y <= at(b.Max.Y); y++ {
			f([2]int{x, y})
		}
	}
}

// near calls f for every edge near a box, until f returns false.
func (m *room) near(b geom.Box, f func(e edge) bool) {
	m.query++
	at := func(v float64) int { return int(math.Floor(v / cell)) }
	for x := at(b.Min.X); x <= at(b.Max.X); x++ {
		for y := at(b.Min.Y); y <= at(b.Max.Y); y++ {
			for _, e := range m.cells[[2]int{x, y}] {
				if m.seen[e.id] != m.query {
					m.seen[e.id] = m.query
					if !f(e) {
						return
					}
				}
			}
		}
	}
}

// A plate's arc bulges over its chords, and a round plate over the contour's: by less than this.
const bulge = 0.011

// hair is what rounding may take from a clearance.
const hair = 1e-7

// free reports whether a block can stand where it is, bearing on wood of the members given, beside the blocks given.
func (m *room) free(b *Block, bears []string, inside bool, blocks []Block) bool {
	q := newBoxed(b)
	keep := bulge
	if inside {
		keep = m.plates + bulge
	}
	for i := range m.holes {
		if h := &m.holes[i]; q.nearer(h.At, h.Diameter/2) {
			return false
		}
	}
	for i := range blocks {
		if q.foulsBlock(&blocks[i], m.clearance) {
			return false
		}
	}
	ok := true
	box := b.Outline.Box().Grow(math.Max(keep, m.clearance))
	m.near(box, func(e edge) bool {
		gap, t := keep, &m.things[e.thing]
		if t.member != "" {
			gap = m.clearance - hair
			if slices.Contains(bears, t.member) {
				gap = 0 // its clearance is square to the block's edge
			}
		}
		ok = !q.fouls(e.a, e.b, gap)
		return ok
	})
	if !ok {
		return false
	}
	mid := b.Outline[0].Lerp(b.Outline[2], 0.5)
	for i := range m.things {
		if t := &m.things[i]; t.box.Holds(mid) && !slices.Contains(bears, t.member) && t.ring.Holds(mid) {
			return false // it stands in it whole
		}
	}
	return true
}

// boxed is a block in its own axes.
type boxed struct {
	o, u, v geom.Pt // its middle, and its unit axes
	w, h    float64 // half its sides
}

func newBoxed(b *Block) boxed {
	r := b.Outline
	u := r[0].Sub(r[1]).Unit()
	return boxed{r[0].Lerp(r[2], 0.5), u, u.Left(), b.Length / 2, b.Width / 2}
}

func (q *boxed) local(p geom.Pt) geom.Pt {
	d := p.Sub(q.o)
	return geom.Pt{X: d.Dot(q.u), Y: d.Dot(q.v)}
}

// dist returns the distance of a point from the block.
func (q *boxed) dist(p geom.Pt) float64 {
	d := q.local(p)
	return math.Hypot(math.Max(0, math.Abs(d.X)-q.w), math.Max(0, math.Abs(d.Y)-q.h))
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
func (q *boxed) foulsBlock(o *Block, gap float64) bool {
	d := o.Outline[0].Lerp(o.Outline[2], 0.5).Sub(q.o)
	if reach := q.w + q.h + float64((o.Length+o.Width)/2) + gap; d.Dot(d) > float64(reach*reach) {
		return false // most blocks are told apart by that
	}
	for i, a := range o.Outline {
		if q.fouls(a, o.Outline[(i+1)%4], gap-hair) {
			return true
		}
	}
	r := newBoxed(o)
	return r.dist(q.o) == 0 || q.dist(r.o) == 0
}

// touch is how much wider than the clearance a gap may be to count as a contact.
const touch = geom.Flat

// contacts returns where members rest against the block: at its corners, and at their own. Of many in a row along one side of
// the block the outer two stay.
func (m *room) contacts(b *Block) []Contact {
	q := newBoxed(b)
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
	m.near(b.Outline.Box().Grow(reach), func(e edge) bool {
		if m.things[e.thing].member == "" || !q.fouls(e.a, e.b, reach) {
			return true
		}
		d := e.b.Sub(e.a)
		l := d.Len()
		if l == 0 {
			return true
		}
		in := d.Left().Mul(1 / l)
		for _, c := range b.Outline { // the block's corners on the member's edge
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
	var out []Contact
	for k := range m.things {
		for side := range 4 {
			lo, hi := -1, -1
			for i := range all {
				if f := &all[i]; f.thing == k && f.side == side {
					if lo < 0 || f.along < all[lo].along {
						lo = i
					}
					if hi < 0 || f.along > all[hi].along {
						hi = i
					}
				}
			}
			if lo >= 0 {
				out = append(out, all[lo].Contact)
			}
			if hi >= 0 && all[hi].along > all[lo].along+geom.Coincident {
				out = append(out, all[hi].Contact)
			}
		}
	}
	return out
}
