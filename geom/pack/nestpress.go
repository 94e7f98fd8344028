package pack

import (
	"math"

	"ribwright/geom"
)

// pile is a board whose parts may overlap while it is sorted out. Every pair that overlaps is charged its depth, times a weight
// that grows as long as the pair does not come apart: so the search leaves places where it is stuck. (Guided local search;
// Voudouris and Tsang, 1999; for nesting Egeblad, Nielsen and Odgaard, "Fast neighborhood search for two- and
// three-dimensional nesting problems", 2007; from memory.)
type pile struct {
	b     *bench // its gap is wider than asked for by slack, so that depths up to slack are none
	g     *ground
	hi    geom.Pt // far corner of what may be used: the ground's, or nearer
	slack float64
	items []item
	wt    []float64 // weight of each pair, n × n
	edge  []float64 // weight of each item's depth over the sheet's edge
	rnd   *dice
}

// widened returns a bench with the same forms whose no-fit regions are wider by slack.
func (b *bench) widened(slack float64) *bench {
	w := *b
	w.job.Gap += slack
	w.job.Margin += slack
	w.reach += slack
	w.bars = make([][]*barred, len(b.forms))
	w.grounds, w.rows = nil, nil
	for _, g := range b.grounds {
		c := *g
		c.bars, c.rows = make([]*barred, len(b.forms)), nil
		w.grounds = append(w.grounds, &c)
	}
	return &w
}

func newPile(b *bench, g *ground, items []item, slack float64, rnd *dice) *pile {
	n := len(items)
	p := &pile{b: b, g: g, hi: g.hi, slack: slack, items: append([]item(nil), items...), rnd: rnd}
	p.wt, p.edge = make([]float64, n*n), make([]float64, n)
	p.calm()
	return p
}

// calm sets all weights to 1.
func (p *pile) calm() {
	for i := range p.wt {
		p.wt[i] = 1
	}
	for i := range p.edge {
		p.edge[i] = 1
	}
}

// charge returns what item i costs as form f at a place; once it is above limit, it may return.
func (p *pile) charge(i, f int, at geom.Pt, limit float64) float64 {
	p.b.steps++
	sum := 0.0
	if p.g.edges != nil {
		in := at.Add(p.b.forms[f].inner)
		if p.g.odd && !p.g.outline.Holds(in) {
			return math.Inf(1)
		}
		for _, h := range p.g.holes {
			if h.Holds(in) {
				return math.Inf(1)
			}
		}
		sum = float64(p.edge[i] * p.b.groundBar(p.g, f).depth(at, math.Inf(1)))
	}
	wt := p.wt[i*len(p.items) : (i+1)*len(p.items)]
	for j := range p.items {
		o := &p.items[j]
		n := p.b.bar(o.form, f)
		x, y := at.X-o.at.X, at.Y-o.at.Y
		if x <= n.lo.X || x >= n.hi.X || y <= n.lo.Y || y >= n.hi.Y || j == i {
			continue
		}
		if d := n.depth(geom.Pt{X: x, Y: y}, (limit-sum)/wt[j]); d > 0 {
			if sum += float64(wt[j] * d); sum > limit {
				return sum
			}
		}
	}
	return sum
}

// overlap returns the depths of all pairs that are too deep, and over the edge, and the sum.
func (p *pile) overlap(each func(i, j int, d float64)) float64 {
	sum := 0.0
	for i := range p.items {
		a := &p.items[i]
		if p.g.edges != nil {
			if d := p.b.groundBar(p.g, a.form).depth(a.at, math.Inf(1)); d > p.slack {
				sum += d
				each(i, i, d)
			}
		}
		for j := range p.items[:i] {
			o := &p.items[j]
			if d := p.b.bar(o.form, a.form).depth(a.at.Sub(o.at), math.Inf(1)); d > p.slack {
				sum += d
				each(i, j, d)
			}
		}
	}
	return sum
}

// room is the box of the places of form f.
func (p *pile) room(f *form) (lo, hi geom.Pt) {
	return p.g.lo, geom.Pt{X: max(p.g.lo.X, p.hi.X-f.w), Y: max(p.g.lo.Y, p.hi.Y-f.h)}
}

// takes reports whether form f goes into what may be used.
func (p *pile) takes(f *form) bool {
	return f.w <= p.hi.X-p.g.lo.X+hair && f.h <= p.hi.Y-p.g.lo.Y+hair
}

func clampPt(q, lo, hi geom.Pt) geom.Pt {
	return geom.Pt{X: min(max(q.X, lo.X), hi.X), Y: min(max(q.Y, lo.Y), hi.Y)}
}

// place is where an item might go, and what it would cost there.
type place struct {
	v    variant
	at   geom.Pt
	cost float64
}

