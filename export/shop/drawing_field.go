package shop

import (
	"maps"
	"math"
	"slices"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/jig"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// field is what is drawn of the rib itself, in rib axes: its parts, names, ticks and marks, without the
// sheet around it.
type field struct {
	canvas
	r      *rib.Rib
	doc    *ribfile.Doc
	places *placer
	notes  []note // the findings that are marked
	rib    geom.Box
	ticks  []tick   // the stations that have a column in the band below
	board  geom.Box // that the rib is built on; empty: none planned
	blocks []jig.Block
	// stretch are the stations that are dimensioned above the rib, from the leading edge aft.
	stretch []measure
	// fine are the narrow lines; they are drawn last, and interrupted at lettering.
	fine []fineLine
}

type fineLine struct {
	layer string
	a, b  geom.Pt
}

// note is a finding with the number that marks it.
type note struct {
	number int
	at     []geom.Pt
	f      finding.Finding
}

// Field is what the jig drawing shows of the rib itself, on a roll and on pages alike. Made once it serves both, also at
// the same time.
type Field struct {
	f     *field
	found []finding.Finding
}

// NewField draws a rib with the board that is planned for it, and marks the findings.
func NewField(r *rib.Rib, doc *ribfile.Doc, board jig.Jig, found []finding.Finding) Field {
	return Field{newField(r, doc, board, found), found}
}

// copied returns the field for a drawing that goes on with it.
func (f Field) copied() *field {
	c := *f.f
	c.items, c.ids, c.places = slices.Clone(c.items), maps.Clone(c.ids), c.places.clone()
	c.stretch = slices.Clone(c.stretch)
	return &c
}

// newField draws the rib. Lines come first, so that every label sees them; then labels, those that can
// move least first.
func newField(r *rib.Rib, doc *ribfile.Doc, board jig.Jig, found []finding.Finding) *field {
	f := &field{r: r, doc: doc, places: newPlacer(), rib: r.Contour.Outline.Box()}
	if f.rib.Empty() {
		f.rib = geom.NewBox(geom.Pt{}, geom.Pt{X: math.Max(r.Chord, 1)})
	}
	f.parts()
	f.jigBlocks(board)
	f.axes()
	f.stations()
	f.measures()
	f.depths()
	f.jointNames()
	f.sparNames()
	f.blockNames()
	f.stickNumbers()
	f.endAngles()
	f.webName()
	f.findings(found)
	f.axisNames()
	f.blockNumbers()
	f.ordinates()
	f.fineLines()
	return f
}

// layers returns the layers of the rib's drawing: that of webs only where there is one.
func (f *field) layers() []export.Layer {
	return slices.DeleteFunc(jigLayers(), func(l export.Layer) bool { return l.ID == layerWeb && len(f.r.Web.Outline) == 0 })
}

// fineLines draws the narrow lines that wait, interrupted at lettering.
func (f *field) fineLines() {
	for _, l := range f.fine {
		for _, s := range f.places.gaps(l.a, l.b) {
			f.line(l.layer, s[0], s[1])
		}
	}
	f.fine = nil
}

// solid draws a part and keeps labels off its outline.
func (f *field) solid(layer, id string, p geom.Path) {
	f.part(layer, id, p)
	if len(p.Segs) > 0 {
		f.places.lines.add(p, true)
	}
}

// thin draws a narrow line that labels avoid where they can; where they cannot, it makes way.
func (f *field) thin(layer string, a, b geom.Pt) {
	f.fine = append(f.fine, fineLine{layer, a, b})
	f.places.lines.addLine(a, b, false)
}

// parts draws every piece of wood, each one closed path under its own ID.
//
// Neighbours share edges: the caps' outer edge lies on the contour, a stick's end on its cap. On paper
// both lie under one line. They are drawn twice all the same, since this is a drawing to build on, not to
// cut from: every part keeps its whole outline on its own layer, to be measured, hidden or taken out alone.
func (f *field) parts() {
	r := f.r
	// Layers and items share one set of names in a file, so the contour's item is called otherwise.
	f.solid(layerContour, "outline", r.Contour.Outline.Path())
	for _, c := range r.Caps {
		f.solid(layerCap, c.ID, c.Outline.Path())
	}
	for _, b := range r.Blocks {
		f.solid(layerBlock, b.ID, b.Outline.Path())
	}
	for _, s := range r.Sticks {
		f.solid(layerStick, s.ID, s.Outline.Path())
		for _, l := range r.Seams(s) {
			f.thin(layerMark, l[0], l[1])
		}
	}
	for _, s := range r.Spars {
		id := "spar-" + s.Name
		f.solid(layerSpar, id, s.Opening.Path())
		// Parallel lines that stand nearer than this merge on paper (ISO 128-2 wants 0.7 mm between them).
		if len(s.Opening) > 0 && s.Clearance >= 0.7 {
			f.solid(layerAdjoin, id+"-largest", geom.Ring{s.Bottom[0], s.Bottom[1], s.Top[1], s.Top[0]}.Path())
		}
	}
	if w := r.Web; len(w.Outline) > 0 { // its openings are the spars'
		f.solid(layerWeb, "plate-"+webID, w.Outline.Path())
	}
	for _, g := range r.Gussets {
		if g.Far { // alone
			f.solid(layerPlateFar, "plate-"+g.ID, g.Outline)
		}
		if g.Faces == 2 { // under the near one: a visible line goes before a hidden one (ISO 128-2)
			f.part(layerPlateFar, "plate-"+g.ID+"-far", g.Outline)
		}
		if !g.Far {
			f.solid(layerPlate, "plate-"+g.ID, g.Outline)
		}
		for _, m := range g.Marks {
			f.thin(layerMark, m.A, m.B)
		}
	}
}

// axes draws the chord line and the upright axis through the origin.
func (f *field) axes() {
	const over = 5 // beyond the rib
	left, right := math.Min(0, f.rib.Min.X)-over, f.rib.Max.X+over
	if f.r.Contour.CutAhead() { // the origin lies off the drawing
		f.thin(layerAxis, geom.Pt{X: f.rib.Min.X - over}, geom.Pt{X: right})
		return
	}
	f.thin(layerAxis, geom.Pt{X: left}, geom.Pt{X: right})
	f.thin(layerAxis, geom.Pt{Y: -over}, geom.Pt{Y: over})
}

// axisNames letters the axes: last, since they may stand anywhere along them.
func (f *field) axisNames() {
	if !f.r.Contour.CutAhead() {
		f.name(layerName, f.places.around(single("0, 0", small, false), 0, []geom.Pt{{}}, geom.Pt{X: -1, Y: -1}, 6, 0))
	}
	const name, step, above = "chord line", 4.0, small/2 + clearance + 0.3
	f.name(layerName, func(yield func(candidate) bool) {
		from := f.origin()
		for k := range int((f.rib.Max.X - from) / step) {
			x := float64((from+f.rib.Max.X)/2) + float64(step*turn(k))
			for _, y := range [2]float64{above, -above - 0.8} {
				if !yield(candidate{texts: []export.Text{centred(name, geom.Pt{X: x, Y: y}, small, 0, false)}, cost: float64(k) / 10}) {
					return
				}
			}
		}
	})
}

// draw draws a label that has its place already.
func (f *field) draw(layer string, c candidate) {
	if c.circle > 0 {
		f.path(layer, geom.Circle(c.texts[0].At, c.circle))
	}
	for _, t := range c.texts {
		f.text(layer, t)
	}
	if c.lead {
		for _, l := range c.line {
			f.line(layer, l[0], l[1])
		}
		if !c.bare {
			f.dot(layer, c.target)
		}
	}
}

// box returns the bounds of everything drawn.
func (f *field) box() geom.Box { return bounds(f.items).Union(f.rib) }
