package pack

import (
	"math"
	"slices"

	"ribwright/geom"
)

// hair is the depth below which two parts that touch do not overlap, mm: far above rounding, below geom.Coincident.
const hair = 1e-7

// ringAround returns the outline as a polygon, counter-clockwise, that holds it: arcs become tangents or chords within tol of them; those that
// bulge outward become tangents, arcs that bulge inward chords, and dents shallower than tol, or than a small share of the
// outline's size, are filled: a slightly hollow outline falls into fewer convex pieces then. It is nil where the outline is open, crosses itself, has no area or holds what is not a number.
func ringAround(p geom.Path, tol float64) geom.Ring {
	if !p.Closed || len(p.Segs) == 0 || len(p.Segs) > 5000 || !finite(p.Start) {
		return nil
	}
	for _, g := range p.Segs {
		if !finite(g.End) || math.Abs(g.Bulge) > 1e6 || math.IsNaN(g.Bulge) {
			return nil
		}
	}
	fine := tidyRing(p.Flatten(math.Min(tol, geom.Flat)))
	if len(fine) < 3 || !isSimple(fine) {
		return nil
	}
	if p.Area() < 0 {
		p = p.Reverse()
	}
	r := tidyRing(tangents(p, tol))
	if len(r) < 3 || !isSimple(r) { // tangents met where the outline nearly does
		r = convexHull(append(fine, r...))
	}
	box := r.Box()
	deep := max(tol, dent*math.Sqrt(float64(box.W()*box.H())))
	r = fillDents(r, deep)
	for limit := box.W() + box.H(); inwardCorners(r) > mostInward && deep < limit; {
		deep *= 2
		r = fillDents(r, deep)
	}
	if inwardCorners(r) > mostInward {
		r = convexHull(r)
	}
	return r
}

func inwardCorners(r geom.Ring) int {
	n := 0
	for i, p := range r {
		if p.Sub(r[(i+len(r)-1)%len(r)]).Cross(r[(i+1)%len(r)].Sub(p)) < 0 {
			n++
		}
	}
	return n
}

// mostInward is how many corners of an outline may turn inward; where there are more, the shallowest dents are filled, for the
// no-fit region of two parts has as many convex pieces as the product of theirs.
const mostInward = 24

// dent is the depth of dents that are filled, as a share of an outline's size. At 0.003 the swim set of testdata/packing
// loses 0.1 % of its area and falls into half as many pairs of convex pieces.
const dent = 0.003

// finite reports whether the point is one, within 10 km of the origin: farther off a hair is lost in rounding.
func finite(p geom.Pt) bool { return math.Abs(p.X) <= 1e7 && math.Abs(p.Y) <= 1e7 }

// tangents returns the path's points, each arc that turns left replaced by tangents within tol of it, each that turns right by chords.
func tangents(p geom.Path, tol float64) []geom.Pt {
	out, a := []geom.Pt{p.Start}, p.Start
	for _, g := range p.Segs {
		switch {
		case g.Bulge > 0 && a != g.End:
			c, r, t, w := geom.Arc(a, g.End, g.Bulge)
			// tangents that touch at steps of s meet at r/cos(s/2) from the centre
			n := max(1, int(math.Ceil(w/(2*math.Acos(r/(r+tol))))), int(math.Ceil(w/1.5)))
			s := w / float64(n)
			for k := 0; k < n; k++ {
				out = append(out, c.Along(geom.Polar(t+float64(s*(float64(k)+0.5))), r/math.Cos(s/2)))
			}
		case g.Bulge < 0:
			arc := geom.Path{Start: a, Segs: []geom.Seg{g}}.Flatten(tol)
			out = append(out, arc[1:len(arc)-1]...)
		}
		out, a = append(out, g.End), g.End
	}
	return out
}

// tidyRing drops points that coincide with the one before them, and then points on straight lines between their neighbours.
func tidyRing(r geom.Ring) geom.Ring {
	out := make(geom.Ring, 0, len(r))
	for _, p := range r {
		if len(out) == 0 || p.Dist(out[len(out)-1]) >= hair {
			out = append(out, p)
		}
	}
	for len(out) > 1 && out[0].Dist(out[len(out)-1]) < hair {
		out = out[:len(out)-1]
	}
	for i, left := 0, len(out); left > 0 && len(out) > 2; left-- {
		n := len(out)
		i %= n
		prev, next := out[(i+n-1)%n], out[(i+1)%n]
		d := next.Sub(prev)
		back := out[i].Sub(prev).Dot(next.Sub(out[i])) < 0 // a spike: isSimple refuses it
		if back || math.Abs(d.Cross(out[i].Sub(prev))) > float64(1e-9*d.Len()) {
			i++
			continue
		}
		out = slices.Delete(out, i, i+1)
		i, left = (i+n-2)%(n-1), len(out)+1
	}
	return out
}

