package geom

import (
	"math"
	"slices"
	"sort"
)

// Half is a half-plane: the points p with N·p ≤ D. N is a unit vector and points out of it; D is in mm.
type Half struct {
	N Pt
	D float64
}

// LeftOf returns the half-plane to the left of the line from a to b. Where a and b are one point it is the whole plane.
func LeftOf(a, b Pt) Half {
	n := b.Sub(a).Unit().Left().Mul(-1)
	return Half{n, n.Dot(a)}
}

// Before returns the half-plane x ≤ at.
func Before(at float64) Half { return Half{Pt{1, 0}, at} }

// After returns the half-plane x ≥ at.
func After(at float64) Half { return Half{Pt{-1, 0}, -at} }

// Off returns the signed distance of p from the half-plane's edge in mm: negative inside, and exactly 0
// within 1e-10 of it, so that a corner which was cut once lies on that cut for ever.
func (h Half) Off(p Pt) float64 {
	d := h.N.Dot(p) - h.D
	if math.Abs(d) < onEdge {
		return 0
	}
	return d
}

// Flip returns the other side.
func (h Half) Flip() Half { return Half{h.N.Mul(-1), -h.D} }

// onEdge is the distance within which a point counts as lying on a cut: far below Coincident, far above rounding.
const onEdge = 1e-10

// Within returns the ring's part in the half-plane as one ring. Where the part has several pieces they hang
// together by edges that run to and fro along the cut: areas are right, outlines are not (use Cut for those).
// A ring that lies inside as a whole is returned as it is.
func (r Ring) Within(h Half) Ring {
	keep := 0
	for _, p := range r {
		if h.Off(p) <= 0 {
			keep++
		}
	}
	switch keep {
	case 0:
		return nil
	case len(r):
		return r[:keep:keep]
	}
	out := make(Ring, 0, keep+2)
	u := h.Off(r[0])
	for i, a := range r {
		b := r[0]
		if i+1 < len(r) {
			b = r[i+1]
		}
		v := h.Off(b)
		if u <= 0 {
			out = append(out, a)
		}
		if (u < 0 && v > 0) || (u > 0 && v < 0) {
			out = append(out, a.Lerp(b, u/(u-v)))
		}
		u = v
	}
	return out
}

// Cut returns the pieces of the ring that lie in the half-plane, each with the ring's direction, and no
// hairs: an edge is never walked to and fro.
func (r Ring) Cut(h Half) []Ring {
	var out []Ring
	for _, p := range (Shape{Ring: r}).Cut(h, 0) {
		out = append(out, p.Ring)
	}
	return out
}

// Shape is a ring whose edges are tagged: Tags[i] belongs to the edge that leaves point i. A nil Tags
// stands for zeros. A cut tags the edges it makes, so that one can tell afterwards what made which edge.
type Shape struct {
	Ring Ring
	Tags []int
}

func (s Shape) tag(i int) int {
	if s.Tags == nil {
		return 0
	}
	return s.Tags[i]
}

// chain is a run of the ring inside the half-plane, from where it comes in to where it goes out.
type chain struct {
	pts  []Pt
	tags []int // one less than points
	used bool
}

// Cut returns the pieces of the shape that lie in the half-plane. Edges that the cut makes carry the tag;
// an edge of the shape that lies along the cut already keeps its own. Points on the cut count as outside
// until the pieces are closed, so that a piece is never joined to another through a point or along a hair.
func (s Shape) Cut(h Half, tag int) []Shape {
	n := len(s.Ring)
	off := make([]float64, n)
	start, inside := -1, true
	for i, p := range s.Ring {
		off[i] = h.Off(p)
		inside = inside && off[i] <= 0
	}
	for i := range off {
		if off[i] >= 0 && off[(i+1)%n] < 0 {
			start = i
			break
		}
	}
	switch {
	case inside && n >= 3:
		return []Shape{{slices.Clone(s.Ring), slices.Clone(s.Tags)}}
	case start < 0:
		return nil
	}
	way := h.N.Left() // along the cut with the inside to the left
	if s.Ring.Area() < 0 {
		way = way.Mul(-1)
	}
	return joinChains(s.chains(off, start, way), way, tag)
}

