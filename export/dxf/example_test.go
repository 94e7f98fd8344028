package dxf_test

import (
	"bytes"
	"fmt"

	"ribwright/export"
	"ribwright/export/dxf"
	"ribwright/geom"
)

// A plate with a hole: a closed polyline and a circle, in millimetres.
func ExampleWrite() {
	d := export.Drawing{
		Title:  "Plate U4",
		Layers: []export.Layer{{ID: "cut", Pen: export.Pen{Width: 0.1}}},
		Sheets: []export.Sheet{{W: 60, H: 40, Parts: []export.Part{{Items: []export.Item{
			{Layer: "cut", Path: geom.Rect(geom.NewBox(geom.Pt{X: 5, Y: 5}, geom.Pt{X: 55, Y: 30}))},
			{Layer: "cut", Path: geom.Circle(geom.Pt{X: 30, Y: 17.5}, 6.35)},
		}}}}},
	}
	var b bytes.Buffer
	if err := dxf.Write(&b, d, 0); err != nil {
		fmt.Println(err)
	}
	for _, kind := range []string{"LWPOLYLINE", "CIRCLE", "SPLINE"} {
		fmt.Println(bytes.Count(b.Bytes(), []byte("\n"+kind+"\n")), kind)
	}
	// Output:
	// 1 LWPOLYLINE
	// 1 CIRCLE
	// 0 SPLINE
}
