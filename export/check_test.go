package export_test

import (
	"math"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/internal/sample"
	"ribwright/geom"
)

func TestCheckPasses(t *testing.T) {
	for _, d := range []export.Drawing{sample.Drawing(), sample.Job(), {}} {
		if err := d.Check(); err != nil {
			t.Errorf("%s: %v", d.Title, err)
		}
	}
}

// TestCheckRefuses spoils a good drawing in one place at a time.
func TestCheckRefuses(t *testing.T) {
	nan := math.NaN()
	item := func(d *export.Drawing) *export.Item { return &d.Sheets[0].Parts[0].Items[0] }
	for _, c := range []struct {
		want  string // a word of the error
		spoil func(d *export.Drawing)
	}{
		{"not declared", func(d *export.Drawing) { item(d).Layer = "kontur" }},
		{"not declared", func(d *export.Drawing) { item(d).Layer = "" }},
		{"item 3", func(d *export.Drawing) { d.Sheets[0].Parts[0].Items[2].Layer = "kontur" }},
		{"taken", func(d *export.Drawing) { item(d).ID = "disc" }},
		{"taken", func(d *export.Drawing) { item(d).ID = "contour" }},
		{"ASCII", func(d *export.Drawing) { item(d).ID = "plåte" }},
		{"ASCII", func(d *export.Drawing) { item(d).ID = "4-plate" }},
		{"starts", func(d *export.Drawing) { item(d).Path.Start.X = nan }},
		{"bulge", func(d *export.Drawing) { item(d).Path.Segs[1].Bulge = math.Inf(1) }},
		{"bulge", func(d *export.Drawing) { item(d).Path.Segs[1].Bulge = -1e6 }},
		{"step 2", func(d *export.Drawing) { item(d).Path.Segs[1].End.Y = 2e6 }},
		{"step 1", func(d *export.Drawing) { item(d).Holes = []geom.Path{geom.Line(geom.Pt{}, geom.Pt{X: nan})} }},
		{"twice", func(d *export.Drawing) { d.Layers = append(d.Layers, d.Layers[0]) }},
		{"lower-case", func(d *export.Drawing) { d.Layers[1].ID = "Axis" }},
		{"width", func(d *export.Drawing) { d.Layers[1].Pen.Width = -1 }},
		{"grey", func(d *export.Drawing) { d.Layers[1].Pen.Gray = nan }},
		{"colour", func(d *export.Drawing) { d.Layers[1].Pen.Color = "#ff00" }},
		{"called", func(d *export.Drawing) { d.Layers[1].Name = "Contour" }},
		{"called", func(d *export.Drawing) { d.Layers[1].Name = "Schnitt – außen" }},
		{"dash", func(d *export.Drawing) { d.Layers[1].Pen.Dash = []float64{1, -1} }},
		{"dashes", func(d *export.Drawing) { d.Layers[1].Pen.Dash = []float64{0, 0} }},
		{"title", func(d *export.Drawing) { d.Title = "two\nlines" }},
		{"size", func(d *export.Drawing) { d.Sheets[1].W = 0 }},
		{"name", func(d *export.Drawing) { d.Sheets[1].Name = "\xff" }},
		{"clip", func(d *export.Drawing) {
			d.Sheets[0].Parts[0].Clip = geom.NewBox(geom.Pt{X: math.Inf(-1)}, geom.Pt{X: 1, Y: 1})
		}},
		{"height", func(d *export.Drawing) { item(d).Text = &export.Text{S: "x"} }},
		{"line of text", func(d *export.Drawing) { item(d).Text = &export.Text{S: "x\x00", Height: 1} }},
		{"anchor", func(d *export.Drawing) { item(d).Text = &export.Text{S: "x", Height: 1, Anchor: 9} }},
		{"turned", func(d *export.Drawing) { item(d).Text = &export.Text{S: "x", Height: 1, Angle: nan} }},
	} {
		d := sample.Drawing()
		d.Layers = append([]export.Layer(nil), d.Layers...)
		c.spoil(&d)
		if err := d.Check(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("got %v, want an error with %q", err, c.want)
		}
	}
	if err := sample.Drawing().CheckSheet(2); err == nil {
		t.Error("sheet 3 of 2: got no error")
	}
}
