package mix

import (
	"math"
	"math/rand/v2"
	"testing"
)

var ratios = []Ratio{{1, 1}, {2, 1}, {1, 2}, {100, 43}, {100, 80}, {5, 1}, {1, 10}, {3, 2}, ByVolume(1, 1, 1.15, 1.0), ByVolume(2, 1, 1.16, 0.97)}

// corners returns the least and the greatest ratio error of two readings, by trying every corner of what their
// rounding hides: the load at the first reading, and the load at the second, each half a step up or down.
func corners(r Ratio, x, y float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, e1 := range []float64{-0.5, 0, 0.5} {
		for _, e2 := range []float64{-0.5, 0, 0.5} {
			a, both := x+e1, y+e2
			e := math.Inf(1)
			if both > a {
				e = a/(both-a)/(r.A/r.B) - 1
			}
			low, high = math.Min(low, e), math.Max(high, e)
		}
	}
	return low, high
}

// Every total up to 400 steps, every pair of readings for it, every corner of their rounding: the card is the best
// pair, its span is that of the corners, and Smallest is the first total that has a pair within the tolerance.
func TestSmallestByTryingEveryRounding(t *testing.T) {
	const most = 400
	for _, r := range ratios {
		var worst [most + 1]float64 // of the best pair of each total
		for n := 2; n <= most; n++ {
			worst[n] = math.Inf(1)
			for m := 1; m < n; m++ {
				low, high := corners(r, float64(m), float64(n))
				worst[n] = math.Min(worst[n], math.Max(math.Abs(low), math.Abs(high)))
			}
		}
		for _, tolerance := range []float64{0.2, 0.1, 0.05, 0.03, 0.02} {
			s := Scale{StepG: 1, Tolerance: tolerance}
			first, steady := 0, 2
			for n := 2; n <= most; n++ {
				within := worst[n] <= tolerance*(1+1e-9)
				if within && first == 0 {
					first = n
				}
				if !within {
					steady = n + 1
				}
				c := s.best(r, n)
				if low, high := corners(r, c.AG, c.TotalG); math.Abs(c.Error.Low-low) > 1e-12 || math.Abs(c.Error.High-high) > 1e-12 && !math.IsInf(high, 1) {
					t.Fatalf("%v, %g of %g: span %v, corners %v to %v", r, c.AG, c.TotalG, c.Error, low, high)
				}
				if c.Within != within || c.Error.Worst() > worst[n]+1e-12 {
					t.Fatalf("%v, %d steps, tolerance %g: %+v, but the best pair has %v", r, n, tolerance, c, worst[n])
				}
			}
			least, from, ok := s.Smallest(r)
			if !ok || first > 0 && least != float64(first) || first == 0 && least <= most {
				t.Errorf("%v, tolerance %g: smallest %g, %v; want %d", r, tolerance, least, ok, first)
			}
			if from <= most && from != float64(steady) {
				t.Errorf("%v, tolerance %g: steady from %g on, want %d", r, tolerance, from, steady)
			}
		}
	}
}

// A card is whole steps, not below the target, and the least total that is; within the tolerance from the smallest
// batch on.
func TestCardOfAnyTarget(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 5))
	for range 1200 {
		s := Scale{StepG: []float64{0.01, 0.1, 0.283495, 1}[rnd.IntN(4)], Tolerance: 0.01 + 0.04*rnd.Float64()}
		r := ratios[rnd.IntN(len(ratios))]
		target := s.StepG * (0.2 + 900*rnd.Float64())
		c := s.Card(r, target)
		if !s.IsReading(c.AG) || !s.IsReading(c.TotalG) || c.AG < s.StepG/2 || c.BG < s.StepG/2 || math.Abs(c.AG+c.BG-c.TotalG) > 1e-9 || c.TotalG < target*(1-1e-8) {
			t.Fatalf("%+v %v %g: %+v", s, r, target, c)
		}
		least, steady, ok := s.Smallest(r)
		if ok && target >= least && !c.Within {
			t.Fatalf("%+v %v %g: %+v is off too far, smallest %g", s, r, target, c, least)
		}
		if (!ok || target >= steady || target < least-s.StepG) && c.TotalG > math.Max(target+2*s.StepG, 3*s.StepG)*(1+1e-9) {
			t.Fatalf("%+v %v %g: %+v is more than two steps above", s, r, target, c)
		}
		for n := math.Ceil(target/s.StepG - 1e-9*target/s.StepG); ok && target >= least && n < math.Round(c.TotalG/s.StepG); n++ {
			if s.best(r, int(n)).Within {
				t.Fatalf("%+v %v %g: %+v, but %g steps would do", s, r, target, c, n)
			}
		}
	}
}

// short says whether a part is short by more than half a step.
func short(r Ratio, a, b float64) bool {
	const dust = 1e-6
	return float64(b*r.A/r.B)-a > 0.5+dust || a*r.B/r.A-b > 0.5+dust
}

