package pack

import (
	"cmp"
	"math"
	"slices"

	"ribwright/geom"
)

// form is a part turned to one of its angles, as a shape: parts and angles that give the same shape share one.
// Its frame has the lower left corner of its box at the origin.
type form struct {
	ring   geom.Ring   // counter-clockwise; for a disc the square about it
	cores  []geom.Ring // convex, their union is the ring; for a disc its centre alone
	radius float64     // of a disc, else 0
	w, h   float64
	body   geom.Box // of the outline itself, which may lie inside the ring by a tolerance
	area   float64  // of the part itself
	inner  geom.Pt  // a point inside
	middle geom.Pt  // of a disc that lies in it
	core   float64  // its radius
	probe  int      // form of a disc that it holds, see readyProbes
}

// block is a convex region: a disc about c, or what lies to the left of every edge v[k] v[k+1].
type block struct {
	lo, hi geom.Pt // box
	c      geom.Pt // its middle
	r      float64 // 0: a polygon
	v      geom.Ring
	e      []line  // its edges
	first  [8]int  // by the octant of a place as seen from c: the edge that is looked at first
	wide   float64 // half its least width: no place lies deeper
}

// line is an edge's line, the points p with n·p = d; n is a unit vector that points outward.
type line struct {
	n geom.Pt
	d float64
}

// depth returns how far p lies inside the block, its distance from the nearest edge, where that is more than floor; else 0.
func (b *block) depth(p geom.Pt, floor float64) float64 {
	if p.X-b.lo.X <= floor || b.hi.X-p.X <= floor || p.Y-b.lo.Y <= floor || b.hi.Y-p.Y <= floor {
		return 0
	}
	if b.r > 0 {
		x, y := p.X-b.c.X, p.Y-b.c.Y
		s, r := float64(x*x)+float64(y*y), b.r-floor
		if s >= float64(r*r) || r <= 0 {
			return 0
		}
		return b.r - math.Sqrt(s)
	}
	least := math.Inf(1)
	from := b.first[octant(p.X-b.c.X, p.Y-b.c.Y)]
	for _, part := range [2][]line{b.e[from:], b.e[:from]} {
		for k := range part {
			e := &part[k]
			in := e.d - (float64(e.n.X*p.X) + float64(e.n.Y*p.Y))
			if in <= floor {
				return 0
			}
			if in < least {
				least = in
			}
		}
	}
	return least
}

// octant returns which eighth of the directions the vector lies in.
func octant(x, y float64) int {
	o := 0
	if y < 0 {
		o, x, y = 4, -x, -y
	}
	if x < 0 {
		o, x, y = o+2, y, -x
	}
	if y > x {
		o++
	}
	return o
}

// newBlock returns the block of a convex ring, nil where it has no area.
func newBlock(v geom.Ring) *block {
	v = tidyRing(v)
	if len(v) < 3 {
		return nil
	}
	b := &block{v: v, e: make([]line, len(v)), c: middle(v), wide: math.Inf(1)}
	far := 1 // the corner farthest from an edge: it goes round with the edges
	for k, p := range v {
		n := v[(k+1)%len(v)].Sub(p).Unit().Left().Mul(-1)
		b.e[k] = line{n, n.Dot(p)}
		for next := (far + 1) % len(v); n.Dot(v[next]) < n.Dot(v[far]); next = (far + 1) % len(v) {
			far = next
		}
		b.wide = min(b.wide, (b.e[k].d-n.Dot(v[far]))/2)
	}
	for o := range b.first {
		dir := geom.Polar((float64(o) + 0.5) * math.Pi / 4)
		for k, e := range b.e {
			if dir.Dot(e.n) > dir.Dot(b.e[b.first[o]].n) {
				b.first[o] = k
			}
		}
	}
	box := v.Box()
	b.lo, b.hi = box.Min, box.Max
	return b
}

// seg is a straight stretch of a boundary.
type seg struct{ a, b geom.Pt }

// barred is the no-fit region of a form beside another that stands at the origin: the places of the second form's
// origin where the two are nearer than the gap. Its boundary are the places where they touch.
type barred struct {
	lo, hi geom.Pt
	blocks []*block  // the widest first
	edge   []seg     // straight parts of the boundary
	up     int       // of one convex polygon: how many of its edges rise, the first ones; else 0
	spots  []geom.Pt // corners of the boundary that point inward; those that point outward are nobody's best place
}

