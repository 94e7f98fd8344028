package rib

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"ribwright/airfoils"
	"ribwright/geom"
	"ribwright/geom/finding"
)

// contour makes the contour and the inner edge of the caps.
func (b *builder) contour(sec airfoils.Section) {
	te := b.doc.Rib.TrailingEdge
	sides := func(tol float64) (up, lo []geom.Pt) {
		up, lo = sec.Contour(b.Chord, tol)
		up, lo = cutTail(drawOn(up, te), te), cutTail(drawOn(lo, te), te)
		return b.skins(up, lo)
	}
	up, lo := sides(geom.Flat)
	c := &b.Contour
	c.Upper, c.Lower = up, lo
	if len(up) < 2 || len(lo) < 2 || b.tailEnd() < b.Chord/100 {
		b.find(finding.Finding{Severity: finding.Error, Code: "skin-fills-rib", Key: "section.skin",
			Message: "The skin is thicker than the section: nothing is left of the rib.",
			Fix:     "Give the thickness of the sheet; 1 mm is written as \"1 mm\", 1/32 in as \"1/32\"."})
		return
	}
	b.tellSkins()
	c.Inner, b.open = innerEdge(up, lo, b.CapDepth, b.tailEnd())
	b.cutInner()
	up, lo = b.cut(up), b.cut(lo)
	if len(up) < 2 || len(lo) < 2 {
		b.find(finding.Finding{Severity: finding.Error, Code: "rib-cut-off", Key: "rib.trailing_edge",
			Message: "Nothing is left of the rib between the places where it is cut off.",
			Fix:     "Put trailing_edge or leading_edge right; both are measured from the leading edge."})
		c.Inner = nil
		return
	}
	c.Upper, c.Lower = up, lo
	for _, s := range sec.Stations() {
		x := s * b.Chord
		if s == 0 { // a skin moves the nose aft, and so does a cut
			x = up[0].X
		}
		if x >= up[0].X && x < b.tailEnd()-samePoint {
			c.Stations = append(c.Stations, x)
		}
	}
	c.Stations = append(c.Stations, math.Min(te, math.Max(up[len(up)-1].X, lo[len(lo)-1].X)))
	c.Outline = outline(up, lo)
	if len(b.doc.Section.Skins) > 0 && !c.Outline.Simple() {
		b.find(finding.Finding{Severity: finding.Error, Code: "skin-crosses", Key: "section.skin",
			Message: "With the skins taken off, the contour crosses itself: two of them step at one place, or one is thicker than the nose is round.",
			Fix:     "Let every stretch of the contour have one skin, with the thickness of all sheets that lie there."})
		return
	}
	c.AreaMM2 = c.Outline.Area()
	c.Length = chainLength(up) + chainLength(lo)
	// Stations and normals are taken from a finer line: a normal off by half the turn between two chords would
	// carry a plate's centre off by several hundredths of a millimetre.
	fineUp, fineLo := sides(geom.Flat / 20)
	// They are the whole rib's: a cut would turn the normals beside it.
	b.upper, b.lower = newSide(Upper, fineUp), newSide(Lower, fineLo)
	for _, p := range slices.Concat(b.cut(b.upper.pts), b.cut(b.lower.pts)) {
		if d := b.upper.y(p.X) - b.lower.y(p.X); d > c.DepthMax {
			c.DepthMax, c.DepthMaxAt = d, p.X
		}
	}
	if len(c.Inner) == 0 {
		b.find(finding.Finding{Severity: finding.Error, Code: "cap-fills-rib", Key: "cap.depth",
			Message: fmt.Sprintf("Caps %s deep fill the whole rib, which is %s deep at most.", b.len(b.CapDepth), b.len(c.DepthMax)),
			Fix:     "Make cap.depth smaller than half the rib's depth.", Got: b.CapDepth, Limit: c.DepthMax / 2, Unit: "mm"})
		return
	}
	b.splitInner()
}

// tailEnd returns the station where the contour ends.
func (b *builder) tailEnd() float64 {
	return math.Min(b.Contour.Upper[len(b.Contour.Upper)-1].X, b.Contour.Lower[len(b.Contour.Lower)-1].X)
}

// outline joins the two sides, each nose to tail, to one ring: tail, upper side, nose, lower side.
func outline(up, lo []geom.Pt) geom.Ring {
	r := geom.Ring(slices.Clone(up))
	slices.Reverse(r)
	for _, p := range lo {
		if p.Dist(r[len(r)-1]) > geom.Coincident {
			r = append(r, p)
		}
	}
	if r[0].Dist(r[len(r)-1]) <= geom.Coincident {
		r = r[:len(r)-1]
	}
	return r
}

