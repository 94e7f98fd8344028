package dxf

import (
	"math"
	"strings"

	"ribwright/export"
	"ribwright/geom"
)

// entities writes the section of what is drawn.
func (f *file) entities(s export.Sheet) {
	f.str(0, "SECTION")
	f.str(2, "ENTITIES")
	for _, part := range s.Parts {
		for _, it := range part.All() {
			f.item(f.unit.item(it))
			f.b = f.flow.Pass(f.b)
		}
	}
	f.str(0, "ENDSEC")
}

func (f *file) item(it export.Item) {
	if it.Text != nil {
		f.text(it.Layer, *it.Text)
		return
	}
	f.path(it.Layer, it.Path)
	for _, h := range it.Holes {
		f.path(it.Layer, h)
	}
}

// headOf returns what stands in every entity of a layer between its handle and the name of its class.
func (f *file) headOf(layer string) string {
	h := file{unit: f.unit}
	h.hex(330, modelRecord)
	h.str(100, "AcDbEntity")
	h.str(8, layer)
	h.code(100)
	return string(h.b)
}

// entity writes what every entity begins with.
func (f *file) entity(kind, layer, class string) {
	f.str(0, kind)
	f.handle()
	f.b = append(append(append(f.b, f.heads[layer]...), class...), '\n')
}

func (f *file) path(layer string, p geom.Path) {
	if c, r, ok := p.IsCircle(); ok {
		f.entity("CIRCLE", layer, "AcDbCircle")
		f.at(10, c, false)
		f.num(40, r)
		return
	}
	p = export.SnapIn(f.segs, p, f.unit.places)
	f.segs = p.Segs
	switch n := len(p.Segs); {
	case n == 0:
	case n == 1 && p.Segs[0].Bulge == 0: // there and back is the same line
		f.entity("LINE", layer, "AcDbLine")
		f.at(10, p.Start, false)
		f.at(11, p.Segs[0].End, false)
	default:
		f.polyline(layer, p)
	}
}

// polyline writes a path; the bulge of a step stands at the vertex where it begins.
func (f *file) polyline(layer string, p geom.Path) {
	segs, n, closed := p.Segs, len(p.Segs)+1, 0
	if p.Closed {
		closed = 1
		if segs[len(segs)-1].End == p.Start {
			n-- // the closing vertex is the first one
		}
	}
	f.entity("LWPOLYLINE", layer, "AcDbPolyline")
	f.int(90, n)
	f.int(70, closed)
	at := p.Start
	for i := range n {
		f.at(10, at, true)
		if i < len(segs) {
			if segs[i].Bulge != 0 {
				f.exact(42, segs[i].Bulge)
			}
			at = segs[i].End
		}
	}
}

// text writes a line of lettering. Point 10 is the left end of its base line; where it is not set from
// there, point 11 and the alignment (72 along, 73 upright) rule, and 10 is only a help to simple readers.
func (f *file) text(layer string, t export.Text) {
	along, upright := 0, 0
	switch t.Anchor {
	case export.Center:
		along = 1
	case export.Right:
		along = 2
	case export.Middle:
		along, upright = 1, 2
	}
	f.entity("TEXT", layer, "AcDbText")
	f.at(10, t.Origin(), false)
	f.num(40, t.Height)
	f.str(1, letters(t.S))
	f.exact(50, degrees(t.Angle))
	if along != 0 || upright != 0 {
		f.int(72, along)
		f.at(11, t.At, false)
	}
	f.str(100, "AcDbText") // the class has two parts
	if upright != 0 {
		f.int(73, upright)
	}
}

// letters spells a text for DXF, where '^' begins a control character unless a blank follows.
func letters(s string) string {
	return strings.ReplaceAll(export.ASCII(s), "^", "^ ")
}

// degrees turns radians into degrees from 0 up to 360.
func degrees(a float64) float64 {
	d := math.Round(math.Mod(a*180/math.Pi, 360)*1e9) / 1e9
	if d < 0 {
		d += 360
	}
	return d
}
