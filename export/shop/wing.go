package shop

import (
	"fmt"
	"slices"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/wing"
)

// wingPicture draws a wing's plan view and its ribs one over the other, reduced.
type wingPicture struct {
	*canvas
	doc   *ribfile.Doc
	plan  wing.Plan
	set   rib.Set // one entry for each of the plan's kinds
	scale float64
	left  string // what to say where names are left out; empty: none are
}

// WingDrawing returns a picture of a wing on one sheet, reduced to about an A3 page's width: in plan, with the ribs, their names
// and their span stations; and below it every kind of rib as it stands in the wing, the first spar's place in line.
// set holds the plan's kinds.
func WingDrawing(doc *ribfile.Doc, plan wing.Plan, set rib.Set) export.Drawing {
	thin, thick := export.Pen{Width: narrow}, export.Pen{Width: wide}
	d := export.Drawing{Title: doc.Title, Layers: []export.Layer{
		{ID: layerMap, Pen: export.Pen{Width: narrow, Gray: 0.5}}, {ID: layerAxis, Pen: export.Pen{Width: narrow, Dash: dashDot}},
		{ID: layerStation, Pen: thin}, {ID: layerSpar, Pen: thin}, {ID: layerName, Pen: thin}, {ID: layerContour, Pen: thick},
	}}
	w := &wingPicture{canvas: &canvas{}, doc: doc, plan: plan, set: set, scale: reducedTo(plan.SemiSpan)}
	w.inPlan()
	b := bounds(w.items)
	w.heading(geom.Pt{X: b.Min.X, Y: b.Max.Y + 8}, w.planWords())
	stack := &wingPicture{canvas: &canvas{ids: w.ids}, doc: doc, plan: plan, set: set, scale: reducedTo(set[0].Rib.Chord)}
	stack.overlaid()
	s := bounds(stack.items)
	stack.heading(geom.Pt{X: s.Min.X, Y: s.Max.Y + 8}, []string{stack.stackWords()})
	s = bounds(stack.items)
	w.items = append(w.items, moved(stack.items, geom.Pt{X: b.Min.X - s.Min.X, Y: b.Min.Y - 15 - s.Max.Y})...)
	return onSheet(d, w.canvas, "wing")
}

// reducedTo returns the scale, one of those of ISO 5455, at which a length fits the picture's width.
func reducedTo(long float64) float64 {
	for _, n := range []float64{1, 2, 5, 10, 20, 50} {
		if long/n <= pictureWide {
			return 1 / n
		}
	}
	return 0.01
}

// heading letters lines from above down to a place, the last one just above it.
func (w *wingPicture) heading(at geom.Pt, lines []string) {
	for i := range lines {
		y := at.Y + float64(6*float64(len(lines)-1-i))
		w.write(layerName, lines[i], geom.Pt{X: at.X, Y: y}, medium, export.Left, i == 0)
	}
}

// planWords says what the wing is.
func (w *wingPicture) planWords() []string {
	ribs := w.set.Ribs()
	out := []string{w.doc.Title,
		fmt.Sprintf("%d %s of %d %s. From the root to the tip %s, %s; in plan drawn 1 : %s.", ribs, plural(ribs, "rib", "ribs"), len(w.plan.Kinds), plural(len(w.plan.Kinds), "kind", "kinds"),
			w.doc.Length(w.plan.SemiSpan), w.plan.Chords(), decimal(1/w.scale, 0))}
	if w.left != "" {
		out = append(out, w.left)
	}
	if w.plan.Wings == 2 {
		out = append(out, "The left wing is drawn; the right one is its mirror image. Numbers below: span stations from the root.")
	} else {
		out = append(out, "Numbers below: span stations from the root.")
	}
	return out
}

func (w *wingPicture) tipChord() float64 {
	if w.doc.Wing == nil {
		return w.doc.Rib.Chord
	}
	return w.doc.Wing.TipChord
}

// onPlan is a point of the plan view: span to the right, aft downward.
func (w *wingPicture) onPlan(span, aft float64) geom.Pt {
	return geom.Pt{X: float64(span * w.scale), Y: 0 - float64(aft*w.scale)}
}

// stands are the ribs of one wing, root to tip.
func (w *wingPicture) stands() []wing.Stand {
	return slices.DeleteFunc(w.plan.Stands(), func(s wing.Stand) bool { return s.Hand == wing.Right })
}

