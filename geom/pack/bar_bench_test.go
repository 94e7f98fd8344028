package pack

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// ribSticks is the sticks of a set of ribs: each of some twenty, mitred at both ends, many times.
func ribSticks(kinds, ribs int) BarJob {
	r := rand.New(rand.NewPCG(uint64(kinds), uint64(ribs)))
	job := BarJob{Stock: []BarStock{{Length: 1220}}, Kerf: 1.6, Trim: 12.7, Offcut: 150}
	for i := range kinds {
		job.Pieces = append(job.Pieces, BarPiece{ID: fmt.Sprintf("S%d", i+1), Length: 40 + 160*r.Float64(), Count: ribs, Depth: 6.35,
			Ends: [2]float64{(r.Float64() - 0.5) * 100 * math.Pi / 180, (r.Float64() - 0.5) * 100 * math.Pi / 180}})
	}
	return job
}

func BenchmarkCutBars(b *testing.B) {
	for name, job := range map[string]BarJob{
		"cut60": cut60(b), "sticks17x26": ribSticks(17, 26), "sticks24x30": ribSticks(24, 30), "sticks14x40": ribSticks(14, 40), "sticks30x26": ribSticks(30, 26), "u500_00": readBins(b, "orlib_binpack3_u500.txt")[0].job, "triplets40": triplets(40, 1),
	} {
		b.Run(name, func(b *testing.B) {
			var p BarPlan
			for b.Loop() {
				p, _ = CutBars(job)
			}
			b.ReportMetric(float64(p.Bars), "bars")
			b.ReportMetric(p.Bound, "bound")
			b.ReportMetric(float64(len(p.Patterns)), "patterns")
			b.ReportMetric(float64(p.Steps), "steps")
		})
	}
}
