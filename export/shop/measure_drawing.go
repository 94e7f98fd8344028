package shop

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"ribwright/airfoils"
	"ribwright/export"
	"ribwright/geom"
)

// Sizes of the picture of deviations, mm.
const (
	pictureWide = 370.0 // the contour at most
	barTypical  = 12.0  // what nine deviations of ten stay within
	barMost     = 20.0  // a longer one is cut off, with an arrow
	barTick     = 0.9   // half a mark of the tolerance
)

const (
	layerDeviation = "deviation"
	layerOver      = "over-tolerance"
	layerTrend     = "trend"
)

// picture draws one panel at a time, each with its contour at its own origin.
type picture struct {
	*canvas
	m      Measured
	scale  float64 // of the contour
	factor float64 // of the panel's deviations, against their true size
	upper  []geom.Pt
	lower  []geom.Pt
}

// Drawing returns a picture of the contour, reduced to an A3 page's width, with the deviations drawn enlarged:
// as they were measured, and after the best fit where there is one. The sides are mm, nose to tail.
func (m Measured) Drawing(upper, lower []geom.Pt) export.Drawing {
	thin, thick := export.Pen{Width: narrow}, export.Pen{Width: wide}
	d := export.Drawing{Title: m.Title, Layers: []export.Layer{
		{ID: layerTrend, Pen: export.Pen{Width: narrow, Gray: 0.5}}, {ID: layerDeviation, Pen: thin}, {ID: layerName, Pen: thin},
		{ID: layerContour, Pen: thick}, {ID: layerOver, Pen: thick},
	}}
	p := &picture{canvas: &canvas{}, m: m, scale: reduction(m.Chord)}
	shrink := geom.Zoom(p.scale, p.scale)
	p.upper, p.lower = shrink.Pts(upper), shrink.Pts(lower)
	p.heading()
	p.panel("As measured, nothing fitted", func(d airfoils.Deviation) float64 { return d.Raw })
	if m.Fit.OK {
		p.panel("After the best fit", func(d airfoils.Deviation) float64 { return d.Fitted })
	}
	p.words()
	return onSheet(d, p.canvas, "deviations")
}

// reduction returns the contour's scale: one of those of ISO 5455, or full size for a small piece.
func reduction(chord float64) float64 {
	for _, n := range []float64{1, 2, 5, 10, 20} {
		if chord/n <= pictureWide {
			return 1 / n
		}
	}
	return pictureWide / chord
}

// factor returns how much deviations are enlarged, such that most of them can be read.
func (m Measured) factor(of func(airfoils.Deviation) float64) float64 {
	var all []float64
	for _, d := range m.Deviations {
		all = append(all, math.Abs(of(d)))
	}
	slices.Sort(all)
	typical := math.Max(m.Tolerance, all[len(all)*9/10])
	best := 1.0
	for _, f := range []float64{2, 5, 10, 20, 50, 100} {
		if float64(f*typical) <= barTypical {
			best = f
		}
	}
	return best
}

// heading says what the picture is and at which scales.
func (p *picture) heading() {
	p.write(layerName, cmp.Or(p.m.Title, "rib"), geom.Pt{Y: 2 * large}, large, export.Left, true)
	s := fmt.Sprintf("Contour drawn 1 : %s, deviations enlarged, square to it. Short marks: the tolerance, ± %s. Numbers: what is over it. Not to be measured from.",
		decimal(1/p.scale, 0), p.m.Units.Length(p.m.Tolerance))
	at := geom.Pt{Y: medium}
	for _, l := range wrap(s, medium, pictureWide, false) {
		p.write(layerName, l, at, medium, export.Left, false)
		at.Y -= 6
	}
}

// panel draws the contour with one set of deviations below what is drawn already.
func (p *picture) panel(name string, of func(airfoils.Deviation) float64) {
	own := &picture{canvas: &canvas{ids: p.ids}, m: p.m, scale: p.scale, factor: p.m.factor(of), upper: p.upper, lower: p.lower}
	own.outline()
	own.bars(of)
	b := bounds(own.items)
	name += fmt.Sprintf(": deviations drawn %s : 1, %s times as large as the contour", decimal(own.factor, 0), decimal(own.factor/p.scale, 0))
	own.write(layerName, name, geom.Pt{Y: b.Max.Y + 4}, medium, export.Left, true)
	below := bounds(p.items).Min.Y - 6 - (b.Max.Y + 4 + medium)
	p.items = append(p.items, moved(own.items, geom.Pt{Y: below})...)
	p.ids = own.ids
}

