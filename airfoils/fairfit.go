package airfoils

import (
	"errors"
	"math"
	"sort"

	"gonum.org/v1/gonum/mat"
)

// knot is a point of a table as the judge of fairness sees it.
type knot struct {
	t     float64 // √x, negative on the lower side: over it the ordinate runs smoothly round the nose
	x     float64 // station, share of the chord
	y     float64 // ordinate, percent of the chord
	side  Side
	index int
	nose  bool // the leading edge, which may stand off the curve: see noseSpread
	// closed: the last point of a tail that both sides close
	closed bool
}

// chain is a table from the lower side's tail round the nose to the upper side's tail, t rising.
//
// Of the variables that were tried over all tables of the tests (√x, the angle of a cosine spacing,
// √x + k·x, x^0.4) √x puts the error into the right row most often. It is the variable in which the
// thickness of a round nose is linear (0.2969 √x in NACA Report 460).
type chain []knot

// residual is a point's distance from the curve of all the others.
type residual struct {
	off float64 // percent of the chord
	sd  float64 // what is usual for such a point in this table, percent
	z   float64 // off over sd
}

const (
	order = 3 // the spline minimises the square of this derivative
	block = 48
	lap   = 12 // points at a block's end that are judged in the next one
	// noseSpread is the standard deviation, in percent of the chord, that the leading edge is allowed off
	// the curve. Sections laid off square to a mean line hang over (0, 0): at NACA 23012 the curve of the
	// neighbours passes 0.46 % above it. Aft of the nose the allowance dies away with noseReach.
	noseSpread = 0.5
	noseReach  = 0.0005 // share of the chord
	// tailSpread is the same for a tail that both sides close at one point: many tables close it by hand.
	tailSpread = 0.15
	fineness   = 0.001 // percent of the chord: the least error of a figure
)

// chain returns the table's points in order, and apart from it the two ordinates of a blunt nose. Points
// that hang over the nose, and others whose place along the chain is not clear, are left out.
//
// With a hang, a share of the chord, the section's foremost point stands so far ahead of station 0, on the upper side,
// or with a negative one on the lower side: √x then counts from there, and the leading edge lies on the other side.
func (s Section) chain(hang float64) (c chain, noses []knot) {
	ahead := math.Abs(hang)
	nose := -math.Copysign(math.Sqrt(ahead), hang)
	closed := s.Upper[len(s.Upper)-1] == s.Lower[len(s.Lower)-1]
	two := s.Upper[0] != s.Lower[0]
	for i, p := range s.Upper {
		k := knot{math.Sqrt(math.Max(p.X, 0) + ahead), p.X, 100 * p.Y, UpperSide, i, i == 0, closed && i == len(s.Upper)-1}
		if k.nose {
			k.t = nose
		}
		if i == 0 && two {
			noses = append(noses, k)
			continue
		}
		c = append(c, k)
	}
	for i, p := range s.Lower {
		k := knot{-math.Sqrt(math.Max(p.X, 0) + ahead), p.X, 100 * p.Y, LowerSide, i, i == 0, closed && i == len(s.Lower)-1}
		switch {
		case i == 0 && two:
			noses = append(noses, k)
		case i > 0:
			c = append(c, k)
		}
	}
	sort.SliceStable(c, func(i, j int) bool { return c[i].t < c[j].t })
	out := c[:0]
	for i, k := range c {
		clear := i == 0 || k.t-c[i-1].t > 1e-6
		clear = clear && (i == len(c)-1 || c[i+1].t-k.t > 1e-6)
		if clear && (k.x > 0 || k.nose) {
			out = append(out, k)
		}
	}
	if two && noses[0].x != noses[1].x {
		noses = nil
	}
	return out, noses
}

// blocks cuts a long chain into overlapping pieces, and says which points of each are judged there.
func (c chain) blocks(do func(part chain, from, to, first int)) {
	for a := 0; ; a += block - 2*lap {
		b := min(a+block, len(c))
		from, to := lap, b-a-lap
		if a == 0 {
			from = 0
		}
		if b == len(c) {
			to = b - a
		}
		do(c[a:b], from, to, a)
		if b == len(c) {
			return
		}
	}
}

// judge returns every point's distance from the curve of the others; tau2 comes from spread.
//
// The curve is the spline of least third derivative: in the words of statistics an integrated Wiener
// process of variance τ² with errors of the table's rounding. With P the precision matrix of the
// ordinates y, the point left out stands (P y)i / Pii off the others' spline, with the variance 1/Pii
// (G. Wahba, Spline Models for Observational Data, SIAM 1990, chapters 1 and 4; from memory). For one
// error on an otherwise fair table the largest score stands at the error itself, by the inequality of
// Cauchy and Schwarz. τ² is set so that the median of the scores is that of a normal distribution: one
// error, however large, hardly moves it.
func (c chain) judge(tau2, step float64) []residual {
	out := make([]residual, len(c))
	c.blocks(func(part chain, from, to, first int) {
		copy(out[first+from:first+to], part.residuals(tau2, step)[from:to])
	})
	return out
}

