package curve_test

import (
	"fmt"

	"ribwright/geom"
	"ribwright/geom/curve"
)

// A cap strip bent over three posts, and the points a saw needs to follow it within half a millimetre.
func Example() {
	strip, err := curve.Fit([]geom.Pt{{X: 0, Y: 0}, {X: 150, Y: 30}, {X: 300, Y: 0}})
	if err != nil {
		fmt.Println(err)
		return
	}
	_, end := strip.Domain()
	fmt.Printf("length %.2f mm, tightest radius %.0f mm\n", strip.Length(), -1/strip.Curvature(end/2))
	for _, p := range curve.Flatten(strip.At, strip.Knots(), 0.5) {
		fmt.Printf("%7.2f %6.2f\n", p.X, p.Y)
	}
	// Output:
	// length 307.08 mm, tightest radius 250 mm
	//    0.00   0.00
	//   55.18  15.81
	//   91.92  24.12
	//  122.05  28.53
	//  150.00  30.00
	//  177.95  28.53
	//  208.08  24.12
	//  244.82  15.81
	//  300.00   0.00
}
