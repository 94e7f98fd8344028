package mix

import "math"

// Correction is what to add to a cup into which something else was poured than the card says. Nothing is ever taken
// out: what is mixed cannot be parted.
type Correction struct {
	Before  float64    // how far the ratio is off as it was poured; infinite where there is no B
	Stay    bool       // it is within the tolerance as it was poured, whatever the step of the scale hides
	Add     []Addition // in this order; empty: neither part is short by more than half a step
	AG, BG  float64    // in the cup afterwards
	TotalG  float64
	Nominal float64 // the ratio error then, if every reading were true
	Error   Span    // the ratio error that the step can cause, with it
	Within  bool    // the whole of it is within the tolerance
}

// Addition is one part to add.
type Addition struct {
	Part  string // "A" or "B"
	AddG  float64
	ReadG float64 // what the scale reads then, if it was tared with the empty cup and not since
}

// IsReading reports whether a mass is one that the scale shows: a multiple of its step.
func (s Scale) IsReading(g float64) bool {
	n := g / s.StepG
	return math.Abs(n-math.Round(n)) < 1e-6*math.Max(1, n)
}

// Correct returns the smallest addition after which neither part is short by more than half a step of the scale,
// against what the other one asks for. Masses are readings, one of them more than 0.
//
// A part that is short needs so much at least, whatever is added of the other. Of the smaller part a whole step may be
// more than enough by so much that the larger one becomes short; then that is topped up as well, which never makes
// the first one short again. So no smaller addition does, of one part or of both; the tests try all of them.
func (s Scale) Correct(r Ratio, aG, bG float64) Correction {
	a, b := math.Round(aG/s.StepG), math.Round(bG/s.StepG)
	c := Correction{Before: math.Inf(1), Stay: s.within(r.span(a, b, errFirst, errSecond))}
	if b > 0 {
		c.Before = a/b/r.value() - 1
	}
	errA, errB := errFirst, float64(errSecond)
	addA := func() {
		if k := missing(float64(b*r.value()), a); k > 0 {
			a += k
			c.Add = append(c.Add, Addition{"A", k * s.StepG, (a + b) * s.StepG})
			errA = 1.5 // of its first reading, and of the two that it is added between
		}
	}
	addB := func() {
		if k := missing(a/r.value(), b); k > 0 {
			b += k
			c.Add = append(c.Add, Addition{"B", k * s.StepG, (a + b) * s.StepG})
			if len(c.Add) > 1 {
				errB = 2 // poured twice, with A between
			}
		}
	}
	if float64(b*r.value()) > a {
		addA()
		addB()
	} else {
		addB()
		addA()
	}
	c.AG, c.BG, c.TotalG = a*s.StepG, b*s.StepG, (a+b)*s.StepG
	c.Nominal, c.Error = a/b/r.value()-1, r.span(a, b, errA, errB)
	c.Within = s.within(c.Error)
	return c
}

// missing returns the fewest whole steps to add to what there is, so that at most half a step is wanting.
func missing(wanted, there float64) float64 {
	return math.Max(0, math.Ceil(wanted-there-0.5-float64(slack*wanted)))
}
