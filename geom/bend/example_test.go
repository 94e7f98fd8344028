package bend_test

import (
	"fmt"

	"ribwright/geom"
	"ribwright/geom/bend"
	"ribwright/geom/ribfile"
)

// A strip 6 mm deep that lies inside a quarter of a circle of 203 mm, and a sheet round the same curve.
func Example() {
	var edge []geom.Pt
	for a := 0; a <= 90; a++ {
		edge = append(edge, geom.Pt{X: 203}.Along(geom.Polar(rad(180-float64(a))), 203))
	}
	rules := ribfile.Bend{Dry: 125, Care: 75, Soak: 30}
	b := bend.Of(bend.Strip{ID: "strip", Depth: 6, Edge: edge, Radius: 203}, rules)
	fmt.Printf("radius of its middle %.0f mm, %.1f times its depth: %s, strain %.2f %%\n", b.Radius, b.Ratio, b.Tier, 100*b.Strain)
	n := bend.Laminations(203, 6, rules.Dry)
	fmt.Printf("of %d strips of %.2f mm it bends dry\n", n, 6/float64(n))
	sheet := bend.Sheet{Thickness: 1.5, Along: true}
	least, _, _, _ := sheet.LeastRadius()
	fmt.Printf("plywood of 1.5 mm follows %.0f mm dry\n", least)
	// Output:
	// radius of its middle 200 mm, 33.3 times its depth: soak, strain 1.50 %
	// of 4 strips of 1.50 mm it bends dry
	// plywood of 1.5 mm follows 65 mm dry
}
