package pack

import (
	"math"

	"ribwright/geom"
)

// item is a form in its place on a board, for one copy of a part.
type item struct {
	form, part int
	angle      float64
	at         geom.Pt // the form's origin
	off        geom.Pt
}

// spots are the places where a form can lie: corners of the free region. They are brought up to date when they are asked for.
type spots struct {
	begun bool
	seen  int // items that are taken into account
	pts   []geom.Pt
}

// board is one sheet being filled.
type board struct {
	b     *bench
	g     *ground
	items []item
	free  []spots // by form
	near  grid    // items
	area  float64 // of the parts on it
}

func (b *bench) newBoard(g *ground) *board {
	return &board{b: b, g: g, free: make([]spots, len(b.forms)), near: newGrid(g.lo, g.hi, b.reach/2)}
}

// put lays a part on the board.
func (o *board) put(part int, v variant, at geom.Pt) {
	o.items = append(o.items, item{form: v.form, part: part, angle: v.angle, at: at, off: v.off})
	o.near.add(at, len(o.items)-1)
	o.area += o.b.areas[part]
}

// room returns the box in which the form's origin must stay; ok is false where there is none.
func (o *board) room(f *form) (lo, hi geom.Pt, ok bool) {
	lo, hi = o.g.lo, geom.Pt{X: o.g.hi.X - f.w, Y: o.g.hi.Y - f.h}
	if hi.X < lo.X-hair || hi.Y < lo.Y-hair {
		return lo, hi, false
	}
	return lo, geom.Pt{X: max(lo.X, hi.X), Y: max(lo.Y, hi.Y)}, true
}

// spotsOf returns where the form can lie.
func (o *board) spotsOf(f int) []geom.Pt {
	s := &o.free[f]
	lo, hi, ok := o.room(o.b.forms[f])
	if !ok {
		return nil
	}
	c := crosser{o: o, f: f, lo: lo, hi: hi, out: s.pts}
	static := o.b.groundBar(o.g, f)
	if !s.begun {
		s.begun = true
		for _, p := range []geom.Pt{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}} {
			c.add(p)
		}
		if static != nil {
			c.alone(static, geom.Pt{})
		}
	}
	if s.seen > 0 && len(s.pts) == 0 {
		return nil // full once is full for ever
	}
	for ; s.seen < len(o.items); s.seen++ {
		it := o.items[s.seen]
		x := o.b.bar(it.form, f)
		kept := c.out[:0]
		for _, p := range c.out {
			if !x.holds(geom.Pt{X: p.X - it.at.X, Y: p.Y - it.at.Y}) {
				kept = append(kept, p)
			}
		}
		o.b.steps += 1 + len(c.out)/16
		c.out = kept
		c.alone(x, it.at)
		if static != nil {
			c.pair(x, it.at, static, geom.Pt{})
		}
		r := o.b.reach // two regions meet only where their boxes do
		lo, hi := x.lo.Add(it.at), x.hi.Add(it.at)
		o.near.each(geom.Pt{X: lo.X - r, Y: lo.Y - r}, geom.Pt{X: hi.X + r, Y: hi.Y + r}, func(k int) bool {
			if k < s.seen {
				c.pair(x, it.at, o.b.bar(o.items[k].form, f), o.items[k].at)
			}
			return true
		})
	}
	s.pts = c.out
	return s.pts
}

// isFree reports whether form f may lie at p, against everything on the board.
func (o *board) isFree(f int, p geom.Pt) bool {
	o.b.steps++
	if s := o.b.groundBar(o.g, f); s != nil {
		if s.holds(p) {
			return false
		}
		in := p.Add(o.b.forms[f].inner)
		if o.g.odd && !o.g.outline.Holds(in) {
			return false
		}
		for _, h := range o.g.holes {
			if h.Holds(in) {
				return false
			}
		}
	}
	free, r := true, o.b.reach
	fm := o.b.forms[f]
	g := o.b.job.Gap + o.b.tol
	o.near.each(geom.Pt{X: p.X - r, Y: p.Y - r}, geom.Pt{X: p.X + fm.w + g, Y: p.Y + fm.h + g}, func(k int) bool {
		it := &o.items[k]
		free = !o.b.bar(it.form, f).holds(geom.Pt{X: p.X - it.at.X, Y: p.Y - it.at.Y})
		return free
	})
	return free
}

// crosser collects corners of the free region of form f.
type crosser struct {
	o      *board
	f      int
	lo, hi geom.Pt
	out    []geom.Pt
}

// add takes p where it is free.
func (c *crosser) add(p geom.Pt) {
	if p.X < c.lo.X-hair || p.Y < c.lo.Y-hair || p.X > c.hi.X+hair || p.Y > c.hi.Y+hair {
		return
	}
	p = geom.Pt{X: min(max(p.X, c.lo.X), c.hi.X), Y: min(max(p.Y, c.lo.Y), c.hi.Y)}
	if c.o.isFree(c.f, p) {
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
	if y.lo.X+w.X > x.hi.X || y.hi.X+w.X < x.lo.X || y.lo.Y+w.Y > x.hi.Y || y.hi.Y+w.Y < x.lo.Y {
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
	var near [256]seg
	ys := near[:0]
	for _, e := range y.edge {
		e = seg{e.a.Add(w), e.b.Add(w)}
		if max(e.a.X, e.b.X) >= x.lo.X && min(e.a.X, e.b.X) <= x.hi.X && max(e.a.Y, e.b.Y) >= x.lo.Y && min(e.a.Y, e.b.Y) <= x.hi.Y {
			ys = append(ys, e)
		}
	}
	for _, e := range x.edge {
		lox, hix, loy, hiy := min(e.a.X, e.b.X), max(e.a.X, e.b.X), min(e.a.Y, e.b.Y), max(e.a.Y, e.b.Y)
		if hix < y.lo.X+w.X || lox > y.hi.X+w.X || hiy < y.lo.Y+w.Y || loy > y.hi.Y+w.Y {
			continue
		}
		for _, g := range ys {
			if max(g.a.X, g.b.X) < lox || min(g.a.X, g.b.X) > hix || max(g.a.Y, g.b.Y) < loy || min(g.a.Y, g.b.Y) > hiy {
				continue
			}
			if q, ok := meet(e, g); ok {
				c.add(q.Add(u))
			}
		}
	}
}

// meet returns the point where two segments that are not parallel meet.
func meet(e, g seg) (geom.Pt, bool) {
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
