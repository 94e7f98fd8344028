package rib

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// skins takes every skin off the sides, each nose to tail: the rib is inside the skin. A step stands where a
// skin ends. Where the sides come to cross in the tail, both end at the crossing.
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
	if len(b.doc.Section.Skins) > 0 {
		up, lo = endAtCrossing(up, lo)
	}
	return up, lo
}

// noseShare is the share of the chord, from the nose, in which a skin is taken off both sides in one go,
// so that the nose stays round; behind it the sides are moved one by one.
const noseShare = 0.25

// roundNose takes off a skin that runs round the leading edge, as far as one station on both sides. The
// sides part anew where the moved nose meets the line aft from the old leading edge.
func roundNose(up, lo []geom.Pt, to, t float64) (upper, lower []geom.Pt) {
	behind := math.Min(to, noseShare*up[len(up)-1].X)
	upSkin, upRest := splitAt(up, behind)
	loSkin, loRest := splitAt(lo, behind)
	chain := slices.Clone(upSkin)
	slices.Reverse(chain)
	_, moved := geom.Parallel(append(chain, loSkin[1:]...), false, t)
	best := crossing(moved, up[0].Y)
	if best.i < 0 { // the skin is as thick as the nose: the rib is, too
		return up[:1], lo[:1]
	}
	upper = append(slices.Clone(moved[:best.i+1]), best.p)
	slices.Reverse(upper)
	lower = append([]geom.Pt{best.p}, moved[best.i+1:]...)
	if to > behind {
		upRest, loRest = takeSkin(upRest, behind, to, -t), takeSkin(loRest, behind, to, t)
	}
	return append(upper, upRest...), append(lower, loRest...)
}

// endAtCrossing cuts both sides, nose to tail, where they first cross.
func endAtCrossing(up, lo []geom.Pt) (upper, lower []geom.Pt) {
	j := 1
	for i := 1; i < len(up); i++ {
		a, c := up[i-1], up[i]
		for j < len(lo)-1 && lo[j].X < math.Min(a.X, c.X) {
			j++
		}
		for k := j; k < len(lo) && math.Min(lo[k-1].X, lo[k].X) <= math.Max(a.X, c.X); k++ {
			p, ok := meeting(a, c, lo[k-1], lo[k])
			if ok && p.Dist(up[0]) > geom.Coincident && p.Dist(up[len(up)-1]) > geom.Coincident {
				return append(slices.Clone(up[:i]), p), append(slices.Clone(lo[:k]), p)
			}
		}
	}
	return up, lo
}

// meeting returns where the segments ab and cd cross.
func meeting(a, b, c, d geom.Pt) (geom.Pt, bool) {
	r, s, q := b.Sub(a), d.Sub(c), c.Sub(a)
	den := r.Cross(s)
	if den == 0 {
		return geom.Pt{}, false
	}
	t, u := q.Cross(s)/den, q.Cross(r)/den
	return a.Along(r, t), t >= 0 && t <= 1 && u >= 0 && u <= 1
}

// tellSkins says where skins leave a step, and where they meet before the tail.
func (b *builder) tellSkins() {
	te, end := b.doc.Rib.TrailingEdge, b.tailEnd()
	if len(b.doc.Section.Skins) > 0 && end < te-geom.Flat*200 {
		b.find(finding.Finding{Severity: finding.Note, Code: "skins-meet", Key: "section.skin",
			Message: fmt.Sprintf("The skins leave nothing of the rib behind %s: it ends there.", b.station(end)),
			Fix:     "Make the trailing edge behind it of something else, or let the skin end before.", Got: end, Limit: te, Unit: "mm"})
	}
	for i, k := range b.doc.Section.Skins {
		for _, x := range []float64{k.From, k.To} {
			goesOn := slices.ContainsFunc(b.doc.Section.Skins, func(o ribfile.Skin) bool {
				return (o.Side == k.Side || o.Side == "both") && o.Thickness == k.Thickness && (o.From == x || o.To == x) && o != k
			})
			if x <= geom.Coincident || x >= end-geom.Coincident || goesOn {
				continue
			}
			b.find(finding.Finding{Severity: finding.Note, Code: "skin-step", Key: fmt.Sprintf("section.skin[%d]", i),
				Message: fmt.Sprintf("The skin ends at %s: the contour and the caps step there by %s.", b.station(x), b.len(k.Thickness)),
				Fix:     "No strip bends round such a step: let it run through, and plane it down under the skin.", Got: k.Thickness, Unit: "mm"})
		}
	}
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