// inPlan draws the wing seen from above.
func (w *wingPicture) inPlan() {
	places := w.stands()
	first, last := places[0], places[len(places)-1]
	edge := func(p wing.Stand, share float64) geom.Pt {
		chord := lerp(w.doc.Rib.Chord, w.tipChord(), p.Span/w.plan.SemiSpan)
		return w.onPlan(p.Span, p.InWing(geom.Pt{X: float64(share * chord)}).X)
	}
	w.path(layerContour, geom.Ring{edge(first, 0), edge(last, 0), edge(last, 1), edge(first, 1)}.Path())
	for i, s := range w.plan.Spars {
		half := float64(w.doc.Spars[i].Width / 2)
		at := func(p wing.Stand, by float64) geom.Pt {
			return w.onPlan(p.Span, lerp(s.Root, s.Tip, p.Span/w.plan.SemiSpan)+by)
		}
		w.line(layerSpar, at(first, -half), at(last, -half))
		w.line(layerSpar, at(first, half), at(last, half))
		end := at(first, 0)
		w.write(layerName, s.Name, geom.Pt{X: end.X - 3, Y: end.Y - small/2}, small, export.Right, false)
	}
	foot := bounds(w.items).Min.Y - 1
	var edges []geom.Pt
	for _, p := range places {
		r := w.set[p.Entry].Rib
		box := r.Contour.Outline.Box()
		half := float64(r.CapWidth / 2)
		fore, aft := p.InWing(geom.Pt{X: box.Min.X}).X, p.InWing(geom.Pt{X: box.Max.X}).X
		w.part(layerStation, "rib-"+p.Rib, geom.Ring{w.onPlan(p.Span-half, fore), w.onPlan(p.Span+half, fore), w.onPlan(p.Span+half, aft), w.onPlan(p.Span-half, aft)}.Path())
		nose := edge(p, 0)
		w.leads(nose, w.onPlan(p.Span, fore))
		edges = append(edges, nose)
	}
	w.ribTags(places, edges, foot)
}

func lerp(a, b, t float64) float64 { return a + float64((b-a)*t) }

// lined says what stands in line in the picture of the ribs.
func (w *wingPicture) lined() string {
	if len(w.plan.Spars) == 0 {
		return "the leading edges"
	}
	return "the " + w.plan.Spars[0].Name + " spar"
}

// stackWords says what the picture of the ribs shows.
func (w *wingPicture) stackWords() string {
	end := fmt.Sprintf("drawn 1 : %s. Not to be measured from.", decimal(1/w.scale, 0))
	if len(w.set) == 1 {
		return "The rib, as it stands in the wing at the root, " + end
	}
	return fmt.Sprintf("The ribs as they stand in the wing, %s in line, %s", w.lined(), end)
}

// overlaid draws every kind of rib as it stands at its first place, moved along so that the first spar stays in
// line: the root's and the tip's with wide lines.
func (w *wingPicture) overlaid() {
	last := len(w.set) - 1
	for i, e := range w.set {
		k := w.plan.Kinds[i]
		p := k.Places[0]
		in := func(q geom.Pt) geom.Pt {
			q = p.InWing(q)
			q.X -= w.inLine(p)
			return q.Mul(w.scale)
		}
		layer := layerMap
		if i == 0 || i == last {
			layer = layerContour
		}
		w.part(layer, "rib-"+k.Name, mapped(e.Rib.Contour.Outline, in).Path())
		for _, s := range e.Rib.Spars {
			w.path(layerSpar, mapped(s.Opening, in).Path())
		}
	}
	if len(w.set) > 1 {
		w.kindTags()
	}
}

// inLine returns the x, in the wing's axes, of what is drawn in line.
func (w *wingPicture) inLine(p wing.Place) float64 {
	if len(w.plan.Spars) == 0 {
		return p.Nose.X
	}
	s := w.plan.Spars[0]
	return lerp(s.Root, s.Tip, p.Span/w.plan.SemiSpan)
}

func mapped(r geom.Ring, f func(geom.Pt) geom.Pt) geom.Ring {
	out := make(geom.Ring, len(r))
	for i, q := range r {
		out[i] = f(q)
	}
	return out
}
