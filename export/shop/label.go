package shop

import (
	"cmp"
	"iter"
	"math"
	"slices"

	"ribwright/export"
	"ribwright/geom"
)

// Lettering is placed one label after another, the most tied down first. A label never crosses the box of
// another one, a leader, or the outline of a part; thin lines (marks, axes, ticks) it crosses only where
// every other place is far. Where it had to move away from what it names, a leader leads back.

// Costs of a place for a label, in mm of distance.
const (
	costThin   = 12  // crossing a thin line, which makes way
	costCut    = 60  // a leader that crosses a label or another leader, and is interrupted there
	costLeader = 3   // having a leader at all
	costCross  = 1.5 // a leader that crosses an outline: the first crossing, into the part, is unavoidable
	clearance  = 1.0 // mm of paper around a label
	dotRadius  = 0.5 // of the dot at a leader's end inside a part
	farthest   = 900 // mm: how far a label may move away
)

// quad is a turned rectangle: its corner, its unit axes and its size along them.
type quad struct {
	o, u, v geom.Pt
	w, h    float64
}

// textQuad returns the box of a text, d wider on every side.
func textQuad(t export.Text, d float64) quad {
	c, u := t.Corners(), geom.Polar(t.Angle)
	v := u.Left()
	return quad{c[0].Along(u, -d).Along(v, -d), u, v, c[0].Dist(c[1]) + 2*d, c[1].Dist(c[2]) + 2*d}
}

// boxQuad returns an upright box as a quad.
func boxQuad(b geom.Box) quad {
	return quad{b.Min, geom.Pt{X: 1}, geom.Pt{Y: 1}, b.W(), b.H()}
}

func (q quad) corners() [4]geom.Pt {
	a := q.o.Along(q.u, q.w)
	return [4]geom.Pt{q.o, a, a.Along(q.v, q.h), q.o.Along(q.v, q.h)}
}

func (q quad) box() geom.Box {
	c := q.corners()
	return geom.NewBox(c[:]...)
}

// within returns the shares of the segment ab between which it lies in the quad (Liang and Barsky's
// clipping against a rectangle, in the quad's own axes).
func (q quad) within(a, b geom.Pt) (t0, t1 float64, ok bool) {
	d, e := b.Sub(a), a.Sub(q.o)
	if t0, t1, ok = inStrip(e.Dot(q.u), d.Dot(q.u), q.w, 0, 1); !ok {
		return 0, 0, false
	}
	return inStrip(e.Dot(q.v), d.Dot(q.v), q.h, t0, t1)
}

// hair is what lies safely beyond the errors of rounding, mm.
const hair = 1e-6

// inStrip narrows the shares of a segment to those in a strip of a width: it begins at a place across the strip, and goes by so far.
func inStrip(at, by, size, t0, t1 float64) (from, to float64, ok bool) {
	if end := at + by; at < -hair && end < -hair || at > size+hair && end > size+hair {
		return 0, 0, false // most are told from it, without a division
	}
	if by == 0 {
		return t0, t1, at >= 0 && at <= size
	}
	lo, hi := -at/by, (size-at)/by
	from, to = max(t0, min(lo, hi)), min(t1, max(lo, hi))
	return from, to, from <= to
}

// meets reports whether two quads overlap: they do unless a side of one separates them.
func (q quad) meets(r quad) bool {
	return q.near(r) && !q.parts(r) && !r.parts(q)
}

// near reports whether the circles about two quads meet: most quads are told apart by that.
func (q quad) near(r quad) bool {
	d := q.middle().Sub(r.middle())
	reach := q.w + q.h + r.w + r.h // half of it is more than both radii
	return d.Dot(d) <= reach*reach/4
}

func (q quad) middle() geom.Pt { return q.o.Along(q.u, q.w/2).Along(q.v, q.h/2) }

func (q quad) parts(r quad) bool {
	lo, hi := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for _, c := range r.corners() {
		e := c.Sub(q.o)
		x, y := e.Dot(q.u), e.Dot(q.v)
		lo, hi = [2]float64{min(lo[0], x), min(lo[1], y)}, [2]float64{max(hi[0], x), max(hi[1], y)}
	}
	return hi[0] < 0 || lo[0] > q.w || hi[1] < 0 || lo[1] > q.h
}

