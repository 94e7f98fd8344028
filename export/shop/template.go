package shop

import (
	"fmt"
	"math"
	"strings"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/ribfile"
)

// Page is the paper that templates are printed on, mm. Either way round is the same paper.
type Page struct {
	W, H   float64
	Margin float64 // along every edge, where printers do not print
}

// template is what goes onto a sheet of templates, or over pages: blocks that keep their order, and what is
// said beside the square.
type template struct {
	name   string // of the sheet
	doc    *ribfile.Doc
	facts  []string // below the title, each a line
	words  []caution
	blocks func(most float64) []block // none wider than this where it can be helped
}

// block is one thing on a template, with its lower left corner at the origin.
type block struct {
	items  []export.Item
	w, h   float64
	broken bool // shorter than the thing itself
}

// newBlock returns what a canvas holds as a block.
func newBlock(c *canvas) block {
	b := bounds(c.items)
	return block{items: moved(c.items, b.Min.Mul(-1)), w: b.W(), h: b.H()}
}

// Sizes of the templates' sheets, mm.
const (
	blockGap  = 6.0
	rollWidth = 594.0 // of what hangs on one sheet, unless a block is wider
	footWords = 60.0  // the least width of what stands beside the square
)

// templateLayers returns the layers of every template, thin lines first.
func templateLayers() []export.Layer {
	thin, thick := export.Pen{Width: narrow}, export.Pen{Width: wide}
	return []export.Layer{
		{ID: layerAxis, Pen: export.Pen{Width: narrow, Dash: dashDot}}, {ID: layerStation, Pen: thin}, {ID: layerMark, Pen: thin},
		{ID: layerCap, Pen: thin}, {ID: layerStick, Pen: thick}, {ID: layerPlate, Pen: thick}, {ID: layerCut, Pen: thick},
		{ID: layerName, Pen: thin}, {ID: layerCheck, Pen: thin}, {ID: layerTable, Pen: thin}, {ID: layerCaution, Pen: thin}, {ID: layerFrame, Pen: thick},
	}
}

// sheet returns everything on one sheet, for a roll of paper or another program.
func (t template) sheet() export.Drawing {
	blocks := t.blocks(math.Inf(1))
	w := t.checkSides()[0] + gutter + 2*footWords
	total := 0.0
	for _, b := range blocks {
		w, total = math.Max(w, b.w), total+b.w+blockGap
	}
	w = math.Max(w, math.Min(rollWidth, total))
	placed, used := shelves(blocks, w, math.Inf(1))
	f := t.foot(t.checkSides()[0], w)
	high := math.Max(f.side, f.height())
	return t.drawing([]page{{w + 2*sheetMargin, used[0] + gutter + high + 2*sheetMargin, sheetMargin, placed[0]}}, f)
}

// checkSides are the sides of the square to measure, which a rule of the file's units shows: 100 mm or 4 in, and half of it
// where that leaves too little room.
func (t template) checkSides() [2]float64 {
	side := checkIn(t.doc.Units).side
	return [2]float64{side, side / 2}
}

// pages returns everything over pages of a paper, laid out in the way that costs least. What fits on no page gets a sheet of its own size.
func (t template) pages(p Page) export.Drawing {
	short, long := math.Min(p.W, p.H), math.Max(p.W, p.H)
	var best []page
	var under foot
	least := math.Inf(1)
	drawn, draw := map[float64][]block{}, t.blocks // by their width: the square's side makes no other blocks
	t.blocks = func(most float64) []block {
		if drawn[most] == nil {
			drawn[most] = draw(most)
		}
		return drawn[most]
	}
	for _, side := range t.checkSides() {
		for _, size := range [][2]float64{{short, long}, {long, short}} {
			f := t.foot(side, size[0]-2*p.Margin)
			if on, cost := t.layOver(page{w: size[0], h: size[1], margin: p.Margin}, f); cost < least {
				best, under, least = on, f, cost
			}
		}
	}
	if best == nil { // no room for a square and words on such paper
		return t.sheet()
	}
	return t.drawing(best, under)
}

// What a layout costs, in pages.
const (
	costOver   = 1000 // a sheet larger than the paper
	costBroken = 3    // a stick that is drawn broken
	costSmall  = 2    // the smaller square
)

// layOver lays the blocks over pages like the one given, and says what that costs.
func (t template) layOver(p page, f foot) (pages []page, cost float64) {
	w, room := p.w-2*p.margin, p.h-2*p.margin-gutter-math.Max(f.side, f.height())
	if f.room() < footWords || room < 20 {
		return nil, math.Inf(1)
	}
	if f.side == t.checkSides()[1] {
		cost = costSmall
	}
	blocks := t.blocks(w)
	for _, b := range blocks {
		if b.broken {
			cost += costBroken
		}
	}
	placed, used := shelves(blocks, w, room)
	for i, on := range placed {
		one := p
		one.on = on
		if b := on[0].block; b.w > w || used[i] > room {
			cost += costOver
			one.w, one.h = math.Max(p.w, b.w+2*p.margin), math.Max(p.h, p.h-room+used[i])
		}
		pages, cost = append(pages, one), cost+1
	}
	return pages, cost
}

