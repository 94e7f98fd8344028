package pack

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// small makes a job of a few pieces: kerfs, trims, slopes, several lengths, prices and numbers as they come.
func small(seed uint64) BarJob {
	r := rand.New(rand.NewPCG(seed, 7))
	job := BarJob{Kerf: []float64{0, 2, 3.2}[r.IntN(3)], Trim: []float64{0, 0, 5}[r.IntN(3)], Offcut: 50, Effort: 20_000_000}
	angles := []float64{0, 0, 0.3, -0.3, 0.8, -0.8, 1.2}
	sloped, priced := r.IntN(2) == 0, r.IntN(2) == 0
	for n := 3 + r.IntN(6); n > 0; {
		p := BarPiece{ID: fmt.Sprint("S", n), Length: float64(40 + r.IntN(200)), Count: 1 + r.IntN(min(n, 3))}
		if sloped {
			p.Depth = []float64{10, 20, 20}[r.IntN(3)]
			p.Ends = [2]float64{angles[r.IntN(len(angles))], angles[r.IntN(len(angles))]}
		}
		n -= p.Count
		job.Pieces = append(job.Pieces, p)
	}
	for range 1 + r.IntN(3) {
		b := BarStock{Length: float64(150 + r.IntN(400)), Count: r.IntN(4)}
		if priced {
			b.Price = float64(r.IntN(8)) / 2
		}
		job.Stock = append(job.Stock, b)
	}
	return job
}

// exhaustive is the least cost of a job, or of its number of bars, found by trying everything; shared cuts are reckoned piece by piece in
// every order and attitude. ok is false where the stock does not suffice.
func exhaustive(job BarJob) (cost float64, ok bool) {
	var pieces []BarPiece
	for _, p := range job.Pieces {
		for range p.Count {
			pieces = append(pieces, p)
		}
	}
	n := len(pieces)
	length := make([]float64, 1<<n) // least length of each choice of pieces in one bar
	type state struct{ mask, last, end int }
	reach := map[state]float64{}
	for i := range pieces {
		for end := range 2 {
			reach[state{1 << i, i, end}] = pieces[i].Length
		}
	}
	for mask := 1; mask < 1<<n; mask++ {
		length[mask] = math.Inf(1)
		for last := range pieces {
			for end := range 2 { // the end that lies to the right
				have, ok := reach[state{mask, last, end}]
				if !ok {
					continue
				}
				length[mask] = min(length[mask], have)
				for next := range pieces {
					if mask>>next&1 == 1 {
						continue
					}
					for in := range 2 { // the end that lies to the left
						l := have + pieces[next].Length + between(job.Kerf, pieces[last], end, pieces[next], in)
						s := state{mask | 1<<next, next, 1 - in}
						if old, ok := reach[s]; !ok || l < old {
							reach[s] = l
						}
					}
				}
			}
		}
	}
	priced := false
	have := make([]int, len(job.Stock))
	for i, s := range job.Stock {
		priced = priced || s.Price > 0
		have[i] = s.Count
		if s.Count == 0 {
			have[i] = n
		}
	}
	best := math.Inf(1)
	var rest func(mask int, cost float64)
	rest = func(mask int, cost float64) {
		if cost >= best {
			return
		}
		if mask == 0 {
			best = cost
			return
		}
		first := mask & -mask
		for sub := mask; sub > 0; sub = (sub - 1) & mask {
			if sub&first == 0 {
				continue
			}
			for i, s := range job.Stock {
				if have[i] == 0 || length[sub] > s.Length-2*job.Trim+1e-6 {
					continue
				}
				c := 1.0
				if priced {
					c = s.Price
				}
				have[i]--
				rest(mask&^sub, cost+c)
				have[i]++
			}
		}
	}
	rest(1<<n-1, 0)
	return best, !math.IsInf(best, 1)
}

// between is what lies between two pieces: a kerf, or less where they share a slanting one.
func between(kerf float64, a BarPiece, endA int, b BarPiece, endB int) float64 {
	s, o := math.Abs(a.Ends[endA]), math.Abs(b.Ends[endB])
	slopes := func(p BarPiece) float64 {
		return p.Depth * (math.Tan(math.Abs(p.Ends[0])) + math.Tan(math.Abs(p.Ends[1])))
	}
	if math.Abs(s-o) > 1e-9 || a.Depth != b.Depth || a.Length < slopes(a) || b.Length < slopes(b) {
		return kerf
	}
	s = math.Round(s * 1800 / math.Pi) // to a tenth of a degree, as the saw is set, and what is read as that
	flat, steep := (s-0.5)*math.Pi/1800, (s+0.5)*math.Pi/1800
	return min(kerf, kerf/math.Cos(steep)-a.Depth*math.Tan(flat))
}

// TestBarExhaustive holds small jobs against trying everything: the plan is as good, and says that it is.
func TestBarExhaustive(t *testing.T) {
	n := uint64(2000)
	if testing.Short() {
		n = 60
	}
	kinds := map[string]int{}
	for seed := range n {
		job := small(seed)
		p := cut(t, job)
		if len(p.TooLong) > 0 {
			kinds["too long"]++
			continue
		}
		want, ok := exhaustive(job)
		if !ok || p.Short > 0 {
			kinds["short"]++
			if ok != (p.Short == 0) {
				t.Errorf("seed %d: short of %d bars; trying everything says enough: %v", seed, p.Short, ok)
			}
			continue
		}
		got, kind := float64(p.Bars), "number"
		for _, s := range job.Stock {
			if s.Price > 0 {
				got, kind = p.Cost, "priced"
			}
		}
		kinds[kind]++
		if math.Abs(got-want) > 1e-6 || !p.Least {
			t.Errorf("seed %d: got %g (bound %g, proved %v), want %g\n%+v", seed, got, p.Bound, p.Least, want, job)
		}
	}
	t.Log(kinds)
}
