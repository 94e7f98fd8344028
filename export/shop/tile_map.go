package shop

import (
	"math"
	"strconv"

	"ribwright/export"
	"ribwright/geom"
)

// chart is the map of the pages at some scale.
type chart struct {
	at   geom.Pt // of the upper left corner of what it shows
	high geom.Pt // that corner in rib axes
	zoom float64
}

func (m chart) place(p geom.Pt) geom.Pt {
	return geom.Pt{X: m.at.X + float64((p.X-m.high.X)*m.zoom), Y: m.at.Y - float64((m.high.Y-p.Y)*m.zoom)}
}

func (m chart) box(b geom.Box) geom.Box { return geom.NewBox(m.place(b.Min), m.place(b.Max)) }

// drawMap draws the map into a box: the pages with their rows' letters and columns' numbers, this page filled, and the rib.
func (t *tiling) drawMap(c *canvas, b geom.Box, k int) {
	const heads = small + 1.5 // room for the letters and numbers
	b.Min.X, b.Max.Y = b.Min.X+heads+1, b.Max.Y-heads
	m := t.chart(b)
	if m.zoom <= 0 {
		return
	}
	c.fill(layerMap, geom.Rect(m.box(t.tiles[k].core)))
	t.drawPages(c, m)
	t.drawRib(c, m, 0.3, false)
	narrow := false // some numbers find no room: only this page's is written
	for _, p := range t.tiles {
		narrow = narrow || m.box(p.core).W() < textWidth(strconv.Itoa(p.column+1), small, false)+1
	}
	for i, p := range t.tiles {
		q := m.box(p.core)
		if word := strconv.Itoa(p.column + 1); !t.rows && (t.uppermost(p) && !narrow || i == k && narrow) {
			c.write(layerTable, word, geom.Pt{X: q.Centre().X, Y: m.at.Y + 1.5}, small, export.Center, false)
		}
		if word := letters(p.row, 'A'); (t.rows || t.even) && t.leftmost(p) && q.H() > 1.3*small {
			c.write(layerTable, word, geom.Pt{X: m.at.X - 1.5, Y: q.Centre().Y - small/2}, small, export.Right, false)
		}
	}
}

// chart fits what all pages show into the upper left of a box.
func (t *tiling) chart(b geom.Box) chart {
	o := t.overview
	return chart{geom.Pt{X: b.Min.X, Y: b.Max.Y}, geom.Pt{X: o.Min.X, Y: o.Max.Y}, math.Min(b.W()/o.W(), b.H()/o.H())}
}

func (t *tiling) drawPages(c *canvas, m chart) {
	for _, p := range t.tiles {
		c.path(layerMap, geom.Rect(m.box(p.core)))
	}
}

// drawRib draws the rib as fine as the map shows, with its sticks and plates where wanted.
func (t *tiling) drawRib(c *canvas, m chart, fine float64, all bool) {
	draw := func(o geom.Ring) {
		var r geom.Ring
		for _, p := range o {
			if q := m.place(p); len(r) == 0 || q.Dist(r[len(r)-1]) > fine {
				r = append(r, q)
			}
		}
		if len(r) > 1 {
			c.path(layerTable, r.Path())
		}
	}
	draw(t.f.r.Contour.Outline)
	for _, s := range t.f.r.Spars {
		draw(s.Opening)
	}
	if !all {
		return
	}
	for _, s := range t.f.r.Sticks {
		draw(s.Outline)
	}
	for _, s := range t.f.r.Blocks {
		draw(s.Outline)
	}
}

// uppermost and leftmost report whether a page is the first of its column, of its row.
func (t *tiling) uppermost(p Tile) bool {
	for _, q := range t.tiles {
		if q.column == p.column && q.core.Max.Y > p.core.Max.Y {
			return false
		}
	}
	return true
}

func (t *tiling) leftmost(p Tile) bool {
	for _, q := range t.tiles {
		if q.row == p.row && q.core.Min.X < p.core.Min.X {
			return false
		}
	}
	return true
}

// bigMap is the map that is drawn large, once, where a page has room for it.
type bigMap struct {
	page int
	box  geom.Box
}

// largeMap finds the page with most room for the map, next to everything else that stands there.
func (t *tiling) largeMap() bigMap {
	none := bigMap{page: -1}
	if len(t.tiles) == 1 {
		return none
	}
	free := make([]*freePaper, len(t.tiles))
	for k := range t.tiles {
		p := &t.tiles[k]
		free[k] = p.free.clone()
		for _, b := range [...]geom.Box{p.furniture.panel, p.furniture.square, p.furniture.across, p.furniture.up} {
			if !b.Empty() {
				free[k].take(b, panelAir)
			}
		}
	}
	o := t.overview
	for _, w := range [...]float64{400, 320, 260, 210, 170, 140} {
		h := float64(w*o.H()/o.W()) + headRoom
		if w > o.W()/2 {
			continue
		}
		for k := range t.tiles {
			p := &t.tiles[k]
			b, ok := free[k].find(w, h, func(b geom.Box) bool { return !t.f.r.Contour.Outline.Holds(b.Centre().Sub(p.Offset)) })
			if ok {
				return bigMap{k, b}
			}
		}
	}
	return none
}

// headRoom is the room for the large map's heading.
const headRoom = 7.0

// draw draws the large map: the rib with its sticks, and every page with its name.
func (m bigMap) draw(t *tiling, c *canvas) {
	c.write(layerTable, "The sheets: lay crosses of one name on each other", geom.Pt{X: m.box.Min.X, Y: m.box.Max.Y - medium}, medium, export.Left, true)
	b := m.box
	b.Max.Y -= headRoom
	ch := t.chart(b)
	var lines geom.Ring
	for _, p := range t.f.r.Contour.Outline {
		lines = append(lines, ch.place(p))
	}
	t.drawPages(c, ch)
	t.drawRib(c, ch, 0.2, true)
	for _, p := range t.tiles {
		q := ch.box(p.core)
		w := textWidth(p.Name, medium, true)
		for _, at := range [...]geom.Pt{{X: q.Min.X + 1.2, Y: q.Max.Y - medium - 1.2}, {X: q.Min.X + 1.2, Y: q.Min.Y + 1.2},
			{X: q.Max.X - 1.2 - w, Y: q.Max.Y - medium - 1.2}, {X: q.Max.X - 1.2 - w, Y: q.Min.Y + 1.2}} {
			room := textQuad(export.Text{S: p.Name, At: at, Height: medium, Bold: true}, 0.6)
			if room.w < q.W() && !crossedBy(room, lines) {
				c.write(layerTable, p.Name, at, medium, export.Left, true)
				break
			}
		}
	}
}

// crossedBy reports whether an outline runs through a quad, or goes around it.
func crossedBy(q quad, o geom.Ring) bool {
	for i := range o {
		if _, _, hit := q.within(o[i], o[(i+1)%len(o)]); hit {
			return true
		}
	}
	return o.Holds(q.middle())
}
