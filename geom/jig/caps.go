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
	return slices.ContainsFunc(p.blocks, func(b Block) bool { return n.metBy(&b) })
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

// noseBlock puts a block in front of the leading edge, where both caps bend most.
func (p *planner) noseBlock() {
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

// sizes are those of blocks, in the order in which they are tried.
func (p *planner) sizes() [3][2]float64 {
	l, w := p.set.BlockLength, p.set.BlockWidth
	return [3][2]float64{{l, w}, {l / 2, w}, {l / 2, w / 2}}
}

// try makes the block of a size at a place of a face, where it can stand.
func (p *planner) try(f *face, s float64, size [2]float64) (Block, bool) {
	b := f.block(s, size[0], size[1], p.set.Clearance)
	b.face, b.s = f, s
	return b, p.room.free(&b, p.bears(f, s), f.inside, p.blocks)
}

func (p *planner) take(b Block) {
	b.Contacts = p.room.contacts(&b)
	p.blocks = append(p.blocks, b)
}

// bears returns the members that a block at a place of a face is meant to touch.
func (p *planner) bears(f *face, s float64) []string {
	switch {
	case f != &p.inner:
		return f.bears
	case math.Abs(s-p.nose) < p.set.BlockLength:
		return bothCaps
	case s < p.nose:
		return bothCaps[1:]
	}
	return bothCaps[:1]
}

var bothCaps = []string{rib.CapUpper, rib.CapLower}

// walk is the step of the search along a face, mm.
const walk = 2.0

// nearest returns the place nearest to s, in one direction along a face, where a block can stand.
func (p *planner) nearest(f *face, s, dir, limit float64, size [2]float64) (float64, bool) {
	half := float64(size[0] / 2)
	end := f.length() - half
	for d := 0.0; d <= limit; d += walk {
		t := s + float64(dir*d)
		if t < half || t > end {
			if d > 0 {
				return 0, false
			}
			continue
		}
		if _, ok := p.try(f, t, size); !ok {
			continue
		}
		if d == 0 {
			return t, true
		}
		return p.edge(f, s+float64(dir*(d-walk)), t, size), true
	}
	return 0, false
}

// edge narrows down where blocks begin to find room, between a place where one does not and one where it does.
func (p *planner) edge(f *face, no, yes float64, size [2]float64) float64 {
	for range 11 { // to a thousandth of a millimetre
		mid := (no + yes) / 2
		if _, ok := p.try(f, mid, size); ok {
			yes = mid
		} else {
			no = mid
		}
	}
	return yes
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
	pool := p.candidates(needs)
	for {
		var left []*need
		for _, n := range needs {
			if !p.met(n) {
				left = append(left, n)
			}
		}
		if len(left) == 0 {
			return
		}
		best, count, sum := Block{}, 0, 0.0
		for _, c := range pool {
			if p.clashes(&c) {
				continue
			}
			k, far := 0, 0.0
			for _, n := range left {
				if n.metBy(&c) {
					k++
					far += math.Abs(c.s - n.s)
				}
			}
			if k > count || k == count && k > 0 && (far < sum-0.05 || far < sum+0.05 && c.At.X > best.At.X) {
				best, count, sum = c, k, far
			}
		}
		if count > 0 {
			p.take(best)
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
			needs = slices.DeleteFunc(needs, func(o *need) bool { return o == n })
			p.needs = slices.DeleteFunc(p.needs, func(o *need) bool { return o == n })
		}
	}
}

// clashes reports whether a block stands where others stand by now.
func (p *planner) clashes(b *Block) bool {
	q := newBoxed(b)
	for i := range p.blocks {
		if q.foulsBlock(&p.blocks[i], p.set.Clearance) {
			return true
		}
	}
	return false
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

// bend returns where a cap bends most between the blocks of wood, on the contour.
func (p *planner) bend(c rib.Cap) (geom.Pt, bool) {
	pts := p.r.Contour.Upper
	if c.Side == rib.Lower {
		pts = p.r.Contour.Lower
	}
	in := p.r.Contour.Inner.Box()
	lo, hi := in.Min.X, in.Max.X
	for _, k := range p.r.Blocks {
		if box := k.Outline.Box(); k.ID == rib.BlockNose {
			lo = box.Max.X
		} else {
			hi = box.Min.X
		}
	}
	f := newFace(pts, false)
	reach := p.set.BlockLength
	best, at := 1e-4, geom.Pt{}
	for s := reach; s < f.length()-reach; s += walk {
		q := f.point(s)
		if q.X < lo || q.X > hi {
			continue
		}
		u, v := q.Sub(f.point(s-reach)), f.point(s+reach).Sub(q)
		if turn := math.Abs(math.Atan2(u.Cross(v), u.Dot(v))); turn > best+1e-9 {
			best, at = turn, q
		}
	}
	return at, best > 1e-4
}

// space adds blocks to a face so that none stand further apart than the spacing, and the cap turns little between them.
func (p *planner) space(f *face) {
	for range 100 {
		s, ok := p.gap(f, p.blocks)
		if !ok {
			return
		}
		p.take(s)
	}
}

// places returns the places of the blocks on a face, in order; outside, with the caps' ends in the tail.
func (p *planner) places(f *face, blocks []Block) []float64 {
	var out []float64
	if f == &p.outer {
		out = append(out, 0, f.length())
	}
	for _, b := range blocks {
		if b.face == f {
			out = append(out, b.s)
		}
	}
	slices.Sort(out)
	return out
}

// mostTurn is how far a cap may turn between two neighbouring blocks, radians: a strip that is bent round a nose wants
// them closer than a straight one (common practice, no source).
const mostTurn = math.Pi / 4

// apart returns into how many parts a stretch of a face between two blocks must be divided: 1 where it is short enough, and
// where a block of wood fills it.
func (p *planner) apart(f *face, a, b float64) float64 {
	if f == &p.inner && a < p.nose && b > p.nose {
		return 1
	}
	turn := math.Abs(math.Remainder(f.heading(b)-f.heading(a), 2*math.Pi))
	return math.Max(math.Ceil((b-a)/p.set.Spacing-hair), math.Ceil(turn/mostTurn-hair))
}

// share returns the place of the first of the blocks that divide a stretch: after an equal share of its length, or of its turn where that asks for
// more of them.
func (p *planner) share(f *face, a, b, parts float64) float64 {
	if math.Ceil((b-a)/p.set.Spacing-hair) >= parts {
		return a + (b-a)/parts
	}
	from := f.heading(a)
	most := math.Abs(math.Remainder(f.heading(b)-from, 2*math.Pi)) / parts
	turned := func(s float64) bool { return math.Abs(math.Remainder(f.heading(s)-from, 2*math.Pi)) >= most }
	lo, hi := a, b
	for s := a; s < b; s += walk {
		if turned(s) {
			hi = s
			break
		}
		lo = s
	}
	for range 20 {
		if mid := (lo + hi) / 2; turned(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

// gap returns a block to stand in the first stretch of a face that is too long, where it finds a place that shortens it.
func (p *planner) gap(f *face, blocks []Block) (Block, bool) {
	at := p.places(f, blocks)
	for i := 1; i < len(at); i++ {
		parts := p.apart(f, at[i-1], at[i])
		if parts < 2 {
			continue
		}
		s := p.share(f, at[i-1], at[i], parts)
		step := math.Min(s-at[i-1], at[i]-s)
		for _, size := range p.sizes() {
			best, found := 0.0, false
			for _, dir := range [2]float64{1, -1} {
				if t, ok := p.nearest(f, s, dir, step, size); ok && (!found || math.Abs(t-s) < math.Abs(best-s)) {
					best, found = t, true
				}
			}
			if found {
				b, _ := p.try(f, best, size)
				return b, true
			}
		}
	}
	return Block{}, false
}

// holdCap adds blocks to a cap until its contacts hold it: each time the one that leaves least play.
func (p *planner) holdCap(m *member) {
	const most = 4
	for range most {
		play, ok := p.play(*m)
		if ok && play <= PlayLimit {
			return
		}
		best, least := Block{}, math.Inf(1)
		for _, b := range p.capPlaces(m) {
			b.Contacts = p.room.contacts(&b)
			p.blocks = append(p.blocks, b)
			if play, ok := p.play(*m); ok && play < least-1e-9 {
				best, least = b, play
			}
			p.blocks = p.blocks[:len(p.blocks)-1]
		}
		if len(best.Outline) == 0 {
			break
		}
		p.take(best)
	}
	if play, ok := p.play(*m); !ok || play > PlayLimit {
		p.loose(m)
	}
}

// capPlaces returns blocks that may hold a cap lengthwise: at its end in the tail, and along both its edges.
func (p *planner) capPlaces(m *member) []Block {
	var out []Block
	size := p.sizes()[0]
	for i := range m.faces {
		f := &m.faces[i]
		if b, ok := p.try(f, f.length()/2, size); ok {
			out = append(out, b)
		}
	}
	for _, f := range []*face{&p.outer, &p.inner} {
		for s := size[0]; s < f.length()-size[0]; s += size[0] {
			if b, ok := p.try(f, s, size); ok && slices.Contains(p.bears(f, s), m.id) {
				out = append(out, b)
			}
		}
	}
	return out
}

// loose tells that a member is not held.
func (p *planner) loose(m *member) {
	mid := m.ends[0].Lerp(m.ends[1], 0.5)
	p.find(finding.Finding{Severity: finding.Warning, Code: "jig-loose", Key: "jig.block_length", Part: m.id, At: []geom.Pt{mid},
		Message: fmt.Sprintf("The jig does not hold %s well: beside it there is not the room for the blocks it wants.", m.id),
		Fix:     "Make the blocks smaller (block_length, block_width), or the room around the plates; or hold it with a clamp or by hand."})
}
