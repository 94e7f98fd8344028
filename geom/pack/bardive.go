package pack

import (
	"cmp"
	"slices"
)

// deepen asks the linear program, and searches with its help.
func (s *barSearch) deepen(st barState) {
	// With shared cuts first in a hurry; a bound that looks longer comes where there is effort left for it.
	for _, s.look = range []int{barSloped, 20 * barSloped} {
		root, ok := s.relax(st, s.cost)
		if !ok {
			return
		}
		s.bound = max(s.bound, root.least)
		for miss := 0; s.improving() && miss <= 8; miss++ {
			s.dive(st, miss)
		}
		if !s.m.sloped || !s.improving() {
			break
		}
	}
	if s.improving() {
		t := barTree{s: s, dead: map[string]int64{}}
		t.branch(st)
		if !t.cut && s.steps < s.effort {
			s.bound = s.cost // the whole tree was seen
		}
	}
}

// dive takes the bars that the linear program wants whole, then the one it wants most, asks it again about what is left,
// and so on; miss times on the way down it may take the second best instead, or a later one.
func (s *barSearch) dive(st barState, miss int) {
	if st.done() {
		s.record(st)
		return
	}
	if !s.improving() {
		return
	}
	r, ok := s.relax(st, s.cost-st.used)
	if !ok || st.used+r.least >= s.cost {
		return
	}
	order := make([]int, len(r.pats))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(r.x[b], r.x[a]) })
	whole := false
	next := st
	for _, i := range order {
		for n := int(r.x[i] + 1e-6); n > 0; n-- {
			p := r.pats[i].within(next.need)
			if len(p.n) == 0 || len(p.n) < len(r.pats[i].n) && whole {
				break
			}
			next, whole = next.take(s.m, p), true
		}
	}
	s.fill(next)
	if whole {
		s.dive(next, miss)
		return
	}
	for i, j := range order {
		if i > miss || !s.improving() {
			return
		}
		s.dive(st.take(s.m, r.pats[j]), miss-i)
	}
}