// holds reports whether p lies inside by more than a hair.
func (n *barred) holds(p geom.Pt) bool {
	if p.X <= n.lo.X || p.X >= n.hi.X || p.Y <= n.lo.Y || p.Y >= n.hi.Y {
		return false
	}
	for _, b := range n.blocks {
		if b.depth(p, hair) > 0 {
			return true
		}
	}
	return false
}

// depth returns how deep p lies inside the region, by the block it is deepest in; 0 outside. Once it is above enough, it may return.
func (n *barred) depth(p geom.Pt, enough float64) float64 {
	if p.X <= n.lo.X || p.X >= n.hi.X || p.Y <= n.lo.Y || p.Y >= n.hi.Y {
		return 0
	}
	most := 0.0
	for _, b := range n.blocks {
		if b.wide <= most || most > enough {
			break
		}
		most = max(most, b.depth(p, most))
	}
	return most
}

// bar returns the no-fit region of b beside a: the Minkowski sum of a and −b, grown by the gap (Cuninghame-Green, "Geometry,
// shoemaking and the milk tray problem", 1989; from memory). Parts are unions of convex cores, and so is the sum of the sums of their cores.
// Round corners of the growth are drawn by tangents within tol of them.
func bar(a, b *form, gap, tol float64) *barred {
	r := a.radius + b.radius + gap
	out := &barred{}
	var blocks []*block
	for _, p := range a.cores {
		for _, q := range b.cores {
			if len(p) == 1 && len(q) == 1 {
				c := p[0].Sub(q[0])
				blocks = append(blocks, &block{c: c, r: r, wide: r, lo: geom.Pt{X: c.X - r, Y: c.Y - r}, hi: geom.Pt{X: c.X + r, Y: c.Y + r}})
			} else if k := newBlock(grown(convexSum(p, q), r, tol)); k != nil {
				blocks = append(blocks, k)
			}
		}
	}
	out.blocks = dropBlocks(blocks)
	slices.SortStableFunc(out.blocks, func(a, b *block) int { return cmp.Compare(b.wide, a.wide) })
	out.trace()
	return out
}

// convexSum returns the Minkowski sum of p and −q, both convex and counter-clockwise; either may be a point or a segment.
func convexSum(p, q geom.Ring) geom.Ring {
	m := make(geom.Ring, len(q))
	for i, v := range q {
		m[i] = geom.Pt{X: -v.X, Y: -v.Y}
	}
	pts := make([]geom.Pt, 0, len(p)+len(q))
	if len(p) < 3 || len(m) < 3 {
		for _, a := range p {
			for _, b := range m {
				pts = append(pts, a.Add(b))
			}
		}
		return convexHull(pts)
	}
	i0, j0 := lowest(p), lowest(m)
	for i, j := 0, 0; i < len(p) || j < len(m); { // the edges of both in the order of their directions
		a, b := p[(i0+i)%len(p)], m[(j0+j)%len(m)]
		pts = append(pts, a.Add(b))
		turn := p[(i0+i+1)%len(p)].Sub(a).Cross(m[(j0+j+1)%len(m)].Sub(b))
		first, second := j >= len(m) || turn >= 0, i >= len(p) || turn <= 0
		if first && i < len(p) {
			i++
		}
		if second && j < len(m) {
			j++
		}
	}
	return convexRing(pts)
}

// lowest returns the index of the lowest point, of several the leftmost.
func lowest(r geom.Ring) int {
	at := 0
	for i, p := range r {
		if p.Y < r[at].Y || (p.Y == r[at].Y && p.X < r[at].X) {
			at = i
		}
	}
	return at
}

// grown returns the convex ring (or point, or segment) grown by r, its round corners drawn by tangents within tol of them.
func grown(v geom.Ring, r, tol float64) geom.Ring {
	if r <= 0 {
		return v
	}
	step := math.Min(1.2, 2*math.Acos(r/(r+tol))) // two tangents that differ by it meet r/cos(step/2) from the corner
	n := len(v)
	out := make(geom.Ring, 0, 2*n+int(2*math.Pi/step))
	for i, p := range v {
		var from, sweep float64
		if n == 1 {
			from, sweep = 0, 2*math.Pi
		} else {
			u, w := p.Sub(v[(i+n-1)%n]), v[(i+1)%n].Sub(p)
			from = u.Left().Mul(-1).Angle()
			sweep = math.Atan2(u.Cross(w), u.Dot(w))
			if n == 2 {
				sweep = math.Pi
			}
		}
		k := max(1, int(math.Ceil(sweep/step)))
		s := sweep / float64(k)
		for j := 0; j < k; j++ {
			out = append(out, p.Along(geom.Polar(from+float64(s*(float64(j)+0.5))), r/math.Cos(s/2)))
		}
	}
	return convexRing(out)
}

