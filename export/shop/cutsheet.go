package shop

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/cut"
	"ribwright/geom/ribfile"
)

const (
	layerSheet = "sheet"    // the edge of a sheet of plywood
	layerHole  = "hole"     // where the pilot drill goes
	layerClamp = "fastener" // where a staple or a nail goes
)

// sheetLayers are the layers of sheets and holes, in the order of cutting: what lies inside before what lies around it.
func sheetLayers(line float64) []export.Layer {
	pen := export.Pen{Width: line}
	thick := export.Pen{Width: max(line, narrow)}
	return []export.Layer{{ID: layerSheet, Pen: pen}, {ID: layerCheck, Pen: pen}, {ID: layerTable, Pen: pen}, {ID: layerCaution, Pen: pen},
		{ID: layerName, Pen: pen}, {ID: layerMark, Pen: pen}, {ID: layerClamp, Pen: pen}, {ID: layerPlate, Pen: pen}, {ID: layerHole, Pen: pen}, {ID: layerCut, Pen: thick}}
}

// cutter draws the sheets of one layout.
type cutter struct {
	doc *ribfile.Doc
	l   cut.Layout
	// Of each sheet, where holes are drawn:
	drilled [][]cut.Hole
	alike   []int // the first sheet with its holes in the same places
}

// edge is the edge of a sheet.
func (c *cutter) edge(k int) export.Part {
	to := &canvas{}
	to.part(layerSheet, fmt.Sprintf("sheet-%d", k+1), c.l.Stock[c.l.Sheets[k].Stock].Outline.Path())
	return export.Part{Items: to.items}
}

// Sheets returns the plates of the set on their sheets of plywood, full size, a page for each different sheet: the
// way of the tool, the marks to draw or engrave, every plate's name, and how often the sheet is cut.
func Sheets(c Cutting) export.Drawing { return c.cutter.pages(c.draw, c.cutter.facts) }

// pages makes a page of each sheet: what is drawn on it, and below what is to be known of it.
func (c *cutter) pages(draw func(k int) []export.Part, facts func(k int) []string) export.Drawing {
	d := export.Drawing{Title: c.doc.Title, Layers: sheetLayers(narrow)}
	for k, s := range c.l.Sheets {
		box := c.l.Stock[s.Stock].Outline.Box()
		w := math.Max(box.W(), checkIn(c.doc.Units).side+gutter+200)
		high := c.strip(&canvas{}, w, facts(k))
		words := export.Part{On: stripLayers, Later: func() []export.Item {
			to := &canvas{}
			c.strip(to, w, facts(k))
			return to.items
		}}
		page := export.Sheet{Name: fmt.Sprintf("sheet %d", k+1), W: math.Ceil(w + 2*sheetMargin), H: math.Ceil(box.H() + high + gutter + 2*sheetMargin)}
		page.Parts = movedParts(append(draw(k), words), geom.Pt{X: sheetMargin, Y: sheetMargin + high + gutter})
		d.Sheets = append(d.Sheets, page)
	}
	if len(d.Sheets) == 0 {
		to := &canvas{}
		strokeSquare(to, geom.Pt{})
		return onSheet(d, to, "no plates")
	}
	return d
}

// stripLayers are those that strip draws on.
var stripLayers = []string{layerCheck, layerTable, layerCaution}

// strip letters what is to be known below a sheet, and returns how high it is.
func (c *cutter) strip(to *canvas, w float64, facts []string) float64 {
	const step, caution = 5.5, 90.0
	top := -gutter
	square := checkIn(c.doc.Units)
	square.draw(to, geom.Pt{Y: top - square.side})
	x := square.side + gutter
	wide := w - x
	side := wide > 260
	if side {
		wide -= caution + gutter
	}
	y := top - large
	to.write(layerTable, clip(c.doc.Title, large, wide, true, "…"), geom.Pt{X: x, Y: y}, large, export.Left, true)
	y -= 2
	for i, f := range facts {
		h := medium
		if i > 0 {
			h = small
		}
		for _, line := range wrap(f, h, wide, i == 0) {
			y -= step - 1 + float64((h-small)*1.5)
			to.write(layerTable, line, geom.Pt{X: x, Y: y}, h, export.Left, i == 0)
		}
	}
	y -= 7
	c.grainArrow(to, geom.Pt{X: x, Y: y})
	lines := cautionLines(sheetCautions(c.doc), caution)
	at := geom.Pt{X: w - caution, Y: top}
	if !side {
		at = geom.Pt{X: x, Y: y - 6}
	}
	drawCautions(to, lines, at)
	low := math.Min(y, at.Y-float64(float64(len(lines))*noteStep))
	return math.Max(square.side, top-low)
}

// grainArrow shows which way the face grain runs.
func (c *cutter) grainArrow(to *canvas, at geom.Pt) {
	const long, head = 30.0, 3.0
	dir := geom.Pt{X: 1}
	if c.doc.Sheet.Grain == "width" {
		dir = geom.Pt{Y: 1}
		at = at.Add(geom.Pt{X: 4, Y: -long / 2})
	}
	end := at.Along(dir, long)
	to.line(layerTable, at, end)
	for _, e := range []struct{ p, in geom.Pt }{{at, dir}, {end, dir.Mul(-1)}} {
		for _, s := range []float64{1, -1} {
			to.line(layerTable, e.p, e.p.Along(e.in, head).Along(e.in.Left(), s*head/3))
		}
	}
	to.write(layerTable, "face grain of the plywood", geom.Pt{X: math.Max(at.X, end.X) + 4, Y: float64((at.Y+end.Y)/2) - small/2}, small, export.Left, false)
}

