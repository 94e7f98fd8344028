package export_test

import (
	"fmt"

	"ribwright/export"
	"ribwright/geom"
)

// A label 5 mm high, centred on a plate.
func ExampleText() {
	t := export.Text{S: "U4", At: geom.Pt{X: 30, Y: 20}, Height: 5, Anchor: export.Middle}
	fmt.Printf("%.2f mm long, %d outlines\n", t.Width(), len(t.Outlines()))
	for _, c := range t.Corners() {
		fmt.Printf("(%.2f, %.2f) ", c.X, c.Y)
	}
	// Output:
	// 8.84 mm long, 3 outlines
	// (25.58, 16.04) (34.42, 16.04) (34.42, 22.50) (25.58, 22.50)
}

func ExampleASCII() {
	fmt.Println(export.ASCII("Ø38 × 1½ mm at 12.5°"))
	// Output: dia. 38 x 1 1/2 mm at 12.5 deg
}
