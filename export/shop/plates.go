package shop

import (
	"math"
	"strconv"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// Sizes of the sheet of plates, mm.
const (
	plateGap   = 6.0  // between two plates, and between rows
	plateRow   = 600  // a row's length, unless a plate is longer
	cutterLine = 0.13 // the finest pen of ISO 128-2, for machines that follow the line
)

// Plates returns the gussets' cut file: every plate of the rib once, in rows on one sheet, with its marks,
// its name and how many are needed for all ribs, and a square of 100 mm to measure. Plates are moved,
// never turned, so that outlines stay exactly the rib's; a full circle stays one. No kerf is taken off.
func Plates(r *rib.Rib, doc *ribfile.Doc) export.Drawing {
	pen := export.Pen{Width: cutterLine}
	d := export.Drawing{Title: doc.Title, Layers: []export.Layer{
		{ID: layerCheck, Pen: pen}, {ID: layerName, Pen: pen}, {ID: layerMark, Pen: pen}, {ID: layerCut, Pen: pen},
	}}
	c := &canvas{}
	checkSquare(c, "check-100mm", "100 mm", geom.Pt{}, 100)

	// Rows stand to the right of the square, plates with their feet on the row's line.
	left := 100.0 + 2*plateGap
	length := float64(plateRow)
	for _, g := range r.Gussets {
		length = math.Max(length, left+g.Outline.Box().W())
	}
	x, y, high := left, 100.0, 0.0
	var row []export.Item
	lay := func() { // a row hangs from its top, so its line is known once it is full
		c.items = append(c.items, moved(row, geom.Pt{Y: y - high})...)
		x, y, high, row = left, y-high-plateGap, 0, nil
	}
	for _, g := range r.Gussets {
		if len(g.Outline.Segs) == 0 {
			continue
		}
		items := plate(c, g, r.Count)
		b := bounds(items)
		if x > left && x+b.W() > length {
			lay()
		}
		row = append(row, moved(items, geom.Pt{X: x - b.Min.X, Y: -b.Min.Y})...)
		x, high = x+b.W()+plateGap, math.Max(high, b.H())
	}
	lay()
	return finishPlates(d, c)
}

// finishPlates moves what was laid out onto the sheet.
func finishPlates(d export.Drawing, c *canvas) export.Drawing {
	b := bounds(c.items)
	sheet := export.Sheet{Name: "gusset plates", W: math.Ceil(b.W() + 2*sheetMargin), H: math.Ceil(b.H() + 2*sheetMargin)}
	offset := geom.Pt{X: sheetMargin - b.Min.X, Y: sheet.H - sheetMargin - b.Max.Y}
	sheet.Parts = []export.Part{{Items: moved(c.items, offset)}}
	d.Sheets = []export.Sheet{sheet}
	return d
}

// leastMark is the length of a mark, mm, below which it is too short to see.
const leastMark = 0.3

// plate draws one plate where it stands on the rib, with its name inside where there is room between the
// marks, else below. The sheet's canvas gives the ID.
func plate(sheet *canvas, g rib.Gusset, ribs int) []export.Item {
	c := canvas{}
	p := newPlacer()
	p.lines.add(g.Outline, true)
	c.items = append(c.items, export.Item{Layer: layerCut, ID: sheet.unique("plate-" + g.ID), Path: g.Outline})
	ring, b := geom.Ring(g.Outline.Flatten(geom.Flat)), g.Outline.Box()
	for _, m := range g.Marks { // a trimmed plate's centre may lie off it
		for _, l := range ring.Stretches(m.A, m.B) {
			if l[0].Dist(l[1]) >= leastMark {
				c.line(layerMark, l[0], l[1])
				p.lines.addLine(l[0], l[1], true)
			}
		}
	}
	s := g.ID + " ×" + strconv.Itoa(g.Faces*ribs)
	const step = 1.0
	label, ok := p.place(func(yield func(candidate) bool) {
		for k := range int(b.H() / step) {
			for i := range int(b.W() / step) {
				d := geom.Pt{X: step * turn(i), Y: step * turn(k)}
				one := candidate{texts: []export.Text{centred(s, b.Centre().Add(d), small, 0, false)}, cost: float64(1000*k) + math.Abs(d.X)}
				if one.in(ring) && !yield(one) {
					return
				}
			}
		}
	})
	if ok {
		c.text(layerName, label.texts[0])
	} else {
		c.write(layerName, s, geom.Pt{X: b.Centre().X, Y: b.Min.Y - small - 1.5}, small, export.Center, false)
	}
	return c.items
}
