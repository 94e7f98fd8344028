package geom

import (
	"math"
	"sort"
)

// Parallel returns the curve at distance d to the left of a chain of points (negative: to the right),
// trimmed, not looped: what lies nearer to the chain than d is left out. The chain must not cross itself,
// but its ends may, as a section's sides do when they are drawn on beyond a sharp tail.
// For a closed chain, and where an open one runs back across itself, the result is rings with the chain's
// direction; a ring in the opposite direction bounds a hole. Where both ends of an open chain keep their
// parallels, open is the curve from the first to the last. Corners that open outward are rounded, by chords that
// keep within Flat/20 of the arc; all else is at distance d but for rounding, or to 0.001 mm where a waist is
// just closing. What vanishes gives nothing: no rings and no curve.
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
	rings, open, whole := parallel(pts, closed, d)
	// Where stretches of the parallel coincide to the last digit no rule says which of them is the outer one.
	// A change of d far below Coincident parts them.
	for _, nudge := range []float64{1e-9, -1e-9, 1e-8, -1e-8} {
		if whole {
			break
		}
		if r, o, ok := parallel(pts, closed, d+nudge); ok {
			return r, o
		}
	}
	return rings, open
}

// parallel makes the curve; whole says that every stretch found its next and nothing crosses.
func parallel(pts []Pt, closed bool, d float64) (rings []Ring, open []Pt, whole bool) {
	var kept []piece
	for _, p := range splitAtCrossings(rawParallel(pts, closed, d), closed) {
		if p.from == p.to && p.from >= 0 && p.length() < Coincident {
			continue // between strands through one point
		}
		if clear(p, pts, closed, math.Abs(d)) {
			kept = append(kept, p)
		}
	}
	rings, open, whole = stitch(kept, closed, d)
	for _, r := range rings {
		whole = whole && len(crossings(r, true)) == 0
	}
	return rings, open, whole && len(crossings(open, false)) == 0
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

// knot is a point of the raw curve. rounded says that the edge which leaves it is a chord about a corner.
type knot struct {
	Pt
	rounded bool
}

// rawParallel shifts every edge by d to its left and joins neighbours: where they cross, at the crossing;
// where they would cross beyond their ends, by both ends (the loop is trimmed later); where they open, by an arc.
func rawParallel(pts []Pt, closed bool, d float64) []knot {
	n := len(pts)
	edges := n
	if !closed {
		edges--
	}
	dir := make([]Pt, edges)
	for i := range dir {
		dir[i] = pts[(i+1)%n].Sub(pts[i]).Unit()
	}
	var out []knot
	if !closed {
		out = append(out, knot{pts[0].Along(dir[0].Left(), d), false})
	}
	for k := 0; k < edges; k++ {
		if !closed && k == edges-1 {
			break
		}
		i, j := k, (k+1)%edges
		out = append(out, corner(pts[i], pts[j], pts[(j+1)%n], dir[i], dir[j], d)...)
	}
	if !closed {
		out = append(out, knot{pts[n-1].Along(dir[edges-1].Left(), d), false})
	}
	return out
}

// corner returns the parallel's points at corner p between the edges from a and to b with directions u and v.
func corner(a, p, b, u, v Pt, d float64) []knot {
	turn := math.Atan2(u.Cross(v), u.Dot(v))
	q, w := p.Along(u.Left(), d), p.Along(v.Left(), d)
	mitre := d * math.Tan(turn/2) // what both edges lose, on the inner side
	switch {
	case math.Abs(mitre) < roundTol/10 && math.Abs(turn) < 0.1:
		return []knot{{q.Along(u, -mitre), false}}
	case mitre > 0 && mitre < a.Dist(p) && mitre < p.Dist(b):
		return []knot{{q.Along(u, -mitre), false}}
	case mitre > 0:
		return []knot{{q, false}, {p, false}, {w, false}}
	}
	n := arcSteps(math.Abs(d), turn, roundTol)
	out := []knot{{q, true}}
	r := q.Sub(p)
	for k := 1; k < n; k++ {
		s, c := math.Sincos(turn * float64(k) / float64(n))
		at := Pt{p.X + (float64(r.X*c) - float64(r.Y*s)), p.Y + (float64(r.X*s) + float64(r.Y*c))}
		out = append(out, knot{at, true})
	}
	return append(out, knot{w, false})
}

// piece is a stretch of the raw curve between two crossings. Node −1 is the end of an open chain, or the
// seam of a closed one without crossings.
type piece struct {
	knots    []knot
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
func splitAtCrossings(raw []knot, closed bool) []piece {
	pts := make([]Pt, len(raw))
	for i, k := range raw {
		pts[i] = k.Pt
	}
	cuts := crossings(pts, closed)
	sort.SliceStable(cuts, func(i, j int) bool {
		if cuts[i].edge != cuts[j].edge {
			return cuts[i].edge < cuts[j].edge
		}
		return cuts[i].t < cuts[j].t
	})
	if len(cuts) == 0 {
		if closed {
			raw = append(raw, raw[0])
		}
		return []piece{{raw, -1, -1}}
	}
	var out []piece
	cur := piece{from: -1}
	for i, k := range raw {
		cur.knots = append(cur.knots, k)
		for ; len(cuts) > 0 && cuts[0].edge == i; cuts = cuts[1:] {
			c := knot{cuts[0].p, k.rounded}
			cur.knots, cur.to = append(cur.knots, c), cuts[0].node
			out = append(out, cur)
			cur = piece{knots: []knot{c}, from: cuts[0].node}
		}
	}
	cur.to = -1
	if closed { // the last stretch goes on over the seam into the first
		out[0].knots, out[0].from = append(cur.knots, out[0].knots...), cur.from
		return out
	}
	return append(out, cur)
}

// crossings returns every crossing of two edges that are not neighbours, twice: once on each edge. Edges
// are swept by x, so that a long smooth curve costs little more than its sorting.
func crossings(raw []Pt, closed bool) []cut {
	n := len(raw)
	edges := n
	if !closed {
		edges--
	}
	type edge struct {
		lo, hi float64
		i      int
	}
	order := make([]edge, max(0, edges))
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
				node := len(out)
				for k := 0; k < len(out); k += 2 {
					if out[k].p.Dist(p) < Coincident/10 { // several strands through one point
						node = out[k].node
						break
					}
				}
				out = append(out, cut{e.i, t, node, p}, cut{f.i, u, node, p})
			}
		}
	}
	return out
}

