package cut

import "ribwright/geom"

// Tour returns an order in which to visit points, from a start: always the nearest next, then improved by turning
// stretches round as long as that makes the way shorter (2-opt; Croes, Operations Research 6, 1958).
func Tour(start geom.Pt, pts []geom.Pt) []int {
	n := len(pts)
	order, used := make([]int, 0, n), make([]bool, n)
	at := start
	for range n {
		best := -1
		for i, p := range pts {
			if !used[i] && (best < 0 || p.Dist(at) < pts[best].Dist(at)) {
				best = i
			}
		}
		used[best] = true
		order, at = append(order, best), pts[best]
	}
	place := func(k int) geom.Pt {
		if k < 0 {
			return start
		}
		return pts[order[k]]
	}
	for better, rounds := true, 0; better && rounds < 50; rounds++ {
		better = false
		for i := 0; i < n-1; i++ {
			for j := i + 1; j < n; j++ { // turn i … j round
				gain := place(i-1).Dist(place(i)) - place(i-1).Dist(place(j))
				if j+1 < n {
					gain += place(j).Dist(place(j+1)) - place(i).Dist(place(j+1))
				}
				if gain > geom.Coincident {
					for a, b := i, j; a < b; a, b = a+1, b-1 {
						order[a], order[b] = order[b], order[a]
					}
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