// dropBlocks drops blocks that lie wholly in another.
func dropBlocks(bs []*block) []*block {
	if len(bs) < 2 {
		return bs
	}
	var out []*block
	for i, b := range bs {
		covered := false
		for j, o := range bs {
			if i == j || covered || b.lo.X < o.lo.X-hair || b.lo.Y < o.lo.Y-hair || b.hi.X > o.hi.X+hair || b.hi.Y > o.hi.Y+hair {
				continue
			}
			in := b.r == 0 && o.r == 0
			for k := 0; in && k < len(b.v); k++ {
				in = offBlock(o, b.v[k]) <= 1e-9
			}
			covered = in && (j < i || !sameRegion(b.v, o.v))
		}
		if !covered {
			out = append(out, b)
		}
	}
	return out
}

func offBlock(o *block, p geom.Pt) float64 {
	off := math.Inf(-1)
	for _, e := range o.e {
		off = max(off, e.n.Dot(p)-e.d)
	}
	return off
}

// trace finds the boundary: the stretches of the blocks' edges that lie inside no other block, and the ends where it was cut.
func (n *barred) trace() {
	var box geom.Box
	if len(n.blocks) == 1 {
		n.edge = make([]seg, 0, len(n.blocks[0].v))
	}
	for i, b := range n.blocks {
		box = box.Add(b.lo).Add(b.hi)
		for k, p := range b.v {
			q := b.v[(k+1)%len(b.v)]
			open := []span{{0, 1}}
			for j, o := range n.blocks {
				if j != i && len(open) > 0 {
					if s, ok := o.inside(p, q); ok {
						open = without(open, s)
					}
				}
			}
			for _, s := range open {
				e := seg{p.Lerp(q, s.a), p.Lerp(q, s.b)}
				if s.a == 0 {
					e.a = p
				}
				if s.b == 1 {
					e.b = q
				}
				n.edge = append(n.edge, e)
				if s.a > 0 || n.touched(i, p) {
					n.spots = append(n.spots, e.a)
				}
				if s.b < 1 {
					n.spots = append(n.spots, e.b)
				}
			}
		}
	}
	n.lo, n.hi = box.Min, box.Max
	if len(n.blocks) == 1 {
		first := 0
		for k, e := range n.edge {
			if a := n.edge[first].a; e.a.Y < a.Y || e.a.Y == a.Y && e.a.X < a.X {
				first = k
			}
		}
		n.edge = slices.Concat(n.edge[first:], n.edge[:first])
		for n.up < len(n.edge) && n.edge[n.up].b.Y >= n.edge[n.up].a.Y {
			n.up++
		}
	}
}

// touched reports whether p, a corner of block i, lies in another block or on its edge.
func (n *barred) touched(i int, p geom.Pt) bool {
	for j, o := range n.blocks {
		if j != i && offBlock(o, p) < hair {
			return true
		}
	}
	return false
}

// span is a stretch of a segment, in shares of its length.
type span struct{ a, b float64 }

// inside returns the stretch of pq that lies inside the block by more than a hair.
func (b *block) inside(p, q geom.Pt) (span, bool) {
	s := span{0, 1}
	if max(p.X, q.X) < b.lo.X || min(p.X, q.X) > b.hi.X || max(p.Y, q.Y) < b.lo.Y || min(p.Y, q.Y) > b.hi.Y {
		return s, false
	}
	for _, e := range b.e {
		u, v := e.d-hair-e.n.Dot(p), e.d-hair-e.n.Dot(q)
		switch {
		case u <= 0 && v <= 0:
			return s, false
		case u < 0:
			s.a = max(s.a, u/(u-v))
		case v < 0:
			s.b = min(s.b, u/(u-v))
		}
	}
	return s, s.a < s.b && len(b.e) > 0
}

// without returns the spans less s.
func without(all []span, s span) []span {
	var out []span
	for _, t := range all {
		if s.b <= t.a || s.a >= t.b {
			out = append(out, t)
			continue
		}
		if s.a > t.a {
			out = append(out, span{t.a, s.a})
		}
		if s.b < t.b {
			out = append(out, span{s.b, t.b})
		}
	}
	return out
}
