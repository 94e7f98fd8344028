package batch

import (
	"math"

	"ribwright/geom/rib"
)

// Report is a batch as report.json holds it: masses g, times minutes, six decimals.
type Report struct {
	Number      int      `json:"number"`
	Side        int      `json:"side"` // 1 or 2; 0: sides of both
	Sides       int      `json:"sides"`
	Ribs        string   `json:"ribs"`
	NeedG       float64  `json:"need_g"`
	MixG        float64  `json:"mix_g"`
	Cups        int      `json:"cups"`
	ReadA       float64  `json:"reading_a_g"`     // of the scale, when part A is in the cup,
	ReadAll     float64  `json:"reading_total_g"` // and when part B is in it too
	RatioOff    *float64 `json:"ratio_off"`       // the share by which the scale may put the ratio off; null where any
	UseWithin   *float64 `json:"use_within_min"`  // null where no pot life is given
	WorkMinutes float64  `json:"work_min"`
}

// Report returns the plan for report.json.
func (p Plan) Report(set rib.Set) []Report {
	out := []Report{}
	for _, b := range p.Batches {
		r := Report{Number: b.Number, Side: b.Sides[0].Face + 1, Sides: len(b.Sides), Ribs: b.Names(set), NeedG: round(b.NeedG), MixG: round(b.MixG),
			Cups: b.Cups, ReadA: round(b.Card.AG), ReadAll: round(b.Card.TotalG), RatioOff: finite(b.Card.Error.Worst()),
			UseWithin: finite(b.LifeMin), WorkMinutes: round(b.WorkMin)}
		if b.Mixed() {
			r.Side = 0
		}
		out = append(out, r)
	}
	return out
}

func finite(v float64) *float64 {
	if math.IsInf(v, 0) {
		return nil
	}
	v = round(v)
	return &v
}

// round keeps six decimals, and makes no −0.
func round(v float64) float64 { return math.Round(v*1e6)/1e6 + 0 }
