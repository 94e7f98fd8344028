package shop

import (
	"fmt"
	"math"
	"strconv"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/fasten"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// Sizes of the sheet of plates, mm.
const (
	plateGap   = 6.0  // between two plates, and between rows
	plateRow   = 600  // a row's length, unless a plate is longer
	cutterLine = 0.13 // the finest pen of ISO 128-2, for machines that follow the line
)

// Plates returns the cut file of gussets and web: every plate of the rib once, in rows on one sheet, with its marks,
// its name engraved, where its fasteners go on its first face, and how many are needed for all ribs (of one face: for left ribs as drawn, for right ones turned over), and a square of 100 mm to measure. Plates are moved,
// never turned, so that outlines stay exactly the rib's; a full circle stays one. No kerf is taken off.
func Plates(r *rib.Rib, doc *ribfile.Doc, clamps fasten.Pattern) export.Drawing {
	pen := export.Pen{Width: cutterLine}
	d := export.Drawing{Title: doc.Title, Layers: []export.Layer{
		{ID: layerCheck, Pen: pen}, {ID: layerName, Pen: pen}, {ID: layerMark, Pen: pen}, {ID: layerClamp, Pen: pen}, {ID: layerCut, Pen: pen},
	}}
	c := &canvas{}
	strokeSquare(c, geom.Pt{})

	// Rows stand to the right of the square, plates with their feet on the row's line.
	left := 100.0 + 2*plateGap
	length := float64(plateRow)
	for _, g := range r.Gussets {
		length = math.Max(length, left+g.Outline.Box().W())
	}
	x, y, high := left, 100.0, 0.0
	var row []export.Item
	lay := func() { // a row hangs from its top, so its line is known once it is full
		c.items = append(c.items, move(row, geom.Pt{Y: y - high})...)
		x, y, high, row = left, y-high-plateGap, 0, row[:0]
	}
	for i, g := range r.Gussets {
		if len(g.Outline.Segs) == 0 {
			continue
		}
		items := plate(c, g, clamps.Marks(i, g.On()[0]), howMany(r, g.On()))
		b := bounds(items)
		if x > left && x+b.W() > length {
			lay()
		}
		row = append(row, move(items, geom.Pt{X: x - b.Min.X, Y: -b.Min.Y})...)
		x, high = x+b.W()+plateGap, math.Max(high, b.H())
	}
	if len(row) > 0 || len(r.Web.Outline) == 0 {
		lay()
	}
	if len(r.Web.Outline) > 0 { // in a row of its own, holes before the outline
		items := web(c, r.Web, howMany(r, r.Web.On()))
		b := bounds(items)
		row, high = move(items, geom.Pt{X: x - b.Min.X, Y: -b.Min.Y}), b.H()
		lay()
	}
	return finishPlates(d, c)
}

// finishPlates moves what was laid out onto the sheet.
func finishPlates(d export.Drawing, c *canvas) export.Drawing {
	b := bounds(c.items)
	sheet := export.Sheet{Name: "gusset plates", W: math.Ceil(b.W() + 2*sheetMargin), H: math.Ceil(b.H() + 2*sheetMargin)}
	offset := geom.Pt{X: sheetMargin - b.Min.X, Y: sheet.H - sheetMargin - b.Max.Y}
	sheet.Parts = []export.Part{{Items: move(c.items, offset)}}
	d.Sheets = []export.Sheet{sheet}
	return d
}

// howMany says how many of a plate on some faces all ribs need; of one face, those of right ribs are turned over.
func howMany(r *rib.Rib, faces []int) string {
	if len(faces) == 1 && r.Mirrored > 0 {
		return fmt.Sprintf("left ×%d, right (turned over) ×%d", r.Count-r.Mirrored, r.Mirrored)
	}
	return "×" + strconv.Itoa(len(faces)*r.Count)
}

// strokeSquare draws a square of 100 mm and what it is for, in single strokes.
func strokeSquare(c *canvas, at geom.Pt) {
	const side = 100
	c.part(layerCheck, "check-100mm", geom.Rect(geom.NewBox(at, at.Add(geom.Pt{X: side, Y: side}))))
	c.strokes(layerName, export.Text{S: "100 mm × 100 mm: measure", At: at.Add(geom.Pt{X: side / 2, Y: -medium - 2}), Height: medium, Anchor: export.Center})
	c.strokes(layerName, export.Text{S: "before cutting", At: at.Add(geom.Pt{X: side / 2, Y: -2*medium - 4}), Height: medium, Anchor: export.Center})
}

// leastMark is the length of a mark, mm, below which it is too short to see.
const leastMark = 0.3

// plate draws one plate where it stands on the rib, with its name inside where there is room between the marks, and
// below how many there are to make. The sheet's canvas gives the ID. All lettering is single strokes: the name is
// engraved with the marks, the number stands on a layer of its own.
func plate(sheet *canvas, g rib.Gusset, clamps [][2]geom.Pt, many string) []export.Item {
	const lettering = 32 // strokes
	marks := make([][2]geom.Pt, len(g.Marks))
	for i, m := range g.Marks {
		marks[i] = [2]geom.Pt{m.A, m.B}
	}
	marks = markLines(g.Outline, marks)
	c := canvas{items: make([]export.Item, 0, 1+len(marks)+len(clamps)+lettering)}
	c.items = append(c.items, export.Item{Layer: layerCut, ID: sheet.unique("plate-" + g.ID), Path: g.Outline})
	for _, l := range marks {
		c.line(layerMark, l[0], l[1])
	}
	for _, l := range clamps {
		c.line(layerClamp, l[0], l[1])
	}
	b, s := g.Outline.Box(), many
	if t, ok := engraveBeside(g.Outline, marks, clamps, g.ID); ok {
		c.strokes(layerMark, t)
	} else {
		s = g.ID + " " + s
	}
	c.strokes(layerName, export.Text{S: s, At: geom.Pt{X: b.Centre().X, Y: b.Min.Y - small - 1.5}, Height: small, Anchor: export.Center})
	return c.items
}

// web draws the web as plate draws a plate.
func web(sheet *canvas, w rib.Web, many string) []export.Item {
	c := canvas{}
	region := w.Region()
	for i, h := range region.Holes {
		c.items = append(c.items, export.Item{Layer: layerCut, ID: sheet.unique("plate-web-" + w.Holes[i].Spar), Path: h})
	}
	c.items = append(c.items, export.Item{Layer: layerCut, ID: sheet.unique("plate-" + webID), Path: region.Outer})
	var marks [][2]geom.Pt
	for _, m := range w.Marks {
		marks = append(marks, [2]geom.Pt{m.A, m.B})
	}
	marks = markLines(region.Outer, marks)
	for _, l := range marks {
		c.line(layerMark, l[0], l[1])
	}
	b, s := w.Outline.Box(), many
	if t, ok := engrave(slit(region.Outer, region.Holes), marks, webID); ok {
		c.strokes(layerMark, t)
	} else {
		s = webID + " " + s
	}
	c.strokes(layerName, export.Text{S: s, At: geom.Pt{X: b.Centre().X, Y: b.Min.Y - small - 1.5}, Height: small, Anchor: export.Center})
	return c.items
}
