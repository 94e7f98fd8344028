package ribfile

// Coupon is [coupon]: the sample joint that is glued from each batch and broken. Two strips of scrap lie on each
// other over a length, and are pulled apart along the grain.
type Coupon struct {
	Overlap     float64 // along the grain
	Width       float64 // across it, of strips and joint
	Strip       float64 // length of each strip
	StressMPa   float64 // that the joint should carry, over its area; 0: the wood's own shear strength
	WoodFailure float64 // the least share of the broken face that must be wood
}

const (
	defaultLap         = MMPerInch / 2     // common practice, no source
	defaultStrip       = 7 * MMPerInch / 2 // common practice, no source
	defaultWoodFailure = 0.75              // FAA AC 43.13-1B, 1-29h, from memory; the maker's figure counts
)

func (r *reader) coupon(t tab) {
	c := &r.doc.Coupon
	c.Overlap, _ = t.length("overlap", defaultLap, limit{min: 3, max: 100})
	c.Width, _ = t.length("width", r.doc.Cap.Width, limit{min: 3, max: 200})
	c.Strip, _ = t.length("strip", max(defaultStrip, 2*c.Overlap), limit{min: 2 * c.Overlap, max: 600})
	c.StressMPa, _ = t.stress("stress", 0, limit{max: 50, above: true})
	c.WoodFailure = t.number("wood_failure", defaultWoodFailure, 0, 1, true, "")
}
