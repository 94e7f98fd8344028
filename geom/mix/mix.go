// Package mix weighs two parts of an adhesive into one cup: the readings of the scale at which to stop, how far its
// step can put the ratio off, the smallest batch that it weighs well enough, and what to add where too much was
// poured.
//
// Masses are grams; a ratio is by weight, and ratio errors are shares of the ratio A/B: +0.02 is two per cent too
// much A. The package knows no rib, no file and no ounce, and nothing of pot life.
//
// A scale shows multiples of its step s. It is tared with the empty cup on it; after that, the reading r means a load
// within r ± s/2. The cup stays on the scale, and is not tared between the parts:
//
//	pour A until the scale reads x       A = x + e1
//	pour B until the scale reads y       A + B = y + e2        each e within ± s/2
//
// So B = y − x + e2 − e1, which has the error of two readings, and with m = x/s and n = (y − x)/s the ratio lies
// between (m − ½)/(n + 1) and (m + ½)/(n − 1). Both ends can occur.
package mix

import (
	"math"
	"sort"
)

// Ratio is part A to part B, by weight. Both are more than 0.
type Ratio struct{ A, B float64 }

// ByVolume returns the ratio by weight of a ratio by volume. Densities are in any unit, the same for both.
func ByVolume(a, b, densityA, densityB float64) Ratio { return Ratio{a * densityA, b * densityB} }

func (r Ratio) value() float64 { return r.A / r.B }

// Split returns what a total holds of each part.
func (r Ratio) Split(total float64) (a, b float64) {
	return total * r.A / (r.A + r.B), total * r.B / (r.A + r.B)
}

// Scale is what the parts are weighed on, and how well they must be.
type Scale struct {
	StepG     float64 // of its readings
	Tolerance float64 // how far the ratio may be off, as a share of it
}

// Span is how far off a ratio may be, from Low to High. High is infinite where there may be no B at all.
type Span struct{ Low, High float64 }

// Worst returns the larger of both ends, without its sign.
func (s Span) Worst() float64 { return math.Max(math.Abs(s.Low), math.Abs(s.High)) }

// slack forgives what arithmetic does to a figure that stands at its limit, as a share.
const slack = 1e-9

// within reports whether the whole span is within the tolerance.
func (s Scale) within(e Span) bool { return e.Worst() <= s.Tolerance*(1+slack) }

// Card is a batch as it is weighed: masses are readings of the scale, whole steps of it.
type Card struct {
	AG      float64 // the first reading
	TotalG  float64 // the second
	BG      float64 // what is poured between them
	Nominal float64 // the ratio error if every reading were true
	Error   Span    // the ratio error that the step can cause, with it
	Within  bool    // the whole of it is within the tolerance
}

// span is how far off the ratio of m steps of A and n of B can be, where each has so many steps of error.
func (r Ratio) span(m, n, errA, errB float64) Span {
	e := Span{math.Max(m-errA, 0)/(n+errB)/r.value() - 1, math.Inf(1)}
	if n > errB {
		e.High = (m+errA)/(n-errB)/r.value() - 1
	}
	return e
}

// The errors of a batch poured once, in steps: A of one reading, B of two.
const errFirst, errSecond = 0.5, 1

func (s Scale) card(r Ratio, m, n int) Card {
	a, b := float64(m), float64(n)
	c := Card{AG: a * s.StepG, BG: b * s.StepG, TotalG: float64(m+n) * s.StepG, Nominal: a/b/r.value() - 1, Error: r.span(a, b, errFirst, errSecond)}
	c.Within = s.within(c.Error)
	return c
}

// best returns the card of n steps in all, two or more, whose ratio is off least at worst.
func (s Scale) best(r Ratio, n int) Card {
	// With more of A the upper end rises and the lower one too, so the best is where the upper one overtakes.
	m := 1 + sort.Search(n-2, func(k int) bool {
		e := s.card(r, k+1, n-k-1).Error
		return e.High >= -e.Low
	})
	over := s.card(r, m, n-m)
	if m > 1 {
		if under := s.card(r, m-1, n-m+1); under.Error.Worst() <= over.Error.Worst() {
			return under
		}
	}
	return over
}

// Card returns how a batch is weighed: the least total that is not below the target. Where some batch of that size
// or a smaller one is within the tolerance, the total is the least one that is within it too; else the ratio is as
// good as it can be, with one step more where that is better (equal parts of an odd number), and Within is false. The target is more than 0.
func (s Scale) Card(r Ratio, targetG float64) Card {
	n := max(2, int(math.Ceil(targetG/s.StepG-slack*targetG/s.StepG)))
	first, steady, ok := s.smallest(r)
	if ok && n >= first {
		for ; n < steady; n++ {
			if c := s.best(r, n); c.Within {
				return c
			}
		}
	}
	c := s.best(r, n)
	if more := s.best(r, n+1); !c.Within && more.Error.Worst() < c.Error.Worst() {
		return more
	}
	return c
}

// Smallest returns the smallest total that can be weighed within the tolerance, and the total from which on every
// one can be. ok is false where the scale is far too coarse for the ratio, or the tolerance too narrow.
func (s Scale) Smallest(r Ratio) (leastG, steadyG float64, ok bool) {
	first, steady, ok := s.smallest(r)
	return float64(first) * s.StepG, float64(steady) * s.StepG, ok
}

// farthest is how many steps of the scale a batch may have.
const farthest = 200_000

// smallest is Smallest in steps. A total of n steps is within the tolerance where a whole number m of them, for
// part A, keeps both (m + ½)/(n − m − 1) ≤ R(1 + t) and (m − ½)/(n − m + 1) ≥ R(1 − t), with the ratio R and the
// tolerance t: where a whole number lies from
//
//	lo(n) = (R(1 − t)(n + 1) + ½)/(1 + R(1 − t))   to   hi(n) = (R(1 + t)(n − 1) − ½)/(1 + R(1 + t)).
//
// hi − lo grows evenly with n. Below 0 there is none, from 1 on always one: only the totals between are tried.
func (s Scale) smallest(r Ratio) (first, steady int, ok bool) {
	most, least := float64(r.value()*(1+s.Tolerance)), float64(r.value()*math.Max(1-s.Tolerance, 0))
	grows := most/(1+most) - least/(1+least)
	lost := (most+0.5)/(1+most) + (least+0.5)/(1+least) // hi − lo is grows·n − lost
	if end := (1 + lost) / grows; !(end < farthest) {
		return 0, 0, false
	}
	from, to := max(2, int(lost/grows)-1), int((1+lost)/grows)+2
	for n := from; n <= to; n++ {
		switch good := s.best(r, n).Within; {
		case !good:
			steady = n + 1
		case first == 0:
			first = n
		}
	}
	return first, max(steady, first), first > 0
}
