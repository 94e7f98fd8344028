package jig

import (
	"fmt"
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
)

// need is a place on a face where a block must stand, or near it.
type need struct {
	face  *face
	s     float64 // the place
	reach float64 // how far from it a block may stand and serve
	part  string  // what it is for, such as "U3"
	cap   string
}

// metBy reports whether a block serves the need.
func (n *need) metBy(b *Block) bool {
	return b.face == n.face && math.Abs(b.s-n.s) <= n.reach+hair
}

func (p *planner) met(n *need) bool {
	for i := range p.blocks {
		if n.metBy(&p.blocks[i]) {
			return true
		}
	}
	return false
}

// caps places the blocks along both caps, first those outside.
func (p *planner) caps() {
	p.noseBlock()
	for _, f := range []*face{&p.outer, &p.inner} {
		var needs []*need
		for i := range p.r.Joints {
			j := &p.r.Joints[i]
			if f == &p.inner && p.backed(j) {
				continue
			}
			at := j.Surface
			if f == &p.inner {
				at = j.Surface.Along(j.Normal, p.r.CapDepth)
			}
			needs = append(needs, p.need(f, f.nearest(at), j.ID, capOf(j.Side)))
		}
		for _, c := range p.r.Caps {
			if at, ok := p.bend(c); ok {
				needs = append(needs, p.need(f, f.nearest(at), "the bend of "+c.ID, c.ID))
			}
		}
		needs = slices.DeleteFunc(needs, func(n *need) bool { return n == nil })
		p.needs = append(p.needs, needs...)
		p.meet(needs)
		p.space(f)
	}
	for i := range p.members {
		if m := &p.members[i]; m.id == rib.CapUpper || m.id == rib.CapLower {
			p.holdCap(m)
		}
	}
}

func capOf(s rib.Side) string {
	if s == rib.Upper {
		return rib.CapUpper
	}
	return rib.CapLower
}

// backed reports whether the nose or tail block fills the inner side of the cap at a joint.
func (p *planner) backed(j *rib.Joint) bool {
	return slices.Contains(j.Members, rib.BlockNose) || slices.Contains(j.Members, rib.BlockTail)
}

// noseBlock puts a block in front of the leading edge, where both caps bend most. A rib that is cut off ahead has none.
func (p *planner) noseBlock() {
	if p.r.Contour.CutAhead() {
		return
	}
	n := &need{face: &p.outer, s: p.outer.nearest(p.r.Contour.Upper[0]), part: "the leading edge", cap: rib.CapUpper}
	p.needs = append(p.needs, n)
	for _, size := range p.sizes() {
		if b, ok := p.try(n.face, n.s, size); ok {
			p.take(b)
			return
		}
	}
	p.noPlace(n)
}

// need makes the need for a block at a place of a face; it is nil, and a finding tells, where none can stand near.
func (p *planner) need(f *face, s float64, part, cap string) *need {
	n := &need{face: f, s: s, part: part, cap: cap}
	for _, size := range p.sizes() {
		if d, ok := p.distance(n, size); ok {
			n.reach = d + p.set.BlockLength
			return n
		}
	}
	p.noPlace(n)
	return nil
}

// distance returns how far from a need the nearest place is. Further than half the spacing a block serves nothing.
func (p *planner) distance(n *need, size [2]float64) (float64, bool) {
	best := math.Inf(1)
	for _, dir := range [2]float64{1, -1} {
		if s, ok := p.nearest(n.face, n.s, dir, p.set.Spacing/2, size); ok {
			best = math.Min(best, math.Abs(s-n.s))
		}
	}
	return best, !math.IsInf(best, 1)
}

// noPlace tells that no block can stand at a place.
func (p *planner) noPlace(n *need) {
	side := "outer"
	if n.face.inside {
		side = "inner"
	}
	at := n.face.point(n.s)
	p.find(finding.Finding{Severity: finding.Warning, Code: "jig-no-place", Key: "jig.block_length", Part: n.part, At: []geom.Pt{at},
		Message: fmt.Sprintf("On the %s side of %s no block of the jig finds a place near %s, within %s.", side, n.cap, n.part, p.len(p.set.Spacing/2)),
		Fix:     "Make the blocks smaller (block_length, block_width), or the relief holes or room; or hold the cap there with a clamp."})
}

