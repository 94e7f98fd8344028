package shop

import (
	"math"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/finding"
)

// inset is a piece of lettering in the strip below the rib: a heading, and what stands under it. It draws
// itself below its upper left corner.
type inset struct {
	w, h float64
	draw func(c *canvas, at geom.Pt)
}

// strip is what stands below the rib: the squares on the left, the title with the cautions above it on the
// right, the insets between them; where they find no room between, they stand above, over the whole width.
type strip struct {
	f       *field
	w, h    float64
	caution []cautionLine
	columns [][]inset
	above   bool
}

const (
	squares   = 100 + gutter + 4*25.4 // width of both squares
	body      = 4 * 25.4              // height of the squares, and of the title with the cautions at least
	noteStep  = 4.2                   // from base line to base line of small lettering
	insetHead = 7.0                   // of an inset's heading
	noteWide  = 110.0                 // a column of findings
	mostApart = 3 * gutter            // between two columns at most
)

func newStrip(f *field, found []finding.Finding, width float64) *strip {
	s := &strip{f: f, w: squares + gutter + titleWide, caution: cautionLines(jigCautions(f.r, found), titleWide)}
	s.h = math.Max(body, titleHigh(f)+gutter/2+insetHead+float64(float64(len(s.caution))*noteStep))
	width = math.Max(width, s.w)
	for _, height := range []float64{medium, small} {
		if s.columns = s.fill(height, s.h); columnsWide(s.columns) <= width-s.w-gutter {
			return s
		}
	}
	s.above = true
	high := 40.0
	for s.columns = s.fill(small, high); columnsWide(s.columns) > width; s.columns = s.fill(small, high) {
		high += noteStep
	}
	s.h += gutter + tallest(s.columns)
	return s
}

// fill sets the insets, lettered in a height, into columns no higher than given.
func (s *strip) fill(height, high float64) [][]inset {
	var out [][]inset
	left := 0.0 // of the last column's height
	for _, p := range s.f.insets(height, high) {
		if len(out) == 0 || p.h > left {
			out, left = append(out, nil), high
		}
		out[len(out)-1] = append(out[len(out)-1], p)
		left -= p.h + gutter/2
	}
	return out
}

func columnWide(column []inset) float64 {
	w := 0.0
	for _, p := range column {
		w = math.Max(w, p.w)
	}
	return w
}

// columnsWide returns the width of columns a gutter apart.
func columnsWide(columns [][]inset) float64 {
	w := -gutter
	for _, c := range columns {
		w += columnWide(c) + gutter
	}
	return w
}

func tallest(columns [][]inset) float64 {
	most := 0.0
	for _, c := range columns {
		h := -float64(gutter / 2)
		for _, p := range c {
			h += p.h + gutter/2
		}
		most = math.Max(most, h)
	}
	return most
}

// draw draws the strip into a box.
func (s *strip) draw(c *canvas, box geom.Box) {
	checkSquare(c, "check-4in", "4 in", box.Min.Add(geom.Pt{X: 100 + gutter}), 4*25.4)
	checkSquare(c, "check-100mm", "100 mm", box.Min, 100)
	left, top := box.Max.X-titleWide, box.Max.Y
	area := geom.NewBox(geom.Pt{X: box.Min.X + squares + gutter, Y: box.Min.Y}, geom.Pt{X: left - gutter, Y: top})
	if s.above {
		top -= gutter + tallest(s.columns)
		area = geom.NewBox(geom.Pt{X: box.Min.X, Y: top + gutter}, box.Max)
	}
	titleBlock(c, s.f, geom.Pt{X: left, Y: box.Min.Y}, "1 / 1")
	heading(c, layerCaution, "Before you cut", geom.Pt{X: left, Y: top})
	drawCautions(c, s.caution, geom.Pt{X: left, Y: top - insetHead})
	apart := gutter
	if n := len(s.columns); n > 0 { // in the middle of what is free, a little apart where there is much of it
		free := area.W() - columnsWide(s.columns)
		apart = math.Min(gutter+float64(free/float64(n+1)), mostApart)
	}
	x := area.Centre().X - float64((columnsWide(s.columns)+float64(float64(len(s.columns)-1)*(apart-gutter)))/2)
	for _, column := range s.columns {
		y := area.Max.Y
		for _, p := range column {
			p.draw(c, geom.Pt{X: x, Y: y})
			y -= p.h + gutter/2
		}
		x += columnWide(column) + apart
	}
}

// heading letters an inset's heading below its upper left corner.
func heading(c *canvas, layer, s string, at geom.Pt) {
	c.write(layer, s, at.Add(geom.Pt{Y: -medium}), medium, export.Left, true)
}
