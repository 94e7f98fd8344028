package shop

import (
	"strconv"
	"strings"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/ribfile"
)

// entry is one cell of the title: what it says, under a small word for what it is.
type entry struct {
	head, text string
	share      float64 // of the row's width
}

const (
	rowHigh  = 11.0
	headHigh = 16.0 // of the row with the title
	pad      = 2.0  // inside a cell
)

// titleBlock draws the title with its lower left corner at a point.
func titleBlock(c *canvas, f *field, at geom.Pt, sheet string) {
	rows := titleRows(f, sheet)
	y := at.Y
	for i := len(rows) - 1; i >= 0; i-- {
		x := at.X
		for k, e := range rows[i] {
			w := float64(e.share * titleWide)
			if k > 0 {
				c.line(layerTable, geom.Pt{X: x, Y: y}, geom.Pt{X: x, Y: y + rowHigh})
			}
			c.write(layerTable, e.head, geom.Pt{X: x + pad, Y: y + rowHigh - small - 1.2}, small, export.Left, false)
			c.write(layerTable, clip(e.text, medium, w-2*pad, false, "…"), geom.Pt{X: x + pad, Y: y + 2}, medium, export.Left, false)
			x += w
		}
		y += rowHigh
		c.line(layerTable, geom.Pt{X: at.X, Y: y}, geom.Pt{X: at.X + titleWide, Y: y})
	}
	title := f.doc.Title
	if title == "" {
		title = f.r.Title
	}
	lines := wrap(title, large, titleWide-2*pad, true)
	if len(lines) > 2 {
		lines = []string{lines[0], clip(lines[1]+" "+lines[2], large, titleWide-2*pad-5, true, "…")}
	}
	high := headHigh
	if len(lines) > 1 {
		high += large + 2.5
	}
	for i, l := range lines {
		c.write(layerFrame, l, geom.Pt{X: at.X + pad, Y: y + high - 5.5 - large - float64(float64(i)*(large+2.5))}, large, export.Left, true)
	}
	y += high
	c.path(layerFrame, geom.Rect(geom.NewBox(at, geom.Pt{X: at.X + titleWide, Y: y})))
}

// titleRows returns the rows below the title, from the top.
func titleRows(f *field, sheet string) [][]entry {
	const third = 1.0 / 3
	rows := [][]entry{
		{{"chord", f.doc.Length(f.r.Chord), third}, {"section", sectionName(f.doc), third}, {"ribs to make", strconv.Itoa(f.r.Count), third}},
		{{"scale", "1:1", third}, {"units", unitWord(f.doc.Units), third}, {"sheet", sheet, third}},
	}
	last := []entry{{"drawn by", "ribwright", third}}
	if f.doc.Date != "" {
		last = append(last, entry{"date", f.doc.Date, third})
	}
	if f.r.Title != "" && f.r.Title != f.doc.Title {
		last = append(last, entry{"rib", f.r.Title, 1 - float64(float64(len(last))*third)})
	} else {
		last[len(last)-1].share = 1 - float64(float64(len(last)-1)*third)
	}
	return append(rows, last)
}

// sectionName says where the contour comes from.
func sectionName(doc *ribfile.Doc) string {
	switch s := doc.Section; {
	case s.NACA != "":
		return "NACA " + s.NACA
	case s.Builtin != "":
		return s.Builtin
	case s.File != "":
		return s.File
	}
	return "table of ordinates"
}

// noteLine is one line of the notes on findings, with its place in columns.
type noteLine struct {
	number      int // in a circle before the first line of a finding, else 0
	text        string
	column, row int
}

const noteIndent = 8.0

// lines breaks what a note says into lines: severity, message, remedy.
func (n note) lines(width float64) []string {
	s := n.f.Severity.String() + ": " + n.f.Message
	if n.f.Fix != "" {
		s = strings.TrimSuffix(s, ".") + ". " + n.f.Fix
	}
	return wrap(s, small, width-noteIndent, false)
}

// noteLines breaks the notes into lines of the width given and columns of so many lines. A note is never
// parted between columns unless it is longer than one.
func noteLines(notes []note, width float64, most int) []noteLine {
	var out []noteLine
	column, row := 0, 0
	for _, n := range notes {
		lines := n.lines(width)
		if need := max(len(lines), 2); row > 0 && row+need > most {
			column, row = column+1, 0
		}
		for i, l := range lines {
			if row >= most && row > 0 {
				column, row = column+1, 0
			}
			line := noteLine{text: l, column: column, row: row}
			if i == 0 {
				line.number = n.number
			}
			out = append(out, line)
			row++
		}
		if len(lines) == 1 { // room for the circles
			row++
		}
	}
	return out
}

// drawNotes draws the notes below their heading, whose top is at a point.
func drawNotes(c *canvas, lines []noteLine, at geom.Pt, columnStep float64) {
	c.write(layerCaution, "Marked on the drawing", at.Add(geom.Pt{Y: -medium}), medium, export.Left, true)
	for _, l := range lines {
		p := at.Add(geom.Pt{X: float64(l.column) * columnStep, Y: -noteHead - 2 - float64(float64(l.row)*noteStep)})
		if l.number > 0 {
			s := strconv.Itoa(l.number)
			m := p.Add(geom.Pt{X: 3, Y: -small / 2})
			c.path(layerFinding, geom.Circle(m, 3))
			c.text(layerFinding, centred(s, m, small, 0, true))
		}
		c.write(layerCaution, l.text, p.Add(geom.Pt{X: noteIndent, Y: -small}), small, export.Left, false)
	}
}
