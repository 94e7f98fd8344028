package gcode_test

import (
	"os"

	"ribwright/export/gcode"
	"ribwright/geom"
)

func ExampleProgram_Write() {
	gcode.Program{Remarks: []string{"Two plates"}, Safe: 10, Depth: 2.5, Feed: 100, Diameter: 6,
		Holes: []gcode.Hole{{At: geom.Pt{X: 25, Y: 25}, Name: "U1"}, {At: geom.Pt{X: 69, Y: 25}, Name: "U2"}}}.Write(os.Stdout)
	// Output:
	// (Two plates)
	// (2 holes, drill of 6 mm, depth 2.5 mm, feed 100 mm per minute)
	// G17 G21 G40 G49 G80 G90 G94
	// G0 Z10
	// (Start the spindle by hand, then let the program go on.)
	// M0
	// G0 X25 Y25
	// G98 G81 X25 Y25 Z-2.5 R1 F100 (U1)
	// X69 Y25 (U2)
	// G80
	// G0 Z10
	// (Stop the spindle by hand.)
	// M2
}
