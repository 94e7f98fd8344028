package shop

import (
	"fmt"
	"math"
	"slices"

	"ribwright/export"
	"ribwright/export/gcode"
	"ribwright/geom"
	"ribwright/geom/cut"
	"ribwright/geom/ribfile"
)

// Holes returns where the pilot drill of the hole saw goes, full size, a page for each different sheet: a cross and
// the hole at every centre, numbered in the order of drilling.
func Holes(doc *ribfile.Doc, l cut.Layout) export.Drawing {
	return newDriller(doc, l).wholePages()
}

// newDriller returns a cutter that draws holes alone, no plates.
func newDriller(doc *ribfile.Doc, l cut.Layout) *cutter {
	c := &cutter{doc: doc, l: l}
	for k := range l.Sheets {
		c.drilled = append(c.drilled, l.Holes(k))
	}
	same := func(a, b cut.Hole) bool { return a.At.Dist(b.At) < geom.Coincident }
	for k, s := range l.Sheets {
		first := 0
		for first < k && !(l.Sheets[first].Stock == s.Stock && slices.EqualFunc(c.drilled[first], c.drilled[k], same)) {
			first++
		}
		c.alike = append(c.alike, first)
	}
	return c
}

func (c *cutter) wholePages() export.Drawing {
	return c.pages(c.drawHoles, func(k int) []string {
		f := c.facts(k)
		return []string{c.alikeWords(k, f[0]), f[1], c.toolWords(), "Stick the page to the sheet, or punch through the crosses. The numbers are the order of drilling."}
	})
}

// HoleFile returns the holes of all the different sheets on one drawing for a machine, as SheetFile does.
func HoleFile(doc *ribfile.Doc, l cut.Layout) export.Drawing {
	c := newDriller(doc, l)
	return c.stack(c.drawHoles)
}

// drawHoles draws the holes of a sheet.
func (c *cutter) drawHoles(k int) []export.Part {
	const arm, itemsOfHole = 5.0, 16 // with the strokes of its names
	return []export.Part{c.edge(k), {On: []string{layerHole, layerPlate, layerName}, Later: func() []export.Item {
		to := &canvas{items: make([]export.Item, 0, itemsOfHole*len(c.drilled[k]))}
		for i, h := range c.drilled[k] {
			to.line(layerHole, h.At.Sub(geom.Pt{X: arm}), h.At.Add(geom.Pt{X: arm}))
			to.line(layerHole, h.At.Sub(geom.Pt{Y: arm}), h.At.Add(geom.Pt{Y: arm}))
			to.part(layerHole, fmt.Sprintf("hole-%d-%d", k+1, i+1), geom.Circle(h.At, c.l.Tool.Pilot/2))
			to.path(layerPlate, geom.Circle(h.At, float64(c.l.Plates[h.Plate].Blank/2)+c.l.Tool.Kerf))
			to.strokes(layerName, export.Text{S: fmt.Sprint(i + 1), At: h.At.Add(geom.Pt{X: 2, Y: 6}), Height: small})
			to.strokes(layerName, export.Text{S: c.l.Plates[h.Plate].ID, At: h.At.Add(geom.Pt{Y: -6 - small}), Height: small, Anchor: export.Center})
		}
		return to.items
	}}}
}

// HasHoles reports whether the layout has plates for a hole saw.
func HasHoles(l cut.Layout) bool { return len(l.Sheets) > 0 && l.AnyHoles() }

// Drilling returns the program that drills the pilot holes of a sheet, counted from 0.
func Drilling(doc *ribfile.Doc, l cut.Layout, k int) gcode.Program {
	u, s := doc, l.Sheets[k]
	p := gcode.Program{Inch: u.Units == ribfile.Inch, Safe: doc.Saw.SafeHeight, Depth: doc.Gusset.Thickness + doc.Saw.Breakthrough,
		Feed: doc.Saw.Feed, Diameter: l.Tool.Pilot,
		Remarks: []string{
			doc.Title,
			fmt.Sprintf("pilot holes of sheet %d of %d, to make: %d", k+1, len(l.Sheets), s.Count),
			fmt.Sprintf("sheet %s, %s, %s thick", l.Stock[s.Stock].Name, doc.Gusset.Material, doc.Length(doc.Gusset.Thickness)),
			"X0 Y0: lower left corner of the sheet. Z0: its upper face.",
			"Clamp the sheet on scrap wood, the clamps clear of the drill's way. Guard your eyes.",
			"Run the program above the wood first, and look whether the holes lie as on the drawing.",
			"Follow the approved plans. The builder's inspector and the authority decide, not this program.",
		}}
	for _, h := range l.Holes(k) {
		p.Holes = append(p.Holes, gcode.Hole{At: h.At, Name: l.Plates[h.Plate].ID})
	}
	return p
}

