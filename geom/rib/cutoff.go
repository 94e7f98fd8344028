package rib

import (
	"fmt"
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// cutoff is an end where the rib is cut off: at a station square to the chord line, or along a face of a spar's opening.
// A rib cut off at its trailing edge's station has none: the section itself ends there.
type cutoff struct {
	on   bool
	keep geom.Half // the rib's side
	face ribfile.Face
}

// beyond reports whether a place on the chord line lies beyond the cut, or on it.
func (c cutoff) beyond(x float64) bool { return c.on && c.keep.Off(geom.Pt{X: x}) > -samePoint }

// holds reports whether a point lies on the cut.
func (c cutoff) holds(p geom.Pt) bool { return c.on && math.Abs(c.keep.Off(p)) < geom.Coincident }

// is reports whether the cut runs along a face of the spar.
func (c cutoff) is(spar int, aft bool) bool {
	return c.on && c.face.Named && c.face.Spar == spar && c.face.Aft == aft
}

// cutoffs works out where the rib is cut off, and leaves out the blocks that lie beyond.
func (b *builder) cutoffs() {
	rf := b.doc.Rib
	face := func(f ribfile.Face) geom.Half { // what lies ahead of it
		s := b.spar(f.Spar)
		if f.Aft {
			return s.Plane(s.Aft)
		}
		return s.Plane(s.Fore)
	}
	switch {
	case rf.LeadingAt.Named:
		b.ahead = cutoff{true, face(rf.LeadingAt).Flip(), rf.LeadingAt}
	case rf.LeadingEdge > 0:
		b.ahead = cutoff{on: true, keep: geom.After(rf.LeadingEdge)}
	}
	if rf.TrailingAt.Named {
		b.behind = cutoff{true, face(rf.TrailingAt), rf.TrailingAt}
	}
	if !b.ahead.on && !b.behind.on {
		return
	}
	doc := *b.doc
	doc.Nose.Present = doc.Nose.Present && !b.ahead.beyond(doc.Nose.Station)
	doc.Tail.Present = doc.Tail.Present && !b.behind.beyond(doc.Tail.Station)
	b.doc = &doc
}

// cut cuts a side, nose to tail, where the rib is cut off.
func (b *builder) cut(pts []geom.Pt) []geom.Pt {
	if b.behind.on {
		pts = cutEnd(pts, b.behind.keep)
	}
	if b.ahead.on {
		pts = slices.Clone(pts)
		slices.Reverse(pts)
		pts = cutEnd(pts, b.ahead.keep)
		slices.Reverse(pts)
	}
	return pts
}

// cutEnd ends a line where it last leaves a half-plane.
func cutEnd(pts []geom.Pt, h geom.Half) []geom.Pt {
	for i := len(pts) - 1; i > 0; i-- {
		u, v := h.Off(pts[i-1]), h.Off(pts[i])
		if u < 0 && v > 0 {
			return append(slices.Clone(pts[:i]), pts[i-1].Lerp(pts[i], u/(u-v)))
		}
		if v <= 0 {
			return slices.Clone(pts[:i+1])
		}
	}
	return nil
}

// cutInner cuts the inner edge where the rib is cut off.
func (b *builder) cutInner() {
	for _, c := range []cutoff{b.behind, b.ahead} {
		if !c.on {
			continue
		}
		b.Contour.Inner = largest(b.Contour.Inner.Cut(c.keep))
		b.open = b.open || c.keep.N.X > 0 && slices.ContainsFunc(b.Contour.Inner, c.holds)
	}
}

// onTail reports whether a point lies on the cut at the rib's tail.
func (b *builder) onTail(p geom.Pt) bool {
	if b.behind.on {
		return b.behind.holds(p)
	}
	return p.X > b.tailEnd()-geom.Coincident
}

// splitOpen parts the inner edge of a rib that is cut off ahead: it begins with the corners on that cut.
func (b *builder) splitOpen() {
	in := b.Contour.Inner
	low := b.corner(in, Lower, 0)
	b.splitRing(append(slices.Clone(in[low:]), in[:low]...))
}

// corner returns the index of a ring's upper or lower corner on the cut ahead, which has moved aft by d.
func (b *builder) corner(ring geom.Ring, s Side, d float64) int {
	up := b.ahead.keep.N.Left() // downward, since what is kept lies aft
	if s == Upper {
		up = up.Mul(-1)
	}
	best := -1
	for i, p := range ring {
		if b.ahead.keep.Off(p) > -d-geom.Flat && (best < 0 || p.Dot(up) > ring[best].Dot(up)) {
			best = i
		}
	}
	return max(best, 0)
}

// outside reports whether a spar's whole opening lies beyond a cut.
func (b *builder) outside(s Spar) bool { return b.behind.beyond(s.Fore) || b.ahead.beyond(s.Aft) }

// stands reports whether a face of a spar is in the rib, so that a post and panel points may stand there. Of a spar beyond
// a cut along its face, the post at that face closes the rib.
func (b *builder) stands(spar int, aft bool) bool {
	switch s := b.Spars[spar]; {
	case b.outside(s):
		return b.behind.is(spar, false) && !aft || b.ahead.is(spar, true) && aft
	case len(s.Opening) == 0:
		return false
	case aft:
		return !b.behind.is(spar, true)
	default:
		return !b.ahead.is(spar, false)
	}
}

// left reports whether a bay is left out, since it lies beyond a cut; one that runs over a cut is found.
func (b *builder) left(bay ribfile.Bay, key string) bool {
	if !b.ahead.on && !b.behind.on {
		return false
	}
	place := func(s ribfile.Support, begin bool) float64 {
		switch s.Kind {
		case "spar":
			if begin {
				return b.Spars[s.Spar].Aft
			}
			return b.Spars[s.Spar].Fore
		case "nose":
			return b.doc.Nose.Station
		case "tail":
			if b.doc.Tail.Station == 0 {
				return b.Chord
			}
			return b.doc.Tail.Station
		}
		return s.Station
	}
	from, to := place(bay.From, true), place(bay.To, false)
	if b.behind.beyond(from) || b.ahead.beyond(to) {
		return true
	}
	over := func(c cutoff, x float64) bool { return c.on && c.keep.Off(geom.Pt{X: x}) > samePoint }
	if bay.Pattern != "none" && (over(b.behind, to) || over(b.ahead, from)) {
		b.find(finding.Finding{Severity: finding.Error, Code: "bay-cut-off", Key: key,
			Message: fmt.Sprintf("This bay runs from %s to %s, over the place where the rib is cut off.", b.station(from), b.station(to)),
			Fix:     "End it at the cut, by the spar's name or a station, or leave it out."})
		return true
	}
	return false
}

// gone reports whether a line's end lies beyond a cut.
func (b *builder) gone(p ribfile.Point) bool {
	x := p.Station
	if p.Spar >= 0 {
		if b.stands(p.Spar, p.Aft) {
			return false
		}
		if x = b.Spars[p.Spar].Fore; p.Aft {
			x = b.Spars[p.Spar].Aft
		}
	}
	return b.behind.beyond(x) || b.ahead.beyond(x)
}
