package pack

import (
	"cmp"
	"math"
	"slices"

	"ribwright/geom"
)

// sortedPts returns the points by x, then y, each once.
func sortedPts(pts []geom.Pt) []geom.Pt {
	out := slices.Clone(pts)
	slices.SortFunc(out, func(a, b geom.Pt) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	return slices.Compact(out)
}

// convexCover returns convex polygons whose union is the ring (counter-clockwise, simple). They overlap where they can: a
// partition would leave a seam between two pieces, and a point on the seam would lie in neither. Each piece of a partition
// is therefore grown over its inner edges into the triangles beyond, as far as it stays convex.
func convexCover(r geom.Ring) []geom.Ring {
	if isConvex(r) {
		return []geom.Ring{slices.Clone(r)}
	}
	tris := triangulate(r)
	var out []geom.Ring
	for _, p := range joinConvex(tris) {
		out = append(out, growPiece(p, tris))
	}
	return dropCovered(out)
}

func isConvex(r geom.Ring) bool {
	n := len(r)
	for i, p := range r {
		if p.Sub(r[(i+n-1)%n]).Cross(r[(i+1)%n].Sub(p)) < 0 {
			return false
		}
	}
	return true
}

// triangulate cuts the ring into triangles by clipping ears, the shortest diagonal first.
func triangulate(r geom.Ring) []geom.Ring {
	left := slices.Clone(r)
	var out []geom.Ring
	for len(left) > 3 {
		n := len(left)
		var inward geom.Ring // only corners that turn inward can lie in an ear
		for i, p := range left {
			if p.Sub(left[(i+n-1)%n]).Cross(left[(i+1)%n].Sub(p)) <= 0 {
				inward = append(inward, p)
			}
		}
		best, at := math.Inf(1), -1
		for i, p := range left {
			a, b := left[(i+n-1)%n], left[(i+1)%n]
			if l := a.Dist(b); l < best && isEar(inward, a, p, b) {
				best, at = l, i
			}
		}
		if at < 0 { // rounding only: cut the corner that turns most to the left
			for i, p := range left {
				if c := -p.Sub(left[(i+n-1)%n]).Cross(left[(i+1)%n].Sub(p)); at < 0 || c < best {
					best, at = c, i
				}
			}
		}
		t := geom.Ring{left[(at+n-1)%n], left[at], left[(at+1)%n]}
		if t.Area() > 0 {
			out = append(out, t)
		}
		left = slices.Delete(left, at, at+1)
	}
	return append(out, left)
}

func isEar(inward geom.Ring, a, p, b geom.Pt) bool {
	if p.Sub(a).Cross(b.Sub(p)) <= 0 {
		return false
	}
	for _, q := range inward {
		if q != a && q != p && q != b && inTriangle(q, a, p, b) {
			return false
		}
	}
	return true
}

// joinConvex joins neighbouring pieces as long as they stay convex (after Hertel and Mehlhorn, "Fast triangulation of
// simple polygons", 1983; from memory).
func joinConvex(pieces []geom.Ring) []geom.Ring {
	out := make([]geom.Ring, 0, len(pieces))
	for _, p := range pieces {
		out = append(out, slices.Clone(p))
	}
	for i := 0; i < len(out); i++ {
		for j := i + 1; j < len(out); j++ {
			if u := joined(out[i], out[j]); u != nil {
				out[i] = u
				out = slices.Delete(out, j, j+1)
				j = i // again with all that follow
			}
		}
	}
	return out
}

// joined returns the union of two convex polygons with an edge in common, where it is convex.
func joined(a, b geom.Ring) geom.Ring {
	for i, p := range a {
		q := a[(i+1)%len(a)]
		for j, u := range b {
			if u != q || b[(j+1)%len(b)] != p {
				continue
			}
			out := make(geom.Ring, 0, len(a)+len(b)-2)
			for k := 1; k <= len(a); k++ {
				out = append(out, a[(i+k)%len(a)])
			}
			for k := 2; k < len(b); k++ {
				out = append(out, b[(j+k)%len(b)])
			}
			if isConvex(out) {
				return out
			}
			return nil
		}
	}
	return nil
}

// growPiece grows a convex piece over those of its edges that are edges of triangles inside the ring. What is added is the
// triangle beyond, cut by the lines of all other edges: so the piece stays convex and stays in the ring.
func growPiece(p geom.Ring, tris []geom.Ring) geom.Ring {
	for round := 0; round < 12; round++ {
		best, gain := geom.Ring(nil), float64(1e-3*p.Area())
		for i, a := range p {
			b := p[(i+1)%len(p)]
			for _, t := range tris {
				for k, u := range t {
					v := t[(k+1)%3]
					if !edgeHolds(v, u, a, b) {
						continue
					}
					add := slices.Clone(t)
					for j := range p {
						if j != i {
							add = add.Within(geom.LeftOf(p[j], p[(j+1)%len(p)]))
						}
					}
					if g := add.Area(); g > gain {
						best, gain = tidyRing(convexHull(append(slices.Clone(p), add...))), g
					}
				}
			}
		}
		if best == nil {
			break
		}
		p = best
	}
	return p
}

// edgeHolds reports whether the segment ab lies on the segment from u to v, in the same direction.
func edgeHolds(u, v, a, b geom.Pt) bool {
	seg := []geom.Pt{u, v}
	return v.Sub(u).Dot(b.Sub(a)) > 0 && geom.Distance(a, seg, false) < 1e-9 && geom.Distance(b, seg, false) < 1e-9
}

// dropCovered drops pieces that lie wholly in another.
func dropCovered(pieces []geom.Ring) []geom.Ring {
	var out []geom.Ring
	for i, p := range pieces {
		covered := false
		for j, q := range pieces {
			if i == j || covered {
				continue
			}
			in := true
			for _, v := range p {
				in = in && offConvex(q, v) <= 1e-9
			}
			covered = in && (j < i || !sameRegion(p, q))
		}
		if !covered {
			out = append(out, p)
		}
	}
	return out
}

func sameRegion(p, q geom.Ring) bool { return math.Abs(p.Area()-q.Area()) <= 1e-9*(1+q.Area()) }

// offConvex returns by how much v lies outside the convex ring's edge that it is most outside of; negative inside.
func offConvex(q geom.Ring, v geom.Pt) float64 {
	off := math.Inf(-1)
	for k, a := range q {
		e := q[(k+1)%len(q)].Sub(a)
		off = max(off, v.Sub(a).Cross(e)/e.Len())
	}
	return off
}
