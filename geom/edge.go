package geom

import "math"

// edge is a line or an arc between two points, with what an arc needs worked out.
type edge struct {
	a, b   Pt
	bulge  float64
	c      Pt // of an arc
	r      float64
	t0, w  float64 // its start and its sweep
	inside bool    // lies nearer to the outline than d, whatever is said of its ends
}

func newEdge(a, b Pt, bulge float64) edge {
	e := edge{a: a, b: b, bulge: bulge}
	if bulge != 0 {
		e.c, e.r, e.t0, e.w = Arc(a, b, bulge)
	}
	return e
}

// at returns the point at share t.
func (e edge) at(t float64) Pt {
	switch {
	case t <= 0:
		return e.a
	case t >= 1:
		return e.b
	case e.bulge == 0:
		return e.a.Lerp(e.b, t)
	}
	return e.c.Along(Polar(e.t0+float64(e.w*t)), e.r)
}

// dir returns the unit tangent at share t.
func (e edge) dir(t float64) Pt {
	if e.bulge == 0 {
		return e.b.Sub(e.a).Unit()
	}
	u := Polar(e.t0 + float64(e.w*t)).Left()
	if e.w < 0 {
		return u.Mul(-1)
	}
	return u
}

func (e edge) length() float64 {
	if e.bulge == 0 {
		return e.a.Dist(e.b)
	}
	return float64(e.r * math.Abs(e.w))
}

// part returns the edge between two shares, with the ends given.
func (e edge) part(t, u float64, a, b Pt) edge {
	out := newEdge(a, b, 0)
	if e.bulge != 0 {
		out.bulge, out.c, out.r = math.Tan(float64(e.w*(u-t))/4), e.c, e.r
		out.t0, out.w = e.t0+float64(e.w*t), float64(e.w*(u-t))
	}
	out.inside = e.inside
	return out
}

// share returns where on the edge a point of its line or circle lies: 0 at a, 1 at b.
func (e edge) share(p Pt) float64 {
	if e.bulge == 0 {
		d := e.b.Sub(e.a)
		return p.Sub(e.a).Dot(d) / d.Dot(d)
	}
	q := math.Remainder(p.Sub(e.c).Angle()-(e.t0+float64(e.w/2)), 2*math.Pi) // from the middle
	return 0.5 + q/e.w
}

// distance returns the least distance from p to the edge.
func (e edge) distance(p Pt) float64 {
	if e.bulge == 0 {
		return math.Sqrt(segDist2(p, e.a, e.b))
	}
	if s := e.share(p); s >= 0 && s <= 1 {
		return math.Abs(p.Dist(e.c) - e.r)
	}
	return min(p.Dist(e.a), p.Dist(e.b))
}

// box returns bounds that may be wide of an arc.
func (e edge) box() Box {
	b := NewBox(e.a, e.b)
	if e.bulge == 0 {
		return b
	}
	return b.Grow(float64(math.Abs(e.bulge) * e.a.Dist(e.b) / 2 * max(1, math.Abs(e.bulge))))
}

// Distance returns the least distance from a point to the path, its closing line included.
func (p Path) Distance(q Pt) float64 { return p.Measure()(q) }

// Measure returns Distance for many points.
func (p Path) Measure() func(Pt) float64 {
	if c, r, ok := p.IsCircle(); ok {
		return func(q Pt) float64 { return math.Abs(q.Dist(c) - r) }
	}
	var edges []edge
	a := p.Start
	for _, s := range p.Segs {
		edges, a = append(edges, newEdge(a, s.End, s.Bulge)), s.End
	}
	if p.Closed {
		edges = append(edges, newEdge(a, p.Start, 0))
	}
	return func(q Pt) float64 {
		best := math.Inf(1)
		for i := range edges {
			best = min(best, edges[i].distance(q))
		}
		return best
	}
}

// meet returns where two edges cross or touch, as points with the shares along both.
func (e edge) meet(f edge) (out []hit) {
	if !e.box().Grow(onEdge).Meets(f.box()) {
		return nil
	}
	add := func(p Pt) {
		t, u := e.share(p), f.share(p)
		et, eu := onEdge/e.length(), onEdge/f.length()
		if t >= -et && t <= 1+et && u >= -eu && u <= 1+eu {
			out = append(out, hit{p, min(max(t, 0), 1), min(max(u, 0), 1)})
		}
	}
	switch {
	case e.bulge == 0 && f.bulge == 0:
		r, s := e.b.Sub(e.a), f.b.Sub(f.a)
		if den := r.Cross(s); den != 0 {
			add(e.a.Along(r, f.a.Sub(e.a).Cross(s)/den))
		}
	case e.bulge == 0:
		for _, p := range lineCircle(e.a, e.b, f.c, f.r) {
			add(p)
		}
	case f.bulge == 0:
		for _, p := range lineCircle(f.a, f.b, e.c, e.r) {
			add(p)
		}
	default:
		for _, p := range circleCircle(e.c, e.r, f.c, f.r) {
			add(p)
		}
	}
	return out
}

type hit struct {
	p    Pt
	t, u float64
}

func lineCircle(a, b, c Pt, r float64) []Pt {
	u := b.Sub(a).Unit()
	foot := a.Along(u, c.Sub(a).Dot(u))
	h := foot.Dist(c)
	if h >= r {
		return nil
	}
	s := math.Sqrt(float64((r - h) * (r + h)))
	return []Pt{foot.Along(u, -s), foot.Along(u, s)}
}

func circleCircle(c Pt, r float64, d Pt, s float64) []Pt {
	v := d.Sub(c)
	l := v.Len()
	if l < Coincident {
		return nil // about one centre
	}
	x := float64((l + float64(float64((r-s)/l)*(r+s))) / 2)
	h2 := float64((r - x) * (r + x))
	if h2 <= 0 {
		return nil
	}
	u, h := v.Unit(), math.Sqrt(h2)
	m := c.Along(u, x)
	return []Pt{m.Along(u.Left(), h), m.Along(u.Left(), -h)}
}