// meet places blocks until every need is met: each time the one that meets most of the needs left, and of equals
// the one that stands nearest to them.
func (p *planner) meet(needs []*need) {
	left, pool := slices.Clone(needs), p.candidates(needs)
	for {
		left = slices.DeleteFunc(left, p.met)
		if len(left) == 0 {
			return
		}
		best, count, sum := -1, 0, 0.0
		for i := range pool {
			c := &pool[i]
			k, far := 0, 0.0
			for _, n := range left {
				if n.metBy(c) {
					k++
					far += math.Abs(c.s - n.s)
				}
			}
			if k > count || k == count && k > 0 && (far < sum-0.05 || far < sum+0.05 && c.At.X > pool[best].At.X) {
				best, count, sum = i, k, far
			}
		}
		if count > 0 {
			b := pool[best]
			p.take(b)
			pool = slices.DeleteFunc(pool, func(c Block) bool { return c.body.foulsBlock(&b.body, p.set.Clearance) })
			continue
		}
		// Blocks placed since stand in the way.
		if pool = p.candidates(left); len(pool) > 0 {
			continue
		}
		n := left[0]
		for _, size := range p.sizes() {
			if d, ok := p.distance(n, size); ok && n.reach < d {
				n.reach, count = d, 1
				break
			}
		}
		if pool = p.candidates(left); count == 0 {
			p.noPlace(n)
			n.reach = math.Inf(1)
			left = left[1:]
			p.needs = slices.DeleteFunc(p.needs, func(o *need) bool { return o == n })
		}
	}
}

// candidates returns blocks that may meet needs: the nearest on either side of each, and nearest to the middle between
// neighbours.
func (p *planner) candidates(left []*need) []Block {
	var out []Block
	add := func(n *need, s float64) {
		for _, size := range p.sizes() {
			found := false
			for _, dir := range [2]float64{1, -1} {
				if t, ok := p.nearest(n.face, s, dir, n.reach+math.Abs(s-n.s), size); ok {
					b, _ := p.try(n.face, t, size)
					if n.metBy(&b) {
						out, found = append(out, b), true
					}
				}
			}
			if found {
				return
			}
		}
	}
	for i, n := range left {
		add(n, n.s)
		for _, o := range left[:i] {
			if o.face == n.face && math.Abs(o.s-n.s) < o.reach+n.reach {
				add(n, (o.s+n.s)/2)
			}
		}
	}
	return out
}

// holdCap adds blocks to a cap until its contacts hold it: each time the one that leaves least play.
func (p *planner) holdCap(m *member) {
	const most = 4
	g := newGrip(m.ends, p.contactsOf(*m), exact)
	play, ok := g.play()
	good := func() bool { return ok && play <= PlayLimit }
	if good() {
		return
	}
	places := p.capPlaces(m)
	for range most {
		best, least := -1, math.Inf(1)
		for i := range places {
			if play, ok := g.within(places[i].Contacts, m.id, least); ok && play < least-1e-9 && !p.clashes(&places[i]) {
				best, least = i, play
			}
		}
		if best < 0 {
			break
		}
		p.take(places[best])
		g = g.with(places[best].Contacts, m.id)
		if play, ok = g.play(); good() {
			return
		}
	}
	p.loose(m)
}

// capPlaces returns blocks that may hold a cap lengthwise: at its end in the tail, and along both its edges.
func (p *planner) capPlaces(m *member) []Block {
	var out []Block
	size := p.sizes()[0]
	add := func(f *face, s float64) {
		if !slices.Contains(p.bears(f, s), m.id) {
			return
		}
		if b, ok := p.try(f, s, size); ok {
			b.Contacts = p.room.contacts(&b)
			out = append(out, b)
		}
	}
	for i := range m.faces {
		add(&m.faces[i], m.faces[i].length()/2)
	}
	for _, f := range []*face{&p.outer, &p.inner} {
		for s := size[0]; s < f.length()-size[0]; s += size[0] {
			add(f, s)
		}
	}
	return out
}

// loose tells that a member is not held.
func (p *planner) loose(m *member) {
	mid := m.ends[0].Lerp(m.ends[1], 0.5)
	until := ""
	if p.r.Web.Near { // it is glued on in the jig, and reaches over every member
		until = " until the web is glued on, which holds it from then on"
	}
	p.find(finding.Finding{Severity: finding.Warning, Code: "jig-loose", Key: "jig.block_length", Part: m.id, At: []geom.Pt{mid},
		Message: fmt.Sprintf("The jig does not hold %s well: beside it there is not the room for the blocks it wants.", m.id),
		Fix:     "Make the blocks smaller (block_length, block_width), the relief holes (relief) or the room around the plates (room); or hold it with a clamp or by hand" + until + "."})
}

// checkSlide tells of a member that blocks cannot hold well wherever they stand.
func (p *planner) checkSlide(m *member, play float64) {
	if play <= PlayLimit {
		return
	}
	p.find(finding.Finding{Severity: finding.Warning, Code: "jig-slide", Key: "jig.clearance", Part: m.id, At: []geom.Pt{m.ends[0].Lerp(m.ends[1], 0.5)},
		Message: fmt.Sprintf("%s can slide by %s in the jig wherever its blocks stand: it lies so flat that a small gap at its ends is a long way.",
			m.id, p.len(play*p.set.Clearance)),
		Fix: "Press it home and clamp it while the glue sets; or let it stand steeper; with less clearance of the blocks it slides less.",
		Got: play, Limit: PlayLimit})
}
