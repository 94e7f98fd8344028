package export

import (
	"math"

	"ribwright/geom"
)

// Scaled returns a drawing scaled across and up apart, sheets and all: for a printer that does not print
// true. Where the two differ, arcs become lines that leave them by at most 0.005 mm (geom.Flat). Lettering
// keeps its shape; its height is what the scale makes of it.
func Scaled(d Drawing, x, y float64) Drawing {
	if x == 1 && y == 1 {
		return d
	}
	zoom := geom.Zoom(x, y)
	path := func(p geom.Path) geom.Path {
		if len(p.Segs) == 0 {
			return p
		}
		if x != y {
			p = straight(p)
		}
		return zoom.Path(p)
	}
	scaled := func(items []Item) []Item {
		out := make([]Item, len(items))
		for n, it := range items {
			it.Path = path(it.Path)
			holes := it.Holes
			it.Holes = nil
			for _, h := range holes {
				it.Holes = append(it.Holes, path(h))
			}
			if it.Text != nil {
				t := it.Text.scaled(x, y)
				it.Text = &t
			}
			out[n] = it
		}
		return out
	}
	out := d
	out.Sheets = make([]Sheet, len(d.Sheets))
	for i, s := range d.Sheets {
		s.W, s.H = s.W*x, s.H*y
		parts := s.Parts
		s.Parts = make([]Part, len(parts))
		for k, p := range parts {
			if !p.Clip.Empty() {
				p.Clip = geom.NewBox(zoom.Pt(p.Clip.Min), zoom.Pt(p.Clip.Max))
			}
			s.Parts[k] = p.Map(scaled)
		}
		out.Sheets[i] = s
	}
	return out
}

// scaled scales a text's place, its direction, and its height along the upright of its letters.
func (t Text) scaled(x, y float64) Text {
	s, c := math.Sincos(t.Angle)
	t.At = geom.Zoom(x, y).Pt(t.At)
	t.Height *= math.Hypot(s*x, c*y)
	if x != y && t.Angle != 0 {
		t.Angle = math.Atan2(s*y, c*x)
	}
	return t
}

// straight returns a path with its arcs as lines.
func straight(p geom.Path) geom.Path {
	arcs := false
	for _, s := range p.Segs {
		arcs = arcs || s.Bulge != 0
	}
	if !arcs {
		return p
	}
	pts := p.Flatten(geom.Flat)
	if n := len(pts) - 1; p.Closed && n > 0 && pts[n] == pts[0] {
		pts = pts[:n]
	}
	out := geom.Polyline(pts...)
	out.Closed = p.Closed
	return out
}
