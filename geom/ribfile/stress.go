package ribfile

import "math"

// Factors of force and stress, exact by definition: the pound-force is that of standard gravity (3rd CGPM, 1901).
const (
	NewtonsPerKgf = 9.80665
	NewtonsPerLbf = GramsPerPound / 1000 * NewtonsPerKgf
	MPaPerPSI     = NewtonsPerLbf / (MMPerInch * MMPerInch)
)

const unitStress = "MPa"

var forces = measure{
	noun: "a load",
	fix:  `Write a load such as "1200 N", "1.2 kN", "270 lbf" or "122 kg".`,
	units: []unit{
		{names: []string{"n", "newton", "newtons"}, times: 1},
		{names: []string{"kn", "kilonewton", "kilonewtons"}, times: 1000},
		{names: []string{"lbf", "lb", "lbs", "pound", "pounds"}, times: NewtonsPerLbf},
		{names: []string{"kgf", "kg", "kp"}, times: NewtonsPerKgf},
	},
	most: 1e6,
}

var stresses = measure{
	noun: "a stress",
	fix:  `Write a stress such as "7.9 MPa", "7.9 N/mm²" or "1150 psi".`,
	units: []unit{
		{names: []string{"mpa", "n/mm2", "n/mm²", "n/mm^2"}, times: 1},
		{names: []string{"kpa"}, times: 1, over: 1000},
		{names: []string{"psi", "lb/in2", "lb/in²", "lbf/in2", "lbf/in²", "lb/sqin"}, times: MPaPerPSI},
	},
	most: 1e6,
}

// ParseForce reads a load written as text. With a unit the value is newtons, where a kilogram or a pound is its
// weight; without one (hasUnit false) it is the bare number, which Units.Newtons turns into them. The error is a *QuantityError.
func ParseForce(s string) (value float64, hasUnit bool, err error) { return forces.parse(s) }

// stress reads MPa. ok is false where a finding was given.
func (t tab) stress(key string, def float64, lim limit) (mpa float64, ok bool) {
	return t.measure(key, def, lim, &stresses, unitStress, t.r.doc.Units.MPa, t.r.doc.Units.Stress)
}

// Newtons turns a bare number into newtons: pounds-force where units is "in".
func (u Units) Newtons(n float64) float64 {
	if u == Inch {
		return n * NewtonsPerLbf
	}
	return n
}

// MPa turns a bare number into MPa: psi where units is "in".
func (u Units) MPa(n float64) float64 {
	if u == Inch {
		return n * MPaPerPSI
	}
	return n
}

// Force writes newtons for people, as a load and as the weight that hangs on: "1270 N (130 kg)"; pounds where units is "in".
func (u Units) Force(n float64) string {
	if u == Inch {
		return rounded(n/NewtonsPerLbf, 3) + " lbf"
	}
	return rounded(n, 3) + " N (" + rounded(n/NewtonsPerKgf, 3) + " kg)"
}

// Stress writes MPa for people, or psi where units is "in".
func (u Units) Stress(mpa float64) string {
	if u == Inch {
		return rounded(mpa/MPaPerPSI, 3) + " psi"
	}
	return decimals(mpa, 2) + " MPa"
}

// rounded writes v with so many significant figures, without decimals above them.
func rounded(v float64, figures int) string {
	if v == 0 {
		return "0"
	}
	step := math.Pow10(int(math.Floor(math.Log10(math.Abs(v)))) + 1 - figures)
	return decimals(math.Round(v/step)*step, max(0, int(math.Round(-math.Log10(step)))))
}
