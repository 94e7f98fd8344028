package rib

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// A spar's own axes turn with its tilt: up along its faces, aft square to them. Its place is where its centre plane
// crosses the chord line, y = 0. A spar that leans aft at the top has its lower end ahead of that place.

// Up returns the unit vector along the spar's faces, from the lower cap to the upper one.
func (s Spar) Up() geom.Pt { return geom.Pt{X: math.Sin(s.Tilt), Y: math.Cos(s.Tilt)} }

// Square returns the unit vector square to the spar's faces, aft.
func (s Spar) Square() geom.Pt { return geom.Pt{X: math.Cos(s.Tilt), Y: 0 - math.Sin(s.Tilt)} }

// Plane returns what lies ahead of the plane parallel to the spar's faces that crosses the chord line at a station.
func (s Spar) Plane(at float64) geom.Half {
	return geom.Half{N: s.Square(), D: float64(at * math.Cos(s.Tilt))}
}

// Ahead and Behind return what lies ahead of the opening's fore face, and behind its aft one.
func (s Spar) Ahead() geom.Half  { return s.Plane(s.Fore) }
func (s Spar) Behind() geom.Half { return s.Plane(s.Aft).Flip() }

// Gap returns the width of the opening, square to its faces.
func (s Spar) Gap() float64 { return float64((s.Aft - s.Fore) * math.Cos(s.Tilt)) }

// side returns the side of the spar on which a point lies: the half-plane ahead of the opening, or behind it.
func (s Spar) side(p geom.Pt) geom.Half {
	if s.Plane(s.At).Off(p) > 0 {
		return s.Behind()
	}
	return s.Ahead()
}

// spars makes the openings and the largest spar that passes through each.
func (b *builder) spars() {
	for i, d := range b.doc.Spars {
		s := b.spar(i)
		if b.outside(s) {
			b.Spars = append(b.Spars, s) // without an opening; it is taken out when all is laid
			continue
		}
		key := fmt.Sprintf("spar[%d].at", i)
		var pieces []geom.Shape
		for _, p := range (geom.Shape{Ring: b.Contour.Inner}).Cut(s.Ahead().Flip(), 0) {
			pieces = append(pieces, p.Cut(s.Behind().Flip(), 0)...)
		}
		s.Opening = geom.Largest(pieces).Ring
		if len(s.Opening) == 0 || extent(s.Opening, s.Square()) < s.Gap()-geom.Flat || !b.holdsFaces(s) {
			b.find(finding.Finding{Severity: finding.Error, Code: "spar-no-room", Key: key, Part: "spar " + d.Name,
				Message: fmt.Sprintf("The opening of spar %q, from %s to %s, does not lie between the caps.", d.Name, b.station(s.Fore), b.station(s.Aft)),
				Fix:     "Move the spar to where the rib is deep enough, or make it narrower."})
		} else if b.fitSpar(&s, d); s.DepthFront <= 0 || s.DepthRear <= 0 {
			b.find(finding.Finding{Severity: finding.Error, Code: "spar-no-room", Key: key, Part: "spar " + d.Name,
				Message: fmt.Sprintf("No straight spar passes between the caps at spar %q.", d.Name),
				Fix:     "Move the spar to where the rib is deeper, or make it narrower."})
		}
		b.clearSpar(s, key)
		b.Spars = append(b.Spars, s)
	}
}

// spar is a spar of the file with the faces of its opening, before it is cut out of the rib.
func (b *builder) spar(i int) Spar {
	d := b.doc.Spars[i]
	half := (float64((b.through(d)+b.along(d))/2) + d.Clearance) / math.Cos(d.Tilt)
	return Spar{Name: d.Name, At: d.At, Width: d.Width, Clearance: d.Clearance, Tilt: d.Tilt, Sweep: d.Sweep, Fore: d.At - half, Aft: d.At + half}
}

// through is how wide a spar is in the plane of the rib; along is how far it moves along the chord while it
// passes through the rib and its plates or webs, whose openings are cut square to the rib. One that stands square to
// the rib moves by nothing.
func (b *builder) through(d ribfile.Spar) float64 { return d.Width / math.Cos(d.Sweep) }

func (b *builder) along(d ribfile.Spar) float64 {
	thick := math.Max(b.CapWidth, b.StickWidth)
	plates := b.doc.Gusset.Shape != "none"
	for _, at := range b.doc.Gussets {
		plates = plates || at.Plate.Shape != "none"
	}
	if plates {
		thick += float64(float64(b.doc.Gusset.Faces) * b.GussetThickness)
	}
	thick += float64(float64(webFaces(b.doc)) * b.doc.Web.Thickness)
	return float64(thick * math.Abs(math.Tan(d.Sweep)))
}

// holdsFaces reports whether both faces of a leaning spar's opening run from cap to cap: at the end of a rib one may not.
func (b *builder) holdsFaces(s Spar) bool {
	if s.Tilt == 0 {
		return true
	}
	for _, chain := range [][]geom.Pt{b.innerUpper, b.innerLower} {
		fore, aft := math.Inf(1), math.Inf(-1)
		for _, p := range chain {
			fore, aft = math.Min(fore, s.Ahead().Off(p)), math.Max(aft, -s.Behind().Off(p))
		}
		if fore > geom.Flat || aft < -geom.Flat {
			return false
		}
	}
	return true
}