func (p *picture) outline() {
	line := slices.Clone(p.upper)
	slices.Reverse(line)
	line = append(line, p.lower[1:]...)
	p.part(layerContour, "outline", geom.Polyline(line...))
}

// bar is a deviation on the picture.
type bar struct {
	d       airfoils.Deviation
	foot    geom.Pt
	end     geom.Pt
	mm      float64
	cut     bool
	outward geom.Pt
}

// bars draws the deviations of every side, the line that joins their ends, and the numbers of those over
// the tolerance, the largest first while there is room.
func (p *picture) bars(of func(airfoils.Deviation) float64) {
	var all []bar
	for _, d := range p.m.Deviations {
		b := bar{d: d, foot: d.At.Mul(p.scale), mm: of(d), outward: d.Outward}
		long := float64(p.factor * b.mm)
		if math.Abs(long) > barMost {
			long, b.cut = math.Copysign(barMost, long), true
		}
		b.end = b.foot.Along(b.outward, long)
		all = append(all, b)
		p.bar(b)
	}
	for _, s := range []airfoils.Surface{airfoils.OfUpper, airfoils.OfLower, airfoils.OfDepth} {
		p.trend(all, s)
	}
	slices.SortStableFunc(all, func(a, b bar) int { return cmp.Compare(math.Abs(b.mm), math.Abs(a.mm)) })
	var taken []geom.Box
	for _, b := range all {
		if !p.m.over(b.mm) {
			break
		}
		t := export.Text{S: signed(b.mm, p.m.Units), Height: small, Anchor: export.Middle}
		away := b.outward
		if b.mm < 0 {
			away = away.Mul(-1)
		}
		t.At = b.end.Along(away, 2.6+float64(math.Abs(away.X)*t.Width()/2))
		corners := t.Corners()
		box := geom.NewBox(corners[:]...).Grow(0.4)
		if !slices.ContainsFunc(taken, box.Meets) {
			taken = append(taken, box)
			p.text(layerName, t)
		}
	}
}

// bar draws one deviation: a line square to the contour with marks at the tolerance, and a dot or an arrow at its end.
func (p *picture) bar(b bar) {
	layer := layerDeviation
	if p.m.over(b.mm) {
		layer = layerOver
	}
	along := b.outward.Left()
	for _, side := range []float64{1, -1} {
		at := b.foot.Along(b.outward, float64(side*p.factor*p.m.Tolerance))
		p.line(layerDeviation, at.Along(along, -barTick), at.Along(along, barTick))
	}
	p.line(layer, b.foot, b.end)
	if !b.cut {
		p.fill(layer, geom.Circle(b.end, 0.6))
		return
	}
	back := b.foot.Sub(b.end).Unit()
	root := b.end.Along(back, 2.5)
	p.fill(layer, geom.Ring{b.end, root.Along(back.Left(), 0.9), root.Along(back.Left(), -0.9)}.Path())
}

// trend joins the ends of one side's deviations, nose to tail; odd ones are passed over.
func (p *picture) trend(all []bar, of airfoils.Surface) {
	var ends []bar
	for _, b := range all {
		if b.d.Of == of && !b.d.Odd {
			ends = append(ends, b)
		}
	}
	slices.SortStableFunc(ends, func(a, b bar) int { return cmp.Compare(a.d.Station, b.d.Station) })
	for i := 1; i < len(ends); i++ {
		p.line(layerTrend, ends[i-1].end, ends[i].end)
	}
}

// words letters what the measurements tell.
func (p *picture) words() {
	at := geom.Pt{Y: bounds(p.items).Min.Y - 10}
	for _, s := range p.m.Words() {
		for _, l := range wrap(s, medium, pictureWide, false) {
			p.write(layerName, l, at, medium, export.Left, false)
			at.Y -= 6
		}
	}
}
