package shop_test

import (
	"fmt"

	"ribwright/export/shop"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

func ExampleTiles() {
	doc, _ := ribfile.Read("rib.toml", []byte(`
title = "Small rib"
units = "mm"
[section]
naca = "2412"
[rib]
chord = 400
[cap]
depth = 5
width = 10
[stick]
depth = 5
width = 10
[nose]
block_to = "6%"
[gusset]
shape = "round"
diameter = 25
thickness = 1
`))
	section, _ := rib.Section(doc, nil)
	r, found := rib.Build(doc, section)
	paper, _ := shop.ParsePaper("A4")
	drawing, err := shop.Tiles(r, doc, found, paper)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range drawing.Sheets {
		fmt.Printf("%s: %g × %g mm\n", s.Name, s.W, s.H)
	}
	small, _ := shop.ParsePaper("A5")
	_, err = shop.Tiles(r, doc, found, small)
	fmt.Println(err)
	// Output:
	// A1: 210 × 297 mm
	// A2: 210 × 297 mm
	// A3: 210 × 297 mm
	// paper of 148 mm × 210 mm is too small for a page with a square of 100 mm to measure: the least is 188 mm × 198 mm
}
