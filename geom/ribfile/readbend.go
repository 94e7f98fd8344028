package ribfile

// Bend is [bend]: how far a cap strip may be bent, as radius over depth, and the former it is bent on.
type Bend struct {
	Dry        float64 // at this many times the depth and above, a strip is bent dry
	Care       float64 // at this and above, dry with care
	Soak       float64 // at this and above, soaked; below: steamed or laminated
	SpringBack float64 // share by which the former's radius is smaller than the rib's
}

// Defaults of bending (common practice, no source; compare the elastic limits in the Wood Handbook).
const (
	defaultDry        = 125
	defaultCare       = 75
	defaultSoak       = 30
	defaultSpringBack = 0.1
)

func (r *reader) bend(t tab) {
	b := &r.doc.Bend
	b.Dry = t.number("dry", defaultDry, 5, 1000, false, "")
	b.Care = t.number("care", defaultCare, 5, 1000, false, "")
	b.Soak = t.number("soak", defaultSoak, 5, 1000, false, "")
	b.SpringBack = t.number("spring_back", defaultSpringBack, 0, 0.5, false, "")
}
