package pack

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
)

// relaxed solves a job's linear program and returns it as column generation left it.
func relaxed(t testing.TB, job BarJob) *barProgram {
	t.Helper()
	m, _ := newBarModel(job)
	s := &barSearch{m: m, effort: math.MaxInt, known: map[string]bool{}, cost: 1 << 62, look: math.MaxInt}
	s.knap.m = m
	st := m.start()
	if _, ok := s.relax(st, math.MaxInt64); !ok {
		t.Fatal("not solved")
	}
	pr, _ := s.program(st)
	if !pr.l.solve() {
		t.Fatal("not solved again")
	}
	return &pr
}

// gonumCost gives the same program to gonum's simplex method.
func gonumCost(l *barLP) (float64, error) {
	n := len(l.cols)
	a := mat.NewDense(l.rows, n+l.rows, nil)
	c := make([]float64, n+l.rows)
	for j, col := range l.cols {
		c[j] = col.cost
		for i, r := range col.row {
			a.Set(r, j, a.At(r, j)+col.n[i])
		}
	}
	for r := range l.rows {
		a.Set(r, n+r, -1)
	}
	z, _, err := lp.Simplex(c, a, l.b, 1e-10, nil)
	return z, err
}

// TestBarProgram holds the simplex method against gonum's, where gonum's finds an answer.
func TestBarProgram(t *testing.T) {
	agreed := 0
	for seed := range uint64(200) {
		job := small(seed)
		if p := cut(t, job); len(p.TooLong) > 0 {
			continue
		}
		l := relaxed(t, job).l
		want, err := gonumCost(l)
		if err != nil {
			t.Logf("seed %d: gonum: %v", seed, err)
			continue
		}
		agreed++
		if got := l.objective(); math.Abs(got-want) > 1e-6*(1+want) {
			t.Errorf("seed %d: got %.9f, gonum %.9f", seed, got, want)
		}
	}
	t.Logf("%d programs agree", agreed)
	if testing.Short() {
		return
	}
	// The degenerate one: where gonum answers, it must be the same; as it is, it calls a matrix singular.
	for _, i := range []int{0, 9} {
		b := readBins(t, "orlib_binpack1_u120.txt")[i]
		l := relaxed(t, b.job).l
		z, err := gonumCost(l)
		if err == nil && math.Abs(z-l.objective()) > 1e-6*z {
			t.Errorf("%s: got %.9f, gonum %.9f", b.name, l.objective(), z)
		}
		t.Logf("%s: %d rows, %d columns, degenerate: %.6f, gonum %.6f, %v", b.name, l.rows, len(l.cols), l.objective(), z, err)
	}
}