// isSimple reports whether no two edges of the ring meet but neighbours in their common corner.
func isSimple(r geom.Ring) bool {
	n := len(r)
	if !(math.Abs(r.Area()) > hair) {
		return false
	}
	for i := 0; i < n; i++ {
		a, b := r[i], r[(i+1)%n]
		lox, hix, loy, hiy := min(a.X, b.X), max(a.X, b.X), min(a.Y, b.Y), max(a.Y, b.Y)
		if u, v := b.Sub(a), r[(i+2)%n].Sub(b); u.Dot(v) < 0 && math.Abs(u.Cross(v)) <= float64(1e-9*max(u.Len(), v.Len())) {
			return false // turns back on itself
		}
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			c, d := r[j], r[(j+1)%n]
			if max(c.X, d.X) < lox || min(c.X, d.X) > hix || max(c.Y, d.Y) < loy || min(c.Y, d.Y) > hiy {
				continue
			}
			if edgesMeet(a, b, c, d) {
				return false
			}
		}
	}
	return true
}

// edgesMeet reports whether the segments ab and cd, whose boxes meet, have a point in common.
func edgesMeet(a, b, c, d geom.Pt) bool {
	ab, cd := b.Sub(a), d.Sub(c)
	u, v := ab.Cross(c.Sub(a)), ab.Cross(d.Sub(a))
	s, t := cd.Cross(a.Sub(c)), cd.Cross(b.Sub(c))
	return (u <= 0 && v >= 0 || u >= 0 && v <= 0) && (s <= 0 && t >= 0 || s >= 0 && t <= 0)
}

// convexHull returns the hull, counter-clockwise, without points on its edges (Andrew's monotone chain).
func convexHull(pts []geom.Pt) geom.Ring {
	pts = sortedPts(pts)
	out := make(geom.Ring, 0, len(pts)+1)
	for pass := 0; pass < 2; pass++ {
		base := len(out)
		for k := range pts {
			p := pts[k]
			if pass == 1 {
				p = pts[len(pts)-1-k]
			}
			for len(out) >= base+2 && out[len(out)-1].Sub(out[len(out)-2]).Cross(p.Sub(out[len(out)-1])) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		out = out[:len(out)-1]
	}
	return out
}

// convexRing returns a ring that is convex and counter-clockwise but for rounding without the corners that are none, from the
// leftmost one on.
func convexRing(r geom.Ring) geom.Ring {
	first := 0
	for i, p := range r {
		if q := r[first]; p.X < q.X || p.X == q.X && p.Y < q.Y {
			first = i
		}
	}
	out := make(geom.Ring, 0, len(r)+1)
	for i := 0; i <= len(r); i++ { // at last the first one again
		p := r[(first+i)%len(r)]
		for len(out) >= 2 && out[len(out)-1].Sub(out[len(out)-2]).Cross(p.Sub(out[len(out)-1])) <= 0 {
			out = out[:len(out)-1]
		}
		out = append(out, p)
	}
	return out[:len(out)-1]
}

// fillDents takes out corners that turn inward by less than tol, so that slightly hollow outlines need few convex pieces. Every
// corner taken out stays within tol of the outline.
func fillDents(r geom.Ring, tol float64) geom.Ring {
	type corner struct {
		p    geom.Pt
		gone []geom.Pt // taken out between this corner and the next
	}
	cs := make([]corner, len(r))
	for i, p := range r {
		cs[i].p = p
	}
	for i, left := 0, len(cs); left > 0 && len(cs) > 3; left-- {
		n := len(cs)
		i %= n
		prev, next := (i+n-1)%n, (i+1)%n
		a, p, b := cs[prev].p, cs[i].p, cs[next].p
		gone := append(append(append([]geom.Pt{}, cs[prev].gone...), p), cs[i].gone...)
		ok := p.Sub(a).Cross(b.Sub(p)) < 0
		for _, q := range gone {
			ok = ok && geom.Distance(q, []geom.Pt{a, b}, false) <= tol
		}
		for j := range cs {
			if ok && j != prev && j != i && j != next && inTriangle(cs[j].p, a, b, p) {
				ok = false
			}
		}
		if !ok {
			i++
			continue
		}
		cs[prev].gone = gone
		cs = append(cs[:i], cs[i+1:]...)
		if prev > i {
			prev--
		}
		i, left = prev, len(cs)+1
	}
	out := make(geom.Ring, len(cs))
	for i, c := range cs {
		out[i] = c.p
	}
	return out
}

// inTriangle reports whether q lies in the triangle a, b, c, counter-clockwise, its edges included.
func inTriangle(q, a, b, c geom.Pt) bool {
	return b.Sub(a).Cross(q.Sub(a)) >= 0 && c.Sub(b).Cross(q.Sub(b)) >= 0 && a.Sub(c).Cross(q.Sub(c)) >= 0
}

// ringDist returns the least distance between the outlines of two rings, 0 where they cross.
func ringDist(a, b geom.Ring, atMost float64) float64 {
	best := atMost
	near := b.Box().Grow(atMost)
	for i, p := range a {
		q := a[(i+1)%len(a)]
		e := geom.NewBox(p, q)
		if !e.Meets(near) {
			continue
		}
		e = e.Grow(best)
		for j, u := range b {
			v := b[(j+1)%len(b)]
			f := geom.NewBox(u, v)
			if !e.Meets(f) {
				continue
			}
			if e.Grow(-best).Meets(f) && edgesMeet(p, q, u, v) {
				return 0
			}
			best = min(best, geom.Distance(p, []geom.Pt{u, v}, false), geom.Distance(q, []geom.Pt{u, v}, false),
				geom.Distance(u, []geom.Pt{p, q}, false), geom.Distance(v, []geom.Pt{p, q}, false))
		}
	}
	return best
}