// clearSpar finds a spar that stands in a block of wood or in the spar before it: leaning, or swept, it may do so
// though its place on the chord line is free.
func (b *builder) clearSpar(s Spar, key string) {
	if s.Tilt == 0 && s.Sweep == 0 && !slices.ContainsFunc(b.Spars, func(o Spar) bool { return o.Tilt != 0 || o.Sweep != 0 }) {
		return // the reader has held their places against each other
	}
	tell := func(what string) {
		b.find(finding.Finding{Severity: finding.Error, Code: "spar-in-way", Key: key, Part: "spar " + s.Name,
			Message: fmt.Sprintf("The opening of spar %q, from %s to %s on the chord line, runs into %s.", s.Name, b.station(s.Fore), b.station(s.Aft), what),
			Fix:     "Move them apart; mind that a spar with tilt leans over, and that one with sweep needs a wider opening."})
	}
	for _, k := range b.Blocks {
		if geom.CommonArea(k.Outline, s.Opening) > geom.Flat {
			tell(map[string]string{BlockNose: "the nose block", BlockTail: "the tail block"}[k.ID])
		}
	}
	for _, o := range b.Spars {
		if geom.CommonArea(o.Opening, s.Opening) > geom.Flat {
			tell(fmt.Sprintf("the opening of spar %q", o.Name))
		}
	}
}

// fitSpar finds the largest spar with straight faces that passes through the opening. A swept spar moves along
// the chord while it passes: a top or bottom that slopes must give way by as much as the cap comes nearer.
func (b *builder) fitSpar(s *Spar, d ribfile.Spar) {
	wide, moves := b.through(d), b.along(d)
	mid := float64(s.At * math.Cos(s.Tilt))
	fit := func(chain []geom.Pt, dir float64) [2]geom.Pt {
		out := straightEdge(s.own(chain), mid-float64((wide+moves)/2), mid+float64((wide+moves)/2), dir)
		if moves > 0 {
			slope := (out[1].Y - out[0].Y) / (out[1].X - out[0].X)
			give := float64(dir * math.Abs(slope) * moves / 2)
			out = [2]geom.Pt{{X: mid - float64(wide/2), Y: at(out[0], out[1], mid-float64(wide/2)).Y + give},
				{X: mid + float64(wide/2), Y: at(out[0], out[1], mid+float64(wide/2)).Y + give}}
		}
		return [2]geom.Pt{s.back(out[0]), s.back(out[1])}
	}
	s.Top, s.Bottom = fit(b.innerUpper, -1), fit(b.innerLower, 1)
	s.DepthFront, s.DepthRear = s.Top[0].Sub(s.Bottom[0]).Dot(s.Up()), s.Top[1].Sub(s.Bottom[1]).Dot(s.Up())
	bevel := func(e [2]geom.Pt) float64 { // across the spar itself, which the rib cuts aslant where it is swept
		v := e[1].Sub(e[0])
		return math.Atan2(v.Dot(s.Up()), v.Dot(s.Square())*math.Cos(s.Sweep))
	}
	s.BevelTop, s.BevelBottom = bevel(s.Top), bevel(s.Bottom)
}

// own returns points in the spar's own axes, back one of them in the rib's.
func (s Spar) own(pts []geom.Pt) []geom.Pt {
	out := make([]geom.Pt, len(pts))
	for i, p := range pts {
		out[i] = geom.Pt{X: p.Dot(s.Square()), Y: p.Dot(s.Up())}
	}
	return out
}

func (s Spar) back(p geom.Pt) geom.Pt { return s.Square().Mul(p.X).Along(s.Up(), p.Y) }

// extent returns how far a ring reaches along a direction, from its first point to its last.
func extent(r geom.Ring, dir geom.Pt) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range r {
		lo, hi = math.Min(lo, p.Dot(dir)), math.Max(hi, p.Dot(dir))
	}
	return hi - lo
}

// straightEdge returns the straight line between two stations that stays on one side of a chain (dir −1: below
// it, +1: above) and comes nearest to it half-way: an edge of the chain's convex hull, prolonged. On a cap that
// curves away from the spar it is the chord.
func straightEdge(chain []geom.Pt, x0, x1, dir float64) [2]geom.Pt {
	pts := []geom.Pt{{X: x0, Y: yOn(chain, x0)}}
	for _, p := range chain {
		if p.X > x0 && p.X < x1 {
			pts = append(pts, p)
		}
	}
	pts = append(pts, geom.Pt{X: x1, Y: yOn(chain, x1)})
	slices.SortStableFunc(pts, func(a, c geom.Pt) int { return cmp.Compare(a.X, c.X) })
	var hull []geom.Pt
	for _, p := range pts {
		for n := len(hull); n > 1 && dir*hull[n-1].Sub(hull[n-2]).Cross(p.Sub(hull[n-1])) >= 0; n-- {
			hull = hull[:n-1]
		}
		hull = append(hull, p)
	}
	k := 1
	for k < len(hull)-1 && hull[k].X < (x0+x1)/2 {
		k++
	}
	return [2]geom.Pt{{X: x0, Y: at(hull[k-1], hull[k], x0).Y}, {X: x1, Y: at(hull[k-1], hull[k], x1).Y}}
}
