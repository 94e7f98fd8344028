package pack

import (
	"math"
	"slices"

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
	b      *bench
	g      *ground
	items  []item
	free   []spots  // by form
	near   grid     // items
	area   float64  // of the parts on it
	least  float64  // no disc of this radius finds a place
	fields []*field // by probe
	rows   *board   // the same with nothing but the rows of discs that it was begun with; nil: none
}

func (b *bench) newBoard(g *ground) *board {
	return &board{b: b, g: g, free: make([]spots, len(b.forms)), near: newGrid(g.lo, g.hi, b.reach/2), least: math.Inf(1)}
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
	if o.rows != nil && !s.begun { // found once for all boards that begin with these rows
		o.rows.spotsOf(f)
		*s = o.rows.free[f]
		s.pts = slices.Clone(s.pts)
	}
	if s.begun && (s.seen == len(o.items) || s.seen > 0 && len(s.pts) == 0) {
		return s.pts // full once is full for ever
	}
	c := crosser{o: o, f: f, lo: lo, hi: hi, out: s.pts}
	if c.field, c.by, ok = o.probed(f); !ok {
		*s = spots{begun: true, seen: len(o.items)}
		return nil
	}
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
	for ; s.seen < len(o.items); s.seen++ {
		c.beside(s.seen, static)
	}
	s.pts = c.out
	return s.pts
}

// isFree reports whether form f may lie at p, against everything on the board. last is the item that is tried first, and then the
// one that was in the way.
func (o *board) isFree(f int, p geom.Pt, last *int) bool {
	o.b.steps++
	if *last < len(o.items) && o.blocks(*last, f, p) {
		return false
	}
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
		if free = !o.blocks(k, f, p); !free {
			*last = k
		}
		return free
	})
	return free
}

// blocks reports whether item k keeps form f from p.
func (o *board) blocks(k, f int, p geom.Pt) bool {
	it := &o.items[k]
	return o.mayMeet(it, f, p, p) && o.b.bar(it.form, f).holds(geom.Pt{X: p.X - it.at.X, Y: p.Y - it.at.Y})
}

// around returns a box that holds the item's no-fit region for form f, by the boxes of both forms: most regions lie out of the way and
// need not be made then.
func (o *board) around(it *item, f int) (lo, hi geom.Pt) {
	a, b, g := o.b.forms[it.form], o.b.forms[f], o.b.job.Gap+o.b.tol
	return geom.Pt{X: it.at.X - b.w - g, Y: it.at.Y - b.h - g}, geom.Pt{X: it.at.X + a.w + g, Y: it.at.Y + a.h + g}
}

// mayMeet reports whether the item's no-fit region for form f may reach into a box of places.
func (o *board) mayMeet(it *item, f int, lo, hi geom.Pt) bool {
	l, h := o.around(it, f)
	return h.X >= lo.X && l.X <= hi.X && h.Y >= lo.Y && l.Y <= hi.Y
}
