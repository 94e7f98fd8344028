package fasten

import "ribwright/geom"

// hunt looks for room in one member under a plate.
type hunt struct {
	*site
	m     member
	taken []geom.Pt // legs from the other face that those of this one must not meet
	known [8]disc   // the last ones in which no leg finds room; places asked for next lie in them more often than not
	next  int
	first int // the leg that found no room last: it is tried first
}

// disc is all places nearer to one than a distance.
type disc struct {
	at geom.Pt
	r  float64
}

// fits returns the legs of a fastener at a place; where it may not stand there none, and a distance within which it stands nowhere.
// crown is half its crown.
func (h *hunt) fits(at, crown geom.Pt) ([]geom.Pt, float64) {
	if h.set.Crown == 0 {
		if far := h.short(at); far > 0 {
			return nil, far
		}
		return []geom.Pt{at}, 0
	}
	legs := [2]geom.Pt{at.Sub(crown), at.Add(crown)}
	for range legs {
		if far := h.short(legs[h.first]); far > 0 {
			return nil, far
		}
		h.first = 1 - h.first
	}
	if far := h.tight(legs[:]); far > 0 {
		return nil, max(0, far-geom.Coincident)
	}
	if len(h.m.ring.Stretches(legs[0], legs[1])) != 1 {
		return nil, 0
	}
	return []geom.Pt{legs[0], legs[1]}, 0
}

// tight returns how far at least a crown must move until the pilot hole and the member's corners are clear of it; 0: they are.
func (h *hunt) tight(crown []geom.Pt) float64 {
	most := 0.0
	if h.pilot > 0 {
		most = h.pilot + h.set.Edge - geom.Distance(h.centre, crown, false)
	}
	for _, v := range h.m.ring {
		most = max(most, h.set.Edge-geom.Distance(v, crown, false))
	}
	return most
}

// short returns how far at least a leg must move to where it may stand; 0: it may stand there.
func (h *hunt) short(p geom.Pt) float64 {
	for i := range h.known {
		d := &h.known[i]
		if v := p.Sub(d.at); v.Dot(v) < float64(d.r*d.r) {
			return d.r - v.Len()
		}
	}
	d := h.measure(p)
	if d <= 0 {
		return 0
	}
	h.known[h.next%len(h.known)] = disc{p, d - geom.Coincident}
	h.next++
	return d
}

// measure is short, by the distances from all that a leg must keep clear of.
func (h *hunt) measure(p geom.Pt) float64 {
	edge := h.set.Edge
	// The way inside leads over the edge, and on by the distance from it. The ring's chords stand off the outline by a quarter of that.
	beyond := float64(0.75 * edge)
	if d := max(h.box.Min.X-p.X, p.X-h.box.Max.X, h.box.Min.Y-p.Y, p.Y-h.box.Max.Y); d > 0 {
		return d + beyond
	}
	d := geom.Distance(p, h.m.ring, true)
	if !h.m.ring.Holds(p) {
		return d + edge
	}
	most := edge - d
	if h.centre.Dist(p) > h.open {
		if !h.ring.Holds(p) {
			return max(most, geom.Distance(p, h.ring, true)+beyond)
		}
		most = max(most, edge-h.outline(p))
	}
	for _, e := range h.m.ends {
		most = max(most, h.set.End-geom.Distance(p, e[:], false))
	}
	if h.pilot > 0 {
		most = max(most, h.pilot+edge-h.centre.Dist(p))
	}
	for _, q := range h.taken {
		most = max(most, edge-p.Dist(q))
	}
	return most
}
