package pack

import (
	"cmp"
	"slices"
)

// barSearch looks for the cheapest plan and its proof.
type barSearch struct {
	m      *barModel
	effort int
	steps  int
	knap   barKnap
	look   int // steps for one pattern where cuts are shared

	pool  []barPat // patterns worth knowing
	known map[string]bool

	best  []barPat
	cost  int64
	bound int64
	least bool
}

func (s *barSearch) run() {
	s.knap.m = s.m
	s.known = map[string]bool{}
	st := s.m.start()
	s.cost = 1 << 62
	s.fill(st)
	s.bound = s.m.material(st)
	if s.improving() {
		s.deepen(st)
	}
	s.least = s.cost <= s.bound
}

// start is all pieces and all bars.
func (m *barModel) start() barState {
	st := barState{need: make([]int, len(m.types)), have: make([]int, len(m.kinds))}
	for t := range m.types {
		st.need[t] = m.types[t].need
	}
	for k := range m.kinds {
		st.have[k] = m.kinds[k].have
	}
	return st
}

// improving reports whether a better plan may be found, and there is effort left.
func (s *barSearch) improving() bool { return s.cost > s.bound && s.steps < s.effort }

// record keeps a plan that is cheaper than the best.
func (s *barSearch) record(st barState) {
	if st.done() && st.used < s.cost {
		s.cost, s.best = st.used, st.pats
	}
}

// remember adds a pattern to those the linear programs begin with.
func (s *barSearch) remember(p barPat) {
	k := p.key()
	if s.known[k] {
		return
	}
	s.known[k] = true
	s.pool = append(s.pool, p)
}

// key is a text that tells patterns apart.
func (p barPat) key() string {
	b := make([]byte, 0, 4+6*len(p.n))
	b = append(b, byte(p.kind), byte(p.kind>>8))
	for _, e := range p.n {
		b = append(b, byte(e.t), byte(e.t>>8), byte(e.n), byte(e.n>>8), byte(e.n>>16))
	}
	return string(b)
}

// material is the least cost of bars whose whole room is filled. A cut is shared by two ends: where those of one slope are odd in
// number, one of them saves nothing.
func (m *barModel) material(st barState) int64 {
	var w int64
	odd := make([]bool, len(m.save))
	for t, n := range st.need {
		w += int64(n) * m.types[t].least
		if n%2 != 0 {
			for _, slope := range m.types[t].ends {
				odd[slope] = !odd[slope]
			}
		}
	}
	for slope, is := range odd {
		if is {
			w += m.save[slope] / 2
		}
	}
	order := make([]int, len(m.kinds))
	for k := range order {
		order[k] = k
	}
	each := func(k int) float64 { return float64(m.kinds[k].cost) / float64(max(m.kinds[k].room, 1)) }
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(each(a), each(b)) })
	var cost int64
	for _, k := range order {
		room, n := m.kinds[k].room, int64(st.have[k])
		if w <= 0 || n == 0 || room <= 0 {
			continue
		}
		if full := w / room; n <= full {
			w -= n * room
			cost += n * m.kinds[k].cost
			continue
		}
		// The last, broken bar: exact where bars cost the same, and otherwise to the step of costs.
		whole := w / room
		part := float64(float64(w-whole*room) * each(k))
		cost += whole * m.kinds[k].cost
		return cost + ceilTo(part-1e-7, m.step)
	}
	return cost
}

func ceilTo(v float64, step int64) int64 {
	n := int64(v / float64(step))
	if float64(float64(n)*float64(step)) < v {
		n++
	}
	return n * step
}

// fill makes plans bar by bar: in each the longest piece that fits, and so on down; of all kinds of bar the one
// that costs least for what it then holds.
func (s *barSearch) fill(st barState) {
	for !st.done() {
		best := barPat{kind: -1}
		var least float64
		for k, n := range st.have {
			if n == 0 {
				continue
			}
			p := s.m.greedy(k, st.need)
			if len(p.n) == 0 {
				continue
			}
			each := float64(s.m.kinds[k].cost) / float64(s.m.least(p.n))
			if best.kind < 0 || each < least {
				best, least = p, each
			}
		}
		if best.kind < 0 {
			return // not possible: a bar without number holds every piece
		}
		s.steps += len(st.need)
		st = st.take(s.m, best)
		if st.used >= s.cost {
			return
		}
	}
	s.record(st)
}

// greedy fills a bar with the longest pieces first.
func (m *barModel) greedy(kind int, need []int) barPat {
	p := barPat{kind: kind}
	room := m.kinds[kind].room
	for t, n := range need {
		ty := &m.types[t]
		if n == 0 || ty.least > room-m.least(p.n) {
			continue
		}
		p.n = append(p.n, barEntry{t, 0})
		last := &p.n[len(p.n)-1]
		for last.n < n {
			if last.n++; !m.fits(kind, p.n) {
				last.n--
				break
			}
		}
		if last.n == 0 {
			p.n = p.n[:len(p.n)-1]
		}
	}
	return p
}