// CutTables returns the lists of the sheets, and of the holes where a hole saw cuts the plates.
func CutTables(doc *ribfile.Doc, l cut.Layout) []export.Table {
	w := lister{doc: doc, inch: doc.Units == ribfile.Inch}
	out := []export.Table{w.sheets(l)}
	if HasHoles(l) {
		out = append(out, w.holes(l))
	}
	return out
}

// sheets lists the sheets of plywood.
func (w lister) sheets(l cut.Layout) export.Table {
	c := &cutter{doc: w.doc, l: l}
	t := export.Table{ID: "sheets", Title: "Plates on sheets of plywood",
		Columns: []export.Column{text("sheet", "sheet"), number("count", "to cut", ""), text("size", "size"), number("plates", "plates on it", ""),
			number("fill_percent", "becomes plates", "%"), text("offcut", "offcut that stays whole"), text("names", "plates")},
		Notes: []string{c.toolWords(),
			fmt.Sprintf("Between two cuts stay %s, to the sheet's edge %s. The face grain of a plate runs: %s.", w.doc.Length(w.doc.Sheet.Gap), w.doc.Length(w.doc.Sheet.Margin), grainWords(w.doc))}}
	if slices.ContainsFunc(l.Plates, func(p cut.Plate) bool { return p.Face == 1 }) {
		t.Notes = append(t.Notes, `"/2" behind a name: for the second face, its marks mirrored.`)
	}
	for _, k := range l.Left {
		t.Notes = append(t.Notes, fmt.Sprintf("%d plates are on no sheet (%s).", k.Count, k.Why))
	}
	for k, s := range l.Sheets {
		fill := 100 * l.Fill(s)
		t.Rows = append(t.Rows, []export.Cell{export.Num(float64(k+1), fmt.Sprint(k+1)), count(s.Count), export.Str(l.Stock[s.Stock].Name), count(len(s.Placed)),
			export.Num(fill, fmt.Sprintf("%.0f", fill)), export.Str(w.offcut(l, s)), export.Str(c.counted(s))})
	}
	return t
}

// offcut names the larger strip that stays whole, at the sheet's right or at its top; none below 50 mm.
func (w lister) offcut(l cut.Layout, s cut.Sheet) string {
	const least = 50
	var taken geom.Box
	for _, p := range s.Placed {
		taken = taken.Union(p.Transform().Path(l.Plates[p.Plate].Swath).Box())
	}
	b := l.Stock[s.Stock].Outline.Box()
	if len(l.Stock[s.Stock].Outline) != 4 || math.Abs(float64(b.W()*b.H())-l.Stock[s.Stock].AreaMM2) > 1 {
		return "-"
	}
	right, above := b.Max.X-taken.Max.X, b.Max.Y-taken.Max.Y
	x, y := right, b.H()
	if above*b.W() > right*b.H() {
		x, y = b.W(), above
	}
	if math.Min(x, y) < least {
		return "-"
	}
	floor := func(mm float64) float64 { return math.Floor(mm) } // what is surely there
	if w.inch {
		floor = func(mm float64) float64 { return math.Floor(mm/ribfile.MMPerInch*8) / 8 * ribfile.MMPerInch }
	}
	return w.section(floor(x), floor(y))
}

// holes lists the pilot holes in the order of drilling.
func (w lister) holes(l cut.Layout) export.Table {
	t := export.Table{ID: "holes", Title: "Pilot holes for the hole saw",
		Columns: []export.Column{number("sheet", "sheet", ""), number("order", "order", ""), w.lengthColumn("x", "x"), w.lengthColumn("y", "y"), text("plate", "plate")},
		Notes:   []string{"Measured from the sheet's lower left corner, along its length and across it, in the order of drilling.", (&cutter{doc: w.doc, l: l}).toolWords()}}
	for k := range l.Sheets {
		for i, h := range l.Holes(k) {
			t.Rows = append(t.Rows, []export.Cell{count(k + 1), count(i + 1), w.fine(h.At.X), w.fine(h.At.Y), export.Str(l.Plates[h.Plate].ID)})
		}
	}
	return t
}
