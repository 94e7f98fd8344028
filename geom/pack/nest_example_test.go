package pack_test

import (
	"fmt"
	"math"

	"ribwright/geom"
	"ribwright/geom/pack"
)

// Two kinds of plate on one sheet; the second may be turned by a quarter.
func ExampleNest() {
	layout := pack.Nest(pack.NestJob{
		Parts: []pack.Part{
			{ID: "round", Outline: geom.Circle(geom.Pt{}, 19), Count: 3},
			{ID: "tall", Outline: geom.Ring{{X: 0, Y: 0}, {X: 20, Y: 0}, {X: 20, Y: 60}, {X: 0, Y: 60}}.Path(), Count: 2, Angles: []float64{0, math.Pi / 2}},
		},
		Sheets: []pack.Sheet{{ID: "ply", Outline: geom.Ring{{X: 0, Y: 0}, {X: 140, Y: 0}, {X: 140, Y: 100}, {X: 0, Y: 100}}}},
		Gap:    2,
		Margin: 3,
	})
	fmt.Println(len(layout.Placed), "plates on", len(layout.Uses), "sheet")
	// Output: 5 plates on 1 sheet
}
