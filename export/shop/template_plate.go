package shop

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// PlateTemplates returns the templates for round plates on one sheet: one to mark plates by for each size of
// plate and each distance of the cap's line, and one to drill by for each size.
func PlateTemplates(r *rib.Rib, doc *ribfile.Doc, t takeoff.TakeOff) export.Drawing {
	return plateTemplate(r, doc, t).sheet()
}

// PlateTemplatePages returns them over pages.
func PlateTemplatePages(r *rib.Rib, doc *ribfile.Doc, t takeoff.TakeOff, p Page) export.Drawing {
	return plateTemplate(r, doc, t).pages(p)
}

// HasRoundPlates reports whether a rib has plates that these templates serve.
func HasRoundPlates(r *rib.Rib) bool {
	return slices.ContainsFunc(r.Gussets, func(g rib.Gusset) bool { return g.Shape == rib.Round })
}

func plateTemplate(r *rib.Rib, doc *ribfile.Doc, t takeoff.TakeOff) template {
	w := lister{r: r, doc: doc, t: t, inch: doc.Units == ribfile.Inch}
	return template{name: "Round plates", doc: doc,
		words: templateCautions("Marking: glue the sheet to card or thin plywood, cut it out and cut the notches. Lay it on a plate and mark the notches, the line and the centre.",
			"Drilling: glue the sheet to the plywood and start the pilot drill at each cross."),
		blocks: func(most float64) []block {
			var out []block
			for _, m := range markings(r) {
				out = append(out, w.marking(m))
			}
			for _, d := range diameters(r) {
				out = append(out, w.drilling(d, most))
			}
			return out
		}}
}

// marking is plates that one template marks.
type marking struct {
	diameter, mark float64
	plates         int // joints that it serves, on one face
	faces          int
}

// markings gathers the round plates by size and by the distance of the cap's line, largest first.
func markings(r *rib.Rib) []marking {
	var out []marking
	for _, g := range r.Gussets {
		if g.Shape != rib.Round {
			continue
		}
		i := slices.IndexFunc(out, func(m marking) bool {
			return math.Abs(m.diameter-g.Size[0]) < geom.Step && math.Abs(m.mark-g.MarkDistance) < geom.Flat
		})
		if i < 0 {
			i = len(out)
			out = append(out, marking{diameter: g.Size[0], mark: g.MarkDistance, faces: g.Faces})
		}
		out[i].plates++
	}
	return out
}

// diameters returns the round plates' diameters, each once.
func diameters(r *rib.Rib) []float64 {
	var out []float64
	for _, m := range markings(r) {
		if !slices.ContainsFunc(out, func(d float64) bool { return math.Abs(d-m.diameter) < geom.Step }) {
			out = append(out, m.diameter)
		}
	}
	return out
}

// marking draws the plate with its cap's side up: the circle, the centre, the line of the cap's inner edge, and
// round it an angle every 10° from the cap's direction, to lay a stick's centre line by.
func (w lister) marking(m marking) block {
	const (
		notch = 3.0 // what is cut out at the line's ends, so that a pencil marks the plate's edge there
		tick  = 2.0
	)
	c, r := &canvas{}, float64(m.diameter/2)
	c.part(layerCut, "marking", geom.Circle(geom.Pt{}, r))
	arm := math.Min(3, r/4)
	c.line(layerMark, geom.Pt{X: -arm}, geom.Pt{X: arm})
	c.line(layerMark, geom.Pt{Y: -arm}, geom.Pt{Y: arm})
	if half := math.Sqrt(math.Max(0, float64(r*r)-float64(m.mark*m.mark))); m.mark < r {
		c.line(layerMark, geom.Pt{X: -half, Y: m.mark}, geom.Pt{X: half, Y: m.mark})
		for _, s := range []float64{-1, 1} {
			p := geom.Pt{X: float64(s * half), Y: m.mark}
			c.path(layerCut, geom.Polyline(p.Add(geom.Pt{Y: float64(notch / 2)}), p.Along(geom.Pt{X: -s}, notch), p.Add(geom.Pt{Y: -notch / 2})))
		}
	}
	c.line(layerAxis, geom.Pt{X: -r - tick, Y: r}, geom.Pt{X: r + tick, Y: r}) // the contour's tangent
	for a := -180; a <= 0; a += 10 {
		u := geom.Polar(float64(a) * math.Pi / 180)
		long := tick
		if a%30 == 0 {
			long = 2 * tick
		}
		c.line(layerStation, u.Mul(r+1), u.Mul(r+1+long))
		if a%30 == 0 {
			c.text(layerName, centred(strconv.Itoa(min(-a, 180+a))+"°", u.Mul(r+5.5+2*tick), small, 0, false))
		}
	}
	u := w.doc
	y := -r - 8.5 - 2*tick - small
	for i, s := range []string{"⌀ " + u.Length(m.diameter) + ": " + strconv.Itoa(m.plates) + " on " + plural(m.faces, "one", "each") + " face",
		"cap's line " + u.Decimal(m.mark) + " " + string(u.Units) + " from the centre"} {
		c.write(layerName, s, geom.Pt{Y: y - float64(noteStep*float64(i))}, small, export.Center, i == 0)
	}
	c.write(layerName, "contour", geom.Pt{X: 0, Y: r + 1.2}, small, export.Center, false)
	return newBlock(c)
}

// Limits of the drilling template, mm.
const (
	drillWide = 180.0 // of its rows, unless the sheet is narrower
	drillHigh = 85.0
)

// drilling draws crosses for the hole saw's pilot drill in staggered rows: so far apart that the saw's kerfs
// stand by the gap of [sheet] from each other. The first saw's circle is drawn about its cross.
func (w lister) drilling(diameter, most float64) block {
	saw := w.doc.Saw
	outer := math.Max(saw.HoleSaw, diameter+float64(2*saw.HoleSawKerf))
	pitch := outer + w.doc.Sheet.Gap
	c := &canvas{}
	wide, high := math.Min(drillWide, most), drillHigh
	columns := max(1, int((wide-outer)/pitch)+1)
	step := float64(pitch * math.Sqrt(3) / 2)
	rows := max(1, int((high-outer)/step)+1)
	n := 0
	for i := range rows {
		shift, inRow := 0.0, columns
		if i%2 == 1 {
			shift = float64(pitch / 2)
			if float64(pitch*float64(columns-1))+shift+outer > wide {
				inRow--
			}
		}
		for k := range inRow {
			at := geom.Pt{X: float64(outer/2) + shift + float64(pitch*float64(k)), Y: -float64(outer/2) - float64(step*float64(i))}
			for _, d := range []geom.Pt{{X: 4}, {Y: 4}} {
				c.line(layerMark, at.Sub(d), at.Add(d))
			}
			c.part(layerPlate, "pilot", geom.Circle(at, saw.Pilot/2))
			c.path(layerAxis, geom.Circle(at, outer/2))
			n++
		}
	}
	u := w.doc
	c.write(layerName, fmt.Sprintf("Drilling: plates ⌀ %s, saw ⌀ %s outside, pilot ⌀ %s", u.Length(diameter), u.Length(outer), u.Length(saw.Pilot)), geom.Pt{Y: 2 + noteStep}, small, export.Left, true)
	c.write(layerName, fmt.Sprintf("%d crosses, %s apart", n, u.Length(pitch)), geom.Pt{Y: 2}, small, export.Left, false)
	return newBlock(c)
}
