package shop

import (
	"math"

	"ribwright/geom"
)

// furniture is what stands on a page beside the drawing, and where.
type furniture struct {
	panel      geom.Box
	square     geom.Box // to measure; empty where the page has no room for it
	across, up geom.Box // else a length in either direction
	odd        float64  // how odd the places are
}

// furnish finds places on a page for the words and for what is measured, in paper that has no ink and that
// no other page shows.
func (t *tiling) furnish(k int) (furniture, bool) {
	p := &t.tiles[k]
	p.free = t.free(p)
	widths := []float64{0} // the words have their place
	if t.lay.panel.Empty() {
		widths = t.panelWidths(p.free.box)
	}
	for _, square := range [2]bool{true, false} {
		with := placing{t: t, p: p, blank: t.blank(p), free: p.free.clone(), f: furniture{panel: t.lay.panel}}
		if square && !with.put(t.squareSide(), t.squareSide(), &with.f.square) {
			continue
		}
		for _, w := range widths {
			room := with
			room.free = with.free.clone()
			if room.rest(square, w) {
				return room.f, true
			}
		}
	}
	return furniture{}, false
}

// panelWidths returns the widths of the words that are tried where they stand in free paper.
func (t *tiling) panelWidths(free geom.Box) []float64 {
	cell := freeCell(free)
	if w := math.Floor(free.W()/cell) * cell; w >= panelWide && w < panelWidths[0] {
		return append([]float64{w}, panelWidths[:]...)
	}
	return panelWidths[:]
}

// blank returns the paper of a page that no other page shows, in rib axes.
func (t *tiling) blank(p *Tile) geom.Box {
	edge := func(core, shown, inward float64) float64 {
		if math.Abs(core-shown) < geom.Flat {
			return core + inward // clear of the window's frame
		}
		return core + float64(inward*t.paper.Overlap/2)
	}
	c, shown := p.core, p.shown()
	b := geom.NewBox(geom.Pt{X: edge(c.Min.X, shown.Min.X, 1), Y: edge(c.Min.Y, shown.Min.Y, 1)},
		geom.Pt{X: edge(c.Max.X, shown.Max.X, -1), Y: edge(c.Max.Y, shown.Max.Y, -1)})
	if t.lay.more > 0 && math.Abs(c.Max.X-shown.Max.X) < geom.Flat { // the end of a strip from a roll is left free
		b.Max.X += t.lay.more
	}
	return b
}

// inkAir is the air around the drawing's lines, mm.
const inkAir = 2.0

// free returns the paper of a page that has no ink and that no other page shows.
func (t *tiling) free(p *Tile) *freePaper {
	b := t.blank(p)
	free := newFreePaper(b.Move(p.Offset))
	if !t.band.Empty() {
		free.take(t.band.Move(p.Offset), inkAir) // between its rows a ruler would be read as one of them
	}
	near := b.Grow(inkAir)
	for i := range t.runs {
		if r := &t.runs[i]; r.box.Meets(near) {
			free.chain(r.lines, p.Offset, inkAir)
		}
	}
	return free
}

// placing is one try to find places on a page.
type placing struct {
	t     *tiling
	p     *Tile
	blank geom.Box // in rib axes
	free  *freePaper
	f     furniture
}

// rest finds places for everything but the square; words of no width have theirs already.
func (r *placing) rest(square bool, words float64) bool {
	t := r.t
	if words > 0 && !r.put(words, t.wording(words).h, &r.f.panel) {
		return false
	}
	if at, wide, long := t.lay.sheet.Min, rulerWide, t.rulerLong(); t.lay.across {
		if t.lay.up {
			r.f.up = geom.NewBox(at, at.Add(geom.Pt{X: wide, Y: long}))
			at.X += wide
		}
		r.f.across = geom.NewBox(at, at.Add(geom.Pt{X: long, Y: wide}))
	}
	if square || t.lay.up {
		return true
	}
	long := t.rulerLong()
	return (t.lay.across || r.outside(long, rulerWide, &r.f.across) || r.off(&r.f.across, false) || r.inside(long, rulerWide, &r.f.across)) &&
		(r.outside(rulerWide, long, &r.f.up) || r.off(&r.f.up, true) || r.inside(rulerWide, long, &r.f.up))
}

// What places are that are odd: in a strip that is cut off, and among the wood's lines, which could mislead a little.
const (
	oddCutOff = 0.5
	oddInside = 4.0
)

// off takes a strip that is cut off.
func (r *placing) off(into *geom.Box, up bool) bool {
	b := r.t.cutOff(r.p, up)
	if b.Empty() {
		return false
	}
	*into = b
	r.f.odd += oddCutOff
	return true
}

// cutOff returns the middle of the strip that is cut off a page's left or upper edge, where no drawing is, for a ruler;
// empty where it has no room.
func (t *tiling) cutOff(p *Tile, left bool) geom.Box {
	long, w, ink := t.rulerLong(), p.Window, p.ink
	size := geom.Pt{X: rulerWide, Y: long}
	at, room, depth := geom.Pt{X: w.Min.X, Y: w.Centre().Y - float64(long/2)}, w.H(), ink.Min.X-w.Min.X
	if !left {
		size = geom.Pt{X: long, Y: rulerWide}
		at, room, depth = geom.Pt{X: w.Centre().X - float64(long/2), Y: w.Max.Y - rulerWide}, w.W(), w.Max.Y-ink.Max.Y
	}
	if depth < rulerWide || room < long+4*crossRoom {
		return geom.Box{}
	}
	return geom.NewBox(at, at.Add(size))
}

// put takes the free place nearest to a corner, outside the rib if there is one.
func (r *placing) put(w, h float64, into *geom.Box) bool {
	return r.outside(w, h, into) || r.inside(w, h, into)
}

func (r *placing) outside(w, h float64, into *geom.Box) bool {
	o, box := r.t.f.r.Contour.Outline, r.t.f.rib
	return r.take(w, h, into, func(b geom.Box) bool {
		at := b.Centre().Sub(r.p.Offset)
		return !(box.Holds(at) && o.Holds(at))
	})
}

// inside takes any place.
func (r *placing) inside(w, h float64, into *geom.Box) bool {
	r.f.odd += oddInside
	return r.take(w, h, into, nil)
}

func (r *placing) take(w, h float64, into *geom.Box, fit func(geom.Box) bool) bool {
	if !r.t.lay.roll && !r.t.room.mayFit(r.blank, w, h, fit != nil) {
		return false
	}
	b, ok := r.free.find(w, h, fit)
	if ok {
		*into = b
		r.free.take(b, panelAir)
	}
	return ok
}
