package geom

import (
	"math"
	"slices"
)

// DiscClip returns the pieces of a disc of centre c and radius r that lie in a simple polygon,
// counter-clockwise, as closed paths with true arcs. The ring runs counter-clockwise. A disc that the ring
// does not cut is a path that IsCircle knows, also where it touches the ring or crosses it by less than a
// hundred-millionth of a millimetre; a polygon that lies wholly in the disc comes back as it is.
func DiscClip(c Pt, r float64, ring Ring) []Path {
	ring = slices.Compact(slices.Clone(ring))
	if n := len(ring); n > 1 && ring[0] == ring[n-1] {
		ring = ring[:n-1]
	}
	if len(ring) < 3 || r <= 0 {
		return nil
	}
	runs, whole := discRuns(c, r, ring)
	switch {
	case whole:
		return []Path{ring.Path()}
	case len(runs) == 0 && ring.Holds(c):
		return []Path{Circle(c, r)}
	}
	used := make([]bool, len(runs))
	var out []Path
	for k := range runs {
		if used[k] {
			continue
		}
		p := Path{Start: runs[k].pts[0], Closed: true}
		for j := k; !used[j]; {
			used[j] = true
			for _, q := range runs[j].pts[1:] {
				p.Segs = append(p.Segs, Seg{End: q})
			}
			next, w := following(runs, runs[j])
			p.Segs = append(p.Segs, arcSegs(c, r, runs[j].out, w, runs[next].pts[0])...)
			j = next
		}
		if p = p.Tidy(Coincident); len(p.Segs) > 1 {
			out = append(out, p)
		}
	}
	return out
}

// shallow is the depth below which a polygon's stretch inside a circle counts as a touch.
const shallow = 1e-8

// run is a stretch of the polygon inside the disc, with the directions at which it comes in and goes out.
type run struct {
	pts     []Pt
	in, out float64
}

// discRuns walks the polygon and collects its stretches inside the disc; whole says that it never leaves
// it. Whether a corner is inside is asked once for each corner, so that every stretch that comes in also
// goes out. A corner on the circle is inside where the polygon comes from inside and turns back inside,
// its material between; else it is outside, and stretches begin and end exactly there.
func discRuns(c Pt, r float64, ring Ring) (all []run, whole bool) {
	n := len(ring)
	inside, on := make([]bool, n), make([]bool, n)
	first := -1
	for i, p := range ring {
		off := p.Dist(c) - r
		inside[i], on[i] = off < 0, math.Abs(off) < onEdge
		if on[i] {
			u, v, m := p.Sub(ring[(i+n-1)%n]), ring[(i+1)%n].Sub(p), c.Sub(p)
			inside[i] = u.Dot(m) < 0 && v.Dot(m) > 0 && u.Cross(v) > 0
		}
		if !inside[i] {
			first = i
		}
	}
	if first < 0 {
		return nil, true
	}
	var cur []Pt
	end := func() {
		if r-Distance(c, cur, false) > shallow {
			all = append(all, run{cur, cur[0].Sub(c).Angle(), cur[len(cur)-1].Sub(c).Angle()})
		}
		cur = nil
	}
	for k := 0; k < n; k++ {
		i, j := (first+k)%n, (first+k+1)%n
		a, b := ring[i], ring[j]
		d := b.Sub(a)
		t0, t1, ok := chord(a.Sub(c), d, r)
		p, q := a.Along(d, math.Max(0, math.Min(1, t0))), a.Along(d, math.Max(0, math.Min(1, t1)))
		if on[i] {
			p = a
		}
		if on[j] {
			q = b
		}
		switch u, v := inside[i], inside[j]; {
		case u && v:
			cur = append(cur, b)
		case u:
			cur = append(cur, q)
			end()
		case v:
			cur = []Pt{p, b}
		case ok && t0+t1 > 0 && t0+t1 < 2: // through the disc, both corners outside
			cur = []Pt{p, q}
			end()
		}
	}
	return all, false
}

// following returns the run that comes in next, counter-clockwise from where run a goes out, and the arc
// between. A run that comes in at the very same corner is the last to be met: such a corner points inward.
func following(runs []run, a run) (next int, sweep float64) {
	sweep = math.Inf(1)
	for k, b := range runs {
		w := b.in - a.out
		if w < 0 {
			w += 2 * math.Pi
		}
		if b.pts[0] == a.pts[len(a.pts)-1] {
			w = 2 * math.Pi
		}
		if w < sweep {
			next, sweep = k, w
		}
	}
	return next, sweep
}

// arcSegs returns the arc from direction a counter-clockwise by w, ending at end; an arc of more than half
// a turn comes in two, so that no bulge is large.
func arcSegs(c Pt, r, a, w float64, end Pt) []Seg {
	if w > math.Pi {
		return []Seg{{c.Along(Polar(a+float64(w/2)), r), math.Tan(w / 8)}, {end, math.Tan(w / 8)}}
	}
	return []Seg{{end, math.Tan(w / 4)}}
}

// Tidy returns the path without segments shorter than tol, and without corners on a straight line. It
// begins where it began and ends where it ended; a closed path keeps a corner at its start.
func (p Path) Tidy(tol float64) Path {
	out := Path{Start: p.Start, Closed: p.Closed}
	a := p.Start
	for i, g := range p.Segs {
		last := i == len(p.Segs)-1
		if a.Dist(g.End) < tol && !(last && !p.Closed) && math.Abs(g.Bulge) <= 1 {
			if k := len(out.Segs); last && k > 0 {
				out.Segs[k-1].End = g.End // closed to the last digit
			}
			continue
		}
		if k := len(out.Segs); k > 0 && g.Bulge == 0 && out.Segs[k-1].Bulge == 0 {
			from := out.Start
			if k > 1 {
				from = out.Segs[k-2].End
			}
			if segDist2(a, from, g.End) < onEdge*onEdge {
				out.Segs[k-1].End, a = g.End, g.End
				continue
			}
		}
		out.Segs, a = append(out.Segs, g), g.End
	}
	return out
}
