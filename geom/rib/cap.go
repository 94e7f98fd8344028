package rib

import (
	"fmt"
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/finding"
)

// IDs of caps and blocks, as the report and the lists name them.
const (
	CapUpper  = "cap-upper"
	CapLower  = "cap-lower"
	BlockNose = "block-nose"
	BlockTail = "block-tail"
)

func capID(s Side) string {
	if s == Upper {
		return CapUpper
	}
	return CapLower
}

// caps makes both cap strips: between the contour and the inner edge, parted at the nose on the line
// aft from the leading edge and at the tail, where they meet, midway between the contours.
func (b *builder) caps() {
	mid := b.midline()
	from := b.capsFrom()
	if from == 0 && !b.ahead.on {
		b.CapsMeetMM2 = float64(b.noseTip.Dist(b.Contour.Upper[0]) * b.CapWidth)
	}
	if !b.open {
		b.CapsMeetMM2 += float64(chainLength(mid) * b.CapWidth)
	}
	for _, s := range []Side{Upper, Lower} {
		pts := b.Contour.Upper
		if s == Lower {
			pts = b.Contour.Lower
		}
		c := Cap{ID: capID(s), Side: s, From: from, Edge: pts, Outline: capOutline(pts, b.innerSide(s), mid, s)}
		round := pts
		if !b.ahead.on {
			round = b.roundEdge(s)
		}
		c.RadiusMin, c.RadiusMinAt = leastRadius(round)
		if from > 0 {
			_, c.Edge = splitAt(pts, from)
			c.Outline = geom.Largest((geom.Shape{Ring: c.Outline}).Cut(geom.After(from), 0)).Ring
			c.RadiusMin, c.RadiusMinAt = leastRadius(c.Edge[1:]) // its first point may lie on a chord
		}
		c.Length = chainLength(c.Edge)
		b.Caps = append(b.Caps, c)
	}
}

// capsFrom returns the station where the caps begin, 0 where they run round the nose to the leading edge.
func (b *builder) capsFrom() float64 {
	from := b.doc.Cap.From
	if from == 0 || !b.doc.Nose.Present || b.ahead.beyond(from) {
		return 0
	}
	if b.ahead.on {
		b.find(finding.Finding{Severity: finding.Error, Code: "cap-from", Key: "cap.from", Part: CapUpper + ", " + CapLower,
			Message: fmt.Sprintf("The caps begin at %s, and the rib is cut off ahead: there is no nose to shape.", b.station(from)),
			Fix:     "Leave from out: the caps begin at the cut."})
		return 0
	}
	if least := b.noseTip.X + geom.Flat; from < least {
		b.find(finding.Finding{Severity: finding.Error, Code: "cap-from", Key: "cap.from", Part: CapUpper + ", " + CapLower,
			Message: fmt.Sprintf("The caps begin at %s, where the nose is still filled by both of them: they part at %s.", b.station(from), b.station(b.noseTip.X)),
			Fix:     "Let them begin further aft on the nose block, or leave from out: then they run to the leading edge.",
			Got:     from, Limit: least, Unit: "mm"})
		return 0
	}
	return from
}

// wholeNose returns the nose block of caps that begin on it: ahead of them it comes out to the contour.
func (b *builder) wholeNose(block geom.Ring, from float64) geom.Ring {
	behind := geom.Largest((geom.Shape{Ring: block}).Cut(geom.After(from), 0)).Ring
	ahead := geom.Largest((geom.Shape{Ring: b.Contour.Outline}).Cut(geom.Before(from), 0)).Ring
	// Each has one edge on the line at from; without it the ring ahead runs on into the ring behind.
	return append(openAt(ahead, from, true), openAt(behind, from, false)...)
}

// openAt returns the ring's points from one end of its edge on the line at x to the other, the way round that
// leaves the edge out: from its top, or from its bottom.
func openAt(r geom.Ring, x float64, fromTop bool) geom.Ring {
	on := func(p geom.Pt) bool { return math.Abs(p.X-x) < geom.Coincident }
	start := -1
	for i, p := range r {
		if on(p) && (start < 0 || (p.Y > r[start].Y) == fromTop) {
			start = i
		}
	}
	if start < 0 {
		return nil
	}
	var out geom.Ring
	for k := range r {
		p := r[(start+k)%len(r)]
		if out = append(out, p); k > 0 && on(p) {
			break
		}
	}
	return out
}

func (b *builder) innerSide(s Side) []geom.Pt {
	if s == Upper {
		return b.innerUpper
	}
	return b.innerLower
}

