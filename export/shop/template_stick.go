package shop

import (
	"math"
	"strconv"
	"strings"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// Sticks returns the sticks' templates on one sheet, full size: every stick once, alike ones together. A stick is
// laid between its two long lines, and its ends are sanded to the short ones, which run on beyond it.
func Sticks(r *rib.Rib, doc *ribfile.Doc, t takeoff.TakeOff) export.Drawing {
	return stickTemplate(r, doc, t).sheet()
}

// StickPages returns them over pages. A stick longer than a page is drawn broken, its length beside it.
func StickPages(r *rib.Rib, doc *ribfile.Doc, t takeoff.TakeOff, p Page) export.Drawing {
	return stickTemplate(r, doc, t).pages(p)
}

func stickTemplate(r *rib.Rib, doc *ribfile.Doc, t takeoff.TakeOff) template {
	w := lister{r: r, doc: doc, t: t, inch: doc.Units == ribfile.Inch}
	return template{name: "Sticks, full size", doc: doc,
		facts: []string{strconv.Itoa(len(r.Sticks)) + " sticks in a rib, " + strconv.Itoa(r.Count) + " ribs; sticks " + w.section(r.PlyDepth(), r.StickWidth)},
		words: templateCautions("Lay the stick between its long lines and sand its ends to the cross lines, which run on beyond it.",
			"Degrees are counted from a square cut, counter-clockwise as it lies here, as in the cut list.", "Make one of each and try it in the jig before the rest."),
		blocks: func(most float64) []block {
			var out []block
			for _, g := range t.Sticks {
				out = append(out, w.stick(g, most))
			}
			return out
		}}
}

// Sizes of a stick's template, mm.
const (
	beyond   = 5.0  // how far the cuts' lines run on beyond the stick
	gapShown = 12.0 // the room of the break in a broken stick
)

// stick draws one kind of stick along the sheet, no wider than given where that is possible.
func (w lister) stick(g takeoff.StickGroup, most float64) block {
	c := &canvas{}
	s := g.First
	u := s.Axis[1].Sub(s.Axis[0]).Unit()
	lie := geom.Turn(geom.Pt{}, -u.Angle())
	ring := geom.Ring(lie.Pts(s.Outline))
	box := ring.Box()
	lie = lie.Then(geom.Move(box.Min.Mul(-1)))
	ring = geom.Ring(lie.Pts(s.Outline))

	what := strings.Join(g.IDs, " ") + "   ×" + strconv.Itoa(len(g.IDs)*w.t.Count)
	size := "long point " + w.computed(s.LongPoint).Text + " " + w.unit() + "   " + w.section(w.r.PlyDepth(), w.r.StickWidth)
	ends := [2]string{"left: " + cuts(s.Ends[0], len(g.IDs) > 1), "right: " + cuts(s.Ends[1], len(g.IDs) > 1)}
	return c.stick(stickDrawing{ring, lie, s, what, size, ends, most})
}

func (w lister) unit() string {
	if w.inch {
		return "in"
	}
	return "mm"
}

// stickDrawing is a stick, moved so that it lies along x with its box's lower left corner at the origin.
type stickDrawing struct {
	ring       geom.Ring
	lie        geom.Transform // from the rib to there
	s          rib.Stick
	what, size string
	ends       [2]string // what is written at either end
	most       float64
}

func (c *canvas) stick(d stickDrawing) block {
	box := d.ring.Box()
	length, depth := box.W(), box.H()
	// The names stand above, the ends' cuts below; each line of lettering has its own row where two would meet.
	const rowStep = small + 1.7
	before, behind := d.overshoot()
	broken := before+length+behind > d.most && d.most > 4*gapShown
	if broken {
		d.size = "drawn broken: " + d.size
	}
	nameWide, sizeWide := textWidth(d.what, small, true), textWidth(d.size, small, false)
	fromWide, toWide := textWidth(d.ends[0], small, false), textWidth(d.ends[1], small, false)

	shown := length
	if broken {
		shown = d.most - before - behind
	}
	wide := math.Max(shown, math.Max(math.Max(nameWide, sizeWide), math.Max(fromWide, toWide)))
	if broken {
		c.brokenStick(d, shown)
	} else {
		c.part(layerStick, "stick-"+d.s.ID, d.ring.Path())
		for _, e := range d.s.Ends {
			for _, k := range e.Cuts {
				c.ranOn(d.lie.Pt(k.A), d.lie.Pt(k.B), 0)
			}
		}
	}
	y := depth + beyond + 1.8
	c.write(layerName, d.what, geom.Pt{Y: y}, small, export.Left, true)
	if nameWide+4+sizeWide > wide {
		y += rowStep
		c.write(layerName, d.size, geom.Pt{Y: y}, small, export.Left, false)
	} else {
		c.write(layerName, d.size, geom.Pt{X: wide, Y: y}, small, export.Right, false)
	}
	y = -beyond - 1.8 - small
	c.write(layerName, d.ends[0], geom.Pt{Y: y}, small, export.Left, false)
	if fromWide+4+toWide > wide {
		y -= rowStep
	}
	c.write(layerName, d.ends[1], geom.Pt{X: wide, Y: y}, small, export.Right, false)
	b := newBlock(c)
	b.broken = broken
	return b
}

// overshoot returns how far the cuts' lines run on before and behind the stick.
func (d stickDrawing) overshoot() (before, behind float64) {
	b := d.ring.Box()
	all := b
	for _, e := range d.s.Ends {
		for _, k := range e.Cuts {
			for _, l := range runOn(d.lie.Pt(k.A), d.lie.Pt(k.B)) {
				all = all.Union(geom.NewBox(l[0], l[1]))
			}
		}
	}
	return b.Min.X - all.Min.X, all.Max.X - b.Max.X
}

// runOn returns the lines that prolong a cut beyond both of its ends.
func runOn(a, b geom.Pt) [][2]geom.Pt {
	d := b.Sub(a).Unit()
	if d == (geom.Pt{}) {
		return nil
	}
	// A flat cut would run far along the sheet: what counts is how far it rises beside the stick.
	k := math.Min(beyond/math.Max(math.Abs(d.Y), 0.35), 2*beyond)
	return [][2]geom.Pt{{a, a.Along(d, -k)}, {b, b.Along(d, k)}}
}

// ranOn draws a cut's line on beyond both of its ends, moved along the stick.
func (c *canvas) ranOn(a, b geom.Pt, by float64) {
	for _, l := range runOn(a, b) {
		c.line(layerMark, l[0].Add(geom.Pt{X: by}), l[1].Add(geom.Pt{X: by}))
	}
}

// brokenStick draws both ends of a stick too long for the sheet, with break lines between them.
func (c *canvas) brokenStick(d stickDrawing, shown float64) {
	box := d.ring.Box()
	half := float64((shown - gapShown) / 2)
	from, to := half, box.W()-half // what lies between is left out
	short := to - from - gapShown  // by this the far end moves in
	for i, h := range []geom.Half{geom.Before(from), geom.After(to)} {
		for _, p := range d.ring.Cut(h) {
			by := geom.Pt{}
			if i == 1 {
				by.X = -short
			}
			c.open(layerStick, "stick-"+d.s.ID, geom.Ring(geom.Move(by).Pts(p)), []float64{from, to - short}[i])
		}
	}
	for i, e := range d.s.Ends {
		for _, k := range e.Cuts {
			a, b := d.lie.Pt(k.A), d.lie.Pt(k.B)
			if a.X > box.W()/2 {
				c.ranOn(a, b, -short)
			} else {
				c.ranOn(a, b, 0)
			}
		}
		x := []float64{from, to - short}[i]
		c.breakLine(geom.Pt{X: x, Y: -2}, geom.Pt{X: x, Y: box.H() + 2})
	}
}

// open draws a ring as an open line that leaves out its edges on the line at x.
func (c *canvas) open(layer, id string, r geom.Ring, x float64) {
	on := func(p geom.Pt) bool { return math.Abs(p.X-x) < geom.Step }
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if !on(p) || !on(q) {
			continue
		}
		var pts []geom.Pt
		for k := range r {
			pts = append(pts, r[(i+1+k)%len(r)])
		}
		c.part(layer, id, geom.Polyline(pts...))
		return
	}
}

// breakLine draws the zigzag line of ISO 128-2 that ends a broken view.
func (c *canvas) breakLine(a, b geom.Pt) {
	d := b.Sub(a)
	n := d.Unit().Left()
	c.path(layerMark, geom.Polyline(a, a.Along(d, 0.4), a.Along(d, 0.45).Along(n, 2), a.Along(d, 0.55).Along(n, -2), a.Along(d, 0.6), b))
}
