package shop

import (
	"fmt"
	"slices"
	"strings"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/rib"
)

// insets returns what the strip shows between squares and title, its tables in lettering of a height. No inset
// is higher than given if its lines can be parted.
func (f *field) insets(height, high float64) []inset {
	out := []inset{f.legend(height)}
	for _, g := range []grid{f.sparTable(), f.leanTable(), f.stickTable(), f.jointTable()} {
		out = append(out, g.insets(height, high)...)
	}
	return append(out, noteInsets(f.notes, high)...)
}

// baseStep returns the distance between base lines of lettering.
func baseStep(height float64) float64 {
	if height == small {
		return noteStep
	}
	return 1.6 * height
}

// grid is a small table of the strip. Its first column stands left, the others right.
type grid struct {
	title string
	head  []string
	rows  [][]string
	note  string // below the last rows
}

const cellGap = 3.5 // between two columns of a small table

// insets draws the rows into insets no higher than given, each with the heads.
func (g grid) insets(height, high float64) []inset {
	rowStep := baseStep(height)
	if len(g.rows) == 0 {
		return nil
	}
	widths := make([]float64, len(g.head))
	for _, row := range append([][]string{g.head}, g.rows...) {
		for k, s := range row {
			widths[k] = max(widths[k], textWidth(s, height, false))
		}
	}
	w := -cellGap
	for _, v := range widths {
		w += v + cellGap
	}
	w = max(w, textWidth(g.title, medium, true))
	note := wrap(g.note, height, w, false)
	const under = 1.5 // between the heads and the line under them
	most := max(3, int((high-insetHead-under-rowStep-float64(float64(len(note))*rowStep))/rowStep))
	var out []inset
	for len(g.rows) > 0 {
		n := min(len(g.rows), most)
		rows, last := g.rows[:n], n == len(g.rows)
		g.rows = g.rows[n:]
		title, foot := g.title, []string(nil)
		if len(out) > 0 {
			title += ", continued"
		}
		if last {
			foot = note
		}
		h := insetHead + under + float64(float64(len(rows)+1+len(foot))*rowStep)
		out = append(out, inset{max(w, textWidth(title, medium, true)), h, func(c *canvas, at geom.Pt) {
			heading(c, layerTable, title, at)
			y := at.Y - insetHead
			put := func(row []string) {
				x := at.X
				for k, s := range row {
					if k == 0 {
						c.write(layerTable, s, geom.Pt{X: x, Y: y - height}, height, export.Left, false)
					} else {
						c.write(layerTable, s, geom.Pt{X: x + widths[k], Y: y - height}, height, export.Right, false)
					}
					x += widths[k] + cellGap
				}
				y -= rowStep
			}
			put(g.head)
			c.line(layerTable, geom.Pt{X: at.X, Y: y}, geom.Pt{X: at.X + w, Y: y})
			y -= under
			for _, row := range rows {
				put(row)
			}
			for _, s := range foot {
				c.write(layerTable, s, geom.Pt{X: at.X, Y: y - height}, height, export.Left, false)
				y -= rowStep
			}
		}})
	}
	return out
}

// stickTable says of every stick where it runs and how its ends are cut.
func (f *field) stickTable() grid {
	g := grid{title: "Sticks", head: []string{"stick", "from", "to", "long point", "cut at first end", "at other end"},
		note: "Cuts: degrees from square, as the saw is set; positive: turned counter-clockwise, as drawn. Several: from the stick's right edge to its left."}
	for _, s := range f.r.Sticks {
		if len(s.Outline) > 0 {
			g.rows = append(g.rows, []string{s.ID, s.From, s.To, f.doc.Decimal(s.LongPoint), angles(s.Ends[0]), angles(s.Ends[1])})
		}
	}
	return g
}

// sparTable says how deep the rib is at every spar.
func (f *field) sparTable() grid {
	g := grid{title: "Spars", head: []string{"spar", "centre", "opening", "over the caps", "between: fore", "aft"}}
	for _, s := range f.r.Spars {
		if len(s.Opening) == 0 {
			continue
		}
		depth := "–"
		if low, top, ok := over(f.r.Contour, s); ok {
			depth = f.doc.Decimal(top - low)
		}
		d := diagonals(s)
		fore, aft := f.doc.Decimal(d[1][0].Sub(d[0][0]).Dot(s.Up())), f.doc.Decimal(d[0][1].Sub(d[1][1]).Dot(s.Up()))
		g.rows = append(g.rows, []string{clip(s.Name, small, 30, false, "…"), f.doc.Decimal(s.At), f.doc.Number(s.Gap()), depth, fore, aft})
	}
	g.note = "Over the caps: at the centre. Between: from cap to cap at the opening's faces."
	if slices.ContainsFunc(f.r.Spars, leans) {
		g.note += " Of a spar that leans all are along it, its opening is square to it, and its centre is where it crosses the chord line."
	}
	return g
}

func leans(s rib.Spar) bool { return s.Tilt != 0 }

// leanTable says where the faces of openings that lean are marked out.
func (f *field) leanTable() grid {
	g := grid{title: "Leaning spars", head: []string{"face", "lean", "lower contour", "chord line", "upper contour"},
		note: "Stations of the opening's faces: mark each on both contours and join the marks by a straightedge; the chord line proves it. " +
			"Above the rib stand those of the upper contour. Lean: degrees, aft at the top."}
	for _, s := range f.r.Spars {
		if !leans(s) || len(s.Opening) == 0 {
			continue
		}
		for k, h := range []geom.Half{s.Ahead(), s.Behind().Flip()} {
			u, ok := on(f.r.Contour.Upper, h)
			l, ok2 := on(f.r.Contour.Lower, h)
			if !ok || !ok2 {
				continue
			}
			g.rows = append(g.rows, []string{clip(s.Name, small, 30, false, "…") + []string{" fore", " aft"}[k], degrees(s.Tilt),
				f.doc.Decimal(l.X), f.doc.Decimal([]float64{s.Fore, s.Aft}[k]), f.doc.Decimal(u.X)})
		}
	}
	return g
}

