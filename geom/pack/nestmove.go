package pack

import (
	"slices"
)

// tighten moves parts to earlier sheets, pushing others together to make room, until the effort is spent. A part without a
// place, or one from the last sheet, is put on an earlier one, alone or for a smaller part that goes the other way.
func (b *bench) tighten(l layout) layout {
	if len(l.boards) == 0 || (len(l.boards) < 2 && len(l.rest) == 0) || b.own == 0 {
		return l
	}
	size := 0.0
	for _, f := range b.forms[:b.own] {
		size += (f.w + f.h) / 2 / float64(b.own)
	}
	slack := max(1e-4*size, 10*hair)
	w := b.widened(slack)
	var rnd dice
	vain := 0
	for vain < 400 && !w.out() && (len(l.boards) > 1 || len(l.rest) > 0) {
		vain++
		if w.moveOne(&l, b, slack, &rnd, vain%2 == 0) {
			vain = 0
		}
	}
	b.steps, b.stopped = w.steps, w.stopped
	return l
}

// moveOne tries to bring one part to an earlier sheet; exchange says whether a smaller one may go back for it.
func (b *bench) moveOne(l *layout, strict *bench, slack float64, rnd *dice, exchange bool) bool {
	last := len(l.boards) - 1
	targets := last
	var part, from int
	if len(l.rest) > 0 {
		from, targets = rnd.below(len(l.rest)), last+1
		part = l.rest[from]
	} else {
		from = rnd.below(len(l.boards[last].items))
		part = l.boards[last].items[from].part
	}
	at := rnd.below(targets)
	o := l.boards[at]
	area := b.forms[b.parts[part][0].form].area
	items := slices.Clone(o.items)
	out := -1
	if exchange {
		out = rnd.below(len(items))
		for range 3 {
			if k := rnd.below(len(items)); b.forms[items[k].form].area > b.forms[items[out].form].area && b.forms[items[k].form].area < area*(1-1e-6) {
				out = k
			}
		}
		if b.forms[items[out].form].area >= area*(1-1e-6) {
			return false
		}
	}
	var back item
	if out >= 0 {
		back = items[out]
		items = slices.Delete(items, out, out+1)
		if o.area-b.forms[back.form].area+area > 0.98*o.g.area {
			return false
		}
	} else if o.area+area > 0.98*o.g.area {
		return false
	}
	g := b.groundOf(o.g)
	p := newPile(b, g, append(items, item{}), slack, rnd)
	if !p.drop(len(items), part) || !p.separate(12) {
		return false
	}
	fresh := p.board(strict, o.g)
	if fresh == nil {
		return false
	}
	if len(l.rest) > 0 {
		l.boards[at] = fresh
		l.rest = slices.Delete(slices.Clone(l.rest), from, from+1)
		if out >= 0 {
			l.rest = append(l.rest, back.part)
		}
		return true
	}
	old := l.boards[last]
	rest := strict.newBoard(old.g)
	for k, it := range old.items {
		if k != from {
			rest.put(it.part, variant{it.form, it.angle, it.off}, it.at)
		}
	}
	if out >= 0 && !rest.putBest(back.part, rules[0]) {
		return false
	}
	l.boards[at], l.boards[last] = fresh, rest
	if len(rest.items) == 0 {
		l.boards = l.boards[:last]
	}
	return true
}

// groundOf returns the bench's own copy of a ground.
func (b *bench) groundOf(g *ground) *ground {
	for _, o := range b.grounds {
		if o.sheet == g.sheet {
			return o
		}
	}
	return g
}

// drop lays item i, a copy of the part, where it overlaps least of some places; false: it has no place at all.
func (p *pile) drop(i, part int) bool {
	all := p.b.parts[part]
	best := place{cost: -1}
	for range 200 {
		v := all[p.rnd.below(len(all))]
		f := p.b.forms[v.form]
		if !p.takes(f) {
			continue
		}
		lo, hi := p.room(f)
		q := lo
		q.X += float64(p.rnd.share() * (hi.X - lo.X))
		q.Y += float64(p.rnd.share() * (hi.Y - lo.Y))
		limit := best.cost
		if limit < 0 {
			limit = 1e300
		}
		if c := p.charge(i, v.form, q, limit); c < limit {
			best = place{v, q, c}
		}
	}
	if best.cost < 0 {
		return false
	}
	p.items[i] = item{form: best.v.form, part: part, angle: best.v.angle, off: best.v.off, at: best.at}
	return true
}
