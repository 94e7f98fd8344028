package pack

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"ribwright/geom"
)

// TestProbesHideNoPlace fills sheets with and without probes, and holds the places of every form against each other.
func TestProbesHideNoPlace(t *testing.T) {
	odd := ribSet()
	odd.Sheets = []Sheet{{Outline: geom.Ring{{}, {X: 500}, {X: 300, Y: 260}, {Y: 280}}, Holes: []geom.Ring{{{X: 90, Y: 90}, {X: 160, Y: 100}, {X: 120, Y: 150}}}}}
	hollow := plates200(t)
	for name, job := range map[string]NestJob{"rib set": ribSet(), "tapered": taperedSet(), "odd sheet": odd, "plates": hollow} {
		with, _ := newBench(job)
		without, _ := newBench(job)
		if with.own == len(with.forms) {
			t.Fatalf("%s: no probes", name)
		}
		without.own = len(without.forms)
		var d dice
		for range 2 {
			a, b := with.newBoard(with.grounds[0]), without.newBoard(without.grounds[0])
			var seq []int
			for range 100 {
				seq = append(seq, d.below(len(job.Parts)))
			}
			if d.below(2) == 0 {
				seq = append(seq, slices.Repeat([]int{0}, 200)...)
				a.layRows(seq)
				b.layRows(seq)
			}
			rule := rules[d.below(len(rules))]
			for _, p := range seq[:20+d.below(80)] {
				if x, y := a.putBest(p, rule), b.putBest(p, rule); x != y {
					t.Fatalf("%s: part %d placed: %v with probes, %v without", name, p, x, y)
				}
			}
			for f := range with.forms[:with.own] {
				if x, y := sorted(a.spotsOf(f)), sorted(b.spotsOf(f)); !slices.Equal(x, y) {
					t.Errorf("%s: form %d has %d places with probes, %d without", name, f, len(x), len(y))
				}
			}
		}
	}
}

func sorted(pts []geom.Pt) []geom.Pt {
	return slices.SortedFunc(slices.Values(pts), func(a, b geom.Pt) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
}

// TestSheetsAlikeAreFilledOnce fills every sheet by itself, and looks for the same layout.
func TestSheetsAlikeAreFilledOnce(t *testing.T) {
	for _, r := range rules {
		job := discs200()
		job.Parts = append(job.Parts, Part{Outline: rect(30, 20).Path(), Count: 90, Angles: []float64{0, math.Pi / 2}}, Part{Outline: rect(70, 45).Path(), Count: 40})
		job.Parts[0].Count = 700
		b, why := newBench(job)
		seq := b.sequence(why, &Layout{})
		got, n := b.fill(seq, r), 0
		for len(seq) > 0 {
			o, rest := b.fillBoard(b.grounds[0], seq, r)
			if n >= len(got.boards) || !slices.Equal(o.items, got.boards[n].items) {
				t.Fatalf("rule %v: sheet %d is another", r, n)
			}
			seq, n = rest, n+1
		}
		if n != len(got.boards) {
			t.Errorf("rule %v: %d sheets, want %d", r, len(got.boards), n)
		}
	}
}
