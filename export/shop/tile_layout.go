package shop

import (
	"fmt"
	"math"

	"ribwright/geom"
	"ribwright/geom/ribfile"
)

// layout is a page divided: the window onto the drawing, and what stands beside it. Lengths are those that
// the printer makes of them: a printer that shrinks has a page that is larger by as much.
type layout struct {
	w, h   float64  // the page; of a roll w is the most, and a page is as long as it needs
	sheet  geom.Box // where the printer prints
	window geom.Box
	panel  geom.Box // for the words; empty: they stand in the window, where there is no ink
	across bool     // a length to measure stands below the window
	up     bool     // and one left of it
	roll   bool
	more   float64 // of a roll: free paper behind the drawing, for the words
}

// Sizes of a page's parts, mm.
const (
	windowMin = 60.0
	panelAir  = 2.0
	longest   = 5000.0 // of a page from a roll: PDF ends at 5,080 mm
)

// layouts returns the ways to divide the paper: upright and turned, with nothing beside the window, with the
// words below it, and with rulers too: one below, or one below and one on the left.
func (t *tiling) layouts() []layout {
	sx, sy := t.paper.Printed.Correction()
	m := t.paper.Margin
	long, short := math.Max(t.paper.W, t.paper.H), math.Min(t.paper.W, t.paper.H)
	page := func(w, h float64, m ribfile.Margins) layout {
		l := layout{w: w / sx, h: h / sy}
		l.sheet = geom.NewBox(geom.Pt{X: m.Left / sx, Y: m.Bottom / sy}, geom.Pt{X: (w - m.Right) / sx, Y: (h - m.Top) / sy})
		return l
	}
	// Which edge of the upright paper comes to be the left one when it is turned, the printer decides.
	ends, sides := math.Max(m.Top, m.Bottom), math.Max(m.Left, m.Right)
	turned := ribfile.Margins{Left: ends, Right: ends, Top: sides, Bottom: sides}
	var out []layout
	if t.paper.H == 0 {
		l := page(longest, t.paper.W, turned)
		l.roll = true
		for _, more := range []float64{0, 110, 220} {
			l.more = more
			out = append(out, t.divided(l)...)
		}
		return out
	}
	if t.paper.Turn != "landscape" {
		out = append(out, t.divided(page(short, long, m))...)
	}
	if t.paper.Turn != "portrait" && (short != long || len(out) == 0) {
		out = append(out, t.divided(page(long, short, turned))...)
	}
	return out
}

// divided returns a page with its window in four ways, those left out that leave too little.
func (t *tiling) divided(l layout) []layout {
	var out []layout
	add := func(l layout) {
		if l.window.W() >= windowMin && l.window.H() >= windowMin {
			out = append(out, l)
		}
	}
	l.window = l.sheet
	if t.overview.H() > 0 {
		add(l)
	}
	if l.more > 0 { // the words stand there
		return out
	}
	words := func(b geom.Box) geom.Box {
		if l.roll {
			b.Max.X = b.Min.X + math.Min(rollPanel, b.W())
		}
		b.Max.Y = b.Min.Y + t.wording(b.W()).h
		return b
	}
	strip := l
	strip.panel = words(l.sheet)
	strip.window.Min.Y = strip.panel.Max.Y + panelAir
	add(strip)
	if t.rulerLong()+rulerWide > math.Min(l.sheet.W(), l.sheet.H()) {
		return out
	}
	for _, up := range []bool{false, true} {
		full, b := l, l.sheet
		full.across, full.up = true, up
		if b.Min.Y += rulerWide; up {
			b.Min.X += rulerWide
		}
		full.panel = words(b)
		full.window = geom.NewBox(geom.Pt{X: b.Min.X, Y: full.panel.Max.Y + panelAir}, b.Max)
		add(full)
	}
	return out
}

// rollPanel is the length of the words along a roll.
const rollPanel = 300.0

// tooSmall says that no way of dividing leaves a window.
func (t *tiling) tooSmall() error {
	u, p := t.f.doc.Units, t.paper
	size := u.Length(p.W) + " × " + u.Length(p.H)
	if p.H == 0 {
		size = "a roll of " + u.Length(p.W)
	}
	return fmt.Errorf("paper of %s with margins of %s, %s, %s and %s (left, right, top, bottom) leaves too little for a page with %s to measure: take larger paper, or smaller margins",
		size, u.Length(p.Margin.Left), u.Length(p.Margin.Right), u.Length(p.Margin.Top), u.Length(p.Margin.Bottom), checkIn(t.f.doc.Units).size)
}
