package ribfile

// Scale is [scale]: what the adhesive is weighed on, and the cups it is mixed in.
type Scale struct {
	Step           float64 // of the scale's readings, g
	StepGiven      bool    // by the file: what scale there is, is known
	Shows          Units   // whether it shows ounces, Inch, or grams, MM
	RatioTolerance float64 // how far the ratio of a batch may be off, as a share of the ratio
	CupLeast       float64 // the least mixed in a cup, g; 0: not given
	CupMost        float64 // the most mixed in a cup, g; 0: not given
}

const (
	defaultStepMM         = 0.1  // g, where units is "mm"
	defaultStepInch       = 0.01 // oz, where units is "in"
	defaultRatioTolerance = 0.02 // common practice, no source; the maker's figure counts
	mostCup               = 5000 // g
)

func (r *reader) scale(t tab) {
	s := &r.doc.Scale
	step := defaultStepMM
	if r.doc.Units == Inch {
		step = Inch.Grams(defaultStepInch)
	}
	s.Step, _ = t.mass("step", step, limit{min: 0.001, max: 100})
	s.Shows, s.StepGiven = r.doc.Units, t.has("step")
	if v := t.get("step"); v != nil && v.kind == textKind {
		s.Shows = MassIn(v.raw, r.doc.Units)
	}
	s.RatioTolerance = t.number("ratio_tolerance", defaultRatioTolerance, 0, 0.2, true, "")
	s.CupLeast, _ = t.mass("cup_least", 0, limit{max: mostCup})
	s.CupMost, _ = t.mass("cup_most", 0, limit{max: mostCup})
	if s.CupMost > 0 && s.CupLeast > s.CupMost {
		v := t.get("cup_most")
		f := r.tell(CodeScaleCups, v.key, v.at, "The most in a cup is "+r.doc.Units.Mass(s.CupMost)+", less than the least, "+r.doc.Units.Mass(s.CupLeast)+".",
			"Let cup_least be the smaller of the two.")
		f.Got, f.Limit, f.Unit = s.CupMost, s.CupLeast, unitMass
	}
}
