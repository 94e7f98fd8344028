package shop

import (
	"cmp"
	"iter"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
)

// centred returns a line of lettering whose middle stands at a point.
func centred(s string, at geom.Pt, height, angle float64, bold bool) export.Text {
	return export.Text{S: s, At: at, Height: height, Angle: angle, Anchor: export.Middle, Bold: bold}
}

// around offers upright places for a text in rings about its targets, with a leader, in every ring first
// toward a direction. They begin at the radius and the cost given.
func (p *placer) around(texts func(at geom.Pt) []export.Text, circle float64, targets []geom.Pt, toward geom.Pt, radius, cost float64) iter.Seq[candidate] {
	const least, share, directions = 3, 12, 16
	return func(yield func(candidate) bool) {
		free := make([]geom.Pt, len(targets))
		for i, t := range targets {
			free[i] = p.free(t)
		}
		var ways [directions]geom.Pt
		for k := range ways {
			ways[k] = geom.Polar(toward.Angle() + float64(turn(k)*2*math.Pi/directions))
		}
		for r := radius; r < farthest; r += math.Max(least, r/share) {
			for _, d := range ways {
				for _, t := range free {
					c := candidate{texts: texts(t.Along(d, r)), circle: circle, target: t, lead: true, cost: cost + r - radius}
					if !yield(c) {
						return
					}
				}
			}
		}
	}
}

// up is where labels are looked for first.
var up = geom.Pt{Y: 1}

// turn counts 0, 1, −1, 2, −2 …
func turn(k int) float64 {
	if k%2 == 1 {
		return float64(k+1) / 2
	}
	return -float64(k) / 2
}

// either offers one run of candidates after another; each must cost no less than those before it.
func either(runs ...iter.Seq[candidate]) iter.Seq[candidate] {
	return func(yield func(candidate) bool) {
		for _, run := range runs {
			for c := range run {
				if !yield(c) {
					return
				}
			}
		}
	}
}

// name places a label and draws it.
func (f *field) name(layer string, candidates iter.Seq[candidate]) candidate {
	c, ok := f.places.place(candidates)
	if ok {
		f.draw(layer, c)
	}
	return c
}

// single makes a text's places for around.
func single(s string, height float64, bold bool) func(at geom.Pt) []export.Text {
	return func(at geom.Pt) []export.Text { return []export.Text{centred(s, at, height, 0, bold)} }
}

// jointNames puts joint names outside the rib, on the normal through the joint.
func (f *field) jointNames() {
	const gap, reach = 2.2, 40.0
	for _, j := range f.r.Joints {
		out := j.Normal.Mul(-1)
		w := textWidth(j.ID, medium, true)
		half := float64(math.Abs(out.X)*w/2) + float64(math.Abs(out.Y)*medium/2) // from the label's middle to its edge, along the normal
		outside := func(yield func(candidate) bool) {
			for _, o := range outward() {
				at := j.Surface.Along(out, gap+half+o.far).Along(out.Left(), o.side)
				if !yield(candidate{texts: []export.Text{centred(j.ID, at, medium, 0, true)}, target: j.Surface, lead: math.Hypot(o.far, o.side) > 5, cost: o.cost}) {
					return
				}
			}
		}
		f.name(layerName, either(outside, f.places.around(single(j.ID, medium, true), 0, []geom.Pt{j.Surface}, out, 10, reach)))
	}
}

// outwardPlace is a place of a joint's name: how far along the normal, and beside it.
type outwardPlace struct{ far, side, cost float64 }

// outward returns the places of a joint's name outside the rib, the cheapest first.
var outward = sync.OnceValue(func() []outwardPlace {
	const step, rows = 2.0, 16
	var out []outwardPlace
	for k := range rows {
		for side := range 9 {
			d, s := step*float64(k), step*turn(side)
			out = append(out, outwardPlace{d, s, d + float64(math.Abs(s)/2)})
		}
	}
	slices.SortStableFunc(out, func(a, b outwardPlace) int { return cmp.Compare(a.cost, b.cost) })
	return out
})

