package shop

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/batch"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// Sizes of the traveller, mm.
const (
	lineHigh   = 6.4 // of a line with blanks to write into
	tickBox    = 3.5
	tickRow    = 4.7 // of the table of joints
	bandHigh   = 6.0 // of a heading
	bandGap    = 1.4 // above it
	columnsGap = 7.0 // between the table's columns of rows
)

// travellerLayers returns the layers of the traveller, thin lines first.
func travellerLayers() []export.Layer {
	thin, thick := export.Pen{Width: narrow}, export.Pen{Width: wide}
	return []export.Layer{
		{ID: layerMatch, Pen: export.Pen{Width: narrow, Gray: palest}}, {ID: layerSpar, Pen: export.Pen{Width: narrow, Gray: palest}},
		{ID: layerStick, Pen: thin}, {ID: layerBlock, Pen: thin}, {ID: layerCap, Pen: thin}, {ID: layerPlate, Pen: thin}, {ID: layerMark, Pen: thin},
		{ID: layerTable, Pen: thin}, {ID: layerName, Pen: thin}, {ID: layerCaution, Pen: thin}, {ID: layerContour, Pen: thick}, {ID: layerFrame, Pen: thick},
	}
}

// Traveller returns the sheet that goes with each rib of a kind through the shop, to be printed once for each: a
// picture with every joint named, the order of work with boxes to tick and blanks for what the log asks, what was planned
// beside them, and the cautions. It flows over pages where one does not hold it.
//
// The kind is entry i of the set, with its quantities.
func Traveller(set rib.Set, i int, t takeoff.TakeOff, b batch.Plan, p Page) export.Drawing {
	e := set[i]
	w := &travellerSheet{lister: lister{r: e.Rib, doc: e.Doc, t: t, inch: e.Doc.Units == ribfile.Inch}, entry: i, name: e.Name, batches: b,
		page: p, wide: p.W - 2*p.Margin, floor: p.Margin}
	if w.flow(); len(w.pages) > 1 { // each gets its number
		w.pages, w.floor = nil, p.Margin+noteStep
		w.flow()
	}
	d := export.Drawing{Title: e.Doc.Title, Layers: travellerLayers()}
	for i, c := range w.pages {
		name := "Traveller"
		if len(w.pages) > 1 {
			name = fmt.Sprintf("Traveller, page %d of %d", i+1, len(w.pages))
			c.write(layerTable, name, geom.Pt{X: p.W - p.Margin, Y: p.Margin + 0.8}, small, export.Right, false)
		}
		d.Sheets = append(d.Sheets, export.Sheet{Name: name, W: p.W, H: p.H, Parts: []export.Part{{Items: c.items}}})
	}
	return d
}

// travellerSheet lays a traveller out from above, strip by strip.
type travellerSheet struct {
	lister
	entry   int
	name    string // of the kind; empty where there is one
	batches batch.Plan
	page    Page
	wide    float64
	pages   []*canvas
	y       float64 // down to which the last page is full
	floor   float64 // down to which pages may be full
}

// strip draws something as high as told below what is there, or at the head of a further page where there is no room;
// the lower left corner is the origin.
func (w *travellerSheet) strip(high float64, draw func(c *canvas)) {
	if len(w.pages) == 0 || w.y-high < w.floor-geom.Step && w.y < w.top() {
		w.pages, w.y = append(w.pages, &canvas{}), w.page.H-w.page.Margin
		if len(w.pages) > 1 {
			w.heading(false)
		}
	}
	own := &canvas{}
	draw(own)
	w.y -= high
	c := w.pages[len(w.pages)-1]
	c.items = append(c.items, moved(own.items, geom.Pt{X: w.page.Margin, Y: w.y})...)
}

// top is the height at which a further page begins below its heading.
func (w *travellerSheet) top() float64 {
	if len(w.pages) < 2 {
		return w.page.H - w.page.Margin
	}
	return w.page.H - w.page.Margin - numberHigh
}

const numberHigh = 8.0

