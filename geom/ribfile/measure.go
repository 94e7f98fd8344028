package ribfile

import (
	"math"
	"slices"
	"strings"
)

// Factors between units, all exact by definition: the pound (international yard and pound agreement, 1959), and
// the pound per thousand square feet of single glue line, 4.88243 g/m².
const (
	GramsPerPound = 453.59237
	GramsPerOunce = GramsPerPound / 16
	GM2PerMSGL    = GramsPerPound / (1000 * mmPerFoot * mmPerFoot * 1e-6)
	mmPerFoot     = 12 * MMPerInch
	minutesPerDay = 24 * 60
)

// measure is a kind of quantity that is written as a number and a unit.
type measure struct {
	noun, fix string
	units     []unit
	follow    func(first, next unit) bool // whether next may stand after first, as in "1 h 30 min"; nil: nothing may
	below     bool                        // may be below zero
	most      float64                     // what is beyond it is a slip
}

// unit is a unit by its names: a number n of it is (n − less)·times/over.
type unit struct {
	names []string // small letters, without spaces and full stops, "/" for "per"; the first is shown
	times float64
	over  float64 // 0: 1
	less  float64
}

var masses = measure{
	noun: "a mass",
	fix:  `Write a mass such as "25 g", "0.9 oz", "1 lb 4 oz" or "2.2 kg".`,
	units: []unit{
		{names: []string{"g", "gram", "grams", "gramme", "grammes"}, times: 1},
		{names: []string{"kg", "kilogram", "kilograms", "kilo", "kilos"}, times: 1000},
		{names: []string{"mg", "milligram", "milligrams"}, times: 1, over: 1000},
		{names: []string{"oz", "ounce", "ounces"}, times: GramsPerOunce},
		{names: []string{"lb", "lbs", "pound", "pounds"}, times: GramsPerPound},
	},
	follow: func(first, next unit) bool { return first.times == GramsPerPound && next.times == GramsPerOunce },
	most:   1e6,
}

var temperatures = measure{
	noun: "a temperature",
	fix:  `Write a temperature such as "21 C", "21 °C" or "70 F".`,
	units: []unit{
		{names: []string{"c", "°c", "degc", "celsius", "degcelsius", "degreescelsius"}, times: 1},
		{names: []string{"f", "°f", "degf", "fahrenheit", "degfahrenheit", "degreesfahrenheit"}, times: 5, over: 9, less: 32},
	},
	below: true,
	most:  1000,
}

var durations = measure{
	noun: "a time",
	fix:  `Write a time such as "30 min", "6 h", "1 h 30 min" or "1 day".`,
	units: []unit{
		{names: []string{"min", "mins", "minute", "minutes", "m"}, times: 1},
		{names: []string{"h", "hr", "hrs", "hour", "hours"}, times: 60},
		{names: []string{"day", "days", "d"}, times: minutesPerDay},
		{names: []string{"s", "sec", "secs", "second", "seconds"}, times: 1, over: 60},
	},
	follow: func(first, next unit) bool { return next.times < first.times },
	most:   1e6,
}

var rates = measure{
	noun: "a spread rate",
	fix:  `Write a spread rate such as "290 g/m²", "60 lb/MSGL" (pounds on 1,000 square feet of one glue line) or "0.95 oz/ft²".`,
	units: []unit{
		{names: []string{"g/m2", "g/sqm", "gsm", "g/m²", "g/m^2"}, times: 1},
		{names: []string{"kg/m2", "kg/sqm", "kg/m²", "kg/m^2"}, times: 1000},
		{names: []string{"lb/msgl", "lbs/msgl", "#/msgl", "lb/1000ft2", "lb/1000sqft", "lb/1000ft²", "lb/1000ft^2", "lb/mft2", "lb/msqft"}, times: GM2PerMSGL},
		{names: []string{"oz/ft2", "oz/sqft", "oz/ft²", "oz/ft^2"}, times: GM2PerMSGL * 1000 / 16},
		{names: []string{"lb/ft2", "lb/sqft", "lb/ft²", "lb/ft^2"}, times: GM2PerMSGL * 1000},
	},
	most: 1e5,
}

