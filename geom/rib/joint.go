package rib

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"ribwright/geom"
)

// joints numbers the panel points: U1, U2 … along the upper cap and L1, L2 … along the lower one, nose to tail.
func (b *builder) joints() {
	var refs []ref
	add := func(r ref) {
		if !slices.ContainsFunc(refs, func(q ref) bool { return same(q, r) }) {
			refs = append(refs, r)
		}
	}
	for _, s := range []Side{Upper, Lower} {
		if b.hasBlock(BlockNose) {
			add(ref{s, b.doc.Nose.Station})
		}
		if b.hasBlock(BlockTail) {
			add(ref{s, b.doc.Tail.Station})
		}
	}
	for _, p := range b.plans {
		add(p.from)
		add(p.to)
	}
	slices.SortFunc(refs, func(p, q ref) int { return cmp.Or(cmp.Compare(p.side, q.side), cmp.Compare(p.station, q.station)) })
	count := map[Side]int{}
	for _, r := range refs {
		count[r.side]++
		p, n := b.side(r.side).point(r.station)
		j := Joint{ID: fmt.Sprintf("%c%d", "UL"[r.side], count[r.side]), Side: r.side, Station: r.station, Surface: p, Normal: n,
			At: p.Along(n, b.CapDepth/2), Members: []string{capID(r.side)}, ButtMM2: map[string]float64{}}
		if b.hasBlock(BlockNose) && same(r, ref{r.side, b.doc.Nose.Station}) {
			j.Members = append(j.Members, BlockNose)
		}
		if b.hasBlock(BlockTail) && same(r, ref{r.side, b.doc.Tail.Station}) {
			j.Members = append(j.Members, BlockTail)
		}
		b.Joints = append(b.Joints, j)
	}
}

// joint returns the joint at a panel point.
func (b *builder) joint(r ref) *Joint {
	i := slices.IndexFunc(b.Joints, func(j Joint) bool { return same(r, ref{j.Side, j.Station}) })
	return &b.Joints[i]
}

// byID returns the joint with that name.
func (b *builder) byID(id string) *Joint {
	i := slices.IndexFunc(b.Joints, func(j Joint) bool { return j.ID == id })
	if i < 0 {
		return nil
	}
	return &b.Joints[i]
}

// butts adds up the areas in which stick ends and blocks are glued to what they meet: contact length times
// the smaller of the widths that meet.
func (b *builder) butts() {
	for i := range b.Sticks {
		s := &b.Sticks[i]
		for e, id := range []string{s.From, s.To} {
			j := b.byID(id)
			for _, c := range s.Ends[e].Cuts {
				if a := b.contact(s, c); a > 0 {
					j.ButtMM2[s.ID] += a
				}
			}
		}
	}
	for _, k := range b.Blocks {
		station := b.doc.Nose.Station
		if k.ID == BlockTail {
			station = b.doc.Tail.Station
		}
		for i, s := range []Side{Upper, Lower} {
			length, ahead := 0.0, math.Inf(-1)
			if from := b.Caps[i].From; k.ID == BlockNose && from > 0 { // the cap's end stands against the block, too
				length, ahead = math.Abs(yOn(b.Caps[i].Edge, from)-yOn(b.innerSide(s), from)), from
			}
			inner := b.innerSide(s)
			for i := 1; i < len(inner); i++ {
				p, q := inner[i-1], inner[i]
				if k.ID == BlockNose {
					length += within(p, q, ahead, station)
				} else {
					length += within(p, q, station, math.Inf(1))
				}
			}
			b.joint(ref{s, station}).ButtMM2[k.ID] += float64(length * b.CapWidth)
		}
	}
}

// within returns the length of the segment pq between two stations.
func within(p, q geom.Pt, lo, hi float64) float64 {
	if p.X > q.X {
		p, q = q, p
	}
	if q.X <= lo || p.X >= hi {
		return 0
	}
	if p.X >= lo && q.X <= hi {
		return p.Dist(q)
	}
	return p.Dist(q) * (math.Min(hi, q.X) - math.Max(lo, p.X)) / (q.X - p.X)
}

// contact returns the area in which a cut of a stick is glued to what it meets. Where two sticks meet on a
// mitre, the contact counts once, with the later stick.
func (b *builder) contact(s *Stick, c Cut) float64 {
	width, length := b.StickWidth, c.A.Dist(c.B)
	i := slices.IndexFunc(b.Sticks, func(o Stick) bool { return o.ID == c.Against })
	switch {
	case i >= 0:
		if i > slices.IndexFunc(b.Sticks, func(o Stick) bool { return o.ID == s.ID }) {
			return 0
		}
		length = touching(b.Sticks[i].Outline, c.A, c.B)
	case c.Against == CapUpper || c.Against == CapLower || c.Against == BlockNose || c.Against == BlockTail:
		width = math.Min(b.StickWidth, b.CapWidth)
	default:
		return 0 // a spar's opening: clearance, no glue
	}
	return float64(length * width)
}

// touching returns how much of the segment ab lies on the ring's edges.
func touching(r geom.Ring, a, b geom.Pt) float64 {
	h, d, sum := geom.LeftOf(a, b), b.Sub(a).Unit(), 0.0
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if math.Abs(h.Off(p)) > geom.Step || math.Abs(h.Off(q)) > geom.Step {
			continue
		}
		u, v := p.Sub(a).Dot(d), q.Sub(a).Dot(d)
		lo, hi := math.Max(math.Min(u, v), 0), math.Min(math.Max(u, v), a.Dist(b))
		sum += math.Max(0, hi-lo)
	}
	return sum
}
