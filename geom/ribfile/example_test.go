package ribfile_test

import (
	"fmt"

	"ribwright/geom/ribfile"
)

func ExampleRead() {
	doc, findings := ribfile.Read("wren.toml", []byte(`
title = "Wren"
units = "in"
[section]
naca = "4412"
[rib]
chord = 55
[cap]
dept = "5/16"
[[spar]]
name = "front"
at = "14%"
width = "3/4"
`))
	spar := doc.Spars[0]
	fmt.Printf("%s: NACA %s, chord %s = %.0f mm\n", doc.Title, doc.Section.NACA, doc.Units.Length(doc.Rib.Chord), doc.Rib.Chord)
	fmt.Printf("spar %s at %s, %s wide\n", spar.Name, doc.Units.Length(spar.At), doc.Units.Length(spar.Width))
	for _, f := range findings {
		fmt.Println(f)
	}
	// Output:
	// Wren: NACA 4412, chord 55 in = 1397 mm
	// spar front at 7.700 in, 3/4 in wide
	// wren.toml:9:1: error: "dept" is not a key of [cap].
	//     Did you mean depth?  [key-unknown]
}

func ExampleParseLength() {
	for _, s := range []string{"1 1/4 in", "2 ft 3 in", "5/16", "1,5 mm"} {
		v, hasUnit, err := ribfile.ParseLength(s)
		fmt.Println(v, hasUnit, err)
	}
	// Output:
	// 31.75 true <nil>
	// 685.8 true <nil>
	// 0.3125 false <nil>
	// 0 false "1,5 mm" has a comma in it. Write a decimal point, and nothing between the thousands: "1.5 mm".
}
