package ribfile

// The units of findings about measures, beside "mm".
const (
	unitMass        = "g"
	unitTemperature = "°C"
	unitDuration    = "min"
	unitRate        = "g/m²"
)

// mass reads grams. ok is false where a finding was given.
func (t tab) mass(key string, def float64, lim limit) (g float64, ok bool) {
	return t.measure(key, def, lim, &masses, unitMass, t.r.doc.Units.Grams, t.r.doc.Units.Mass)
}

// temperature reads degrees Celsius.
func (t tab) temperature(key string, def float64, lim limit) (celsius float64, ok bool) {
	return t.measure(key, def, lim, &temperatures, unitTemperature, t.r.doc.Units.Celsius, t.r.doc.Units.Temperature)
}

// duration reads minutes; a bare number is minutes in every file.
func (t tab) duration(key string, def float64, lim limit) (minutes float64, ok bool) {
	return t.measure(key, def, lim, &durations, unitDuration, nil, Duration)
}

// rate reads g/m².
func (t tab) rate(key string, def float64, lim limit) (gm2 float64, ok bool) {
	return t.measure(key, def, lim, &rates, unitRate, t.r.doc.Units.GM2, t.r.doc.Units.Rate)
}

// measure reads a number or text. inUnits turns a bare number of the file's units into the unit kept here; nil: it
// is in that unit already.
func (t tab) measure(key string, def float64, lim limit, m *measure, unit string, inUnits func(float64) float64, written func(float64) string) (x float64, ok bool) {
	v := t.get(key)
	if v == nil {
		return def, !t.has(key)
	}
	bare := true
	switch v.kind {
	case wholeKind, decimalKind:
		if x, ok = t.bare(v); !ok {
			return def, false
		}
	case textKind:
		n, hasUnit, err := m.parse(v.raw)
		if err != nil {
			q := err.(*QuantityError)
			t.r.tell(CodeMeasureUnreadable, v.key, v.at, say(v.key)+": "+q.Message, q.Fix)
			return def, false
		}
		x, bare = n, !hasUnit
	default:
		t.wrongType(v, m.noun, key+" = "+quote(written(max(def, lim.min))))
		return def, false
	}
	if bare && inUnits != nil {
		t.r.noteBare(v, x != 0 || m == &temperatures)
		x = inUnits(x)
	}
	if !t.withinAs(v, x, lim, written, unit) {
		return def, false
	}
	return x, true
}
