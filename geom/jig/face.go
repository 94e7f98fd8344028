package jig

import (
	"math"
	"slices"
	"sort"

	"ribwright/geom"
)

// face is an edge of wood that a block may bear on: a chain with the wood on its left and the block on its right.
type face struct {
	pts     []geom.Pt
	at      []float64 // length along the chain at each point
	longest float64   // of its lines, and a little
	inside  bool      // the block stands inside the rib, among plates and openings
	bears   []string  // the members whose edge it is; of the inner edge either cap
}

// newFace returns the face along a chain.
func newFace(pts []geom.Pt, inside bool, bears ...string) face {
	f := face{pts: pts, at: make([]float64, len(pts)), inside: inside, bears: bears}
	for i := 1; i < len(pts); i++ {
		l := pts[i].Dist(pts[i-1])
		f.at[i], f.longest = f.at[i-1]+l, max(f.longest, l+geom.Coincident)
	}
	return f
}

// innerChain returns the inner edge of the caps with the wood on its left: from the tail along the lower side to the nose, and back
// along the upper side. Where the tail is open it has two ends there.
func innerChain(in geom.Ring) []geom.Pt {
	r := in.Reverse()
	aft := r.Box().Max.X
	first := 0
	for i, p := range r { // the lower one of the corners at the tail
		if p.X > aft-geom.Coincident && (r[first].X <= aft-geom.Coincident || p.Y < r[first].Y) {
			first = i
		}
	}
	out := append(slices.Clone([]geom.Pt(r[first:])), r[:first]...)
	if last := out[len(out)-1]; last.X <= aft-geom.Coincident {
		out = append(out, out[0])
	}
	return out
}

func (f *face) length() float64 {
	if len(f.at) == 0 {
		return 0
	}
	return f.at[len(f.at)-1]
}

// point returns the point at a length along the chain.
func (f *face) point(s float64) geom.Pt { return f.pointAt(sort.SearchFloat64s(f.at, s), s) }

// pointAt is point, where k is the first of the chain's points that does not come before s.
func (f *face) pointAt(k int, s float64) geom.Pt {
	switch {
	case k == len(f.pts):
		return f.pts[k-1]
	case k == 0 || f.at[k] == s:
		return f.pts[k]
	}
	return f.pts[k-1].Lerp(f.pts[k], (s-f.at[k-1])/(f.at[k]-f.at[k-1]))
}

// nearest returns the length along the chain at which it comes nearest to a point.
func (f *face) nearest(p geom.Pt) float64 {
	best, s := math.Inf(1), 0.0
	for i := 1; i < len(f.pts); i++ {
		a := f.pts[i-1]
		if to := a.Sub(p); to.Dot(to) > float64((best+f.longest)*(best+f.longest)) {
			continue
		}
		d := f.pts[i].Sub(a)
		l := d.Len()
		if l == 0 {
			continue
		}
		t := math.Max(0, math.Min(1, p.Sub(a).Dot(d)/(l*l)))
		if dist := a.Along(d, t).Dist(p); dist < best {
			best, s = dist, f.at[i-1]+float64(t*l)
		}
	}
	return s
}

// stand is where a block stands on a face.
type stand struct {
	boxed
	at    geom.Pt // the middle of the edge that bears
	chord geom.Pt // along that edge
}

// block returns the block that stands there.
func (q *stand) block() Block {
	return Block{Outline: slices.Clone(q.corners[:]), At: q.at, Angle: q.chord.Angle(), Length: 2 * q.w, Width: 2 * q.h, body: q.boxed}
}

// stand returns where a block of a length and width stands that bears on the face about a place. Its edge lies along the
// face's chord over the block's length, and touches the face at the clearance.
func (f *face) stand(s, length, width, clearance float64) stand {
	half := float64(length / 2)
	lo := sort.SearchFloat64s(f.at, s-length)
	hi := lo
	next := func(s float64) geom.Pt {
		for hi < len(f.at) && f.at[hi] < s {
			hi++
		}
		return f.pointAt(hi, s)
	}
	a, p, b := next(s-half), next(s), next(s+half)
	next(s + length)
	u := b.Sub(a).Unit()
	n := u.Left().Mul(-1)    // away from the wood
	if f.length() < length { // a short edge: the block stands over both ends of it
		p = a.Lerp(b, 0.5)
	}
	// How far the face bulges over the chord through p, within the block's length.
	h := math.Inf(-1)
	local := func(i int) geom.Pt {
		d := f.pts[i].Sub(p)
		return geom.Pt{X: d.Dot(u), Y: d.Dot(n)}
	}
	from := local(max(lo-1, 0))
	for i := max(lo, 1); i <= min(hi, len(f.pts)-1); i++ {
		c, d := from, local(i)
		from = d
		if c.X > d.X {
			c, d = d, c
		}
		if d.X < -half || c.X > half {
			continue
		}
		if c.X < -half {
			c = c.Lerp(d, (-half-c.X)/(d.X-c.X))
		}
		if d.X > half {
			d = c.Lerp(d, (half-c.X)/(d.X-c.X))
		}
		h = max(h, c.Y, d.Y)
	}
	if math.IsInf(h, 0) {
		h = 0
	}
	e := p.Along(n, h+clearance)
	l, r := e.Along(u, -half), e.Along(u, half)
	return stand{newBoxed([4]geom.Pt{r, l, l.Along(n, width), r.Along(n, width)}, length, width), e, u}
}

// heading returns the direction of the face about a place, radians.
func (f *face) heading(s float64) float64 {
	const half = 2.0
	return f.point(s + half).Sub(f.point(s - half)).Angle()
}
