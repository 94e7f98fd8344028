package shop

import (
	"fmt"
	"math"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// Coupon returns the sample joint of each batch, full size on one sheet: from the side and from above, with what it
// should carry and where it must fail.
func Coupon(r *rib.Rib, doc *ribfile.Doc, t takeoff.TakeOff) export.Drawing {
	return couponTemplate(doc, t.Coupon).sheet()
}

// CouponPages returns it on a page of a paper.
func CouponPages(r *rib.Rib, doc *ribfile.Doc, t takeoff.TakeOff, p Page) export.Drawing {
	return couponTemplate(doc, t.Coupon).pages(p)
}

func couponTemplate(doc *ribfile.Doc, k takeoff.Coupon) template {
	doc = doc.Whole()
	return template{name: "Sample joint, one from each batch", doc: doc,
		words: templateCautions("Glue it of scrap of the cap's stock from the same cup as the ribs, at the same spread, pressure and temperature. Plane what is glued; never sand it.",
			"Break it when it has cured as long as the adhesive's maker says. Guard your eyes, and stand clear of the weights: it lets go at once.",
			"A lap is not stressed evenly, so a sound joint, too, may break somewhat below the load: the wood on the broken face decides.",
			"If it fails in the adhesive, build nothing more of that batch in, and ask what becomes of the ribs glued from it."),
		blocks: func(most float64) []block { return []block{drawCoupon(doc, k, most)} }}
}

// couponWords says what the sample joint is, a sentence a line.
func couponWords(doc *ribfile.Doc, k takeoff.Coupon) []string {
	stress := doc.Units.Stress(k.StressMPa)
	if k.FromWood {
		stress += ", the shear strength of " + doc.Cap.Material + " along the grain"
	}
	return []string{
		fmt.Sprintf("Glued area %s × %s = %s.", doc.Number(k.Overlap), doc.Length(k.Width), doc.Area(k.AreaMM2)),
		fmt.Sprintf("It should carry %s: %s, over that area.", doc.Units.Force(k.LoadN), stress),
		fmt.Sprintf("It must fail in the wood: torn wood on at least %s %% of the broken face. Bare adhesive is a joint that failed.", decimal(100*k.WoodFailure, 0)),
	}
}

// Sizes of the sample joint's drawing, mm.
const (
	pullLong  = 8.0  // of the arrows
	viewsGap  = 22.0 // between the views
	couponTag = 7.0  // from a view to a dimension's line
	hatchStep = 2.0
)

// drawCoupon draws the joint from the side and, below, from above, with the words about it underneath.
func drawCoupon(doc *ribfile.Doc, k takeoff.Coupon, most float64) block {
	c := &canvas{}
	from, to, long := k.Strip-k.Overlap, k.Strip, k.Length // of the lap, and the whole
	c.part(layerStick, "strip-1", geom.Rect(geom.NewBox(geom.Pt{}, geom.Pt{X: to, Y: k.Depth})))
	c.part(layerStick, "strip-2", geom.Rect(geom.NewBox(geom.Pt{X: from, Y: k.Depth}, geom.Pt{X: long, Y: 2 * k.Depth})))
	c.pull(geom.Pt{Y: k.Depth / 2}, -pullLong)
	c.pull(geom.Pt{X: long, Y: 1.5 * k.Depth}, pullLong)
	c.spanned(from, to, 0, -couponTag, "lap "+doc.Length(k.Overlap))
	c.spanned(from, long, 2*k.Depth, float64(2*k.Depth)+couponTag, "strip "+doc.Length(k.Strip)+" long, "+doc.Length(k.Depth)+" deep, the grain along it")
	c.write(layerName, "glue line", geom.Pt{X: to + 2, Y: k.Depth - small - 1.5}, small, export.Left, false)
	c.write(layerName, "from the side", geom.Pt{Y: k.Depth + 2}, small, export.Left, false)

	top := -viewsGap
	c.part(layerStick, "above-1", geom.Polyline(geom.Pt{X: from, Y: top - k.Width}, geom.Pt{Y: top - k.Width}, geom.Pt{Y: top}, geom.Pt{X: from, Y: top}))
	c.part(layerStick, "above-2", geom.Rect(geom.NewBox(geom.Pt{X: from, Y: top - k.Width}, geom.Pt{X: long, Y: top})))
	c.line(layerCap, geom.Pt{X: to, Y: top}, geom.Pt{X: to, Y: top - k.Width})
	c.hatch(geom.NewBox(geom.Pt{X: from, Y: top - k.Width}, geom.Pt{X: to, Y: top}))
	c.write(layerName, "from above, "+doc.Length(k.Width)+" wide", geom.Pt{Y: top + 2}, small, export.Left, false)
	c.write(layerName, "glued", geom.Pt{X: to + 2, Y: top - float64(k.Width/2) - small/2}, small, export.Left, false)

	y := top - k.Width - 10
	for i, s := range couponWords(doc, k) {
		for _, l := range wrap(s, medium, math.Max(footWords, math.Min(most, math.Max(long, 150))), i != 0) {
			c.write(layerName, l, geom.Pt{X: -pullLong, Y: y}, medium, export.Left, i != 0)
			y -= 6
		}
	}
	return newBlock(c)
}

// pull draws an arrow that pulls at a point along x.
func (c *canvas) pull(at geom.Pt, by float64) {
	tip := at.Add(geom.Pt{X: by})
	back := geom.Pt{X: -math.Copysign(2.5, by)}
	c.line(layerStation, at, tip)
	c.fill(layerStation, geom.Ring{tip, tip.Add(back).Add(geom.Pt{Y: 0.9}), tip.Add(back).Add(geom.Pt{Y: -0.9})}.Path())
}

// spanned draws a dimension along x, at the height given, with its words: between its ends where there is room, else behind.
func (c *canvas) spanned(a, b, foot, y float64, words string) {
	over := math.Copysign(1.5, y-foot)
	for _, x := range []float64{a, b} {
		c.line(layerStation, geom.Pt{X: x, Y: foot + float64(over/2)}, geom.Pt{X: x, Y: y + over})
		c.line(layerStation, geom.Pt{X: x - 0.9, Y: y - 0.9}, geom.Pt{X: x + 0.9, Y: y + 0.9})
	}
	c.line(layerStation, geom.Pt{X: a, Y: y}, geom.Pt{X: b, Y: y})
	if textWidth(words, small, false) < b-a-2 {
		c.write(layerName, words, geom.Pt{X: (a + b) / 2, Y: y + 1}, small, export.Center, false)
		return
	}
	c.write(layerName, words, geom.Pt{X: b + 2.5, Y: y - small/2}, small, export.Left, false)
}

// hatch fills a box with slanting lines.
func (c *canvas) hatch(b geom.Box) {
	for s := b.Min.X - b.Max.Y + hatchStep; s < b.Max.X-b.Min.Y; s += hatchStep { // lines x − y = s
		lo, hi := math.Max(b.Min.X, s+b.Min.Y), math.Min(b.Max.X, s+b.Max.Y)
		if hi-lo > 0.2 {
			c.line(layerMark, geom.Pt{X: lo, Y: lo - s}, geom.Pt{X: hi, Y: hi - s})
		}
	}
}

// coupons is the sample joint of each batch.
func (w lister) coupons() export.Table {
	k, u := w.t.Coupon, w.doc.Units
	force := number("load_n", "should carry", "")
	load := export.Num(k.LoadN, u.Force(k.LoadN))
	stress := export.Num(k.StressMPa, u.Stress(k.StressMPa))
	t := export.Table{ID: "coupons", Title: "Sample joint of each batch",
		Columns: []export.Column{text("for", "for"), w.lengthColumn("overlap", "lap"), w.lengthColumn("width", "width"), w.lengthColumn("strip", "two strips of"), w.lengthColumn("depth", "depth"),
			w.areaColumn("area", "glued area"), number("stress_mpa", "chosen stress", ""), force, number("wood_failure_percent", "wood on the broken face, at least", "%"), w.massColumn("mixed", "mix for it")},
		Rows: [][]export.Cell{{export.Str("each batch"), w.length(k.Overlap), w.length(k.Width), w.length(k.Strip), w.length(k.Depth), w.area(k.AreaMM2), stress, load,
			percent(k.WoodFailure, 0), w.mass1(k.Adhesive.MixedG)}}}
	t.Notes = append(couponWords(w.doc, k)[1:], "The sheet coupon has it full size. What is mixed for it is counted with the batches, and in no other sum of the adhesive.")
	t.Notes = append(t.Notes, glueCautions[0])
	return t
}