// drawOn prolongs a side that ends a hair ahead of the station te: the open tail of an equation stands square to
// its mean line, and the rib is cut off square to its chord.
func drawOn(pts []geom.Pt, te float64) []geom.Pt {
	const hair = 0.005 // share of te
	n := len(pts)
	if end := pts[n-1]; end.X < te && end.X > te*(1-hair) && end.X > pts[n-2].X {
		return append(slices.Clone(pts), at(pts[n-2], end, te))
	}
	return pts
}

// cutTail ends a side at the station te.
func cutTail(pts []geom.Pt, te float64) []geom.Pt {
	for i := len(pts) - 1; i > 0; i-- {
		a, p := pts[i-1], pts[i]
		if a.X < te && p.X > te {
			return append(slices.Clone(pts[:i]), a.Lerp(p, (te-a.X)/(p.X-a.X)))
		}
		if p.X <= te {
			return slices.Clone(pts[:i+1])
		}
	}
	return slices.Clone(pts)
}

func chainLength(pts []geom.Pt) float64 {
	s := 0.0
	for i := 1; i < len(pts); i++ {
		s += pts[i-1].Dist(pts[i])
	}
	return s
}

// at returns the point of the segment pq at station x.
func at(p, q geom.Pt, x float64) geom.Pt { return p.Lerp(q, (x-p.X)/(q.X-p.X)) }

// foremost returns the index of the point with the least x.
func foremost(pts []geom.Pt) int {
	k := 0
	for i, p := range pts {
		if p.X < pts[k].X {
			k = i
		}
	}
	return k
}

// innerEdge returns the caps' inner edge: the parallel of both sides at the caps' depth. The cut at the
// tail has no cap of its own, so the sides are prolonged over it before and cut afterwards.
func innerEdge(up, lo []geom.Pt, depth, te float64) (inner geom.Ring, open bool) {
	chain := slices.Clone(up)
	slices.Reverse(chain)
	n := len(lo)
	ahead := chain[0].Sub(chain[1]).Unit()
	chain = append([]geom.Pt{chain[0].Along(ahead, 3*depth)}, chain...)
	chain = append(chain, lo[1:]...)
	chain = append(chain, lo[n-1].Along(lo[n-1].Sub(lo[n-2]).Unit(), 3*depth))
	rings, rest := geom.Parallel(chain, false, depth)
	if len(rest) > 2 {
		rings = append(rings, rest)
	}
	for _, r := range rings {
		for _, p := range r.Cut(geom.Before(te)) {
			if p.Area() > inner.Area() {
				inner = p
			}
		}
	}
	for _, p := range inner {
		open = open || p.X > te-geom.Coincident
	}
	return inner, open
}

// splitInner parts the inner edge into its upper and lower side, nose to tail.
func (b *builder) splitInner() {
	if b.ahead.on {
		b.splitOpen()
		return
	}
	in := b.Contour.Inner
	nose := b.noseSplit(in)
	b.noseTip = nose.p
	b.splitRing(append(geom.Ring{nose.p}, append(slices.Clone(in[nose.i+1:]), in[:nose.i+1]...)...))
	b.innerUpper = append([]geom.Pt{nose.p}, b.innerUpper...)
}

// splitRing parts the inner edge, which begins at the nose, counter-clockwise: the lower side to the tail, then the
// upper side back.
func (b *builder) splitRing(ring geom.Ring) {
	lowEnd, upStart := 0, 0
	for k, p := range ring {
		switch {
		case b.open && b.onTail(p):
			if lowEnd == 0 {
				lowEnd = k
			}
			upStart = k
		case !b.open && p.X > ring[lowEnd].X:
			lowEnd, upStart = k, k
		}
	}
	b.tailTip = ring[lowEnd]
	b.innerLower = slices.Clone(ring[:lowEnd+1])
	b.innerUpper = slices.Clone(ring[upStart:])
	slices.Reverse(b.innerUpper)
}

// split is a place on a ring: p on the edge that leaves point i.
type split struct {
	i int
	p geom.Pt
}

