// Package sample makes drawings for the tests of the writers: one with everything that a drawing can
// hold, one of the size of a real job, and paths at random with their true length and area.
//
// Lengths are millimetres, y up. The package is for tests alone and takes no part in the program.
package sample

import (
	"math"
	"math/rand/v2"

	"ribwright/export"
	"ribwright/geom"
)

// layers are those of every drawing here.
var layers = []export.Layer{
	{ID: "contour", Pen: export.Pen{Width: 0.35}},
	{ID: "axis", Pen: export.Pen{Width: 0.18, Dash: []float64{6, 1.5, 1, 1.5}, Gray: 0.4}},
	{ID: "area", Pen: export.Pen{Width: 0.25, Gray: 0.8}},
	{ID: "text", Pen: export.Pen{Width: 0.18}},
}

// Drawing returns two sheets: a page with lettering, dashes, arcs, areas and a clipped part, and a plain
// cut sheet of 300 × 200 mm.
func Drawing() export.Drawing {
	return export.Drawing{Title: "Sample: “Märsh Wren” rib", Layers: layers, Sheets: []export.Sheet{page(), CutSheet()}}
}

func page() export.Sheet {
	clip := geom.NewBox(geom.Pt{X: 120, Y: 60}, geom.Pt{X: 180, Y: 90})
	texts := []export.Text{
		{S: "left on the base line", At: geom.Pt{X: 20, Y: 40}, Height: 5},
		{S: "centred × 38 mm", At: geom.Pt{X: 105, Y: 270}, Height: 7, Anchor: export.Center, Bold: true},
		{S: "right, Ø38 ⌀38 ½ é", At: geom.Pt{X: 195, Y: 40}, Height: 5, Anchor: export.Right},
		{S: "U4", At: geom.Pt{X: 60, Y: 220}, Height: 8, Anchor: export.Middle},
		{S: "gypsum at 30°", At: geom.Pt{X: 120, Y: 210}, Height: 5, Angle: math.Pi / 6},
		{S: "upright", At: geom.Pt{X: 200, Y: 150}, Height: 5, Angle: math.Pi / 2, Anchor: export.Middle},
		{S: "a < b & \"c\" (d) \\", At: geom.Pt{X: 20, Y: 25}, Height: 4},
	}
	parts := []export.Part{{Items: []export.Item{
		{Layer: "contour", ID: "check-100mm", Path: geom.Rect(geom.NewBox(geom.Pt{X: 15, Y: 60}, geom.Pt{X: 115, Y: 160}))},
		{Layer: "contour", ID: "disc", Path: geom.Circle(geom.Pt{X: 60, Y: 220}, 19)},
		{Layer: "axis", Path: geom.Line(geom.Pt{X: 10, Y: 220}, geom.Pt{X: 110, Y: 220})},
		{Layer: "axis", Path: geom.Line(geom.Pt{X: 60, Y: 190}, geom.Pt{X: 60, Y: 250})},
		{Layer: "area", ID: "washer", Path: geom.Circle(geom.Pt{X: 65, Y: 110}, 30), Fill: true,
			Holes: []geom.Path{geom.Circle(geom.Pt{X: 65, Y: 110}, 15)}},
		{Layer: "contour", ID: "slot", Path: Slot(geom.Pt{X: 150, Y: 120}, 40, 20)},
	}}, {Clip: clip, Items: []export.Item{
		{Layer: "area", Path: geom.Circle(geom.Pt{X: 120, Y: 75}, 30), Fill: true},
		{Layer: "contour", Path: geom.Line(geom.Pt{X: 100, Y: 50}, geom.Pt{X: 200, Y: 100})},
	}}}
	for _, t := range texts {
		parts[0].Items = append(parts[0].Items, export.Item{Layer: "text", Text: &t})
	}
	return export.Sheet{Name: "page é", W: 210, H: 297, Parts: parts}
}

