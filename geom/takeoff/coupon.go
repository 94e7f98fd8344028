package takeoff

import (
	"fmt"

	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// Coupon is the sample joint that is glued from each batch and broken when it has cured: two strips of the cap's
// stock, lapped, pulled apart along the grain. It must fail in the wood.
type Coupon struct {
	Overlap, Width, Strip, Depth float64 // Depth: of each strip, the cap's
	Length                       float64 // of both strips, lapped
	AreaMM2                      float64
	StressMPa                    float64 // over the area
	FromWood                     bool    // StressMPa is the wood's shear strength, not the builder's figure
	LoadN                        float64 // that it should carry
	WoodFailure                  float64 // the least share of the broken face that must be wood
	Adhesive                     Adhesive
}

// CouponOf returns the coupon of a rib file. All ribs of a wing have one, of the file's own cap: their sides are glued from
// the same batches.
func CouponOf(doc *ribfile.Doc) Coupon {
	doc = doc.Whole()
	k := doc.Coupon
	c := Coupon{Overlap: k.Overlap, Width: k.Width, Strip: k.Strip, Depth: doc.Cap.Depth, Length: 2*k.Strip - k.Overlap,
		AreaMM2: k.Overlap * k.Width, StressMPa: k.StressMPa, WoodFailure: k.WoodFailure}
	if c.StressMPa == 0 {
		c.StressMPa, c.FromWood = strengths[doc.Cap.Material].shear, true
	}
	c.LoadN = c.AreaMM2 * c.StressMPa
	c.Adhesive = Spread(doc.Adhesive, c.AreaMM2, 0)
	return c
}

// strength is what a wood bears, MPa: shear along the grain, and bending until it breaks.
type strength struct{ shear, bending float64 }

// strengths holds shear parallel to the grain and modulus of rupture at 12 % moisture content: Wood Handbook,
// FPL-GTR-190, Table 5-3, from memory.
var strengths = map[string]strength{
	"sitka-spruce": {7.9, 70},
	"white-spruce": {6.7, 65},
	"douglas-fir":  {7.8, 85},
	"yellow-birch": {13.0, 114},
	"paper-birch":  {8.3, 85},
	"white-ash":    {13.2, 103},
}

// CodeCouponStrips tells of a coupon whose strips break before its joint.
const CodeCouponStrips = "coupon-strips"

// FindCoupon warns of a lap so long that the strips break beside it, which tells nothing of the joint. The pull on a
// strip of depth t is out of line by t/2, and bends it by the lap: the stress there is at most F/(w t) from the pull and
// 3 F/(w t) from the bending (Goland and Reissner 1944, with their factor k = 1; from memory).
func FindCoupon(doc *ribfile.Doc) []finding.Finding {
	c := CouponOf(doc)
	most := strengths[doc.Cap.Material].bending
	if got := 4 * c.LoadN / (c.Width * c.Depth); got <= most {
		return nil
	}
	lap := float64(most * c.Depth / (4 * c.StressMPa))
	return []finding.Finding{{Severity: finding.Warning, Code: CodeCouponStrips, Key: "coupon.overlap",
		Message: fmt.Sprintf("The sample joint's strips, %s deep, break beside a lap of %s before it carries %s.", doc.Length(c.Depth), doc.Length(c.Overlap), doc.Units.Force(c.LoadN)),
		Fix:     "Make the lap no longer than " + doc.Length(lap) + ", or glue the joint of deeper strips.",
		Got:     c.Overlap, Limit: lap, Unit: "mm"}}
}
