package riblog

import (
	"math"
	"slices"
)

// Spread is how numbers lie about their middle. SD is that of a sample, with n − 1; 0 of fewer than two.
type Spread struct {
	N                             int
	Mean, SD, Median, Least, Most float64
}

// SpreadOf returns the spread of numbers.
func SpreadOf(x []float64) Spread {
	if len(x) == 0 {
		return Spread{}
	}
	s := Spread{N: len(x), Median: median(x), Least: slices.Min(x), Most: slices.Max(x)}
	for _, v := range x {
		s.Mean += v / float64(len(x))
	}
	sum := 0.0
	for _, v := range x {
		sum += float64((v - s.Mean) * (v - s.Mean))
	}
	if len(x) > 1 {
		s.SD = math.Sqrt(sum / float64(len(x)-1))
	}
	return s
}

func median(x []float64) float64 {
	y := slices.Clone(x)
	slices.Sort(y)
	n := len(y)
	if n%2 == 1 {
		return y[n/2]
	}
	return float64(y[n/2-1]/2) + float64(y[n/2]/2)
}

const (
	// OddScore is the modified z-score above which a number is an outlier: Iglewicz and Hoaglin, How to Detect and
	// Handle Outliers (1993), as in NIST/SEMATECH, e-Handbook of Statistical Methods, 1.3.5.17.
	OddScore = 3.5
	// LeastOdd is the number of ribs below which none is called odd (common practice, no source).
	LeastOdd = 6
	// LeastOff is the least distance from the median, as a share of it, at which one is: ribs alike to the step of the
	// scale would else make a gram odd (common practice, no source).
	LeastOff = 0.01
)

// Scores returns the modified z-scores of numbers: 0.6745 (x − median)/MAD, where MAD is the median of the distances from
// the median. Where that is 0, since more than half of the numbers are equal, the mean of the distances stands in, 1.2533
// times (the same authors; from memory). Where all are equal, the scores are 0.
func Scores(x []float64) []float64 {
	out := make([]float64, len(x))
	if len(x) == 0 {
		return out
	}
	m, away, mean := median(x), make([]float64, len(x)), 0.0
	for i, v := range x {
		away[i] = math.Abs(v - m)
		mean += away[i] / float64(len(x))
	}
	unit := median(away) / 0.6745
	if unit == 0 {
		unit = 1.253314 * mean
	}
	for i, v := range x {
		if unit > 0 {
			out[i] = (v - m) / unit
		}
	}
	return out
}

// spreads works out the masses: which ribs stand out, all kinds together by mass over planned mass, and the spread of
// each kind.
func (s *Summary) spreads() {
	var ratios []float64
	var of []int
	for i, r := range s.Ribs {
		if r.MassG.OK && r.Kind >= 0 && s.Plan.Kinds[r.Kind].MassG > 0 {
			ratios, of = append(ratios, r.MassG.V/s.Plan.Kinds[r.Kind].MassG), append(of, i)
		}
	}
	for k, score := range Scores(ratios) {
		r, m := &s.Ribs[of[k]], median(ratios)
		r.Score, r.Odd = score, len(ratios) >= LeastOdd && math.Abs(score) > OddScore && math.Abs(ratios[k]-m) > float64(LeastOff*m)
	}
	for i := range s.Plan.Kinds {
		var all, plain []float64
		for _, r := range s.Ribs {
			if r.Kind != i || !r.MassG.OK {
				continue
			}
			all = append(all, r.MassG.V)
			if !r.Odd {
				plain = append(plain, r.MassG.V)
			}
		}
		s.All, s.Masses = append(s.All, SpreadOf(all)), append(s.Masses, SpreadOf(plain))
	}
}
