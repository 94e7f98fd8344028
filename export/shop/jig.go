package shop

import (
	"math"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// Sizes of the roll drawing, mm.
const (
	sheetMargin = 15.0
	frameMargin = 10.0
	gutter      = 10.0 // between the field and the strip below, and between the strip's parts
	titleWide   = 180.0
)

// Jig returns the jig drawing: one sheet, full size, for a roll of paper. Below the rib stand two squares to
// measure, the findings that are marked, the cautions and the title.
//
// A sheet longer than a file for printing takes (PDF ends at 5,080 mm) is not refused here; Tiles serves
// every length.
func Jig(r *rib.Rib, doc *ribfile.Doc, found []finding.Finding) export.Drawing {
	f := newField(r, doc, found)
	f.boardMarks()
	box := f.box()
	s := newStrip(f, found, box.W())
	w := math.Max(box.W(), s.w)
	offset := geom.Pt{X: sheetMargin - box.Min.X, Y: sheetMargin + s.h + gutter - box.Min.Y}
	sheet := export.Sheet{Name: "jig drawing", W: math.Ceil(w + 2*sheetMargin), H: math.Ceil(offset.Y + box.Max.Y + sheetMargin)}
	offset.X += float64((sheet.W - 2*sheetMargin - box.W()) / 2)

	c := &canvas{items: moved(f.items, offset)}
	c.path(layerFrame, geom.Rect(geom.NewBox(geom.Pt{}, geom.Pt{X: sheet.W, Y: sheet.H}).Grow(-frameMargin)))
	s.draw(c, sheet.W)
	sheet.Parts = []export.Part{{Items: c.items}}
	return export.Drawing{Title: doc.Title, Layers: jigLayers(), Sheets: []export.Sheet{sheet}}
}

// strip is what stands below the rib: squares on the left, notes on the findings between, the title with
// the cautions above it on the right. Where the notes find no room between, they stand above the rest.
type strip struct {
	f        *field
	found    []finding.Finding
	w, h     float64
	body     float64 // height of the squares and the title
	notes    []noteLine
	columns  int
	noteWide float64
	above    bool
}

const (
	squares  = 100 + gutter + 4*25.4 // width of both squares
	noteStep = 4.2                   // from base line to base line of small lettering
	noteHead = 7.0
	noteMin  = 70.0
)

func newStrip(f *field, found []finding.Finding, width float64) *strip {
	s := &strip{f: f, found: found, body: 4 * 25.4}
	s.w = squares + gutter + titleWide
	s.h = s.body
	room := math.Max(width, s.w) - s.w - gutter
	if len(f.notes) == 0 {
		return s
	}
	if room >= noteMin && s.fit(room, s.body) {
		return s
	}
	s.above = true
	for h := 5.0; !s.fit(math.Max(width, s.w), noteHead+float64(h*noteStep)); h += 3 {
	}
	s.h += noteHead + float64(float64(s.longest())*noteStep) + gutter
	return s
}

// fit breaks the notes into columns that fill a room, and reports whether they fit, each in one column.
func (s *strip) fit(width, height float64) bool {
	most := int((height - noteHead) / noteStep)
	s.columns = max(1, int((width+gutter)/(110+gutter)))
	s.noteWide = (width+gutter)/float64(s.columns) - gutter
	for _, n := range s.f.notes {
		if len(n.lines(s.noteWide)) > most {
			return false
		}
	}
	s.notes = noteLines(s.f.notes, s.noteWide, most)
	return len(s.notes) == 0 || s.notes[len(s.notes)-1].column < s.columns
}

// longest returns how many lines the longest column has.
func (s *strip) longest() int {
	n := 0
	for _, l := range s.notes {
		n = max(n, l.row+1)
	}
	return n
}

func (s *strip) draw(c *canvas, sheetWidth float64) {
	base := geom.Pt{X: sheetMargin, Y: sheetMargin}
	checkSquare(c, "check-4in", "4 in", base.Add(geom.Pt{X: 100 + gutter}), 4*25.4)
	checkSquare(c, "check-100mm", "100 mm", base, 100)
	right := sheetWidth - sheetMargin
	titleBlock(c, s.f, geom.Pt{X: right - titleWide, Y: base.Y}, "1 of 1")
	y := s.body + base.Y
	c.write(layerCaution, "Before you cut", geom.Pt{X: right - titleWide, Y: y - medium}, medium, export.Left, true)
	y -= medium + 5.5
	drawCautions(c, cautionLines(jigCautions(s.found), titleWide), geom.Pt{X: right - titleWide, Y: y})
	if len(s.notes) == 0 {
		return
	}
	at := geom.Pt{X: base.X + squares + gutter, Y: base.Y + s.body}
	if s.above {
		at = geom.Pt{X: base.X, Y: base.Y + s.h}
	}
	drawNotes(c, s.notes, at, s.noteWide+gutter)
}

// checkSquare draws a square of known size and what it is for.
func checkSquare(c *canvas, id, size string, at geom.Pt, side float64) {
	c.part(layerCheck, id, geom.Rect(geom.NewBox(at, at.Add(geom.Pt{X: side, Y: side}))))
	m := at.Add(geom.Pt{X: side / 2, Y: side / 2})
	head, rest := float64(large), medium
	if side < 80 {
		head, rest = medium, small
	}
	c.write(layerCheck, size+" × "+size, m.Add(geom.Pt{Y: 1}), head, export.Center, true)
	c.write(layerCheck, "measure before cutting", m.Add(geom.Pt{Y: -rest - 2}), rest, export.Center, false)
}

// caution is one of the sentences that every drawing carries.
type caution struct {
	text string
	bold bool
}

// cautionLine is a line of a caution; the first one has a dot before it.
type cautionLine struct {
	caution
	first bool
}

const cautionIndent = 3.5

// cautionLines breaks cautions into lines of small lettering.
func cautionLines(all []caution, width float64) []cautionLine {
	var out []cautionLine
	for _, one := range all {
		for i, l := range wrap(one.text, small, width-cautionIndent, one.bold) {
			out = append(out, cautionLine{caution{l, one.bold}, i == 0})
		}
	}
	return out
}

// drawCautions draws the lines below a point.
func drawCautions(c *canvas, lines []cautionLine, at geom.Pt) {
	y := at.Y - small
	for _, l := range lines {
		if l.first {
			c.fill(layerCaution, geom.Circle(geom.Pt{X: at.X + 0.6, Y: y + small/2}, 0.6))
		}
		c.write(layerCaution, l.text, geom.Pt{X: at.X + cautionIndent, Y: y}, small, export.Left, l.bold)
		y -= noteStep
	}
}

// jigCautions returns the sentences that stand on the drawing; errors come first.
func jigCautions(found []finding.Finding) []caution {
	var out []caution
	if finding.HasError(found) {
		out = append(out, caution{"This rib has errors, so parts may be missing or wrong: do not build from this sheet.", true})
	}
	return append(out,
		caution{"Check the printed scale: measure both squares, along and across.", false},
		caution{"A part's edge is the middle of its line.", false},
		caution{"Follow the approved plans, and the adhesive maker's figures.", false},
		caution{"Break a sample joint of each batch of adhesive.", false},
		caution{"The builder's inspector, the authority and licensed practice decide, not this program.", false})
}
