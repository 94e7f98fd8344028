package jig_test

import (
	"fmt"

	"ribwright/geom/jig"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

func Example() {
	doc, _ := ribfile.Read("rib.toml", []byte(`
units = "mm"
section = { naca = "0015" }
rib = { chord = 1000 }
cap = { depth = 6, width = 12 }
nose = { block_to = "5%" }
spar = [{ name = "main", at = "30%", width = 16 }]
bay = [{ from = "main", to = "75%", pattern = "warren", panels = 3 }]
gusset = { diameter = 30 }
jig = { block_length = 20, block_width = 12, clearance = 0.2 }
`))
	section, _ := rib.Section(doc, nil)
	r, _ := rib.Build(doc, section)
	j, found := jig.Plan(r, doc)
	fmt.Printf("%d blocks %.0f mm high, %d relief holes, %d findings\n", len(j.Blocks), j.Height, len(j.Holes), len(found))
	fmt.Printf("a board of %.0f × %.0f mm\n", j.Board.W(), j.Board.H())
	for _, h := range j.Holds {
		fmt.Printf("%s: %d blocks, play %.1f clearances\n", h.Member, len(h.Blocks), h.Play)
	}
	// Output:
	// 34 blocks 9 mm high, 9 relief holes, 0 findings
	// a board of 1114 × 276 mm
	// cap-upper: 12 blocks, play 3.2 clearances
	// cap-lower: 15 blocks, play 1.9 clearances
	// block-nose: 1 blocks, play 1.5 clearances
	// S1: 1 blocks, play 3.7 clearances
	// S2: 1 blocks, play 3.7 clearances
	// S3: 2 blocks, play 4.3 clearances
	// S4: 3 blocks, play 2.6 clearances
	// S5: 2 blocks, play 3.1 clearances
}
