package shop

import (
	"fmt"
	"iter"
	"slices"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/cut"
	"ribwright/geom/ribfile"
)

// Cutting is the plates of a layout as they are cut, on their sheets. Made once it serves for all drawings of the sheets, also at the
// same time. It holds what takes long to find; what is drawn is made when it is wanted.
type Cutting struct {
	cutter *cutter
	names  []namePlace // of each plate
	tours  []tour      // of each sheet
}

// namePlace is where a plate's name stands, in the plate's own axes, and how high its letters are; 0: it has no room.
type namePlace struct {
	at     geom.Pt
	height float64
}

// tour says in which order the plates of a sheet are marked and drilled, and in which they are cut.
type tour struct{ marks, cuts []int }

// NewCutting finds out how the plates of a layout are marked and cut.
func NewCutting(doc *ribfile.Doc, l cut.Layout) Cutting {
	c := Cutting{cutter: &cutter{doc: doc, l: l}}
	for i := range l.Plates {
		c.names = append(c.names, c.cutter.letter(i))
	}
	for _, s := range l.Sheets {
		var centres, starts []geom.Pt
		for _, p := range s.Placed {
			t := p.Transform()
			centres, starts = append(centres, t.Pt(geom.Pt{})), append(starts, t.Pt(c.cutter.cuts(p.Plate)[0].Start))
		}
		c.tours = append(c.tours, tour{cut.Tour(geom.Pt{}, centres), cut.Tour(geom.Pt{}, starts)})
	}
	return c
}

// draw draws a sheet in its own axes, in the order of cutting: all marks, then holes, then outlines, of each the
// nearest next, from the sheet's corner on.
func (c Cutting) draw(k int) []export.Part {
	marked := []string{layerMark}
	if slices.ContainsFunc(c.cutter.l.Sheets[k].Placed, func(p cut.Placed) bool { return len(c.cutter.l.Plates[p.Plate].Clamps) > 0 }) {
		marked = append(marked, layerClamp)
	}
	return []export.Part{c.cutter.edge(k),
		{On: marked, Later: func() []export.Item {
			to := &canvas{}
			for p, t := range c.placed(k, c.tours[k].marks) {
				for _, m := range c.marks(p) {
					to.path(layerMark, t.Path(m))
				}
				for _, m := range c.cutter.l.Plates[p].Clamps {
					to.path(layerClamp, t.Path(geom.Line(m[0], m[1])))
				}
			}
			return to.items
		}},
		{On: []string{layerHole}, Later: func() []export.Item {
			to := &canvas{}
			for p, t := range c.placed(k, c.tours[k].marks) {
				for _, h := range c.cutter.holes(p) {
					to.path(layerHole, t.Path(h))
				}
			}
			return to.items
		}},
		{On: []string{layerCut}, Later: func() []export.Item {
			to := &canvas{}
			for p, t := range c.placed(k, c.tours[k].cuts) {
				id := fmt.Sprintf("plate-%d-%s", k+1, c.cutter.l.Plates[p].ID)
				for _, line := range slices.Backward(c.cutter.cuts(p)) { // holes, and what grew shut inside, lie behind the outer one
					to.part(layerCut, id, t.Path(line))
				}
			}
			return to.items
		}}}
}

// placed goes through the plates of a sheet in an order.
func (c Cutting) placed(k int, order []int) iter.Seq2[int, geom.Transform] {
	return func(yield func(int, geom.Transform) bool) {
		for _, i := range order {
			p := c.cutter.l.Sheets[k].Placed[i]
			if !yield(p.Plate, p.Transform()) {
				return
			}
		}
	}
}

// marks returns the lines and the lettering to engrave on a plate, in its own axes.
func (c Cutting) marks(plate int) []geom.Path {
	out := c.cutter.lines(plate)
	if n := c.names[plate]; n.height > 0 {
		out = append(out, export.Text{S: c.cutter.l.Plates[plate].ID, At: n.at, Height: n.height, Anchor: export.Middle}.Strokes()...)
	}
	return out
}

// cuts returns the way of the tool's middle about a plate, the outer one first.
func (c *cutter) cuts(plate int) []geom.Path {
	p, t := c.l.Plates[plate], c.l.Tool
	var out []geom.Path
	switch {
	case p.Blank > 0:
		out = []geom.Path{geom.Circle(geom.Pt{}, (p.Blank+t.Kerf)/2)}
	case t.Name == "hole-saw":
		t.Kerf = t.Line
		out = t.Path(p.Outline)
	default:
		out = t.Path(p.Outline)
	}
	for _, h := range p.Holes {
		out = append(out, t.HolePath(h)...)
	}
	return out
}

// holes returns what is drilled in a plate.
func (c *cutter) holes(plate int) []geom.Path {
	if c.l.Plates[plate].Blank > 0 && c.l.Tool.Pilot > 0 {
		return []geom.Path{geom.Circle(geom.Pt{}, c.l.Tool.Pilot/2)}
	}
	return nil
}

// lines returns the lines to engrave on a plate.
func (c *cutter) lines(plate int) []geom.Path {
	p := c.l.Plates[plate]
	var out []geom.Path
	if p.Blank > 0 {
		out = trims(p.Outline)
	}
	for _, m := range plateMarks(p) {
		out = append(out, geom.Line(m[0], m[1]))
	}
	return out
}

// plateMarks returns the marks that place a plate.
func plateMarks(p cut.Plate) [][2]geom.Pt {
	var out [][2]geom.Pt
	for _, m := range p.Marks {
		out = append(out, [2]geom.Pt{m.A, m.B})
	}
	return markLines(p.Outline, out)
}

// letter finds the place of a plate's name.
func (c *cutter) letter(plate int) namePlace {
	p := c.l.Plates[plate]
	marks := plateMarks(p)
	for _, h := range c.holes(plate) { // no lettering in a hole
		pts := h.Flatten(0.1)
		for i, q := range pts {
			marks = append(marks, [2]geom.Pt{q, pts[(i+1)%len(pts)]})
		}
	}
	t, _ := engraveBeside(slit(p.Outline, p.Holes), marks, p.Clamps, p.ID)
	return namePlace{t.At, t.Height}
}

// trims returns the lines along which a round blank is trimmed: of its outline all but the arcs about its centre.
func trims(outline geom.Path) []geom.Path {
	var out []geom.Path
	a := outline.Start
	for _, s := range append(slices.Clone(outline.Segs), geom.Seg{End: outline.Start}) {
		own := false
		if s.Bulge != 0 {
			c, _, _, _ := geom.Arc(a, s.End, s.Bulge)
			own = c.Len() < geom.Flat
		}
		n := len(out)
		switch {
		case own || a.Dist(s.End) < geom.Coincident:
		case n > 0 && out[n-1].Segs[len(out[n-1].Segs)-1].End == a:
			out[n-1].Segs = append(out[n-1].Segs, s)
		default:
			out = append(out, geom.Path{Start: a, Segs: []geom.Seg{s}})
		}
		a = s.End
	}
	return out
}
