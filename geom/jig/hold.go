package jig

import (
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/rib"
)

// member is a piece of wood to hold.
type member struct {
	id      string
	ends    [2]geom.Pt // the points whose play is measured
	given   []Contact  // with what was laid before it
	faces   []face     // straight edges on which blocks may bear; of a cap its end in the tail
	wood    bool       // a nose or tail block
	covered bool
	spacer  spacer    // of a post
	flank   []geom.Pt // the normals of the edges that must have a block
	limit   float64   // of its play
}

// spacer is a spar's spacer, as one of its posts sees it.
type spacer struct {
	Spacer
	first bool // the post that is laid first
}

// members lists the caps, the blocks of wood and the sticks, in the order in which they are laid.
func members(r *rib.Rib) []member {
	var out []member
	for _, c := range r.Caps {
		pts := r.Contour.Upper
		if c.Side == rib.Lower {
			pts = r.Contour.Lower
		}
		m := member{id: c.ID, ends: [2]geom.Pt{pts[0], pts[len(pts)-1]}, faces: []face{tailFace(r, c.Side)}}
		if r.Contour.CutAhead() {
			m.faces = append(m.faces, foreFace(r, c))
		}
		out = append(out, m)
	}
	for _, k := range r.Blocks {
		out = append(out, woodMember(r, k))
	}
	for i := range r.Sticks {
		if len(r.Sticks[i].Outline) > 0 {
			out = append(out, stickMember(r, i))
		}
	}
	addSpacers(r, out)
	return out
}

// seatCaps rests the caps on the nose and tail block where the jig holds those.
func (p *planner) seatCaps() {
	for i := range p.r.Caps {
		for _, m := range p.members[len(p.r.Caps):] {
			if k := slices.IndexFunc(p.r.Blocks, func(k rib.Block) bool { return k.ID == m.id }); k >= 0 && !m.covered {
				cap := &p.members[i]
				cap.given = append(cap.given, seat(p.r.Blocks[k].Outline, p.r.Caps[i].Outline, cap.id)...)
			}
		}
	}
}

// addSpacers lets the two posts of a spar rest against each other across the opening, where no block may stand: over the
// middle half of the shorter one.
func addSpacers(r *rib.Rib, all []member) {
	for _, s := range r.Spars {
		fore, aft := faceOn(all, s.Ahead(), s.Up()), faceOn(all, s.Behind(), s.Up())
		if fore == nil || aft == nil {
			continue
		}
		lo := math.Max(fore.low, aft.low)
		hi := math.Min(fore.high, aft.high)
		if hi-lo < 1 {
			continue
		}
		lo, hi = lo+float64((hi-lo)/4), hi-float64((hi-lo)/4)
		for k, f := range []*postFace{fore, aft} {
			m := f.m
			n := s.Square().Mul(float64(2*k - 1))
			foot := n.Mul(-f.edge.D) // on the face's line, nearest to the origin
			m.given = append(m.given, Contact{Member: m.id, At: foot.Along(s.Up(), lo), Normal: n}, Contact{Member: m.id, At: foot.Along(s.Up(), hi), Normal: n})
			m.spacer = spacer{Spacer{s.Name, s.Gap(), hi - lo}, k == 0}
		}
	}
}

// postFace is a post's face on a spar's opening, from low to high along the spar.
type postFace struct {
	m         *member
	edge      geom.Half
	low, high float64
}

// faceOn returns the face that lies on the edge of a half-plane, whose direction is up.
func faceOn(all []member, edge geom.Half, up geom.Pt) *postFace {
	for i := range all {
		for _, f := range all[i].faces {
			a, b := f.pts[0], f.pts[1]
			if !all[i].wood && math.Abs(edge.Off(a))+math.Abs(edge.Off(b)) < geom.Step {
				return &postFace{&all[i], edge, math.Min(a.Dot(up), b.Dot(up)), math.Max(a.Dot(up), b.Dot(up))}
			}
		}
	}
	return nil
}

