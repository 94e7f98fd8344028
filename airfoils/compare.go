package airfoils

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"ribwright/geom"
)

// Comparison is what measurements say about a rib or a print beside the contour it was made to.
type Comparison struct {
	Deviations []Deviation // one for each reading, in the readings' order
	Fit        Fit
}

// Deviation is how far one reading stands off the contour. Lengths are mm, positive where the piece stands
// proud of the contour.
type Deviation struct {
	Reading
	At      geom.Pt // the contour's point it is measured from
	Outward geom.Pt // the contour's normal there; upright for a depth
	Nominal float64 // the contour's ordinate, or its depth, at the reading's station
	OnRib   bool    // the contour reaches that station: Nominal holds
	Raw     float64 // with nothing fitted: along the normal for an ordinate, along y for a depth
	Fitted  float64 // what is left after the best fit; Raw where there is none
	Odd     bool    // it stands so far off the fit that the fit left it out
}

// Fit is the move that lays the contour best on the readings: the contour is scaled about the origin of
// the rib's axes, turned about it, and then shifted.
type Fit struct {
	OK             bool
	Shift          geom.Pt // mm
	Turn           float64 // radians, counter-clockwise: positive lifts the tail
	ScaleX, ScaleY float64
	// How well the scales are known: one standard deviation.
	ScaleXErr, ScaleYErr float64
	Apart                bool    // the two scales were fitted apart
	DepthsOnly           bool    // depths alone tell no height and no angle: those were held at 0
	Spread               float64 // standard deviation of what is left, without the odd readings, mm
}

// Compare lays readings beside a contour: its two sides, mm, nose to tail. With apart set the fit has a
// scale for x and another for y. A fit needs at least two readings for each number it finds.
//
// The fit is robust: readings are weighted by Tukey's biweight (P. J. Huber, Robust Statistics, 1981;
// weights (1 − (r/4.685 s)²)², s = 1.4826 times the median of |r|), after some rounds of Huber's weights
// to come near, so that a single bad one moves nothing.
func Compare(upper, lower []geom.Pt, readings []Reading, apart bool) Comparison {
	c := newComparer(upper, lower, readings, apart)
	out := Comparison{Fit: Fit{ScaleX: 1, ScaleY: 1, Apart: apart, DepthsOnly: c.depthsOnly()}}
	raw := c.residuals([5]float64{})
	fitted := raw
	var limit float64
	if p, weights, ok := c.solve(); ok {
		fitted = c.residuals(p)
		out.Fit = c.describe(p, weights, out.Fit)
		limit = tukey * c.spread(fitted)
	}
	for i, r := range readings {
		d := Deviation{Reading: r, Raw: raw[i], Fitted: fitted[i], Odd: out.Fit.OK && math.Abs(fitted[i]) > limit}
		d.Nominal, d.OnRib = c.nominal(r.Of, r.Station)
		d.At, d.Outward = c.foot(r)
		out.Deviations = append(out.Deviations, d)
	}
	return out
}

const (
	huber  = 1.345 // spreads beyond which Huber's weights fall
	tukey  = 4.685 // spreads at which the biweight is 0
	finest = 0.1   // mm: a ruler is read no finer, whatever a few readings that happen to agree say
	rounds = 80
	coarse = 15 // rounds with Huber's weights
)

// comparer holds the contour as two chains that run on round the nose and straight on behind the tail, so
// that every reading has a foot on its own side.
type comparer struct {
	upper, lower []geom.Pt // the sides, nose to tail
	chains       [2][]geom.Pt
	readings     []Reading
	free         [][5]float64 // directions in which the fit may move: x, y, turn, ln of both scales
	chord        float64
}

func newComparer(upper, lower []geom.Pt, readings []Reading, apart bool) *comparer {
	c := &comparer{upper: upper, lower: lower, readings: readings}
	c.chord = upper[len(upper)-1].X - upper[0].X
	c.chains = [2][]geom.Pt{runOn(upper, lower, c.chord), runOn(lower, upper, c.chord)}
	// A step of 1 in turn or scale moves the tail by about 1 mm, so that the columns are alike.
	k := 1 / c.chord
	c.free = [][5]float64{{1, 0, 0, 0, 0}}
	if !c.depthsOnly() {
		c.free = append(c.free, [5]float64{0, 1, 0, 0, 0}, [5]float64{0, 0, k, 0, 0})
	}
	if apart {
		c.free = append(c.free, [5]float64{0, 0, 0, k, 0}, [5]float64{0, 0, 0, 0, k})
	} else {
		c.free = append(c.free, [5]float64{0, 0, 0, k, k})
	}
	return c
}

