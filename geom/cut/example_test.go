package cut_test

import (
	"fmt"

	"ribwright/geom/cut"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
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
saw = { plates = "hole-saw", hole_saw = 40, hole_saw_kerf = 2 }
`))
	section, _ := rib.Section(doc, nil)
	r, _ := rib.Build(doc, section)
	l := cut.Nest(rib.One(r, doc), nil, nil)
	fmt.Printf("saw of %g mm: plates of %g mm\n", l.Tool.Saw, l.Tool.Gives())
	for _, s := range l.Sheets {
		fmt.Printf("%d × %s: %d plates, %.0f %%\n", s.Count, l.Stock[s.Stock].Name, len(s.Placed), 100*l.Fill(s))
	}
	// Output:
	// saw of 40 mm: plates of 36 mm
	// 2 × 600 × 300 mm: 100 plates, 41 %
	// 1 × 600 × 300 mm: 40 plates, 17 %
}
