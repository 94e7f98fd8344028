package geom

import (
	"math"
	"math/rand"
	"sort"
	"testing"
)

// near fails the test where got is further than tol from want.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.12g, want %.12g (off by %.3g, allowed %.3g)", what, got, want, got-want, tol)
	}
}

// star returns a random star-shaped ring about c, counter-clockwise, with n corners between lo and hi from c.
func star(r *rand.Rand, n int, c Pt, lo, hi float64) Ring {
	out := make(Ring, n)
	loose := 0.8
	if n == 3 {
		loose = 0.4 // no gap of half a turn
	}
	for i := range out {
		a := 2 * math.Pi * (float64(i) + loose*r.Float64()) / float64(n)
		out[i] = c.Along(Polar(a), lo+(hi-lo)*r.Float64())
	}
	return out
}

// comb returns a ring with teeth of random height on a straight back, counter-clockwise, turned by a.
func comb(r *rand.Rand, teeth int, a float64) Ring {
	w := 10.0 * float64(teeth)
	out := Ring{{0, 0}, {w, 0}}
	for k := teeth - 1; k >= 0; k-- {
		x, tip := 10*float64(k), 5+30*r.Float64()
		out = append(out, Pt{x + 9, tip}, Pt{x + 6 - 3*r.Float64(), tip - 3*r.Float64()}, Pt{x + 0.5 + r.Float64(), 1 + 3*r.Float64()})
	}
	return Ring(Turn(Pt{w / 2, 15}, a).Pts(out))
}

// smooth returns a random smooth ring of n points, counter-clockwise, about r0 in radius, often waisted.
func smooth(r *rand.Rand, n int, r0, wave float64) Ring {
	var amp, ph [6]float64
	for k := range amp {
		amp[k], ph[k] = wave*(2*r.Float64()-1)/float64(k+1), 2*math.Pi*r.Float64()
	}
	amp[0], amp[1] = amp[0]/2, wave*(0.3+0.6*r.Float64()) // the second one makes the waist
	out := make(Ring, n)
	for i := range out {
		a := 2 * math.Pi * float64(i) / float64(n)
		f := 1.0
		for k := range amp {
			f += amp[k] * math.Cos(float64(k+1)*a+ph[k])
		}
		out[i] = Polar(a).Mul(r0 * math.Max(f, 0.15))
	}
	return out
}

// naca4 returns the contour of a four-digit section from its equations (Abbott and von Doenhoff, Theory of
// Wing Sections, 6.4), n points a side on a cosine spacing, counter-clockwise from the upper trailing edge
// to the lower one. last is the thickness formula's x⁴ coefficient: −0.1015 as published (blunt tail), −0.1036
// for a sharp one.
func naca4(m, p, t, chord, last float64, n int) []Pt {
	var up, lo []Pt
	for i := 0; i <= n; i++ {
		x := (1 - math.Cos(math.Pi*float64(i)/float64(n))) / 2
		yt := 5 * t * (0.2969*math.Sqrt(x) - 0.1260*x - 0.3516*x*x + 0.2843*x*x*x + last*x*x*x*x)
		var yc, dy float64
		switch {
		case m == 0:
		case x < p:
			yc, dy = m/(p*p)*(2*p*x-x*x), 2*m/(p*p)*(p-x)
		default:
			yc, dy = m/((1-p)*(1-p))*(1-2*p+2*p*x-x*x), 2*m/((1-p)*(1-p))*(p-x)
		}
		s, c := math.Sincos(math.Atan(dy))
		up = append(up, Pt{chord * (x - yt*s), chord * (yc + yt*c)})
		lo = append(lo, Pt{chord * (x + yt*s), chord * (yc - yt*c)})
	}
	out := make([]Pt, 0, 2*n+1)
	for i := n; i >= 0; i-- {
		out = append(out, up[i])
	}
	return append(out, lo[1:]...)
}

// wantSimple fails where two edges of the chain cross or touch away from a common corner, or one folds back
// on its neighbour. Every pair is looked at.
func wantSimple(t *testing.T, what string, pts []Pt, closed bool) bool {
	t.Helper()
	if i, j, ok := selfMeeting(pts, closed); ok {
		n := len(pts)
		t.Errorf("%s: edge %d %v–%v meets edge %d %v–%v", what, i, pts[i], pts[(i+1)%n], j, pts[j], pts[(j+1)%n])
		return false
	}
	return true
}

