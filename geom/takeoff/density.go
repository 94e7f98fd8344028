package takeoff

import "ribwright/geom/ribfile"

// basic holds basic specific gravities (oven-dry mass, green volume) of Wood Handbook, FPL-GTR-190, Table 5-3, from memory.
var basic = map[string]float64{
	"sitka-spruce": 0.37,
	"white-spruce": 0.33,
	"douglas-fir":  0.45,
	"yellow-birch": 0.55,
	"paper-birch":  0.48,
	"white-ash":    0.55,
}

// plywood is the density of birch plywood, kg/m³, at 12 % moisture content: common practice, no source. Weigh a sheet
// to know better.
const plywood = 680

// Density returns a material's density in kg/m³, 0 for a material not known: as the builder weighed it, else by the
// handbook at the moisture content given. For wood that is ρ = 1000 G (1 + M/100) with G = G_b/(1 − 0.265 a G_b) and
// a = (30 − M)/30 (Simpson, FPL-GTR-76; from memory). Of plywood the water alone is counted, not that it swells.
func Density(material string, m ribfile.Mass) float64 {
	if own := m.Density[material]; own > 0 {
		return 1000 * own
	}
	water := 1 + m.Moisture/100
	if material == "birch-plywood" {
		return plywood / 1.12 * water
	}
	a, g := (30-m.Moisture)/30, basic[material]
	return 1000 * g / (1 - float64(0.265*a*g)) * water
}

// PoundsPerFoot3 is 1 kg/m³ in lb/ft³, exact by the definitions of pound and foot.
const PoundsPerFoot3 = 0.3048 * 0.3048 * 0.3048 / (ribfile.GramsPerPound * 1e-3)
