package rib

import (
	"math"
	"slices"

	"ribwright/geom"
)

// alike is the distance, mm, within which the corners of two sticks or plates count as one when they are grouped: finer
// than a builder saws.
const alike = 0.1

// Alike parts sticks into those that are the same piece of wood, turned over or end for end where need be: lists of
// indices, each in the sticks' order, the first stick of a list standing for all. Sticks of which nothing is
// left are in none.
func Alike(sticks []Stick) [][]int {
	var out [][]int
	var shapes []geom.Ring
	long := map[int][]int{} // lists by the length of their first stick, whole mm; looked up only
	for k, s := range sticks {
		if len(s.Outline) == 0 {
			continue
		}
		mine := bench(s)
		mm := int(math.Floor(mine[0].Box().W()))
		i := -1
		for _, near := range [3]int{mm - 1, mm, mm + 1} {
			for _, o := range long[near] {
				if (i < 0 || o < i) && slices.ContainsFunc(mine, func(m geom.Ring) bool { return congruent(m, shapes[o]) }) {
					i = o
				}
			}
		}
		if i < 0 {
			i = len(out)
			out, shapes, long[mm] = append(out, nil), append(shapes, mine[0]), append(long[mm], i)
		}
		out[i] = append(out[i], k)
	}
	return out
}

// OnBench returns the stick's outline as it lies along x, its first end to the left, from the corner of its box on.
func (s Stick) OnBench() geom.Ring { return bench(s)[0] }

// bench returns the stick's outline as it can lie on the saw's table: along x, as drawn and turned over,
// each way round, all counter-clockwise.
func bench(s Stick) []geom.Ring {
	u := s.Axis[1].Sub(s.Axis[0]).Unit()
	lie := func(along, across geom.Pt) geom.Ring {
		out := make(geom.Ring, len(s.Outline))
		lo := geom.Pt{X: math.Inf(1), Y: math.Inf(1)}
		for i, p := range s.Outline {
			out[i] = geom.Pt{X: along.Dot(p), Y: across.Dot(p)}
			lo = geom.Pt{X: math.Min(lo.X, out[i].X), Y: math.Min(lo.Y, out[i].Y)}
		}
		for i := range out {
			out[i] = out[i].Sub(lo)
		}
		if out.Area() < 0 {
			out = out.Reverse()
		}
		return out
	}
	n := u.Left()
	return []geom.Ring{lie(u, n), lie(u.Mul(-1), n.Mul(-1)), lie(u, n.Mul(-1)), lie(u.Mul(-1), n)}
}

// congruent reports whether two rings agree corner by corner, whatever corner they begin with.
func congruent(a, b geom.Ring) bool {
	if len(a) != len(b) {
		return false
	}
	for k := range b {
		if cornersAgree(a, b, k) {
			return true
		}
	}
	return false
}

func cornersAgree(a, b geom.Ring, k int) bool {
	for i, p := range a {
		if p.Dist(b[(i+k)%len(b)]) > alike {
			return false
		}
	}
	return true
}

// SamePlate reports whether two plates, of one rib or of two, are the same piece of plywood as they lie in their own axes.
func SamePlate(a, b Gusset) bool {
	if a.Shape != b.Shape || len(a.Outline.Segs) != len(b.Outline.Segs) {
		return false
	}
	_, r, whole := a.Outline.IsCircle()
	if _, s, other := b.Outline.IsCircle(); whole || other {
		return whole && other && math.Abs(r-s) < geom.Step
	}
	p, q := a.OwnAxes(0).Path(a.Outline), b.OwnAxes(0).Path(b.Outline)
	from, to := p.Start, q.Start
	for i, s := range p.Segs {
		t := q.Segs[i]
		rise := math.Abs(float64(s.Bulge*from.Dist(s.End))-float64(t.Bulge*to.Dist(t.End))) / 2
		if from.Dist(to) > alike || s.End.Dist(t.End) > alike || rise > alike {
			return false
		}
		from, to = s.End, t.End
	}
	return true
}
