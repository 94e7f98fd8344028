package geom

import (
	"math"
	"sort"
)

// Parallel returns the curve at distance d to the left of a chain of points (negative: to the right),
// trimmed, not looped: what lies nearer to the chain than d is left out. For a closed chain, and where an
// open one runs back across itself, the result is rings with the chain's direction; where both ends of an open chain
// keep their parallels, open is the curve from the first to the last. Corners that open outward are rounded.
func Parallel(pts []Pt, closed bool, d float64) (rings []Ring, open []Pt) {
	pts = distinct(pts, closed)
	switch {
	case len(pts) < 2 || closed && len(pts) < 3:
		return nil, nil
	case d == 0 && closed:
		return []Ring{pts}, nil
	case d == 0:
		return nil, pts
	}
	raw := rawParallel(pts, closed, d)
	pieces := splitAtCrossings(raw, closed)
	var kept []piece
	for _, p := range pieces {
		if clear(p, pts, closed, math.Abs(d)) {
			kept = append(kept, p)
		}
	}
	return stitch(kept, closed)
}

// roundTol is how far the chords of a rounded corner keep within the arc.
const roundTol = Flat / 20

// distinct drops points that coincide with the one before them.
func distinct(pts []Pt, closed bool) []Pt {
	var out []Pt
	for _, p := range pts {
		if len(out) == 0 || p.Dist(out[len(out)-1]) > Coincident {
			out = append(out, p)
		}
	}
	for closed && len(out) > 1 && out[0].Dist(out[len(out)-1]) <= Coincident {
		out = out[:len(out)-1]
	}
	return out
}

// rawParallel shifts every edge by d to its left and joins neighbours: where they cross, at the crossing;
// where they would cross beyond their ends, by both ends (the loop is trimmed later); where they open, by an arc.
func rawParallel(pts []Pt, closed bool, d float64) []Pt {
	n := len(pts)
	edges := n
	if !closed {
		edges--
	}
	dir := make([]Pt, edges)
	for i := range dir {
		dir[i] = pts[(i+1)%n].Sub(pts[i]).Unit()
	}
	var out []Pt
	if !closed {
		out = append(out, pts[0].Along(dir[0].Left(), d))
	}
	for k := 0; k < edges; k++ {
		if !closed && k == edges-1 {
			break
		}
		i, j := k, (k+1)%edges
		out = append(out, corner(pts[i], pts[j], pts[(j+1)%n], dir[i], dir[j], d)...)
	}
	if !closed {
		out = append(out, pts[n-1].Along(dir[edges-1].Left(), d))
	}
	return out
}

// corner returns the parallel's points at corner p between the edges from a and to b with directions u and v.
func corner(a, p, b, u, v Pt, d float64) []Pt {
	turn := math.Atan2(u.Cross(v), u.Dot(v))
	q, w := p.Along(u.Left(), d), p.Along(v.Left(), d)
	mitre := d * math.Tan(turn/2) // what both edges lose, on the inner side
	switch {
	case math.Abs(mitre) < roundTol/10 && math.Abs(turn) < 0.1:
		return []Pt{q.Along(u, -mitre)}
	case mitre > 0 && mitre < a.Dist(p) && mitre < p.Dist(b):
		return []Pt{q.Along(u, -mitre)}
	case mitre > 0:
		return []Pt{q, p, w}
	}
	n := arcSteps(math.Abs(d), turn, roundTol)
	out := []Pt{q}
	r := q.Sub(p)
	for k := 1; k < n; k++ {
		s, c := math.Sincos(turn * float64(k) / float64(n))
		out = append(out, Pt{p.X + float64(r.X*c) - float64(r.Y*s), p.Y + float64(r.X*s) + float64(r.Y*c)})
	}
	return append(out, w)
}

// piece is a stretch of the raw curve between two crossings; node −1 is the end of an open chain.
type piece struct {
	pts      []Pt
	from, to int
}

// cut is a crossing on an edge of the raw curve.
type cut struct {
	edge int
	t    float64
	node int
	p    Pt
}

