package rib_test

import (
	"fmt"

	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

func Example() {
	doc, _ := ribfile.Read("rib.toml", []byte(`
units = "mm"
section = { naca = "4412" }
rib = { chord = 1400 }
cap = { depth = 6, width = 12 }
spar = [{ name = "main", at = "30%", width = 20, clearance = 0.5 }]
gusset = { shape = "round", diameter = 38 }
`))
	section, _ := rib.Section(doc, nil)
	r, found := rib.Build(doc, section)
	fmt.Println(len(found), "findings")
	s := r.Spars[0]
	fmt.Printf("spar %s: up to %.1f mm deep in front, %.1f mm behind\n", s.Name, s.DepthFront, s.DepthRear)
	for _, g := range r.Gussets {
		fmt.Printf("plate %s: %.0f mm² glued to the cap, %.0f mm² to its post\n", g.ID, g.GlueMM2[rib.CapUpper]+g.GlueMM2[rib.CapLower], g.GlueMM2["S1"]+g.GlueMM2["S2"])
	}
	// Output:
	// 0 findings
	// spar main: up to 156.2 mm deep in front, 156.2 mm behind
	// plate U1: 75 mm² glued to the cap, 191 mm² to its post
	// plate U2: 76 mm² glued to the cap, 191 mm² to its post
	// plate L1: 76 mm² glued to the cap, 191 mm² to its post
	// plate L2: 74 mm² glued to the cap, 191 mm² to its post
}
