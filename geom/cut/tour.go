package cut

import (
	"slices"

	"ribwright/geom"
)

// Tour returns an order in which to visit points, from a start: always the nearest next, then improved by turning
// stretches round as long as that makes the way shorter (2-opt; Croes, Operations Research 6, 1958).
func Tour(start geom.Pt, pts []geom.Pt) []int {
	n := len(pts)
	order, used := make([]int, 0, n), make([]bool, n)
	way := make([]geom.Pt, 0, n+1) // start, and the points in their order
	way = append(way, start)
	for at := start; len(order) < n; {
		best, least := -1, 0.0
		for i, p := range pts {
			if used[i] {
				continue
			}
			if d := p.Dist(at); best < 0 || d < least {
				best, least = i, d
			}
		}
		used[best] = true
		order, at = append(order, best), pts[best]
		way = append(way, at)
	}
	steps := make([]float64, n+1) // from each point of the way to the next; none from the last
	measure := func(from, to int) {
		for k := from; k < to; k++ {
			steps[k] = way[k].Dist(way[k+1])
		}
	}
	measure(0, n)
	for better, rounds := true, 0; better && rounds < 50; rounds++ {
		better = false
		for i := 1; i < n; i++ {
			for j := i + 1; j <= n; j++ { // turn i … j round
				gain := steps[i-1] - way[i-1].Dist(way[j])
				if gain+steps[j] <= geom.Coincident { // at the best
					continue
				}
				if j < n {
					gain += steps[j] - way[i].Dist(way[j+1])
				}
				if gain > geom.Coincident {
					slices.Reverse(way[i : j+1])
					slices.Reverse(order[i-1 : j])
					measure(i-1, min(j+1, n))
					better = true
				}
			}
		}
	}
	return order
}

// TourLength is the length of the way from the start through the points in an order.
func TourLength(start geom.Pt, pts []geom.Pt, order []int) float64 {
	sum, at := 0.0, start
	for _, i := range order {
		sum, at = sum+pts[i].Dist(at), pts[i]
	}
	return sum
}
