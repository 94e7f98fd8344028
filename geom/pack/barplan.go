package pack

import (
	"cmp"
	"slices"
)

// tidy betters a plan in what its cost does not say: bars that could be shorter are, bars that could be emptied are, and
// the emptiest gives to the others what they still hold, so that one long offcut is left, not many short ones.
func (m *barModel) tidy(bars []barPat) []barPat {
	bars = slices.Clone(bars)
	for range bars {
		slices.SortStableFunc(bars, func(a, b barPat) int { return cmp.Compare(m.spare(a), m.spare(b)) })
		before := len(bars)
		for i := len(bars) - 1; i >= 0 && len(bars) == before; i-- {
			if next, ok := m.empty(bars, i, false); ok {
				bars = next
			}
		}
		if len(bars) == before {
			break
		}
	}
	if len(bars) > 1 {
		bars, _ = m.empty(bars, len(bars)-1, true)
	}
	have := make([]int, len(m.kinds))
	for k := range have {
		have[k] = m.kinds[k].have
	}
	for _, b := range bars {
		if have[b.kind] != barAny {
			have[b.kind]--
		}
	}
	for i, b := range bars {
		best := b.kind
		for k, kind := range m.kinds {
			o := m.kinds[best]
			if have[k] > 0 && cmp.Or(cmp.Compare(kind.cost, o.cost), cmp.Compare(kind.room, o.room)) < 0 && m.fits(k, b.n) {
				best = k
			}
		}
		if best != b.kind {
			for k, d := range map[int]int{b.kind: 1, best: -1} {
				if have[k] != barAny {
					have[k] += d
				}
			}
			bars[i].kind = best
		}
	}
	return bars
}

// spare is the room that is left in a bar.
func (m *barModel) spare(p barPat) int64 { return m.kinds[p.kind].room - m.weight(p.n) }

// empty moves the pieces of the i-th bar into the others, the longest pieces first, into the fullest bar that
// holds them. In part: what cannot be moved stays; else all must go.
func (m *barModel) empty(bars []barPat, i int, part bool) ([]barPat, bool) {
	out := slices.Clone(bars)
	from := barPat{kind: bars[i].kind}
	for _, e := range bars[i].n {
		stay := 0
		for range e.n {
			to := -1
			for j := range out {
				lacking := m.kinds[out[j].kind].stock < 0 && m.kinds[from.kind].stock >= 0
				if j == i || lacking || m.spare(out[j]) < m.types[e.t].least {
					continue
				}
				if m.fits(out[j].kind, append(slices.Clip(out[j].n), barEntry{e.t, 1})) && (to < 0 || m.spare(out[j]) < m.spare(out[to])) {
					to = j
				}
			}
			if to < 0 {
				if !part {
					return bars, false
				}
				stay++
				continue
			}
			out[to].n = merge(append(slices.Clip(out[to].n), barEntry{e.t, 1}))
		}
		if stay > 0 {
			from.n = append(from.n, barEntry{e.t, stay})
		}
	}
	if len(from.n) == 0 {
		return slices.Delete(out, i, i+1), true
	}
	out[i] = from
	return out, true
}

// plan names the pieces of the best plan and lays them in order.
func (m *barModel) plan(s *barSearch) BarPlan {
	out := BarPlan{Buy: make([]int, len(m.job.Stock)), Missing: make([]int, len(m.job.Pieces)), Steps: s.steps, Least: s.least}
	bars := m.tidy(s.best)
	var cost int64
	for _, b := range bars {
		cost += m.kinds[b.kind].cost
	}
	out.Least = out.Least || cost <= s.bound
	left := make([]int, len(m.job.Pieces))
	for i, p := range m.job.Pieces {
		left[i] = p.Count
	}
	for _, g := range m.group(bars) {
		k := m.kinds[g.pat.kind]
		for g.count > 0 {
			ids, n := m.name(g.pat, g.count, left)
			g.count -= n
			if k.stock < 0 {
				out.Short += n
				for _, id := range ids {
					out.Missing[id] += n
				}
				continue
			}
			out.Bars += n
			out.Buy[k.stock] += n
			out.Cost += float64(float64(n) * m.job.Stock[k.stock].Price)
			p := m.lay(k.stock, ids)
			p.Count = n
			out.Patterns = append(out.Patterns, p)
		}
	}
	out.Bound = float64(s.bound)
	if m.priced {
		out.Bound /= barPrice
	}
	if out.Short > 0 {
		out.Bound = 0
	}
	return out
}

type barGroup struct {
	pat   barPat
	count int
}

// group gathers bars that are alike: the patterns that repeat most come first, then the fuller ones.
func (m *barModel) group(bars []barPat) []barGroup {
	var out []barGroup
	place := map[string]int{}
	for _, b := range bars {
		k := b.key()
		if _, ok := place[k]; !ok {
			place[k] = len(out)
			out = append(out, barGroup{pat: b})
		}
		out[place[k]].count++
	}
	slices.SortStableFunc(out, func(a, b barGroup) int {
		return cmp.Or(cmp.Compare(b.count, a.count), cmp.Compare(m.spare(a.pat), m.spare(b.pat)), cmp.Compare(a.pat.key(), b.pat.key()))
	})
	return out
}

// name chooses the pieces of one bar, by index in the job, and says in how many bars, at most most, the
// same pieces can lie. It takes them off left.
func (m *barModel) name(p barPat, most int, left []int) ([]int, int) {
	var ids []int
	takes := make([]int, len(left))
	for _, e := range p.n {
		n := e.n
		for _, id := range m.types[e.t].ids {
			for n > 0 && takes[id] < left[id] {
				// Of alike pieces the first ones go first, as many in each bar as lets all bars be the same.
				if share := max(1, left[id]/most); takes[id] >= share && m.others(e.t, id, left, takes) >= n {
					break
				}
				takes[id]++
				ids = append(ids, id)
				n--
			}
		}
	}
	n := most
	for id, c := range takes {
		if c > 0 {
			n = min(n, left[id]/c)
		}
	}
	for id, c := range takes {
		left[id] -= c * n
	}
	return ids, n
}

// others counts what is left of the pieces of a type that come after the given one.
func (m *barModel) others(t, id int, left, takes []int) int {
	n := 0
	for _, o := range m.types[t].ids {
		if o > id {
			n += left[o] - takes[o]
		}
	}
	return n
}
