package wing_test

import (
	"fmt"

	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/wing"
)

func Example() {
	doc, _ := ribfile.Read("wing.toml", []byte(`
units = "mm"
section = { naca = "4412" }
rib = { chord = 1400 }
spar = [{ name = "main", at = "30%", width = 20, clearance = 0.5 }]
wing = { semi_span = 3000, spacing = 1000, tip_chord = 900, washout = 2, tip = { naca = "4409" } }
`))
	plan, found := wing.Of(doc)
	fmt.Println(len(found), "findings")
	for _, k := range plan.Kinds {
		section, _ := plan.Section(k, nil)
		r, _ := rib.Build(k.Doc, section)
		fmt.Printf("%s: %d ribs of chord %.0f mm, %.1f mm deep, turned %.2f°, main spar at %.1f mm\n",
			k.Name, r.Count, r.Chord, r.Contour.DepthMax, k.Places[0].Incidence*180/3.14159265, r.Spars[0].At)
	}
	// Output:
	// 0 findings
	// R1: 2 ribs of chord 1400 mm, 168.3 mm deep, turned 0.00°, main spar at 420.0 mm
	// R2: 2 ribs of chord 1233 mm, 139.2 mm deep, turned -0.49°, main spar at 370.0 mm
	// R3: 2 ribs of chord 1067 mm, 110.2 mm deep, turned -1.12°, main spar at 320.0 mm
	// R4: 2 ribs of chord 900 mm, 81.1 mm deep, turned -2.00°, main spar at 270.0 mm
}
