package jig

import (
	"math"

	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// room knows where a block may stand.
type room struct {
	clearance, plates float64 // kept from wood, and from plates and openings inside the rib
	things            []thing
	holes             []Hole
	origin            geom.Pt
	wide, high        int
	cells             [][]edge // by place, row by row
	columns           [][]edge // by station alone, thing by thing
	seen              []int    // by edge, the last query that met it
	query             int
	last              *edge // that was in the way
}

// thing is what a block must not foul.
type thing struct {
	member string // of wood; empty: a plate or an opening
	ring   geom.Ring
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
	m := &room{clearance: set.Clearance, plates: set.Room, holes: holes}
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
	m.index()
	return m
}

func (m *room) add(member string, ring geom.Ring) {
	if len(ring) >= 3 {
		m.things = append(m.things, thing{member, ring})
	}
}

// index sorts the edges of all things into cells and columns.
func (m *room) index() {
	var box geom.Box
	for _, t := range m.things {
		box = box.Union(t.ring.Box())
	}
	m.origin, m.wide, m.high = box.Min, int(box.W()/cell)+1, int(box.H()/cell)+1
	m.cells, m.columns = make([][]edge, m.wide*m.high), make([][]edge, m.wide)
	for k, t := range m.things {
		for i, a := range t.ring {
			e := edge{k, len(m.seen), a, t.ring[(i+1)%len(t.ring)]}
			m.seen = append(m.seen, 0)
			x0, x1, _, _ := m.span(geom.NewBox(e.a, e.b))
			for x := x0; x <= x1; x++ {
				m.columns[x] = append(m.columns[x], e)
			}
			n := int(e.a.Dist(e.b)/cell) + 1
			for j := range n {
				p, q := e.a.Lerp(e.b, float64(j)/float64(n)), e.a.Lerp(e.b, float64(j+1)/float64(n))
				x0, x1, y0, y1 := m.span(geom.NewBox(p, q))
				for y := y0; y <= y1; y++ {
					for x := x0; x <= x1; x++ {
						c := &m.cells[y*m.wide+x]
						if l := *c; len(l) == 0 || l[len(l)-1].id != e.id {
							*c = append(l, e)
						}
					}
				}
			}
		}
	}
}

// span returns the first and last column and row that a box meets.
func (m *room) span(b geom.Box) (x0, x1, y0, y1 int) {
	at := func(v float64, n int) int { return min(max(int(math.Floor(v/cell)), 0), n-1) }
	return at(b.Min.X-m.origin.X, m.wide), at(b.Max.X-m.origin.X, m.wide), at(b.Min.Y-m.origin.Y, m.high), at(b.Max.Y-m.origin.Y, m.high)
}

// near calls f for every edge near a box, until f returns false.
func (m *room) near(b geom.Box, f func(e *edge) bool) {
	m.query++
	x0, x1, y0, y1 := m.span(b)
	for y := y0; y <= y1; y++ {
		for _, c := range m.cells[y*m.wide+x0 : y*m.wide+x1+1] {
			for i := range c {
				if e := &c[i]; m.seen[e.id] != m.query {
					m.seen[e.id] = m.query
					if !f(e) {
						return
					}
				}
			}
		}
	}
}

// holds reports whether a point lies in a thing that counts.
func (m *room) holds(p geom.Pt, counts func(*thing) bool) bool {
	x := int(math.Floor((p.X - m.origin.X) / cell))
	if x < 0 || x >= m.wide {
		return false
	}
	in, of := false, -1
	for i := range m.columns[x] {
		e := &m.columns[x][i]
		if e.thing != of {
			if in && counts(&m.things[of]) {
				return true
			}
			in, of = false, e.thing
		}
		if (e.a.X > p.X) != (e.b.X > p.X) && p.Y < e.a.Y+float64((p.X-e.a.X)/(e.b.X-e.a.X)*(e.b.Y-e.a.Y)) {
			in = !in
		}
	}
	return in && counts(&m.things[of])
}
