package pack

import (
	"math"
	"slices"
)

// barState is what is still to be cut, and the bars there are.
type barState struct {
	need []int // by type
	have []int // by kind
	used int64 // cost so far
	pats []barPat
}

func (s barState) done() bool { return !slices.ContainsFunc(s.need, func(n int) bool { return n > 0 }) }

// take returns the state after one more bar; what the bar holds beyond the need is left out.
func (s barState) take(m *barModel, p barPat) barState {
	p = p.within(s.need)
	s.need, s.have = slices.Clone(s.need), slices.Clone(s.have)
	for _, e := range p.n {
		s.need[e.t] -= e.n
	}
	if s.have[p.kind] != barAny {
		s.have[p.kind]--
	}
	s.used += m.kinds[p.kind].cost
	s.pats = append(slices.Clip(s.pats), p)
	return s
}

// within returns the pattern with no more of each type than is needed.
func (p barPat) within(need []int) barPat {
	out := barPat{kind: p.kind, n: make([]barEntry, 0, len(p.n))}
	for _, e := range p.n {
		if e.n = min(e.n, need[e.t]); e.n > 0 {
			out.n = append(out.n, e)
		}
	}
	return out
}

// barRelax is the linear program's answer for a state.
type barRelax struct {
	pats  []barPat // of the solution
	x     []float64
	proof barProof
	least int64 // no bars for the state cost less
}

// barProof is dual values that hold whatever the rounding of the linear program was: no pattern is worth more than its
// bar's price, so that what the need is worth, less what the limited bars stand over their cost, is below every plan.
type barProof struct {
	worth []int64   // of the types, whole: the dearest bar costs barScale
	price []float64 // of the kinds: cost, and above it where bars of the kind are few
	bound float64
}

// barScale is the fineness of worths.
const barScale = 1 << 38

// relax solves the state's linear program by column generation. It stops early where the bound reaches enough.
func (s *barSearch) relax(st barState, enough int64) (barRelax, bool) {
	out := barRelax{proof: barProof{bound: math.Inf(-1)}}
	pr, ok := s.program(st)
	if !ok {
		return out, false
	}
	l, step := pr.l, s.m.step
	var centre []float64
	loose, fine := true, 1e-5
	for range 20 * (l.rows + 10) {
		ok := l.solve()
		s.steps += l.steps
		l.steps = 0
		if !ok {
			return out, false
		}
		// What the bound lacks to the next step of costs need not be asked for.
		z := float64(l.objective() * float64(pr.ref))
		goal := ceilTo(z-float64(1e-6*float64(step)), step)
		near := fine
		if loose {
			near = max(fine, 0.9*(z-float64(goal-step))/max(z, 1))
		}
		added := false
		// Dual values leap about from one program to the next; patterns asked for between them and the best so far
		// serve longer (Wentges, International Transactions in Operational Research 4 (1997) 151).
		for _, pull := range []float64{barPull, 0} {
			if pull > 0 && centre == nil {
				continue
			}
			y := make([]float64, l.rows)
			for r := range y {
				y[r] = max(l.y[r], 0)
				if pull > 0 {
					y[r] = float64(pull*centre[r]) + float64((1-pull)*y[r])
				}
			}
			var proof barProof
			added, proof = pr.price(y, near)
			if proof.bound > out.proof.bound {
				out.proof, centre = proof, y
				steps := proof.bound / barScale * float64(pr.ref) / float64(step)
				// The sums are rounded, and no bound is so near a whole step.
				out.least = max(out.least, int64(math.Ceil(steps-1e-7-float64(steps*1e-12)))*step)
			}
			if added {
				break
			}
		}
		if out.least >= enough || s.steps > s.effort {
			break
		}
		if !added {
			if out.least >= goal || fine < 1e-6 {
				break
			}
			if !loose {
				fine = 1e-8
			}
			loose = false
		}
	}
	if !l.invert() {
		return out, false
	}
	x := make([]float64, l.rows)
	l.values(l.b, x)
	for r, j := range l.basis {
		if j >= 0 && x[r] > 1e-7 {
			out.pats, out.x = append(out.pats, l.cols[j].pat), append(out.x, x[r])
		}
	}
	return out, true
}

// barPull is how strongly patterns are asked for at the best dual values so far.
const barPull = 0.8

// barColumns is how many patterns one asking adds for a kind of bar, each from the pieces the others leave.
const barColumns = 4

// price adds good patterns of each kind of bar to the program, those worth more at the dual values y than
// their bar by the share near, and proves a bound from the same values.
func (pr *barProgram) price(y []float64, near float64) (added bool, proof barProof) {
	s, st := pr.s, pr.st
	worth := make([]int64, len(pr.rowOf))
	for t, r := range pr.rowOf {
		if r >= 0 {
			worth[t] = int64(y[r] * barScale)
		}
	}
	most := make([]int64, len(pr.kindRow)) // what a pattern can be worth
	for k := range pr.kindRow {
		if st.have[k] == 0 {
			continue
		}
		bar := float64(pr.cost(k))
		if r := pr.kindRow[k]; r >= 0 {
			bar += float64(y[r] * barScale)
		}
		floor := int64(float64(bar*(1+near))) + 1
		need, mayTake := slices.Clone(st.need), max(s.effort-s.steps, 1000)
		if s.m.sloped {
			mayTake = min(mayTake, s.look)
		}
		for i := range barColumns {
			n, atMost := s.knap.run(k, need, worth, floor, mayTake)
			s.steps += s.knap.steps
			if i == 0 {
				most[k], mayTake = atMost, barQuick
			}
			if n == nil {
				break
			}
			p := barPat{kind: k, n: sortEntries(n)}
			s.remember(p)
			for _, e := range p.n {
				need[e.t] -= e.n
			}
			if c := pr.column(p); pr.l.reduced(&c) < -lpCost {
				added = true
				pr.l.cols = append(pr.l.cols, c)
			}
		}
	}
	return added, pr.prove(worth, most)
}

// cost is a bar's, in worth.
func (pr *barProgram) cost(k int) float64 {
	return float64(pr.s.m.kinds[k].cost) / float64(pr.ref) * barScale
}

// prove makes a proof of worths when it is known what patterns are worth at the most. All worths are shrunk until no bar
// of which there is any number holds more than it costs (Farley, Operations Research 38 (1990) 922); of the others
// each is priced at what it holds. Shrinking further may better the bound, where one of them reaches its cost.
func (pr *barProgram) prove(worth, most []int64) barProof {
	all := 1.0
	for k, n := range pr.st.have {
		if n == barAny && most[k] > 0 {
			all = min(all, pr.cost(k)/float64(most[k]))
		}
	}
	best := barProof{bound: math.Inf(-1)}
	for k := -1; k < len(most); k++ {
		shrink := all
		if k >= 0 {
			if pr.kindRow[k] < 0 || most[k] == 0 {
				continue
			}
			shrink = min(all, pr.cost(k)/float64(most[k]))
		}
		p := barProof{worth: make([]int64, len(worth)), price: make([]float64, len(most))}
		for t, w := range worth {
			p.worth[t] = int64(float64(w) * shrink)
			p.bound += float64(float64(p.worth[t]) * float64(pr.st.need[t]))
		}
		for k := range most {
			p.price[k] = pr.cost(k)
			if pr.kindRow[k] >= 0 {
				p.price[k] = max(p.price[k], float64(shrink*float64(most[k])))
				p.bound -= float64((p.price[k] - float64(pr.cost(k))) * float64(pr.st.have[k]))
			}
		}
		if p.bound > best.bound {
			best = p
		}
	}
	return best
}