// splitAtCrossings cuts the curve wherever it crosses itself.
func splitAtCrossings(raw []Pt, closed bool) []piece {
	cuts := crossings(raw, closed)
	sort.SliceStable(cuts, func(i, j int) bool {
		if cuts[i].edge != cuts[j].edge {
			return cuts[i].edge < cuts[j].edge
		}
		return cuts[i].t < cuts[j].t
	})
	if len(cuts) == 0 {
		return []piece{{raw, -1, -1}}
	}
	var out []piece
	cur := piece{from: -1}
	next := 0
	for i, p := range raw {
		cur.pts = append(cur.pts, p)
		for ; next < len(cuts) && cuts[next].edge == i; next++ {
			c := cuts[next]
			cur.pts, cur.to = append(cur.pts, c.p), c.node
			out = append(out, cur)
			cur = piece{pts: []Pt{c.p}, from: c.node}
		}
	}
	cur.to = -1
	if closed { // the last stretch goes on over the seam into the first
		out[0].pts, out[0].from = append(cur.pts, out[0].pts...), cur.from
		return out
	}
	return append(out, cur)
}

// crossings returns every crossing of two edges that are not neighbours, twice: once on each edge. Edges
// are swept by x, so that a long smooth curve costs little more than its sorting.
func crossings(raw []Pt, closed bool) []cut {
	n := len(raw)
	edges := n - 1
	if closed {
		edges = n
	}
	type edge struct {
		lo, hi float64
		i      int
	}
	order := make([]edge, edges)
	for i := range order {
		a, b := raw[i].X, raw[(i+1)%n].X
		order[i] = edge{math.Min(a, b), math.Max(a, b), i}
	}
	sort.Slice(order, func(i, j int) bool {
		if order[i].lo != order[j].lo {
			return order[i].lo < order[j].lo
		}
		return order[i].i < order[j].i
	})
	var out []cut
	node := 0
	for k, e := range order {
		for _, f := range order[k+1:] {
			if f.lo > e.hi {
				break
			}
			if gap := max(e.i-f.i, f.i-e.i); gap == 1 || closed && gap == edges-1 {
				continue
			}
			p, t, u, ok := cross(raw[e.i], raw[(e.i+1)%n], raw[f.i], raw[(f.i+1)%n])
			if ok {
				out = append(out, cut{e.i, t, node, p}, cut{f.i, u, node, p})
				node++
			}
		}
	}
	return out
}

// cross returns where the segments ab and cd cross, with the shares along both.
func cross(a, b, c, d Pt) (p Pt, t, u float64, ok bool) {
	r, s, q := b.Sub(a), d.Sub(c), c.Sub(a)
	den := r.Cross(s)
	if den == 0 {
		return Pt{}, 0, 0, false
	}
	t, u = q.Cross(s)/den, q.Cross(r)/den
	if t < 0 || t >= 1 || u < 0 || u >= 1 {
		return Pt{}, 0, 0, false
	}
	return a.Along(r, t), t, u, true
}

// clear reports whether a piece keeps its distance from the chain: true parallels do to rounding, and the
// chords of rounded corners to roundTol.
func clear(p piece, chain []Pt, closed bool, d float64) bool {
	tol := 2 * roundTol
	step := max(1, len(p.pts)/8) // a piece is wholly right or wholly wrong: a few places tell, the worst decides
	for i := 0; i+1 < len(p.pts); i += step {
		if Distance(p.pts[i].Lerp(p.pts[i+1], 0.5), chain, closed) < d-tol {
			return false
		}
	}
	return len(p.pts) > 1
}

// stitch joins the kept pieces at their crossings. A chain of pieces that comes back to the crossing it
// set out from is a ring; one that runs from an open chain's first end to its last is open.
func stitch(kept []piece, closed bool) (rings []Ring, open []Pt) {
	from := map[int]int{}
	for k, p := range kept {
		from[p.from] = k
	}
	used := make([]bool, len(kept))
	for k := range kept {
		var pts []Pt
		end := kept[k].from
		j, ok := k, true
		for ok && !used[j] {
			used[j] = true
			pts, end = append(pts, kept[j].pts...), kept[j].to
			if end == kept[k].from {
				break
			}
			j, ok = from[end]
		}
		switch {
		case len(pts) == 0:
		case end == -1 && kept[k].from == -1 && !closed:
			open = distinct(pts, false)
		case end == kept[k].from:
			if r := Ring(distinct(pts, true)); len(r) >= 3 {
				rings = append(rings, r)
			}
		}
	}
	return rings, open
}