// nearest returns the point of the quad that is nearest to p.
func (q quad) nearest(p geom.Pt) geom.Pt {
	e := p.Sub(q.o)
	return q.o.Along(q.u, max(0, min(q.w, e.Dot(q.u)))).Along(q.v, max(0, min(q.h, e.Dot(q.v))))
}

// candidate is a place for a label: its lines of lettering, or a number in a circle about their middle.
type candidate struct {
	texts  []export.Text
	circle float64      // radius; 0: none
	target geom.Pt      // what the label names
	lead   bool         // with a leader to the target
	tight  bool         // inside a stick, where the outline may stand near
	cost   float64      // of the place as such
	line   [][2]geom.Pt // the leader, once placed: whole, unless it had to cross lettering
	bare   bool         // the leader ends at lettering, where a dot has no room
}

// paper returns the width of blank paper around the label.
func (c *candidate) paper() float64 {
	if c.tight {
		return clearance / 5
	}
	return clearance
}

// appendQuads appends the label's boxes, d wider on every side.
func (c *candidate) appendQuads(out []quad, d float64) []quad {
	if c.circle > 0 {
		at := c.texts[0].At
		return append(out, boxQuad(geom.NewBox(at).Grow(c.circle+d)))
	}
	for _, t := range c.texts {
		out = append(out, textQuad(t, d))
	}
	return out
}

// leader returns the leader's line, from the label to the target.
func (c *candidate) leader() (a, b geom.Pt) {
	if c.circle > 0 {
		at := c.texts[0].At
		return at.Along(c.target.Sub(at).Unit(), c.circle), c.target
	}
	best := geom.Pt{X: math.Inf(1)}
	var few [2]quad
	for _, q := range c.appendQuads(few[:0], clearance/2) {
		if p := q.nearest(c.target); p.Dist(c.target) < best.Dist(c.target) {
			best = p
		}
	}
	return best, c.target
}

// placer knows what stands on the drawing already.
type placer struct {
	lines   lineGrid
	labels  []quad
	byPlace quadGrid // the labels again, to be found by their place
	leaders [][2]geom.Pt
	dots    []geom.Pt // at the leaders' ends
	scratch []quad
}

func newPlacer() *placer {
	return &placer{}
}

// clone returns a placer that goes on by itself.
func (p *placer) clone() *placer {
	return &placer{lines: p.lines.clone(), labels: slices.Clone(p.labels), byPlace: p.byPlace.clone(), leaders: slices.Clone(p.leaders), dots: slices.Clone(p.dots)}
}

// place takes the cheapest of the candidates and keeps its place free. Candidates come in the order of
// rising cost; of equals the first is taken. Where no leader comes through near by, it crosses what is in its
// way, and is interrupted there. It is not ok where none of the places is free.
func (p *placer) place(candidates iter.Seq[candidate]) (candidate, bool) {
	best, least := candidate{}, math.Inf(1)
	for c := range candidates {
		if c.cost >= least {
			break
		}
		if cost, ok := p.cost(&c, least); ok && cost < least {
			best, least = c, cost
		}
	}
	if math.IsInf(least, 1) {
		return best, false
	}
	if best.lead {
		best.line = p.gaps(best.leader())
		best.bare = slices.ContainsFunc(p.labels, func(q quad) bool { return q.nearest(best.target).Dist(best.target) < dotRadius })
	}
	p.take(&best)
	return best, true
}

func (p *placer) take(c *candidate) {
	p.labels = c.appendQuads(p.labels, c.paper())
	if c.lead {
		a, b := c.leader()
		p.leaders, p.dots = append(p.leaders, [2]geom.Pt{a, b}), append(p.dots, b)
	}
}

// taken takes the place of a text that stands where it stands.
func (p *placer) taken(t export.Text) candidate {
	c := candidate{texts: []export.Text{t}}
	p.take(&c)
	return c
}

