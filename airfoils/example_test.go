package airfoils_test

import (
	"fmt"

	"ribwright/airfoils"
)

// The ordinates of NACA 4412 in percent of the chord, as a handbook prints them.
func ExampleNACA() {
	s, found := airfoils.NACA("4412")
	if len(found) > 0 {
		fmt.Println(found)
		return
	}
	fmt.Println("station   upper   lower")
	for _, x := range s.Stations() {
		upper, lower, _ := s.At(x)
		fmt.Printf("%7.2f %7.2f %7.2f\n", 100*x, 100*upper, 100*lower+0)
	}
	// Output:
	// station   upper   lower
	//    0.00    0.00    0.00
	//    1.25    2.45   -1.43
	//    2.50    3.38   -1.95
	//    5.00    4.73   -2.48
	//    7.50    5.76   -2.74
	//   10.00    6.60   -2.86
	//   15.00    7.89   -2.88
	//   20.00    8.80   -2.73
	//   25.00    9.41   -2.51
	//   30.00    9.76   -2.26
	//   40.00    9.80   -1.80
	//   50.00    9.19   -1.40
	//   60.00    8.14   -1.00
	//   70.00    6.70   -0.65
	//   80.00    4.88   -0.39
	//   90.00    2.70   -0.21
	//   95.00    1.46   -0.16
	//  100.00    0.13   -0.12
}

// A table with two mistakes: both are found in one run.
func ExampleRead() {
	_, found := airfoils.Read("wren.txt", []byte(`Marsh Wren, sheet 3
0    3.5  3.5
5    7.9  0.9
20  11.4  0
15  10.7  0.2
60   9.2  O
90   2.8  0
100  0.1  0
`))
	for _, f := range found {
		fmt.Println(f)
	}
	// Output:
	// wren.txt:5:1: error: Station 15 stands after station 20.
	//     Stations run from the leading edge to the trailing edge: put the line in its place, or its station right.  [section-order]
	// wren.txt:6:11: error: “O” is not a number.
	//     Put the number right. Decimals are written with a point, fractions as 5/16 or 3-7/16.  [section-number]
}

// The sections that are built in.
func ExampleBuiltins() {
	for _, i := range airfoils.Builtins() {
		fmt.Printf("%-13s %5.2f %% thick, flat for %2.0f %% of the chord\n", i.Name, 100*i.Thickness, 100*i.FlatShare)
	}
	// Output:
	// clark-y       11.71 % thick, flat for 70 % of the chord
	// clark-y-14    14.01 % thick, flat for 70 % of the chord
	// curtiss-c-72  11.74 % thick, flat for  0 % of the chord
	// goe-387       14.89 % thick, flat for  0 % of the chord
	// m6            12.08 % thick, flat for  0 % of the chord
	// n-22          12.39 % thick, flat for  0 % of the chord
	// usa-35b       11.61 % thick, flat for  0 % of the chord
}

// A wing tapers from NACA 4415 at the root to NACA 2412 at the tip; a quarter of the way out stands this section.
func ExampleBlend() {
	root, _ := airfoils.NACA("4415")
	tip, _ := airfoils.NACA("2412")
	s := airfoils.Blend(root, tip, 0.25)
	thickness, _ := s.MaxThickness()
	camber, _ := s.MaxCamber()
	fmt.Printf("%s: %.2f %% thick, camber %.2f %%\n", s.Name, 100*thickness, 100*camber)
	// Output:
	// NACA 4415 to NACA 2412, 25 %: 14.27 % thick, camber 3.50 %
}
