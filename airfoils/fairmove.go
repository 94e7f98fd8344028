package airfoils

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"ribwright/geom"
)

// Move is one ordinate that fairing changed. Lengths are shares of the chord.
type Move struct {
	Side     Side
	Index    int // in Upper or Lower
	Station  float64
	From, To float64 // ordinates
}

// roughest is the step, in percent of the chord, beyond which ordinates are no table.
const roughest = 1.0

// noseEnd is the share of the chord ahead of which ordinates stay: there they may stand off the curve.
const noseEnd = 0.005 - sameStation

// mostFaired is the most points of a table that Fair takes; larger tables are faired in no breath.
const mostFaired = 400

// Fair returns the section with its ordinates moved, none by more than the limit (a share of the chord), to
// a fair curve, and all the moves, nose to tail, upper side first. Stations stay, and so do the nose
// ahead of 0.5 % and both ends of the tail. Equations, and tables of fewer than 5 or more than 400 points, are returned as
// they are. The section handed in is not changed.
//
// The ordinates y minimise (y − y₀)ᵀN⁻¹(y − y₀) + the integral of the squared third derivative over √x, by τ²,
// within |y − y₀| ≤ limit: a smoothing spline in a box. N is the errors' variance; it and τ² are those
// under which the table is likeliest (restricted maximum likelihood; G. Wahba, Spline Models for
// Observational Data, SIAM 1990, chapter 4; from memory). So a table that is fair to its last figure stays
// within its rounding, and a rough one is drawn as smooth as the limit lets it be. Single bumps are set
// aside first (see bumps), lest they pass for the section's shape.
func (s Section) Fair(limit float64) (Section, []Move) {
	out := s
	out.Upper, out.Lower = append([]geom.Pt(nil), s.Upper...), append([]geom.Pt(nil), s.Lower...)
	if s.eq.t > 0 || !(limit > 0) || len(s.Upper) < fewest || len(s.Lower) < fewest {
		return out, nil
	}
	c, _ := s.chain(0)
	if len(c) < 2*fewest || len(c) > mostFaired {
		return out, nil
	}
	given := s.figures().step
	bumps, rest := c.bumps(given)
	step, tau2 := rest.likeliest(given)
	fair := c.boxed(step, tau2, 100*limit, bumps)
	var upper, lower []Move
	for i, k := range c {
		if fair[i] == k.y {
			continue
		}
		side, from := out.Upper, s.Upper
		if k.side == LowerSide {
			side, from = out.Lower, s.Lower
		}
		y0 := from[k.index].Y
		y := min(max(fair[i]/100, y0-limit), y0+limit)
		side[k.index].Y = y
		m := Move{k.side, k.index, k.x, y0, y}
		if k.side == UpperSide {
			upper = append(upper, m)
		} else {
			lower = append([]Move{m}, lower...)
		}
	}
	return out, append(upper, lower...)
}

// What makes a bump, which fairing levels as far as its limit lets it: the standard deviations by which it
// stands off the curve of the others, and the station from which that curve is trusted. Smaller waves are
// taken for the section's own.
const (
	bumpy     = 4.5
	bumpsFrom = 0.05
	bumpLeast = 0.1 // percent of the chord: where a flat lower side begins, the curve of the others stands nearly so far off
	bumpNoise = 1.0 // variance that lets a bump follow the curve, square percent
)

// bumps returns the points that stand off the curve of the others, though too little to be called wrong,
// and the chain without them: they have no part in saying how rough the table is.
func (c chain) bumps(step float64) (map[knot]bool, chain) {
	out := map[knot]bool{}
	rest := c
	for len(out) < len(c)/16 && len(rest) > 2*fewest {
		k, without, r := rest.gravest(step, func(k knot) bool { return k.x >= bumpsFrom && !ends(rest, k) })
		if math.Abs(r.z) <= bumpy || math.Abs(r.off) <= max(bumpLeast, 2*step) {
			break
		}
		out[k], rest = true, without
	}
	return out, rest
}

// likeliest returns the step of rounding that stands for the errors of the whole table, at least the one
// given, and τ².
func (c chain) likeliest(step float64) (rough, tau2 float64) {
	best := math.Inf(1)
	rough, tau2 = step, c.spread(step)
	for st := max(step, fineness); st <= roughest; st *= math.Sqrt2 {
		for m := range 15 {
			t := math.Pow(10, float64(float64(m)/2)-1)
			if l, ok := c.inBlocks(t, st); ok && l < best-1e-9 {
				best, rough, tau2 = l, st, t
			}
		}
	}
	return rough, tau2
}

