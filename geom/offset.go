package geom

import (
	"math"
	"slices"
)

// Grow returns the outline of all that lies nearer than d to the area a closed path encloses; with a negative d the
// outline of what lies in it farther than −d from its edge. The path must not cross itself; its direction does not matter.
// Lines stay lines and arcs stay arcs; corners that open are rounded by an arc of radius d, but for those so flat that
// their tip stands off that arc by less than Flat/200. What crosses itself is trimmed. The result is closed paths:
// outer ones run counter-clockwise, and a clockwise one bounds a hole that growing closed off. What vanishes gives none.
//
// A cut of kerf k that leaves the plate as it is drawn runs along Grow(k/2): the middle of the tool.
func (p Path) Grow(d float64) []Path {
	if c, r, ok := p.IsCircle(); ok {
		if r+d <= Coincident {
			return nil
		}
		return []Path{Circle(c, r+d)}
	}
	edges := loop(p)
	switch {
	case len(edges) < 2 || math.IsNaN(d):
		return nil
	case d == 0:
		return []Path{pathOf(edges)}
	}
	if raw, convex := rawGrow(edges, d); convex && d > 0 {
		return []Path{pathOf(raw).Tidy(onEdge)}
	}
	// Where stretches coincide to the last digit no rule says which of them is the outer one. A change of d
	// far below Coincident parts them.
	for _, nudge := range []float64{0, 1e-9, -1e-9, 3e-8, -3e-8, 3e-7, -3e-7} {
		raw, _ := rawGrow(edges, d+nudge)
		if out, whole := trimGrown(raw, edges, d+nudge); whole {
			return out
		}
	}
	return growFlat(p, d)
}

// Grow returns the region grown by d ≥ 0: its outer path moved outward, its holes inward.
func (g Region) Grow(d float64) Region {
	var out Region
	for _, p := range g.Outer.Grow(d) {
		if p.Area() > 0 {
			out.Outer = p
			continue
		}
		out.Holes = append(out.Holes, p)
	}
	for _, h := range g.Holes {
		for _, p := range h.Grow(-d) {
			out.Holes = append(out.Holes, p.Reverse())
		}
	}
	return out
}

// growFlat is Grow by way of Parallel, arcs as chords.
func growFlat(p Path, d float64) []Path {
	ring := Ring(p.Flatten(roundTol))
	if ring.Area() < 0 {
		ring = ring.Reverse()
	}
	rings, _ := Parallel(ring, true, -d)
	var out []Path
	for _, r := range rings {
		out = append(out, r.Path())
	}
	return out
}

// loop returns a closed path's edges counter-clockwise, its closing line among them, without those of no length.
func loop(p Path) []edge {
	if !p.Closed || len(p.Segs) == 0 {
		return nil
	}
	if p.Area() < 0 {
		p = p.Reverse()
	}
	var out []edge
	a := p.Start
	for _, s := range append(slices.Clone(p.Segs), Seg{End: p.Start}) {
		if a.Dist(s.End) <= Coincident && math.Abs(s.Bulge) <= 1 {
			continue
		}
		out = append(out, newEdge(a, s.End, s.Bulge))
		a = s.End
	}
	for i := range out { // edges left out are bridged
		j := (i + 1) % len(out)
		if out[i].b != out[j].a {
			out[i] = newEdge(out[i].a, out[j].a, out[i].bulge)
		}
	}
	return out
}

func pathOf(edges []edge) Path {
	p := Path{Start: edges[0].a, Closed: true}
	for _, e := range edges {
		p.Segs = append(p.Segs, Seg{e.b, e.bulge})
	}
	p.Segs[len(p.Segs)-1].End = p.Start
	return p
}

// moved returns the edge moved to its right by d. An arc whose radius the move uses up is replaced by its own chord,
// which lies too near to stay; one that shrinks to a point has no edge.
func (e edge) moved(d float64) (m edge, ok bool) {
	if e.bulge == 0 {
		v := e.dir(0).Left().Mul(-d)
		return newEdge(e.a.Add(v), e.b.Add(v), 0), true
	}
	r := e.r + d
	if e.w < 0 {
		r = e.r - d
	}
	switch {
	case r < -Coincident:
		m = newEdge(e.a, e.b, 0)
		m.inside = true
		return m, true
	case r < Coincident:
		return edge{a: e.c, b: e.c}, false
	}
	m = e
	m.r, m.a, m.b = r, e.c.Along(Polar(e.t0), r), e.c.Along(Polar(e.t0+e.w), r)
	return m, true
}

// rawGrow moves every edge outward and joins neighbours: flat corners by a mitre, opening ones by an arc about
// the corner, closing ones by way of the corner itself, so that a loop is left to be trimmed. convex says that
// there was no closing corner and no arc was used up.
func rawGrow(edges []edge, d float64) (out []edge, convex bool) {
	n := len(edges)
	ms, there := make([]edge, n), make([]bool, n)
	convex = true
	for i, e := range edges {
		ms[i], there[i] = e.moved(d)
		convex = convex && there[i] && !ms[i].inside && (e.bulge >= 0)
	}
	joins := make([][]edge, n)
	for i := range edges {
		j := (i + 1) % n
		p, q := &ms[i], &ms[j]
		turn := math.Atan2(edges[i].dir(1).Cross(edges[j].dir(0)), edges[i].dir(1).Dot(edges[j].dir(0)))
		mitre := float64(d * math.Tan(turn/2)) // what both lines gain
		lines := edges[i].bulge == 0 && edges[j].bulge == 0
		least := min(edges[i].length(), edges[j].length())
		switch {
		case p.b.Dist(q.a) < 1e-8 && !p.inside && !q.inside:
			m := p.b.Lerp(q.a, 0.5)
			p.b, q.a = m, m
			continue
		case lines && math.Abs(turn) < 0.1 && math.Abs(float64(mitre*math.Tan(turn/4))) < roundTol/10 && -mitre < least/2,
			lines && mitre < 0 && -mitre < least/2:
			m := p.b.Along(edges[i].dir(1), mitre)
			p.b, q.a = m, m
		case turn*d > 0 && !p.inside && !q.inside:
			joins[i] = []edge{newEdge(p.b, q.a, math.Tan(turn/4))}
		default:
			for _, l := range [2][2]Pt{{p.b, edges[i].b}, {edges[i].b, q.a}} {
				if l[0].Dist(l[1]) > onEdge {
					e := newEdge(l[0], l[1], 0)
					e.inside = true
					joins[i] = append(joins[i], e)
				}
			}
		}
		convex = convex && turn > -1e-9
	}
	for i, m := range ms {
		if there[i] {
			fresh := newEdge(m.a, m.b, m.bulge) // its ends may have moved
			fresh.inside = m.inside
			out = append(out, fresh)
		}
		out = append(out, joins[i]...)
	}
	for i := range out { // over an arc that is gone
		if j := (i + 1) % len(out); out[i].b != out[j].a {
			m := out[i].b.Lerp(out[j].a, 0.5)
			a, b := out[i].inside, out[j].inside
			out[i], out[j] = newEdge(out[i].a, m, out[i].bulge), newEdge(m, out[j].b, out[j].bulge)
			out[i].inside, out[j].inside = a, b
		}
	}
	return out, convex
}