// tailFace returns a cap's end in the tail, from below to above; where the caps meet, both ends as one.
func tailFace(r *rib.Rib, s rib.Side) face {
	up, lo := r.Contour.Upper[len(r.Contour.Upper)-1], r.Contour.Lower[len(r.Contour.Lower)-1]
	in := innerChain(r.Contour.Inner)
	switch {
	case in[0].Dist(in[len(in)-1]) < geom.Coincident:
	case s == rib.Upper:
		lo = in[len(in)-1]
	default:
		up = in[0]
	}
	if up.Dist(lo) < 4*geom.Flat { // a sharp tail
		mid := up.Lerp(lo, 0.5)
		lo, up = mid.Add(geom.Pt{Y: -2 * geom.Flat}), mid.Add(geom.Pt{Y: 2 * geom.Flat})
	}
	return newFace([]geom.Pt{lo, up}, false, bothCaps...)
}

// foreFace returns a cap's end on the cut of a rib that is cut off ahead, from above to below.
func foreFace(r *rib.Rib, c rib.Cap) face {
	up, lo := r.Contour.Upper[0], r.Contour.Lower[0]
	for _, p := range c.Outline { // the cap's corner on the cut that lies inside
		if p.Dist(up) > geom.Flat && p.Dist(lo) > geom.Flat && geom.Distance(p, []geom.Pt{up, lo}, false) < geom.Step {
			if c.Side == rib.Upper {
				lo = p
			} else {
				up = p
			}
			break
		}
	}
	return newFace([]geom.Pt{up, lo}, false, c.ID)
}

// woodMember returns a nose or tail block: it rests in the caps, and its flat face is free.
func woodMember(r *rib.Rib, k rib.Block) member {
	box := k.Outline.Box()
	m := member{id: k.ID, wood: true, ends: [2]geom.Pt{{X: box.Min.X, Y: box.Centre().Y}, {X: box.Max.X, Y: box.Centre().Y}}}
	for _, c := range r.Caps {
		for _, s := range seat(c.Outline, k.Outline, k.ID) {
			s.Tight = true
			m.given = append(m.given, s)
		}
	}
	flat := box.Max.X
	if k.ID == rib.BlockTail {
		flat = box.Min.X
	}
	for i, a := range k.Outline {
		b := k.Outline[(i+1)%len(k.Outline)]
		if math.Abs(a.X-flat)+math.Abs(b.X-flat) < geom.Flat && a.Dist(b) > 1 {
			m.faces = append(m.faces, newFace([]geom.Pt{a, b}, true, m.id))
		}
	}
	return m
}

// seats is how many points stand for a curved seat.
const seats = 6

// seat returns the contacts of a member with another one whose edge it shares.
func seat(other, ring geom.Ring, id string) []Contact {
	type line struct {
		pts [2]geom.Pt
		box geom.Box
	}
	var near []line // the other's about the member
	var about geom.Box
	box := ring.Box()
	for i, a := range other {
		b := other[(i+1)%len(other)]
		if l := (line{[2]geom.Pt{a, b}, geom.NewBox(a, b).Grow(geom.Step)}); box.Meets(l.box) {
			near, about = append(near, l), about.Union(l.box)
		}
	}
	var all []Contact
	last := 0
	shared := func(p geom.Pt) bool { // looked for first where the last one was found: the other runs along the member
		for k := range near {
			i := (last + len(near) - 1 + k) % len(near)
			if l := &near[i]; l.box.Holds(p) && geom.Distance(p, l.pts[:], false) < geom.Step {
				last = i
				return true
			}
		}
		return false
	}
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		mid := a.Lerp(b, 0.5)
		if about.Holds(mid) && a.Dist(b) > geom.Flat && shared(mid) {
			all = append(all, Contact{Member: id, At: mid, Normal: b.Sub(a).Unit().Left()})
		}
	}
	if len(all) <= seats {
		return all
	}
	var out []Contact
	for k := range seats {
		out = append(out, all[k*(len(all)-1)/(seats-1)])
	}
	return out
}