// chains collects the runs inside, beginning at the edge that leaves point start. A run goes on along the
// cut where the ring does so with its material inside.
func (s Shape) chains(off []float64, start int, way Pt) []*chain {
	n := len(s.Ring)
	var all []*chain
	var cur *chain
	along := func(i int) bool { // the edge that leaves i lies on the cut, material inside
		i, j := (i+n)%n, (i+1+n)%n
		return off[i] == 0 && off[j] == 0 && s.Ring[j].Sub(s.Ring[i]).Dot(way) > 0
	}
	for k := 0; k < n; k++ {
		i, j := (start+k)%n, (start+k+1)%n
		a, b, u, v := s.Ring[i], s.Ring[j], off[i], off[j]
		switch {
		case u >= 0 && v < 0: // comes in
			m := 0 // points inside
			for m < n && off[(j+m)%n] < 0 {
				m++
			}
			cur = &chain{pts: append(make([]Pt, 0, m+2), a.Lerp(b, u/(u-v)), b), tags: append(make([]int, 0, m+1), s.tag(i))}
			first := i
			for u == 0 && along(first-1) {
				first = (first - 1 + n) % n
			}
			if first != i && off[(first-1+n)%n] > 0 { // else the run before has these edges
				var pts []Pt
				var tags []int
				for ; first != i; first = (first + 1) % n {
					pts, tags = append(pts, s.Ring[first]), append(tags, s.tag(first))
				}
				cur.pts, cur.tags = append(pts, cur.pts...), append(tags, cur.tags...)
			}
		case u < 0 && v < 0:
			cur.pts, cur.tags = append(cur.pts, b), append(cur.tags, s.tag(i))
		case u < 0: // goes out
			if v > 0 {
				b = a.Lerp(b, u/(u-v))
			}
			cur.pts, cur.tags = append(cur.pts, b), append(cur.tags, s.tag(i))
			for ; along(j); j = (j + 1) % n {
				cur.pts, cur.tags = append(cur.pts, s.Ring[(j+1)%n]), append(cur.tags, s.tag(j))
			}
			all = append(all, cur)
		}
	}
	return all
}

// joinChains closes the runs along the cut. In the order in which the ring's material lies along it the
// ends stand in pairs, one pair for each stretch of the cut that lies in the ring: one end that goes out,
// then one that comes in.
func joinChains(chains []*chain, way Pt, tag int) []Shape {
	type end struct {
		at float64
		of int
		in bool
	}
	var ends []end
	for k, c := range chains {
		ends = append(ends, end{way.Dot(c.pts[0]), k, true}, end{way.Dot(c.pts[len(c.pts)-1]), k, false})
	}
	sort.SliceStable(ends, func(i, j int) bool { return ends[i].at < ends[j].at })
	next := make([]int, len(chains)) // from the chain that goes out to the one that comes in
	for k := range ends {
		in := k%2 == 1
		for m := k; m < len(ends) && ends[m].at == ends[k].at; m++ { // ends in one point: the one whose turn it is
			if ends[m].in == in {
				ends[k], ends[m] = ends[m], ends[k]
				break
			}
		}
		if in {
			next[ends[k-1].of] = ends[k].of
		}
	}
	var out []Shape
	for k := range chains {
		var p Shape
		for j := k; !chains[j].used; j = next[j] {
			c := chains[j]
			c.used = true
			p.Ring = append(p.Ring, c.pts...)
			p.Tags = append(append(p.Tags, c.tags...), tag)
		}
		if p = p.tidy(); len(p.Ring) >= 3 {
			out = append(out, p)
		}
	}
	return out
}

// tidy drops points that coincide with the one before them.
func (s Shape) tidy() Shape {
	n := len(s.Ring)
	out := Shape{make(Ring, 0, n), make([]int, 0, n)}
	for i, p := range s.Ring {
		if p.Dist(s.Ring[(i+1)%n]) < onEdge {
			continue // the edge that leaves i has no length
		}
		out.Ring, out.Tags = append(out.Ring, p), append(out.Tags, s.tag(i))
	}
	return out
}

// Largest returns the piece with the greatest area, the zero value where there is none.
func Largest(pieces []Shape) Shape {
	var best Shape
	for _, p := range pieces {
		if math.Abs(p.Ring.Area()) > math.Abs(best.Ring.Area()) {
			best = p
		}
	}
	return best
}

// Stretches returns the parts of the segment ab that lie in the ring, from a to b.
func (r Ring) Stretches(a, b Pt) [][2]Pt {
	d := b.Sub(a)
	ts := []float64{0, 1}
	for i, u := range r {
		e := r[(i+1)%len(r)].Sub(u)
		den := d.Cross(e)
		if den == 0 {
			continue
		}
		t, s := u.Sub(a).Cross(e)/den, u.Sub(a).Cross(d)/den
		if s >= 0 && s <= 1 && t > 0 && t < 1 {
			ts = append(ts, t)
		}
	}
	sort.Float64s(ts)
	var out [][2]Pt
	for i := 1; i < len(ts); i++ {
		p, q := a.Along(d, ts[i-1]), a.Along(d, ts[i])
		if p != q && r.Holds(p.Lerp(q, 0.5)) {
			out = append(out, [2]Pt{p, q})
		}
	}
	return out
}
