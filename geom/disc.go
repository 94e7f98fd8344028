package geom

import (
	"math"
	"sort"
)

// DiscClip returns the pieces of a disc that lie in a simple polygon, counter-clockwise, as paths with
// true arcs. The ring runs counter-clockwise.
func DiscClip(c Pt, r float64, ring Ring) []Path {
	runs := discRuns(c, r, ring)
	if len(runs) == 0 {
		switch {
		case len(ring) > 0 && ring[0].Dist(c) < r && math.Abs(ring.Area()) < math.Pi*r*r:
			return []Path{ring.Path()} // the whole polygon lies in the disc
		case ring.Holds(c):
			return []Path{Circle(c, r)}
		}
		return nil
	}
	sort.SliceStable(runs, func(i, j int) bool { return runs[i].in < runs[j].in })
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
			next := following(runs, runs[j].out)
			p.Segs = append(p.Segs, arcSegs(c, r, runs[j].out, runs[next].in, runs[next].pts[0])...)
			j = next
		}
		if p = p.Tidy(Coincident); len(p.Segs) > 1 {
			out = append(out, p)
		}
	}
	return out
}

// run is a stretch of the polygon inside the disc, with the directions at which it comes in and goes out.
type run struct {
	pts     []Pt
	in, out float64
}

// discRuns walks the polygon and collects its stretches inside the disc. Whether a corner is inside is
// asked once for each corner, so that every stretch that comes in also goes out.
func discRuns(c Pt, r float64, ring Ring) []run {
	n := len(ring)
	inside := make([]bool, n)
	for i, p := range ring {
		inside[i] = p.Dist(c) < r
	}
	var all []run
	var cur *run
	walk := func(i int) {
		a, b := ring[i], ring[(i+1)%n]
		d := b.Sub(a)
		t0, t1, ok := chord(a.Sub(c), d, r)
		switch u, v := inside[i], inside[(i+1)%n]; {
		case u && v:
			if cur != nil {
				cur.pts = append(cur.pts, b)
			}
		case u && !v:
			if cur != nil {
				p := a.Along(d, math.Max(0, math.Min(1, t1)))
				cur.pts, cur.out = append(cur.pts, p), p.Sub(c).Angle()
				all, cur = append(all, *cur), nil
			}
		case !u && v:
			p := a.Along(d, math.Max(0, math.Min(1, t0)))
			cur = &run{pts: []Pt{p, b}, in: p.Sub(c).Angle()}
		case ok && t0 > 0 && t1 < 1:
			p, q := a.Along(d, t0), a.Along(d, t1)
			all = append(all, run{[]Pt{p, q}, p.Sub(c).Angle(), q.Sub(c).Angle()})
		}
	}
	first := 0
	for first < n && inside[first] {
		first++
	}
	if first == n {
		return nil
	}
	for k := 0; k < n; k++ {
		walk((first + k) % n)
	}
	return all
}

// following returns the run that comes in next, counter-clockwise from direction a.
func following(runs []run, a float64) int {
	for k, r := range runs {
		if r.in >= a {
			return k
		}
	}
	return 0
}

// arcSegs returns the arc from direction a counter-clockwise to direction b, ending at end; an arc of
// more than half a turn comes in two, so that no bulge is large.
func arcSegs(c Pt, r, a, b float64, end Pt) []Seg {
	w := b - a
	if w < 0 {
		w += 2 * math.Pi
	}
	if w > math.Pi {
		return []Seg{{c.Along(Polar(a+w/2), r), math.Tan(w / 8)}, {end, math.Tan(w / 8)}}
	}
	return []Seg{{end, math.Tan(w / 4)}}
}

// Tidy returns the path without segments shorter than tol, and without corners on a straight line.
func (p Path) Tidy(tol float64) Path {
	out := Path{Start: p.Start, Closed: p.Closed}
	a := p.Start
	for i, g := range p.Segs {
		last := i == len(p.Segs)-1
		if a.Dist(g.End) < tol && !(last && !p.Closed) && math.Abs(g.Bulge) <= 1 {
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