// stickMember returns a stick: its ends rest on the caps, on blocks and on the sticks before it, and its long edges are
// free.
func stickMember(r *rib.Rib, i int) member {
	s := &r.Sticks[i]
	u := s.Axis[1].Sub(s.Axis[0]).Unit()
	mid := s.Axis[0].Lerp(s.Axis[1], 0.5)
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range s.Outline {
		t := p.Sub(mid).Dot(u)
		lo, hi = math.Min(lo, t), math.Max(hi, t)
	}
	m := member{id: s.ID, ends: [2]geom.Pt{mid.Along(u, lo), mid.Along(u, hi)}}
	in := mid.Along(u, (lo+hi)/2)
	for e := range s.Ends {
		for _, c := range s.Ends[e].Cuts {
			if !before(r, c.Against, i) || c.A.Dist(c.B) < geom.Flat {
				continue
			}
			n := c.B.Sub(c.A).Unit().Left()
			if in.Sub(c.A).Dot(n) < 0 {
				n = n.Mul(-1)
			}
			a, b := c.A, c.B
			if k := slices.IndexFunc(r.Sticks, func(o rib.Stick) bool { return o.ID == c.Against }); k >= 0 {
				a, b = along(r.Sticks[k].Outline, a, b)
			}
			m.given = append(m.given, Contact{Member: s.ID, At: a, Normal: n}, Contact{Member: s.ID, At: b, Normal: n})
		}
	}
	for k, a := range s.Outline {
		b := s.Outline[(k+1)%len(s.Outline)]
		d := b.Sub(a)
		if l := d.Len(); l > 1 && math.Abs(d.Cross(u)) < float64(1e-6*l) {
			m.faces = append(m.faces, newFace([]geom.Pt{a, b}, true, m.id))
		}
	}
	// The fore edge first, whichever way the stick runs, so that a rib turned upside down is held alike.
	slices.SortStableFunc(m.faces, func(f, g face) int {
		x := func(f face) float64 { return f.pts[0].X + f.pts[1].X }
		switch {
		case x(f) < x(g):
			return -1
		case x(f) > x(g):
			return 1
		}
		return 0
	})
	return m
}

// before reports whether a stick's end rests on what was laid before it: a cap, a block of wood, an earlier stick.
func before(r *rib.Rib, against string, stick int) bool {
	switch against {
	case rib.CapUpper, rib.CapLower, rib.BlockNose, rib.BlockTail:
		return true
	}
	k := slices.IndexFunc(r.Sticks, func(o rib.Stick) bool { return o.ID == against })
	return k >= 0 && k < stick
}

// along returns the part of the segment ab that lies on a ring's edges, the segment itself where none does.
func along(ring geom.Ring, a, b geom.Pt) (geom.Pt, geom.Pt) {
	d := b.Sub(a)
	l := d.Len()
	u := d.Mul(1 / l)
	lo, hi := math.Inf(1), math.Inf(-1)
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		if math.Abs(p.Sub(a).Cross(u)) > geom.Step || math.Abs(q.Sub(a).Cross(u)) > geom.Step {
			continue
		}
		s, t := p.Sub(a).Dot(u), q.Sub(a).Dot(u)
		if s, t = math.Max(math.Min(s, t), 0), math.Min(math.Max(s, t), l); s < t {
			lo, hi = math.Min(lo, s), math.Max(hi, t)
		}
	}
	if lo >= hi {
		return a, b
	}
	return a.Along(u, lo), a.Along(u, hi)
}

// flatShare is how far above the least that blocks can do the play of a member may be that none hold within PlayLimit.
const flatShare = 1.25

// playLimit returns how far a member's ends may move, in clearances: PlayLimit; more where blocks all along its free edges would
// not do that, since its ends are cut so flat that a small gap at them is a long slide.
func (m *member) playLimit() float64 {
	all := slices.Clone(m.given)
	for _, f := range m.faces {
		a, b := f.pts[0], f.pts[len(f.pts)-1]
		n := b.Sub(a).Unit().Left()
		all = append(all, Contact{Member: m.id, At: a, Normal: n}, Contact{Member: m.id, At: b, Normal: n})
	}
	g := newGrip(m.ends, all, PlayLimit)
	if least, ok := g.play(); ok && least > PlayLimit {
		return flatShare * least
	}
	return PlayLimit
}

// play returns a member's play between its given contacts and the blocks taken; where that is not more than PlayLimit, it may be less
// than said.
func (p *planner) play(m *member) (float64, bool) {
	g := newGrip(m.ends, p.contactsOf(*m), PlayLimit)
	return g.play()
}

func (p *planner) contactsOf(m member) []Contact {
	out := slices.Clone(m.given)
	for i := range p.blocks {
		for _, c := range p.blocks[i].Contacts {
			if c.Member == m.id {
				out = append(out, c)
			}
		}
	}
	return out
}
