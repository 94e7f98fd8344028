package cut_test

import (
	"fmt"
	"math"
	"math/bits"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"

	"ribwright/geom/cut"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// room is what a piece takes of a bar with a saw cut: at most, and at least, where both its slopes lie in others'.
func room(b cut.Bars, j cut.BarJob, p cut.BarPiece) (most, least float64) {
	most = p.Length + b.Stock.Kerf
	least = most
	for _, k := range p.Cuts {
		if len(k) == 1 {
			least -= j.Depth * math.Tan(math.Abs(k[0])) / 2
		}
	}
	return most, least
}

// farley is a bound on the number of bars: column generation with gonum's simplex method on the dual, patterns by
// dynamic programming in tenths of a millimetre, pieces taken at their least; each dual is scaled to be feasible (A. Farley, Operations
// Research 38 (1990) 922).
func farley(t *testing.T, b cut.Bars, j cut.BarJob) float64 {
	t.Helper()
	have := int(math.Ceil((j.Kinds[0].Length - 2*b.Stock.Trim + b.Stock.Kerf) * 10))
	n := len(j.Pieces)
	need, take := make([]float64, n), make([]int, n)
	var patterns [][]float64
	for i, p := range j.Pieces {
		_, least := room(b, j, p)
		need[i], take[i] = float64(p.Count), int(math.Floor(least*10))
		one := make([]float64, n)
		one[i] = float64(have / take[i])
		patterns = append(patterns, one)
	}
	best := 0.0
	for range 400 {
		a := mat.NewDense(len(patterns), n+len(patterns), nil)
		c, rhs := make([]float64, n+len(patterns)), make([]float64, len(patterns))
		for k, p := range patterns {
			for i, v := range p {
				a.Set(k, i, v)
			}
			a.Set(k, n+k, 1)
			rhs[k] = 1
		}
		var basis []int
		for i := range n {
			c[i] = -need[i]
		}
		for k := range patterns {
			basis = append(basis, n+k)
		}
		_, y, err := lp.Simplex(c, a, rhs, 1e-9, basis)
		if err != nil {
			t.Logf("gonum: %v; the bound so far is %g", err, best)
			return best
		}
		value, from := make([]float64, have+1), make([]int, have+1) // the dearest pattern
		for l := 1; l <= have; l++ {
			value[l], from[l] = value[l-1], -1
			for i := range n {
				if l >= take[i] && value[l-take[i]]+y[i] > value[l]+1e-12 {
					value[l], from[l] = value[l-take[i]]+y[i], i
				}
			}
		}
		sum := 0.0
		for i := range n {
			sum += need[i] * y[i]
		}
		best = math.Max(best, sum/math.Max(1, value[have]))
		if value[have] < 1+1e-7 {
			return best
		}
		fresh := make([]float64, n)
		for l := have; l > 0; {
			if from[l] < 0 {
				l--
				continue
			}
			fresh[from[l]]++
			l -= take[from[l]]
		}
		patterns = append(patterns, fresh)
	}
	return best
}

// TestBarsBound holds the number of bars, and the bound that is printed with it, against gonum's linear program.
func TestBarsBound(t *testing.T) {
	for _, c := range []struct{ name, bars string }{
		{wren, stocks[0]}, {wren, stocks[1]}, {bunting, stocks[0]}, {bunting, stocks[1]}, {starter, stocks[0]}, {starter, stocks[1]},
	} {
		_, doc, b := planned(t, c.name, c.bars)
		for _, j := range b.Jobs {
			bound := farley(t, b, j)
			t.Logf("%s, %s of %s: %d bars, bound %g, gonum's %.3f", c.name, j.Kinds[0].Name, j.Wood(doc), j.Plan.Bars, j.Plan.Bound, bound)
			if least := int(math.Ceil(bound - 1e-6)); j.Plan.Bars != least || j.Plan.Bound != float64(least) {
				t.Errorf("%s, %s: %d bars, bound %g; gonum's linear program says %d", c.name, j.Wood(doc), j.Plan.Bars, j.Plan.Bound, least)
			}
		}
	}
}

// fewest is the least number of bars for pieces of the lengths given, found by trying every parting of them.
func fewest(lengths []float64, have float64) int {
	n := len(lengths)
	best := make([]int, 1<<n)
	sums := make([]float64, 1<<n)
	for mask := 1; mask < 1<<n; mask++ {
		low := bits.TrailingZeros(uint(mask))
		sums[mask] = sums[mask&(mask-1)] + lengths[low]
		best[mask] = math.MaxInt32
		for sub := mask; sub > 0; sub = (sub - 1) & mask {
			if sub>>low&1 == 1 && sums[sub] <= have+1e-6 {
				best[mask] = min(best[mask], best[mask&^sub]+1)
			}
		}
	}
	return best[1<<n-1]
}

// TestBarsSmall holds small ribs against trying everything: no plan needs more bars than without shared cuts, nor fewer
// than if every slope were shared, and mostly the two are the same.
func TestBarsSmall(t *testing.T) {
	told := 0
	for _, bar := range []float64{260, 290, 330, 380, 420, 460, 520, 640, 800, 1300, 1500} {
		for _, panels := range []int{2, 3, 4} {
			doc, _ := ribfile.Read("", fmt.Appendf(nil, `
units = "mm"
section = { naca = "2412" }
rib = { chord = 700 }
cap = { depth = 5, width = 10 }
nose = { block_to = "5%%" }
spar = [{ name = "front", at = "16%%", width = 14 }, { name = "rear", at = "62%%", width = 10 }]
bay = [{ from = "front", to = "rear", pattern = "warren", panels = %d }]
stock = { kerf = 1.5, trim = 5, bar = [{ length = %g }] }
`, panels, bar))
			sec, _ := rib.Section(doc, nil)
			r, _ := rib.Build(doc, sec)
			b := cut.NewBars(rib.One(r, doc)).Planned()
			j := b.Jobs[0]
			var most, least []float64
			for _, p := range j.Pieces {
				m, l := room(b, j, p)
				for range p.Count {
					most, least = append(most, m), append(least, l)
				}
			}
			if len(most) > 14 {
				continue
			}
			have := bar - 2*b.Stock.Trim + b.Stock.Kerf
			lo, hi := fewest(least, have), fewest(most, have)
			if lo == hi {
				told++
			}
			if j.Plan.Bars < lo || j.Plan.Bars > hi || !j.Plan.Least {
				t.Errorf("%d panels, bars of %g mm: %d bars (proved: %v), want %d to %d", panels, bar, j.Plan.Bars, j.Plan.Least, lo, hi)
			}
		}
	}
	if told < 20 {
		t.Errorf("only %d cases had one answer: the test tells too little", told)
	}
}
