package export

import (
	"fmt"
	"math"
	"testing"

	"ribwright/geom"
)

func TestScaled(t *testing.T) {
	const x, y = 1 / 0.992, 1 / 1.015
	layers := []Layer{{ID: "cut", Pen: Pen{Width: 0.25}}}
	d := Drawing{Layers: layers, Sheets: []Sheet{{Name: "one", W: 210, H: 297, Parts: []Part{{
		Clip: geom.NewBox(geom.Pt{X: 10, Y: 20}, geom.Pt{X: 100, Y: 200}),
		Items: []Item{
			{Layer: "cut", ID: "square", Path: geom.Rect(geom.NewBox(geom.Pt{X: 10, Y: 10}, geom.Pt{X: 110, Y: 110}))},
			{Layer: "cut", ID: "circle", Path: geom.Circle(geom.Pt{X: 60, Y: 60}, 40), Holes: []geom.Path{geom.Circle(geom.Pt{X: 60, Y: 60}, 10)}},
			{Layer: "cut", Text: &Text{S: "level", At: geom.Pt{X: 10, Y: 20}, Height: 5}},
			{Layer: "cut", Text: &Text{S: "upright", At: geom.Pt{X: 10, Y: 20}, Height: 5, Angle: math.Pi / 2}},
		}}}}}}
	got := Scaled(d, x, y)
	if err := got.Check(); err != nil {
		t.Fatal(err)
	}
	s := got.Sheets[0]
	items := s.Parts[0].Items
	if math.Abs(s.W-210*x) > 1e-9 || math.Abs(s.H-297*y) > 1e-9 || math.Abs(s.Parts[0].Clip.Max.Y-200*y) > 1e-9 {
		t.Errorf("the sheet is %g × %g, its clip %v", s.W, s.H, s.Parts[0].Clip)
	}
	if b := items[0].Path.Box(); math.Abs(b.W()*0.992-100) > 1e-9 || math.Abs(b.H()*1.015-100) > 1e-9 || !items[0].Path.Closed || len(items[0].Path.Segs) != 3 {
		t.Errorf("the square is %g × %g with %d steps", b.W(), b.H(), len(items[0].Path.Segs))
	}
	for i, r := range []float64{40, 10} { // as the printer prints it, a circle again
		p := append([]geom.Path{items[1].Path}, items[1].Holes...)[i]
		print := geom.Zoom(1/x, 1/y)
		if !p.Closed || p.Start == p.Segs[len(p.Segs)-1].End {
			t.Errorf("circle %d: closed %v, from %v to %v", i, p.Closed, p.Start, p.Segs[len(p.Segs)-1].End)
		}
		last := print.Pt(p.Start)
		for _, g := range append(p.Segs, geom.Seg{End: p.Start}) {
			at := print.Pt(g.End)
			if m := at.Lerp(last, 0.5).Dist(geom.Pt{X: 60, Y: 60}); g.Bulge != 0 || math.Abs(at.Dist(geom.Pt{X: 60, Y: 60})-r) > 1e-9 || r-m > geom.Flat+1e-9 {
				t.Fatalf("circle %d of radius %g: a corner at %g, a chord's middle at %g", i, r, at.Dist(geom.Pt{X: 60, Y: 60}), m)
			}
			last = at
		}
	}
	if a, b := items[2].Text, items[3].Text; math.Abs(a.Height-5*y) > 1e-9 || math.Abs(b.Height-5*x) > 1e-9 || a.Angle != 0 || math.Abs(b.Angle-math.Pi/2) > 1e-12 {
		t.Errorf("letters are %g and %g high, turned by %g and %g", a.Height, b.Height, a.Angle, b.Angle)
	}
	if d.Sheets[0].W != 210 || d.Sheets[0].Parts[0].Items[2].Text.Height != 5 || d.Sheets[0].Parts[0].Items[1].Path.Start != geom.Circle(geom.Pt{X: 60, Y: 60}, 40).Start {
		t.Error("the drawing itself was changed")
	}
	if c, _, ok := Scaled(d, 1.01, 1.01).Sheets[0].Parts[0].Items[1].Path.IsCircle(); !ok || math.Abs(c.X-60*1.01) > 1e-9 {
		t.Error("scaled evenly, a circle is none any more")
	}
}

func ExampleScaled() {
	d := Drawing{Layers: []Layer{{ID: "cut"}}, Sheets: []Sheet{{W: 200, H: 300, Parts: []Part{{Items: []Item{
		{Layer: "cut", Path: geom.Rect(geom.NewBox(geom.Pt{}, geom.Pt{X: 99, Y: 102}))}}}}}}}
	b := Scaled(d, 100.0/99, 100.0/102).Sheets[0].Parts[0].Items[0].Path.Box()
	fmt.Printf("%.1f × %.1f\n", b.W(), b.H())
	// Output: 100.0 × 100.0
}