func selfMeeting(pts []Pt, closed bool) (i, j int, found bool) {
	n := len(pts)
	edges := n
	if !closed {
		edges--
	}
	for i := 0; i < edges; i++ {
		a, b := pts[i], pts[(i+1)%n]
		lo, hi := Pt{math.Min(a.X, b.X), math.Min(a.Y, b.Y)}, Pt{math.Max(a.X, b.X), math.Max(a.Y, b.Y)}
		for j := i + 1; j < edges; j++ {
			c, d := pts[j], pts[(j+1)%n]
			if c.X < lo.X && d.X < lo.X || c.X > hi.X && d.X > hi.X || c.Y < lo.Y && d.Y < lo.Y || c.Y > hi.Y && d.Y > hi.Y {
				continue
			}
			if j == i+1 || closed && i == 0 && j == edges-1 {
				u, v := b.Sub(a).Unit(), d.Sub(c).Unit()
				if u.Dot(v) < 0 && math.Abs(u.Cross(v)) < 1e-9 {
					return i, j, true
				}
				continue
			}
			s := func(o, p, q Pt) float64 { return p.Sub(o).Cross(q.Sub(o)) }
			if s(a, b, c)*s(a, b, d) <= 0 && s(c, d, a)*s(c, d, b) <= 0 {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

// section returns the sorted heights at which the upright line at x crosses the ring; x is no corner's.
func section(ring Ring, x float64) []float64 {
	var ys []float64
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.X > x) != (b.X > x) {
			ys = append(ys, a.Y+(x-a.X)/(b.X-a.X)*(b.Y-a.Y))
		}
	}
	sort.Float64s(ys)
	return ys
}

// overlap returns the length common to two sets of intervals, each given by its sorted ends.
func overlap(u, v []float64) float64 {
	s := 0.0
	for i := 0; i+1 < len(u); i += 2 {
		for j := 0; j+1 < len(v); j += 2 {
			s += math.Max(0, math.Min(u[i+1], v[j+1])-math.Max(u[i], v[j]))
		}
	}
	return s
}

// crossPoints returns where the edges of two rings cross.
func crossPoints(a, b Ring) (out Ring) {
	for i, p := range a {
		q := a[(i+1)%len(a)]
		for j, c := range b {
			d := b[(j+1)%len(b)]
			r, s := q.Sub(p), d.Sub(c)
			if den := r.Cross(s); den != 0 {
				if k := c.Sub(p).Cross(s) / den; k > 0 && k < 1 {
					out = append(out, p.Along(r, k))
				}
			}
		}
	}
	return out
}

// slabs integrates over x a length that is linear in x between the points given: its middle value times
// the width is exact.
func slabs(pts Ring, length func(x float64) float64) float64 {
	xs := make([]float64, len(pts))
	for i, p := range pts {
		xs[i] = p.X
	}
	sort.Float64s(xs)
	sum := 0.0
	for i := 0; i+1 < len(xs); i++ {
		sum += (xs[i+1] - xs[i]) * length((xs[i]+xs[i+1])/2)
	}
	return sum
}

// slabCommon returns the area common to two rings by their upright sections.
func slabCommon(a, b Ring) float64 {
	return slabs(append(append(crossPoints(a, b), a...), b...),
		func(x float64) float64 { return overlap(section(a, x), section(b, x)) })
}

// legendre holds nodes and weights of the 8-point Gauss-Legendre rule on [−1, 1] (Abramowitz and Stegun,
// table 25.4), for both signs.
var legendre = [4][2]float64{
	{0.1834346424956498, 0.3626837833783620},
	{0.5255324099163290, 0.3137066458778873},
	{0.7966664774136267, 0.2223810344533745},
	{0.9602898564975363, 0.1012285362903763},
}

// gauss integrates f over [a, b].
func gauss(f func(float64) float64, a, b float64) float64 {
	m, h, s := (a+b)/2, (b-a)/2, 0.0
	for _, g := range legendre {
		s += g[1] * (f(m-h*g[0]) + f(m+h*g[0]))
	}
	return h * s
}

// slabDisc returns the area common to a disc and a ring: the common upright extent integrated over
// x = c.X − r·cos(u), which makes the disc's half height r·sin(u) smooth at its ends.
func slabDisc(c Pt, r float64, ring Ring) float64 {
	us := []float64{0, math.Pi}
	add := func(x float64) {
		if k := (c.X - x) / r; k > -1 && k < 1 {
			us = append(us, math.Acos(k))
		}
	}
	for i, a := range ring {
		add(a.X)
		d := ring[(i+1)%len(ring)].Sub(a)
		m := a.Sub(c)
		if q := m.Dot(d)*m.Dot(d) - d.Dot(d)*(m.Dot(m)-r*r); q > 0 {
			for _, k := range []float64{(-m.Dot(d) - math.Sqrt(q)) / d.Dot(d), (-m.Dot(d) + math.Sqrt(q)) / d.Dot(d)} {
				if k > 0 && k < 1 {
					add(a.X + k*d.X)
				}
			}
		}
	}
	for k := 1; k < 8; k++ {
		us = append(us, math.Pi*float64(k)/8)
	}
	sort.Float64s(us)
	sum := 0.0
	for i := 0; i+1 < len(us); i++ {
		sum += gauss(func(u float64) float64 {
			s, k := math.Sincos(u)
			return r * s * overlap(section(ring, c.X-r*k), []float64{c.Y - r*s, c.Y + r*s})
		}, us[i], us[i+1])
	}
	return sum
}
