package svg_test

import (
	"fmt"
	"os"

	"ribwright/export"
	"ribwright/export/svg"
	"ribwright/geom"
)

// A plate with a hole, true to size in every program that reads millimetres.
func ExampleWrite() {
	d := export.Drawing{
		Title:  "Plate U4",
		Layers: []export.Layer{{ID: "cut", Pen: export.Pen{Width: 0.1}}},
		Sheets: []export.Sheet{{W: 60, H: 40, Parts: []export.Part{{Items: []export.Item{
			{Layer: "cut", ID: "plate-U4", Path: geom.Rect(geom.NewBox(geom.Pt{X: 5, Y: 5}, geom.Pt{X: 55, Y: 30}))},
			{Layer: "cut", Path: geom.Circle(geom.Pt{X: 30, Y: 17.5}, 6.35)},
		}}}}},
	}
	if err := svg.Write(os.Stdout, d, 0); err != nil {
		fmt.Println(err)
	}
	// Output:
	// <?xml version="1.0" encoding="UTF-8"?>
	// <svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="60mm" height="40mm" viewBox="0 0 60 40">
	// <title>Plate U4</title>
	// <g id="cut" fill="none" stroke="#000000" stroke-width="0.1" stroke-linejoin="round">
	// <path id="plate-U4" d="M 5 35 L 55 35 L 55 10 L 5 10 Z"/>
	// <circle cx="30" cy="22.5" r="6.35"/>
	// </g>
	// </svg>
}
