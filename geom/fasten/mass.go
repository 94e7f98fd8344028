package fasten

import (
	"math"

	"ribwright/geom/ribfile"
)

// metals holds densities in g/cm³, from memory: steel and brass within EN 1991-1-1, Table A.4, by their weight (77.0 to
// 78.5 and 83 to 85 kN/m³); stainless steel EN 10088-1, grade 1.4301; bronze as brass.
var metals = map[string]float64{
	"steel":      7.85,
	"galvanized": 7.85, // its zinc weighs little less
	"stainless":  7.9,
	"brass":      8.5,
	"bronze":     8.5,
}

// MassG returns the mass of one fastener: its wire's section × its length × the metal's density. A staple is as long as
// its crown and two legs; a nail's head is not counted.
func MassG(f ribfile.Fastener) float64 {
	const cm3 = 1e-3 // cm³ in a mm³
	length, section := f.Leg, float64(math.Pi/4*f.Wire*f.Wire)
	if f.Flat > 0 {
		section = float64(f.Wire * f.Flat)
	}
	switch f.Kind {
	case "none":
		return 0
	case "staple":
		length = f.Crown + float64(2*f.Leg)
	}
	return section * length * cm3 * metals[f.Material]
}

// Stays reports whether the fasteners stay in the rib.
func Stays(f ribfile.Fastener) bool { return f.Kind != "none" && f.After == "left" }
