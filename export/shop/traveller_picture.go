package shop

import (
	"math"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/rib"
)

// Sizes of the traveller's picture, mm.
const (
	pictureHigh = 55.0 // the most that the rib takes
	leaderStub  = 1.5  // a leader rises so far above the rib,
	leaderSlant = 3.0  // and runs from there to its name
	namesApart  = 1.5
)

// picture draws the rib reduced to the sheet's width, with the name of every joint above or below it.
func (w *travellerSheet) picture() block {
	c := &canvas{}
	box := w.r.Contour.Outline.Box()
	scale := math.Min(w.wide/box.W(), pictureHigh/box.H())
	place := func(p geom.Pt) geom.Pt {
		return geom.Pt{X: float64((p.X-box.Min.X)*scale) + float64((w.wide-float64(box.W()*scale))/2), Y: float64((p.Y - box.Min.Y) * scale)}
	}
	path := func(layer string, ring geom.Ring) {
		var pts geom.Ring
		for _, p := range ring {
			pts = append(pts, place(p))
		}
		if len(pts) > 2 {
			c.path(layer, pts.Path())
		}
	}
	for _, s := range w.r.Spars {
		path(layerSpar, s.Opening)
	}
	for _, s := range w.r.Sticks {
		path(layerStick, s.Outline)
	}
	for _, k := range w.r.Blocks {
		path(layerBlock, k.Outline)
	}
	path(layerCap, w.r.Contour.Inner)
	for _, g := range w.r.Gussets {
		path(layerPlate, g.Outline.Flatten(geom.Flat/scale))
	}
	path(layerContour, w.r.Contour.Outline)
	high := float64(box.H() * scale)
	w.names(c, rib.Upper, high, place)
	w.names(c, rib.Lower, 0, place)
	b := bounds(c.items)
	return block{items: moved(c.items, geom.Pt{Y: bandGap - b.Min.Y}), h: b.H() + 2*bandGap}
}

// names letters the joints of a side in a row beyond an edge, in their order, each as near its joint as its neighbours leave
// it, and draws a leader from each joint to its name. In two rows where one does not hold them.
func (w *travellerSheet) names(c *canvas, side rib.Side, edge float64, place func(geom.Pt) geom.Pt) {
	var at []geom.Pt
	var names []string
	for _, j := range w.r.Joints {
		if j.Side == side {
			at, names = append(at, place(j.At)), append(names, j.ID)
		}
	}
	up := 1.0
	if side == rib.Lower {
		up = -1
	}
	high, tiers := w.fitNames(names)
	tier := high + 1.5
	rows := make([][]float64, tiers)
	for t := range rows {
		var want []float64
		widest := 0.0
		for i := t; i < len(names); i += tiers {
			want, widest = append(want, at[i].X), math.Max(widest, textWidth(names[i], high, true)+namesApart)
		}
		rows[t] = spread(want, widest)
		for k := range rows[t] { // and none beyond the sheet's edges
			before := float64(float64(k) * widest)
			most := w.wide - float64(float64(len(want)-1-k)*widest) - widest/2
			rows[t][k] = math.Max(before+widest/2, math.Min(most, rows[t][k]))
		}
	}
	for i, name := range names {
		x := rows[i%tiers][i/tiers]
		stub := edge + float64(up*leaderStub)
		reach := leaderSlant + float64(tier*float64(i%tiers))
		end := geom.Pt{X: x, Y: stub + float64(up*reach)}
		c.path(layerMark, geom.Polyline(at[i], geom.Pt{X: at[i].X, Y: stub}, end))
		c.dot(layerMark, at[i])
		base := end.Add(geom.Pt{Y: 0.8})
		if up < 0 {
			base = end.Add(geom.Pt{Y: -0.8 - high})
		}
		c.write(layerName, name, base, high, export.Center, true)
	}
}

// fitNames returns the height of the names' lettering, and in how many rows they stand.
func (w *travellerSheet) fitNames(names []string) (high float64, tiers int) {
	for tiers = 1; ; tiers++ {
		for _, high = range []float64{medium, small} {
			widest := 0.0
			for _, s := range names {
				widest = math.Max(widest, textWidth(s, high, true)+namesApart)
			}
			if widest*math.Ceil(float64(len(names))/float64(tiers)) <= w.wide {
				return high, tiers
			}
		}
	}
}
