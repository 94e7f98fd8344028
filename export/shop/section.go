package shop

import (
	"fmt"
	"math"
	"strings"

	"ribwright/airfoils"
	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/ribfile"
)

// SectionList returns the table of sections: what each measures, and where its table was published.
func SectionList(all []airfoils.Info) export.Table {
	t := export.Table{ID: "sections", Title: "Sections that are built in",
		Columns: []export.Column{text("name", "name"), text("title", "title"), number("thickness_percent", "thickness", "% chord"), number("thickness_at_percent", "at", "% chord"),
			number("camber_percent", "camber", "% chord"), number("camber_at_percent", "at", "% chord"), number("flat_percent", "flat bottom", "% chord"),
			text("datum", "ordinates measured from"), text("source", "source")},
		Notes: []string{"In a rib file: builtin = \"name\" under [section]. Thickness is measured along the ordinates, camber from the line between leading and trailing edge.",
			"Flat bottom: how much of the lower side is straight by the table's points.",
			"Compare the ordinates with your plans before you build: plans often change a section."}}
	for _, s := range all {
		t.Rows = append(t.Rows, []export.Cell{export.Str(s.Name), export.Str(s.Title), percent(s.Thickness, 2), percent(s.ThicknessAt, 0),
			percent(s.Camber, 2), percent(s.CamberAt, 0), percent(s.FlatShare, 0), export.Str(s.Datum), export.Str(s.Source)})
	}
	return t
}

// percent is a share as a cell in percent.
func percent(share float64, places int) export.Cell {
	v := 100 * share
	return export.Num(v, decimal(v, places))
}

// decimal formats a number with fixed places and no minus zero.
func decimal(v float64, places int) string {
	k := math.Pow10(places)
	return fmt.Sprintf("%.*f", places, math.Round(v*k)/k+0)
}

