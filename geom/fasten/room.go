package fasten

import "ribwright/geom"

// hunt looks for room in one member under a plate.
type hunt struct {
	site
	m     member
	taken []geom.Pt // legs from the other face that those of this one must not meet
	known [8]disc   // the last ones in which no leg finds room; places asked for next lie in them more often than not
	next  int
}

// disc is all places nearer to one than a distance.
type disc struct {
	at geom.Pt
	r  float64
}

// fits returns the legs of a fastener at a place; where it may not stand there none, and a distance within which it stands nowhere.
// crown is half its crown.
func (h *hunt) fits(at, crown geom.Pt) ([]geom.Pt, float64) {
	a, b := at.Sub(crown), at.Add(crown)
	if far := h.short(a); far > 0 {
		return nil, far
	}
	if h.set.Crown == 0 {
		return []geom.Pt{at}, 0
	}
	if far := h.short(b); far > 0 {
		return nil, far
	}
	legs := []geom.Pt{a, b}
	if h.pilot > 0 && geom.Distance(h.centre, legs, false) < h.pilot+h.set.Edge || !clear(h.m.ring, a, b, h.set.Edge) {
		return nil, 0
	}
	return legs, 0
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
	if !h.ring.Holds(p) {
		return max(most, geom.Distance(p, h.ring, true)+beyond)
	}
	most = max(most, edge-h.outline(p))
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

// clear reports whether a crown lies in the member over its whole length, no corner of which comes near it.
func clear(ring geom.Ring, a, b geom.Pt, room float64) bool {
	for _, v := range ring {
		if geom.Distance(v, []geom.Pt{a, b}, false) < room {
			return false
		}
	}
	return len(ring.Stretches(a, b)) == 1
}