// runOn returns one side with a little of the other round the nose before it and a straight stretch behind.
func runOn(own, other []geom.Pt, chord float64) []geom.Pt {
	const round, behind = 0.03, 0.25 // shares of the chord
	var out []geom.Pt
	for _, p := range other[1:] {
		if p.X > own[0].X+float64(round*chord) {
			break
		}
		out = append(out, p)
	}
	slices.Reverse(out)
	out = append(out, own...)
	n := len(own)
	return append(out, own[n-1].Along(own[n-1].Sub(own[n-2]).Unit(), float64(behind*chord)))
}

func (c *comparer) depthsOnly() bool {
	return !slices.ContainsFunc(c.readings, func(r Reading) bool { return r.Of != OfDepth })
}

// nearest returns the chain's point that is nearest to q, its outward normal, and how far outside q stands.
func (c *comparer) nearest(of Surface, q geom.Pt) (foot, outward geom.Pt, off float64) {
	line, best := c.chains[of], math.Inf(1)
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		ab := b.Sub(a)
		l2 := ab.Dot(ab)
		if l2 == 0 {
			continue
		}
		p := a.Lerp(b, math.Max(0, math.Min(1, q.Sub(a).Dot(ab)/l2)))
		if d := q.Dist(p); d < best {
			best, foot, outward = d, p, ab.Unit().Left()
		}
	}
	if of == OfLower {
		outward = outward.Mul(-1)
	}
	if q.Sub(foot).Dot(outward) < 0 {
		best = -best
	}
	return foot, outward, best
}

// atNose reports whether a station is the leading edge's.
func (c *comparer) atNose(x float64) bool { return math.Abs(x-c.upper[0].X) <= geom.Flat }

// nominal returns what the contour measures at a station, and whether it reaches there. At the leading edge it
// is that point's ordinate, though a cambered nose hangs over it.
func (c *comparer) nominal(of Surface, x float64) (float64, bool) {
	u, upOK := height(c.upper, x)
	l, loOK := height(c.lower, x)
	if c.atNose(x) {
		u, l, upOK, loOK = c.upper[0].Y, c.lower[0].Y, true, true
	}
	switch of {
	case OfUpper:
		return u, upOK
	case OfLower:
		return l, loOK
	}
	return u - l, upOK && loOK
}

// height returns the ordinate of a side at a station. From the tail forward: where the nose hangs over,
// the last crossing is the one that a builder measures.
func height(line []geom.Pt, x float64) (float64, bool) {
	const hair = 1e-3 // mm
	n := len(line)
	if last := line[n-1]; x >= last.X {
		return last.Y, x <= last.X+hair
	}
	for i := n - 1; i > 0; i-- {
		if a, b := line[i-1], line[i]; a.X <= x && x <= b.X && a.X < b.X {
			return a.Lerp(b, (x-a.X)/(b.X-a.X)).Y, true
		}
	}
	return line[0].Y, x >= line[0].X-hair
}

// depthAt is the contour's depth, running straight on beyond its ends so that a fit may pass over them.
func (c *comparer) depthAt(x float64) float64 {
	at := func(of Surface) float64 {
		line := c.chains[of]
		if end := line[len(line)-1]; x > end.X {
			return end.Y
		}
		side := [2][]geom.Pt{c.upper, c.lower}[of]
		if n := len(side); x > side[n-1].X {
			y, _ := height(line[len(line)-2:], x)
			return y
		}
		y, _ := height(side, x)
		return y
	}
	return at(OfUpper) - at(OfLower)
}

// foot returns where a reading's deviation is drawn: with nothing fitted.
func (c *comparer) foot(r Reading) (at, outward geom.Pt) {
	if r.Of == OfDepth {
		y, _ := height(c.upper, r.Station)
		return geom.Pt{X: r.Station, Y: y}, geom.Pt{Y: 1}
	}
	at, outward, _ = c.nearest(r.Of, geom.Pt{X: r.Station, Y: r.Value})
	return at, outward
}

// residuals returns how far each reading stands off the contour, with the move p taken off it.
func (c *comparer) residuals(p [5]float64) []float64 {
	kx, ky := math.Exp(-p[3]), math.Exp(-p[4])
	sin, cos := math.Sincos(-p[2])
	back := geom.Transform{A: cos, B: sin, C: -sin, D: cos}
	out := make([]float64, len(c.readings))
	for i, r := range c.readings {
		switch {
		case r.Of == OfDepth && c.atNose(r.Station): // a nose measures nothing there, though it may hang over
			out[i] = float64(r.Value*ky) - (c.upper[0].Y - c.lower[0].Y)
			continue
		case r.Of == OfDepth:
			out[i] = float64(r.Value*ky) - c.depthAt(float64((r.Station-p[0])*kx))
			continue
		}
		q := back.Pt(geom.Pt{X: r.Station - p[0], Y: r.Value - p[1]})
		_, _, out[i] = c.nearest(r.Of, geom.Pt{X: float64(q.X * kx), Y: float64(q.Y * ky)})
	}
	return out
}