// ParseMass reads a mass written as text. With a unit the value is grams; without one (hasUnit false) it is the
// bare number, which Units.Grams turns into grams. Pounds take ounces after them. The error is a *QuantityError.
func ParseMass(s string) (value float64, hasUnit bool, err error) { return masses.parse(s) }

// MassIn returns the unit that a mass is written in: Inch for ounces and pounds, MM for grams; bare where it has none.
func MassIn(s string, bare Units) Units {
	s = strings.TrimSpace(plainSigns.Replace(s))
	_, rest, qe := scanNumber(wanted{text: s}, s)
	if qe != nil || rest == "" {
		return bare
	}
	switch u, _, _ := masses.unit(wanted{text: s}, rest); {
	case u == nil:
		return bare
	case u.times == GramsPerOunce || u.times == GramsPerPound:
		return Inch
	}
	return MM
}

// ParseTemperature reads a temperature written as text. With a unit the value is degrees Celsius; without one it
// is the bare number, which Units.Celsius turns into them. The error is a *QuantityError.
func ParseTemperature(s string) (value float64, hasUnit bool, err error) {
	return temperatures.parse(s)
}

// ParseDuration reads a time written as text, in minutes; a bare number is minutes. Smaller units stand after
// larger ones, as in "1 h 30 min". The error is a *QuantityError.
func ParseDuration(s string) (minutes float64, err error) {
	minutes, _, err = durations.parse(s)
	return minutes, err
}

// ParseRate reads how much adhesive is spread on an area. With a unit the value is g/m²; without one it is the
// bare number, which Units.GM2 turns into it. The error is a *QuantityError.
func ParseRate(s string) (value float64, hasUnit bool, err error) { return rates.parse(s) }

// parse reads a number and its unit, and what may follow.
func (m *measure) parse(s string) (value float64, hasUnit bool, err error) {
	rest := strings.TrimSpace(plainSigns.Replace(s))
	w := wanted{s, m.noun, m.fix}
	if rest == "" {
		return 0, false, &QuantityError{"There is no " + strings.TrimPrefix(m.noun, "a ") + " here.", m.fix}
	}
	if strings.Contains(rest, ",") {
		return 0, false, commaIn(s)
	}
	sign := 1.0
	if m.below && (rest[0] == '-' || rest[0] == '+') {
		if rest[0] == '-' {
			sign = -1
		}
		rest = strings.TrimSpace(rest[1:])
	}
	var before *unit
	for first := true; first || rest != ""; first = false {
		var n amount
		var qe *QuantityError
		if n, rest, qe = scanNumber(w, rest); qe != nil {
			return 0, false, qe
		}
		if rest == "" && first {
			return m.sane(w, sign*n.value(), false)
		}
		var u *unit
		if u, rest, qe = m.unit(w, rest); qe != nil {
			return 0, false, qe
		}
		if before != nil && (m.follow == nil || !m.follow(*before, *u)) {
			return 0, false, w.unreadable()
		}
		value += u.of(amount{float64(sign * n.num), n.den})
		before = u
	}
	return m.sane(w, value, true)
}

func (u *unit) of(n amount) float64 {
	return (n.num - float64(u.less*n.den)) * u.times / (n.den * max(u.over, 1))
}

// sane refuses what is far beyond anything at a bench.
func (m *measure) sane(w wanted, value float64, hasUnit bool) (float64, bool, error) {
	if math.Abs(value) > m.most {
		return 0, false, w.tooMuch()
	}
	return noMinusZero(value), hasUnit, nil
}

