package mix_test

import (
	"fmt"

	"ribwright/geom/mix"
)

// A hundred parts of A to forty-three of B, on a scale that shows tenths of a gram.
func Example() {
	s := mix.Scale{StepG: 0.1, Tolerance: 0.02}
	r := mix.Ratio{A: 100, B: 43}
	c := s.Card(r, 30)
	fmt.Printf("pour A until it reads %.1f g, then B until it reads %.1f g\n", c.AG, c.TotalG)
	fmt.Printf("the ratio is off by %+.1f %% to %+.1f %%\n", 100*c.Error.Low, 100*c.Error.High)
	least, _, _ := s.Smallest(r)
	fmt.Printf("smallest batch within 2 %%: %.1f g\n", least)
	// Output:
	// pour A until it reads 21.0 g, then B until it reads 30.0 g
	// the ratio is off by -1.0 % to +1.7 %
	// smallest batch within 2 %: 21.6 g
}

// Too much B was poured: 0.48 of A and 0.55 of B, in equal parts.
func ExampleScale_Correct() {
	s := mix.Scale{StepG: 0.01, Tolerance: 0.02}
	c := s.Correct(mix.Ratio{A: 1, B: 1}, 0.48, 0.55)
	for _, add := range c.Add {
		fmt.Printf("add %.2f of %s, until the scale reads %.2f\n", add.AddG, add.Part, add.ReadG)
	}
	fmt.Printf("then there are %.2f of A and %.2f of B\n", c.AG, c.BG)
	// Output:
	// add 0.07 of A, until the scale reads 1.10
	// then there are 0.55 of A and 0.55 of B
}
