package shop

import (
	"fmt"
	"math"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/mix"
	"ribwright/geom/ribfile"
)

// Sizes of the scale card, mm. A card is about the quarter of a page of paper: the page holds as many as it can.
const (
	cardWide   = 92.0 // the least
	cardHigh   = 126.0
	cardPad    = 5.0
	cardRow    = 10.0 // one thing to do
	cardFigure = 7.0  // height of what the scale reads
	cardBox    = 5.0  // to tick
	cardField  = 8.5  // a line to write on
)

// cardOver is how many steps too much the card has an answer for.
var cardOver = [4]float64{1, 2, 3, 5}

// ScaleCard returns the card that lies beside the scale: three readings, and what to do when too much was poured. On
// a page of paper there are as many cards as it holds, to be cut apart, one for each batch; without paper, or on a
// roll, it is one card.
func ScaleCard(w Weighing, paper ribfile.Paper) export.Drawing {
	thin, thick := export.Pen{Width: narrow}, export.Pen{Width: wide}
	d := export.Drawing{Title: w.Title, Layers: []export.Layer{
		{ID: layerMatch, Pen: export.Pen{Width: narrow, Gray: palest}}, {ID: layerTable, Pen: thin}, {ID: layerName, Pen: thin},
		{ID: layerCaution, Pen: thin}, {ID: layerFrame, Pen: thick},
	}}
	m := paper.Margin
	pageW, pageH := paper.W, paper.H
	if paper.W == 0 || paper.H == 0 || pageW-m.Left-m.Right < cardWide || pageH-m.Top-m.Bottom < cardHigh {
		pageW, pageH, m = cardWide+2*cardPad, cardHigh+4*cardPad, ribfile.Margins{}
	}
	roomW, roomH := pageW-m.Left-m.Right, pageH-m.Top-m.Bottom
	across, up := math.Floor(roomW/cardWide), math.Floor(roomH/cardHigh)
	size := geom.Pt{X: roomW / across, Y: roomH / up}
	c := &canvas{}
	for row := range int(up) {
		for col := range int(across) {
			own := &canvas{}
			weighCard{own, w, w.Card(), size}.draw()
			c.items = append(c.items, moved(own.items, geom.Pt{X: m.Left + float64(float64(col)*size.X), Y: m.Bottom + float64(float64(row)*size.Y)})...)
		}
	}
	for col := 1.0; col < across; col++ {
		x := m.Left + float64(col*size.X)
		c.line(layerMatch, geom.Pt{X: x, Y: m.Bottom}, geom.Pt{X: x, Y: m.Bottom + roomH})
	}
	for row := 1.0; row < up; row++ {
		y := m.Bottom + float64(row*size.Y)
		c.line(layerMatch, geom.Pt{X: m.Left, Y: y}, geom.Pt{X: m.Left + roomW, Y: y})
	}
	d.Sheets = []export.Sheet{{Name: "scale card", W: pageW, H: pageH, Parts: []export.Part{{Items: c.items}}}}
	return d
}

// weighCard draws one card, its lower left corner at the origin.
type weighCard struct {
	*canvas
	w    Weighing
	card mix.Card
	size geom.Pt
}

func (k weighCard) draw() {
	wide := k.size.X - 2*cardPad
	y := k.heading(k.size.Y-cardPad, wide)
	for i, s := range k.w.steps(k.card) {
		y -= cardRow
		k.row(y, fmt.Sprint(i+1), s[0], s[1])
	}
	y -= cardRow - 2
	k.row(y, "4", "Stir well; scrape sides and bottom", "")
	y -= noteStep + 2.5
	k.write(layerName, k.w.parts(k.card.AG, k.card.BG, k.card.TotalG), geom.Pt{X: cardPad, Y: y}, k.fit(k.w.parts(k.card.AG, k.card.BG, k.card.TotalG), medium, wide, true), export.Left, true)
	y -= 2.5
	lines := cautionLines(k.cautions(), wide)
	drawCautions(k.canvas, lines, geom.Pt{X: cardPad, Y: y})
	y -= float64(noteStep*float64(len(lines))) + 2.5
	const foot = cardPad + cardField + small + 1
	if over := k.over(); y-foot >= float64(noteStep*float64(len(over))) {
		k.table(over, y, wide)
	}
	k.fields(wide)
}

// heading writes what is mixed, and returns the height below it.
func (k weighCard) heading(y, wide float64) float64 {
	title, ratio := k.w.Title, "Adhesive "+k.w.ratioWords()
	if title == "" {
		title, ratio = "Adhesive", k.w.ratioWords()
	}
	scale := "Scale in steps of " + k.w.Reading(k.w.Scale.StepG)
	if k.w.For != "" {
		scale += "; for " + k.w.For
	}
	y -= medium
	k.write(layerFrame, clip(title, medium, wide, true, "…"), geom.Pt{X: cardPad, Y: y}, medium, export.Left, true)
	y -= 1.5
	for _, s := range []string{ratio, scale} {
		for _, l := range wrap(s, small, wide, false) {
			y -= noteStep
			k.write(layerTable, l, geom.Pt{X: cardPad, Y: y}, small, export.Left, false)
		}
	}
	return y
}

