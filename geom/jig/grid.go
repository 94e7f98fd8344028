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
	runs              []run // thing by thing
	origin            geom.Pt
	wide, high        int
	cells             [][]int32 // runs by place, row by row
	columns           [][]int32 // runs by station alone
	holes             [][]*Hole // by station
	blocks            [][]*boxed
	seen              []int // by run, the last query that met it
	query             int
	last              barrier
}

// barrier is what was last in the way, of each kind.
type barrier struct {
	edge  *edge
	hole  *Hole
	block *boxed
}

// thing is what a block must not foul.
type thing struct {
	member string // of wood; empty: a plate or an opening
	ring   geom.Ring
}

// edge is one side of a thing, from a to b with the thing on its left.
type edge struct {
	thing int
	a, b  geom.Pt
}

// run is a few edges of a thing, one behind the other.
type run struct {
	edges []edge
	box   geom.Box
}

// most is how many edges a run has at most.
const most = 8

// cell is the width of the squares in which edges are looked up.
const cell = 12.0

func newRoom(r *rib.Rib, set ribfile.Jig, holes []Hole) *room {
	m := &room{clearance: set.Clearance, plates: set.Room}
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
	m.holes, m.blocks = make([][]*Hole, m.wide), make([][]*boxed, m.wide)
	for i := range holes {
		h := &holes[i]
		x0, x1, _, _ := m.span(geom.NewBox(h.At).Grow(float64(h.Diameter / 2)))
		for x := x0; x <= x1; x++ {
			m.holes[x] = append(m.holes[x], h)
		}
	}
	return m
}

// hold makes the blocks given all that are taken.
func (m *room) hold(blocks []Block) {
	clear(m.blocks)
	m.last.block = nil
	for i := range blocks {
		m.put(blocks[i].body)
	}
}

// put notes a block that is taken.
func (m *room) put(b boxed) {
	x0, x1, _, _ := m.span(b.box())
	for x := x0; x <= x1; x++ {
		m.blocks[x] = append(m.blocks[x], &b)
	}
}

func (m *room) add(member string, ring geom.Ring) {
	if len(ring) >= 3 {
		m.things = append(m.things, thing{member, ring})
	}
}

// index sorts the edges of all things into cells and columns.
func (m *room) index() {
	n := 0
	for _, t := range m.things {
		n += len(t.ring)
	}
	var box geom.Box
	all := make([]edge, 0, n)
	m.runs = make([]run, 0, n/most+len(m.things))
	for k, t := range m.things {
		first := len(all)
		for i, a := range t.ring {
			all = append(all, edge{k, a, t.ring[(i+1)%len(t.ring)]})
		}
		for edges := all[first:]; len(edges) > 0; {
			r := run{edges[:min(most, len(edges))], geom.NewBox(edges[0].a)}
			for _, e := range r.edges {
				r.box = r.box.Add(e.b)
			}
			m.runs = append(m.runs, r)
			box = box.Union(r.box)
			edges = edges[len(r.edges):]
		}
	}
	m.seen = make([]int, len(m.runs))
	m.origin, m.wide, m.high = box.Min, int(box.W()/cell)+1, int(box.H()/cell)+1
	cells, columns := make([][2]int32, 0, 4*len(m.runs)), make([][2]int32, 0, 4*len(m.runs))
	for i := range m.runs {
		x0, x1, _, _ := m.span(m.runs[i].box)
		for x := x0; x <= x1; x++ {
			columns = append(columns, [2]int32{int32(x), int32(i)})
		}
		for b := range m.runs[i].parts {
			x0, x1, y0, y1 := m.span(b)
			for y := y0; y <= y1; y++ {
				for x := x0; x <= x1; x++ {
					cells = append(cells, [2]int32{int32(y*m.wide + x), int32(i)})
				}
			}
		}
	}
	m.columns, m.cells = buckets(m.wide, columns), buckets(m.wide*m.high, cells)
}

// parts yields boxes that hold the run: one, or where that is large for a cell, one for each part of an edge.
func (r *run) parts(yield func(geom.Box) bool) {
	if max(r.box.W(), r.box.H()) <= cell {
		yield(r.box)
		return
	}
	for _, e := range r.edges {
		n := int(e.a.Dist(e.b)/cell) + 1
		for j := range n {
			if !yield(geom.NewBox(e.a.Lerp(e.b, float64(j)/float64(n)), e.a.Lerp(e.b, float64(j+1)/float64(n)))) {
				return
			}
		}
	}
}

// buckets sorts numbers into n buckets: of each pair the second into the first.
func buckets(n int, pairs [][2]int32) [][]int32 {
	count := make([]int, n)
	for _, p := range pairs {
		count[p[0]]++
	}
	out, all := make([][]int32, n), make([]int32, len(pairs))
	for k, c := range count {
		out[k], all = all[:0:c], all[c:]
	}
	for _, p := range pairs {
		out[p[0]] = append(out[p[0]], p[1])
	}
	return out
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
			for _, i := range c {
				if m.seen[i] == m.query {
					continue
				}
				m.seen[i] = m.query
				r := &m.runs[i]
				if !r.box.Meets(b) {
					continue
				}
				for k := range r.edges {
					if e := &r.edges[k]; e.meets(&b) && !f(e) {
						return
					}
				}
			}
		}
	}
}

// meets reports whether an edge may have a point in a box.
func (e *edge) meets(b *geom.Box) bool {
	return min(e.a.X, e.b.X) <= b.Max.X && max(e.a.X, e.b.X) >= b.Min.X && min(e.a.Y, e.b.Y) <= b.Max.Y && max(e.a.Y, e.b.Y) >= b.Min.Y
}

// holds reports whether a point lies in a thing that counts.
func (m *room) holds(p geom.Pt, counts func(*thing) bool) bool {
	x := int(math.Floor((p.X - m.origin.X) / cell))
	if x < 0 || x >= m.wide {
		return false
	}
	in, of := false, -1
	for _, i := range m.columns[x] {
		r := &m.runs[i]
		if p.X < r.box.Min.X || p.X > r.box.Max.X || p.Y > r.box.Max.Y {
			continue
		}
		for k := range r.edges {
			e := &r.edges[k]
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
	}
	return in && counts(&m.things[of])
}
