// Package svg writes one sheet of a drawing as SVG 1.1, for laser cutters, plotters and browsers.
//
// Lengths are millimetres: width and height carry the unit, and the viewBox makes one user unit one
// millimetre. The sheet's y runs up, SVG's down: the writer turns it over by writing H − y, without a
// transform, since simple cutters read none. Numbers are plain decimals of at most four places with
// blanks between them. Each layer that has something on it is one group under its name; every contour is one closed path, a full
// circle a circle element, an arc is written in pieces of a quarter turn at most. All places are absolute but
// those within letters: lettering is drawn as filled outlines, each from an absolute start by relative steps of
// three places, with the words in a title element.
//
// The layers are drawn in the drawing's order of layers, and within a layer in the order of the items.
// The package takes no account of the tool's width, and knows no ribs.
package svg

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"ribwright/export"
	"ribwright/geom"
)

const (
	places = 4           // geom.Step
	most   = math.Pi / 2 // sweep of a piece of an arc; a half turn's centre would hang on the radius's last place
)

// Write writes one sheet of the drawing, counted from 0.
func Write(w io.Writer, d export.Drawing, sheet int) error {
	if err := d.CheckSheet(sheet); err != nil {
		return fmt.Errorf("svg: %w", err)
	}
	if err := export.WriteFlow(w, func(f *export.Flow, b []byte) []byte { return write(f, b, d, d.Sheets[sheet]) }); err != nil {
		return fmt.Errorf("writing SVG: %w", err)
	}
	return nil
}

func write(f *export.Flow, b []byte, d export.Drawing, s export.Sheet) []byte {
	p := &printer{flow: f, b: b, h: s.H}
	p.str(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	p.str(`<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="`).num(s.W).str(`mm" height="`).num(s.H)
	p.str(`mm" viewBox="0 0`).nums(s.W, s.H).str("\">\n")
	p.str("<title>").text(title(d, s)).str("</title>\n")
	p.clips(s)
	groups, runs := groupIDs(d.Layers, s), runsOf(s)
	for i, l := range d.Layers {
		p.layer(l, groups[i], s, runs[l.ID])
	}
	return p.str("</svg>\n").b
}

func title(d export.Drawing, s export.Sheet) string {
	switch {
	case s.Name == "":
		return d.Title
	case d.Title == "":
		return s.Name
	}
	return d.Title + " – " + s.Name
}

// printer gathers the file.
type printer struct {
	flow  *export.Flow
	b     []byte     // what is not handed on yet
	h     float64    // the sheet's height, which y is taken from
	color string     // of the layer at hand
	segs  []geom.Seg // memory for the path at hand
}

func (p *printer) str(s string) *printer { p.b = append(p.b, s...); return p }

func (p *printer) num(v float64) *printer { p.b = export.AppendNum(p.b, v, places); return p }

// nums writes numbers with a blank before each.
func (p *printer) nums(vs ...float64) *printer {
	for _, v := range vs {
		p.b = export.AppendNum(append(p.b, ' '), v, places)
	}
	return p
}

func (p *printer) text(s string) *printer {
	if !strings.ContainsAny(s, "&<>\"'") { // line breaks and what else XML cannot hold, no text has
		return p.str(s)
	}
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s)) // a bytes.Buffer takes everything
	return p.str(b.String())
}

// pt writes a place with a blank before each number, y turned over.
func (p *printer) pt(q geom.Pt) *printer { return p.nums(q.X, p.h-q.Y) }

// id writes the attribute where there is an ID.
func (p *printer) id(id string) *printer {
	if id != "" {
		p.str(` id="`).str(id).str(`"`)
	}
	return p
}

func (p *printer) clips(s export.Sheet) {
	open := false
	for i, part := range s.Parts {
		if part.Clip.Empty() {
			continue
		}
		if !open {
			p.str("<defs>\n")
			open = true
		}
		c := part.Clip
		p.str(`<clipPath`).id(clipID(i)).str(`><rect x="`).num(c.Min.X).str(`" y="`).num(p.h - c.Max.Y)
		p.str(`" width="`).num(c.W()).str(`" height="`).num(c.H()).str("\"/></clipPath>\n")
	}
	if open {
		p.str("</defs>\n")
	}
}

// clipID names the clip of a part; items' IDs never begin with '_'.
func clipID(part int) string { return fmt.Sprintf("_clip%d", part+1) }

// run is items of one layer that follow each other in a part, or of a part that is made later all that may be on the layer.
type run struct {
	part  int
	items []export.Item
	later func() []export.Item
}

// on returns the run's items, which are on a layer.
func (r run) on(layer string) []export.Item {
	if r.later == nil {
		return r.items
	}
	return slices.DeleteFunc(slices.Clone(r.later()), func(it export.Item) bool { return it.Layer != layer })
}

// runsOf returns what lies on each layer, by its ID, in the order of the sheet.
func runsOf(s export.Sheet) map[string][]run {
	out := map[string][]run{}
	for i, part := range s.Parts {
		if part.Later != nil {
			for _, layer := range part.On {
				out[layer] = append(out[layer], run{part: i, later: part.Later})
			}
			continue
		}
		for rest := part.Items; len(rest) > 0; {
			layer, n := rest[0].Layer, 1
			for n < len(rest) && rest[n].Layer == layer {
				n++
			}
			out[layer] = append(out[layer], run{part: i, items: rest[:n]})
			rest = rest[n:]
		}
	}
	return out
}

