package dxf

import (
	"ribwright/export"
	"ribwright/geom"
)

// sheet returns a sheet of millimetres in the unit. Bulges are no lengths and stay.
func (u Unit) sheet(s export.Sheet) export.Sheet {
	if u.mm == 1 {
		return s
	}
	zoom := geom.Zoom(1/u.mm, 1/u.mm)
	s.W, s.H = s.W/u.mm, s.H/u.mm
	parts := make([]export.Part, len(s.Parts))
	for i, part := range s.Parts {
		items := make([]export.Item, len(part.Items))
		for k, it := range part.Items {
			items[k] = it
			if it.Text != nil {
				t := *it.Text
				t.At, t.Height = zoom.Pt(t.At), t.Height/u.mm
				items[k].Text = &t
				continue
			}
			items[k].Path = zoom.Path(it.Path)
			items[k].Holes = make([]geom.Path, len(it.Holes))
			for h, hole := range it.Holes {
				items[k].Holes[h] = zoom.Path(hole)
			}
		}
		parts[i] = export.Part{Items: items}
	}
	s.Parts = parts
	return s
}

// layers returns layers with their dashes in the unit.
func (u Unit) layers(ls []export.Layer) []export.Layer {
	out := make([]export.Layer, len(ls))
	for i, l := range ls {
		dash := make([]float64, len(l.Pen.Dash))
		for k, v := range l.Pen.Dash {
			dash[k] = v / u.mm
		}
		l.Pen.Dash = dash
		out[i] = l
	}
	return out
}