// shift moves item i to the cheapest place it finds: of some anywhere and some near, the three best are followed downhill.
func (p *pile) shift(i int) {
	it := &p.items[i]
	now := p.charge(i, it.form, it.at, math.Inf(1))
	if now == 0 {
		return
	}
	own := variant{it.form, it.angle, it.off}
	top := [3]place{{own, it.at, now}, {cost: math.Inf(1)}, {cost: math.Inf(1)}}
	try := func(v variant, at geom.Pt) {
		c := p.charge(i, v.form, at, top[2].cost)
		for k := range top {
			if c < top[k].cost {
				copy(top[k+1:], top[k:2])
				top[k] = place{v, at, c}
				return
			}
		}
	}
	all := p.b.parts[it.part]
	for k := 0; k < 24; k++ {
		v := all[p.rnd.below(len(all))]
		f := p.b.forms[v.form]
		if !p.takes(f) {
			continue
		}
		lo, hi := p.room(f)
		try(v, geom.Pt{X: lo.X + float64(p.rnd.share()*(hi.X-lo.X)), Y: lo.Y + float64(p.rnd.share()*(hi.Y-lo.Y))})
	}
	mid := it.at.Add(geom.Pt{X: p.b.forms[it.form].w, Y: p.b.forms[it.form].h}.Mul(0.5))
	for k := 0; k < 16; k++ {
		v := all[p.rnd.below(len(all))]
		f := p.b.forms[v.form]
		if !p.takes(f) {
			continue
		}
		lo, hi := p.room(f)
		r := 0.5 * (f.w + f.h)
		q := geom.Pt{X: mid.X - float64(f.w/2) + float64(r*(p.rnd.share()-0.5)), Y: mid.Y - float64(f.h/2) + float64(r*(p.rnd.share()-0.5))}
		try(v, clampPt(q, lo, hi))
	}
	best := place{own, it.at, now}
	for k, t := range top {
		if math.IsInf(t.cost, 1) {
			break
		}
		if t = p.downhill(i, t, k == 0); t.cost < best.cost {
			best = t
		}
	}
	it.form, it.angle, it.off, it.at = best.v.form, best.v.angle, best.v.off, best.at
}

// downhill follows a place to a cheaper one near by, by steps along one axis or both that grow on success and shrink on failure.
func (p *pile) downhill(i int, t place, fine bool) place {
	f := p.b.forms[t.v.form]
	lo, hi := p.room(f)
	size := min(f.w, f.h)
	sx, sy := 0.08*size, 0.08*size
	least := 2e-3 * size
	if fine {
		least = max(p.slack/2, 2e-5*size)
	}
	for t.cost > 0 && max(sx, sy) > least {
		q := t.at
		kind := p.rnd.below(4)
		if kind != 1 {
			q.X += sx
		}
		if kind != 0 {
			q.Y += sy
		}
		r := t.at // and the other way
		if kind != 1 {
			r.X -= sx
		}
		if kind != 0 {
			r.Y -= sy
		}
		if kind == 3 {
			q.Y, r.Y = r.Y, q.Y
		}
		q, r = clampPt(q, lo, hi), clampPt(r, lo, hi)
		c := p.charge(i, t.v.form, q, t.cost)
		if d := p.charge(i, t.v.form, r, min(c, t.cost)); d < c {
			c, q = d, r
		}
		good := c < t.cost
		if good {
			t.cost, t.at = c, q
		}
		k := 0.5
		if good {
			k = 1.1
		}
		if kind != 1 {
			sx *= k
		}
		if kind != 0 {
			sy *= k
		}
	}
	return t
}

// separate sorts the pile out; false: it did not come apart within the passes allowed without any gain, or the effort is spent.
func (p *pile) separate(patience int) bool {
	n := len(p.items)
	best, idle := math.Inf(1), 0
	var bestItems []item
	bad := make([]bool, n)
	for {
		clear(bad)
		deepest := 0.0
		type pair struct {
			i, j int
			d    float64
		}
		var deep []pair
		sum := p.overlap(func(i, j int, d float64) {
			bad[i], bad[j] = true, true
			deepest = max(deepest, d)
			deep = append(deep, pair{i, j, d})
		})
		if sum == 0 {
			return true
		}
		if sum < 0.98*best {
			idle = 0
		} else {
			idle++
		}
		if sum < best {
			best, bestItems = sum, append(bestItems[:0], p.items...)
		}
		if idle > patience || p.b.out() {
			copy(p.items, bestItems)
			return false
		}
		for i := range p.wt {
			p.wt[i] = max(1, float64(0.95*p.wt[i]))
		}
		for i := range p.edge {
			p.edge[i] = max(1, float64(0.95*p.edge[i]))
		}
		for _, d := range deep {
			k := (1.2 + float64(0.8*d.d/deepest)) / 0.95
			if d.i == d.j {
				p.edge[d.i] *= k
			} else {
				p.wt[d.i*n+d.j] *= k
				p.wt[d.j*n+d.i] = p.wt[d.i*n+d.j]
			}
		}
		order := make([]int, 0, n)
		for i := range bad {
			if bad[i] {
				order = append(order, i)
			}
		}
		for k := len(order) - 1; k > 0; k-- {
			m := p.rnd.below(k + 1)
			order[k], order[m] = order[m], order[k]
		}
		for _, i := range order {
			p.shift(i)
		}
	}
}
