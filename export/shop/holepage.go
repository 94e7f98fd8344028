package shop

import (
	"fmt"
	"math"
	"strings"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/cut"
	"ribwright/geom/ribfile"
)

// holeOverlap is how far neighbouring pages of a sheet show the same.
const holeOverlap = 14.0

// HolePages returns the holes over pages of paper, once for all sheets on which they lie alike: as Holes where a sheet with what is said of it fits on one, else
// cut into windows that overlap, each page with its own square to measure, and crosses to lay on each other.
func HolePages(doc *ribfile.Doc, l cut.Layout, p Page) export.Drawing {
	c, square := newDriller(doc, l), checkIn(doc.Units).side
	whole := c.wholePages()
	out := export.Drawing{Title: whole.Title, Layers: append(whole.Layers, export.Layer{ID: layerRegister, Pen: export.Pen{Width: narrow}})}
	for k, s := range whole.Sheets {
		if k < len(l.Sheets) && c.alike[k] < k {
			continue
		}
		long, short := math.Max(p.W, p.H), math.Min(p.W, p.H)
		if k >= len(l.Sheets) || math.Max(s.W, s.H) <= long && math.Min(s.W, s.H) <= short || short < square+2*p.Margin+20 {
			out.Sheets = append(out.Sheets, s) // where paper is too small for a square, the sheet stays whole
			continue
		}
		out.Sheets = append(out.Sheets, c.holeTiles(k, long, short, p.Margin)...)
	}
	return out
}

// spreadOver returns how many windows cover a length, and how far one stands from the next: by equal steps.
func spreadOver(length, window float64) (n int, step float64) {
	n = max(1, int(math.Ceil((length-holeOverlap)/(window-holeOverlap))))
	if n == 1 {
		return 1, window - holeOverlap
	}
	return n, (length - window) / float64(n-1)
}

// holeTiles cuts a sheet into pages that lie on their long side, the square and the words at the right.
func (c *cutter) holeTiles(k int, w, h, margin float64) []export.Sheet {
	square := checkIn(c.doc.Units).side
	crosses := &canvas{}
	box := c.l.Stock[c.l.Sheets[k].Stock].Outline.Box().Grow(1)
	window := geom.Pt{X: w - 2*margin - square - gutter, Y: h - 2*margin}
	columns, stepX := spreadOver(box.W(), window.X)
	rows, stepY := spreadOver(box.H(), window.Y)
	step := geom.Pt{X: stepX, Y: stepY}
	over := window.Sub(step).Mul(0.5)
	for row := range rows + 1 { // crosses in the middle of every overlap
		for col := range columns + 1 {
			at := box.Min.Add(geom.Pt{X: float64(float64(col)*step.X) + over.X, Y: float64(float64(row)*step.Y) + over.Y})
			const arm = 4.0
			crosses.line(layerRegister, at.Sub(geom.Pt{X: arm}), at.Add(geom.Pt{X: arm}))
			crosses.line(layerRegister, at.Sub(geom.Pt{Y: arm}), at.Add(geom.Pt{Y: arm}))
			crosses.strokes(layerRegister, export.Text{S: letters(row, 'a') + fmt.Sprint(col+1), At: at.Add(geom.Pt{X: 1, Y: 1}), Height: small})
		}
	}
	var out []export.Sheet
	for row := rows - 1; row >= 0; row-- { // from the top, as the sheet lies
		for col := range columns {
			low := box.Min.Add(geom.Pt{X: float64(col) * step.X, Y: float64(row) * step.Y})
			clip := geom.NewBox(geom.Pt{X: margin, Y: margin}, geom.Pt{X: margin + window.X, Y: margin + window.Y})
			name := fmt.Sprintf("%d-%s%d", k+1, letters(rows-1-row, 'A'), col+1)
			shown := export.Part{Clip: clip, On: []string{layerSheet, layerHole, layerPlate, layerName, layerRegister}, Later: func() []export.Item {
				var all []export.Item
				for _, p := range c.drawHoles(k) {
					all = append(all, p.All()...)
				}
				return move(append(all, crosses.items...), clip.Min.Sub(low))
			}}
			words := export.Part{On: []string{layerCheck, layerTable}, Later: func() []export.Item {
				to := &canvas{}
				to.path(layerTable, geom.Rect(clip))
				c.holeWords(to, k, name, geom.NewBox(geom.Pt{X: w - margin - square, Y: margin}, geom.Pt{X: w - margin, Y: h - margin}))
				return to.items
			}}
			out = append(out, export.Sheet{Name: name, W: w, H: h, Parts: []export.Part{shown, words}})
		}
	}
	return out
}

// holeWords draws what every page says of itself: the square at the bottom, the words above it.
func (c *cutter) holeWords(to *canvas, k int, name string, b geom.Box) {
	square := checkIn(c.doc.Units)
	square.draw(to, b.Min)
	y := b.Max.Y - large
	to.write(layerTable, clip(c.doc.Title, large, b.W(), true, "…"), geom.Pt{X: b.Min.X, Y: y}, large, export.Left, true)
	y -= large + 5
	to.write(layerTable, "page "+name, geom.Pt{X: b.Min.X, Y: y}, large, export.Left, true)
	f := c.facts(k)
	y -= 2
	for _, s := range []string{c.alikeWords(k, f[0]), f[1], c.toolWords(), "Lay crosses of the same name on each other. The numbers are the order of drilling. Print at 100 %, and measure the square."} {
		for _, line := range wrap(s, small, b.W(), false) {
			if y -= noteStep; y > b.Min.Y+square.side+2 {
				to.write(layerTable, line, geom.Pt{X: b.Min.X, Y: y}, small, export.Left, false)
			}
		}
	}
}

// alikeWords says for which sheets a page of holes serves.
func (c *cutter) alikeWords(k int, one string) string {
	names, n := []string{}, 0
	for i, s := range c.l.Sheets {
		if c.alike[i] == k {
			names, n = append(names, fmt.Sprint(i+1)), n+s.Count
		}
	}
	if len(names) < 2 {
		return one
	}
	return fmt.Sprintf("Sheets %s of %d: drill %d like this. The plates' names are those of sheet %s; the list of holes has the others.",
		strings.Join(names, ", "), len(c.l.Sheets), n, names[0])
}
