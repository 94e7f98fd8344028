package dxf

import (
	"ribwright/export"
	"ribwright/geom"
)

// survey is what the header says of the entities, which come after it.
type survey struct {
	entities int
	box      geom.Box // of everything on the sheet; the sheet itself where nothing is
}

// survey looks through what entities writes; s has its size in the file's unit.
func (f *file) survey(s export.Sheet) survey {
	var v survey
	for _, part := range s.Parts {
		for _, it := range part.All() {
			v.item(f.unit.item(it), f.unit.places)
		}
	}
	if v.box.Empty() {
		v.box = geom.NewBox(geom.Pt{}, geom.Pt{X: s.W, Y: s.H})
	}
	return v
}

func (v *survey) item(it export.Item, places int) {
	if it.Text != nil {
		v.entities++
		c := it.Text.Corners()
		v.box = v.box.Union(geom.NewBox(c[:]...))
		return
	}
	v.path(it.Path, places)
	for _, h := range it.Holes {
		v.path(h, places)
	}
}

func (v *survey) path(p geom.Path, places int) {
	v.box = export.Extend(v.box, p)
	if _, _, ok := p.IsCircle(); ok || !export.Vanishes(p, places) {
		v.entities++
	}
}
