package rib

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

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
	box            geom.Box // of the path
}

// gussets places a plate at every joint that has one, and works out what lies under it.
func (b *builder) gussets() {
	b.checkJoints()
	plates := b.layPlates("", 0)
	for _, p := range plates {
		b.Gussets = append(b.Gussets, b.finish(p))
	}
	b.checkOverlaps(plates)
}

// layPlates places a plate at every joint that has one; those with their size from the key get the size
// given instead.
func (b *builder) layPlates(key string, size float64) []*placed {
	var plates []*placed
	specs, keys := b.specs()
	for i := range b.Joints {
		spec := specs[i]
		if spec.Shape == "none" {
			continue
		}
		if sizeKey(keys[i], spec) == key {
			spec.Diameter, spec.Length = size, size
		}
		plates = append(plates, b.place(spec, keys[i], &b.Joints[i]))
	}
	return b.share(plates)
}

// checkJoints finds plates for joints that the rib has not. Those of the rib at a wing's root are left out where a rib is cut
// off ahead of them.
func (b *builder) checkJoints() {
	fix := "Name joints as the drawing numbers them, nose to tail."
	if b.doc.RootPlates {
		fix += " This rib's own plates stand under its [[wing.rib]], as gusset = { at = [ … ] }; with at = [] all are as [gusset] says."
	}
	for k, at := range b.doc.Gussets {
		for _, id := range at.Joints {
			if b.byID(id) == nil && !(b.doc.RootPlates && b.behind.on) {
				b.find(finding.Finding{Severity: finding.Error, Code: "joint-unknown", Key: fmt.Sprintf("gusset.at[%d].joints", k), Part: id,
					Message: fmt.Sprintf("There is no joint %s: this rib has %s.", id, b.jointRange()),
					Fix:     fix})
			}
		}
	}
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
				continue // found by checkJoints
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
	p.centre = j.Surface.Along(j.Normal, spec.Inset+float64(p.height/2))
	if p.shape == Rectangle {
		p.rect = box(p.centre, p.along, p.length, p.height)
	}
	b.trim(p, j.At)
	return p
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
	x := float64((u.Station + l.Station) / 2)
	x0, x1 := x-float64(w/2), x+float64(w/2)
	top, bottom := math.Inf(-1), math.Inf(1)
	for _, pt := range b.Contour.Outline {
		if pt.X >= x0-w && pt.X <= x1+w {
			top, bottom = math.Max(top, pt.Y), math.Min(bottom, pt.Y)
		}
	}
	f := &placed{joints: []*Joint{u, l}, spec: p.spec, key: p.key, shape: FullDepth, along: geom.Pt{X: 1},
		centre: geom.Pt{X: x, Y: (b.upper.y(x) + b.lower.y(x)) / 2}}
	f.length, f.height = w, b.upper.y(x)-b.lower.y(x)-float64(2*p.spec.Inset)
	f.rect = geom.Ring{{X: x0, Y: bottom - 1}, {X: x1, Y: bottom - 1}, {X: x1, Y: top + 1}, {X: x0, Y: top + 1}}
	b.trim(f, u.At.Lerp(l.At, 0.5))
	return f
}

// finish works out a plate's areas and marks.
func (b *builder) finish(p *placed) Gusset {
	g := Gusset{Shape: p.shape, Centre: p.centre, Angle: p.along.Angle(), Outline: p.path, AreaMM2: p.path.Area(),
		Faces: p.spec.Faces, Far: p.spec.Faces == 1 && b.doc.Gusset.Face == "far", GlueMM2: map[string]float64{}}
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
		g.MarkDistance = p.spec.Inset + float64(p.height/2) - b.CapDepth
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
	b.checkReach(&g, p)
	return g
}

// checkReach finds a plate that misses what it should join.
func (b *builder) checkReach(g *Gusset, p *placed) {
	told := map[string]bool{} // a stick between the two joints of one plate
	for _, j := range p.joints {
		var missed []string
		sticks, bare := 0, 0 // of the joint, and those of them that the plate misses
		for _, id := range j.Members {
			miss := g.GlueMM2[id] == 0
			if miss && !told[id] {
				missed = append(missed, id)
				told[id] = true
			}
			if id[0] == 'S' {
				sticks++
				if miss {
					bare++
				}
			}
		}
		b.checkLittle(g, p, j)
		if len(missed) == 0 {
			continue
		}
		f := finding.Finding{Severity: finding.Warning, Code: "gusset-misses", Key: p.key, Part: g.ID, At: []geom.Pt{p.centre},
			Message: fmt.Sprintf("The plate at %s does not reach %s.", g.ID, strings.Join(missed, ", ")),
			Fix:     "Make the plate larger, or let it stand nearer to the contour."}
		if slices.Contains(missed, capID(j.Side)) || bare > 0 && bare == sticks {
			f.Severity = finding.Error
		}
		b.find(f)
	}
}

// checkLittle finds a plate that only nicks a stick of its joint: less than a square of the stick's depth lies
// under it (common practice, no source).
func (b *builder) checkLittle(g *Gusset, p *placed, j *Joint) {
	least := b.StickDepth * b.StickDepth
	for _, id := range j.Members {
		a := g.GlueMM2[id]
		if id[0] != 'S' || a == 0 || a >= least {
			continue
		}
		b.find(finding.Finding{Severity: finding.Warning, Code: "gusset-little", Key: p.key, Part: g.ID, At: []geom.Pt{p.centre}, Got: a, Limit: least, Unit: "mm2",
			Message: fmt.Sprintf("The plate at %s holds %s by %s only, less than a square of the stick's depth.", g.ID, id, b.doc.Area(a)),
			Fix:     "Make the plate larger, or let the stick stand steeper."})
	}
}

// under adds the area that a plate and a member have in common, one face. Members lie in the contour, and in the
// inset contour but for its tail, so the contour need not trim again; the spars do, for a plate that a spar cuts
// does not go on behind it.
func (b *builder) under(g *Gusset, p *placed, id string, ring geom.Ring) {
	if len(ring) == 0 || !ring.Box().Meets(p.box) {
		return
	}
	for _, h := range p.halves {
		ring = ring.Within(h)
	}
	for _, h := range b.insetBy(p.spec.Inset).ends {
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
