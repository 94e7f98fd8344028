package sample_test

import (
	"fmt"

	"ribwright/export/internal/sample"
	"ribwright/geom"
)

func ExampleMeasure() {
	length, area := sample.Measure(sample.Slot(geom.Pt{}, 40, 20))
	fmt.Printf("%.3f mm round, %.3f mm²\n", length, area)
	// Output: 142.832 mm round, 1114.159 mm²
}
