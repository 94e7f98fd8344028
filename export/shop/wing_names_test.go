package shop

import (
	"fmt"
	"slices"
	"testing"

	"ribwright/geom"
)

// TestEveryNth: of more tags than the picture has room for, those of round numbers stay with the first and the last, in
// either order, and none beside these.
func TestEveryNth(t *testing.T) {
	for _, c := range []struct {
		n    int
		long float64 // from the first place to the last
		nth  int
		from []int // the first ones that stay
		to   []int // and the last
	}{
		{1, 0, 1, []int{1}, []int{1}},
		{105, 200, 1, []int{1, 2, 3}, []int{104, 105}},
		{106, 200, 5, []int{1, 5, 10, 15}, []int{95, 100, 106}},
		{120, 200, 5, []int{1, 5, 10, 15}, []int{115, 120}},
		{201, 200, 5, []int{1, 5, 10, 15}, []int{190, 195, 201}},
		{300, 200, 10, []int{1, 10, 20}, []int{290, 300}},
		{300, 60, 20, []int{1, 20, 40}, []int{280, 300}},
		{307, 200, 10, []int{1, 10, 20}, []int{290, 307}},
		{308, 200, 10, []int{1, 10, 20}, []int{290, 300, 308}},
		{2000, 0, 100, []int{1, 100, 200}, []int{1900, 2000}},
	} {
		var all []tag
		for i := range c.n {
			all = append(all, tag{geom.Pt{X: c.long * float64(i) / float64(max(1, c.n-1))}, fmt.Sprint("R", i+1), i + 1})
		}
		back := slices.Clone(all)
		slices.Reverse(back)
		for i := range back {
			back[i].at.X = all[i].at.X
		}
		some, nth := everyNth(all)
		var got []int
		for _, s := range some {
			got = append(got, s.number)
		}
		if nth != c.nth || len(got) < len(c.from) || !slices.Equal(got[:len(c.from)], c.from) || !slices.Equal(got[len(got)-len(c.to):], c.to) {
			t.Errorf("%d tags over %g mm: every %dth of them, %v; want every %dth, %v … %v", c.n, c.long, nth, got, c.nth, c.from, c.to)
		}
		turned, _ := everyNth(back) // as tails stand, the tip's first
		slices.Reverse(turned)
		if !slices.EqualFunc(turned, some, func(a, b tag) bool { return a.s == b.s }) {
			t.Errorf("%d tags over %g mm, the last one first: %v, want those of %v", c.n, c.long, turned, some)
		}
	}
}
