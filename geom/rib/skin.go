package rib

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"ribwright/geom"
	"ribwright/geom/finding"
)

// zone is a stretch of a side, between two stations, with the thickness of all skins that lie there.
type zone struct{ from, to, t float64 }

// zones parts a side from the leading edge to its end by the skins on it.
func (b *builder) zones(s Side, nose, end float64) []zone {
	cuts := []float64{nose, end}
	for _, k := range b.doc.Section.Skins {
		for _, x := range []float64{k.From, k.To} {
			if x > nose+geom.Coincident && x < end-geom.Coincident {
				cuts = append(cuts, x)
			}
		}
	}
	slices.Sort(cuts)
	var out []zone
	for i := 1; i < len(cuts); i++ {
		z := zone{cuts[i-1], cuts[i], 0}
		for _, k := range b.doc.Section.Skins {
			if (k.Side == "both" || k.Side == s.String()) && k.From <= z.from+geom.Coincident && k.To >= z.to-geom.Coincident {
				z.t += k.Thickness
			}
		}
		if n := len(out); n > 0 && math.Abs(out[n-1].t-z.t) < geom.Coincident {
			out[n-1].to = z.to
		} else if z.to > z.from {
			out = append(out, z)
		}
	}
	return out
}

// skins takes every skin off the sides, each nose to tail: the rib is inside the skin. A step stands where a
// skin ends. Where the sides come to cross in the tail, both end at the crossing.
func (b *builder) skins(up, lo []geom.Pt) (upper, lower []geom.Pt) {
	if len(b.doc.Section.Skins) == 0 {
		return up, lo
	}
	zu, zl := b.zones(Upper, up[0].X, up[len(up)-1].X), b.zones(Lower, lo[0].X, lo[len(lo)-1].X)
	if t := zu[0].t; t > 0 && math.Abs(t-zl[0].t) < geom.Coincident {
		upper, lower = b.roundNose(up, lo, zu, zl)
	} else {
		upper, lower = offNose(up, zu, -1), offNose(lo, zl, 1)
	}
	if len(upper) < 2 || len(lower) < 2 {
		return upper, lower
	}
	upper, lower = endAtCrossing(upper, lower)
	end := math.Min(upper[len(upper)-1].X, lower[len(lower)-1].X)
	return cutTail(upper, end), cutTail(lower, end)
}

// noseShare is the share of the chord, from the nose, in which a skin is taken off both sides in one go,
// so that the nose stays round; behind it the sides are moved one by one.
const noseShare = 0.25

// roundNose takes off skins that run round the leading edge. The sides part anew where the moved nose meets
// the line aft from the old leading edge.
func (b *builder) roundNose(up, lo []geom.Pt, zu, zl []zone) (upper, lower []geom.Pt) {
	behind := math.Min(noseShare*up[len(up)-1].X, math.Min(zu[0].to, zl[0].to))
	upSkin, upRest := splitAt(up, behind)
	loSkin, loRest := splitAt(lo, behind)
	chain := slices.Clone(upSkin)
	slices.Reverse(chain)
	_, moved := geom.Parallel(append(chain, loSkin[1:]...), false, zu[0].t)
	best := crossing(moved, up[0].Y)
	if best.i < 0 { // the skin is as thick as the nose: the rib is, too
		return up[:1], lo[:1]
	}
	upper = append(slices.Clone(moved[:best.i+1]), best.p)
	slices.Reverse(upper)
	lower = append([]geom.Pt{best.p}, moved[best.i+1:]...)
	return offRest(upper, upRest, zu, behind, -1), offRest(lower, loRest, zl, behind, 1)
}

// offNose moves a side whose nose is moved by itself. It is prolonged over the leading edge first, so that the
// moved side reaches the line aft from it. Inward lies to the left of the way aft on the lower side (way 1),
// to the right on the upper one (way −1).
func offNose(pts []geom.Pt, zones []zone, way float64) []geom.Pt {
	z := zones[0]
	skin, rest := splitAt(pts, z.to)
	if z.t > 0 {
		ahead := skin[0].Along(skin[0].Sub(skin[1]).Unit(), 4*z.t)
		_, moved := geom.Parallel(append([]geom.Pt{ahead}, skin...), false, way*z.t)
		c := crossing(moved, pts[0].Y)
		if c.i < 0 { // the skin is as thick as this side of the nose
			return pts[:1]
		}
		skin = append([]geom.Pt{c.p}, moved[c.i+1:]...)
	}
	return offRest(skin, rest, zones, z.to, way)
}

// offRest moves the rest of a side, behind a station, zone by zone, and sets it behind what is done already.
func offRest(done, rest []geom.Pt, zones []zone, behind, way float64) []geom.Pt {
	done = slices.Clone(done)
	for _, z := range zones {
		if z.to <= behind+geom.Coincident || len(rest) < 2 {
			continue
		}
		stretch, after := splitAt(rest, z.to)
		if z.t > 0 {
			if _, moved := geom.Parallel(stretch, false, way*z.t); len(moved) > 0 {
				stretch = moved
			}
		}
		if z.from < behind-geom.Coincident {
			done = join(done, stretch)
		} else {
			done = append(done, stretch...)
		}
		rest = after
	}
	return done
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
	told := map[float64]bool{}
	for i, k := range b.doc.Section.Skins {
		side := Upper
		if k.Side == "lower" {
			side = Lower
		}
		zones := b.zones(side, b.Contour.Upper[0].X, end)
		for n := 1; n < len(zones); n++ {
			x, step := zones[n].from, math.Abs(zones[n].t-zones[n-1].t)
			if math.Min(math.Abs(x-k.From), math.Abs(x-k.To)) > geom.Coincident || told[x] {
				continue
			}
			told[x] = true
			b.find(finding.Finding{Severity: finding.Note, Code: "skin-step", Key: fmt.Sprintf("section.skin[%d]", i),
				Message: fmt.Sprintf("The skin ends or changes at %s: the contour and the caps step there by %s.", b.station(x), b.len(step)),
				Fix:     "No strip bends round such a step: let it run through, and plane it down under the skin.", Got: step, Unit: "mm"})
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
