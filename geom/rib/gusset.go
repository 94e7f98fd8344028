package rib

import (
	"fmt"
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// touch is how far a round plate may reach over the polygon that stands for the contour and still count
// as tangent to the contour itself: the polygon runs up to geom.Flat inside the curve.
const touch = 2 * geom.Flat

// insetContour is the contour moved inward by the plates' inset, and the caps as far as they lie in it.
type insetContour struct {
	ring geom.Ring
	caps []geom.Ring
}

// placed is a plate on its joints, before its marks and areas are worked out.
type placed struct {
	joints         []*Joint
	spec           ribfile.Plate
	key            string // of the rib file: "gusset" or "gusset.at[2]"
	shape          Shape
	length, height float64 // along the cap and across it, before trimming
	centre         geom.Pt
	along          geom.Pt     // unit, aft along the cap
	rect           geom.Ring   // of plates that are not round, before trimming
	halves         []geom.Half // the sides of the spars' openings that trim it
	path           geom.Path
}

// gussets places a plate at every joint that has one, and works out what lies under it.
func (b *builder) gussets() {
	specs, keys := b.specs()
	var plates []*placed
	for i := range b.Joints {
		if specs[i].Shape != "none" {
			plates = append(plates, b.place(specs[i], keys[i], &b.Joints[i]))
		}
	}
	plates = b.share(plates)
	for _, p := range plates {
		b.Gussets = append(b.Gussets, b.finish(p))
	}
	b.checkOverlaps(plates)
}

// specs returns each joint's plate and the key it comes from.
func (b *builder) specs() (specs []ribfile.Plate, keys []string) {
	for range b.Joints {
		specs, keys = append(specs, b.doc.Gusset), append(keys, "gusset")
	}
	for k, at := range b.doc.Gussets {
		for _, id := range at.Joints {
			i := slices.IndexFunc(b.Joints, func(j Joint) bool { return j.ID == id })
			if i < 0 {
				b.find(finding.Finding{Severity: finding.Error, Code: "joint-unknown", Key: fmt.Sprintf("gusset.at[%d].joints", k), Part: id,
					Message: fmt.Sprintf("There is no joint %s: this rib has %s.", id, b.jointRange()),
					Fix:     "Name joints as the drawing numbers them, nose to tail."})
				continue
			}
			specs[i], keys[i] = at.Plate, fmt.Sprintf("gusset.at[%d]", k)
		}
	}
	return specs, keys
}

func (b *builder) jointRange() string {
	n := [2]int{}
	for _, j := range b.Joints {
		n[j.Side]++
	}
	if n[0]+n[1] == 0 {
		return "no joints"
	}
	return fmt.Sprintf("U1 to U%d and L1 to L%d", n[0], n[1])
}

// size returns the plate's length along the cap and its height.
func size(p ribfile.Plate) (length, height float64) {
	if p.Shape == "round" {
		return p.Diameter, p.Diameter
	}
	return p.Length, p.Height
}

// place puts a plate on a joint: round ones tangent inside the contour, on the normal through the panel
// point; rectangles along the cap with their outer edge on the contour.
func (b *builder) place(spec ribfile.Plate, key string, j *Joint) *placed {
	p := &placed{joints: []*Joint{j}, spec: spec, key: key, shape: Shape(spec.Shape), along: j.Normal.Left()}
	if j.Side == Lower {
		p.along = p.along.Mul(-1)
	}
	p.length, p.height = size(spec)
	p.centre = j.Surface.Along(j.Normal, spec.Inset+p.height/2)
	if p.shape == Rectangle {
		p.rect = box(p.centre, p.along, p.length, p.height)
	}
	b.trim(p, j.At)
	return p
}

// box returns a rectangle, counter-clockwise, about c with its length along u.
func box(c, u geom.Pt, length, height float64) geom.Ring {
	s, t := u.Mul(length/2), u.Left().Mul(height/2)
	return geom.Ring{c.Sub(s).Sub(t), c.Add(s).Sub(t), c.Add(s).Add(t), c.Sub(s).Add(t)}
}

// trim cuts the plate to the contour and to the spars' openings, on the side where its joint is.
func (b *builder) trim(p *placed, at geom.Pt) {
	for _, s := range b.Spars {
		h := geom.Before(s.Fore)
		if at.X > s.At {
			h = geom.After(s.Aft)
		}
		if p.reach(h) > geom.Coincident {
			p.halves = append(p.halves, h)
		}
	}
	if p.shape == Round {
		p.path = b.trimRound(p, at)
		return
	}
	pieces := []geom.Ring{b.insetBy(p.spec.Inset).ring}
	for i := range p.rect {
		pieces = cutAll(pieces, geom.LeftOf(p.rect[i], p.rect[(i+1)%4]))
	}
	for _, h := range p.halves {
		pieces = cutAll(pieces, h)
	}
	p.path = largest(pieces).Path().Tidy(geom.Coincident)
}

// reach returns how far the untrimmed plate stands over the edge of a half-plane.
func (p *placed) reach(h geom.Half) float64 {
	if p.shape == Round {
		return h.Off(p.centre) + p.spec.Diameter/2
	}
	far := math.Inf(-1)
	for _, q := range p.rect {
		far = math.Max(far, h.Off(q))
	}
	return far
}

// trimRound trims a round plate: where only spars cut it, or nothing, its outline keeps true arcs without
// the hairs that a tangent polygon would leave.
func (b *builder) trimRound(p *placed, at geom.Pt) geom.Path {
	r := p.spec.Diameter / 2
	ring := b.insetBy(p.spec.Inset).ring
	if geom.Distance(p.centre, ring, true) >= r-touch && ring.Holds(p.centre) {
		if len(p.halves) == 0 {
			return geom.Circle(p.centre, r)
		}
		ring = box(p.centre, geom.Pt{X: 1}, 4*r, 4*r)
	}
	pieces := []geom.Ring{ring}
	for _, h := range p.halves {
		pieces = cutAll(pieces, h)
	}
	var best geom.Path
	for _, piece := range pieces {
		for _, q := range geom.DiscClip(p.centre, r, piece) {
			if q.Area() > best.Area() {
				best = q
			}
		}
	}
	return best.Tidy(geom.Step)
}

func cutAll(pieces []geom.Ring, h geom.Half) []geom.Ring {
	var out []geom.Ring
	for _, p := range pieces {
		out = append(out, p.Cut(h)...)
	}
	return out
}

func largest(pieces []geom.Ring) geom.Ring {
	var best geom.Ring
	for _, p := range pieces {
		if p.Area() > best.Area() {
			best = p
		}
	}
	return best
}

// insetBy returns the contour and the caps moved inward by d; the contour itself for d = 0.
func (b *builder) insetBy(d float64) *insetContour {
	if c := b.inset[d]; c != nil {
		return c
	}
	c := &insetContour{ring: b.Contour.Outline}
	for _, k := range b.Caps {
		c.caps = append(c.caps, k.Outline)
	}
	if d > 0 {
		rings, _ := geom.Parallel(b.Contour.Outline, true, d)
		c.ring, c.caps = largest(rings), nil
		for _, s := range []Side{Upper, Lower} {
			c.caps = append(c.caps, b.capWithin(c.ring, s))
		}
	}
	if b.inset == nil {
		b.inset = map[float64]*insetContour{}
	}
	b.inset[d] = c
	return c
}

// capWithin returns the part of a cap that lies inside an inset contour: the strip between that contour's
// side and the inner edge.
func (b *builder) capWithin(ring geom.Ring, s Side) geom.Ring {
	if len(ring) == 0 {
		return nil
	}
	nose, n := b.noseSplit(ring), len(ring)
	tail := 0
	for i, p := range ring {
		if p.X > ring[tail].X {
			tail = i
		}
	}
	pts := []geom.Pt{nose.p}
	if s == Lower { // counter-clockwise from the nose
		for k := (nose.i + 1) % n; ; k = (k + 1) % n {
			if pts = append(pts, ring[k]); k == tail {
				break
			}
		}
	} else {
		for k := nose.i; ; k = (k + n - 1) % n {
			if pts = append(pts, ring[k]); k == tail {
				break
			}
		}
	}
	return capOutline(pts, b.innerSide(s), nil, s)
}

// share lets one plate of full depth serve an upper and a lower joint that stand nearly above each other,
// where the rib is too shallow for two.
func (b *builder) share(plates []*placed) []*placed {
	taken := map[*placed]bool{}
	var out []*placed
	for i, p := range plates {
		if taken[p] {
			continue
		}
		for _, q := range plates[i+1:] {
			u, l := p.joints[0], q.joints[0]
			near := math.Max(p.length, q.length) / 2
			if taken[q] || u.Side == l.Side || math.Abs(u.Station-l.Station) > near || overlap(p, q) < overlapMin {
				continue
			}
			taken[q] = true
			p = b.fullDepth(p, q)
			break
		}
		out = append(out, p)
	}
	return out
}

// fullDepth returns the plate from contour to contour that serves the joints of both.
func (b *builder) fullDepth(p, q *placed) *placed {
	u, l := p.joints[0], q.joints[0]
	w := math.Max(p.length, q.length) + math.Abs(u.Station-l.Station)
	x := (u.Station + l.Station) / 2
	x0, x1 := math.Max(x-w/2, b.upper.pts[0].X), math.Min(x+w/2, b.tailEnd())
	top, bottom := math.Inf(-1), math.Inf(1)
	for _, pt := range b.Contour.Outline {
		if pt.X >= x0-w && pt.X <= x1+w {
			top, bottom = math.Max(top, pt.Y), math.Min(bottom, pt.Y)
		}
	}
	f := &placed{joints: []*Joint{u, l}, spec: p.spec, key: p.key, shape: FullDepth, along: geom.Pt{X: 1},
		centre: geom.Pt{X: x, Y: (b.upper.y(x) + b.lower.y(x)) / 2}}
	f.length, f.height = w, b.upper.y(x)-b.lower.y(x)-2*p.spec.Inset
	f.rect = geom.Ring{{X: x - w/2, Y: bottom - 1}, {X: x + w/2, Y: bottom - 1}, {X: x + w/2, Y: top + 1}, {X: x - w/2, Y: top + 1}}
	b.trim(f, u.At.Lerp(l.At, 0.5))
	return f
}

// finish works out a plate's areas and marks.
func (b *builder) finish(p *placed) Gusset {
	g := Gusset{Shape: p.shape, Centre: p.centre, Angle: p.along.Angle(), Outline: p.path, AreaMM2: p.path.Area(),
		Faces: p.spec.Faces, GlueMM2: map[string]float64{}}
	for _, j := range p.joints {
		g.Joints = append(g.Joints, j.ID)
	}
	g.ID = g.Joints[0]
	g.Size = []float64{p.spec.Diameter}
	if p.shape != Round {
		g.Size = []float64{p.length, p.height}
	}
	if p.shape == FullDepth {
		g.ID += "+" + g.Joints[1]
	} else {
		g.MarkDistance = p.spec.Inset + p.height/2 - b.CapDepth
	}
	if len(p.path.Segs) == 0 || g.AreaMM2 < 1 {
		b.find(finding.Finding{Severity: finding.Error, Code: "gusset-nothing-left", Key: p.key, Part: g.ID, At: []geom.Pt{p.centre},
			Message: fmt.Sprintf("Nothing is left of the plate at %s once it is trimmed to the contour and the spar.", g.ID),
			Fix:     "Make the plate larger, or leave the joint bare."})
		return g
	}
	for i, k := range b.Caps {
		b.under(&g, p, k.ID, b.insetBy(p.spec.Inset).caps[i])
	}
	for _, k := range b.Blocks {
		b.under(&g, p, k.ID, k.Outline)
	}
	for _, s := range b.Sticks {
		b.under(&g, p, s.ID, s.Outline)
	}
	g.Marks = b.marks(p)
	return g
}

// under adds the area that a plate and a member have in common, one face. Members lie in the contour, so the
// contour need not trim again; the spars do, for a plate that a spar cuts does not go on behind it.
func (b *builder) under(g *Gusset, p *placed, id string, ring geom.Ring) {
	if len(ring) == 0 || !ring.Box().Meets(p.path.Box()) {
		return
	}
	for _, h := range p.halves {
		ring = ring.Within(h)
	}
	a := 0.0
	if p.shape == Round {
		a = geom.DiscRing(p.centre, p.spec.Diameter/2, ring)
	} else {
		a = geom.ConvexRing(p.rect, ring)
	}
	if a > geom.Coincident {
		g.GlueMM2[id] = a
	}
}

// marks returns the lines that place a plate: a cross at its centre, the line of the cap's inner edge, and
// the centre lines of its joints' sticks.
func (b *builder) marks(p *placed) []Mark {
	ring := geom.Ring(p.path.Flatten(geom.Flat))
	across := p.along.Left()
	arm := math.Min(p.length/8, 3)
	out := []Mark{
		{"centre", p.centre.Along(p.along, -arm), p.centre.Along(p.along, arm)},
		{"centre", p.centre.Along(across, -arm), p.centre.Along(across, arm)},
	}
	for _, j := range p.joints {
		var a, c geom.Pt
		if p.shape == FullDepth {
			x0, x1 := ring.Box().Min.X, ring.Box().Max.X
			inner := b.innerSide(j.Side)
			a, c = geom.Pt{X: x0, Y: yOn(inner, x0)}, geom.Pt{X: x1, Y: yOn(inner, x1)}
		} else {
			m := j.Surface.Along(j.Normal, b.CapDepth)
			a, c = m.Along(p.along, -p.length), m.Along(p.along, p.length)
		}
		if q, r, ok := inside(ring, a, c); ok {
			out = append(out, Mark{"cap", q, r})
		}
	}
	for _, s := range b.Sticks {
		for _, j := range p.joints {
			if s.From != j.ID && s.To != j.ID {
				continue
			}
			if q, r, ok := inside(s.Outline, s.Axis[0], s.Axis[1]); ok {
				if q, r, ok = inside(ring, q, r); ok {
					out = append(out, Mark{"stick", q, r})
				}
			}
			break
		}
	}
	return out
}

// inside returns the longest stretch of the segment ab that lies in the ring.
func inside(ring geom.Ring, a, b geom.Pt) (p, q geom.Pt, ok bool) {
	d := b.Sub(a)
	ts := []float64{0, 1}
	for i, u := range ring {
		v := ring[(i+1)%len(ring)]
		e := v.Sub(u)
		den := d.Cross(e)
		if den == 0 {
			continue
		}
		t, s := u.Sub(a).Cross(e)/den, u.Sub(a).Cross(d)/den
		if s >= 0 && s <= 1 && t > 0 && t < 1 {
			ts = append(ts, t)
		}
	}
	slices.Sort(ts)
	best := 0.0
	for i := 1; i < len(ts); i++ {
		if w := ts[i] - ts[i-1]; w > best && ring.Holds(a.Along(d, (ts[i]+ts[i-1])/2)) {
			best, p, q, ok = w, a.Along(d, ts[i-1]), a.Along(d, ts[i]), true
		}
	}
	return p, q, ok
}