// SectionOrdinates returns a section's ordinates at stations in shares of the chord: in percent, and as
// lengths where a chord, mm, is given. Stations off the section are left out.
func SectionOrdinates(s airfoils.Section, stations []float64, chord float64, units ribfile.Units) export.Table {
	w := lister{doc: &ribfile.Doc{Units: units}, inch: units == ribfile.Inch}
	t := export.Table{ID: "ordinates", Title: s.Name,
		Columns: []export.Column{number("station_percent", "station", "% chord"), number("upper_percent", "upper", "% chord"), number("lower_percent", "lower", "% chord")},
		Notes:   sectionWords(s)}
	if chord > 0 {
		t.Columns = append(t.Columns, w.lengthColumn("station", "station"), w.lengthColumn("upper", "upper"), w.lengthColumn("lower", "lower"))
	}
	for _, x := range stations {
		up, lo, ok := s.At(x)
		if !ok {
			continue
		}
		row := []export.Cell{export.Num(100*x, fmt.Sprintf("%.5g", 100*x)), percent(up, 3), percent(lo, 3)}
		if chord > 0 {
			row = append(row, w.setOut(x*chord), w.setOut(up*chord), w.setOut(lo*chord))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// setOut is a length to draw a section by: finer than a ruler, so that curves stay fair.
func (w lister) setOut(mm float64) export.Cell {
	if w.inch {
		return export.Num(mm/ribfile.MMPerInch, decimal(mm/ribfile.MMPerInch, 3))
	}
	return export.Num(mm, decimal(mm, 2))
}

// sectionWords says what a section measures and where it comes from.
func sectionWords(s airfoils.Section) []string {
	thick, thickAt := s.MaxThickness()
	line := fmt.Sprintf("Thickness %s %% of the chord at %s %%", decimal(100*thick, 2), decimal(100*thickAt, 0))
	if camber, at := s.MaxCamber(); math.Abs(camber) >= 5e-5 {
		line += fmt.Sprintf("; camber %s %% at %s %%", decimal(100*camber, 2), decimal(100*at, 0))
	} else {
		line += "; no camber"
	}
	if flat := s.FlatShare(); flat > 0 {
		line += fmt.Sprintf("; flat bottom over %s %% of the chord", decimal(100*flat, 0))
	}
	out := []string{line + "."}
	if s.Form != "" {
		out = append(out, "The table was read as "+s.Form+".")
	}
	if s.Datum != "" {
		out = append(out, "Ordinates are measured from: "+strings.TrimSuffix(s.Datum, ".")+".")
	}
	if s.Source != "" {
		out = append(out, "Source: "+strings.TrimSuffix(s.Source, ".")+".")
	}
	return out
}

const (
	layerMean = "mean-line"
	wordsWide = 240.0 // mm: the lines of lettering below a section
)

// dashMean is the dashed line of ISO 128-2: dashes of 12 d, gaps of 3 d.
var dashMean = []float64{12 * narrow, 3 * narrow}

// SectionDrawing draws a section full size at a chord, mm: its contour, the line its ordinates are measured
// from, its mean line and its greatest thickness. Below stand a square to measure and what the section is.
func SectionDrawing(s airfoils.Section, chord float64, units ribfile.Units) export.Drawing {
	thin, thick := export.Pen{Width: narrow}, export.Pen{Width: wide}
	d := export.Drawing{Title: s.Name, Layers: []export.Layer{
		{ID: layerAxis, Pen: export.Pen{Width: narrow, Dash: dashDot}}, {ID: layerMean, Pen: export.Pen{Width: narrow, Dash: dashMean}},
		{ID: layerStation, Pen: thin}, {ID: layerName, Pen: thin}, {ID: layerCheck, Pen: thin}, {ID: layerContour, Pen: thick},
	}}
	c := &canvas{}
	upper, lower := s.Contour(chord, geom.Flat)
	drawSection(c, s, chord, upper, lower)
	b := bounds(c.items)
	foot := geom.Pt{X: b.Min.X, Y: b.Min.Y - gutter - 100}
	checkSquare(c, "check-100mm", "100 mm", foot, 100)
	at := geom.Pt{X: foot.X + 100 + gutter, Y: foot.Y + 100 - large}
	c.write(layerName, s.Name, at, large, export.Left, true)
	lines := append([]string{"Chord " + units.Length(chord) + ", full size: print at 100 % and measure the square."}, sectionWords(s)...)
	for _, l := range lines {
		for _, part := range wrap(l, medium, wordsWide, false) {
			at.Y -= 6.5
			c.write(layerName, part, at, medium, export.Left, false)
		}
	}
	at.Y -= 10
	for _, k := range []struct{ layer, name string }{{layerAxis, "line the ordinates are measured from"}, {layerMean, "mean line, midway between the ordinates"}} {
		y := at.Y + small/2
		c.line(k.layer, geom.Pt{X: at.X, Y: y}, geom.Pt{X: at.X + 30, Y: y})
		c.write(layerName, k.name, geom.Pt{X: at.X + 33, Y: at.Y}, small, export.Left, false)
		at.Y -= 5
	}
	return onSheet(d, c, "section")
}

// onSheet moves what was laid out onto the drawing's one sheet.
func onSheet(d export.Drawing, c *canvas, name string) export.Drawing {
	b := bounds(c.items)
	sheet := export.Sheet{Name: name, W: math.Ceil(b.W() + 2*sheetMargin), H: math.Ceil(b.H() + 2*sheetMargin)}
	offset := geom.Pt{X: sheetMargin - b.Min.X, Y: sheet.H - sheetMargin - b.Max.Y}
	sheet.Parts = []export.Part{{Items: moved(c.items, offset)}}
	d.Sheets = []export.Sheet{sheet}
	return d
}

// drawSection draws the section itself, origin where its table has it.
func drawSection(c *canvas, s airfoils.Section, chord float64, upper, lower []geom.Pt) {
	const over = 5.0
	c.line(layerAxis, geom.Pt{X: -over}, geom.Pt{X: chord + over})
	var mean []geom.Pt
	const steps = 200
	for i := 0; i <= steps; i++ {
		x := float64(i) / steps
		if up, lo, ok := s.At(x); ok {
			mean = append(mean, geom.Pt{X: float64(x * chord), Y: float64((up + lo) / 2 * chord)})
		}
	}
	c.path(layerMean, geom.Polyline(mean...))
	last := -pitch
	for _, share := range s.Stations() {
		x := float64(share * chord)
		if x-last < 1 { // nearer ticks merge on paper
			continue
		}
		last = x
		c.line(layerStation, geom.Pt{X: x, Y: -tickLong / 2.0}, geom.Pt{X: x, Y: tickLong / 2.0})
	}
	if thick, at := s.MaxThickness(); thick > 0 {
		if up, lo, ok := s.At(at); ok {
			x := float64(at * chord)
			c.line(layerStation, geom.Pt{X: x, Y: float64(lo * chord)}, geom.Pt{X: x, Y: float64(up * chord)})
		}
	}
	ring := make([]geom.Pt, 0, len(upper)+len(lower))
	for i := len(upper) - 1; i >= 0; i-- {
		ring = append(ring, upper[i])
	}
	ring = append(ring, lower[1:]...)
	if ring[0].Dist(ring[len(ring)-1]) <= geom.Coincident {
		ring = ring[:len(ring)-1]
	}
	c.part(layerContour, "outline", geom.Ring(ring).Path())
}