// stickNumbers writes a stick's number inside it along its axis, or beside it where it is too thin or too
// crowded.
func (f *field) stickNumbers() {
	sticks := slices.Clone(f.r.Sticks)
	slices.SortStableFunc(sticks, func(a, b rib.Stick) int { return cmp.Compare(a.LongPoint, b.LongPoint) }) // short ones have least choice
	for _, s := range sticks {
		if len(s.Outline) == 0 {
			continue
		}
		a, b := s.Axis[0], s.Axis[1]
		dir := b.Sub(a)
		along := readable(dir.Angle())
		var targets []geom.Pt
		for _, t := range [5]float64{0.5, 0.35, 0.65, 0.2, 0.8} {
			targets = append(targets, a.Lerp(b, t))
		}
		const step, outside = 1.5, 30.0
		inside := func(yield func(candidate) bool) {
			n := int(dir.Len() / step)
			for k := range n {
				shift := turn(k) * step
				t := centred(s.ID, targets[0].Along(dir.Unit(), shift), medium, along, false)
				if q := textQuad(t, 0); q.h > f.r.StickDepth {
					break
				}
				if !yield(candidate{texts: []export.Text{t}, tight: true, cost: math.Min(math.Abs(shift)/20, outside-1)}) {
					return
				}
			}
		}
		f.name(layerName, either(inside, f.places.around(single(s.ID, medium, false), 0, targets, up, 5, outside)))
	}
}

// blockNames writes the blocks' names inside them, or beside them.
func (f *field) blockNames() {
	for _, b := range f.r.Blocks {
		s := map[string]string{"block-nose": "nose block", "block-tail": "tail block"}[b.ID]
		if s == "" {
			s = b.ID
		}
		f.inRing(layerName, b.Outline, []float64{0, math.Pi / 2}, single(s, medium, false))
	}
}

// webName says inside the rib, or beside it, that a web lies over it: nothing else shows it where it reaches to the contour.
func (f *field) webName() {
	w := f.r.Web
	if len(w.Outline) == 0 {
		return
	}
	s := "web on the " + webFaces(w) + leftOnly(f.r) + ": " + f.doc.Web.Material + ", " + f.doc.Length(w.Thickness)
	both := func(at geom.Pt) []export.Text {
		const off = clearance + 0.1
		head, rest, _ := strings.Cut(s, ": ")
		return []export.Text{centred(head, at.Add(geom.Pt{Y: medium/2 + off}), medium, 0, true), centred(rest, at.Add(geom.Pt{Y: -small/2 - off}), small, 0, false)}
	}
	f.inRing(layerName, w.Outline, []float64{0}, both, single(s, small, true))
}

// sparNames writes the spars' names inside their openings, with the largest spar that passes, and then
// draws the cross of the opening around them.
func (f *field) sparNames() {
	for _, s := range f.r.Spars {
		if len(s.Opening) == 0 {
			continue
		}
		depth := f.doc.Decimal(s.DepthFront)
		if rear := f.doc.Decimal(s.DepthRear); rear != depth {
			depth += " to " + rear
		}
		largest := "largest spar " + f.doc.Number(s.Width) + " × " + depth + " " + string(f.doc.Units)
		const off = clearance + 0.1 // on either side of the dimension line
		both := func(at geom.Pt) []export.Text {
			return []export.Text{centred(s.Name, at.Along(s.Square(), -medium/2-off), medium, 0, true), centred(largest, at.Along(s.Square(), small/2+off), small, 0, false)}
		}
		c := f.inRing(layerName, s.Opening, []float64{math.Pi/2 - s.Tilt}, both, single(s.Name, medium, true))
		var label geom.Box
		if !c.lead {
			for _, t := range c.texts {
				label = label.Union(textQuad(t, 1.5).box())
			}
		}
		for _, d := range diagonals(s) {
			f.broken(layerVoid, d[0], d[1], label)
		}
	}
}