// noseSplit finds where the inner edge, or the contour moved inward, meets the line aft from the leading
// edge, along which the caps are parted at the nose.
func (b *builder) noseSplit(in geom.Ring) split {
	y := b.Contour.Upper[0].Y
	best, found := split{}, false
	for i, p := range in {
		q := in[(i+1)%len(in)]
		if (p.Y > y) == (q.Y > y) {
			continue
		}
		if c := p.Lerp(q, (y-p.Y)/(q.Y-p.Y)); !found || c.X < best.p.X {
			best, found = split{i, c}, true
		}
	}
	if !found || best.p.X > in.Box().Centre().X {
		k := foremost(in)
		best = split{k, in[k].Lerp(in[(k+1)%len(in)], 0.5)}
	}
	return best
}

// newSide prepares a side of the contour for stations. Corners keep their edges' tangents apart: the
// tangent at a point is the mean of its edges' directions only where the line is smooth.
func newSide(s Side, pts []geom.Pt) side {
	pts = pts[foremost(pts):]
	out := side{side: s, pts: pts, tangent: make([]geom.Pt, len(pts))}
	for i := range pts {
		var u, v geom.Pt
		if i > 0 {
			u = pts[i].Sub(pts[i-1])
		}
		if i < len(pts)-1 {
			v = pts[i+1].Sub(pts[i])
		}
		switch {
		case i == 0:
			out.tangent[i] = v.Unit()
		case i == len(pts)-1:
			out.tangent[i] = u.Unit()
		default: // the shorter edge lies nearer to the curve: its direction counts more
			out.tangent[i] = u.Unit().Mul(v.Len()).Add(v.Unit().Mul(u.Len())).Unit()
		}
	}
	return out
}

// smooth is the turn, radians, above which a corner of the contour is a corner and not a curve.
const smooth = 0.2

// edge returns the index of the edge on which station x lies.
func (s *side) edge(x float64) int {
	n := len(s.pts)
	i := sort.Search(n-1, func(k int) bool { return s.pts[k+1].X > x })
	return min(i, n-2)
}

// y returns the ordinate at station x.
func (s *side) y(x float64) float64 {
	i := s.edge(x)
	if s.pts[i+1].X == s.pts[i].X {
		return s.pts[i].Y
	}
	return at(s.pts[i], s.pts[i+1], x).Y
}

// meets returns the station where the side crosses the edge of a half-plane that stands more or less upright; where
// it does not, the side's end that lies nearer.
func (s *side) meets(h geom.Half) float64 {
	if h.N.Y == 0 {
		return h.D / h.N.X
	}
	n := len(s.pts) - 1
	for i := n; i > 0; i-- {
		u, v := h.Off(s.pts[i-1]), h.Off(s.pts[i])
		if (u < 0) != (v < 0) {
			return s.pts[i-1].Lerp(s.pts[i], u/(u-v)).X
		}
	}
	if (h.Off(s.pts[n]) > 0) == (h.N.X > 0) {
		return s.pts[0].X
	}
	return s.pts[n].X
}

// point returns the contour's point at station x and its inward normal.
func (s *side) point(x float64) (p, inward geom.Pt) {
	i := s.edge(x)
	a, b := s.pts[i], s.pts[i+1]
	p = at(a, b, x)
	dir := b.Sub(a).Unit()
	u, v := s.tangent[i], s.tangent[i+1]
	if u.Dot(dir) < math.Cos(smooth) {
		u = dir
	}
	if v.Dot(dir) < math.Cos(smooth) {
		v = dir
	}
	t := u.Lerp(v, a.Dist(p)/a.Dist(b)).Unit()
	if s.side == Upper {
		return p, t.Left().Mul(-1)
	}
	return p, t.Left()
}

// CutAhead reports whether the rib is cut off ahead, so that it has no leading edge.
func (c Contour) CutAhead() bool {
	return len(c.Upper) > 0 && len(c.Lower) > 0 && c.Upper[0].Dist(c.Lower[0]) > geom.Flat
}

// At returns the contour's ordinates at station x, and whether the contour reaches there.
func (c Contour) At(x float64) (upper, lower float64, ok bool) {
	if le := c.Upper[0]; math.Abs(x-le.X) < geom.Coincident && math.Abs(le.X-c.Lower[0].X) < geom.Coincident { // a cambered nose reaches a hair ahead of it
		return le.Y, c.Lower[0].Y, true
	}
	u, l := newSide(Upper, c.Upper), newSide(Lower, c.Lower)
	end := math.Max(u.pts[len(u.pts)-1].X, l.pts[len(l.pts)-1].X)
	if x < math.Min(u.pts[0].X, l.pts[0].X)-geom.Coincident || x > end+geom.Coincident {
		return 0, 0, false
	}
	return u.y(x), l.y(x), true
}
