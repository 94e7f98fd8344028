package airfoils

import (
	"math"
	"sort"
)

// Side names a side of the section.
type Side int

// The sides.
const (
	UpperSide Side = iota
	LowerSide
)

// String returns "upper" or "lower".
func (s Side) String() string {
	if s == LowerSide {
		return "lower"
	}
	return "upper"
}

// Cause is what may have happened to an ordinate.
type Cause int

// The causes. NoCause: nothing simple explains the ordinate.
const (
	NoCause Cause = iota
	DigitSwap
	DecimalPoint
	WrongSign
	NeighbourFraction
	LostPoint
	TwoNoses
)

var causes = [...]string{
	"",
	"two digits seem to have changed places",
	"the decimal point seems to be lost or misplaced",
	"the sign seems to be wrong",
	"the neighbouring fraction seems to have been read",
	"a point seems to be lost here",
	"the leading edge has two ordinates, and the other one lies on the curve",
}

// String says the cause in words; it is empty for NoCause.
func (c Cause) String() string { return causes[c] }

// Suspect is an ordinate that does not lie on the curve of its neighbours, or a point that is missing.
// Lengths are shares of the chord.
type Suspect struct {
	Side     Side
	Index    int     // in Upper or Lower; of a lost point, the point that follows the gap
	Station  float64 // of a lost point, where it should stand
	Found    float64 // the table's ordinate; of a lost point 0
	Likely   float64 // what it ought to be: the cause's value where there is a cause, else the neighbours'
	Residual float64 // Found less the ordinate of the neighbours' curve; of a lost point 0
	Score    float64 // Residual over its standard deviation
	Cause    Cause
}

// What a suspect must reach, in percent of the chord and in standard deviations. The limits were set once
// for all tables: printed sections stand up to 0.13 % off their neighbours' curve beside the nose, and up
// to 0.25 %, but less than five deviations, at the tail, where the curve is known from one side only.
const (
	unlikely   = 5.0  // standard deviations
	enough     = 32   // points; with fewer of them their spread is known less well, and the limit rises
	visible    = 0.13 // percent
	certain    = 20.0 // standard deviations that make a smaller step suspect, too
	discerned  = 0.05 // percent
	mostJudged = 1000 // points: larger tables come from a computer, not from plans
	mostErrors = 5    // in one table: with more of them no curve is known
)

// Suspects returns the points of a table that do not lie on the curve of their neighbours, and those that
// are missing from the customary row of stations, the gravest first. Sections from equations have none,
// and tables of more than a thousand points are not judged.
//
// Each point is left out in turn, and compared with the spline through the others; the difference is
// judged by what is usual in this table (see fit). The gravest point is struck out before the next is
// looked for, since an error pulls its neighbours' curves along. Where points beside the nose are suspect, the curve
// is tried once more with noses that hang over their leading edge, and the fairest counts.
func (s Section) Suspects() []Suspect {
	if s.eq.t > 0 || len(s.Upper) < fewest || len(s.Lower) < fewest {
		return nil
	}
	unit := s.figures()
	c, noses := s.chain(0)
	if len(c) > mostJudged {
		return nil
	}
	out, c := unit.suspects(c)
	if n := nosed(out); n > 0 {
		for _, hang := range hangs {
			own, _ := s.chain(hang)
			if again, rest := unit.suspects(own); nosed(again) < n {
				out, c, n = again, rest, nosed(again)
			}
			if n == 0 {
				break
			}
		}
	}
	out = append(out, c.twoNoses(noses, unit.step)...)
	out = append(out, s.lost(c, unit.step)...)
	sort.SliceStable(out, func(i, j int) bool { return math.Abs(out[i].Score) > math.Abs(out[j].Score) })
	return out
}

// hangs are how far a nose may hang over its leading edge, share of the chord, the usual ones first; hangsTo is the
// station up to which that makes good ordinates look unfair.
var hangs = [...]float64{0.001, 0.002, 0.004, 0.008, 0.0005, -0.001, -0.002, -0.004}

const hangsTo = 0.03

// nosed counts the suspects that a hanging nose may explain.
func nosed(all []Suspect) int {
	n := 0
	for _, p := range all {
		if p.Station < hangsTo {
			n++
		}
	}
	return n
}

// suspects returns the points of a chain that stand off the curve of the others, and the chain without them.
func (f figures) suspects(c chain) (out []Suspect, rest chain) {
	for len(out) < mostErrors && len(c) >= 2*fewest {
		k, rest, r := c.gravest(f.step, func(k knot) bool { return !k.nose })
		if !suspicious(r, len(rest)) || ends(c, k) && math.Abs(r.off) < 2*visible {
			break
		}
		out = append(out, f.explain(Suspect{Side: k.side, Index: k.index, Station: k.x, Found: k.y / 100,
			Residual: r.off / 100, Score: r.z}, r.sd))
		c = rest
	}
	return out, c
}

// gravest returns the point, of those that may be judged, that stands furthest off the curve of the others,
// the chain without it, and its distance, judged by what is usual among the others.
func (c chain) gravest(step float64, may func(knot) bool) (knot, chain, residual) {
	worst := -1
	res := c.judge(c.spread(step), step)
	for i, r := range res {
		if may(c[i]) && (worst < 0 || math.Abs(r.z) > math.Abs(res[worst].z)) {
			worst = i
		}
	}
	if worst < 0 {
		return knot{}, c, residual{}
	}
	rest := append(c[:worst:worst], c[worst+1:]...)
	return c[worst], rest, c.judge(rest.spread(step), step)[worst]
}

// ends reports whether a point stands at a tail, where the curve is known from one side only.
func ends(c chain, k knot) bool { return k == c[0] || k == c[len(c)-1] }

// suspicious says whether a point stands too far off the curve of n others.
func suspicious(r residual, n int) bool {
	z, off := math.Abs(r.z), math.Abs(r.off)
	return z > unlikely*max(1, enough/float64(n)) && off > visible || z > certain && off > discerned
}

// twoNoses judges a leading edge with two ordinates: a blunt nose, whose ordinates stand on either side
// of the curve, or a nose of which one ordinate is wrong.
func (c chain) twoNoses(noses []knot, step float64) []Suspect {
	if len(noses) != 2 || len(c) < 2*fewest {
		return nil
	}
	want, _ := c.predict(0, step)
	good, bad := noses[0], noses[1]
	if noses[0].y == -noses[1].y { // cut alike on either side of the chord line
		return nil
	}
	zero := func(k knot) bool { return k.y == 0 }
	if math.Abs(bad.y-want) < math.Abs(good.y-want) {
		good, bad = bad, good
	}
	if zero(noses[0]) != zero(noses[1]) { // the section stands on its chord line: its leading edge is the origin
		good, bad = noses[0], noses[1]
		if zero(bad) {
			good, bad = bad, good
		}
	} else if math.Abs(bad.y-want) < 2*math.Abs(good.y-want) {
		return nil
	}
	off := bad.y - good.y
	if math.Abs(off) < visible {
		return nil
	}
	return []Suspect{{Side: bad.side, Index: bad.index, Station: bad.x, Found: bad.y / 100, Likely: good.y / 100,
		Residual: off / 100, Score: math.Copysign(unlikely, off), Cause: TwoNoses}}
}
