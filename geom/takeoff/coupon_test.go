package takeoff

import (
	"math"
	"strings"
	"testing"

	"ribwright/geom/ribfile"
)

func couponDoc(t *testing.T, coupon string) *ribfile.Doc {
	t.Helper()
	doc, found := ribfile.Read("rib.toml", []byte("units = \"in\"\nsection = { naca = \"2412\" }\nrib = { chord = 55 }\n[coupon]\n"+coupon))
	if len(found) > 0 {
		t.Fatal(found)
	}
	return doc
}

// TestCoupon holds the sample joint against the arithmetic of AC 43.13-1B's units: half an inch square is 161.29 mm²,
// and Sitka spruce shears at 7.9 MPa, 1,150 psi (Wood Handbook, FPL-GTR-190, Table 5-3, from memory).
func TestCoupon(t *testing.T) {
	for _, c := range []struct {
		text                   string
		area, load, length, mg float64
		wood                   bool
	}{
		{"", 161.29, 1274.191, 165.1, 113.0687, true},
		{"stress = \"990 psi\"", 161.29, 990 * 0.25 * 4.448222, 165.1, 113.0687, false}, // ANC-18 (1951), Table 2-6: spruce in shear
		{"stress = 800\noverlap = \"3/8\"\nwidth = 1", 241.935, 800 * 0.375 * 4.448222, 168.275, 169.6030, false},
	} {
		k := CouponOf(couponDoc(t, c.text))
		// 0.010 in on both faces, 1.15 g/cm³, a fifth stays in the cup
		for _, p := range [][2]float64{{k.AreaMM2, c.area}, {k.LoadN, c.load}, {k.Length, c.length}, {1000 * k.Adhesive.MixedG, c.mg}} {
			if math.Abs(p[0]-p[1]) > 1e-4*p[1] {
				t.Errorf("%q: got %g, want %g", c.text, p[0], p[1])
			}
		}
		if k.FromWood != c.wood || k.WoodFailure != 0.75 || k.Depth != 6.35 {
			t.Errorf("%q: %+v", c.text, k)
		}
	}
}

// TestFindCoupon holds when strips break before their joint: at the limit that the finding itself gives, no more.
func TestFindCoupon(t *testing.T) {
	if fs := FindCoupon(couponDoc(t, "")); len(fs) > 0 {
		t.Error(fs)
	}
	fs := FindCoupon(couponDoc(t, "overlap = 1"))
	if len(fs) != 1 || fs[0].Code != CodeCouponStrips || !strings.Contains(fs[0].Message, "573 lbf") {
		t.Fatal(fs)
	}
	doc := couponDoc(t, "overlap = 1")
	doc.Coupon.Overlap = fs[0].Limit
	if fs := FindCoupon(doc); len(fs) > 0 {
		t.Error(fs)
	}
}
