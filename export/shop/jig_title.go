package shop

import (
	"cmp"
	"math"
	"strconv"
	"strings"

	"ribwright/export"
	"ribwright/geom"
)

// entry is one cell of the title: what it says, under a small word for what it is.
type entry struct {
	head, text string
	share      float64 // of the row's width
}

const (
	titleWide = 180.0 // of the title (ISO 7200)
	rowHigh   = 11.0
	headHigh  = 16.0 // of the row with the title
	pad       = 2.0  // inside a cell
)

// titleBlock draws the title with its lower left corner at a point.
func titleBlock(c *canvas, f *field, at geom.Pt, sheet string) {
	rows := titleRows(f, sheet)
	y := at.Y
	for i := len(rows) - 1; i >= 0; i-- {
		x, tall := at.X, rowTall(rows[i])
		for k, e := range rows[i] {
			if k > 0 {
				c.line(layerTable, geom.Pt{X: x, Y: y}, geom.Pt{X: x, Y: y + tall})
			}
			c.write(layerTable, e.head, geom.Pt{X: x + pad, Y: y + tall - small - 1.2}, small, export.Left, false)
			lines, h := e.lines()
			for n, l := range lines {
				c.write(layerTable, l, geom.Pt{X: x + pad, Y: y + tall - rowHigh + 2 - float64(float64(n)*baseStep(small))}, h, export.Left, false)
			}
			x += e.wide()
		}
		y += tall
		c.line(layerTable, geom.Pt{X: at.X, Y: y}, geom.Pt{X: at.X + titleWide, Y: y})
	}
	lines, high := titleLines(f)
	for i, l := range lines {
		c.write(layerFrame, l, geom.Pt{X: at.X + pad, Y: y + high - 5.5 - large - float64(float64(i)*(large+2.5))}, large, export.Left, true)
	}
	y += high
	c.path(layerFrame, geom.Rect(geom.NewBox(at, geom.Pt{X: at.X + titleWide, Y: y})))
}

func (e entry) wide() float64 { return float64(e.share * titleWide) }

// lines returns what a cell says, smaller where it is long, and in lines where that is not enough.
func (e entry) lines() ([]string, float64) {
	if width := e.wide() - 2*pad; textWidth(e.text, medium, false) > width {
		return wrap(e.text, small, width, false), small
	}
	return []string{e.text}, medium
}

// rowTall returns the height of a row, which grows with the lines of its cells.
func rowTall(row []entry) float64 {
	most := 1
	for _, e := range row {
		lines, _ := e.lines()
		most = max(most, len(lines))
	}
	return rowHigh + float64(float64(most-1)*baseStep(small))
}

// titleLines breaks the title into lines, and returns the height of their row.
func titleLines(f *field) (lines []string, high float64) {
	lines = wrap(cmp.Or(f.doc.Title, f.r.Title), large, titleWide-2*pad, true)
	return lines, headHigh + float64(float64(max(0, len(lines)-1))*(large+2.5))
}

// titleHigh returns the height of the title.
func titleHigh(f *field) float64 {
	_, high := titleLines(f)
	for _, row := range titleRows(f, "") {
		high += rowTall(row)
	}
	return high
}

// titleRows returns the rows below the title, from the top: first what the rib is, then the fields of
// ISO 7200, each with its cell. What the rib file does not say is left to be written by hand; a date above all.
func titleRows(f *field, sheet string) [][]entry {
	d := f.doc.Drawing
	rib := ""
	if f.r.Title != f.doc.Title {
		rib = f.r.Title
	}
	return [][]entry{
		{{"supplementary title", rib, 0.4}, {"section", f.doc.SectionName(), 0.4}, {"chord", f.doc.Length(f.r.Chord), 0.2}},
		{{"document type", "jig drawing", 0.4}, {"ribs to make", strconv.Itoa(f.r.Count), 0.2}, {"scale", "1:1", 0.2}, {"units", unitWord(f.doc.Units), 0.2}},
		{{"legal owner", d.Owner, 0.6}, {"identification number", d.Number, 0.4}},
		{{"created by", d.DrawnBy, 0.3}, {"approved by", d.ApprovedBy, 0.3}, {"document status", "", 0.2}, {"revision", d.Revision, 0.2}},
		{{"date of issue", f.doc.Date, 0.4}, {"language", "en", 0.2}, {"drawn with", "ribwright", 0.2}, {"sheet", sheet, 0.2}},
	}
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

// noteInsets sets the notes on findings into columns no higher than given.
func noteInsets(notes []note, high float64) []inset {
	lines := noteLines(notes, noteWide, max(2, int((high-insetHead)/noteStep)))
	var out []inset
	for len(lines) > 0 {
		n := 1
		for n < len(lines) && lines[n].column == lines[0].column {
			n++
		}
		part := lines[:n]
		lines = lines[n:]
		title := "Marked on the drawing"
		if len(out) > 0 {
			title += ", continued"
		}
		out = append(out, inset{noteWide, insetHead + float64(float64(part[n-1].row+2)*noteStep), func(c *canvas, at geom.Pt) {
			heading(c, layerCaution, title, at)
			drawNotes(c, part, at.Add(geom.Pt{Y: -insetHead}))
		}})
	}
	return out
}

// drawNotes draws lines of notes below a point.
func drawNotes(c *canvas, lines []noteLine, at geom.Pt) {
	for _, l := range lines {
		p := at.Add(geom.Pt{Y: -float64(float64(l.row) * noteStep)})
		if l.number > 0 {
			s := strconv.Itoa(l.number)
			m := p.Add(geom.Pt{X: 3, Y: -small / 2})
			c.path(layerFinding, geom.Circle(m, noteRadius(s)))
			c.text(layerFinding, centred(s, m, small, 0, true))
		}
		c.write(layerCaution, l.text, p.Add(geom.Pt{X: noteIndent, Y: -small}), small, export.Left, false)
	}
}

// noteRadius returns the radius of the circle about a finding's number.
func noteRadius(s string) float64 { return math.Max(3, float64(textWidth(s, small, true)/2)+1.2) }
