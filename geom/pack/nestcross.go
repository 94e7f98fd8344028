package pack

import (
	"math"

	"ribwright/geom"
)

// crosser collects corners of the free region of form f.
type crosser struct {
	o      *board
	f      int
	lo, hi geom.Pt // the form's room
	field  *field  // of the form's probe, or nil
	by     geom.Pt // from the form's place to the probe's
	out    []geom.Pt
	last   int   // the item that was last found in the way: it is the likeliest for the next place
	near   []seg // room for pair
}

// beside brings the corners up to date with item i, which is the first that they do not know. static are the edges of the sheet, or nil.
func (c *crosser) beside(i int, static *barred) {
	o, it := c.o, &c.o.items[i]
	kept := c.out[:0]
	for _, p := range c.out {
		if !o.blocks(i, c.f, p) {
			kept = append(kept, p)
		}
	}
	o.b.steps += 1 + len(c.out)/16
	c.out = kept
	lo, hi := o.around(it, c.f)
	if c.isDead(lo, hi) {
		return
	}
	x := o.b.bar(it.form, c.f)
	c.alone(x, it.at)
	if static != nil {
		c.pair(x, it.at, static, geom.Pt{})
	}
	r := o.b.reach // two regions meet only where their boxes do
	o.near.each(geom.Pt{X: lo.X - r, Y: lo.Y - r}, geom.Pt{X: hi.X + r, Y: hi.Y + r}, func(k int) bool {
		if other := &o.items[k]; k < i && o.mayMeet(other, c.f, lo, hi) {
			c.pair(x, it.at, o.b.bar(other.form, c.f), other.at)
		}
		return true
	})
}

// isDead reports whether the form's probe says that there is no place in the box.
func (c *crosser) isDead(lo, hi geom.Pt) bool {
	return c.field != nil && c.field.isDead(lo.Add(c.by), hi.Add(c.by))
}

// add takes p where it is free.
func (c *crosser) add(p geom.Pt) {
	if p.X < c.lo.X-hair || p.Y < c.lo.Y-hair || p.X > c.hi.X+hair || p.Y > c.hi.Y+hair || c.isDead(p, p) {
		return
	}
	p = geom.Pt{X: min(max(p.X, c.lo.X), c.hi.X), Y: min(max(p.Y, c.lo.Y), c.hi.Y)}
	if c.o.isFree(c.f, p, &c.last) {
		c.out = append(c.out, p)
	}
}

// alone adds the region's own corners, and its crossings with the sides of the box.
func (c *crosser) alone(n *barred, at geom.Pt) {
	if n.hi.X+at.X < c.lo.X || n.lo.X+at.X > c.hi.X || n.hi.Y+at.Y < c.lo.Y || n.lo.Y+at.Y > c.hi.Y {
		return
	}
	for _, p := range n.spots {
		c.add(p.Add(at))
	}
	corners := [4]geom.Pt{c.lo, {X: c.hi.X, Y: c.lo.Y}, c.hi, {X: c.lo.X, Y: c.hi.Y}}
	for k, p := range corners {
		side := seg{p, corners[(k+1)%4]}
		if !side.meets(n.lo.Add(at), n.hi.Add(at)) {
			continue
		}
		for _, e := range n.edge {
			if q, ok := meet(seg{e.a.Add(at), e.b.Add(at)}, side); ok {
				c.add(q)
			}
		}
		for _, b := range n.blocks {
			if b.r > 0 {
				c.circleSeg(b.c.Add(at), b.r, side)
			}
		}
	}
}

// pair adds the crossings of two regions' boundaries.
func (c *crosser) pair(x *barred, u geom.Pt, y *barred, v geom.Pt) {
	w := v.Sub(u)
	// where the boxes of both meet within the room, seen from u
	lo := geom.Pt{X: max(x.lo.X, y.lo.X+w.X, c.lo.X-u.X-hair), Y: max(x.lo.Y, y.lo.Y+w.Y, c.lo.Y-u.Y-hair)}
	hi := geom.Pt{X: min(x.hi.X, y.hi.X+w.X, c.hi.X-u.X+hair), Y: min(x.hi.Y, y.hi.Y+w.Y, c.hi.Y-u.Y+hair)}
	if lo.X > hi.X || lo.Y > hi.Y || c.isDead(lo.Add(u), hi.Add(u)) {
		return
	}
	c.o.b.steps++
	for _, b := range x.blocks {
		if b.r == 0 {
			break
		}
		for _, d := range y.blocks {
			if d.r > 0 {
				c.circles(b.c.Add(u), b.r, d.c.Add(v), d.r)
			}
		}
		for _, e := range y.edge {
			c.circleSeg(b.c.Add(u), b.r, seg{e.a.Add(v), e.b.Add(v)})
		}
	}
	for _, d := range y.blocks {
		if d.r == 0 {
			break
		}
		for _, e := range x.edge {
			c.circleSeg(d.c.Add(v), d.r, seg{e.a.Add(u), e.b.Add(u)})
		}
	}
	if x.up > 0 && y.up > 0 {
		c.convex(x, u, y, w, lo, hi)
		return
	}
	ys := c.near[:0]
	for _, e := range y.edge {
		if e = (seg{e.a.Add(w), e.b.Add(w)}); e.meets(lo, hi) {
			ys = append(ys, e)
		}
	}
	c.near = ys
	for _, e := range x.edge {
		if !e.meets(lo, hi) {
			continue
		}
		for _, g := range ys {
			if q, ok := meet(e, g); ok {
				c.add(q.Add(u))
			}
		}
	}
}

