package pack

import (
	"cmp"
	"math"
	"slices"
)

// barKnap seeks the pattern of the greatest worth: a knapsack by branch and bound, types in order of their worth for
// their room. Worths are whole numbers, so that its answer is exact.
type barKnap struct {
	m     *barModel
	kind  int
	order []int   // types that are wanted and worth something
	need  []int   // by type
	worth []int64 // by type
	small []int64 // by place in order: the least room of it and all that follow

	best    int64 // must be exceeded
	found   []barEntry
	stack   []barEntry
	steps   int
	mayTake int // steps at all
	stopped bool
	ratio   []float64
}

// barReckon is how many steps it takes to reckon what shared cuts save in a bar.
const barReckon = 20

// barSloped is how many steps to look for one pattern where cuts are shared, at first. The bound of the knapsack knows nothing of
// slopes without partners, and there may be no end to patterns that just miss.
const barSloped = 200_000

// barQuick is how many steps to look on for a better pattern than the first.
const barQuick = 5000

// run returns a pattern whose worth exceeds floor, if there is one, and a worth that no pattern exceeds: that pattern's, or floor where there is none; more where the steps ran out. Where a pattern is found it does
// not look long for a better one.
func (k *barKnap) run(kind int, need []int, worth []int64, floor int64, mayTake int) ([]barEntry, int64) {
	k.best, k.found, k.steps, k.mayTake, k.stopped = floor, nil, 0, mayTake, false
	k.list(kind, need, worth, 1)
	room := k.m.kinds[kind].room
	k.stack = k.stack[:0]
	atMost := k.bound(0, room)
	k.branch(0, room, room, 0)
	if k.stopped {
		return k.found, max(k.best, atMost)
	}
	return k.found, k.best
}

// list puts the types that are wanted and worth so much or more in order: more worth for the room comes first.
func (k *barKnap) list(kind int, need []int, worth []int64, least int64) {
	k.kind, k.need, k.worth, k.order = kind, need, worth, k.order[:0]
	each := func(t int) float64 { return float64(worth[t]) / float64(k.m.types[t].least) }
	for t := range k.m.types {
		if need[t] > 0 && worth[t] >= least && k.m.types[t].full <= k.m.kinds[kind].room {
			k.order = append(k.order, t)
		}
	}
	slices.SortFunc(k.order, func(a, b int) int { return cmp.Or(cmp.Compare(each(b), each(a)), cmp.Compare(a, b)) })
	k.small, k.ratio = resize(k.small, len(k.order)+1), resize(k.ratio, len(k.order)+1)
	k.small[len(k.order)], k.ratio[len(k.order)] = math.MaxInt64, 0
	for i := len(k.order) - 1; i >= 0; i-- {
		k.small[i] = min(k.small[i+1], k.m.types[k.order[i]].least)
		k.ratio[i] = each(k.order[i])
	}
}

func resize[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n, 2*n)
	}
	return s[:n]
}

// bound is what the room can still be worth when the last piece may be cut to fit.
func (k *barKnap) bound(i int, room int64) int64 {
	var v int64
	for ; i < len(k.order); i++ {
		t := k.order[i]
		w := k.m.types[t].least
		all := int64(k.need[t]) * w
		if all > room {
			return v + int64(float64(room)*k.ratio[i]) + 1 // one for the rounding
		}
		room -= all
		v += int64(k.need[t]) * k.worth[t]
	}
	return v
}

// branch takes as many as fit of the i-th type, then one less, and so on. room counts shared cuts as if all slopes
// had partners, plain none.
func (k *barKnap) branch(i int, room, plain, val int64) {
	k.steps++
	if val > k.best {
		k.best, k.found = val, slices.Clone(k.stack)
	}
	if k.steps > k.mayTake || k.steps > barQuick && k.found != nil {
		k.stopped = true
		return
	}
	for ; i < len(k.order); i++ {
		if room < k.small[i] || val+k.bound(i, room) <= k.best {
			return
		}
		t := k.order[i]
		ty := &k.m.types[t]
		n := min(int64(k.need[t]), room/ty.least)
		k.stack = append(k.stack, barEntry{t: t})
		top := len(k.stack) - 1
		for ; n > 0; n-- {
			k.stack[top].n = int(n)
			left := plain - n*ty.full
			if left < 0 {
				if !k.m.sloped {
					continue
				}
				k.steps += barReckon
				if !k.m.fits(k.kind, k.stack) {
					continue
				}
			}
			k.branch(i+1, room-n*ty.least, left, val+n*k.worth[t])
			if k.stopped {
				break
			}
		}
		k.stack = k.stack[:top]
		if k.stopped {
			return
		}
	}
}

// sortEntries puts the types of a pattern in ascending order.
func sortEntries(n []barEntry) []barEntry {
	slices.SortFunc(n, func(a, b barEntry) int { return cmp.Compare(a.t, b.t) })
	return n
}
