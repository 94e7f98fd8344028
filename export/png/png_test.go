package png_test

import (
	"bytes"
	"fmt"
	"image"
	stdpng "image/png"
	"math"
	"testing"

	"ribwright/export"
	"ribwright/export/internal/sample"
	"ribwright/export/png"
	"ribwright/geom"
)

func Example() {
	d := export.Drawing{
		Layers: []export.Layer{{ID: "area", Pen: export.Pen{Gray: 0.5}}},
		Sheets: []export.Sheet{{W: 4, H: 3, Parts: []export.Part{{Items: []export.Item{
			{Layer: "area", Fill: true, Path: geom.Rect(geom.NewBox(geom.Pt{X: 1, Y: 0}, geom.Pt{X: 3, Y: 1.5}))},
		}}}}},
	}
	var b bytes.Buffer
	if err := png.Write(&b, d, 0, 25.4); err != nil {
		fmt.Println(err)
	}
	img, _ := stdpng.Decode(&b)
	for y := range 3 {
		fmt.Println(img.(*image.Gray).Pix[4*y : 4*y+4])
	}
	// Output:
	// [255 255 255 255]
	// [255 192 192 255]
	// [255 128 128 255]
}

// draw returns the picture of one item on a sheet of 50 × 40 mm.
func draw(t *testing.T, pen export.Pen, it export.Item, clip geom.Box) *image.Gray {
	t.Helper()
	it.Layer = "l"
	d := export.Drawing{Layers: []export.Layer{{ID: "l", Pen: pen}},
		Sheets: []export.Sheet{{W: 50, H: 40, Parts: []export.Part{{Clip: clip, Items: []export.Item{it}}}}}}
	var b bytes.Buffer
	if err := png.Write(&b, d, 0, 254); err != nil {
		t.Fatal(err)
	}
	img, err := stdpng.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	return img.(*image.Gray)
}

// ink is the black area in mm², 10 dots a millimetre.
func ink(img *image.Gray) float64 {
	sum := 0.0
	for _, v := range img.Pix {
		sum += 255 - float64(v)
	}
	return sum / 255 / 100
}

func TestInk(t *testing.T) {
	p := func(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }
	circle := geom.Circle(p(25, 20), 10)
	turned := geom.Path{Start: circle.Start, Closed: true}
	for _, s := range circle.Segs {
		turned.Segs = append(turned.Segs, geom.Seg{End: s.End, Bulge: -s.Bulge})
	}
	hole := []geom.Path{geom.Circle(p(25, 20), 5)}
	ring := geom.Rect(geom.NewBox(p(10, 10), p(40, 30)))
	for _, c := range []struct {
		name string
		pen  export.Pen
		it   export.Item
		clip geom.Box
		want float64
	}{
		{"disc", export.Pen{}, export.Item{Path: circle, Fill: true}, geom.Box{}, math.Pi * 100},
		{"washer", export.Pen{}, export.Item{Path: circle, Holes: hole, Fill: true}, geom.Box{}, math.Pi * 75},
		{"washer, outline clockwise", export.Pen{}, export.Item{Path: turned, Holes: hole, Fill: true}, geom.Box{}, math.Pi * 75},
		{"disc in a clip", export.Pen{}, export.Item{Path: circle, Fill: true}, geom.NewBox(p(25, 0), p(50, 20)), math.Pi * 25},
		{"disc half off the sheet", export.Pen{}, export.Item{Path: geom.Circle(p(0, 20), 10), Fill: true}, geom.Box{}, math.Pi * 50},
		{"sloping line", export.Pen{Width: 1}, export.Item{Path: geom.Line(p(10, 10), p(40, 30))}, geom.Box{}, math.Hypot(30, 20) + math.Pi/4},
		{"circle", export.Pen{Width: 0.5}, export.Item{Path: circle}, geom.Box{}, 2 * math.Pi * 10 * 0.5},
		{"rectangle", export.Pen{Width: 1}, export.Item{Path: ring}, geom.Box{}, 100 - 4 + math.Pi},
		{"grey line", export.Pen{Width: 1, Gray: 0.6}, export.Item{Path: geom.Line(p(10, 20), p(40, 20))}, geom.Box{}, 0.4 * (30 + math.Pi/4)},
		{"dashes with round ends", export.Pen{Width: 1, Dash: []float64{4, 6}}, export.Item{Path: geom.Line(p(10, 20), p(40, 20))}, geom.Box{}, 3 * (4 + math.Pi/4)},
		{"nothing", export.Pen{Width: 1}, export.Item{}, geom.Box{}, 0},
	} {
		got := ink(draw(t, c.pen, c.it, c.clip))
		if math.Abs(got-c.want) > 0.01*c.want+0.02 {
			t.Errorf("%s: got %.3f mm² of ink, want %.3f", c.name, got, c.want)
		}
	}
}

// TestSample draws everything that a drawing can hold, twice, and gets the same bytes.
func TestSample(t *testing.T) {
	d := sample.Drawing()
	for i := range d.Sheets {
		var a, b bytes.Buffer
		if err := png.Write(&a, d, i, 100); err != nil {
			t.Fatal(err)
		}
		if err := png.Write(&b, d, i, 100); err != nil || !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("sheet %d: two pictures of one drawing differ (%v)", i, err)
		}
		img, err := stdpng.Decode(&a)
		if err != nil {
			t.Fatal(err)
		}
		s := d.Sheets[i]
		if got, want := img.Bounds().Dx(), int(math.Ceil(s.W*100/25.4)); got != want {
			t.Errorf("sheet %d: got %d dots, want %d", i, got, want)
		}
	}
}

func TestRefused(t *testing.T) {
	d := sample.Drawing()
	for _, dpi := range []float64{0, -1, math.NaN(), math.Inf(1), 1e6} {
		if err := png.Write(&bytes.Buffer{}, d, 0, dpi); err == nil {
			t.Errorf("%v dots an inch: got no error", dpi)
		}
	}
	if err := png.Write(&bytes.Buffer{}, d, 99, 100); err == nil {
		t.Error("sheet 99: got no error")
	}
}

// TestColor draws a grey layer and one of a colour over it: the first dot is grey, the second the colour,
// the third half of it on white.
func TestColor(t *testing.T) {
	bar := func(x0, x1 float64) geom.Path { return geom.Rect(geom.NewBox(geom.Pt{X: x0}, geom.Pt{X: x1, Y: 1})) }
	d := export.Drawing{
		Layers: []export.Layer{{ID: "grey", Pen: export.Pen{Gray: 0.5}}, {ID: "cut", Pen: export.Pen{Gray: 0.3, Color: "#ff8000"}}},
		Sheets: []export.Sheet{{W: 4, H: 1, Parts: []export.Part{{Items: []export.Item{
			{Layer: "cut", Fill: true, Path: bar(1, 2.5)}, {Layer: "grey", Fill: true, Path: bar(0, 2)},
		}}}}},
	}
	var b bytes.Buffer
	if err := png.Write(&b, d, 0, 25.4); err != nil {
		t.Fatal(err)
	}
	img, err := stdpng.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	for x, want := range [][3]uint32{{128, 128, 128}, {255, 128, 0}, {255, 192, 128}, {255, 255, 255}} {
		r, g, b, a := img.At(x, 0).RGBA()
		if got := [3]uint32{r >> 8, g >> 8, b >> 8}; got != want || a != 0xffff {
			t.Errorf("dot %d: got %v, opacity %x, want %v", x, got, a, want)
		}
	}
}