// Simple reports whether the ring nowhere crosses itself. Points that touch an edge count as crossings.
func (r Ring) Simple() bool { return len(crossings(r, true)) == 0 }

// cross returns where the segments ab and cd cross, with the shares along both. A point on the other's
// line counts as on its right, for both edges that share the point, so that a curve through a corner is
// crossed once.
func cross(a, b, c, d Pt) (p Pt, t, u float64, ok bool) {
	r, s := b.Sub(a), d.Sub(c)
	sc, sd := r.Cross(c.Sub(a)), r.Cross(d.Sub(a))
	sa, sb := s.Cross(a.Sub(c)), s.Cross(b.Sub(c))
	if (sa > 0) == (sb > 0) || (sc > 0) == (sd > 0) {
		return Pt{}, 0, 0, false
	}
	t, u = sa/(sa-sb), sc/(sc-sd)
	return a.Along(r, t), t, u, true
}

// clear reports whether a piece keeps its distance from the chain. A piece is wholly right or wholly
// wrong, but for the rounding of its ends: a few places tell, and the worst decides.
func clear(p piece, chain []Pt, closed bool, d float64) bool {
	step := max(1, len(p.knots)/8)
	for i := 0; i+1 < len(p.knots); i += step {
		m := p.knots[i].Lerp(p.knots[i+1].Pt, 0.5)
		near, corner := nearestOn(m, chain, closed)
		tol := 1e-9
		if p.knots[i].rounded {
			tol += roundTol // the chord cuts across the arc
		}
		if corner {
			tol += roundTol // so do the chords about that corner, where they end the piece
		}
		if near < d-tol {
			return false
		}
	}
	return len(p.knots) > 1
}