func (w *travellerSheet) flow() {
	w.heading(true)
	pic := w.picture()
	w.strip(pic.h, func(c *canvas) { c.items = pic.items })
	w.work()
	lines := cautionLines(w.cautions(), w.wide)
	high := float64(noteStep*float64(len(lines))) + bandGap
	w.strip(high, func(c *canvas) { drawCautions(c, lines, geom.Pt{Y: high - bandGap}) })
}

// heading is the title and the rib's number, to be written in; on a further page shorter.
func (w *travellerSheet) heading(first bool) {
	what := "Traveller: one for each rib"
	if w.name != "" {
		what = "Traveller of rib " + w.name + ": one for each"
	}
	number := "Rib number"
	of := fmt.Sprintf("of %d", w.r.Count)
	w.strip(numberHigh, func(c *canvas) {
		right := textWidth(of, medium, false)
		const blank = 20.0
		c.write(layerFrame, of, geom.Pt{X: w.wide, Y: 2.5}, medium, export.Right, false)
		c.line(layerTable, geom.Pt{X: w.wide - right - 2 - blank, Y: 2}, geom.Pt{X: w.wide - right - 2, Y: 2})
		at := w.wide - right - 2 - blank - 2
		c.write(layerFrame, number, geom.Pt{X: at, Y: 2.5}, medium, export.Right, true)
		room := at - textWidth(number, medium, true) - 6
		if len(w.r.Hands) > 0 { // to be ticked: one drawing serves both
			for _, hand := range []string{"right", "left"} {
				wide := textWidth(hand, medium, false)
				c.write(layerFrame, hand, geom.Pt{X: room, Y: 2.5}, medium, export.Right, false)
				room -= wide + blankAir + tickBox
				c.tick(geom.Pt{X: room, Y: 1.8})
				room -= 4
			}
		}
		high := float64(large)
		if textWidth(w.doc.Title, high, true) > room {
			high = medium
		}
		c.write(layerFrame, clip(w.doc.Title, high, room, true, "…"), geom.Pt{Y: 2.5}, high, export.Left, true)
	})
	if !first {
		return
	}
	facts := []string{what, "chord " + w.doc.Length(w.r.Chord), fmt.Sprintf("%d sticks", len(w.r.Sticks)), fmt.Sprintf("%d plates", w.plateCount())}
	if w.doc.Date != "" {
		facts = append(facts, w.doc.Date)
	}
	w.strip(noteStep, func(c *canvas) {
		c.write(layerTable, clip(strings.Join(facts, ", "), small, w.wide, false, "…"), geom.Pt{Y: noteStep - small - 1 + 0.8}, small, export.Left, false)
	})
}

func (w *travellerSheet) plateCount() int {
	n := 0
	for _, g := range w.r.Gussets {
		n += len(g.On())
	}
	return n
}

// blank is something to write: a word, a line to write on, what comes behind it, such as the unit and what was planned. A
// tick is a box with a word behind it.
type blank struct {
	word, after string
	tick        bool
}

func (b blank) width() float64 {
	wide := textWidth(b.word, small, false) + blankAir
	if b.after != "" {
		wide += textWidth(b.after, small, false) + blankAir
	}
	if b.tick {
		wide += tickBox + blankAir
	}
	return wide
}

// blanks is a row of them over the sheet's width, each with the same length of line to write on.
func (w *travellerSheet) blanks(row ...blank) {
	const least = 14.0 // of a line to write on
	for len(row) > 0 {
		n, length := len(row), 0.0
		for ; ; n-- { // as many as leave each a line long enough
			used, lines := float64(blankApart*float64(n-1)), 0
			for _, b := range row[:n] {
				used += b.width()
				if !b.tick {
					lines++
				}
			}
			if length = (w.wide - used) / float64(max(1, lines)); length >= least || n == 1 {
				break
			}
		}
		line := row[:n]
		row = row[n:]
		w.strip(lineHigh, func(c *canvas) {
			at := geom.Pt{Y: 1.2}
			word := func(s string) {
				c.write(layerName, s, at, small, export.Left, false)
				at.X += textWidth(s, small, false) + blankAir
			}
			for _, b := range line {
				if b.tick {
					c.tick(at.Add(geom.Pt{Y: -0.5}))
					at.X += tickBox + blankAir
				}
				word(b.word)
				if !b.tick {
					c.line(layerTable, geom.Pt{X: at.X, Y: 0.8}, geom.Pt{X: at.X + length, Y: 0.8})
					at.X += length + blankAir
				}
				if b.after != "" {
					word(b.after)
				}
				at.X += blankApart - blankAir
			}
		})
	}
}

