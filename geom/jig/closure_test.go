package jig

import (
	"errors"
	"math"
	"math/rand"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
)

// The tests in this file work the contacts out anew, from nothing but outlines, and ask gonum's simplex whether they hold the
// rib. touching is how near, in mm, a corner must come to an edge beyond the gap that belongs there.
const touching = 0.008

// rest is a contact between two bodies: a may not move into b. Blocks of the jig are body −1.
type rest struct {
	a, b   int
	at     geom.Pt
	normal geom.Pt // into a
	tight  bool
}

// rests returns the contacts of ring a with ring b: corners of either that come as near as the gap to the other's edges.
func rests(a, b int, ra, rb geom.Ring, gap float64) []rest {
	var out []rest
	if !ra.Box().Grow(1 + gap).Meets(rb.Box()) {
		return nil
	}
	corners := func(of, on geom.Ring, sign float64) {
		for _, p := range of {
			if !on.Box().Grow(1 + gap).Holds(p) {
				continue
			}
			for i, c := range on {
				d := on[(i+1)%len(on)]
				u := d.Sub(c).Unit()
				if u == (geom.Pt{}) {
					continue
				}
				along, off := p.Sub(c).Dot(u), p.Sub(c).Cross(u) // off: how far outside
				if along < -1e-6 || along > c.Dist(d)+1e-6 || off < -touching || off > gap+touching {
					continue
				}
				n := geom.Pt{X: u.Y, Y: -u.X} // out of on
				out = append(out, rest{a: a, b: b, at: p, normal: n.Mul(sign)})
			}
		}
	}
	corners(ra, rb, 1)
	corners(rb, ra, -1)
	return out
}

// assembly returns the bodies that must be held, and all contacts among them and with the blocks.
//
// Sticks that only their plates hold stand fixed; such nose and tail blocks are left out.
func assembly(one planned, j Jig) (ids []string, all []rest) {
	wood := woodOf(one.r)
	var covered []string
	for _, h := range j.Holds {
		if h.Covered {
			covered = append(covered, h.Member)
		} else {
			ids = append(ids, h.Member)
		}
	}
	gap := func(id string) float64 { // what a straight saw cut leaves open against a curved cap
		for _, s := range one.r.Sticks {
			if s.ID == id {
				return math.Max(s.Ends[0].Gap, s.Ends[1].Gap)
			}
		}
		return 0
	}
	for i, id := range ids {
		for k := range i {
			all = append(all, rests(i, k, wood[id], wood[ids[k]], math.Max(gap(id), gap(ids[k])))...)
		}
		for _, c := range covered {
			if !isBlock(c) && memberIndex(one.r, c) < memberIndex(one.r, id) {
				all = append(all, rests(i, -1, wood[id], wood[c], gap(id))...)
			}
		}
		for _, b := range j.Blocks {
			all = append(all, rests(i, -1, wood[id], b.Outline, one.doc.Jig.Clearance)...)
		}
	}
	return ids, distinct(append(all, spacerRests(one, j, ids, wood)...))
}

// distinct drops contacts that stand there already: corners of two outlines that coincide.
func distinct(all []rest) []rest {
	var out []rest
	for _, r := range all {
		if !slices.ContainsFunc(out, func(o rest) bool {
			return o.a == r.a && o.b == r.b && o.at.Dist(r.at) < 0.01 && o.normal.Dist(r.normal) < 1e-4
		}) {
			out = append(out, r)
		}
	}
	return out
}

// spacerRests lets the posts of a spar rest against each other where the plan has a spacer.
func spacerRests(one planned, j Jig, ids []string, wood map[string]geom.Ring) []rest {
	var out []rest
	for _, s := range j.Spacers {
		for _, spar := range one.r.Spars {
			if spar.Name != s.Spar {
				continue
			}
			fore, aft := -1, -1
			mid := 0.0
			for i, id := range ids {
				box := wood[id].Box()
				if math.Abs(box.Max.X-spar.Fore) < 1e-3 && box.W() < 3*one.r.StickDepth {
					fore = i
				}
				if math.Abs(box.Min.X-spar.Aft) < 1e-3 && box.W() < 3*one.r.StickDepth {
					aft, mid = i, box.Centre().Y
				}
			}
			for _, d := range [2]float64{-1, 1} {
				out = append(out, rest{a: fore, b: aft, at: geom.Pt{X: spar.At, Y: mid + d*s.Length/2}, normal: geom.Pt{X: -1}})
			}
		}
	}
	return out
}

