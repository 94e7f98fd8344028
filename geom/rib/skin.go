package rib

import (
	"math"
	"slices"
	"sort"

	"ribwright/geom"
)

// skins takes every skin off the sides, each nose to tail: the rib is inside the skin. A step stands where a
// skin ends.
func (b *builder) skins(up, lo []geom.Pt) (upper, lower []geom.Pt) {
	for _, k := range b.doc.Section.Skins {
		switch {
		case k.Side == "both" && k.From <= geom.Coincident:
			up, lo = roundNose(up, lo, k.To, k.Thickness)
		case k.Side == "both":
			up, lo = takeSkin(up, k.From, k.To, -k.Thickness), takeSkin(lo, k.From, k.To, k.Thickness)
		case k.Side == "upper":
			up = takeSkin(up, k.From, k.To, -k.Thickness) // inward lies to the right of the way aft
		default:
			lo = takeSkin(lo, k.From, k.To, k.Thickness)
		}
	}
	return up, lo
}

// roundNose takes off a skin that runs round the leading edge, as far as one station on both sides. The
// sides part anew where the moved nose meets the line aft from the old leading edge.
func roundNose(up, lo []geom.Pt, to, t float64) (upper, lower []geom.Pt) {
	upSkin, upRest := splitAt(up, to)
	loSkin, loRest := splitAt(lo, to)
	chain := slices.Clone(upSkin)
	slices.Reverse(chain)
	_, moved := geom.Parallel(append(chain, loSkin[1:]...), false, t)
	best := crossing(moved, up[0].Y)
	if best.i < 0 { // the skin is as thick as the nose: nothing of it is left
		return up, lo
	}
	upper = append(slices.Clone(moved[:best.i+1]), best.p)
	slices.Reverse(upper)
	return append(upper, upRest...), slices.Concat([]geom.Pt{best.p}, moved[best.i+1:], loRest)
}

// crossing returns the foremost place where a chain crosses the ordinate y, with index −1 where it does not.
func crossing(pts []geom.Pt, y float64) split {
	best := split{i: -1}
	for i := 0; i+1 < len(pts); i++ {
		p, q := pts[i], pts[i+1]
		if (p.Y > y) == (q.Y > y) {
			continue
		}
		if c := p.Lerp(q, (y-p.Y)/(q.Y-p.Y)); best.i < 0 || c.X < best.p.X {
			best = split{i, c}
		}
	}
	return best
}

// splitAt parts a side, nose to tail, at a station; both parts hold the point there.
func splitAt(pts []geom.Pt, x float64) (before, after []geom.Pt) {
	first := foremost(pts)
	j := first + sort.Search(len(pts)-first, func(k int) bool { return pts[first+k].X > x })
	if j == len(pts) {
		return pts, nil
	}
	p := at(pts[j-1], pts[j], x)
	return append(slices.Clone(pts[:j]), p), append([]geom.Pt{p}, pts[j:]...)
}

// takeSkin moves the stretch of a side between two stations by t to the left of the way aft.
func takeSkin(pts []geom.Pt, from, to, t float64) []geom.Pt {
	var head []geom.Pt
	rest, nose := pts, from <= pts[0].X+geom.Coincident // a cambered nose reaches a hair ahead of the leading edge
	if nose {                                           // prolonged over the leading edge, so that the moved side reaches the line aft from it
		ahead := pts[0].Sub(pts[1]).Unit()
		rest = append([]geom.Pt{pts[0].Along(ahead, 4*math.Abs(t))}, pts...)
	} else {
		head, rest = splitAt(pts, from)
	}
	skin, tail := splitAt(rest, to)
	if len(skin) < 2 {
		return pts
	}
	_, moved := geom.Parallel(skin, false, t)
	if len(moved) == 0 {
		return pts
	}
	if c := crossing(moved, pts[0].Y); nose && c.i >= 0 {
		moved = append([]geom.Pt{c.p}, moved[c.i+1:]...)
	}
	return slices.Concat(head, moved, tail)
}
