// Package batch plans in which batches the adhesive of a set is mixed: how many sides of ribs each does, what it
// weighs, and how soon it must be used up.
//
// Masses are grams, times minutes, temperatures °C. The figures that only the adhesive's maker knows are the rib file's; what
// it does not give, the plan is not held to. The plan lays no ribs out and draws nothing.
//
// Life, the time in which a batch must be used up, follows two rules of the trade (common practice, no source; the
// rib file may change both): an adhesive reacts twice as fast with each 10 °C more; and above the mass for which the
// maker gives the pot life, it falls with the square root of the mass, because a larger cup heats itself up. A smaller
// mass lives longer, but no figure tells by how much, so none is counted on.
package batch

import (
	"math"

	"ribwright/geom/mix"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/session"
	"ribwright/geom/takeoff"
)

// Side is one side of one rib.
type Side struct {
	Entry  int     // of the set
	Rib    int     // of its kind, from 1
	Face   int     // 0: the first side, with the stick ends; 1: the second
	MixedG float64 // adhesive, losses counted
}

// Batch is adhesive that is mixed at once, and the sides it does.
type Batch struct {
	Number int // from 1
	Sides  []Side
	NeedG  float64 // for the sides and a sample joint of each cup, losses counted
	MixG   float64 // mixed: more than the need where the builder mixes no cup so small
	// Cups is 1; more where one cup does not do one side. They hold the same, and are mixed one after the other.
	Cups    int
	LifeMin float64  // in which each cup must be used up; +Inf where no pot life is given
	WorkMin float64  // that the sides take
	Card    mix.Card // how each cup is weighed
}

// CupG is what each cup holds.
func (b Batch) CupG() float64 { return b.MixG / float64(b.Cups) }

// Plan is the batches in order of work.
type Plan struct {
	Batches []Batch
	Ratio   mix.Ratio // by weight
	Scale   mix.Scale
	// LeastG and MostG are the smallest and the largest cup; 0: any.
	LeastG, MostG float64
	CouponG       float64 // what a sample joint takes of each cup
}

// WithoutLife is how many sides are done from a batch where no pot life is given: three to four ribs' sides from one
// small cup (common practice, no source).
const WithoutLife = 4

// Of returns the plan for a set of ribs; takes are their quantities, one for each entry.
func Of(set rib.Set, takes []takeoff.TakeOff) Plan { return Lay(set.Shared(), Runs(set, takes)) }

// Runs returns the sides in order of work: the first sides of all ribs, in the jig, and then the second ones; where
// sessions are planned, those of each session. No batch does sides of two runs, as cure lies between them.
func Runs(set rib.Set, takes []takeoff.TakeOff) [][]Side {
	if p := session.Of(set); len(p.Sessions) > 0 {
		var out [][]Side
		for _, s := range p.Sessions {
			out = addRun(out, set, s.Sides, takes)
		}
		return out
	}
	var out [][]Side
	for face := range 2 {
		var run []session.Side
		for i, e := range set {
			for n := range e.Rib.Count {
				run = append(run, session.Side{Entry: i, Rib: n + 1, Face: face})
			}
		}
		out = addRun(out, set, run, takes)
	}
	return out
}

// addRun adds the sides of a run that take adhesive.
func addRun(runs [][]Side, set rib.Set, sides []session.Side, takes []takeoff.TakeOff) [][]Side {
	var run []Side
	for _, s := range sides {
		if g := takes[s.Entry].Side(set[s.Entry].Rib.Right(s.Rib), s.Face).MixedG; g > 0 {
			run = append(run, Side{Entry: s.Entry, Rib: s.Rib, Face: s.Face, MixedG: g})
		}
	}
	if len(run) == 0 {
		return runs
	}
	return append(runs, run)
}

// Lay parts runs of sides into batches: as few as the limits allow, and each run into batches as even as can be,
// larger ones first.
func Lay(doc *ribfile.Doc, runs [][]Side) Plan {
	s := doc.Scale
	p := Plan{Ratio: takeoff.Ratio(doc.Adhesive), Scale: mix.Scale{StepG: s.Step, Tolerance: s.RatioTolerance}, LeastG: s.CupLeast, MostG: s.CupMost,
		CouponG: takeoff.CouponOf(doc).Adhesive.MixedG}
	for _, run := range runs {
		for _, k := range p.part(doc, run) {
			b := p.batch(doc, run[:k])
			b.Number = len(p.Batches) + 1
			p.Batches, run = append(p.Batches, b), run[k:]
		}
	}
	return p
}

