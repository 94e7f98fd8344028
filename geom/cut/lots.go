package cut

import (
	"math"
	"slices"

	"ribwright/geom/pack"
)

// lot is a share of a set that is planned at once, and how many times it is cut.
type lot struct {
	counts []int // of each kind of piece
	times  int
}

// lots parts counts of pieces, so that none of the lots has more than most: into lots that are alike as far as the
// counts go, and what is left one kind after another. A set that is not larger is one lot.
func lots(counts []int, most int) []lot {
	total := 0
	for _, n := range counts {
		total += n
	}
	if total <= most {
		return []lot{{counts, 1}}
	}
	times := (total + most - 1) / most
	alike, rest := make([]int, len(counts)), slices.Clone(counts)
	some := false
	for i, n := range counts {
		alike[i] = n / times
		rest[i] -= alike[i] * times
		some = some || alike[i] > 0
	}
	var out []lot
	if some {
		out = append(out, lot{alike, times})
	}
	next, room := lot{make([]int, len(counts)), 1}, most
	for i := range rest {
		for rest[i] > 0 {
			n := min(rest[i], room)
			next.counts[i] += n
			rest[i], room = rest[i]-n, room-n
			if room == 0 {
				out = append(out, next)
				next, room = lot{make([]int, len(counts)), 1}, most
			}
		}
	}
	if room < most {
		out = append(out, next)
	}
	return out
}

// mostBarKinds is how many different pieces are planned at once: the memory of a plan grows with their square, and its
// time faster.
const mostBarKinds = 800

// dealt parts counts of many kinds of pieces into lots of at most so many kinds, dealt out in turn: so each has long ones and
// short ones of all the set.
func dealt(counts []int, most int) []lot {
	var kinds []int
	for i, n := range counts {
		if n > 0 {
			kinds = append(kinds, i)
		}
	}
	out := make([]lot, (len(kinds)+most-1)/most)
	for k, i := range kinds {
		l := &out[k%len(out)]
		if l.counts == nil {
			*l = lot{make([]int, len(counts)), 1}
		}
		l.counts[i] = counts[i]
	}
	return out
}

// cutBars plans the sawing of a job of any size: a larger one than is planned at once in lots, of which nobody knows
// whether they need the fewest bars together. Counted bars go to the first lots.
func cutBars(job pack.BarJob) (pack.BarPlan, error) {
	counts := make([]int, len(job.Pieces))
	for i, p := range job.Pieces {
		counts[i] = p.Count
	}
	all := dealt(counts, mostBarKinds)
	if len(all) < 2 {
		all = lots(counts, pack.MostBarPieces)
	}
	if len(all) == 1 && all[0].times == 1 {
		return pack.CutBars(job)
	}
	if slices.ContainsFunc(job.Stock, func(s pack.BarStock) bool { return s.Count > 0 }) { // no lot finds the same bars
		var single []lot
		for _, l := range all {
			single = append(single, slices.Repeat([]lot{{l.counts, 1}}, l.times)...)
		}
		all = single
	}
	sum := pack.BarPlan{Buy: make([]int, len(job.Stock)), Missing: make([]int, len(job.Pieces)), Bound: leastBars(job)}
	for _, l := range all {
		one, kinds := job, []int(nil)
		one.Pieces, one.Stock = slices.Clone(job.Pieces), nil
		for i := range one.Pieces {
			one.Pieces[i].Count = l.counts[i]
		}
		for k, s := range job.Stock {
			if s.Count > 0 {
				if s.Count -= sum.Buy[k]; s.Count == 0 {
					continue
				}
			}
			one.Stock, kinds = append(one.Stock, s), append(kinds, k)
		}
		p, err := cutBars(one)
		if err != nil {
			return pack.BarPlan{}, err
		}
		addPlan(&sum, p, kinds, l.times)
	}
	slices.Sort(sum.TooLong)
	return sum, nil
}

// addPlan adds a plan, made so many times, to a sum. kinds says which of the sum's bars the plan's are.
func addPlan(sum *pack.BarPlan, p pack.BarPlan, kinds []int, times int) {
	for _, q := range p.Patterns {
		q.Count *= times
		q.Stock = kinds[q.Stock]
		sum.Patterns = append(sum.Patterns, q)
	}
	for i, n := range p.Buy {
		sum.Buy[kinds[i]] += n * times
	}
	for i, n := range p.Missing {
		sum.Missing[i] += n * times
	}
	sum.Bars += p.Bars * times
	sum.Cost += float64(p.Cost * float64(times))
	sum.Short += p.Short * times
	sum.Steps += p.Steps
	for _, i := range p.TooLong {
		if !slices.Contains(sum.TooLong, i) {
			sum.TooLong = append(sum.TooLong, i)
		}
	}
}

// leastBars is what no plan can be below, bars, or cost where bars have prices: that of the wood alone, without saw
// cuts. Slopes that lie in each other may save as much of a piece's length as they are long.
func leastBars(job pack.BarJob) float64 {
	longest, rate := 0.0, math.Inf(1)
	priced := slices.ContainsFunc(job.Stock, func(s pack.BarStock) bool { return s.Price > 0 })
	for _, s := range job.Stock {
		if usable := s.Length - float64(2*job.Trim); usable > 0 {
			longest, rate = max(longest, usable), min(rate, s.Price/usable)
		}
	}
	wood := 0.0
	for _, p := range job.Pieces {
		slope := 0.0
		for _, a := range p.Ends {
			slope = max(slope, float64(p.Depth*math.Abs(math.Tan(a))))
		}
		if p.Length <= longest {
			wood += float64(float64(p.Count) * max(0, p.Length-slope))
		}
	}
	switch {
	case longest == 0:
		return 0
	case priced:
		return float64(wood * rate)
	}
	return math.Ceil(wood/longest - 1e-9)
}
