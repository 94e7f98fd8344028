package jig

import (
	"math"
	"slices"
)

// wood holds the nose and tail blocks, sticks the sticks, each with the fewest blocks.
func (p *planner) wood() {
	for i := range p.members {
		if m := &p.members[i]; m.wood && !m.covered {
			p.hold(m)
		}
	}
}

func (p *planner) sticks() {
	for i := range p.members {
		if m := &p.members[i]; !m.wood && len(m.faces) > 0 && i > 1 {
			p.hold(m)
		}
	}
}

// mostBlocks is how many blocks are tried on one stick.
const mostBlocks = 4

// hold takes the fewest blocks that hold a member.
func (p *planner) hold(m *member) {
	given := p.contactsOf(*m)
	play, ok := p.play(m)
	if p.set.Blocks != "both-sides" && ok && play <= m.limit {
		p.checkSlide(m, play)
		return
	}
	for _, size := range p.sizes() {
		c := p.beside(m, size)
		p.flanks(m, c)
		if ok && play <= m.limit && m.flanked(given) {
			p.checkSlide(m, play)
			return
		}
		for n := 1; n <= min(mostBlocks, len(c)); n++ {
			if best := p.fewest(m, c, given, n); best != nil {
				for _, k := range best {
					p.take(c[k])
				}
				play, _ = p.play(m)
				p.checkSlide(m, play)
				return
			}
		}
	}
	if m.covered = p.covered(m); !m.covered {
		p.loose(m)
	}
}

// flanks notes on which sides of a member a block must stand, where the builder wants blocks on both: on those that have a place.
func (p *planner) flanks(m *member, c []Block) {
	if p.set.Blocks != "both-sides" {
		return
	}
	m.flank = nil
	for i := range m.faces {
		f := &m.faces[i]
		if slices.ContainsFunc(c, func(b Block) bool { return b.face == f }) {
			m.flank = append(m.flank, f.pts[1].Sub(f.pts[0]).Unit().Left())
		}
	}
}

// flanked reports whether a contact presses on the member from each side that must have a block.
func (m *member) flanked(contacts []Contact) bool {
	for _, n := range m.flank {
		if !slices.ContainsFunc(contacts, func(c Contact) bool { return c.Block && c.Normal.Dot(n) > 0.99 }) {
			return false
		}
	}
	return true
}

// fewest returns the n of the candidates that hold a member with least play, or nil where none do.
func (p *planner) fewest(m *member, c []Block, given []Contact, n int) []int {
	var best, pick []int
	least := math.Inf(1)
	contacts := slices.Clone(given)
	var try func(from int, g grip)
	try = func(from int, g grip) {
		for k := from; k < len(c); k++ {
			if slices.ContainsFunc(pick, func(o int) bool { return c[o].body.foulsBlock(&c[k].body, p.set.Clearance) }) {
				continue
			}
			was := len(contacts)
			contacts = append(contacts, c[k].Contacts...)
			pick = append(pick, k)
			if len(pick) < n {
				try(k+1, g.with(c[k].Contacts, m.id))
			} else if play, ok := g.within(c[k].Contacts, m.id, min(m.limit, least)); ok && play < least-1e-6 && m.flanked(contacts) {
				least, best = play, slices.Clone(pick)
			}
			pick, contacts = pick[:len(pick)-1], contacts[:was]
		}
	}
	try(0, newGrip(m.ends, given, exact))
	return best
}

// perStretch is how many places are tried in each free stretch of a stick's edge: its ends, and between.
const perStretch = 3

// beside returns the blocks that may stand along a member's free edges.
func (p *planner) beside(m *member, size [2]float64) []Block {
	var out []Block
	for i := range m.faces {
		f := &m.faces[i]
		for _, s := range p.stretches(f, size) {
			n := perStretch
			if s[1]-s[0] < 1 {
				n = 1
			}
			for k := range n {
				t := s[0]
				if n > 1 {
					t += float64((s[1] - s[0]) * float64(k) / float64(n-1))
				}
				if b, ok := p.try(f, t, size); ok {
					b.Contacts = p.room.contacts(&b)
					out = append(out, b)
				}
			}
		}
	}
	return out
}

// stretches returns the runs of places along a face where a block can stand.
func (p *planner) stretches(f *face, size [2]float64) [][2]float64 {
	lo := float64(size[0] / 2)
	hi := f.length() - lo
	var out [][2]float64
	was, last := false, lo
	n := int((hi-lo)/walk) + 1
	for i := 0; i <= n && hi >= lo; i++ {
		s := math.Min(hi, lo+float64(float64(i)*walk))
		ok := p.fits(f, s, size)
		switch {
		case ok && !was:
			from := s
			if i > 0 {
				from = p.edge(f, last, s, size)
			}
			out = append(out, [2]float64{from, s})
		case ok:
			out[len(out)-1][1] = s
		case was:
			out[len(out)-1][1] = p.edge(f, s, last, size)
		}
		was, last = ok, s
	}
	return out
}

// covered reports whether the smallest block finds no place along a member's free edges for the plates and openings alone.
func (p *planner) covered(m *member) bool {
	size := p.sizes()[2]
	for i := range m.faces {
		f := &m.faces[i]
		half := float64(size[0] / 2)
		for s := half; s <= f.length()-half; s++ {
			q := f.stand(s, size[0], size[1], p.set.Clearance)
			if !p.room.underPlate(&q.boxed) {
				return false
			}
		}
	}
	return true
}

// thin takes out every block that can be missed, those first that hold least.
func (p *planner) thin() {
	for i := len(p.blocks) - 1; i >= 0; i-- {
		b := p.blocks[i]
		p.blocks = slices.Delete(p.blocks, i, i+1)
		if !p.stillGood(b) {
			p.blocks = slices.Insert(p.blocks, i, b)
		}
	}
	p.room.hold(p.blocks)
}

// stillGood reports whether the rules hold without a block: every need that it met is met by another one, no
// stretch has become too long, and the members it touched are held.
func (p *planner) stillGood(b Block) bool {
	for _, n := range p.needs {
		if n.metBy(&b) && !p.met(n) {
			return false
		}
	}
	if b.face == &p.outer || b.face == &p.inner {
		at := p.places(b.face, p.blocks)
		k, _ := slices.BinarySearch(at, b.s)
		if k > 0 && k < len(at) && p.apart(b.face, at[k-1], at[k]) > 1 {
			return false
		}
	}
	for _, id := range b.Members() {
		for i := range p.members {
			if m := &p.members[i]; m.id == id {
				if play, ok := p.play(m); !ok || play > m.limit || !m.flanked(p.contactsOf(*m)) {
					return false
				}
			}
		}
	}
	return true
}