// For any pour the correction brings neither part short by more than half a step, takes nothing out, and no smaller
// addition does: every one of both parts is tried.
func TestCorrectionIsRightAndSmallest(t *testing.T) {
	rnd := rand.New(rand.NewPCG(17, 4))
	for i := range 6000 {
		s := Scale{StepG: []float64{0.01, 0.1, 0.283495, 1}[rnd.IntN(4)], Tolerance: 0.02}
		r := ratios[rnd.IntN(len(ratios))]
		if i%2 == 0 {
			r = Ratio{math.Exp(3 * (rnd.Float64() - 0.5)), 1}
		}
		a, b := float64(rnd.IntN(60)), float64(1+rnd.IntN(60))
		if i%7 == 0 {
			a, b = 1+a, 0
		}
		c := s.Correct(r, a*s.StepG, b*s.StepG)
		endA, endB := math.Round(c.AG/s.StepG), math.Round(c.BG/s.StepG)
		added, reads := 0.0, a+b
		for _, add := range c.Add {
			n := math.Round(add.AddG / s.StepG)
			if n < 1 || !s.IsReading(add.AddG) {
				t.Fatalf("%v %g:%g: %+v takes out, or adds no whole step", r, a, b, c)
			}
			added, reads = added+n, reads+n
			if math.Round(add.ReadG/s.StepG) != reads {
				t.Fatalf("%v %g:%g: %+v reads wrong", r, a, b, c)
			}
		}
		if endA < a || endB < b || endA+endB != reads || short(r, endA, endB) {
			t.Fatalf("%v %g:%g: %+v does not bring the ratio to its target", r, a, b, c)
		}
		for j := 0.0; j < added; j++ {
			for k := 0.0; j+k < added; k++ {
				if !short(r, a+j, b+k) {
					t.Fatalf("%v %g:%g: %+v, but %g and %g would do", r, a, b, c, j, k)
				}
			}
		}
	}
}

// The span after a correction is that of every corner of all the readings taken.
func TestCorrectionByEveryRounding(t *testing.T) {
	half := []float64{-0.5, 0.5}
	rnd := rand.New(rand.NewPCG(9, 9))
	seen := map[string]bool{}
	for range 3000 {
		r := ratios[rnd.IntN(len(ratios))]
		b := float64(5 + rnd.IntN(60))
		a := math.Max(2, math.Round(b*r.A/r.B*(0.6+0.8*rnd.Float64())))
		c := Scale{StepG: 1, Tolerance: 0.02}.Correct(r, a, b)
		low, high := math.Inf(1), math.Inf(-1)
		for k := range 1 << (2 + len(c.Add)) {
			reading := func(i int) float64 { return half[k>>i&1] }
			inA := a + reading(0)
			inB := b + reading(1) - reading(0)
			parts := ""
			for i, add := range c.Add {
				n := add.AddG + reading(2+i) - reading(1+i)
				if add.Part == "A" {
					inA += n
				} else {
					inB += n
				}
				parts += add.Part
			}
			seen[parts] = true
			e := inA/inB/(r.A/r.B) - 1
			low, high = math.Min(low, e), math.Max(high, e)
		}
		if math.Abs(low-c.Error.Low) > 1e-9 || math.Abs(high-c.Error.High) > 1e-9 {
			t.Fatalf("%v %g:%g: %+v; the corners give %v to %v", r, a, b, c, low, high)
		}
	}
	for _, parts := range []string{"", "A", "B", "AB", "BA"} {
		if !seen[parts] {
			t.Errorf("no pour that is mended by %q was tried", parts)
		}
	}
}

// Equal parts are common (common practice, no source), and so is a scale that shows hundredths of an ounce. Equal
// parts within two per cent take 76 steps of each: 76.5/75 is just 1.02.
func TestEqualParts(t *testing.T) {
	s := Scale{StepG: 0.01, Tolerance: 0.02}
	least, steady, ok := s.Smallest(Ratio{1, 1})
	if !ok || math.Abs(least-1.52) > 1e-9 || steady < least {
		t.Errorf("smallest %g, steady %g, %v; want 1.52", least, steady, ok)
	}
	c := s.Card(Ratio{1, 1}, 0.9)
	if math.Abs(c.AG-0.45) > 1e-9 || math.Abs(c.TotalG-0.90) > 1e-9 || c.Within || math.Abs(c.Error.High-(45.5/44-1)) > 1e-12 {
		t.Errorf("0.9: %+v", c)
	}
	if c := s.Card(Ratio{1, 1}, 0.33); math.Abs(c.AG-0.17) > 1e-9 || math.Abs(c.TotalG-0.34) > 1e-9 {
		t.Errorf("0.33 has no equal parts, and 0.34 has: %+v", c)
	}
	fix := s.Correct(Ratio{1, 1}, 0.48, 0.55)
	if len(fix.Add) != 1 || fix.Add[0].Part != "A" || math.Abs(fix.Add[0].AddG-0.07) > 1e-9 || math.Abs(fix.Add[0].ReadG-1.10) > 1e-9 {
		t.Errorf("0.48 and 0.55: %+v", fix)
	}
}

// One to one by volume, with densities of 1.15 and 1.00 g/cm³, is 115 to 100 by weight: 25 cm³ of each weigh
// 28.75 g and 25 g.
func TestByVolume(t *testing.T) {
	r := ByVolume(1, 1, 1.15, 1.00)
	if a, b := r.Split(53.75); math.Abs(a-28.75) > 1e-9 || math.Abs(b-25) > 1e-9 {
		t.Errorf("got %g and %g, want 28.75 and 25", a, b)
	}
}

// A scale that cannot do it says so, and takes no time over it.
func TestHopelessScale(t *testing.T) {
	s := Scale{StepG: 1, Tolerance: 1e-9}
	if _, _, ok := s.Smallest(Ratio{1, 1000}); ok {
		t.Error("a batch within a thousandth of a millionth")
	}
	if c := s.Card(Ratio{1000, 1e-9}, 10); c.Within || c.TotalG > 11 {
		t.Errorf("%+v", c)
	}
}
