package takeoff

import (
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/rib"
)

// alike is the distance, mm, within which two sticks' corners count as one when sticks are grouped: finer
// than a stick can be sawn.
const alike = 0.1

// StickGroup is sticks that are the same piece of wood, turned over or end for end where need be.
type StickGroup struct {
	IDs   []string
	First rib.Stick // the first of them: length, ends and outline stand for all
}

// PlateGroup is plates of the same outline; their marks may differ.
type PlateGroup struct {
	IDs   []string
	First rib.Gusset
	Faces int // plates in one rib
}

func groupSticks(r *rib.Rib) []StickGroup {
	var out []StickGroup
	var shapes [][]geom.Ring
	for _, s := range r.Sticks {
		if len(s.Outline) == 0 {
			continue
		}
		mine := bench(s)
		i := slices.IndexFunc(shapes, func(o []geom.Ring) bool {
			return slices.ContainsFunc(mine, func(m geom.Ring) bool { return congruent(m, o[0]) })
		})
		if i < 0 {
			out, shapes = append(out, StickGroup{First: s}), append(shapes, mine)
			i = len(out) - 1
		}
		out[i].IDs = append(out[i].IDs, s.ID)
	}
	return out
}

// bench returns the stick's outline as it can lie on the saw's table: along x, as drawn and turned over,
// each way round, all counter-clockwise.
func bench(s rib.Stick) []geom.Ring {
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

func groupPlates(r *rib.Rib) []PlateGroup {
	var out []PlateGroup
	for _, g := range r.Gussets {
		i := slices.IndexFunc(out, func(o PlateGroup) bool { return samePlate(g, o.First) })
		if i < 0 {
			out = append(out, PlateGroup{First: g})
			i = len(out) - 1
		}
		out[i].IDs = append(out[i].IDs, g.ID)
		out[i].Faces += g.Faces
	}
	return out
}

// samePlate reports whether two plates are whole circles of one size. Trimmed plates fit their own joint only.
func samePlate(a, b rib.Gusset) bool {
	_, r, ok := a.Outline.IsCircle()
	_, s, ok2 := b.Outline.IsCircle()
	return ok && ok2 && math.Abs(r-s) < geom.Step
}
