package batch_test

import (
	"fmt"

	"ribwright/geom/batch"
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
batch = { temperature = 20, pace = "12 min", pot_life = "40 min", pot_life_at = 25, pot_life_mass = 100 }
`))
	section, _ := rib.Section(doc, nil)
	r, _ := rib.Build(doc, section)
	set := rib.One(r, doc)
	for _, b := range batch.Of(set, []takeoff.TakeOff{takeoff.Of(r, doc)}).Batches {
		fmt.Printf("batch %d: side %d of ribs %s, %.1f g, used up within %.0f min\n", b.Number, b.Sides[0].Face+1, b.Names(set), b.MixG, b.LifeMin)
	}
	// Output:
	// batch 1: side 1 of ribs 1–4, 12.5 g, used up within 57 min
	// batch 2: side 1 of ribs 5–7, 9.4 g, used up within 57 min
	// batch 3: side 1 of ribs 8–10, 9.4 g, used up within 57 min
	// batch 4: side 2 of ribs 1–4, 9.0 g, used up within 57 min
	// batch 5: side 2 of ribs 5–7, 6.8 g, used up within 57 min
	// batch 6: side 2 of ribs 8–10, 6.8 g, used up within 57 min
}