// jointTable says where every joint stands: upper and lower ones beside each other.
func (f *field) jointTable() grid {
	g := grid{title: "Joints", head: []string{"joint", "station", "joint", "station"}}
	var sides [2][][2]string
	for _, j := range f.r.Joints {
		k := 0
		if strings.HasPrefix(j.ID, "L") {
			k = 1
		}
		sides[k] = append(sides[k], [2]string{j.ID, f.doc.Decimal(j.Station)})
	}
	for i := range max(len(sides[0]), len(sides[1])) {
		row := make([]string, 4)
		for k, side := range sides {
			if i < len(side) {
				row[2*k], row[2*k+1] = side[i][0], side[i][1]
			}
		}
		g.rows = append(g.rows, row)
	}
	return g
}

// sample is one line type of the legend: how it is drawn and what it says.
type sample struct {
	layers []string // on the drawing; the first one's pen
	words  string
	on     string // the layer that draws the sample
}

// legend shows the line types that are on the drawing.
func (f *field) legend(height float64) inset {
	const long, gap = 26.0, 3.0
	rowStep := baseStep(height)
	plate := "plate on the near face" + leftOnly(f.r) + "; the far face has none"
	if slices.ContainsFunc(f.items, func(it export.Item) bool { return it.Layer == layerPlateFar }) {
		plate = "plate on the near face" + leftOnly(f.r)
	}
	far := "plate on the far face: the same outline, under the near one"
	if !slices.ContainsFunc(f.items, func(it export.Item) bool { return it.Layer == layerPlate }) {
		far = "plate on the far face" + leftOnly(f.r) + "; the near face has none"
	}
	from := "dimension, from the leading edge"
	if f.r.Contour.CutAhead() {
		from = "dimension, from the rib's upper fore corner"
	}
	all := []sample{
		{[]string{layerContour, layerCap, layerStick, layerBlock}, "wood: contour, caps, sticks, blocks", layerFrame},
		{[]string{layerSpar}, "opening for a spar, with a cross", layerFrame},
		{[]string{layerAdjoin}, "largest spar that passes", layerLegend},
		{[]string{layerPlate}, plate, layerLegend},
		{[]string{layerPlateFar}, far, layerLegend},
		{[]string{layerWeb}, "web: one sheet over a face, its openings those of the spars", layerLegend},
		{[]string{layerMark}, "marks that place a plate: its centre, cap's edge, sticks", layerLegend},
		{[]string{layerJigBlock}, "jig block, with a diagonal", layerLegend},
		{[]string{layerRelief}, "relief hole under a joint", layerLegend},
		{[]string{layerAxis}, "axis: the chord line", layerLegend},
		{[]string{layerMeasure}, from, layerLegend},
	}
	all = slices.DeleteFunc(all, func(s sample) bool {
		return !slices.ContainsFunc(f.items, func(it export.Item) bool { return slices.Contains(s.layers, it.Layer) })
	})
	pens := map[string]export.Pen{}
	for _, l := range jigLayers() {
		pens[l.ID] = l.Pen
	}
	words := []string{fmt.Sprintf("Figures in %s.", unitWord(f.doc.Units))}
	if slices.ContainsFunc(f.items, func(it export.Item) bool { return it.Text != nil && strings.HasPrefix(it.Text.S, "≈") }) {
		words = append(words, "≈: to the nearest 1/64 in, more than 0.002 in off.")
	}
	if !f.board.Empty() {
		words = append(words, fmt.Sprintf("Corners about the rib: the board, %s × %s.", f.doc.Number(f.board.W()), f.doc.Length(f.board.H())))
	}
	w := 0.0
	for _, s := range all {
		w = max(w, long+gap+textWidth(s.words, height, false))
	}
	for _, s := range words {
		w = max(w, textWidth(s, height, false))
	}
	return inset{w, insetHead + float64(float64(len(all)+len(words))*rowStep), func(c *canvas, at geom.Pt) {
		heading(c, layerTable, "Lines", at)
		y := at.Y - insetHead
		for _, s := range all {
			m := geom.Pt{X: at.X, Y: y - float64(height/2)}
			dashes(c, s.on, m, long, pens[s.layers[0]].Dash)
			c.write(layerTable, s.words, geom.Pt{X: at.X + long + gap, Y: y - height}, height, export.Left, false)
			y -= rowStep
		}
		for _, s := range words {
			c.write(layerTable, s, geom.Pt{X: at.X, Y: y - height}, height, export.Left, false)
			y -= rowStep
		}
	}}
}

// dashes draws a level line with dashes of its own: the legend is no part of the layers it explains, where it
// would be taken for wood.
func dashes(c *canvas, layer string, at geom.Pt, long float64, dash []float64) {
	if len(dash) == 0 {
		c.line(layer, at, at.Add(geom.Pt{X: long}))
		return
	}
	x := 0.0
	for k := 0; x < long; k++ {
		step := dash[k%len(dash)]
		if k%2 == 0 {
			c.line(layer, at.Add(geom.Pt{X: x}), at.Add(geom.Pt{X: min(x+step, long)}))
		}
		x += step
	}
}
