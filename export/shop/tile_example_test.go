package shop_test

import (
	"fmt"

	"ribwright/export/shop"
	"ribwright/geom/jig"
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
	board, _ := jig.Plan(r, doc)
	paper, _ := ribfile.ParsePaper("A4", ribfile.MM)
	drawing, err := shop.Tiles(shop.NewField(r, doc, board, found), paper)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range drawing.Sheets {
		fmt.Printf("%s: %g × %g mm\n", s.Name, s.W, s.H)
	}
	roll, _ := ribfile.ParsePaper("roll 24in", ribfile.MM)
	drawing, _ = shop.Tiles(shop.NewField(r, doc, board, found), roll)
	fmt.Printf("on the roll %d sheet, %g mm high\n", len(drawing.Sheets), drawing.Sheets[0].H)
	// Output:
	// A1: 297 × 210 mm
	// A2: 297 × 210 mm
	// on the roll 1 sheet, 609.6 mm high
}
