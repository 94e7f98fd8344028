package shop

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/finding"
)

// page draws one page: the window with the field and the register marks, and the panel.
func (t *tiling) page(k int, marks []register, found []finding.Finding) export.Sheet {
	p := t.tiles[k]
	in := t.ink.within(p.Window.Move(p.Offset.Mul(-1)))
	var join []export.Item
	for _, g := range marks {
		switch p.Name {
		case g.a.Name:
			join = append(append(join, g.items...), g.onA...)
		case g.b.Name:
			join = append(append(join, g.items...), g.onB...)
		}
	}
	panel := &canvas{}
	panel.path(layerMap, geom.Rect(p.Window))
	t.panel(panel, k, found)
	return export.Sheet{Name: p.Name, W: t.w, H: t.h, Parts: []export.Part{
		{Clip: p.Window, Items: moved(in, p.Offset)},
		{Clip: p.Window, Items: moved(join, p.Offset)},
		{Items: panel.items},
	}}
}

// panel draws what every page says of itself.
func (t *tiling) panel(c *canvas, k int, found []finding.Finding) {
	m := t.paper.Margin
	square := geom.Pt{X: m, Y: m}
	text := geom.NewBox(geom.Pt{X: m + panelHigh, Y: m}, geom.Pt{X: t.w - m, Y: m + 100})
	if t.side {
		square.X = t.w - m - 100
		text = geom.NewBox(geom.Pt{X: square.X, Y: m + panelHigh}, geom.Pt{X: t.w - m, Y: t.h - m})
	}
	checkSquare(c, "check-100mm", "100 mm", square, 100)
	right := text // for the map: beside the words where there is room, else among them
	if text.W() > 190 {
		text.Max.X = text.Min.X + 100
		right.Min.X = text.Max.X + gutter
		t.words(c, text, k, found)
		t.overview(c, right, k)
		return
	}
	low, high := t.words(c, text, k, found), text
	high.Min.Y, high.Max.Y = low[0], low[1]
	t.overview(c, high, k)
}

// words letters the panel from the top and the cautions from the bottom, and returns what is left free
// between.
func (t *tiling) words(c *canvas, b geom.Box, k int, found []finding.Finding) (free [2]float64) {
	const nameHigh = 14.0
	p, doc := t.tiles[k], t.f.doc
	y := b.Max.Y - nameHigh
	c.write(layerFrame, p.Name, geom.Pt{X: b.Min.X, Y: y}, nameHigh, export.Left, true)
	c.write(layerTable, fmt.Sprintf("sheet %d of %d", k+1, len(t.tiles)), geom.Pt{X: b.Max.X, Y: b.Max.Y - medium}, medium, export.Right, false)
	c.write(layerTable, "scale 1:1", geom.Pt{X: b.Max.X, Y: y}, medium, export.Right, false)
	title := doc.Title
	if title == "" {
		title = t.f.r.Title
	}
	y -= 5
	for i, l := range wrap(title, large, b.W(), true) {
		if i == 1 {
			l = clip(strings.TrimPrefix(title, wrap(title, large, b.W(), true)[0]+" "), large, b.W()-5, true, "…")
		}
		if i < 2 {
			y -= large
			c.write(layerTable, l, geom.Pt{X: b.Min.X, Y: y}, large, export.Left, true)
			y -= 2.2
		}
	}
	for _, s := range t.facts() {
		for _, l := range wrap(s, small, b.W(), false) {
			y -= noteStep
			c.write(layerTable, l, geom.Pt{X: b.Min.X, Y: y}, small, export.Left, false)
		}
	}
	low := b.Min.Y
	lines := cautionLines(t.cautions(k, found), b.W())
	low += float64(float64(len(lines)) * noteStep)
	drawCautions(c, lines, geom.Pt{X: b.Min.X, Y: low})
	return [2]float64{low + 2, y - 4}
}

// facts returns the lines about the rib.
func (t *tiling) facts() []string {
	f := t.f
	first := fmt.Sprintf("chord %s, %s, %d to make", f.doc.Length(f.r.Chord), sectionName(f.doc), f.r.Count)
	if f.r.Title != "" && f.r.Title != f.doc.Title {
		first = f.r.Title + ": " + first
	}
	second := "units " + unitWord(f.doc.Units)
	if f.doc.Date != "" {
		second += ", " + f.doc.Date
	}
	return []string{first, second + ", drawn by ribwright"}
}

// cautions returns the sentences that stand on a page.
func (t *tiling) cautions(k int, found []finding.Finding) []caution {
	var all []caution
	if finding.HasError(found) {
		all = append(all, caution{"This rib has errors: do not build from this sheet.", true})
	}
	p := t.tiles[k]
	seen := []string{}
	for _, n := range t.f.notes {
		for _, at := range n.at {
			if p.Window.Holds(at.Add(p.Offset)) {
				seen = append(seen, strconv.Itoa(n.number))
				break
			}
		}
	}
	if len(seen) > 0 {
		all = append(all, caution{"Marked " + strings.Join(seen, ", ") + ": see the findings in the report.", false})
	}
	return append(all,
		caution{"Print at 100 %. Measure the square both ways before cutting.", false},
		caution{"Lay crosses of the same name on each other.", false},
		caution{"Follow the approved plans. Your inspector, the authority and licensed practice decide, not this program.", false})
}

// overview draws the map of the pages into a box: the rib, the pages, this page filled.
func (t *tiling) overview(c *canvas, b geom.Box, k int) {
	const heads = small + 1.5 // room for the rows' letters and the columns' numbers
	b.Min.X, b.Max.Y = b.Min.X+heads+1, b.Max.Y-heads
	low, high := t.core(t.rows-1, 0).Min, t.core(0, t.cols-1).Max
	zoom := math.Min(b.W()/(high.X-low.X), b.H()/(high.Y-low.Y))
	if zoom <= 0 || b.H() < 8 {
		return
	}
	zoom = math.Min(zoom, 0.1)
	top := b.Max.Y
	place := func(p geom.Pt) geom.Pt {
		return geom.Pt{X: b.Min.X + float64((p.X-low.X)*zoom), Y: top - float64((high.Y-p.Y)*zoom)}
	}
	cellOf := func(p Tile) geom.Path {
		q := t.core(p.row, p.column)
		return geom.Rect(geom.NewBox(place(q.Min), place(q.Max)))
	}
	c.fill(layerMap, cellOf(t.tiles[k]))
	for _, p := range t.tiles {
		c.path(layerMap, cellOf(p))
	}
	if o := t.f.r.Contour.Outline; len(o) > 0 {
		var small geom.Ring
		for _, p := range o { // as fine as the map shows
			if q := place(p); len(small) == 0 || q.Dist(small[len(small)-1]) > 0.3 {
				small = append(small, q)
			}
		}
		c.path(layerTable, small.Path())
	}
	for col := range t.cols {
		q := t.core(0, col)
		at := geom.Pt{X: place(q.Centre()).X, Y: top + 1.5}
		if q.W()*zoom > textWidth("00", small, false) {
			c.write(layerTable, strconv.Itoa(col+1), at, small, export.Center, false)
		}
	}
	for row := range t.rows {
		q := t.core(row, 0)
		if q.H()*zoom < 1.6*small {
			continue
		}
		c.write(layerTable, letters(row, 'A'), geom.Pt{X: b.Min.X - 1.5, Y: place(q.Centre()).Y - small/2}, small, export.Right, false)
	}
}
