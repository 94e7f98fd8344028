package dxf

import (
	"ribwright/export"
	"ribwright/geom"
)

// item returns an item of millimetres in the unit. Bulges are no lengths and stay.
func (u Unit) item(it export.Item) export.Item {
	if u.mm == 1 {
		return it
	}
	zoom := geom.Zoom(1/u.mm, 1/u.mm)
	if it.Text != nil {
		t := *it.Text
		t.At, t.Height = zoom.Pt(t.At), t.Height/u.mm
		it.Text = &t
		return it
	}
	it.Path = zoom.Path(it.Path)
	holes := make([]geom.Path, len(it.Holes))
	for i, h := range it.Holes {
		holes[i] = zoom.Path(h)
	}
	it.Holes = holes
	return it
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
