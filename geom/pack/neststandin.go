package pack

import (
	"math"

	"ribwright/geom"
)

// Forms beyond fewForms are replaced by one that holds them and is hardly larger, where there is such a one: the plates of a
// tapered wing differ a little from rib to rib, and every new shape needs its no-fit region beside all others.
// The more forms there are, the more is given away.
const fewForms = 48

// allowance returns how much larger a form may be that stands in for another, as a share of its area.
func allowance(forms int) float64 {
	switch {
	case forms < 2*fewForms:
		return 0.02
	case forms < 4*fewForms:
		return 0.04
	}
	return 0.08
}

// standIn returns a form that holds f, whose outline in its own axes is p, and where f's origin lies in it.
func (b *bench) standIn(f *form, p geom.Path) (k int, by geom.Pt, ok bool) {
	if len(b.forms) < fewForms || f.radius > 0 {
		return 0, by, false
	}
	most := float64(f.area * (1 + allowance(len(b.forms))))
	for k, o := range b.forms {
		if o.area > most || len(o.cores) > 1 || !b.fitsWhere(o, f) {
			continue
		}
		for _, s := range [5]geom.Pt{{}, {X: 1}, {Y: 1}, {X: 1, Y: 1}, {X: 0.5, Y: 0.5}} {
			by := o.body.Min.Sub(f.body.Min).Add(geom.Pt{X: float64(s.X * (o.body.W() - f.body.W())), Y: float64(s.Y * (o.body.H() - f.body.H()))})
			if o.covers(p, by) {
				return k, by, true
			}
		}
	}
	return 0, by, false
}

// fitsWhere reports whether o goes on every sheet that f goes on, by their boxes.
func (b *bench) fitsWhere(o, f *form) bool {
	for _, g := range b.grounds {
		w, h := g.hi.X-g.lo.X+hair, g.hi.Y-g.lo.Y+hair
		if f.w <= w && f.h <= h && (o.w > w || o.h > h) {
			return false
		}
	}
	return true
}

// covers reports whether the convex form, or the disc, holds the outline moved by the vector. Each edge of the form is asked how
// far the outline reaches over it, arcs in full.
func (f *form) covers(p geom.Path, by geom.Pt) bool {
	if f.radius > 0 {
		return outreach(p, func(q geom.Pt) geom.Pt { return q.Add(by).Sub(f.inner) }, func(q geom.Pt) float64 {
			return q.Add(by).Dist(f.inner)
		}) <= f.radius+hair/2
	}
	for k, a := range f.ring {
		n := f.ring[(k+1)%len(f.ring)].Sub(a).Unit().Left().Mul(-1)
		if outreach(p, func(geom.Pt) geom.Pt { return n }, func(q geom.Pt) float64 { return n.Dot(q.Add(by).Sub(a)) }) > hair/2 {
			return false
		}
	}
	return true
}

// outreach returns the greatest value of far on the outline: at a corner, or on an arc in the direction that way gives for its centre.
func outreach(p geom.Path, way func(centre geom.Pt) geom.Pt, far func(geom.Pt) float64) float64 {
	most, a := far(p.Start), p.Start
	for _, g := range p.Segs {
		most = max(most, far(g.End))
		if g.Bulge != 0 && a != g.End {
			c, r, from, sweep := geom.Arc(a, g.End, g.Bulge)
			turn := way(c).Angle() - from
			if sweep < 0 {
				turn, sweep = -turn, -sweep
			}
			if turn = math.Mod(turn, 2*math.Pi); turn < 0 {
				turn += 2 * math.Pi
			}
			if turn <= sweep {
				most = max(most, far(c.Along(way(c).Unit(), r)))
			}
		}
		a = g.End
	}
	return most
}
