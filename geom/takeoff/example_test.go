package takeoff_test

import (
	"fmt"
	"strings"

	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

func Example() {
	doc, _ := ribfile.Read("rib.toml", []byte(`
units = "mm"
section = { naca = "0015" }
rib = { chord = 1200, count = 10 }
cap = { depth = 6, width = 12 }
spar = [{ name = "front", at = "15%", width = 16 }, { name = "rear", at = "65%", width = 12 }]
bay = [{ from = "front", to = "rear", pattern = "uprights", panels = 3 }]
stick = { depth = 6, width = 12 }
gusset = { shape = "round", diameter = 36, thickness = 1.5 }
`))
	section, _ := rib.Section(doc, nil)
	r, _ := rib.Build(doc, section)
	t := takeoff.Of(r, doc)
	for _, g := range t.Sticks {
		fmt.Printf("%s: %d for each rib, %.1f mm\n", strings.Join(g.IDs, " "), len(g.IDs), g.First.LongPoint)
	}
	fmt.Printf("adhesive to mix: %.1f g for the first side, %.1f g for the second\n", t.Sides[0].MixedG, t.Sides[1].MixedG)
	// Output:
	// S1: 1 for each rib, 146.0 mm
	// S2: 1 for each rib, 151.7 mm
	// S3: 1 for each rib, 114.7 mm
	// S4: 1 for each rib, 110.4 mm
	// S5: 1 for each rib, 167.8 mm
	// S6: 1 for each rib, 150.7 mm
	// adhesive to mix: 3.1 g for the first side, 2.2 g for the second
}