func (p *printer) layer(l export.Layer, group string, s export.Sheet, runs []run) {
	open, clipped := false, -1 // the part whose clip holds
	for _, r := range runs {
		items := r.on(l.ID)
		if len(items) == 0 {
			continue
		}
		if !open {
			p.color = l.Pen.Hex()
			p.group(group, l.Pen)
			open = true
		}
		if clipped >= 0 && clipped != r.part {
			p.str("</g>\n")
			clipped = -1
		}
		if clipped < 0 && !s.Parts[r.part].Clip.Empty() {
			p.str(`<g clip-path="url(#`).str(clipID(r.part)).str(")\">\n")
			clipped = r.part
		}
		for i := range items {
			p.item(&items[i])
			p.b = p.flow.Pass(p.b)
		}
	}
	if clipped >= 0 {
		p.str("</g>\n")
	}
	if open {
		p.str("</g>\n")
	}
}

func (p *printer) group(id string, pen export.Pen) {
	p.str("<g").id(id).str(` fill="none" stroke="`).str(p.color).str(`" stroke-width="`).num(pen.Width)
	p.str(`" stroke-linejoin="round"`)
	if len(pen.Dash) > 0 {
		p.str(` stroke-dasharray="`)
		for i, v := range pen.Dash {
			if i > 0 {
				p.str(" ")
			}
			p.num(v)
		}
		p.str(`"`)
	}
	p.str(">\n")
}

// groupIDs returns the ID of each layer's group: its name as far as an ID can hold it (XML 1.0, production
// 5, in ASCII), with a number behind it where an item or another layer has that ID.
func groupIDs(layers []export.Layer, s export.Sheet) []string {
	out := make([]string, len(layers))
	named := false
	for i, l := range layers {
		out[i], named = l.ID, named || l.Name != ""
	}
	if !named {
		return out
	}
	taken := map[string]bool{}
	for _, part := range s.Parts {
		for _, it := range part.All() {
			if it.ID != "" {
				taken[it.ID] = true
			}
		}
	}
	for _, l := range layers {
		if l.Name == "" {
			taken[l.ID] = true
		}
	}
	for i, l := range layers {
		if l.Name == "" {
			continue
		}
		id := strings.Map(func(r rune) rune {
			if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '.' || r == '_' {
				return r
			}
			return '-'
		}, l.Name)
		if !(id[0] >= 'a' && id[0] <= 'z' || id[0] >= 'A' && id[0] <= 'Z') { // clips' IDs begin with '_'
			id = "layer-" + id
		}
		out[i] = id
		for n := 2; taken[out[i]]; n++ {
			out[i] = fmt.Sprintf("%s-%d", id, n)
		}
		taken[out[i]] = true
	}
	return out
}

func (p *printer) item(it *export.Item) {
	if it.Text != nil {
		p.lettering(it)
		return
	}
	if c, r, ok := it.Path.IsCircle(); ok && len(it.Holes) == 0 {
		p.str("<circle").id(it.ID).str(` cx="`).num(c.X).str(`" cy="`).num(p.h - c.Y).str(`" r="`).num(r).str(`"`)
		p.fill(it).str("/>\n")
		return
	}
	mark := len(p.b)
	p.str("<path").id(it.ID)
	p.fill(it).str(` d="`)
	n := len(p.b)
	p.contour(it.Path)
	for _, h := range it.Holes {
		p.contour(h)
	}
	if len(p.b) == n { // nothing to draw
		p.b = p.b[:mark]
		return
	}
	p.str("\"/>\n")
}

func (p *printer) fill(it *export.Item) *printer {
	if it.Fill {
		p.str(` fill="`).str(p.color).str(`" fill-rule="evenodd" stroke="none"`)
	}
	return p
}

// sep writes a blank between the contours of one path.
func (p *printer) sep() *printer {
	if p.b[len(p.b)-1] != '"' {
		p.str(" ")
	}
	return p
}

func (p *printer) contour(path geom.Path) {
	path = export.SnapIn(p.segs, path, places)
	p.segs = path.Segs
	if len(path.Segs) == 0 {
		return
	}
	p.sep().str("M").pt(path.Start)
	at := path.Start
	for _, s := range path.Segs {
		if s.Bulge == 0 {
			p.str(" L").pt(s.End)
			at = s.End
			continue
		}
		_, r, _, _ := geom.Arc(at, s.End, s.Bulge)
		sweep := 0.0 // clockwise on the sheet as in SVG's turned axes is 1, counter-clockwise 0
		if s.Bulge < 0 {
			sweep = 1
		}
		for _, q := range export.SplitArc(at, s, most) {
			p.str(" A").nums(r, r, 0, 0, sweep).pt(q.End)
		}
		at = s.End
	}
	if path.Closed {
		p.str(" Z")
	}
}

func (p *printer) lettering(it *export.Item) {
	p.str("<g").id(it.ID).str(` fill="`).str(p.color).str(`" stroke="none"><title>`).text(it.Text.S).str("</title>")
	mark := len(p.b)
	p.str(`<path d="`)
	n := len(p.b)
	if kept := alphabetOf(*it.Text); kept != nil {
		it.Text.EachLetter(func(r rune, at geom.Pt) {
			for _, o := range kept.letter(r) {
				p.sep().str("M").pt(at.Add(o.start)).str(o.steps)
			}
		})
	} else {
		for _, c := range it.Text.Outlines() {
			p.sep().str("M").pt(c.Start)
			p.b = steps(p.b, c)
		}
	}
	if len(p.b) > n {
		p.str(`"/>`)
	} else {
		p.b = p.b[:mark] // only blanks
	}
	p.str("</g>\n")
}