// inBlocks sums the unlikelihood of the chain's pieces: long tables take time in proportion.
func (c chain) inBlocks(tau2, step float64) (float64, bool) {
	sum := 0.0
	for n := (len(c)-1)/(2*block) + 1; n > 0; n-- {
		part := c[:len(c)/n]
		c = c[len(c)/n:]
		l, ok := part.unlikelihood(tau2, step)
		if !ok {
			return 0, false
		}
		sum += l
	}
	return sum, true
}

// unlikelihood is −2 log of the restricted likelihood, but for a constant.
func (c chain) unlikelihood(tau2, step float64) (float64, bool) {
	f, ok := c.factor(tau2, c.noise(step))
	if !ok {
		return 0, false
	}
	y := mat.NewVecDense(len(c), nil)
	for i, k := range c {
		y.SetVec(i, k.y)
	}
	var py mat.VecDense
	py.MulVec(f.p, y)
	det, sign := mat.LogDet(f.inner)
	if sign <= 0 {
		return 0, false
	}
	return mat.Dot(y, &py) + f.logDet + det, true
}

// boxed returns the ordinates of the smoothing spline in the box. Bumps
// follow the others' curve. Ends and nose keep theirs, and the
// nose, which may stand off the curve, hardly binds it.
//
// The objective is half of yᵀAy − bᵀy with A = N⁻¹ + Q, where Q is the spline's energy; the box is held by an
// active set: what leaves the box is held on its side, and let go when the objective pulls it back in.
func (c chain) boxed(step, tau2, limit float64, bumps map[knot]bool) []float64 {
	n := len(c)
	y := make([]float64, n)
	for i, k := range c {
		y[i] = k.y
	}
	noise := c.noise(step)
	for i, k := range c {
		if bumps[k] {
			noise[i] += bumpNoise
		}
	}
	q := c.precision(tau2, c.noise(0))
	if q == nil {
		return y
	}
	a := mat.NewSymDense(n, nil)
	b := make([]float64, n)
	for i := range c {
		b[i] = y[i] / noise[i]
		for j := i; j < n; j++ {
			v := float64((q.At(i, j) + q.At(j, i)) / 2)
			if i == j {
				v += 1 / noise[i]
			}
			a.SetSym(i, j, v)
		}
	}
	held := make([]int, n) // −1 and 1: on the box's lower and upper side; 2: always
	for i, k := range c {
		if k.x < noseEnd || i == 0 || i == n-1 {
			held[i] = 2
		}
	}
	out := append([]float64(nil), y...)
	for range 4 * n {
		if !solveFree(a, b, out, held) {
			return y
		}
		if !rehold(a, b, out, y, held, limit) {
			break
		}
	}
	for i := range out {
		out[i] = min(max(out[i], y[i]-limit), y[i]+limit)
	}
	return out
}

// solveFree sets the free ordinates to the least of the objective, the held ones staying.
func solveFree(a *mat.SymDense, b, y []float64, held []int) bool {
	var free []int
	for i, h := range held {
		if h == 0 {
			free = append(free, i)
		}
	}
	if len(free) == 0 {
		return true
	}
	sub, rhs := mat.NewSymDense(len(free), nil), mat.NewVecDense(len(free), nil)
	for k, i := range free {
		v := b[i]
		for j, h := range held {
			if h != 0 {
				v -= float64(a.At(i, j) * y[j])
			}
		}
		rhs.SetVec(k, v)
		for m := k; m < len(free); m++ {
			sub.SetSym(k, m, a.At(i, free[m]))
		}
	}
	var chol mat.Cholesky
	var x mat.VecDense
	if !chol.Factorize(sub) || failed(chol.SolveVecTo(&x, rhs)) {
		return false
	}
	for k, i := range free {
		y[i] = x.AtVec(k)
	}
	return true
}

// rehold holds what left the box on its side; where nothing did, it lets the held point go that the
// objective pulls inward most. It reports whether anything changed.
func rehold(a *mat.SymDense, b, y, y0 []float64, held []int, limit float64) bool {
	changed := false
	for i, h := range held {
		if d := y[i] - y0[i]; h == 0 && math.Abs(d) > limit {
			held[i] = 1
			if d < 0 {
				held[i] = -1
			}
			y[i] = y0[i] + math.Copysign(limit, d)
			changed = true
		}
	}
	if changed {
		return true
	}
	free, most := -1, 1e-9
	for i, h := range held {
		if h != 1 && h != -1 {
			continue
		}
		slope := -b[i]
		for j := range y {
			slope += float64(a.At(i, j) * y[j])
		}
		if pull := slope * float64(h); pull > most {
			free, most = i, pull
		}
	}
	if free >= 0 {
		held[free] = 0
	}
	return free >= 0
}