// TestNoMotion holds that nothing can move in the jig: of the whole rib, every member a rigid body. By Stiemke's
// theorem no motion is free of the contacts just where some positive pushes, none of them 0, balance each other on every body, and
// the contacts' rank is that of the motions. The first is a linear program.
func TestNoMotion(t *testing.T) {
	ribs := demos(t)
	if !testing.Short() {
		ribs = append(ribs, randoms(t, 50)...)
	}
	held := 0
	for _, one := range ribs {
		j, found := one.j, one.found
		if k := slices.IndexFunc(found, func(f finding.Finding) bool { return f.Code == "jig-loose" }); k >= 0 {
			t.Logf("%s: %v", one.name, found[k].Message)
			continue
		}
		held++
		ids, all := assembly(one, j)
		w := mat.NewDense(3*len(ids), len(all), nil)
		for c, r := range all {
			set := func(body int, n geom.Pt) {
				if body >= 0 {
					w.Set(3*body, c, n.X)
					w.Set(3*body+1, c, n.Y)
					w.Set(3*body+2, c, r.at.Sub(woodOf(one.r)[ids[body]].Box().Centre()).Cross(n)/50)
				}
			}
			set(r.a, r.normal)
			set(r.b, r.normal.Mul(-1))
		}
		var svd mat.SVD
		svd.Factorize(w, mat.SVDNone)
		if values := svd.Values(nil); values[len(values)-1] < 1e-4 {
			t.Errorf("%s: %d members, %d contacts: the least singular value is %g", one.name, len(ids), len(all), values[len(values)-1])
			continue
		}
		// w·(1 + μ) = 0 with μ ≥ 0
		rhs := make([]float64, 3*len(ids))
		cost := make([]float64, len(all))
		for r := range rhs {
			rhs[r] = -mat.Sum(w.RowView(r))
		}
		for c := range cost {
			cost[c] = 1
		}
		// The simplex begins with the first independent columns, and these may be nearly dependent: then other orders are tried.
		_, _, err := lp.Simplex(cost, w, rhs, 1e-8, nil)
		for seed := int64(1); err != nil && !errors.Is(err, lp.ErrInfeasible) && seed < 6; seed++ {
			mixed := mat.NewDense(3*len(ids), len(all), nil)
			for c, k := range rand.New(rand.NewSource(seed)).Perm(len(all)) {
				mixed.SetCol(c, mat.Col(nil, k, w))
			}
			_, _, err = lp.Simplex(cost, mixed, rhs, 1e-8, nil)
		}
		if err != nil {
			t.Errorf("%s: the pushes do not balance: %v", one.name, err)
		}
	}
	if held < len(ribs)*3/5 {
		t.Errorf("only %d of %d ribs are held", held, len(ribs))
	}
	t.Logf("%d of %d ribs are held", held, len(ribs))
}

// playByLP is the play of a member between contacts, by linear programs: see Play, whose own way is another one.
func playByLP(ends [2]geom.Pt, contacts []rest) float64 {
	c, half := ends[0].Lerp(ends[1], 0.5), ends[0].Dist(ends[1])/2
	a := mat.NewDense(3, len(contacts), nil)
	cost := make([]float64, len(contacts))
	for k, r := range contacts {
		a.SetCol(k, []float64{r.normal.X, r.normal.Y, r.at.Sub(c).Cross(r.normal) / half})
		if !r.tight {
			cost[k] = 1
		}
	}
	axis := ends[1].Sub(ends[0]).Unit()
	most := 0.0
	for _, g := range []geom.Pt{axis, axis.Mul(-1), axis.Left(), axis.Left().Mul(-1)} {
		for _, e := range ends {
			v, _, err := lp.Simplex(cost, a, []float64{-g.X, -g.Y, -e.Sub(c).Cross(g) / half}, 1e-9, nil)
			if err != nil {
				return math.Inf(1)
			}
			most = math.Max(most, v)
		}
	}
	return most
}

// TestPlay holds the play of every stick and cap against linear programs over contacts taken from outlines: those with
// blocks, and with the members before it.
func TestPlay(t *testing.T) {
	for _, one := range append(demos(t), randoms(t, 20)...) {
		j := one.j
		ids, all := assembly(one, j)
		for i, id := range ids {
			var own []rest
			for _, r := range all {
				switch {
				case r.a == i && (r.b < i || wedge(ids, i, r.b) || isSpacer(one, r)):
					r.tight = isBlock(id) && r.b >= 0
					own = append(own, r)
				case r.b == i && (wedge(ids, i, r.a) || isSpacer(one, r)):
					own = append(own, rest{i, r.a, r.at, r.normal.Mul(-1), isBlock(id)})
				}
			}
			m := members(one.r)[memberIndex(one.r, id)]
			k := memberIndex(one.r, id)
			got, want := j.Holds[k].Play, playByLP(m.ends, own)
			if !j.Holds[k].Held {
				continue
			}
			// Here more corners count as contacts: those of a row between its outer two, and both of a hollow.
			if want > 1.1*got {
				t.Errorf("%s: %s has the play %.3f clearances, want %.3f or more", one.name, id, got, want)
			}
		}
	}
}

// wedge reports whether a member and another one are a cap and a nose or tail block, which hold each other.
func wedge(ids []string, i, k int) bool {
	isCap := func(id string) bool { return id == rib.CapUpper || id == rib.CapLower }
	return k >= 0 && (isCap(ids[i]) && isBlock(ids[k]) || isBlock(ids[i]) && isCap(ids[k]))
}

func isBlock(id string) bool { return id == rib.BlockNose || id == rib.BlockTail }

func isSpacer(one planned, r rest) bool {
	for _, s := range one.r.Spars {
		if r.at.X == s.At {
			return true
		}
	}
	return false
}

func memberIndex(r *rib.Rib, id string) int {
	for i, m := range members(r) {
		if m.id == id {
			return i
		}
	}
	return -1
}