// diagonals returns the two lines from corner to corner of an opening.
func diagonals(s rib.Spar) [2][2]geom.Pt {
	up, square := s.Up(), s.Square()
	corner := func(face, way float64) geom.Pt {
		best, y := geom.Pt{}, math.Inf(-1)
		for _, p := range s.Opening {
			if math.Abs(p.Dot(square)-face) < 0.01 && way*p.Dot(up) > y {
				best, y = p, way*p.Dot(up)
			}
		}
		return best
	}
	fore, aft := math.Inf(1), math.Inf(-1)
	for _, p := range s.Opening {
		fore, aft = math.Min(fore, p.Dot(square)), math.Max(aft, p.Dot(square))
	}
	return [2][2]geom.Pt{{corner(fore, -1), corner(aft, 1)}, {corner(fore, 1), corner(aft, -1)}}
}

// broken draws a thin line and leaves the label's box free.
func (f *field) broken(layer string, a, b geom.Pt, label geom.Box) {
	if !label.Empty() {
		if t0, t1, hit := boxQuad(label).within(a, b); hit {
			f.thin(layer, a, a.Lerp(b, t0))
			f.thin(layer, a.Lerp(b, t1), b)
			return
		}
	}
	f.thin(layer, a, b)
}

// inRing places lettering inside an outline, the first form that fits in the first direction that fits, as
// near to the middle as can be; else beside it in the last form.
func (f *field) inRing(layer string, ring geom.Ring, angles []float64, forms ...func(at geom.Pt) []export.Text) candidate {
	const each = 150.0
	middle := ring.Box().Centre()
	lattice := newLattice(ring)
	inside := func(yield func(candidate) bool) {
		cost := 0.0
		for _, form := range forms {
			for _, angle := range angles {
				for k := 0; lattice.has(k); k++ {
					p := lattice.pts[k]
					c := candidate{texts: turned(form(geom.Pt{}), angle, middle.Add(p)), cost: cost + p.Len()}
					if c.in(ring) && !yield(c) {
						return
					}
				}
				cost += each
			}
		}
	}
	last := forms[len(forms)-1]
	cost := each * float64(len(forms)*len(angles))
	return f.name(layer, either(inside, f.places.around(last, 0, []geom.Pt{middle}, up, 6, cost)))
}

// turned turns lettering about the origin, stacked lines from left to right becoming columns, and moves it.
func turned(texts []export.Text, angle float64, at geom.Pt) []export.Text {
	for i := range texts {
		texts[i].Angle += angle
		texts[i].At = texts[i].At.Add(at)
	}
	return texts
}

// in reports whether the label's boxes stand inside a ring by their corners; outlines that cross it are
// the placer's to see.
func (c *candidate) in(ring geom.Ring) bool {
	var few [2]quad
	for _, q := range c.appendQuads(few[:0], clearance) {
		for _, p := range q.corners() {
			if !ring.Holds(p) {
				return false
			}
		}
	}
	return true
}

// findings numbers those that have places on the rib, and marks them with the number in a circle.
func (f *field) findings(found []finding.Finding) {
	const apart = 40 // mm: places that are nearer than that share a mark
	near := f.rib.Grow(100)
	for _, one := range found {
		var at []geom.Pt
		for _, p := range one.At {
			if !near.Holds(p) {
				continue
			}
			k := slices.IndexFunc(at, func(q geom.Pt) bool { return q.Dist(p) < apart })
			if k < 0 {
				at = append(at, p)
			} else {
				at[k] = at[k].Lerp(p, 0.5)
			}
		}
		if len(at) > 0 {
			f.notes = append(f.notes, note{len(f.notes) + 1, at, one})
		}
	}
	for _, n := range f.notes {
		s := strconv.Itoa(n.number)
		radius := noteRadius(s)
		for _, p := range n.at {
			f.name(layerFinding, f.places.around(single(s, small, true), radius, []geom.Pt{p}, up, 8, 0))
		}
	}
}
