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

// Bars returns the diagrams of all different bars on one sheet: in which order the pieces lie, and what is left.
func Bars(doc *ribfile.Doc, b cut.Bars) export.Drawing {
	const wide = 520.0
	return newBarDrawing(doc, b, wide).drawing(wide+2*sheetMargin, 0, sheetMargin)
}

// BarPages returns them over pages that lie on their long side.
func BarPages(doc *ribfile.Doc, b cut.Bars, p Page) export.Drawing {
	w, h := math.Max(p.W, p.H), math.Min(p.W, p.H)
	return newBarDrawing(doc, b, w-2*p.Margin).drawing(w, h, p.Margin)
}

// barHigh is a bar's depth as it is drawn, mm: a short piece's name and length stand upright in it.
const barHigh = 18.0

// barDrawing draws bars shortened lengthwise by a scale, and all of one depth.
type barDrawing struct {
	w     barLister
	wide  float64
	scale float64 // lengths are drawn as one of so many
}

// barScales are what lengths may be drawn at, one in so many.
var barScales = []float64{1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 200}

func newBarDrawing(doc *ribfile.Doc, b cut.Bars, wide float64) *barDrawing {
	d := &barDrawing{w: barLister{lister{doc: doc, inch: doc.Units == ribfile.Inch}, b}, wide: wide}
	longest := 0.0
	for _, u := range b.Uses() {
		longest = math.Max(longest, b.Jobs[u.Job].Kinds[u.Stock].Length)
	}
	for _, d.scale = range barScales {
		if longest/d.scale <= wide {
			break
		}
	}
	return d
}

// drawing lays the bars below each other, over pages where a height is given.
func (d *barDrawing) drawing(w, h, margin float64) export.Drawing {
	doc := d.w.doc
	out := export.Drawing{Title: doc.Title, Layers: templateLayers()}
	uses := d.w.b.Uses()
	blocks := make([]block, len(uses))
	for i := range uses {
		blocks[i] = d.bar(i, uses[i])
	}
	facts := d.facts()
	words := cautionLines(barCautions(len(d.w.b.Scarfs) > 0), d.wide)
	head := large + 3 + float64(noteStep*float64(len(facts))) + 4
	foot := float64(noteStep*float64(len(words))) + 3
	var pages [][]placedBlock
	if h == 0 {
		var used []float64
		pages, used = shelves(blocks, d.wide, math.Inf(1))
		h = math.Ceil(head + foot + 2*margin)
		if len(used) > 0 {
			h = math.Ceil(h + used[0])
		}
	} else {
		pages, _ = shelves(blocks, d.wide, h-2*margin-head-foot)
	}
	if len(pages) == 0 {
		pages = make([][]placedBlock, 1)
	}
	for i, on := range pages {
		c := &canvas{}
		name := "bars"
		y := h - margin - large
		c.write(layerFrame, clip(doc.Title+": bars for caps and sticks", large, d.wide-40, true, "…"), geom.Pt{X: margin, Y: y}, large, export.Left, true)
		if len(pages) > 1 {
			name = fmt.Sprintf("bars, page %d of %d", i+1, len(pages))
			c.write(layerTable, fmt.Sprintf("page %d of %d", i+1, len(pages)), geom.Pt{X: margin + d.wide, Y: y}, small, export.Right, false)
		}
		y -= 3
		for _, f := range facts {
			y -= noteStep
			c.write(layerTable, f, geom.Pt{X: margin, Y: y}, small, export.Left, false)
		}
		for _, b := range on {
			at := geom.Pt{X: margin, Y: h - margin - head}.Add(b.at).Add(geom.Pt{Y: -b.h})
			for _, it := range moved(b.items, at) {
				if it.ID != "" {
					it.ID = c.unique(it.ID)
				}
				c.items = append(c.items, it)
			}
		}
		drawCautions(c, words, geom.Pt{X: margin, Y: margin + foot - 3})
		out.Sheets = append(out.Sheets, export.Sheet{Name: name, W: w, H: h, Parts: []export.Part{{Items: c.items}}})
	}
	return out
}

// facts say how the diagrams are read, and how many bars there are.
func (d *barDrawing) facts() []string {
	doc := d.w.doc
	all := []string{fmt.Sprintf("Lengths 1 : %g, depths larger, the slopes with them: not to measure. By each name stands the long point, %s. %s", d.scale, d.w.unit(), barRules(doc)),
		"Part the pieces by square cuts at their long points, then saw their ends; where two lie on one slope, one slanting cut parts them. Crossed: waste."}
	var counts []string
	for _, j := range d.w.b.Jobs {
		counts = append(counts, barBound(doc, j))
	}
	all = append(all, strings.Join(counts, " "))
	var out []string
	for _, f := range all {
		out = append(out, wrap(f, small, d.wide, false)...)
	}
	return out
}

func barCautions(scarfed bool) []caution {
	all := []string{grainNote, "Saw one bar of each kind first, and try its pieces in the jig. Write its name on every piece as it comes off the saw.",
		"Hold short pieces against a stop with a block of wood, never with the hand alone beside the blade."}
	if scarfed {
		all = append(all, "Caps in parts -1, -2 … are scarfed: the list of scarfs says where. Break a sample scarf of each batch of adhesive.")
	}
	all = append(all, "Follow the approved plans. The builder's inspector, the authority and licensed practice decide, not this program.")
	var out []caution
	for _, s := range all {
		out = append(out, caution{s, false})
	}
	return out
}

