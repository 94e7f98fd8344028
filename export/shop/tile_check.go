package shop

import (
	"math"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/ribfile"
)

// What is measured on a page: a square where there is free paper for it, else a length across and one up. A
// rib in inches has 4 in, for the rule in the builder's hand, with a tick at 100 mm.

// Sizes of a ruler, mm: a line with a tick at each end and its length above it.
const (
	rulerWide = 5.2
	rulerEnds = 1.2 // of a tick, to either side
)

func (t *tiling) inch() bool { return t.f.doc.Units == ribfile.Inch }

func (t *tiling) squareSide() float64 { return checkIn(t.f.doc.Units).side }

func (t *tiling) rulerLong() float64 { return t.squareSide() + 2 }

// drawCheck draws what a page has to measure, and returns the squares of which one side shows.
//
// A length up is the left side of a whole square of which no more shows than that side, so that a program that reads
// the page finds a square on every one, as on the jig drawing.
func (t *tiling) drawCheck(c *canvas, f furniture) []export.Part {
	if !f.square.Empty() {
		t.drawSquare(c, f.square)
		if t.inch() {
			return []export.Part{side(c, "check-100mm", f.square.Min, 100)}
		}
		return nil
	}
	up := geom.Pt{X: f.up.Max.X - rulerEnds - 0.2, Y: f.up.Min.Y + 1}
	t.ruler(c, "across", f.across.Min.Add(geom.Pt{X: 1, Y: rulerEnds + 0.2}), geom.Pt{X: 1})
	t.ruler(c, "up", up, geom.Pt{Y: 1})
	parts := []export.Part{side(c, "check-100mm", up, 100)}
	if t.inch() {
		parts = append(parts, side(c, "check-4in", up, 4*ribfile.MMPerInch))
	}
	return parts
}

// side is a square of which the left side shows.
func side(c *canvas, id string, at geom.Pt, long float64) export.Part {
	b := geom.NewBox(at, at.Add(geom.Pt{X: long, Y: long}))
	return export.Part{Clip: geom.NewBox(at, geom.Pt{X: at.X, Y: b.Max.Y}).Grow(0.2),
		Items: []export.Item{{Layer: layerCheck, ID: c.unique(id), Path: geom.Rect(b)}}}
}

func (t *tiling) drawSquare(c *canvas, b geom.Box) {
	k := checkIn(t.f.doc.Units)
	words := []string{"measure across and up"}
	if t.inch() {
		words = append(words, "to the ticks: 100 mm")
		c.line(layerCheck, b.Min.Add(geom.Pt{X: 100}), b.Min.Add(geom.Pt{X: 100, Y: 2 * rulerEnds}))
		c.line(layerCheck, b.Min.Add(geom.Pt{Y: 100}), b.Min.Add(geom.Pt{X: 2 * rulerEnds, Y: 100}))
	}
	c.part(layerCheck, k.id, geom.Rect(b))
	m := b.Centre()
	c.write(layerCheck, k.size+" × "+k.size, m.Add(geom.Pt{Y: 1}), large, export.Center, true)
	for i, w := range words {
		c.write(layerCheck, w, m.Add(geom.Pt{Y: -float64(i+1) * (medium + 2)}), medium, export.Center, false)
	}
	directions(c, b)
}

// directions letters along a square's sides which of its measures is the first, and which the second.
func directions(c *canvas, b geom.Box) {
	m := b.Centre()
	c.write(layerCheck, "across", geom.Pt{X: m.X, Y: b.Min.Y + 1.5}, small, export.Center, false)
	c.text(layerCheck, centred("up", geom.Pt{X: b.Min.X + small/2 + 1.5, Y: m.Y}, small, math.Pi/2, false))
}

// ruler draws a length to measure, from a point in a direction, with its name on its left side.
func (t *tiling) ruler(c *canvas, way string, from, u geom.Pt) {
	name := "100 mm " + way
	tick := func(at geom.Pt) { c.line(layerCheck, at.Along(u.Left(), -rulerEnds), at.Along(u.Left(), rulerEnds)) }
	if t.inch() {
		name = "4 in " + way + "; to the tick before it 100 mm"
		end := from.Along(u, 4*ribfile.MMPerInch)
		c.part(layerCheck, "check-4in-"+way, geom.Line(from, end))
		tick(end)
	}
	end := from.Along(u, 100)
	c.part(layerCheck, "check-100mm-"+way, geom.Line(from, end))
	tick(from)
	tick(end)
	c.text(layerCheck, centred(name, from.Along(u, 50).Along(u.Left(), 1+small/2), small, u.Angle(), false))
}