// page is one sheet of a template with what stands on it.
type page struct {
	w, h, margin float64
	on           []placedBlock
}

// placedBlock is a block and the place of its upper left corner, from the upper left corner of the room.
type placedBlock struct {
	block
	at geom.Pt
}

// shelves lays blocks in rows, in their order, and rows over pages of the height given; it returns with each page
// the height that is used. Every page holds a row.
func shelves(blocks []block, width, height float64) (pages [][]placedBlock, used []float64) {
	type row struct {
		on   []placedBlock
		w, h float64
	}
	var rows []row
	for _, b := range blocks {
		if n := len(rows); n == 0 || rows[n-1].w+b.w > width {
			rows = append(rows, row{})
		}
		r := &rows[len(rows)-1]
		r.on = append(r.on, placedBlock{b, geom.Pt{X: r.w}})
		r.w, r.h = r.w+b.w+blockGap, math.Max(r.h, b.h)
	}
	for _, r := range rows {
		n := len(pages) - 1
		if n < 0 || used[n]+blockGap+r.h > height {
			pages, used = append(pages, nil), append(used, -blockGap)
			n++
		}
		for _, b := range r.on {
			b.at.Y = -used[n] - blockGap
			pages[n] = append(pages[n], b)
		}
		used[n] += blockGap + r.h
	}
	return pages, used
}

// drawing draws the pages.
func (t template) drawing(pages []page, f foot) export.Drawing {
	d := export.Drawing{Title: t.doc.Title, Layers: templateLayers()}
	for i, p := range pages {
		c := &canvas{}
		name, number := t.name, ""
		if len(pages) > 1 {
			number = fmt.Sprintf("page %d of %d", i+1, len(pages))
			name += ", " + number
		}
		f.draw(c, geom.Pt{X: p.margin, Y: p.margin}, number)
		for _, b := range p.on {
			at := geom.Pt{X: p.margin, Y: p.h - p.margin}.Add(b.at).Add(geom.Pt{Y: -b.h})
			items := moved(b.items, at)
			for i := range items {
				if it := &items[i]; it.ID != "" {
					it.ID = c.unique(it.ID)
				}
			}
			c.items = append(c.items, items...)
		}
		d.Sheets = append(d.Sheets, export.Sheet{Name: name, W: p.w, H: p.h, Parts: []export.Part{{Items: c.items}}})
	}
	return d
}

// foot is what stands at the bottom of every page: the square to measure, the title and the cautions.
type foot struct {
	t     template
	side  float64 // of the square
	width float64
	title []string
	facts []string // the lines below the title
	words []cautionLine
}

func (t template) foot(side, width float64) foot {
	f := foot{t: t, side: side, width: width}
	if f.room() <= 0 {
		return f
	}
	f.title = wrap(t.doc.Title, medium, f.room(), true)
	if len(f.title) > 2 {
		f.title = []string{f.title[0], clip(f.title[1]+" "+f.title[2], medium, f.room(), true, "…")}
	}
	facts := "chord " + t.doc.Length(t.doc.Rib.Chord) + ", " + t.doc.SectionName() + ", scale 1:1"
	if t.doc.Date != "" {
		facts += ", " + t.doc.Date
	}
	for _, s := range append([]string{facts}, t.facts...) {
		f.facts = append(f.facts, wrap(s, small, f.room(), false)...)
	}
	f.words = cautionLines(t.words, f.room())
	return f
}

func (f foot) room() float64 { return f.width - f.side - gutter }

const titleStep = medium + 2.5

// height returns what the words beside the square need.
func (f foot) height() float64 {
	lines := 1 + len(f.facts) + len(f.words) // one for the page's number
	return float64(titleStep*float64(len(f.title)+1)) + float64(noteStep*float64(lines)) + 4
}

func (f foot) draw(c *canvas, at geom.Pt, number string) {
	size := f.t.doc.Length(f.side)
	checkSquare(c, "check-"+strings.ReplaceAll(size, " ", ""), size, at, f.side)
	x, y := at.X+f.side+gutter, at.Y+math.Max(f.side, f.height())-medium
	for _, l := range f.title {
		c.write(layerFrame, l, geom.Pt{X: x, Y: y}, medium, export.Left, true)
		y -= titleStep
	}
	c.write(layerTable, clip(f.t.name, medium, f.room(), false, "…"), geom.Pt{X: x, Y: y}, medium, export.Left, false)
	y -= titleStep - 1
	if number != "" {
		c.write(layerTable, number, geom.Pt{X: x, Y: y}, small, export.Left, false)
		y -= noteStep
	}
	for _, l := range f.facts {
		c.write(layerTable, l, geom.Pt{X: x, Y: y}, small, export.Left, false)
		y -= noteStep
	}
	drawCautions(c, f.words, geom.Pt{X: x, Y: y + small - 1})
}

// templateCautions are the sentences that stand on every template, behind its own.
func templateCautions(own ...string) []caution {
	var out []caution
	for _, s := range append(own, "Measure the square, along and across, before you cut anything.", "A part's edge is the middle of its line.",
		"Follow the approved plans. The builder's inspector, the authority and licensed practice decide, not this program.") {
		out = append(out, caution{s, false})
	}
	return out
}