// bar draws one bar: its pieces as they lie, and what is left.
func (d *barDrawing) bar(i int, u cut.BarUse) block {
	c := &canvas{}
	j := d.w.b.Jobs[u.Job]
	kind := j.Kinds[u.Stock]
	head := fmt.Sprintf("Bar %d: saw %d like this", i+1, u.Count)
	if u.Count == 1 {
		head = fmt.Sprintf("Bar %d: saw one", i+1)
	}
	c.write(layerName, head, geom.Pt{Y: barHigh + 2}, medium, export.Left, true)
	c.write(layerName, kind.Name+"   "+j.Wood(d.w.doc), geom.Pt{X: d.wide, Y: barHigh + 2}, small, export.Right, false)

	c.part(layerCut, fmt.Sprintf("bar-%d", i+1), geom.Rect(geom.NewBox(geom.Pt{}, geom.Pt{X: kind.Length / d.scale, Y: barHigh})))
	trim := d.w.b.Stock.Trim
	if trim > 0 {
		for _, x := range []float64{trim / d.scale, (kind.Length - trim) / d.scale} {
			c.line(layerMark, geom.Pt{X: x}, geom.Pt{X: x, Y: barHigh})
		}
	}
	lie := geom.Zoom(1/d.scale, barHigh/j.Depth)
	for _, k := range u.Cuts {
		p := j.Pieces[k.Piece]
		layer := layerStick
		if p.Cap {
			layer = layerCap
		}
		c.part(layer, "piece-"+p.Name(), geom.Ring(lie.Pts(j.Lies(k))).Path())
	}
	d.names(c, j, u)
	d.rest(c, u, kind.Length-trim)
	return newBlock(c)
}

// names letters the pieces with name and length. Pieces too short for that have them below the bar, those alike in a row once.
func (d *barDrawing) names(c *canvas, j cut.BarJob, u cut.BarUse) {
	const below = -2.0 // of the brackets
	taken := math.Inf(-1)
	for i := 0; i < len(u.Cuts); {
		p := j.Pieces[u.Cuts[i].Piece]
		n := 1
		if !d.name(c, p, u.Cuts[i].From/d.scale) {
			for i+n < len(u.Cuts) && u.Cuts[i+n].Piece == u.Cuts[i].Piece {
				n++
			}
			words := p.Name() + ": " + d.w.fine(p.Length).Text
			if n > 1 {
				words = fmt.Sprintf("%d × %s", n, words)
			}
			from, to := u.Cuts[i].From/d.scale, (u.Cuts[i+n-1].From+p.Length)/d.scale
			wide := textWidth(words, small, false)
			left := math.Max(float64((from+to-wide)/2), taken+1.5)
			c.path(layerMark, geom.Polyline(geom.Pt{X: from, Y: below / 2}, geom.Pt{X: from, Y: below}, geom.Pt{X: to, Y: below}, geom.Pt{X: to, Y: below / 2}))
			c.write(layerName, words, geom.Pt{X: left, Y: below - 1 - small}, small, export.Left, false)
			taken = left + wide
		}
		i += n
	}
}

// name letters a piece that begins at x with its name and its length, below each other, or upright where it is short; it
// returns false where it is too short for that.
func (d *barDrawing) name(c *canvas, p cut.BarPiece, x float64) bool {
	const air = 0.8
	name, length := p.Name(), d.w.fine(p.Length).Text
	room := p.Length/d.scale - 2*air
	middle := geom.Pt{X: x + float64(p.Length/d.scale/2), Y: barHigh / 2}
	if textWidth(name, small, true) <= room && textWidth(length, small, false) <= room {
		c.write(layerName, name, middle.Add(geom.Pt{Y: 1}), small, export.Center, true)
		c.write(layerName, length, middle.Add(geom.Pt{Y: -1 - small}), small, export.Center, false)
		return true
	}
	both := name + " " + length
	if room < small || textWidth(both, small, false) > barHigh-2*air {
		return false
	}
	c.text(layerName, export.Text{S: both, At: middle, Height: small, Angle: math.Pi / 2, Anchor: export.Middle})
	return true
}

// rest draws what is left of a bar, up to where its end is trimmed: crossed where it is waste, else with its length.
func (d *barDrawing) rest(c *canvas, u cut.BarUse, end float64) {
	if u.Left <= 0 {
		return
	}
	a, b := geom.Pt{X: (end - u.Left) / d.scale}, geom.Pt{X: end / d.scale, Y: barHigh}
	words := "keep " + d.w.fine(u.Left).Text
	if !u.Keep {
		c.line(layerMark, a, b)
		c.line(layerMark, geom.Pt{X: a.X, Y: b.Y}, geom.Pt{X: b.X, Y: a.Y})
		return
	}
	c.path(layerMark, geom.Rect(geom.NewBox(a, b)))
	angle := 0.0
	if textWidth(words, small, false) > b.X-a.X-1.6 {
		angle = math.Pi / 2
	}
	c.text(layerName, export.Text{S: words, At: a.Lerp(b, 0.5), Height: small, Angle: angle, Anchor: export.Middle})
}