// fit is the height of lettering at which a text is no wider than there is room.
func (k weighCard) fit(s string, height, room float64, bold bool) float64 {
	if w := textWidth(s, height, bold); w > room {
		return math.Max(small, height*room/w)
	}
	return height
}

// row is one thing to do, with a box to tick, and what the scale reads then.
func (k weighCard) row(y float64, number, words, reads string) {
	const text = cardPad + cardBox + 6.5
	k.path(layerFrame, geom.Rect(geom.NewBox(geom.Pt{X: cardPad, Y: y}, geom.Pt{X: cardPad + cardBox, Y: y + cardBox})))
	base := y + (cardBox-medium)/2
	k.write(layerName, number, geom.Pt{X: cardPad + cardBox + 2, Y: base}, medium, export.Left, true)
	right := k.size.X - cardPad
	room := right - text
	if reads != "" {
		room -= textWidth(words, medium, false) + 3
		high := k.fit(reads, cardFigure, room, true)
		k.write(layerName, reads, geom.Pt{X: right, Y: y + float64((cardBox-high)/2)}, high, export.Right, true)
	}
	k.write(layerName, words, geom.Pt{X: text, Y: base}, k.fit(words, medium, right-text, false), export.Left, false)
}

func (k weighCard) cautions() []caution {
	var out []caution
	for _, s := range k.w.cupWords() {
		out = append(out, caution{s, false})
	}
	step := k.w.stepWords(k.card.Error, k.card.Within)
	if !k.card.Within {
		step += " " + k.w.smallestWords(false)
	}
	out = append(out, caution{step, !k.card.Within})
	return append(out, caution{"Follow the adhesive maker's figures. Break a sample joint of each batch: it must fail in the wood.", false})
}

// over is what to do when too much was poured: heading and figures.
func (k weighCard) over() [][]string {
	s := k.w.Scale
	a := [][]string{{"Too much A? If A reads"}, {"pour B until it reads"}, {"Too much B? If it reads"}, {"add A until it reads"}}
	next := func(c mix.Correction) string {
		if len(c.Add) == 0 {
			return "leave it"
		}
		return k.bare(c.Add[0].ReadG)
	}
	for _, n := range cardOver {
		more := float64(n * s.StepG)
		a[0] = append(a[0], k.bare(k.card.AG+more))
		a[1] = append(a[1], next(s.Correct(k.w.Ratio, k.card.AG+more, 0)))
		a[2] = append(a[2], k.bare(k.card.TotalG+more))
		a[3] = append(a[3], next(s.Correct(k.w.Ratio, k.card.AG, k.card.BG+more)))
	}
	return a
}

// bare is a reading without its unit.
func (k weighCard) bare(g float64) string {
	s := k.w.Reading(g)
	for i := range s {
		if s[i] == ' ' {
			return s[:i]
		}
	}
	return s
}

// table writes the figures below a line, in as many columns as there is room for.
func (k weighCard) table(rows [][]string, y, wide float64) {
	const words, apart = 40.0, 2.0
	widest := 0.0
	for _, row := range rows {
		for _, s := range row[1:] {
			widest = math.Max(widest, textWidth(s, small, true))
		}
	}
	columns := min(len(cardOver), int((wide-words)/(widest+apart)))
	column := (wide - words) / float64(columns)
	k.line(layerTable, geom.Pt{X: cardPad, Y: y + 1}, geom.Pt{X: cardPad + wide, Y: y + 1})
	for i, row := range rows {
		y -= noteStep
		for col, s := range row[:1+columns] {
			at, anchor := geom.Pt{X: cardPad, Y: y}, export.Left
			if col > 0 {
				at.X, anchor = cardPad+words+float64(float64(col)*column), export.Right
			}
			k.write(layerTable, s, at, small, anchor, i%2 == 1)
		}
	}
}

// fields are the lines to write on, at the foot of the card.
func (k weighCard) fields(wide float64) {
	const air = 1.5 // before and after a line
	for i, row := range [][]string{{"Temperature", "Mixed at", "Use before"}, {"Batch", "Date"}} {
		at := geom.Pt{X: cardPad, Y: cardPad + float64(float64(i)*cardField)}
		blank := wide + air
		for _, word := range row {
			blank -= textWidth(word, small, false) + 2*air
		}
		blank /= float64(len(row))
		for _, word := range row {
			k.write(layerTable, word, at, small, export.Left, false)
			at.X += textWidth(word, small, false) + air
			k.line(layerTable, at.Add(geom.Pt{Y: -0.5}), at.Add(geom.Pt{X: blank, Y: -0.5}))
			at.X += blank + air
		}
	}
}
