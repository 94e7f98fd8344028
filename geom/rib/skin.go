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
		if len(up) < 2 || len(lo) < 2 {
			break // a skin before has left nothing
		}
		nose := k.From <= up[0].X+geom.Coincident
		switch {
		case k.Side == "both" && nose:
			up, lo = roundNose(up, lo, k.To, k.Thickness)
		case k.Side == "both":
			up, lo = takeSkin(up, k.From, k.To, -k.Thickness), takeSkin(lo, k.From, k.To, k.Thickness)
		case k.Side == "upper" && nose:
			up = takeNose(up, k.To, -k.Thickness) // inward lies to the right of the way aft
		case k.Side == "upper":
			up = takeSkin(up, k.From, k.To, -k.Thickness)
		case nose:
			lo = takeNose(lo, k.To, k.Thickness)
		default:
			lo = takeSkin(lo, k.From, k.To, k.Thickness)
		}
	}
	if len(b.doc.Section.Skins) > 0 && len(up) > 1 && len(lo) > 1 {
		up, lo = endAtCrossing(up, lo)
		end := math.Min(up[len(up)-1].X, lo[len(lo)-1].X)
		up, lo = cutTail(up, end), cutTail(lo, end)
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
		return join(upper, moveUpTo(upRest, to, -t)), join(lower, moveUpTo(loRest, to, t))
	}
	return append(upper, upRest...), append(lower, loRest...)
}

// join joins two stretches of one smooth line. Each was moved along its own last normal, so their ends stand a
// hair apart, or past each other: both give way to the middle.
func join(a, c []geom.Pt) []geom.Pt {
	n := len(a) - 1
	return slices.Concat(a[:n], []geom.Pt{a[n].Lerp(c[0], 0.5)}, c[1:])
}

// endAtCrossing cuts both sides, nose to tail, where they first cross in the aft half.
func endAtCrossing(up, lo []geom.Pt) (upper, lower []geom.Pt) {
	j, half := 1, (up[0].X+up[len(up)-1].X)/2
	for i := 1; i < len(up); i++ {
		a, c := up[i-1], up[i]
		if c.X < half {
			continue
		}
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
	switch j {
	case len(pts):
		return pts, nil
	case 0:
		return nil, pts
	}
	p := at(pts[j-1], pts[j], x)
	return append(slices.Clone(pts[:j]), p), append([]geom.Pt{p}, pts[j:]...)
}

// takeSkin moves the stretch of a side between two stations behind the nose by t to the left of the way aft.
func takeSkin(pts []geom.Pt, from, to, t float64) []geom.Pt {
	head, rest := splitAt(pts, from)
	return slices.Concat(head, moveUpTo(rest, to, t))
}

// moveUpTo moves a side from its first point to a station.
func moveUpTo(pts []geom.Pt, to, t float64) []geom.Pt {
	skin, tail := splitAt(pts, to)
	_, moved := geom.Parallel(skin, false, t)
	if len(moved) == 0 {
		return pts
	}
	return slices.Concat(moved, tail)
}

// takeNose moves a side from its leading edge to a station. It is prolonged over the leading edge first, so
// that the moved side reaches the line aft from it.
func takeNose(pts []geom.Pt, to, t float64) []geom.Pt {
	skin, tail := splitAt(pts, to)
	if len(skin) < 2 {
		return pts
	}
	ahead := skin[0].Along(skin[0].Sub(skin[1]).Unit(), 4*math.Abs(t))
	_, moved := geom.Parallel(append([]geom.Pt{ahead}, skin...), false, t)
	c := crossing(moved, pts[0].Y)
	if c.i < 0 { // the skin is as thick as this side of the nose
		return pts[:1]
	}
	return slices.Concat([]geom.Pt{c.p}, moved[c.i+1:], tail)
}