// unit finds the unit at the start of rest: the longest of its names, whatever its capitals, spaces and full
// stops, after which no letter stands.
func (m *measure) unit(w wanted, rest string) (*unit, string, *QuantityError) {
	const longest = 40 // of a unit's name, so that no text takes long
	for end := min(len(rest), longest); end > 0; end-- {
		after := rest[end:]
		if after != "" && strings.IndexByte(" 0123456789.", after[0]) < 0 {
			continue
		}
		word := bareWord.Replace(strings.ToLower(rest[:end]))
		for i := range m.units {
			if slices.Contains(m.units[i].names, word) {
				return &m.units[i], strings.TrimLeft(after, " ."), nil
			}
		}
	}
	word, _, _ := strings.Cut(rest, " ")
	if strings.Contains(strings.ToLower(word), "mdgl") {
		return nil, "", &QuantityError{quote(w.text) + " counts two glue lines, those on both faces of a veneer; a rate for one is needed here.", "Write half of it, in lb/MSGL."}
	}
	shown := make([]string, len(m.units))
	for i, u := range m.units {
		shown[i] = unitShown(u.names[0])
	}
	return nil, "", &QuantityError{"The unit " + quote(word) + " in " + quote(w.text) + " is not known.", "Use " + list(shown, "or") + "."}
}

var bareWord = strings.NewReplacer(" ", "", ".", "", "per", "/")

// unitShown writes a unit as people do.
func unitShown(name string) string {
	switch name {
	case "c", "f":
		return strings.ToUpper(name)
	case "lb/msgl":
		return "lb/MSGL"
	}
	return strings.Replace(name, "m2", "m²", 1)
}

// Grams turns a bare number into grams: ounces where units is "in".
func (u Units) Grams(n float64) float64 {
	if u == Inch {
		return n * GramsPerOunce
	}
	return n
}

// Celsius turns a bare number into degrees Celsius: Fahrenheit where units is "in".
func (u Units) Celsius(n float64) float64 {
	if u == Inch {
		return (n - 32) / 1.8
	}
	return n
}

// GM2 turns a bare number into g/m²: lb/MSGL where units is "in".
func (u Units) GM2(n float64) float64 {
	if u == Inch {
		return n * GM2PerMSGL
	}
	return n
}

// Mass writes grams for people: ounces with two decimals where units is "in"; else grams with one decimal,
// with two below 10 g.
func (u Units) Mass(g float64) string {
	switch {
	case u == Inch:
		return fixed(g/GramsPerOunce, 2) + " oz"
	case math.Abs(g) < 9.995:
		return fixed(g, 2) + " g"
	}
	return fixed(g, 1) + " g"
}

// Temperature writes degrees Celsius for people, in Fahrenheit where units is "in", to the half degree at most.
func (u Units) Temperature(c float64) string {
	if u == Inch {
		return decimals(math.Round(2*(float64(c*1.8)+32))/2, 1) + " °F"
	}
	return decimals(math.Round(2*c)/2, 1) + " °C"
}

// Rate writes a spread rate for people: g/m², or lb/MSGL where units is "in".
func (u Units) Rate(gm2 float64) string {
	if u == Inch {
		return decimals(gm2/GM2PerMSGL, 1) + " lb/MSGL"
	}
	return decimals(gm2, 0) + " g/m²"
}

// Duration writes minutes for people, to the minute: "45 min", "1 h 30 min", "2 days". Below two minutes it
// writes seconds.
func Duration(minutes float64) string {
	if math.Abs(minutes) < 2 {
		if s := decimals(minutes*60, 0); s != "60" && s != "0" {
			return s + " s"
		}
	}
	sign, n := "", math.Round(minutes)
	if n < 0 {
		sign, n = "-", -n
	}
	if n > 1e12 {
		return sign + decimals(n/minutesPerDay, 0) + " days"
	}
	var parts []string
	days, hours, min := int64(n)/minutesPerDay, int64(n)/60%24, int64(n)%60
	switch {
	case days == 1:
		parts = append(parts, "1 day")
	case days > 1:
		parts = append(parts, decimals(float64(days), 0)+" days")
	}
	if hours > 0 {
		parts = append(parts, decimals(float64(hours), 0)+" h")
	}
	if min > 0 || len(parts) == 0 {
		parts = append(parts, decimals(float64(min), 0)+" min")
	}
	return sign + strings.Join(parts, " ")
}
