package shop

import (
	"maps"
	"slices"

	"ribwright/geom"
	"ribwright/geom/cut"
	"ribwright/geom/ribfile"
)

// Cutting is the plates of a layout as they are cut, on their sheets. Made once it serves for all drawings of the sheets, also at the
// same time.
type Cutting struct {
	cutter *cutter
	sheets []canvas
}

// NewCutting draws the sheets of a layout in their own axes.
func NewCutting(doc *ribfile.Doc, l cut.Layout) Cutting {
	c := Cutting{newCutter(doc, l), make([]canvas, len(l.Sheets))}
	for k := range c.sheets {
		c.cutter.draw(&c.sheets[k], k)
	}
	return c
}

// drawn puts a sheet on an empty canvas, which others may add to.
func (c Cutting) drawn(to *canvas, k int) {
	to.items, to.ids = slices.Clip(c.sheets[k].items), maps.Clone(c.sheets[k].ids)
}

// cutPlate is a plate as it is cut and marked, in its own axes.
type cutPlate struct {
	cuts   []geom.Path // the way of the tool's middle, the outer one first
	holes  []geom.Path
	marks  []geom.Path // lines and lettering to engrave
	clamps []geom.Path
}

func newCutter(doc *ribfile.Doc, l cut.Layout) *cutter {
	c := &cutter{doc: doc, l: l}
	for _, p := range l.Plates {
		c.plates = append(c.plates, c.plate(p))
	}
	return c
}

func (c *cutter) plate(p cut.Plate) cutPlate {
	var out cutPlate
	t := c.l.Tool
	switch {
	case p.Blank > 0:
		out.cuts = []geom.Path{geom.Circle(geom.Pt{}, (p.Blank+t.Kerf)/2)}
		out.marks = trims(p.Outline)
		if t.Pilot > 0 {
			out.holes = []geom.Path{geom.Circle(geom.Pt{}, t.Pilot/2)}
		}
	case t.Name == "hole-saw":
		t.Kerf = t.Line
		out.cuts = t.Path(p.Outline)
	default:
		out.cuts = t.Path(p.Outline)
	}
	for _, h := range p.Holes {
		out.cuts = append(out.cuts, t.HolePath(h)...)
	}
	var marks [][2]geom.Pt
	for _, m := range p.Marks {
		marks = append(marks, [2]geom.Pt{m.A, m.B})
	}
	marks = markLines(p.Outline, marks)
	for _, m := range marks {
		out.marks = append(out.marks, geom.Line(m[0], m[1]))
	}
	for _, h := range out.holes { // no lettering in a hole
		pts := h.Flatten(0.1)
		for i, q := range pts {
			marks = append(marks, [2]geom.Pt{q, pts[(i+1)%len(pts)]})
		}
	}
	for _, m := range p.Clamps {
		out.clamps = append(out.clamps, geom.Line(m[0], m[1]))
	}
	if s, ok := engraveBeside(slit(p.Outline, p.Holes), marks, p.Clamps, p.ID); ok {
		out.marks = append(out.marks, s.Strokes()...)
	}
	return out
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
