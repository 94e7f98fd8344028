package pack

import (
	"math"
)

// barLP is the linear program of column generation (Gilmore and Gomory, Operations Research 9 (1961) 849 and 11 (1963)
// 863), by the revised simplex method with an explicit inverse: the least cost of bars, fractions of bars allowed,
// that yield what is needed. A row stands for each type that is needed, and one for each kind of bar
// whose number is limited.
//
// It is our own for three reasons that a test holds: gonum's lp.Simplex returns no dual values, which column
// generation lives on; it starts anew for every column; and it fails on degenerate programs of this kind.
type barLP struct {
	rows  int
	b     []float64 // right-hand sides
	bump  []float64 // and the same with a small, different surplus each: no two rows leave at once
	cols  []barCol
	basis []int     // by row: a column, or −1−r: the surplus of row r
	inv   []float64 // rows × rows, the inverse of the basis
	x     []float64 // of the basis, for bump
	y     []float64 // dual values
	alpha []float64
	since int // pivots since the inverse was made anew
	steps int
}

// barCol is a pattern as a column.
type barCol struct {
	pat  barPat
	row  []int // of each entry
	n    []float64
	cost float64
}

const (
	lpCost  = 1e-9  // a reduced cost below which a column is not worth entering
	lpPivot = 1e-9  // least pivot
	lpBump  = 1e-6  // surplus of the right-hand sides
	lpAnew  = 100   // pivots after which the inverse is made anew
	lpMost  = 50000 // pivots; far more than ever seen
)

// newBarLP begins with a basis of one column a row, the first ones of cols, and surplus for the rest.
func newBarLP(b []float64, first []barCol) *barLP {
	l := &barLP{rows: len(b), b: b, bump: make([]float64, len(b)), basis: make([]int, len(b)), inv: make([]float64, len(b)*len(b)),
		x: make([]float64, len(b)), y: make([]float64, len(b)), alpha: make([]float64, len(b)), cols: first}
	for r := range b {
		// The multiples of the golden section spread evenly, and no two are the same.
		_, spread := math.Modf(float64(float64(r+1) * math.Phi))
		l.bump[r] = b[r] + float64(lpBump*(1+spread))
		l.basis[r] = -1 - r
		if r < len(first) {
			l.basis[r] = r
		}
	}
	l.invert()
	return l
}

// column writes the basis column of an index into out.
func (l *barLP) column(j int, out []float64) {
	clear(out)
	if j < 0 {
		out[-1-j] = -1
		return
	}
	for i, r := range l.cols[j].row {
		out[r] = l.cols[j].n[i]
	}
}

func (l *barLP) cost(j int) float64 {
	if j < 0 {
		return 0
	}
	return l.cols[j].cost
}

// invert makes the inverse, the values and the dual values anew from the basis, by Gauss and Jordan with pivots
// chosen down the columns.
func (l *barLP) invert() bool {
	n := l.rows
	a := make([]float64, n*n) // row by row
	col := make([]float64, n)
	for j, c := range l.basis {
		l.column(c, col)
		for r, v := range col {
			a[r*n+j] = v
		}
	}
	clear(l.inv)
	for r := range n {
		l.inv[r*n+r] = 1
	}
	for j := range n {
		p := j
		for r := j + 1; r < n; r++ {
			if math.Abs(a[r*n+j]) > math.Abs(a[p*n+j]) {
				p = r
			}
		}
		if math.Abs(a[p*n+j]) < lpPivot {
			return false
		}
		swapRows(a, n, p, j)
		swapRows(l.inv, n, p, j)
		f := 1 / a[j*n+j]
		scale(a[j*n:(j+1)*n], f)
		scale(l.inv[j*n:(j+1)*n], f)
		for r := range n {
			if f := a[r*n+j]; r != j && f != 0 {
				subtract(a[r*n:(r+1)*n], a[j*n:(j+1)*n], f)
				subtract(l.inv[r*n:(r+1)*n], l.inv[j*n:(j+1)*n], f)
			}
		}
	}
	l.since = 0
	l.steps += n * n / 8
	l.values(l.bump, l.x)
	clear(l.y)
	for r, c := range l.basis {
		if f := l.cost(c); f != 0 {
			subtract(l.y, l.inv[r*n:(r+1)*n], -f)
		}
	}
	return true
}

func swapRows(a []float64, n, p, q int) {
	if p == q {
		return
	}
	for j := range n {
		a[p*n+j], a[q*n+j] = a[q*n+j], a[p*n+j]
	}
}

func scale(a []float64, f float64) {
	for i := range a {
		a[i] *= f
	}
}

// subtract takes f times b from a.
func subtract(a, b []float64, f float64) {
	b = b[:len(a)]
	for i := range a {
		a[i] -= float64(f * b[i])
	}
}

// values writes the values of the basis for the right-hand sides b.
func (l *barLP) values(b, out []float64) {
	for r := range l.rows {
		var v float64
		for j, f := range l.inv[r*l.rows : (r+1)*l.rows] {
			v += float64(f * b[j])
		}
		out[r] = v
	}
}

// objective is the cost of the basis.
func (l *barLP) objective() float64 {
	var v float64
	for r, y := range l.y {
		v += float64(y * l.b[r])
	}
	return v
}

// reduced is what one more of the column would change the cost by.
func (l *barLP) reduced(c *barCol) float64 {
	v := c.cost
	for i, r := range c.row {
		v -= float64(l.y[r] * c.n[i])
	}
	return v
}

// solve finds the least cost over the columns that are there.
func (l *barLP) solve() bool {
	for range lpMost {
		enter, least, found := 0, -lpCost, false
		for j := range l.cols {
			if v := l.reduced(&l.cols[j]); v < least {
				enter, least, found = j, v, true
			}
		}
		for r, y := range l.y {
			if y < least {
				enter, least, found = -1-r, y, true
			}
		}
		l.steps += len(l.cols)/4 + l.rows*l.rows/16
		if !found {
			return true
		}
		if !l.pivot(enter, least) {
			return false
		}
	}
	return false
}

func (l *barLP) pivot(enter int, reduced float64) bool {
	n := l.rows
	if enter < 0 {
		for r := range n {
			l.alpha[r] = -l.inv[r*n-1-enter]
		}
	} else {
		clear(l.alpha)
		c := &l.cols[enter]
		for r := range n {
			var v float64
			for i, q := range c.row {
				v += float64(l.inv[r*n+q] * c.n[i])
			}
			l.alpha[r] = v
		}
	}
	leave, least := -1, math.Inf(1)
	for r, a := range l.alpha {
		if a <= lpPivot {
			continue
		}
		t := max(l.x[r], 0) / a
		if t < least-1e-12 || t < least+1e-12 && a > l.alpha[leave] {
			leave, least = r, min(t, least)
		}
	}
	if leave < 0 {
		return false // without bound: the program has none
	}
	f := 1 / l.alpha[leave]
	row := l.inv[leave*n : (leave+1)*n]
	subtract(l.y, row, float64(-reduced*f))
	scale(row, f)
	t := float64(l.x[leave] * f)
	for r, a := range l.alpha {
		if r == leave || a == 0 {
			continue
		}
		subtract(l.inv[r*n:(r+1)*n], row, a)
		l.x[r] -= float64(a * t)
	}
	l.x[leave] = t
	l.basis[leave] = enter
	if l.since++; l.since >= lpAnew {
		return l.invert()
	}
	return true
}