func sheetCautions(doc *ribfile.Doc) []caution {
	return []caution{
		{"Check the printed scale: measure the square, along and across.", false},
		{"Cut one plate of each kind first, and try it in the jig.", false},
		{"Follow the approved plans: the plywood, its thickness and the way of its grain (" + grainWords(doc) + ").", false},
		{"The builder's inspector, the authority and licensed practice decide, not this program.", false},
	}
}

// grainWords says how the plates lie to the grain.
func grainWords(doc *ribfile.Doc) string {
	return map[string]string{"cap": "here along the cap", "stick": "here along the stick", "45": "here at 45° to the cap", "any": "here any"}[doc.Gusset.Grain]
}

// facts returns what is to be known of a sheet; the first line stands out.
func (c *cutter) facts(k int) []string {
	s := c.l.Sheets[k]
	st := c.l.Stock[s.Stock]
	out := []string{fmt.Sprintf("Sheet %d of %d: cut %d like this", k+1, len(c.l.Sheets), s.Count)}
	if s.Count == 1 {
		out[0] = fmt.Sprintf("Sheet %d of %d: cut one", k+1, len(c.l.Sheets))
	}
	out = append(out,
		fmt.Sprintf("%s, %s, %s thick; %d plates on it, %.0f %% of the sheet", st.Name, c.doc.Gusset.Material, c.doc.Length(c.doc.Gusset.Thickness), len(s.Placed), 100*c.l.Fill(s)),
		c.toolWords())
	if slices.ContainsFunc(c.l.Plates, func(p cut.Plate) bool { return p.Face == 1 }) {
		out = append(out, `"/2" behind a name: for the second face of the rib; its marks are the mirror image.`)
	}
	return append(out, "Plates: "+c.counted(s)+".")
}

// counted lists the plates of a sheet: "U1 ×2, U1/2 ×2".
func (c *cutter) counted(s cut.Sheet) string {
	n := map[int]int{}
	for _, p := range s.Placed {
		n[p.Plate]++
	}
	var out []string
	for _, i := range slices.Sorted(maps.Keys(n)) {
		out = append(out, fmt.Sprintf("%s ×%d", c.l.Plates[i].ID, n[i]))
	}
	return strings.Join(out, ", ")
}

// toolWords says which line the tool follows.
func (c *cutter) toolWords() string {
	t := c.l.Tool
	switch t.Name {
	case "laser":
		return "The line is the middle of the laser's cut, " + exact(c.doc, t.Kerf) + " wide: a plate comes out as the rib has it."
	case "band-saw":
		return "The line is the middle of the blade's cut, " + exact(c.doc, t.Kerf) + " wide: a plate sawn along it comes out as the rib has it."
	case "router":
		return "The line is the way of the middle of a bit of " + exact(c.doc, t.Kerf) + ": a plate comes out as the rib has it, inside corners with the bit's radius."
	case "hole-saw":
		return c.sawWords()
	}
	return "The line is the plate's edge: no kerf is taken off. Saw beside it."
}

func (c *cutter) sawWords() string {
	t := c.l.Tool
	for _, p := range c.l.Plates {
		if p.Blank == 0 {
			continue
		}
		s := fmt.Sprintf("Hole saw of %s outer diameter, teeth %s wide: plates of %s.", exact(c.doc, p.Blank+2*t.Kerf), exact(c.doc, t.Kerf), exact(c.doc, p.Blank))
		s += fmt.Sprintf(" The pilot drill of %s takes %s of each.", exact(c.doc, t.Pilot), c.doc.Area(math.Pi*t.Pilot*t.Pilot/4))
		return s + " Lines on a plate show where it is trimmed afterwards."
	}
	return "No plate is round: the line is the middle of the band saw's cut."
}

// exact writes the size of a tool: hundredths of a millimetre count.
func exact(doc *ribfile.Doc, mm float64) string {
	if doc.Units == ribfile.Inch {
		return doc.Length(mm)
	}
	return strings.TrimRight(strings.TrimRight(decimal(mm, 2), "0"), ".") + " mm"
}

// SheetFile returns all the different sheets on one drawing for a laser or a router, one above the other, the first
// with its corner in the drawing's origin: lines alone, no text, and beside them a square of 100 mm to measure.
func SheetFile(c Cutting) export.Drawing { return c.cutter.stack(c.draw) }

// stack draws the sheets one above the other.
func (c *cutter) stack(draw func(k int) []export.Part) export.Drawing {
	d := export.Drawing{Title: c.doc.Title, Layers: sheetLayers(cutterLine)}
	var all []export.Part
	y, wide := 0.0, 0.0
	for k, s := range c.l.Sheets {
		box := c.l.Stock[s.Stock].Outline.Box()
		name := &canvas{}
		name.strokes(layerName, export.Text{S: fmt.Sprintf("sheet %d: ×%d", k+1, s.Count), At: geom.Pt{Y: box.H() + 3}, Height: large})
		all = append(all, movedParts(append(draw(k), export.Part{Items: name.items}), geom.Pt{Y: y})...)
		y, wide = y+box.H()+3*gutter, math.Max(wide, box.W())
	}
	square := &canvas{}
	strokeSquare(square, geom.Pt{X: wide + gutter, Y: 20})
	all = append(all, export.Part{Items: square.items})
	var b geom.Box
	for _, p := range all {
		b = b.Union(bounds(p.Items)) // what is made later lies below and beside the names and the square
	}
	d.Sheets = []export.Sheet{{Name: "sheets", W: math.Ceil(b.Max.X + 1), H: math.Ceil(b.Max.Y + 1), Parts: all}}
	return d
}
