package rib

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/finding"
)

// Tags of a stick's edges while it is cut: what made them. Sticks before it are tagSticks + index, spars tagSpars + index.
const (
	tagInner = iota // the inner edge, not yet cut straight
	tagSide         // the stick's own long sides
	tagUpper
	tagLower
	tagNose
	tagTail
	tagSpars  = 100
	tagSticks = 1000
)

// sticks cuts the sticks one after another in cutting order, so that each meets those before it.
func (b *builder) sticks() {
	for _, p := range b.plans {
		from, to := b.joint(p.from), b.joint(p.to)
		s := Stick{ID: fmt.Sprintf("S%d", len(b.Sticks)+1), Kind: p.kind, From: from.ID, To: to.ID, Axis: b.axis(p)}
		sh := b.strip(s.Axis)
		b.checkSpars(&s, p.key, sh)
		sh = b.cutBlocks(b.cutSpars(sh))
		if b.doc.Stick.Meet == "mitre" {
			sh = b.mitre(sh, p)
		}
		sh, ends := straighten(b.cutSticks(sh))
		if len(sh.Ring) < 3 || sh.Ring.Area() < b.StickDepth*b.StickDepth/4 {
			b.find(finding.Finding{Severity: finding.Error, Code: "stick-nothing-left", Key: p.key, Part: s.ID, At: s.Axis[:],
				Message: fmt.Sprintf("Nothing is left of the stick from %s to %s once it is trimmed.", b.refName(p.from), b.refName(p.to)),
				Fix:     "Move its ends apart, or leave it out."})
			sh = geom.Shape{}
		}
		s.Outline = sh.Ring
		s.PliesMM2 = b.between(s)
		b.measure(&s, sh, ends)
		b.checkStick(&s, p.key)
		b.Sticks = append(b.Sticks, s)
		for _, j := range []*Joint{from, to} {
			j.Members = append(j.Members, s.ID)
		}
	}
}

// axis returns the line between a planned stick's panel points. A post stands along the spar's face, whatever
// the caps' slope.
func (b *builder) axis(p plan) [2]geom.Pt {
	out := [2]geom.Pt{b.joint(p.from).At, b.joint(p.to).At}
	if p.kind == Post {
		up := p.line.N.Left()
		for i, q := range out {
			out[i] = p.line.N.Mul(p.line.D).Along(up, q.Dot(up))
		}
	}
	return out
}

// alongside is the angle, radians, below which two axes count as parallel: they do not meet.
const alongside = 1e-3

// curved is an end against the inner edge: the straight cut that replaces it and the curve it replaces.
type curved struct {
	cut   geom.Half
	tag   int
	curve []geom.Pt
}

// strip returns the stick's full strip between the caps, its ends as curved as they are.
func (b *builder) strip(axis [2]geom.Pt) geom.Shape {
	n, h := axis[1].Sub(axis[0]).Unit().Left(), b.StickDepth/2
	d := n.Dot(axis[0])
	var pieces []geom.Shape
	for _, p := range (geom.Shape{Ring: b.Contour.Inner}).Cut(geom.Half{N: n, D: d + float64(h)}, tagSide) {
		pieces = append(pieces, p.Cut(geom.Half{N: n.Mul(-1), D: float64(h) - d}, tagSide)...)
	}
	mid := axis[0].Lerp(axis[1], 0.5)
	best := geom.Largest(pieces)
	for _, p := range pieces {
		if p.Ring.Holds(mid) {
			best = p
		}
	}
	if best.Tags == nil { // a rib so small that the strip was never cut
		best.Tags = make([]int, len(best.Ring))
	}
	return b.tagBack(best, axis)
}

// straighten saws the ends that still follow the caps' inner edge: the last cuts, so that each is no wider
// than what it must fit.
func straighten(s geom.Shape) (geom.Shape, []curved) {
	ends := straightCuts(s)
	for _, e := range ends {
		s = geom.Largest(s.Cut(e.cut, e.tag))
	}
	return oneCut(retag(s, ends)), ends
}

