package shop_test

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"ribwright/export/pdf"
	"ribwright/export/shop"
	"ribwright/geom"
	"ribwright/geom/outside"
	"ribwright/geom/takeoff"
)

// TestCoupon draws the sample joint full size on one page of any usual paper, with its words to be read.
func TestCoupon(t *testing.T) {
	for file, want := range map[string]string{"marsh-wren": "It should carry 1200 N (123 kg)", "starter": "It should carry 286 lbf"} {
		r, doc := layOut(t, "cmd/ribwright/demo/"+file+".toml")
		take := takeoff.Of(r, doc)
		for _, p := range []shop.Page{{W: 210, H: 297, Margin: 10}, {W: 215.9, H: 279.4, Margin: 6}} {
			d := shop.CouponPages(r, doc, take, p)
			if len(d.Sheets) != 1 || math.Max(d.Sheets[0].W, d.Sheets[0].H) > math.Max(p.W, p.H) {
				t.Errorf("%s on %v: %d sheets, %g × %g", file, p, len(d.Sheets), d.Sheets[0].W, d.Sheets[0].H)
			}
			page := geom.NewBox(geom.Pt{}, geom.Pt{X: d.Sheets[0].W, Y: d.Sheets[0].H})
			for _, it := range d.Sheets[0].Parts[0].Items {
				if b := it.Path.Box(); it.Text == nil && b.Union(page) != page {
					t.Errorf("%s on %v: %s %s lies off the page", file, p, it.Layer, it.ID)
				}
				if it.ID == "strip-1" && math.Abs(it.Path.Box().W()-88.9) > 1e-9 {
					t.Errorf("%s: the strip is %g mm long", file, it.Path.Box().W())
				}
			}
		}
		var b bytes.Buffer
		if err := pdf.Write(&b, shop.CouponPages(r, doc, take, shop.Page{W: 210, H: 297, Margin: 10})); err != nil {
			t.Fatal(err)
		}
		text := outside.Run(t, outside.Need(t, "pdftotext"), "-layout", outside.File(t, "c.pdf", b.Bytes()), "-")
		for _, w := range []string{want, "It must fail in the wood", "lap "} {
			if !strings.Contains(text, w) {
				t.Errorf("%s: the page does not say %q:\n%s", file, w, text)
			}
		}
	}
}
