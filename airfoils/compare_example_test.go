package airfoils_test

import (
	"fmt"

	"ribwright/airfoils"
	"ribwright/geom"
)

// A print of NACA 4412 on a chord of 1,000 mm came out at 98 %: every reading is off, and one scale explains them all.
func ExampleCompare() {
	s, _ := airfoils.NACA("4412")
	upper, lower := s.Contour(1000, geom.Flat)
	csv := "station_mm,upper_mm,lower_mm\n"
	for _, x := range s.Stations() {
		up, lo, _ := s.At(x)
		csv += fmt.Sprintf("%.1f,%.1f,%.1f\n", 980*x, 980*up, 980*lo)
	}
	readings, found := airfoils.ReadMeasured("print.csv", []byte(csv), 1, 1000)
	if len(found) > 0 {
		fmt.Println(found)
		return
	}
	c := airfoils.Compare(upper, lower, readings, false)
	d := c.Deviations[20]
	fmt.Printf("%s side at %.0f mm: %+.1f mm, after the fit %.1f mm\n", d.Of, d.Station, d.Raw, d.Fitted)
	fmt.Printf("scale %.3f\n", c.Fit.ScaleX)
	// Output:
	// upper side at 392 mm: -2.2 mm, after the fit 0.0 mm
	// scale 0.980
}
