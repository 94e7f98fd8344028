package cut

import (
	"math/rand"
	"slices"
	"testing"

	"ribwright/geom/pack"
)

// TestLots: every piece is in some lot, no lot has more than it may, and a small set is one.
func TestLots(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	for n := range 500 {
		counts := make([]int, 1+r.Intn(40))
		for i := range counts {
			counts[i] = r.Intn(1 + []int{2, 50, 5000}[n%3])
		}
		most := 1 + r.Intn(300)
		got, total := make([]int, len(counts)), 0
		all := lots(counts, most)
		for _, l := range all {
			pieces := 0
			for i, k := range l.counts {
				got[i] += k * l.times
				pieces += k
			}
			total += pieces * l.times
			if len(all) > 1 && (pieces > most || pieces == 0) {
				t.Fatalf("%v in lots of %d: one has %d", counts, most, pieces)
			}
		}
		if !slices.Equal(got, counts) {
			t.Fatalf("%v in lots of %d: %v", counts, most, got)
		}
		if total <= most && len(all) != 1 {
			t.Fatalf("%v in lots of %d: %d lots", counts, most, len(all))
		}
	}
}

// TestDealt: every kind of piece is in one lot, with its whole count, and the lots have nearly as many kinds each.
func TestDealt(t *testing.T) {
	counts := []int{3, 0, 1, 5, 2, 2, 0, 7}
	all := dealt(counts, 4)
	if len(all) != 2 || !slices.Equal(all[0].counts, []int{3, 0, 0, 5, 0, 2, 0, 0}) || !slices.Equal(all[1].counts, []int{0, 0, 1, 0, 2, 0, 0, 7}) {
		t.Errorf("got %v", all)
	}
	if all := dealt(counts, 6); len(all) != 1 || !slices.Equal(all[0].counts, counts) {
		t.Errorf("few kinds: got %v", all)
	}
}

// TestCutBarsKinds: a job of more kinds of pieces than are planned at once saws every piece, within a bar a lot of its bound.
func TestCutBarsKinds(t *testing.T) {
	job := pack.BarJob{Kerf: 1.5, Trim: 10, Offcut: 200, Stock: []pack.BarStock{{Length: 2400}, {Length: 1800}}}
	r := rand.New(rand.NewSource(9))
	for range 2*mostBarKinds + 100 {
		job.Pieces = append(job.Pieces, pack.BarPiece{ID: "P", Length: 60 + 160*r.Float64(), Count: 1, Depth: 6})
	}
	checkLots(t, job)
	if p, err := cutBars(job); err != nil || float64(p.Bars) > p.Bound+3 {
		t.Errorf("%d bars, bound %.2f: %v", p.Bars, p.Bound, err)
	}
}

// TestCutBarsLots: a job that is planned in lots saws every piece, and needs no fewer bars than its bound.
func TestCutBarsLots(t *testing.T) {
	job := pack.BarJob{Kerf: 1.5, Trim: 10, Offcut: 200, Stock: []pack.BarStock{{Length: 2400}, {Length: 1800}}}
	r := rand.New(rand.NewSource(8))
	for i := range 17 {
		job.Pieces = append(job.Pieces, pack.BarPiece{ID: string(rune('A' + i)), Length: 60 + 160*r.Float64(), Count: 2000 + 50*(i%2), Depth: 6, Ends: [2]float64{0.3, 0.3}})
	}
	for _, have := range []int{0, 900} {
		job.Stock[1].Count = have
		checkLots(t, job)
	}
	for i := range job.Pieces { // lots that are all alike
		job.Pieces[i].Count = 2000
	}
	job.Stock[1].Count = 0
	checkLots(t, job)
}

func checkLots(t *testing.T, job pack.BarJob) {
	t.Helper()
	p, err := cutBars(job)
	if err != nil {
		t.Fatal(err)
	}
	if have := job.Stock[1].Count; have > 0 && p.Buy[1] > have {
		t.Errorf("%d bars of %d", p.Buy[1], have)
	}
	sawn, bars := make([]int, len(job.Pieces)), 0
	for _, q := range p.Patterns {
		bars += q.Count
		for _, c := range q.Cuts {
			sawn[c.Piece] += q.Count
		}
	}
	for i, n := range sawn {
		if n != job.Pieces[i].Count {
			t.Errorf("%s is sawn %d times, want %d", job.Pieces[i].ID, n, job.Pieces[i].Count)
		}
	}
	if bars != p.Bars || p.Buy[0]+p.Buy[1] != bars || p.Least || p.Bound > float64(bars) || p.Bound < 0.9*float64(bars) {
		t.Errorf("%d bars in patterns, %d in the plan, %v bought, bound %g", bars, p.Bars, p.Buy, p.Bound)
	}
}