// oneCut drops corners that lie on a single cut.
func oneCut(s geom.Shape) geom.Shape {
	var out geom.Shape
	n := len(s.Ring)
	for i, p := range s.Ring {
		before, after := s.Ring[(i+n-1)%n], s.Ring[(i+1)%n]
		if s.Tags[(i+n-1)%n] == s.Tags[i] && geom.Distance(p, []geom.Pt{before, after}, false) < geom.Step {
			continue
		}
		out.Ring, out.Tags = append(out.Ring, p), append(out.Tags, s.Tags[i])
	}
	return out
}

// tagBack tags edges on the rib's cuts, which are no cap. A post that closes the rib there has its own side on the cut.
func (b *builder) tagBack(s geom.Shape, axis [2]geom.Pt) geom.Shape {
	if !b.open && !b.ahead.on {
		return s
	}
	s.Tags, s.Ring = slices.Clone(s.Tags), slices.Clone(s.Ring)
	u := axis[1].Sub(axis[0]).Unit()
	for i, p := range s.Ring {
		q := s.Ring[(i+1)%len(s.Ring)]
		tag := tagTail
		if b.ahead.holds(p) && b.ahead.holds(q) {
			tag = tagNose
		} else if !b.open || !b.onTail(p) || !b.onTail(q) {
			continue
		}
		if (b.ahead.on || b.behind.on) && math.Abs(q.Sub(p).Unit().Cross(u)) < alongside {
			tag = tagSide
		}
		s.Tags[i] = tag
	}
	return s
}

// straightCuts finds the runs of edges along the inner edge and, for each, the straight cut nearest to it
// that stays clear of the cap: the run's chord, moved inward where the cap bulges into the stick.
func straightCuts(s geom.Shape) []curved {
	n := len(s.Ring)
	first := slices.IndexFunc(s.Tags, func(t int) bool { return t != tagInner })
	if first < 0 {
		return nil
	}
	var out []curved
	var run []geom.Pt
	flush := func() {
		if len(run) > 1 {
			c := curved{cut: geom.LeftOf(run[0], run[len(run)-1]), curve: run}
			deepest := 0.0
			for _, p := range run {
				deepest = math.Min(deepest, c.cut.Off(p))
			}
			c.cut.D += deepest
			c.tag = tagLower
			if c.cut.N.Y > 0 {
				c.tag = tagUpper
			}
			out = append(out, c)
		}
		run = nil
	}
	for k := range n {
		i := (first + k) % n
		p, q := s.Ring[i], s.Ring[(i+1)%n]
		if s.Tags[i] != tagInner {
			flush()
			continue
		}
		if len(run) > 1 && (p.X < run[len(run)-2].X) != (q.X < p.X) {
			flush() // from one cap to the other, where they meet: the upper one is walked forward, the lower one aft
		}
		if len(run) == 0 {
			run = append(run, p)
		}
		run = append(run, q)
	}
	flush()
	return out
}

// retag gives edges that lie on a straight cut and still carry the inner edge's tag the cut's own tag: a
// run of one edge is cut along itself, which makes no new edge.
func retag(s geom.Shape, ends []curved) geom.Shape {
	out := geom.Shape{Ring: s.Ring, Tags: slices.Clone(s.Tags)}
	for i, t := range out.Tags {
		if t != tagInner {
			continue
		}
		m := s.Ring[i].Lerp(s.Ring[(i+1)%len(s.Ring)], 0.5)
		for _, e := range ends {
			if math.Abs(e.cut.Off(m)) < geom.Step {
				out.Tags[i] = e.tag
			}
		}
	}
	return out
}

// cutSpars keeps the stick out of every spar's opening, on the side where most of it lies.
func (b *builder) cutSpars(s geom.Shape) geom.Shape {
	for i, sp := range b.Spars {
		if reach(s.Ring, sp.Ahead()) <= geom.Coincident || reach(s.Ring, sp.Behind()) <= geom.Coincident {
			continue
		}
		fore, aft := s.Cut(sp.Ahead(), tagSpars+i), s.Cut(sp.Behind(), tagSpars+i)
		s = geom.Largest(append(fore, aft...))
	}
	return s
}

