package ribfile

import "fmt"

// Batch is [batch]: the maker's figures for how long the adhesive may be worked, and the builder's pace. Times are minutes.
type Batch struct {
	Temperature float64 // of the shop, °C
	Pace        float64 // that one side of a rib takes: laid in, spread, closed, clamped

	// The maker's; 0: not given.
	PotLife      float64 // of PotLifeMassG at PotLifeAt
	PotLifeAt    float64 // °C; the open and the closed time are the maker's at it, too
	PotLifeMassG float64
	OpenTime     float64 // from spreading to closing a joint
	ClosedTime   float64 // from closing to clamping it
	CureLeast    float64 // the lowest temperature at which it cures, °C
	HasCureLeast bool

	RateDoubles float64 // °C more at which it reacts twice as fast
	MassPower   float64 // pot life falls with this power of the mass, above PotLifeMassG
}

// Defaults of batches. They are no maker's: what only the maker knows has none.
const (
	defaultEndGrain    = 1.0
	defaultRateOf      = "glue-line"
	defaultTemperature = 20.0
	defaultPace        = 15.0 // half an hour for both sides of a rib: common practice, no source
	defaultRateDoubles = 10.0 // common practice, no source
	defaultMassPower   = 0.5  // common practice, no source: four times the mass, half the pot life
)

var film = limit{min: 0, above: true, max: 2}

func (r *reader) adhesive(t tab) {
	a := &r.doc.Adhesive
	a.RatioA, a.RatioB = r.ratio(t)
	a.By = t.choice("by", defaultAdhesiveBy, "weight", "volume")
	if a.By == "volume" {
		t.missing("density_a", "density_a = 1.15")
		t.missing("density_b", "density_b = 1.0")
	}
	const unit = "g/cm³"
	a.DensityA = t.number("density_a", 0, 0.5, 3, false, unit)
	a.DensityB = t.number("density_b", 0, 0.5, 3, false, unit)
	a.Density = t.number("density", defaultDensity, 0.5, 3, false, unit)
	a.GlueLine, _ = t.length("glue_line", defaultGlueLine, film)
	r.amount(t)
	a.EndGrain = t.number("end_grain", defaultEndGrain, 0, 10, false, "times its area")
	a.Coat = t.choice("coat", defaultCoat, "both", "one")
	a.CupLoss = t.number("cup_loss", defaultCupLoss, 0, 5, false, "")
}

// amount reads what says how much is put on: the film, a rate, or the squeeze-out.
func (r *reader) amount(t tab) {
	a := &r.doc.Adhesive
	a.Amount = BySpread
	a.Spread, _ = t.length("spread", defaultSpread, film)
	a.Rate, _ = t.rate("rate", 0, limit{min: 0, above: true, max: 2000})
	a.RateOf = t.choice("rate_of", defaultRateOf, "glue-line", "surface")
	a.SqueezeOut = t.number("squeeze_out", 0, 0, 20, false, "")
	given := ""
	for _, key := range []string{BySpread, ByRate, BySqueezeOut} {
		if !t.has(key) {
			continue
		}
		if given != "" {
			v := t.v.fields[key]
			r.tell(CodeAdhesiveAmount, v.key, v.at, fmt.Sprintf("[adhesive] says twice how much is put on: by %s and by %s.", given, key),
				"Give one of spread (the wet film), rate (by weight) and squeeze_out (more than stays in the joint).")
			return
		}
		given, a.Amount = key, key
	}
}

func (r *reader) batch(t tab) {
	b := &r.doc.Batch
	room := limit{min: -20, max: 60}
	b.Temperature, _ = t.temperature("temperature", defaultTemperature, room)
	minutes := limit{min: 1, max: 7 * 24 * 60}
	b.Pace, _ = t.duration("pace", defaultPace, minutes)
	b.PotLife, _ = t.duration("pot_life", 0, minutes)
	b.PotLifeAt, _ = t.temperature("pot_life_at", 0, room)
	b.PotLifeMassG, _ = t.mass("pot_life_mass", 0, limit{min: 1, max: 20000})
	b.OpenTime, _ = t.duration("open_time", 0, minutes)
	b.ClosedTime, _ = t.duration("closed_time", 0, minutes)
	b.CureLeast, _ = t.temperature("cure_least", 0, room)
	b.HasCureLeast = t.get("cure_least") != nil
	b.RateDoubles = t.number("rate_doubles", defaultRateDoubles, 3, 50, false, unitTemperature)
	b.MassPower = t.number("mass_power", defaultMassPower, 0, 2, false, "")
	if t.has("pot_life") || t.has("pot_life_mass") {
		t.missing("pot_life", `pot_life = "40 min"`)
		t.missing("pot_life_mass", `pot_life_mass = "100 g"`)
	}
	if t.has("pot_life") || t.has("pot_life_mass") || t.has("open_time") || t.has("closed_time") {
		t.missing("pot_life_at", `pot_life_at = "25 °C"`)
	}
}

// ratio reads part A to part B.
func (r *reader) ratio(t tab) (a, b float64) {
	v := t.get("ratio")
	if v == nil {
		return 1, 1
	}
	if v.kind == listKind && len(v.items) == 2 {
		a, okA := portion(v.items[0])
		b, okB := portion(v.items[1])
		if okA && okB {
			return a, b
		}
	}
	r.tell(CodeRatioUnreadable, v.key, v.at, say(v.key)+" is not two numbers above zero.", "Write part A and part B, as in ratio = [100, 43].")
	return 1, 1
}

// portion reads one side of the ratio; a thousandfold excess is taken for a slip.
func portion(v *value) (float64, bool) {
	n := v.float()
	return n, (v.kind == wholeKind || v.kind == decimalKind) && n > 0 && n <= 1000
}
