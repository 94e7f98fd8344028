package pack

// barProgram is a state's linear program, and which row stands for what.
type barProgram struct {
	s       *barSearch
	st      barState
	ref     int64 // cost of the dearest bar: 1 in the program
	rowOf   []int // of a type; −1: none is needed
	kindRow []int // of a kind of bar; −1: there are any number, or none
	l       *barLP
}

// program sets up the rows and the first columns: for each type a bar full of it, and the patterns known so far.
func (s *barSearch) program(st barState) (barProgram, bool) {
	m := s.m
	rowOf, kindRow := make([]int, len(m.types)), make([]int, len(m.kinds))
	pr := barProgram{s: s, st: st, ref: m.reference(), rowOf: rowOf, kindRow: kindRow}
	var b []float64
	for t, n := range st.need {
		rowOf[t] = -1
		if n > 0 {
			rowOf[t] = len(b)
			b = append(b, float64(n))
		}
	}
	types := len(b)
	for k, n := range st.have {
		kindRow[k] = -1
		if n > 0 && n != barAny {
			kindRow[k] = len(b)
			b = append(b, -float64(n))
		}
	}
	cols := make([]barCol, 0, types+len(s.pool))
	for t, n := range st.need {
		if n == 0 {
			continue
		}
		best := barPat{kind: -1}
		var each float64
		for k, kind := range m.kinds {
			if kind.have != barAny || kind.room < m.types[t].full {
				continue
			}
			p := barPat{kind: k, n: []barEntry{{t, m.copies(k, t, n)}}}
			if e := float64(kind.cost) / float64(p.n[0].n); best.kind < 0 || e < each {
				best, each = p, e
			}
		}
		if best.kind < 0 {
			return pr, false // not possible: there is always a kind without number that holds every piece
		}
		cols = append(cols, pr.column(best))
	}
	for _, p := range s.pool {
		if st.have[p.kind] == 0 {
			continue
		}
		if q := p.within(st.need); len(q.n) > 0 {
			cols = append(cols, pr.column(q))
		}
	}
	pr.l = newBarLP(b, cols[:types:types])
	pr.l.cols = cols
	return pr, true
}

// column is a pattern as the program sees it.
func (pr *barProgram) column(p barPat) barCol {
	c := barCol{pat: p, cost: float64(pr.s.m.kinds[p.kind].cost) / float64(pr.ref)}
	for _, e := range p.n {
		c.row, c.n = append(c.row, pr.rowOf[e.t]), append(c.n, float64(e.n))
	}
	if r := pr.kindRow[p.kind]; r >= 0 {
		c.row, c.n = append(c.row, r), append(c.n, -1)
	}
	return c
}

// copies is how many of a type, n at most, a bar holds.
func (m *barModel) copies(kind, t, n int) int {
	n = int(min(int64(n), m.kinds[kind].room/m.types[t].least))
	for n > 1 && !m.fits(kind, []barEntry{{t, n}}) {
		n--
	}
	return n
}

// reference is the cost of the dearest bar there is, one at least.
func (m *barModel) reference() int64 {
	ref := int64(1)
	for _, k := range m.kinds {
		if k.stock >= 0 {
			ref = max(ref, k.cost)
		}
	}
	return ref
}
