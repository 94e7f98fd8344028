package pack

import (
	"cmp"
	"slices"
)

// dice is a generator of numbers that look random and are the same in every run (SplitMix64; Steele, Lea and
// Flood, "Fast splittable pseudorandom number generators", 2014).
type dice uint64

func (d *dice) next() uint64 {
	*d += 0x9e3779b97f4a7c15
	z := uint64(*d)
	z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9
	z = (z ^ (z >> 27)) * 0x94d049bb133111eb
	return z ^ (z >> 31)
}

func (d *dice) below(n int) int { return int(d.next() % uint64(n)) }

func (d *dice) share() float64 { return float64(float64(d.next()>>11) / (1 << 53)) }

// out reports whether the search must end, and tells how far it is.
func (b *bench) out() bool {
	if b.job.Stop != nil && !b.stopped {
		b.stopped = b.job.Stop()
	}
	if b.job.Progress != nil {
		b.job.Progress(min(b.steps, b.effort), b.effort)
	}
	return b.stopped || b.steps >= b.effort
}

// rules are the rules that are tried first.
var rules = []rule{
	{1e-3, 1, true, true, false}, {1, 0.1, true, true, true}, {1, 1e-3, true, true, false}, {0.1, 1, true, true, true},
	{1, 1e-3, false, false, false}, {1e-3, 1, false, false, false}, {1, 0.3, true, false, false}, {0.3, 1, true, false, false},
}

// orders returns the sequence sorted by falling size, for three meanings of size.
func (b *bench) orders(seq []int) [][]int {
	var out [][]int
	for _, size := range []func(f *form) float64{
		func(f *form) float64 { return f.area },
		func(f *form) float64 { return max(f.w, f.h) },
		func(f *form) float64 { return min(f.w, f.h) },
	} {
		s := slices.Clone(seq)
		slices.SortStableFunc(s, func(p, q int) int {
			x, y := size(b.forms[b.parts[p][0].form]), size(b.forms[b.parts[q][0].form])
			return cmp.Or(cmp.Compare(y, x), p-q)
		})
		out = append(out, s)
	}
	return out
}

// search looks for the best layout: first parts by falling size under every rule, then small changes of the best order found, and
// with the rest of the effort parts are moved to earlier sheets.
func (b *bench) search(seq []int) layout {
	var best layout
	var order []int
	var r rule
	kinds := len(slices.Compact(slices.Sorted(slices.Values(seq))))
	for i, s := range b.orders(seq) {
		for k, rr := range rules {
			if i+k > 0 && b.out() {
				return best
			}
			if i > 0 && (kinds == 1 || rr != r) {
				continue // the second and third order under the best rule only; of one kind there is one order
			}
			if l := b.fill(s, rr); order == nil || l.better(best) {
				best, order, r = l, s, rr
			}
			b.whole = true
		}
	}
	var d dice
	for start := b.steps; kinds > 1 && !b.out() && b.steps < start+(b.effort-start)/2; {
		s, rr := shuffled(order, &d), r
		if d.below(6) == 0 {
			rr = rules[d.below(len(rules))]
		}
		if l := b.fill(s, rr); !best.better(l) {
			best, order, r = l, s, rr
		}
	}
	return b.tighten(best)
}

// shuffled returns the sequence with a small change.
func shuffled(seq []int, d *dice) []int {
	s := slices.Clone(seq)
	switch n := len(s); d.below(4) {
	case 0: // a part goes to the front
		i := d.below(n)
		p := s[i]
		copy(s[1:i+1], s[:i])
		s[0] = p
	case 1: // a run of parts changes its place
		i, k := d.below(n), 1+d.below(max(1, n/8))
		run := slices.Clone(s[i:min(n, i+k)])
		s = slices.Delete(s, i, i+len(run))
		s = slices.Insert(s, d.below(len(s)+1), run...)
	default: // two parts change places
		i, j := d.below(n), d.below(n)
		s[i], s[j] = s[j], s[i]
	}
	return s
}