// spread is the standard deviation that the middle of the residuals tells: 1.4826 times their median
// size, raised for the numbers that were fitted to them.
func (c *comparer) spread(res []float64) float64 {
	size := make([]float64, len(res))
	for i, r := range res {
		size[i] = math.Abs(r)
	}
	slices.Sort(size)
	n := len(size)
	s := 1.4826 * (size[(n-1)/2] + size[n/2]) / 2
	return math.Max(s*math.Sqrt(float64(n)/float64(n-len(c.free))), finest)
}

// solve finds the best move by Gauss's and Newton's steps, weighted anew each round.
func (c *comparer) solve() (p [5]float64, weights []float64, ok bool) {
	n := len(c.readings)
	if n < 2*len(c.free) {
		return p, nil, false
	}
	for round := range rounds {
		res := c.residuals(p)
		weights = weigh(res, c.spread(res), round < coarse)
		j, rhs := c.slopes(p), mat.NewVecDense(n, nil)
		for i, w := range weights {
			root := math.Sqrt(w)
			rhs.SetVec(i, -res[i]*root)
			for k := range c.free {
				j.Set(i, k, j.At(i, k)*root)
			}
		}
		var step mat.VecDense
		if err := step.SolveVec(j, rhs); err != nil {
			return p, nil, false
		}
		largest := 0.0
		for k, dir := range c.free {
			d := step.AtVec(k)
			largest = math.Max(largest, math.Abs(d))
			for m := range p {
				p[m] += float64(d * dir[m])
			}
		}
		if !sane(p, c.chord) {
			return p, nil, false
		}
		if largest < 1e-6 && round > coarse {
			break
		}
	}
	return p, weights, true
}

// sane holds the fit to what can happen to a print or a rib: beyond, the readings are of something else.
func sane(p [5]float64, chord float64) bool {
	return math.Abs(p[0]) < chord/2 && math.Abs(p[1]) < chord/2 && math.Abs(p[2]) < 0.5 &&
		math.Abs(p[3]) < math.Ln2 && math.Abs(p[4]) < math.Ln2
}

func weigh(res []float64, s float64, gentle bool) []float64 {
	out := make([]float64, len(res))
	for i, r := range res {
		t := math.Abs(r) / s
		switch {
		case gentle:
			out[i] = math.Min(1, huber/math.Max(t, huber))
		case t < tukey:
			k := 1 - float64((t/tukey)*(t/tukey))
			out[i] = k * k
		}
	}
	return out
}

// slopes returns how the residuals change along each free direction, by central differences.
func (c *comparer) slopes(p [5]float64) *mat.Dense {
	const h = 1e-2 // mm at the tail: over several chords of the contour's line
	j := mat.NewDense(len(c.readings), len(c.free), nil)
	for k, dir := range c.free {
		ahead, behind := p, p
		for m := range p {
			ahead[m] += float64(h * dir[m])
			behind[m] -= float64(h * dir[m])
		}
		a, b := c.residuals(ahead), c.residuals(behind)
		for i := range a {
			j.Set(i, k, (a[i]-b[i])/(2*h))
		}
	}
	return j
}

// describe says what the fit found, with the standard deviations of the scales from the normal equations.
func (c *comparer) describe(p [5]float64, weights []float64, f Fit) Fit {
	res := c.residuals(p)
	var sum, count float64
	for i, w := range weights {
		sum += float64(w * float64(res[i]*res[i]))
		count += w
	}
	free := len(c.free)
	if count <= float64(free) {
		return f
	}
	f.Spread = math.Sqrt(sum / (count - float64(free)))
	j := c.slopes(p)
	var weighted, normal, inverse mat.Dense
	weighted.Mul(mat.NewDiagDense(len(weights), weights), j)
	normal.Mul(j.T(), &weighted)
	if err := inverse.Inverse(&normal); err != nil {
		return f
	}
	f.OK = true
	f.Shift, f.Turn = geom.Pt{X: p[0], Y: p[1]}, p[2]
	f.ScaleX, f.ScaleY = math.Exp(p[3]), math.Exp(p[4])
	deviation := func(k int) float64 { return f.Spread * math.Sqrt(math.Max(inverse.At(k, k), 0)) / c.chord }
	f.ScaleXErr, f.ScaleYErr = deviation(free-1)*f.ScaleX, deviation(free-1)*f.ScaleY
	if f.Apart {
		f.ScaleXErr = deviation(free-2) * f.ScaleX
	}
	return f
}
