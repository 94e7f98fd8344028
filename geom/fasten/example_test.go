package fasten_test

import (
	"fmt"

	"ribwright/geom/fasten"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

func Example() {
	doc, _ := ribfile.Read("rib.toml", []byte(`
units = "mm"
section = { naca = "0015" }
rib = { chord = 1000 }
cap = { depth = 6, width = 12 }
stick = { depth = 6, width = 12 }
bay = [{ from = "30%", to = "60%", pattern = "warren", panels = 2 }]
gusset = { diameter = 36 }
fastener = { kind = "staple", crown = 5, leg = 6, wire = [1.2, 0.5] }
`))
	section, _ := rib.Section(doc, nil)
	r, _ := rib.Build(doc, section)
	p := fasten.Of(r, doc)
	for i, g := range r.Gussets {
		fmt.Printf("%s:", g.ID)
		for _, f := range p.All {
			if f.Gusset == i && f.Face == 0 {
				fmt.Printf(" %s (%.1f, %.1f)", f.Member, f.At.X, f.At.Y)
			}
		}
		fmt.Println()
	}
	fmt.Printf("%d staples of %.2f g\n", len(p.All), fasten.MassG(p.Spec))
	// Output:
	// U1: cap-upper (300.0, 72.0) S1 (312.2, 60.7)
	// U2: cap-upper (599.7, 54.1) S2 (586.8, 43.7)
	// L1: cap-lower (449.8, -66.8) S1 (437.4, -55.3) S2 (462.4, -56.6)
	// 14 staples of 0.08 g
}