// spread returns τ² for the chain.
func (c chain) spread(step float64) float64 {
	const least, most = 1e-3, 1e7
	tau2 := 1e3
	for range 10 {
		var all []float64
		c.blocks(func(part chain, from, to, _ int) {
			for i, r := range part.residuals(tau2, step)[from:to] {
				if !part[from+i].nose {
					all = append(all, math.Abs(r.z))
				}
			}
		})
		sort.Float64s(all)
		s := all[len(all)/2] / 0.6745 // the median of |z| of a normal distribution
		tau2 = min(max(float64(tau2*min(max(s*s, 0.05), 20)), least), most)
		if math.Abs(s-1) < 0.01 {
			break
		}
	}
	return tau2
}

func (c chain) residuals(tau2, step float64) []residual {
	out := make([]residual, len(c))
	p := c.precision(tau2, c.noise(step))
	if p == nil {
		return out
	}
	for i := range c {
		sum := 0.0
		for j := range c {
			sum += float64(p.At(i, j) * c[j].y)
		}
		d := p.At(i, i)
		if !(d > 0) {
			continue
		}
		out[i] = residual{sum / d, 1 / math.Sqrt(d), sum / math.Sqrt(d)}
	}
	return out
}

// noise returns the variance of each ordinate, in percent of the chord: that of rounding to the step, and
// what the ends are allowed.
func (c chain) noise(step float64) []float64 {
	out := make([]float64, len(c))
	for i, k := range c {
		out[i] = float64(step*step/12) + float64(fineness*fineness)
		sd := noseSpread / (1 + k.x/noseReach)
		if k.closed {
			sd = tailSpread
		}
		out[i] += float64(sd * sd)
	}
	return out
}

// factors is what the chain's covariance yields.
type factors struct {
	p      *mat.Dense // P = C⁻¹ − C⁻¹H(HᵀC⁻¹H)⁻¹HᵀC⁻¹
	inner  *mat.Dense // HᵀC⁻¹H
	logDet float64    // of C
}

// precision returns P, nil where the matrix cannot be inverted.
func (c chain) precision(tau2 float64, noise []float64) *mat.Dense {
	f, _ := c.factor(tau2, noise)
	return f.p
}

// factor inverts the covariance C less the parabolas H, which cost the spline nothing.
func (c chain) factor(tau2 float64, noise []float64) (factors, bool) {
	n := len(c)
	cov, h := mat.NewSymDense(n, nil), mat.NewDense(n, order, nil)
	wide := c[n-1].t - c[0].t
	for i := range c {
		u := (c[i].t - c[0].t) / wide
		h.SetRow(i, []float64{1, u, u * u})
		for j := i; j < n; j++ {
			v := tau2 * wiener(c[i].t-c[0].t, c[j].t-c[0].t)
			if i == j {
				v = float64(v) + noise[i]
			}
			cov.SetSym(i, j, v)
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(cov) {
		return factors{}, false
	}
	var inv mat.SymDense
	if failed(chol.InverseTo(&inv)) {
		return factors{}, false
	}
	var a, b, x, d, p mat.Dense
	a.Mul(&inv, h)
	b.Mul(h.T(), &a)
	if failed(x.Solve(&b, a.T())) {
		return factors{}, false
	}
	d.Mul(&a, &x)
	p.Sub(&inv, &d)
	return factors{&p, &b, chol.LogDet()}, true
}

// failed reports whether a solver gave no result; a warning of poor condition comes with one.
func failed(err error) bool {
	var poor mat.Condition
	return err != nil && !errors.As(err, &poor)
}

// wiener is the covariance of the twice integrated Wiener process: the integral of (s−u)²(t−u)²/4 over u
// from 0 to the smaller of s and t.
func wiener(s, t float64) float64 {
	a, d := math.Min(s, t), math.Abs(s-t)
	a3 := a * a * a
	return float64(float64(a3*a*a)/20) + float64(float64(a3*a*d)/8) + float64(float64(a3*d*d)/12)
}

// predict returns the ordinate of the chain's curve where it has no point, and its standard deviation.
func (c chain) predict(t, step float64) (y, sd float64) {
	tau2 := c.spread(step)
	near := sort.Search(len(c), func(i int) bool { return c[i].t >= t })
	a, b := max(0, near-lap), min(len(c), near+lap)
	part := append(chain(nil), c[a:b]...)
	at := near - a
	part = append(part[:at:at], append(chain{{t: t}}, part[at:]...)...)
	r := part.residuals(tau2, step)[at]
	return -r.off, r.sd
}
