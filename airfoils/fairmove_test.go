package airfoils

import (
	"math"
	"math/rand"
	"testing"
)

// rootMean is the root of the mean square of the differences of two sections' ordinates.
func rootMean(a, b Section) float64 {
	sum, n := 0.0, 0.0
	for i := range a.Upper {
		sum, n = sum+math.Pow(a.Upper[i].Y-b.Upper[i].Y, 2), n+1
	}
	for i := range a.Lower {
		sum, n = sum+math.Pow(a.Lower[i].Y-b.Lower[i].Y, 2), n+1
	}
	return math.Sqrt(sum / n)
}

// cosineTable is an equation's section as a table of cosine-spaced points, without noise.
func cosineTable(t *testing.T, code string, points int) Section {
	t.Helper()
	s, found := NACA(code)
	if len(found) > 0 {
		t.Fatal(found)
	}
	var rows [][3]float64
	for i := range points {
		x := (1 - math.Cos(math.Pi*float64(i)/float64(points-1))) / 2
		u, l, ok := s.At(x)
		if !ok {
			t.Fatalf("NACA %s has no ordinates at %v", code, x)
		}
		rows = append(rows, [3]float64{100 * x, 100 * u, 100 * l})
	}
	out, found := Ordinates(rows)
	if len(found) > 0 {
		t.Fatal(found)
	}
	return out
}

// noisy shifts every ordinate but the ends' by a normal error.
func noisy(s Section, sd float64) Section {
	rng := rand.New(rand.NewSource(4))
	out := s
	out.Upper, out.Lower = append(out.Upper[:0:0], s.Upper...), append(out.Lower[:0:0], s.Lower...)
	for i := 1; i < len(s.Upper)-1; i++ {
		out.Upper[i].Y += sd * rng.NormFloat64()
		out.Lower[i].Y += sd * rng.NormFloat64()
	}
	return out
}

func TestFairTakesNoiseAway(t *testing.T) {
	const chord, noise, limit = 1500.0, 0.2, 25.4 / 32
	for _, c := range []struct {
		code   string
		points int
	}{{"2412", 30}, {"4412", 30}, {"23012", 40}, {"0012", 60}} {
		exact := cosineTable(t, c.code, c.points)
		rough := noisy(exact, noise/chord)
		fair, moves := rough.Fair(limit / chord)
		before, after := rootMean(rough, exact)*chord, rootMean(fair, exact)*chord
		t.Logf("NACA %s, %d points: %.3f mm before, %.3f mm after, %d moves", c.code, c.points, before, after, len(moves))
		if !(after < 0.75*before) {
			t.Errorf("NACA %s: got %v mm of noise, want less than three quarters of %v mm", c.code, after, before)
		}
		if again, _ := rough.Fair(limit / chord); rootMean(again, fair) != 0 {
			t.Errorf("NACA %s: fairing twice gives two curves", c.code)
		}
	}
}

func TestFairHoldsItsLimit(t *testing.T) {
	exact := cosineTable(t, "4412", 30)
	for _, limit := range []float64{1e-5, 1e-4, 3e-4} {
		rough := noisy(exact, 3e-4)
		before := append(rough.Upper[:0:0], rough.Upper...)
		fair, moves := rough.Fair(limit)
		at := 0
		for _, m := range moves {
			d := math.Abs(m.To - m.From)
			if d > limit+1e-17 {
				t.Errorf("limit %v: station %v moves by %v", limit, m.Station, d)
			}
			if d > limit*(1-1e-9) {
				at++
			}
			side := fair.Upper
			if m.Side == LowerSide {
				side = fair.Lower
			}
			if side[m.Index].Y != m.To || side[m.Index].X != m.Station {
				t.Errorf("limit %v: the move %+v is not the section's %v", limit, m, side[m.Index])
			}
		}
		if at == 0 {
			t.Errorf("limit %v: no move reaches it, of noise as large", limit)
		}
		for i, p := range rough.Upper {
			if p != before[i] {
				t.Fatal("Fair changed the section it was handed")
			}
		}
		for i, p := range fair.Upper {
			q := rough.Upper[i]
			if i == 0 || i == len(fair.Upper)-1 {
				if p != q {
					t.Errorf("limit %v: an end moved from %v to %v", limit, q, p)
				}
			}
		}
	}
}

// A table that is fair to its last figure stays within its rounding, and a little.
func TestFairLeavesFairTables(t *testing.T) {
	largest := func(s Section) (most, where float64) {
		_, moves := s.Fair(0.01)
		for _, m := range moves {
			if d := math.Abs(m.To - m.From); d > most {
				most, where = d, m.Station
			}
		}
		return most, where
	}
	for _, p := range printedTables(t) {
		s, _ := Read("t.txt", p.text())
		most, where := largest(s)
		if step := s.figures().step; 100*most > max(2*step, 0.04) {
			t.Errorf("%s: got a move of %.4f %% at station %v, want less than twice the table's step of %v", p.name, 100*most, where, step)
		}
	}
	for _, code := range []string{"0012", "2412", "4412", "23012"} {
		s := cosineTable(t, code, 30)
		for i := range s.Upper {
			s.Upper[i].Y, s.Lower[i].Y = math.Round(s.Upper[i].Y*1e4)/1e4, math.Round(s.Lower[i].Y*1e4)/1e4
		}
		most, where := largest(s)
		if most > 1e-4 {
			t.Errorf("NACA %s rounded to 0.01 %%: got a move of %.4f %% at station %v, want less than the rounding", code, 100*most, where)
		}
	}
}
