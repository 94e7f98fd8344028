package shop

import (
	"math"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
)

// Sizes of the roll drawing, mm.
const (
	sheetMargin = 15.0
	frameMargin = 10.0
	gutter      = 10.0 // between the field and the strip below, and between the strip's parts
)

// Jig returns the jig drawing: one sheet, full size, for a roll of paper. Below the rib stand two squares to
// measure, the line types, the tables of sticks, spars and joints, the findings that are marked, the cautions
// and the title.
//
// A sheet longer than a file for printing takes (PDF ends at 5,080 mm) is not refused here; Tiles serves
// every length.
func Jig(plain Field) export.Drawing {
	f, doc := plain.copied(), plain.f.doc
	f.running()
	f.boardMarks()
	box := f.box()
	s := newStrip(f, plain.found, box.W())
	w := math.Max(box.W(), s.w)
	offset := geom.Pt{X: sheetMargin - box.Min.X, Y: sheetMargin + s.h + gutter - box.Min.Y}
	sheet := export.Sheet{Name: "jig drawing", W: math.Ceil(w + 2*sheetMargin), H: math.Ceil(offset.Y + box.Max.Y + sheetMargin)}
	offset.X += float64((sheet.W - 2*sheetMargin - box.W()) / 2)

	c := &canvas{items: moved(f.items, offset)}
	c.path(layerFrame, geom.Rect(geom.NewBox(geom.Pt{}, geom.Pt{X: sheet.W, Y: sheet.H}).Grow(-frameMargin)))
	s.draw(c, geom.NewBox(geom.Pt{X: sheetMargin, Y: sheetMargin}, geom.Pt{X: sheet.W - sheetMargin, Y: sheetMargin + s.h}))
	sheet.Parts = []export.Part{{Items: c.items}}
	return export.Drawing{Title: doc.Title, Layers: f.layers(), Sheets: []export.Sheet{sheet}}
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

// faceHands says what lies on which face of left and of right ribs, and how the right ones are built; nothing where that is alike.
func faceHands(r *rib.Rib) []string {
	if r.Mirrored == 0 {
		return nil
	}
	return r.Hands[:min(2, len(r.Hands))]
}

// jigCautions returns the sentences that stand on the drawing; errors come first.
func jigCautions(r *rib.Rib, found []finding.Finding) []caution {
	var out []caution
	if finding.HasError(found) {
		out = append(out, caution{"This rib has errors, so parts may be missing or wrong: do not build from this sheet.", true})
	}
	for i, s := range r.Hands {
		out = append(out, caution{s, i < len(faceHands(r))})
	}
	return append(out,
		caution{"Check the printed scale: measure both squares, along and across.", false},
		caution{"A part's edge is the middle of its line.", false},
		caution{"Follow the approved plans, and the adhesive maker's figures.", false},
		caution{"Break a sample joint of each batch of adhesive.", false},
		caution{"The builder's inspector, the authority and licensed practice decide, not this program.", false})
}