// part returns how many sides of the run each batch does: the fewest batches, and of those the plan whose squares of
// sides have the least sum. It is worked out from the run's end: after[i] is the best for the sides from i on.
func (p Plan) part(doc *ribfile.Doc, run []Side) []int {
	type rest struct{ batches, squares, first int }
	after := make([]rest, len(run)+1)
	for i := len(run) - 1; i >= 0; i-- {
		after[i].batches = math.MaxInt
		need := p.CouponG
		for k := 1; i+k <= len(run); k++ {
			need += run[i+k-1].MixedG
			if k > 1 && !p.fits(doc, run[i:i+k], need) {
				break
			}
			next := rest{after[i+k].batches + 1, after[i+k].squares + k*k, k}
			if best := after[i]; next.batches < best.batches || next.batches == best.batches && next.squares <= best.squares {
				after[i] = next
			}
		}
	}
	var out []int
	for i := 0; i < len(run); i += after[i].first {
		out = append(out, after[i].first)
	}
	return out
}

// hair forgives what rounding does to a limit that is just kept.
const hair = 1e-9

// fits reports whether one cup does sides that need so much. What does not fit does not fit with a side more,
// either.
func (p Plan) fits(doc *ribfile.Doc, sides []Side, needG float64) bool {
	b := doc.Batch
	switch {
	case p.MostG > 0 && needG > p.MostG*(1+hair):
		return false
	case b.PotLife == 0:
		return len(sides) <= WithoutLife
	}
	return workMin(doc, sides) <= Life(b, max(needG, p.LeastG))*(1+hair)
}

// workMin is how long sides take from one cup. The sticks of the first ribs lie in their jigs before it is mixed; those of
// further ribs are laid meanwhile.
func workMin(doc *ribfile.Doc, sides []Side) float64 {
	inJig := 0
	for _, s := range sides {
		if s.Face == 0 {
			inJig++
		}
	}
	return float64(float64(len(sides))*doc.Batch.Pace) + float64(float64(max(0, inJig-doc.Session.Jigs))*doc.Session.Lay)
}

// mostCups is where dividing a side into cups ends: more make no sense.
const mostCups = 20

// batch is the batch for some sides.
func (p Plan) batch(doc *ribfile.Doc, sides []Side) Batch {
	b := Batch{Sides: sides, Cups: 1, WorkMin: workMin(doc, sides)}
	sum := 0.0
	for _, s := range sides {
		sum += s.MixedG
	}
	b.NeedG = sum + p.CouponG
	for b.Cups < mostCups && len(sides) == 1 && !p.cupDoes(doc, b) {
		b.Cups++
		b.NeedG = sum + float64(float64(b.Cups)*p.CouponG)
	}
	b.MixG = max(b.NeedG, p.LeastG*float64(b.Cups))
	b.LifeMin = Life(doc.Batch, b.CupG())
	b.Card = p.Scale.Card(p.Ratio, b.CupG())
	return b
}

// cupDoes reports whether each cup of a batch does its share of a single side.
func (p Plan) cupDoes(doc *ribfile.Doc, b Batch) bool {
	n := float64(b.Cups)
	if p.MostG > 0 && b.NeedG > p.MostG*n*(1+hair) {
		return false
	}
	return doc.Batch.Pace/n <= Life(doc.Batch, max(b.NeedG/n, p.LeastG))*(1+hair)
}

// Life returns the time in which so much adhesive must be used up in the shop: the maker's pot life, halved for each
// RateDoubles that the shop is warmer, and shortened by the mass. It is +Inf where no pot life is given.
func Life(b ribfile.Batch, massG float64) float64 {
	if b.PotLife == 0 {
		return math.Inf(1)
	}
	return inShop(b, b.PotLife) * math.Min(1, math.Pow(b.PotLifeMassG/massG, b.MassPower))
}

// inShop is a time that the maker gives at the reference temperature, at that of the shop.
func inShop(b ribfile.Batch, minutes float64) float64 {
	return minutes * math.Exp2((b.PotLifeAt-b.Temperature)/b.RateDoubles)
}

// Names lists the ribs of a batch for people, see session.Names.
func (b Batch) Names(set rib.Set) string {
	var sides []session.Side
	for _, s := range b.Sides {
		sides = append(sides, session.Side{Entry: s.Entry, Rib: s.Rib, Face: s.Face})
	}
	return session.Names(set, sides)
}

// Mixed reports whether a batch does first sides and second ones.
func (b Batch) Mixed() bool {
	for _, s := range b.Sides {
		if s.Face != b.Sides[0].Face {
			return true
		}
	}
	return false
}
