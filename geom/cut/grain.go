package cut

import (
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// grain returns the ways, in the plate's own axes, in which its face grain may run: along the cap, along the stick that
// has most of the plate, at 45° to the cap either way, or any (common practice, no source; plans rule).
func grain(r *rib.Rib, doc *ribfile.Doc, g rib.Gusset, own geom.Transform) []float64 {
	switch doc.GrainAt(g.Joints[0]) {
	case "cap":
		return []float64{0}
	case "45":
		return []float64{math.Pi / 4, -math.Pi / 4}
	case "stick":
		most, way := 0.0, 0.0
		for _, s := range r.Sticks {
			if a := g.GlueMM2[s.ID]; a > most {
				most, way = a, own.Pt(s.Axis[1]).Sub(own.Pt(s.Axis[0])).Angle()
			}
		}
		return []float64{way}
	}
	return nil
}

// turns returns the angles at which a plate may lie on a sheet whose face grain runs along x, or along y where
// across is true. Plates of any grain lie along the sheet or across it, those that are round as they are drawn.
func (p Plate) turns(across bool) []float64 {
	ways := p.Grain
	if len(ways) == 0 {
		ways = []float64{0, math.Pi / 2}
	}
	axis := 0.0
	if across {
		axis = math.Pi / 2
	}
	var out []float64
	for _, w := range ways {
		for _, half := range []float64{0, math.Pi} {
			a := math.Remainder(axis-w+half, 2*math.Pi)
			if !slices.ContainsFunc(out, func(b float64) bool { return geom.Polar(a).Dist(geom.Polar(b)) < 1e-9 }) {
				out = append(out, a)
			}
		}
	}
	return out
}

// upright returns the one of the angles that turns lettering least.
func upright(angles []float64) float64 {
	best := angles[0]
	for _, a := range angles[1:] {
		if math.Abs(a) < math.Abs(best)-1e-9 {
			best = a
		}
	}
	return best
}