// The room within a blank and between two.
const blankAir, blankApart = 1.2, 3.5

// step is a numbered thing to do with a box to tick; its words break over lines.
func (w *travellerSheet) step(number int, words string) {
	const indent = tickBox + 7
	lines := wrap(words, small, w.wide-indent, false)
	high := math.Max(tickBox+1.5, float64(noteStep*float64(len(lines)))+0.8)
	w.strip(high, func(c *canvas) {
		y := high - tickBox - 0.6
		c.tick(geom.Pt{Y: y})
		base := y + (tickBox-small)/2
		c.write(layerName, fmt.Sprint(number), geom.Pt{X: tickBox + 1.5, Y: base}, small, export.Left, true)
		for _, l := range lines {
			c.write(layerName, l, geom.Pt{X: indent, Y: base}, small, export.Left, false)
			base -= noteStep
		}
	})
}

// tick draws a box to tick.
func (c *canvas) tick(at geom.Pt) {
	c.path(layerMark, geom.Rect(geom.NewBox(at, at.Add(geom.Pt{X: tickBox, Y: tickBox}))))
}

// band is the heading of a part of the work.
func (w *travellerSheet) band(words string) {
	w.strip(bandHigh+bandGap, func(c *canvas) {
		c.line(layerFrame, geom.Pt{Y: bandHigh}, geom.Pt{X: w.wide, Y: bandHigh})
		c.write(layerFrame, words, geom.Pt{Y: 1.2}, medium, export.Left, true)
	})
}

// order lists members in the order in which they are laid in: caps, blocks, posts, uprights, diagonals, each nose to tail.
func (w lister) order() []string {
	var out []string
	for _, c := range w.r.Caps {
		out = append(out, map[rib.Side]string{rib.Upper: "upper cap", rib.Lower: "lower cap"}[c.Side])
	}
	for _, k := range w.r.Blocks {
		out = append(out, map[string]string{rib.BlockNose: "nose block", rib.BlockTail: "tail block"}[k.ID])
	}
	for _, kind := range []rib.Kind{rib.Post, rib.Upright, rib.Diagonal} {
		var ids []string
		for _, s := range w.r.Sticks {
			if s.Kind == kind {
				ids = append(ids, s.ID)
			}
		}
		if len(ids) > 0 {
			out = append(out, plural(len(ids), string(kind), string(kind)+"s")+" "+strings.Join(ids, " "))
		}
	}
	return out
}

// travellerRow is a row of the table of joints: a plate, or a joint that has none.
type travellerRow struct {
	name  string
	at    float64 // station
	upper bool
	plate int // index in Gussets; −1: none
	web   bool
}

// rows lists plates and bare joints nose to tail, the upper one of two first: the order of work.
func (w lister) rows() []travellerRow {
	var out []travellerRow
	plated := map[string]bool{}
	for i, g := range w.r.Gussets {
		out = append(out, travellerRow{name: g.ID, at: g.Centre.X, upper: true, plate: i})
		for _, id := range append(slices.Clone(g.Joints), strings.Split(g.ID, "+")...) {
			plated[id] = true
		}
	}
	for _, j := range w.r.Joints {
		if !plated[j.ID] {
			out = append(out, travellerRow{name: j.ID, at: j.At.X, upper: j.Side == rib.Upper, plate: -1})
		}
	}
	for i, one := range out {
		for _, j := range w.r.Joints {
			if one.name == j.ID || strings.HasPrefix(one.name, j.ID+"+") {
				out[i].at, out[i].upper = j.Station, j.Side == rib.Upper
			}
		}
	}
	slices.SortStableFunc(out, func(a, b travellerRow) int {
		if c := cmp.Compare(a.at, b.at); math.Abs(a.at-b.at) > geom.Coincident {
			return c
		}
		switch {
		case a.upper && !b.upper:
			return -1
		case b.upper && !a.upper:
			return 1
		}
		return 0
	})
	return out
}
