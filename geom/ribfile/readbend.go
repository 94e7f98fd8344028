package ribfile

import "fmt"

// Bend is [bend]: how far a cap strip may be bent, as radius over depth, and the former it is bent on.
// Radii are those of the strip's middle, half its depth inside the contour.
type Bend struct {
	Dry        float64 // at this many times the depth and above, a strip is bent dry
	Care       float64 // at this and above, dry with care
	Soak       float64 // at this and above, soaked; below: steamed or laminated
	SpringBack float64 // share of the curvature that a strip loses when it leaves the former
}

// Defaults of bending: common practice, no source. By the elastic limits: Sitka spruce reaches ANC-18's proportional
// limit in bending at 123 times its depth, and its modulus of rupture at 77 times (Wood Handbook, from memory).
// Spring-back differs from strip to strip: bend a trial piece.
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
	for _, pair := range []struct {
		easy, hard   string
		upper, lower float64
	}{{"dry", "care", b.Dry, b.Care}, {"care", "soak", b.Care, b.Soak}} {
		v := t.get(pair.hard)
		if v == nil {
			v = t.get(pair.easy)
		}
		if v == nil || pair.upper >= pair.lower {
			continue
		}
		f := r.tell(CodeBendOrder, v.key, v.at, fmt.Sprintf("The strip's limit %s is %s times its depth, and that of %s, the easier way, is %s.",
			pair.hard, decimals(pair.lower, 3), pair.easy, decimals(pair.upper, 3)), "The wider the bend, the easier: let dry be the greatest, then care, then soak.")
		f.Got, f.Limit, f.Unit = pair.lower, pair.upper, "1"
	}
}