// cost returns what a place costs; it gives up above the limit.
func (p *placer) cost(c *candidate, limit float64) (float64, bool) {
	sum := c.cost
	p.index()
	p.scratch = c.appendQuads(p.scratch[:0], c.paper())
	for _, q := range p.scratch {
		if p.byPlace.meets(q) {
			return 0, false
		}
		thin, ok := p.lines.thin(q)
		sum += float64(costThin * float64(thin))
		if !ok || sum >= limit {
			return 0, false
		}
		for _, l := range p.leaders {
			if _, _, hit := q.within(l[0], l[1]); hit {
				return 0, false
			}
		}
		for _, d := range p.dots {
			if q.nearest(d).Dist(d) < dotRadius {
				return 0, false
			}
		}
	}
	if !c.lead {
		return sum, true
	}
	if sum+costLeader >= limit {
		return 0, false
	}
	a, b := c.leader()
	sum += costLeader
	if p.over(a, b) {
		sum += costCut
	}
	if sum < limit {
		sum += float64(costCross * float64(p.lines.crossed(a, b)))
	}
	return sum, true
}

// over reports whether a leader crosses a label or another leader. At the target itself another one may end.
func (p *placer) over(a, b geom.Pt) bool {
	const end = 2 * dotRadius
	near := b.Along(a.Sub(b).Unit(), math.Min(end, a.Dist(b)))
	return p.byPlace.hit(a, b) || slices.ContainsFunc(p.leaders, func(l [2]geom.Pt) bool { return segmentsCross(a, near, l[0], l[1]) })
}

// index takes the labels that came since the last time into the grid.
func (p *placer) index() {
	for _, q := range p.labels[len(p.byPlace.quads):] {
		p.byPlace.add(q)
	}
}

// free returns the place nearest to a target for a leader to end, clear of lettering.
func (p *placer) free(target geom.Pt) geom.Pt {
	const tries = 8 // labels side by side
	p.index()
	for range tries {
		moved := false
		for k, q := range p.byPlace.quads {
			if !p.byPlace.boxes[k].Holds(target) {
				continue
			}
			if _, _, over := q.within(target, target); over {
				target, moved = q.leave(target), true
			}
		}
		if !moved {
			break
		}
	}
	return target
}

// leave moves a point in the quad out over its nearest edge; out of a short label over its ends, so that
// it stays on the stick whose number that is.
func (q quad) leave(p geom.Pt) geom.Pt {
	const short = 15
	e := p.Sub(q.o)
	x, y := e.Dot(q.u), e.Dot(q.v)
	best, out := math.Inf(1), geom.Pt{}
	for _, side := range [4]struct {
		depth float64
		way   geom.Pt
	}{{y, q.v.Mul(-1)}, {q.h - y, q.v}, {x, q.u.Mul(-1)}, {q.w - x, q.u}} {
		if side.depth < best && !(q.w < short && side.way.Cross(q.u) != 0) {
			best, out = side.depth, side.way
		}
	}
	return p.Along(out, best+dotRadius)
}

// gaps returns what is left of the segment ab outside of all labels. Scraps too short to be seen for a line
// are left out.
func (p *placer) gaps(a, b geom.Pt) [][2]geom.Pt {
	const scrap = 0.7
	p.index()
	hidden := p.byPlace.through(a, b)
	if len(hidden) == 0 {
		return [][2]geom.Pt{{a, b}}
	}
	slices.SortFunc(hidden, func(s, t [2]float64) int { return cmp.Compare(s[0], t[0]) })
	var out [][2]geom.Pt
	from := 0.0
	for _, h := range append(hidden, [2]float64{1, 1}) {
		if s, t := a.Lerp(b, from), a.Lerp(b, h[0]); h[0] > from && s.Dist(t) > scrap {
			out = append(out, [2]geom.Pt{s, t})
		}
		from = math.Max(from, h[1])
	}
	return out
}

// segmentsCross reports whether ab and cd have a point in common.
func segmentsCross(a, b, c, d geom.Pt) bool {
	u, v, w := b.Sub(a), d.Sub(c), c.Sub(a)
	den := u.Cross(v)
	if den == 0 {
		return false
	}
	s, t := w.Cross(v)/den, w.Cross(u)/den
	return s >= 0 && s <= 1 && t >= 0 && t <= 1
}
