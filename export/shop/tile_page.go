package shop

import (
	"ribwright/export"
	"ribwright/geom"
)

// page draws one page: the window with the field and the register marks, and what stands beside the drawing.
func (t *tiling) page(k int, marks []register, large bigMap) export.Sheet {
	p := t.tiles[k]
	in := t.ink.within(p.ink.Move(p.Offset.Mul(-1)))
	var join []export.Item
	for _, g := range marks {
		switch p.Name {
		case g.a.Name:
			join = append(append(join, g.items...), g.onA...)
		case g.b.Name:
			join = append(append(join, g.items...), g.onB...)
		}
	}
	c := &canvas{}
	c.path(layerMap, geom.Rect(p.Window))
	t.drawPanel(c, p.furniture.panel, k)
	sides := t.drawCheck(c, p.furniture)
	if large.page == k {
		large.draw(t, c)
	}
	return export.Sheet{Name: p.Name, W: p.W, H: p.H, Parts: append([]export.Part{
		{Clip: p.ink, Items: move(in, p.Offset)},
		{Clip: p.Window, Items: move(join, p.Offset)},
		{Items: c.items},
	}, sides...)}
}
