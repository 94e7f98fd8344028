package takeoff

// moisture is the moisture content, percent, at which densities are given: Wood Handbook, FPL-GTR-190, chapter 5.
const moisture = 12

// basic holds basic specific gravities (oven-dry mass, green volume) of Wood Handbook Table 5-3, from memory.
var basic = map[string]float64{
	"sitka-spruce": 0.37,
	"white-spruce": 0.33,
	"douglas-fir":  0.45,
	"yellow-birch": 0.55,
	"paper-birch":  0.48,
	"white-ash":    0.55,
}

// plywood is the density of birch plywood, kg/m³: common practice, no source. Weigh a sheet to know better.
const plywood = 680

// Density returns a material's density in kg/m³ at 12 % moisture content, 0 for a material not known. For
// wood it is ρ = 1000 G (1 + M/100) with G = G_b/(1 − 0.265 a G_b) and a = (30 − M)/30 (Simpson, FPL-GTR-76;
// from memory).
func Density(material string) float64 {
	if material == "birch-plywood" {
		return plywood
	}
	const a = (30.0 - moisture) / 30
	g := basic[material]
	return 1000 * g / (1 - float64(0.265*a*g)) * (1 + moisture/100.0)
}
