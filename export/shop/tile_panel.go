package shop

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/finding"
)

// wording is the words of every page in a box of some width: the page's name, the title, what is drawn, the
// cautions, and the map of the pages. In a wide one they stand side by side, in a narrow one below each other.
type wording struct {
	w, h    float64
	wide    bool
	columns int     // of the lines, where it is wide
	text    float64 // width of a column of lines
	chart   geom.Pt // size of the map
	lines   []cautionLine
}

// Sizes in the panel, mm.
const (
	lineStep  = 4.0
	nameHigh  = 8.0
	nameWide  = 23.0 // room for the name, and for "sheet 12 of 14" below it
	headsHigh = 14.0
	panelGap  = 4.0
	panelWide = 165.0 // from here on side by side
)

// panelWidths are the widths that are tried where the words stand in free paper.
var panelWidths = [...]float64{180, 140, 115, 95, 80}

func (t *tiling) wording(w float64) wording {
	p, ok := t.wordings[w]
	if !ok {
		p = t.newWording(w)
		t.wordings[w] = p
	}
	return p
}

func (t *tiling) newWording(w float64) wording {
	p := wording{w: w, wide: w >= panelWide, columns: 1}
	if !p.wide {
		p.text = w
		p.chart = geom.Pt{X: w - nameWide - panelGap, Y: headsHigh}
		p.lines = t.words(p)
		p.h = headsHigh + 1.5 + medium + 1 + float64(float64(t.lineCount(p))*lineStep) + 1
		return p
	}
	p.chart.X = math.Min(0.15*w, 110)
	room := w - nameWide - p.chart.X - 2*panelGap
	if room > 190 {
		p.columns = 2
	}
	p.text = (room+panelGap)/float64(p.columns) - panelGap
	p.lines = t.words(p)
	p.h = math.Max(headsHigh, medium+1.5+float64(float64(t.lineCount(p))*lineStep))
	p.chart.Y = p.h
	return p
}

// flows reports whether the cautions stand one after the other, to save lines.
func (p wording) flows() bool { return p.wide && p.columns == 1 }

// lineCount returns how many lines high the longer column is, whatever page it is.
func (t *tiling) lineCount(p wording) int {
	facts := t.facts(-1, p.text)
	if p.columns == 2 {
		return max(len(facts), len(p.lines))
	}
	return len(facts) + len(p.lines)
}

// words returns the cautions as lines: each from a line of its own where there is room, else one
// after the other.
func (t *tiling) words(p wording) []cautionLine {
	all := t.cautions()
	if !p.flows() {
		return cautionLines(all, p.text)
	}
	var out []cautionLine
	flow := ""
	for _, c := range all {
		if c.bold {
			out = append(out, cautionLines([]caution{c}, p.text)...)
			continue
		}
		flow += " " + c.text
	}
	for _, l := range wrap(flow, small, p.text, false) {
		out = append(out, cautionLine{caution: caution{text: l}})
	}
	return out
}

func (t *tiling) drawPanel(c *canvas, b geom.Box, k int) {
	p := t.wording(b.W())
	top := b.Max.Y
	c.write(layerFrame, t.tiles[k].Name, geom.Pt{X: b.Min.X, Y: top - nameHigh}, nameHigh, export.Left, true)
	c.write(layerTable, fmt.Sprintf("sheet %d of %d", k+1, len(t.tiles)), geom.Pt{X: b.Min.X, Y: top - headsHigh + 0.7}, small, export.Left, false)
	chart := geom.NewBox(geom.Pt{X: b.Max.X - p.chart.X, Y: top - p.chart.Y}, geom.Pt{X: b.Max.X, Y: top})
	t.drawMap(c, chart, k)
	at := geom.Pt{X: b.Min.X, Y: top - headsHigh - 1.5}
	if p.wide {
		at = geom.Pt{X: b.Min.X + nameWide, Y: top}
	}
	title := t.f.doc.Title
	if title == "" {
		title = t.f.r.Title
	}
	room := p.text
	if p.columns == 2 {
		room = 2*p.text + panelGap
	}
	c.write(layerTable, clip(title, medium, room, true, "…"), at.Add(geom.Pt{Y: -medium}), medium, export.Left, true)
	at.Y -= medium + 1
	y := at.Y
	for _, l := range t.facts(k, p.text) {
		c.write(layerTable, l, geom.Pt{X: at.X, Y: y - lineStep + 1}, small, export.Left, false)
		y -= lineStep
	}
	if p.columns == 2 {
		at.X, y = at.X+p.text+panelGap, at.Y
	}
	flows := p.flows()
	for _, l := range p.lines {
		if y -= lineStep; l.first {
			c.fill(layerCaution, geom.Circle(geom.Pt{X: at.X + 0.6, Y: y + small/2 + 1}, 0.6))
		}
		x := at.X + cautionIndent
		if flows && !l.bold {
			x = at.X
		}
		c.write(layerCaution, l.text, geom.Pt{X: x, Y: y + 1}, small, export.Left, l.bold)
	}
}

// facts returns the lines about the rib and the page; the longest that there are for the page −1.
func (t *tiling) facts(k int, width float64) []string {
	f := t.f
	s := fmt.Sprintf("chord %s, %s, %d to make; scale 1:1", f.doc.Length(f.r.Chord), f.doc.SectionName(), f.r.Count)
	if f.r.Title != "" && f.r.Title != f.doc.Title {
		s = f.r.Title + ": " + s
	}
	if f.doc.Date != "" {
		s += "; " + f.doc.Date
	}
	if seen := t.marked(k); len(seen) > 0 {
		s += "; marked " + strings.Join(seen, ", ") + ": see the findings"
	}
	if t.paper.Printed.Off() {
		s += ". " + correctedWords(t.paper.Printed, f.doc.Units)
	}
	return wrap(s, small, width, false)
}

// cautions returns the sentences that stand on every page.
func (t *tiling) cautions() []caution {
	var all []caution
	if finding.HasError(t.found) {
		all = append(all, caution{"This rib has errors: do not build from this sheet.", true})
	}
	if hands := faceHands(t.f.r); len(hands) > 0 {
		all = append(all, caution{hands[0], true})
	}
	return append(all,
		caution{"Print at 100 %; measure " + checkIn(t.f.doc.Units).size + " across and up before cutting.", false},
		caution{"Follow the approved plans. Inspector, authority and licensed practice decide, not this program.", false})
}

// marked returns the numbers of the findings that are marked on a page; of all for the page −1.
func (t *tiling) marked(k int) []string {
	var seen []string
	for _, n := range t.f.notes {
		for _, at := range n.at {
			if k == -1 || t.tiles[k].Window.Holds(at.Add(t.tiles[k].Offset)) {
				seen = append(seen, strconv.Itoa(n.number))
				break
			}
		}
	}
	return seen
}
