package pack

import (
	"math"

	"ribwright/geom"
)

// Strip lays the parts out on one strip of the width given (along y, from 0) and of open length (along x,
// from 0), as short as it can, and returns the length. The job's sheets are not looked at.
func Strip(job NestJob, width float64) (Layout, float64) {
	long := float64(2 * job.Margin)
	for _, p := range job.Parts {
		b := p.Outline.Box()
		if l := float64(float64(max(p.Count, 0)) * (geom.Pt{X: b.W(), Y: b.H()}.Len() + job.Gap)); finite(geom.Pt{X: l}) {
			long += l
		}
	}
	long = min(long, 1e7)
	job.Sheets = []Sheet{{Outline: geom.Ring{{}, {X: long}, {X: long, Y: width}, {Y: width}}, Count: 1}}
	b, why := newBench(job)
	for i := range why {
		if why[i] == TooLarge || why[i] == NoSheet {
			why[i] = TooWide
		}
	}
	var l Layout
	length := 0.0
	if seq := b.sequence(why, &l); len(seq) > 0 {
		if o := b.strip(seq); o != nil {
			length = o.end() + job.Margin
			o.g.area = float64(length * width)
			layout{boards: []*board{o}}.write(b, &l)
		} else {
			layout{rest: seq}.write(b, &l)
		}
	}
	l.Steps = b.steps
	return l, length
}

// end returns the x of the part that reaches farthest.
func (o *board) end() float64 {
	x := o.g.lo.X
	for _, it := range o.items {
		x = max(x, it.at.X+o.b.forms[it.form].w)
	}
	return x
}

// strip lays all parts on the one ground there is, in as short a length as it finds; nil: they do not all find a place. First
// they go by size, corner by corner; then the strip is shortened again and again, and what overlaps is sorted out.
func (b *bench) strip(seq []int) *board {
	var best *board
	for _, s := range b.orders(seq) {
		for _, r := range []rule{{x: 1, y: 1e-3, far: true}, {x: 1, y: 1e-3}, {x: 1, y: 0.2, far: true}} {
			if best != nil && b.out() {
				return best
			}
			if o, rest := b.fillBoard(b.grounds[0], s, r); len(rest) == 0 && (best == nil || o.end() < best.end()) {
				best = o
			}
		}
	}
	if best == nil {
		return nil
	}
	return b.shorten(best)
}

// shorten shortens the strip as long as the effort lasts.
func (b *bench) shorten(best *board) *board {
	var size float64
	for _, it := range best.items {
		f := b.forms[it.form]
		size += (f.w + f.h) / 2 / float64(len(best.items))
	}
	var rnd dice
	slack := max(1e-4*size, 10*hair)
	w := b.widened(slack)
	p := newPile(w, w.grounds[0], best.items, slack, &rnd)
	least := 0.0 // no strip is shorter than its longest part
	for _, it := range best.items {
		m := math.Inf(1)
		for _, v := range b.parts[it.part] {
			if f := b.forms[v.form]; f.h <= b.grounds[0].hi.Y-b.grounds[0].lo.Y+hair {
				m = min(m, f.w)
			}
		}
		least = max(least, b.grounds[0].lo.X+m)
	}
	left := b.grounds[0].lo.X
	cut, fails := 0.01, 0
	for !w.out() {
		to := max(least, best.end()-float64(cut*(best.end()-left)))
		if best.end()-least < slack {
			break
		}
		if fails <= 1 || fails == 3 { // else on from where it stuck
			p.items = append(p.items[:0], best.items...)
		}
		if fails > 2 {
			p.stir(fails == 3)
		}
		p.hi.X = to
		for i := range p.items {
			it := &p.items[i]
			for _, v := range b.parts[it.part] {
				if !p.takes(b.forms[it.form]) && p.takes(b.forms[v.form]) { // only turned does it still go in
					it.form, it.angle, it.off = v.form, v.angle, v.off
				}
			}
			lo, hi := p.room(b.forms[it.form])
			it.at = clampPt(it.at, lo, hi)
		}
		p.calm()
		if p.separate(40) {
			if o := p.board(b, b.grounds[0]); o != nil {
				best, fails = o, 0
				continue
			}
		}
		if fails++; fails > 5 {
			if fails, cut = 0, cut/2; cut < 5e-4 {
				cut = 0.01
			}
		}
	}
	b.steps, b.stopped = w.steps, w.stopped
	return best
}

// board returns the pile as a board of the bench b, nil where two outlines are too near after all.
func (p *pile) board(b *bench, g *ground) *board {
	o := b.newBoard(g)
	for _, it := range p.items {
		if !o.clear(it.form, it.at) {
			return nil
		}
		o.put(it.part, variant{it.form, it.angle, it.off}, it.at)
	}
	return o
}

// stir lets a large part change places with another, gently with one of about its size, so that the search begins elsewhere.
func (p *pile) stir(gently bool) {
	area := func(k int) float64 { return p.b.forms[p.items[k].form].area }
	i := p.rnd.below(len(p.items))
	for range 3 {
		if k := p.rnd.below(len(p.items)); area(k) > area(i) {
			i = k
		}
	}
	j, best := -1, math.Inf(1)
	for range 6 {
		k := p.rnd.below(len(p.items))
		d := math.Log(area(i) / area(k))
		if gently {
			d = math.Abs(d)
		}
		if p.items[k].form != p.items[i].form && d < best {
			j, best = k, d
		}
	}
	if j >= 0 {
		p.items[i].at, p.items[j].at = p.items[j].at, p.items[i].at
	}
}