// reach returns how far a ring stands over the edge of a half-plane; no ring stands over none.
func reach(r geom.Ring, h geom.Half) float64 {
	far := math.Inf(-1)
	for _, p := range r {
		far = math.Max(far, h.Off(p))
	}
	return far
}

// checkSpars finds a stick whose ends lie on either side of a spar.
func (b *builder) checkSpars(s *Stick, key string, sh geom.Shape) {
	for _, sp := range b.Spars {
		mid := sp.Plane(sp.At)
		if mid.Off(s.Axis[0])*mid.Off(s.Axis[1]) < 0 && len(sh.Ring) > 0 {
			b.find(finding.Finding{Severity: finding.Error, Code: "stick-crosses-spar", Key: key, Part: s.ID, At: s.Axis[:],
				Message: fmt.Sprintf("Stick %s, from %s to %s, runs through the opening of spar %q.", s.ID, b.station(s.Axis[0].X), b.station(s.Axis[1].X), sp.Name),
				Fix:     "Let it end at the spar's face, and begin another stick behind it."})
		}
	}
}

// cutBlocks keeps the stick out of the blocks.
func (b *builder) cutBlocks(s geom.Shape) geom.Shape {
	if b.hasBlock(BlockNose) {
		s = geom.Largest(s.Cut(geom.After(b.doc.Nose.Station), tagNose))
	}
	if b.hasBlock(BlockTail) {
		s = geom.Largest(s.Cut(geom.Before(b.doc.Tail.Station), tagTail))
	}
	return s
}

// cutSticks saws the stick off along the edge of each earlier stick that it runs into: of the straight cuts
// that clear it, the one that leaves most.
func (b *builder) cutSticks(s geom.Shape) geom.Shape {
	for i, e := range b.Sticks {
		if len(e.Outline) == 0 || !s.Ring.Box().Meets(e.Outline.Box()) || geom.ConvexRing(e.Outline, s.Ring) < geom.Coincident {
			continue
		}
		var best geom.Shape
		for k, p := range e.Outline {
			q := e.Outline[(k+1)%len(e.Outline)]
			if p.Dist(q) < hair {
				continue
			}
			if c := geom.Largest(s.Cut(geom.LeftOf(p, q).Flip(), tagSticks+i)); c.Ring.Area() > best.Ring.Area() {
				best = c
			}
		}
		s = best
	}
	return s
}

// mitre saws the stick along the bisector with each neighbour, by direction, at its two joints.
func (b *builder) mitre(s geom.Shape, p plan) geom.Shape {
	me := slices.Index(b.plans, p)
	for _, end := range []ref{p.from, p.to} {
		type spoke struct {
			plan int
			from geom.Pt // the panel point, on the stick's axis
			dir  geom.Pt
		}
		var spokes []spoke
		for k, q := range b.plans {
			if same(q.from, end) || same(q.to, end) {
				from, dir := b.away(q, end)
				spokes = append(spokes, spoke{k, from, dir})
			}
		}
		// Around the joint, from the one forward along the cap to the one aft.
		slices.SortStableFunc(spokes, func(u, v spoke) int { return cmp.Compare(u.dir.X, v.dir.X) })
		i := slices.IndexFunc(spokes, func(k spoke) bool { return k.plan == me })
		for _, k := range []int{i - 1, i + 1} {
			if k < 0 || k >= len(spokes) {
				continue
			}
			u, v := spokes[i].dir, spokes[k].dir
			at := spokes[i].from // where the two axes meet
			if w := u.Cross(v); math.Abs(w) > alongside {
				at = at.Along(u, spokes[k].from.Sub(at).Cross(v)/w)
			}
			h := geom.LeftOf(at, at.Add(u.Add(v)))
			if h.N.Dot(u) > 0 {
				h = h.Flip()
			}
			s = geom.Largest(s.Cut(h, tagSticks+spokes[k].plan))
		}
	}
	return s
}

// away returns a planned stick's axis as seen from one of its panel points: the point and the direction.
func (b *builder) away(p plan, end ref) (from, dir geom.Pt) {
	axis := b.axis(p)
	a, c := axis[0], axis[1]
	if same(p.to, end) {
		a, c = c, a
	}
	return a, c.Sub(a).Unit()
}
