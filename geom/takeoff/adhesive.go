package takeoff

import (
	"cmp"
	"fmt"
	"slices"

	"ribwright/geom/finding"
	"ribwright/geom/mix"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// Adhesive is what must be mixed, and where it goes: what stays in the joints, what is squeezed out of them, and
// what stays in cup and brush are together what is mixed.
type Adhesive struct {
	InJointG, SqueezeOutG, CupLossG, MixedG float64
	PartAG, PartBG                          float64
	PartAML, PartBML                        float64 // cm³, by the parts' densities; by the mixed one's where they are not given
}

// Spread returns the adhesive for a glue area, of which endMM2 besides is end grain: it counts EndGrain times.
//
//	stays in the joint = area × cured thickness × density
//	put on             = area × coated surfaces × wet film × density; or area × rate;
//	                     or what stays in the joint × (1 + squeeze-out)
//	mixed              = put on × (1 + loss in cup and brush)
func Spread(a ribfile.Adhesive, areaMM2, endMM2 float64) Adhesive {
	area := areaMM2 + float64(a.EndGrain*endMM2)
	on := float64(area * PutOn(a) * 1e-6)
	out := Adhesive{InJointG: float64(area * a.GlueLine * a.Density * 1e-3), MixedG: float64(on * (1 + a.CupLoss))}
	out.SqueezeOutG, out.CupLossG = max(on-out.InJointG, 0), out.MixedG-on
	out.PartAG, out.PartBG = Ratio(a).Split(out.MixedG)
	out.PartAML, out.PartBML = Volumes(a, out.PartAG, out.PartBG)
	return out
}

// Ratio returns part A to part B by weight.
func Ratio(a ribfile.Adhesive) mix.Ratio {
	if a.By == "volume" {
		return mix.ByVolume(a.RatioA, a.RatioB, a.DensityA, a.DensityB)
	}
	return mix.Ratio{A: a.RatioA, B: a.RatioB}
}

// Volumes returns what two parts take up, cm³: by their densities, or by the mixed adhesive's where they are not given.
func Volumes(a ribfile.Adhesive, partAG, partBG float64) (partAML, partBML float64) {
	return partAG / cmp.Or(a.DensityA, a.Density), partBG / cmp.Or(a.DensityB, a.Density)
}

// PutOn returns what is put on a joint, g/m²: on one of its surfaces or on both together. Millimetres times g/cm³ are kg/m².
func PutOn(a ribfile.Adhesive) float64 {
	coats := float64(Coats(a))
	switch {
	case a.Amount == ribfile.ByRate && a.RateOf == "surface":
		return coats * a.Rate
	case a.Amount == ribfile.ByRate:
		return a.Rate
	case a.Amount == ribfile.BySqueezeOut:
		return 1e3 * a.GlueLine * a.Density * (1 + a.SqueezeOut)
	}
	return 1e3 * coats * a.Spread * a.Density
}

// Coats returns how many surfaces of a joint are spread.
func Coats(a ribfile.Adhesive) int {
	if a.Coat == "one" {
		return 1
	}
	return 2
}

// Times returns n times the adhesive.
func (a Adhesive) Times(n float64) Adhesive {
	return Adhesive{n * a.InJointG, n * a.SqueezeOutG, n * a.CupLossG, n * a.MixedG, n * a.PartAG, n * a.PartBG, n * a.PartAML, n * a.PartBML}
}

// Plus returns both together.
func (a Adhesive) Plus(b Adhesive) Adhesive {
	return Adhesive{a.InJointG + b.InJointG, a.SqueezeOutG + b.SqueezeOutG, a.CupLossG + b.CupLossG, a.MixedG + b.MixedG,
		a.PartAG + b.PartAG, a.PartBG + b.PartBG, a.PartAML + b.PartAML, a.PartBML + b.PartBML}
}

// Spot is what one joint takes on one side of a rib, or the web: under its plate, and on the first side at the ends of the
// sticks and blocks that meet there.
type Spot struct {
	ID       string // of the plate, else of the joint; "web"; "caps" where the caps are glued on each other, "strips" the strips of doubled sticks
	Side     int    // 0: the first side; 1: the second
	PlateMM2 float64
	EndMM2   float64 // end grain
	CapsMM2  float64 // the caps on each other, or the strips of doubled sticks
	Adhesive Adhesive
}

// WebID is what lists call the web.
const WebID = "web"

// spots parts a rib's glue area by joint, the first side before the second. A joint without a plate stands by its own name,
// behind those with one.
func spots(r *rib.Rib, a ribfile.Adhesive, g Glue) []Spot {
	ends := map[string]float64{}
	var bare []string
	for _, j := range r.Joints {
		for _, k := range SortedKeys(j.ButtMM2) {
			ends[j.ID] += j.ButtMM2[k]
		}
		if ends[j.ID] > 0 && !slices.ContainsFunc(r.Gussets, func(p rib.Gusset) bool { return slices.Contains(p.Joints, j.ID) }) {
			bare = append(bare, j.ID)
		}
	}
	var out []Spot
	add := func(s Spot) {
		if area := s.PlateMM2 + s.CapsMM2; area+s.EndMM2 > 0 {
			s.Adhesive = Spread(a, area, s.EndMM2)
			out = append(out, s)
		}
	}
	for side := range 2 {
		for _, p := range r.Gussets {
			s := Spot{ID: p.ID, Side: side}
			if slices.Contains(p.On(), side) {
				for _, k := range SortedKeys(p.GlueMM2) {
					s.PlateMM2 += p.GlueMM2[k]
				}
			}
			for _, id := range p.Joints {
				if side == 0 {
					s.EndMM2 += ends[id]
				}
			}
			add(s)
		}
		if slices.Contains(r.Web.On(), side) {
			add(Spot{ID: WebID, Side: side, PlateMM2: Sum(r.Web.GlueMM2)})
		}
		if side == 0 {
			for _, id := range bare {
				add(Spot{ID: id, EndMM2: ends[id]})
			}
			add(Spot{ID: "caps", CapsMM2: g.CapsMM2})
			add(Spot{ID: "strips", CapsMM2: g.PliesMM2})
		}
	}
	return out
}

// FindAdhesive tells where less is put on than stays in a joint: no adhesive grows as it cures.
func FindAdhesive(doc *ribfile.Doc) []finding.Finding {
	a := doc.Adhesive
	stays, on := float64(1e3*a.GlueLine*a.Density), PutOn(a)
	if on >= stays*(1-1e-9) {
		return nil
	}
	return []finding.Finding{{Severity: finding.Warning, Code: "adhesive-starved", Key: "adhesive." + a.Amount, Got: on, Limit: stays, Unit: "g/m²",
		Message: fmt.Sprintf("A cured joint of %s holds %s, but only %s is put on: it would be starved.", doc.Length(a.GlueLine), doc.Units.Rate(stays), doc.Units.Rate(on)),
		Fix:     "Put on more, or let the glue line be thinner (glue_line under [adhesive])."}}
}