// convex is pair for two convex polygons, y moved by w against x, within a box: their edges rise from the lowest corner to the highest
// and fall again, so that of the one's edges only those at the height of an edge of the other's are looked at.
func (c *crosser) convex(x *barred, u geom.Pt, y *barred, w, lo, hi geom.Pt) {
	rise, fall := 0, len(y.edge)-1
	try := func(e, g seg) {
		if q, ok := meet(e, seg{g.a.Add(w), g.b.Add(w)}); ok {
			c.add(q.Add(u))
		}
	}
	for _, e := range x.edge {
		if !e.meets(lo, hi) {
			continue
		}
		low, high := max(min(e.a.Y, e.b.Y), lo.Y)-w.Y, min(max(e.a.Y, e.b.Y), hi.Y)-w.Y
		for rise > 0 && y.edge[rise-1].b.Y >= low {
			rise--
		}
		for rise < y.up-1 && y.edge[rise].b.Y < low {
			rise++
		}
		for k := rise; k < y.up && y.edge[k].a.Y <= high; k++ {
			try(e, y.edge[k])
		}
		for fall < len(y.edge)-1 && y.edge[fall+1].a.Y >= low {
			fall++
		}
		for fall > y.up && y.edge[fall].a.Y < low {
			fall--
		}
		for k := fall; k >= y.up && y.edge[k].b.Y <= high; k-- {
			try(e, y.edge[k])
		}
	}
}

// meets reports whether the segment's box and another have a point in common.
func (e seg) meets(lo, hi geom.Pt) bool {
	return max(e.a.X, e.b.X) >= lo.X && min(e.a.X, e.b.X) <= hi.X && max(e.a.Y, e.b.Y) >= lo.Y && min(e.a.Y, e.b.Y) <= hi.Y
}

// meet returns the point where two segments that are not parallel meet.
func meet(e, g seg) (geom.Pt, bool) {
	if max(g.a.X, g.b.X) < min(e.a.X, e.b.X) || min(g.a.X, g.b.X) > max(e.a.X, e.b.X) ||
		max(g.a.Y, g.b.Y) < min(e.a.Y, e.b.Y) || min(g.a.Y, g.b.Y) > max(e.a.Y, e.b.Y) {
		return geom.Pt{}, false
	}
	d, h := e.b.Sub(e.a), g.b.Sub(g.a)
	den := d.Cross(h)
	if den == 0 {
		return geom.Pt{}, false
	}
	q := g.a.Sub(e.a)
	t, s := q.Cross(h)/den, q.Cross(d)/den
	const slack = 1e-9
	if t < -slack || t > 1+slack || s < -slack || s > 1+slack {
		return geom.Pt{}, false
	}
	return e.a.Along(d, t), true
}

// circleSeg adds the points where a circle meets a segment.
func (c *crosser) circleSeg(m geom.Pt, r float64, e seg) {
	if max(e.a.X, e.b.X) < m.X-r || min(e.a.X, e.b.X) > m.X+r || max(e.a.Y, e.b.Y) < m.Y-r || min(e.a.Y, e.b.Y) > m.Y+r {
		return
	}
	d, a := e.b.Sub(e.a), e.a.Sub(m)
	dd := d.Dot(d)
	h := a.Cross(d)
	disc := float64(r*r*dd) - float64(h*h)
	if disc < 0 || dd == 0 {
		return
	}
	w := math.Sqrt(disc) / dd
	for _, t := range [2]float64{-a.Dot(d)/dd - w, -a.Dot(d)/dd + w} {
		if t >= -1e-9 && t <= 1+1e-9 {
			c.add(e.a.Along(d, t))
		}
	}
}

// circles adds the points where two circles meet.
func (c *crosser) circles(m geom.Pt, r float64, n geom.Pt, s float64) {
	d := n.Sub(m)
	l := d.Len()
	if l == 0 || l > r+s || l < math.Abs(r-s) {
		return
	}
	// the common chord stands at the distance x from m
	x := (float64(l*l) + float64(r*r) - float64(s*s)) / (2 * l)
	h := math.Sqrt(math.Max(0, float64(r*r)-float64(x*x)))
	e := d.Mul(1 / l)
	foot := m.Along(e, x)
	c.add(foot.Along(e.Left(), h))
	c.add(foot.Along(e.Left(), -h))
}
