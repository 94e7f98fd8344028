package geom

import (
	"cmp"
	"math"
	"slices"
)

// strand is a stretch of the raw curve between two of its crossings.
type strand struct {
	edges    []edge
	from, to int // nodes; −1: a curve without crossings
}

// trimGrown cuts the raw curve at its crossings, leaves out what lies nearer to the outline than |d|, and joins the
// rest. whole is false where a stretch leads nowhere or the result still crosses itself.
func trimGrown(raw, outline []edge, d float64) (out []Path, whole bool) {
	var kept []strand
	for _, s := range strands(raw) {
		if s.from == s.to && s.from >= 0 && s.length() < Coincident {
			continue // between strands through one point
		}
		if s.clear(outline, math.Abs(d)) {
			kept = append(kept, s)
		}
	}
	next := follow(kept, d)
	used := make([]bool, len(kept))
	for k := range kept {
		if used[k] {
			continue
		}
		var ring []edge
		end := kept[k].from
		for j := k; j >= 0 && !used[j]; j = next[j] {
			used[j] = true
			ring, end = append(ring, kept[j].edges...), kept[j].to
			if end == kept[k].from {
				break
			}
		}
		if end != kept[k].from {
			return nil, false
		}
		p := pathOf(ring).Tidy(onEdge)
		if math.Abs(p.Area()) <= Coincident*p.Length() {
			continue // a hair
		}
		if len(edgeCuts(ring)) > 0 {
			return nil, false
		}
		out = append(out, p)
	}
	return out, true
}

// edgeCuts returns every crossing of a closed curve with itself, twice: once on each edge. Crossings in one point
// share their node.
func edgeCuts(raw []edge) []cut {
	type span struct {
		lo, hi float64
		i      int
	}
	order := make([]span, len(raw))
	for i, e := range raw {
		b := e.box()
		order[i] = span{b.Min.X, b.Max.X, i}
	}
	slices.SortFunc(order, func(a, b span) int { return cmp.Or(cmp.Compare(a.lo, b.lo), cmp.Compare(a.i, b.i)) })
	var out []cut
	var nodes []Pt
	for k, s := range order {
		for _, o := range order[k+1:] {
			if o.lo > s.hi {
				break
			}
			i, j := s.i, o.i
			for _, h := range raw[i].meet(raw[j]) {
				// the end that neighbours share is no crossing
				if (j == (i+1)%len(raw) && h.p.Dist(raw[i].b) < 1e-7) || (i == (j+1)%len(raw) && h.p.Dist(raw[j].b) < 1e-7) {
					continue
				}
				node := slices.IndexFunc(nodes, func(q Pt) bool { return q.Dist(h.p) < Coincident/10 })
				if node < 0 {
					node, nodes = len(nodes), append(nodes, h.p)
				}
				out = append(out, cut{i, h.t, node, nodes[node]}, cut{j, h.u, node, nodes[node]})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b cut) int { return cmp.Or(cmp.Compare(a.edge, b.edge), cmp.Compare(a.t, b.t)) })
	return out
}

// strands cuts a closed curve at its crossings.
func strands(raw []edge) []strand {
	cuts := edgeCuts(raw)
	if len(cuts) == 0 {
		return []strand{{raw, -1, -1}}
	}
	var out []strand
	cur := strand{from: -1}
	for i, e := range raw {
		t, a := 0.0, e.a
		for ; len(cuts) > 0 && cuts[0].edge == i; cuts = cuts[1:] {
			c := cuts[0]
			if c.t > t {
				cur.edges = append(cur.edges, e.part(t, c.t, a, c.p))
			}
			cur.to = c.node
			if len(cur.edges) > 0 || cur.from < 0 {
				out = append(out, cur)
			}
			cur = strand{from: c.node}
			t, a = c.t, c.p
		}
		if t < 1 {
			cur.edges = append(cur.edges, e.part(t, 1, a, e.b))
		}
	}
	// the last stretch goes on over the seam into the first
	out[0].edges, out[0].from = append(cur.edges, out[0].edges...), cur.from
	return out
}

func (s strand) length() float64 {
	l := 0.0
	for _, e := range s.edges {
		l += e.length()
	}
	return l
}

// clear reports whether a strand keeps its distance. A strand is wholly right or wholly wrong, but for the rounding
// of its ends: a few places tell, and the worst decides.
func (s strand) clear(outline []edge, d float64) bool {
	const tol = 2e-8
	if len(s.edges) == 0 {
		return false
	}
	for _, e := range s.edges {
		if e.inside && e.length() > Coincident {
			return false
		}
	}
	step := max(1, len(s.edges)/6)
	for i := 0; i < len(s.edges); i += step {
		p := s.edges[i].at(0.5)
		for _, o := range outline {
			if o.distance(p) < d-tol {
				return false
			}
		}
	}
	return true
}

// follow returns for every strand the one that goes on from its end, or −1. Where several come and go the pair with the
// sharpest turn to the side that is kept is joined first, so that the curve may touch itself there but does not cross.
func follow(kept []strand, side float64) []int {
	type pair struct {
		in, out int
		turn    float64
	}
	var pairs []pair
	next, taken := make([]int, len(kept)), make([]bool, len(kept))
	for i, p := range kept {
		next[i] = -1
		for j, q := range kept {
			if p.to == q.from && (p.to >= 0 || i == j) {
				u, v := p.edges[len(p.edges)-1].dir(1), q.edges[0].dir(0)
				pairs = append(pairs, pair{i, j, -side * math.Atan2(u.Cross(v), u.Dot(v))})
			}
		}
	}
	slices.SortStableFunc(pairs, func(a, b pair) int { return cmp.Compare(b.turn, a.turn) })
	for _, p := range pairs {
		if next[p.in] < 0 && !taken[p.out] {
			next[p.in], taken[p.out] = p.out, true
		}
	}
	return next
}