// CutSheet returns a sheet without clips: a plate, a disc, a slot, a plate with a hole, an open line and
// arc, and a mark.
func CutSheet() export.Sheet {
	at := geom.Pt{X: 200, Y: 120}
	items := []export.Item{
		{Layer: "contour", ID: "plate-U4", Path: geom.Rect(geom.NewBox(geom.Pt{X: 10, Y: 10}, geom.Pt{X: 60, Y: 40}))},
		{Layer: "contour", ID: "disc-U5", Path: geom.Circle(geom.Pt{X: 100, Y: 30}, 19)},
		{Layer: "contour", ID: "slot", Path: Slot(geom.Pt{X: 60, Y: 120}, 60, 25)},
		{Layer: "contour", ID: "frame", Path: geom.Rect(geom.NewBox(at, at.Add(geom.Pt{X: 80, Y: 60}))),
			Holes: []geom.Path{geom.Circle(at.Add(geom.Pt{X: 40, Y: 30}), 12.5)}},
		{Layer: "axis", Path: geom.Line(geom.Pt{X: 10, Y: 80}, geom.Pt{X: 290, Y: 80})},
		{Layer: "axis", Path: geom.Path{Start: geom.Pt{X: 150, Y: 20}, Segs: []geom.Seg{{End: geom.Pt{X: 190, Y: 60}, Bulge: math.Tan(math.Pi / 8)}}}},
		{Layer: "text", Text: &export.Text{S: "U4 × 2", At: geom.Pt{X: 35, Y: 25}, Height: 5, Anchor: export.Middle}},
	}
	return export.Sheet{Name: "cut", W: 300, H: 200, Parts: []export.Part{{Items: items}}}
}

// Slot returns the outline of a slot with round ends about c, l between the ends' centres and w wide.
func Slot(c geom.Pt, l, w float64) geom.Path {
	x, y := l/2, w/2
	p := geom.Path{Start: c.Add(geom.Pt{X: -x, Y: -y}), Closed: true}
	p.Segs = []geom.Seg{
		{End: c.Add(geom.Pt{X: x, Y: -y})}, {End: c.Add(geom.Pt{X: x, Y: y}), Bulge: 1},
		{End: c.Add(geom.Pt{X: -x, Y: y})}, {End: p.Start, Bulge: 1},
	}
	return p
}

// Job returns a drawing of 60 closed paths of 300 steps, every tenth an arc, and 60 texts: for benchmarks.
func Job() export.Drawing {
	s := export.Sheet{Name: "job", W: 1200, H: 600}
	var items []export.Item
	for i := range 60 {
		c := geom.Pt{X: float64(60 + 110*(i%10)), Y: float64(50 + 90*(i/10))}
		p := geom.Path{Closed: true}
		for k := range 300 {
			q := c.Along(geom.Polar(2*math.Pi*float64(k)/300), 40+2*math.Sin(float64(k)/7))
			if k == 0 {
				p.Start = q
				continue
			}
			b := 0.0
			if k%10 == 0 {
				b = 0.1
			}
			p.Segs = append(p.Segs, geom.Seg{End: q, Bulge: b})
		}
		items = append(items, export.Item{Layer: "contour", Path: p},
			export.Item{Layer: "text", Text: &export.Text{S: "plate U14", At: c, Height: 5, Anchor: export.Middle}})
	}
	s.Parts = []export.Part{{Items: items}}
	return export.Drawing{Title: "job", Layers: layers, Sheets: []export.Sheet{s}}
}

// Path returns a star-shaped path about (150, 150) with lines and arcs at random: the same for the same seed.
func Path(seed uint64, closed bool) geom.Path {
	r := rand.New(rand.NewPCG(seed, 7))
	n := 3 + r.IntN(20)
	p := geom.Path{Closed: closed}
	for k := range n {
		q := geom.Pt{X: 150, Y: 150}.Along(geom.Polar((float64(k)+float64(0.8*r.Float64()))*2*math.Pi/float64(n)), 30+float64(100*r.Float64()))
		if k == 0 {
			p.Start = q
			continue
		}
		p.Segs = append(p.Segs, geom.Seg{End: q, Bulge: bulge(r)})
	}
	if closed && r.IntN(2) == 0 {
		p.Segs = append(p.Segs, geom.Seg{End: p.Start, Bulge: bulge(r)})
	}
	return p
}

func bulge(r *rand.Rand) float64 {
	switch r.IntN(3) {
	case 0:
		return 0
	case 1:
		return 2*float64(r.Float64()) - 1
	}
	return math.Tan((2*float64(r.Float64()) - 1) * 1.5 * math.Pi / 4) // sweeps up to 270°
}

// Measure returns the length of a path, and the area that it and its closing line bound, mm²: positive
// counter-clockwise. Sector less triangle is what an arc adds to its chord's share.
func Measure(p geom.Path) (length, area float64) {
	at := p.Start
	for _, s := range p.Segs {
		area += float64(at.Cross(s.End) / 2)
		if s.Bulge == 0 || at == s.End {
			length += at.Dist(s.End)
		} else {
			_, r, _, sweep := geom.Arc(at, s.End, s.Bulge)
			length += float64(r * math.Abs(sweep))
			area += float64(r * r * (sweep - math.Sin(sweep)) / 2)
		}
		at = s.End
	}
	area += float64(at.Cross(p.Start) / 2)
	if p.Closed {
		length += at.Dist(p.Start)
	}
	return length, area
}