// capOutline returns the strip between a side of the contour and the same side of the inner edge, each
// nose to tail; mid runs from where the inner edges meet to the tail, and is empty where they do not.
func capOutline(pts, inner, mid []geom.Pt, s Side) geom.Ring {
	r := geom.Ring(slices.Clone(inner))
	if len(mid) > 0 {
		r = append(r, mid[1:]...)
	}
	outer := slices.Clone(pts)
	slices.Reverse(outer)
	for _, p := range outer {
		if p.Dist(r[len(r)-1]) > geom.Coincident {
			r = append(r, p)
		}
	}
	if s == Lower {
		r = r.Reverse()
	}
	return r
}

// midline returns the line midway between the contours, from where the inner edges meet to the tail.
func (b *builder) midline() []geom.Pt {
	if b.open {
		return nil
	}
	up, lo := newSide(Upper, b.Contour.Upper), newSide(Lower, b.Contour.Lower)
	var xs []float64
	for _, p := range append(slices.Clone(up.pts), lo.pts...) {
		if p.X > b.tailTip.X+geom.Flat {
			xs = append(xs, p.X)
		}
	}
	slices.Sort(xs)
	end := b.tailEnd()
	mid := []geom.Pt{b.tailTip}
	for _, x := range xs {
		if x < end-geom.Flat && x > mid[len(mid)-1].X+geom.Flat {
			mid = append(mid, geom.Pt{X: x, Y: (up.y(x) + lo.y(x)) / 2})
		}
	}
	return append(mid, up.pts[len(up.pts)-1].Lerp(lo.pts[len(lo.pts)-1], 0.5))
}

// roundEdge returns a side of the contour without a point that was only set on a chord of it: where the skin is
// taken off round the nose, the sides part on such a point. The chord's other end, on the other side, takes its place.
func (b *builder) roundEdge(s Side) []geom.Pt {
	mine, other := b.Contour.Upper, b.Contour.Lower
	if s == Lower {
		mine, other = other, mine
	}
	if len(mine) < 2 || len(other) < 2 {
		return mine
	}
	u, v := mine[0].Sub(other[1]), mine[1].Sub(mine[0])
	if math.Abs(math.Atan2(u.Cross(v), u.Dot(v))) > onChord {
		return mine
	}
	return append([]geom.Pt{other[1]}, mine[1:]...)
}

// onChord is the turn, radians, below which a point lies on the chord between its neighbours.
const onChord = 1e-6

// leastRadius returns the least radius of a curve given by points on it, and its station: the circle
// through three neighbours. Corners, where a skin ends, do not count.
func leastRadius(pts []geom.Pt) (r, station float64) {
	r = math.Inf(1)
	for i := 1; i+1 < len(pts); i++ {
		u, v := pts[i].Sub(pts[i-1]), pts[i+1].Sub(pts[i])
		turn := u.Cross(v)
		if turn == 0 || math.Abs(math.Atan2(turn, u.Dot(v))) > smooth {
			continue
		}
		if q := u.Len() * v.Len() * u.Add(v).Len() / (2 * math.Abs(turn)); q < r {
			r, station = q, pts[i].X
		}
	}
	return r, station
}

// blocks makes the solid blocks between the caps.
func (b *builder) blocks() {
	add := func(id, key string, at float64, h geom.Half) {
		best := geom.Largest((geom.Shape{Ring: b.Contour.Inner}).Cut(h, 0)).Ring
		if len(best) == 0 {
			b.find(finding.Finding{Severity: finding.Error, Code: "block-no-room", Key: key, Part: id,
				Message: fmt.Sprintf("No room for a block there: between the caps the rib is open from %s to %s only.",
					b.station(b.noseTip.X), b.station(b.Contour.Inner.Box().Max.X)),
				Fix: "Move the block's end to where the caps stand apart, or leave the block out.",
				Got: at, Limit: b.Contour.Inner.Box().Max.X, Unit: "mm"})
			return
		}
		if from := b.Caps[0].From; id == BlockNose && from > 0 {
			best = b.wholeNose(best, from)
		}
		b.Blocks = append(b.Blocks, Block{ID: id, Outline: best, AreaMM2: best.Area()})
	}
	if n := b.doc.Nose; n.Present {
		add(BlockNose, "nose.block_to", n.Station, geom.Before(n.Station))
	}
	if t := b.doc.Tail; t.Present {
		add(BlockTail, "tail.block_from", t.Station, geom.After(t.Station))
	}
}

// hasBlock reports whether the block was made.
func (b *builder) hasBlock(id string) bool {
	return slices.ContainsFunc(b.Blocks, func(k Block) bool { return k.ID == id })
}

// yOn returns the ordinate of a chain, nose to tail, at station x.
func yOn(chain []geom.Pt, x float64) float64 {
	for i := len(chain) - 1; i > 0; i-- {
		if p, q := chain[i-1], chain[i]; p.X <= x && x <= q.X && p.X < q.X {
			return at(p, q, x).Y
		}
	}
	return chain[len(chain)-1].Y
}
