package pack_test

import (
	"fmt"
	"math"

	"ribwright/geom/pack"
)

// Diagonals with one cut of 40° and one square, and uprights, from bars of a metre.
func ExampleCutBars() {
	job := pack.BarJob{
		Pieces: []pack.BarPiece{
			{ID: "S1", Length: 236, Count: 6, Depth: 10, Ends: [2]float64{0, 40 * math.Pi / 180}},
			{ID: "S4", Length: 88, Count: 6, Depth: 10},
		},
		Stock: []pack.BarStock{{Length: 1000}}, Kerf: 2, Trim: 10, Offcut: 100,
	}
	plan, err := pack.CutBars(job)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d bars, no plan needs fewer than %g\n", plan.Bars, plan.Bound)
	for _, p := range plan.Patterns {
		fmt.Printf("%d×", p.Count)
		for _, c := range p.Cuts {
			join := " "
			if c.Shared {
				join = "/"
			}
			fmt.Printf("%s%s at %.1f", join, job.Pieces[c.Piece].ID, c.From)
		}
		fmt.Printf(", %d kerfs, %.1f left\n", p.Kerfs, p.Left)
	}
	// Output:
	// 2 bars, no plan needs fewer than 2
	// 2× S1 at 10.0/S1 at 240.2 S4 at 478.2 S4 at 568.2 S4 at 658.2 S1 at 748.2, 6 kerfs, 3.8 left
}
