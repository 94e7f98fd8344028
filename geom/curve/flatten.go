package curve

import (
	"math"

	"ribwright/geom"
)

const (
	probes   = 5  // places looked at between the ends of a piece; with fewer an inflection hides the error
	maxSplit = 16 // pieces a span is cut into at one time: its bend is known at the probes only
	maxDepth = 20 // of cutting; never reached by a curve without a gap
)

// Flatten returns a polyline that leaves the curve by at most tol, in mm. It passes through the curve at
// every break; between breaks its chords are long where the curve is flat and short where it bends. The
// breaks stand in order, rising or falling; the curve must be smooth between two of them and turn by less
// than half a turn. A tol below geom.Coincident counts as geom.Coincident.
func Flatten(at func(s float64) geom.Pt, breaks []float64, tol float64) []geom.Pt {
	if len(breaks) == 0 {
		return nil
	}
	if !(tol > geom.Coincident) {
		tol = geom.Coincident
	}
	f := flattener{at: at, tol: tol, out: make([]geom.Pt, 0, 8*len(breaks))}
	f.out = append(f.out, at(breaks[0]))
	for i := 1; i < len(breaks); i++ {
		f.piece(breaks[i-1], breaks[i], f.out[len(f.out)-1], at(breaks[i]), 0)
	}
	return f.out
}

type flattener struct {
	at  func(float64) geom.Pt
	tol float64
	out []geom.Pt
}

// piece appends the polyline from a (which is there already) to b, in one chord or in the pieces that the
// bend asks for.
func (f *flattener) piece(a, b float64, pa, pb geom.Pt, depth int) {
	d := f.offsets(a, b, pa, pb)
	e := largest(d)
	if !(e > f.tol) || math.IsInf(e, 0) || depth == maxDepth {
		f.out = append(f.out, pb)
		return
	}
	cuts, n := shares(d, f.tol)
	p, s := pa, a
	for i := 1; i <= n; i++ {
		q, t := pb, b
		if i < n {
			t = a + float64((b-a)*cuts[i])
			q = f.at(t)
		}
		f.piece(s, t, p, q, depth+1)
		p, s = q, t
	}
}

// offsets are the curve's distances from a chord, at the chord's ends and at equal steps between.
type offsets [probes + 2]float64

func (f *flattener) offsets(a, b float64, pa, pb geom.Pt) (d offsets) {
	for i := 1; i <= probes; i++ {
		d[i] = offChord(f.at(a+float64((b-a)*float64(i)/(probes+1))), pa, pb)
	}
	return d
}

// largest returns the largest distance of the curve from the chord. Between the probes a parabola through
// three of them stands for the distance: exact for a curve of the second degree, and for the S of a cubic
// 2.7 % on the safe side.
func largest(d offsets) float64 {
	worst := 0.0
	for i := 1; i <= probes; i++ {
		e := math.Abs(d[i])
		if e >= math.Abs(d[i-1]) && e >= math.Abs(d[i+1]) {
			if bend := math.Abs(d[i-1] + d[i+1] - float64(2*d[i])); bend > 0 {
				e += float64((d[i+1]-d[i-1])*(d[i+1]-d[i-1])) / (8 * bend)
			}
		}
		worst = math.Max(worst, e)
	}
	return float64(worst * 1.002)
}

// shares returns where to cut a piece, as shares of it, and into how many pieces n: cuts[1] to cuts[n-1].
// A chord over a step h leaves a curve by |y″|·h²/8, so √(|y″|/8tol) chords are due on each unit of
// length; y″ comes from the second differences of the offsets.
func shares(d offsets, tol float64) (cuts [maxSplit + 1]float64, n int) {
	const h = 1.0 / (probes + 1)
	var due [probes + 3]float64 // chords due before each edge; the edges lie midway between the probes
	edge := func(i int) float64 {
		switch i {
		case 0:
			return 0
		case probes:
			return 1
		}
		return h * (float64(i) + 0.5)
	}
	for i := 1; i <= probes; i++ {
		bend := math.Abs(d[i-1]+d[i+1]-float64(2*d[i])) / h / h
		due[i] = due[i-1] + float64((edge(i)-edge(i-1))*math.Sqrt(bend/8/tol))
	}
	all := due[probes]
	n = int(math.Min(maxSplit, math.Max(2, math.Ceil(float64(1.03*all))))) // a few in a hundred more, or most would be cut again
	i := 1
	for k := 1; k < n; k++ {
		want := all * float64(k) / float64(n)
		for i < probes && due[i] < want {
			i++
		}
		cuts[k] = edge(i-1) + float64((edge(i)-edge(i-1))*(want-due[i-1])/(due[i]-due[i-1]))
	}
	return cuts, n
}

// offChord returns the distance of p from the segment a–b, positive to the left of it.
func offChord(p, a, b geom.Pt) float64 {
	u, v := b.Sub(a), p.Sub(a)
	c, l2, t := u.Cross(v), u.Dot(u), u.Dot(v)
	switch {
	case t < 0 || l2 == 0:
		return math.Copysign(v.Len(), c)
	case t > l2:
		return math.Copysign(p.Dist(b), c)
	}
	return c / math.Sqrt(l2)
}
