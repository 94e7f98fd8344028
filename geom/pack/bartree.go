package pack

import (
	"cmp"
	"slices"
)

// barTree is the search that sees everything: the longest piece left must lie in some bar, so each pattern that
// holds it is tried.
type barTree struct {
	s    *barSearch
	dead map[string]int64 // what was needed, and the least cost with which it was reached and led to nothing better
	cut  bool             // something was left out
}

// barChildren is how many patterns one node lists at the most.
const barChildren = 20000

func (t *barTree) branch(st barState) {
	s := t.s
	if st.done() {
		s.record(st)
		return
	}
	if s.steps >= s.effort {
		t.cut = true
		return
	}
	if st.used+s.m.material(st) >= s.cost {
		return
	}
	key := st.key()
	if used, ok := t.dead[key]; ok && used <= st.used {
		return
	}
	r, ok := s.relax(st, s.cost-st.used)
	if !ok {
		t.cut = true
		return
	}
	if st.used+r.least >= s.cost {
		t.dead[key] = st.used
		return
	}
	s.fill(st)
	for _, p := range t.children(st, r) {
		if s.cost <= s.bound || st.used+p.floor >= s.cost {
			continue
		}
		t.branch(st.take(s.m, p.pat))
		if s.steps >= s.effort {
			t.cut = true
			return
		}
	}
	t.dead[key] = st.used
}

func (st barState) key() string {
	b := make([]byte, 0, 3*len(st.need)+3*len(st.have))
	for _, n := range st.need {
		b = append(b, byte(n), byte(n>>8))
	}
	for _, n := range st.have {
		b = append(b, byte(n), byte(n>>8), byte(n>>16), byte(n>>24))
	}
	return string(b)
}

// barChild is a pattern to try.
type barChild struct {
	pat   barPat
	x     float64 // how much of it the linear program wants
	worth int64
	floor int64 // least cost of the state if this bar is sawn
}

// children lists the patterns that hold the longest piece and may lead to a better plan, the likeliest first.
// A pattern to which a piece could be added, or in which one could give way to a longer one, is left out: its
// plan could be changed into one with the fuller bar that is no dearer.
func (t *barTree) children(st barState, r barRelax) []barChild {
	s, m := t.s, t.s.m
	first := slices.IndexFunc(st.need, func(n int) bool { return n > 0 })
	scale := barScale / float64(m.reference())
	var out []barChild
	wants := map[string]float64{}
	for i, p := range r.pats {
		wants[p.within(st.need).key()] += r.x[i]
	}
	for k, n := range st.have {
		if n == 0 || m.kinds[k].room < m.types[first].full || m.dominated(st, k) {
			continue
		}
		// A bar raises the bound by what its pattern is worth less than its price.
		most := float64(float64(s.cost-m.step-st.used)*scale) - r.proof.bound
		e := barEnum{m: m, kind: k, need: st.need, worth: r.proof.worth, most: barChildren,
			least: int64(r.proof.price[k] - most - float64(barScale*1e-6))}
		e.run(first)
		s.steps += e.steps
		if e.stopped {
			t.cut = true
		}
		for _, c := range e.out {
			c.x = wants[c.pat.key()]
			c.floor = ceilTo((r.proof.bound+r.proof.price[k]-float64(c.worth))/scale-float64(1e-6*float64(m.step)), m.step)
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, func(a, b barChild) int {
		return cmp.Or(cmp.Compare(a.floor, b.floor), cmp.Compare(b.x, a.x), cmp.Compare(b.worth, a.worth))
	})
	return out
}

// dominated reports whether another kind of bar, of which there is any number, is as long and costs no more.
func (m *barModel) dominated(st barState, kind int) bool {
	k := m.kinds[kind]
	for i, o := range m.kinds {
		if i != kind && o.have == barAny && o.room >= k.room && (o.cost < k.cost || o.cost == k.cost && (o.room > k.room || k.have != barAny || i < kind)) {
			return true
		}
	}
	return false
}

// barEnum lists patterns of one kind of bar that hold a given type and are worth no less than a floor.
type barEnum struct {
	m       *barModel
	kind    int
	need    []int
	worth   []int64
	least   int64
	most    int
	knap    barKnap // its order and bounds
	stack   []barEntry
	out     []barChild
	steps   int
	stopped bool
}

func (e *barEnum) run(first int) {
	room := e.m.kinds[e.kind].room
	ty := e.m.types[first]
	left := slices.Clone(e.need)
	left[first]--
	e.knap.m = e.m
	e.knap.list(e.kind, left, e.worth, 0)
	e.stack = append(e.stack, barEntry{first, 1})
	e.branch(0, room-ty.least, room-ty.full, e.worth[first])
}

func (e *barEnum) branch(i int, room, plain, val int64) {
	e.steps++
	if len(e.out) >= e.most || e.steps > 200*e.most {
		e.stopped = true
		return
	}
	if val+e.knap.bound(i, room) < e.least {
		return
	}
	if i == len(e.knap.order) || room < e.knap.small[i] {
		e.keep(val)
		return
	}
	t := e.knap.order[i]
	ty := &e.m.types[t]
	e.stack = append(e.stack, barEntry{t: t})
	top := len(e.stack) - 1
	for n := min(int64(e.knap.need[t]), room/ty.least); n > 0 && !e.stopped; n-- {
		e.stack[top].n = int(n)
		left := plain - n*ty.full
		if left < 0 && (!e.m.sloped || !e.m.fits(e.kind, e.stack)) {
			continue
		}
		e.branch(i+1, room-n*ty.least, left, val+n*e.worth[t])
	}
	e.stack = e.stack[:top]
	if !e.stopped {
		e.branch(i+1, room, plain, val)
	}
}

// merge returns the entries in ascending order of types, each type once.
func merge(n []barEntry) []barEntry {
	out := sortEntries(slices.Clone(n))
	k := 0
	for _, e := range out[1:] {
		if e.t == out[k].t {
			out[k].n += e.n
			continue
		}
		k++
		out[k] = e
	}
	return out[:k+1]
}

// keep lists the pattern unless a fuller one does as well.
func (e *barEnum) keep(val int64) {
	p := barPat{kind: e.kind, n: merge(e.stack)}
	if val < e.least {
		return
	}
	in := make([]int, len(e.need))
	for _, c := range p.n {
		in[c.t] = c.n
	}
	room := e.m.kinds[e.kind].room
	w := e.m.weight(p.n)
	for t, n := range e.need {
		if in[t] >= n {
			continue
		}
		ty := &e.m.types[t]
		if w+ty.full <= room || e.m.sloped && w+ty.least <= room && e.m.fits(e.kind, append(slices.Clip(p.n), barEntry{t, 1})) {
			return
		}
		if e.m.sloped {
			continue
		}
		// t could stand for a shorter piece, though not for the longest.
		for i, c := range p.n {
			if c.t > t && (i > 0 || c.n > 1) && w+ty.full-e.m.types[c.t].full <= room {
				return
			}
		}
	}
	e.out = append(e.out, barChild{pat: p, worth: val})
}