// nearestOn returns the least distance from p to the chain, and whether it is to one of its points.
func nearestOn(p Pt, chain []Pt, closed bool) (dist float64, corner bool) {
	n := len(chain)
	edges := n
	if !closed {
		edges--
	}
	best := math.Inf(1)
	for i := 0; i < edges; i++ {
		a, b := chain[i], chain[(i+1)%n]
		if s := segDist2(p, a, b); s < best {
			d, q := b.Sub(a), p.Sub(a)
			k := q.Dot(d)
			best, corner = s, k <= 0 || k >= d.Dot(d)
		}
	}
	return math.Sqrt(best), corner
}

// stitch joins the kept pieces at their crossings. A chain of pieces that comes back to the crossing it
// set out from is a ring; one that runs from an open chain's first end to its last is open. A ring thinner than
// Coincident is nothing. whole is false where a piece leads nowhere.
func stitch(kept []piece, closed bool, side float64) (rings []Ring, open []Pt, whole bool) {
	next := successors(kept, side)
	used := make([]bool, len(kept))
	whole = true
	for k := range kept {
		if used[k] {
			continue
		}
		start, end := kept[k].from, 0
		var pts []Pt
		for j := k; j >= 0 && !used[j]; j = next[j] {
			used[j] = true
			for _, q := range kept[j].knots {
				pts = append(pts, q.Pt)
			}
			end = kept[j].to
			if end == start {
				break
			}
		}
		switch {
		case end != start:
			whole = false
		case end < 0 && !closed:
			open = distinct(pts, false)
		default:
			r := Ring(distinct(pts, true))
			if math.Abs(r.Area()) > Coincident*r.Girth() {
				rings = append(rings, r)
			}
		}
	}
	return rings, open, whole
}

// successors returns for every piece the one that goes on from its end, or −1. Where several come and go
// the pair with the sharpest turn to the side that is kept is joined first, so that the curve may touch
// itself there but does not cross.
func successors(kept []piece, side float64) []int {
	type pair struct {
		in, out int
		turn    float64
	}
	var pairs []pair
	next, taken := make([]int, len(kept)), make([]bool, len(kept))
	for i, p := range kept {
		next[i] = -1
		for j, q := range kept {
			if p.to >= 0 && p.to == q.from {
				u, v := p.heading(true), q.heading(false)
				pairs = append(pairs, pair{i, j, side * math.Atan2(u.Cross(v), u.Dot(v))})
			}
		}
	}
	sort.SliceStable(pairs, func(i, j int) bool { return pairs[i].turn > pairs[j].turn })
	for _, p := range pairs {
		if next[p.in] < 0 && !taken[p.out] {
			next[p.in], taken[p.out] = p.out, true
		}
	}
	return next
}

func (p piece) length() float64 {
	s := 0.0
	for i := 1; i < len(p.knots); i++ {
		s += p.knots[i].Dist(p.knots[i-1].Pt)
	}
	return s
}

// heading returns the piece's direction where it leaves its first point, or where it comes to its last.
func (p piece) heading(last bool) Pt {
	n := len(p.knots)
	for k := 1; k < n; k++ {
		a, b := p.knots[0], p.knots[k]
		if last {
			a, b = p.knots[n-1-k], p.knots[n-1]
		}
		if a.Dist(b.Pt) > Coincident {
			return b.Sub(a.Pt)
		}
	}
	return p.knots[n-1].Sub(p.knots[0].Pt)
}
