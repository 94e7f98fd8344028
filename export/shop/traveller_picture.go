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
	high, pitch, tiers := w.fitNames(names)
	var xs []float64
	for _, p := range at {
		xs = append(xs, p.X)
	}
	xs = spread(xs, pitch)
	for i, name := range names {
		least := float64((float64(i) + 0.5) * pitch) // none beyond the sheet's edges
		most := w.wide - float64((float64(len(names)-1-i)+0.5)*pitch)
		x := math.Max(least, math.Min(most, xs[i]))
		stub := edge + float64(up*leaderStub)
		turn := stub + float64(up*leaderSlant)
		end := geom.Pt{X: x, Y: turn + float64(up*(high+1.5)*float64(i%tiers))}
		c.path(layerMark, geom.Polyline(at[i], geom.Pt{X: at[i].X, Y: stub}, geom.Pt{X: x, Y: turn}, end))
		c.dot(layerMark, at[i])
		base := end.Add(geom.Pt{Y: 0.8})
		if up < 0 {
			base = end.Add(geom.Pt{Y: -0.8 - high})
		}
		c.write(layerName, name, base, high, export.Center, true)
	}
}

// fitNames returns the height of the names' lettering, from name to name along the row, and in how many rows they stand: in two,
// the leaders of the outer row run between the names of the inner one.
func (w *travellerSheet) fitNames(names []string) (high, pitch float64, tiers int) {
	for tiers = 1; ; tiers++ {
		for _, high = range []float64{medium, small} {
			pitch = 0
			for _, s := range names {
				pitch = math.Max(pitch, textWidth(s, high, true)+namesApart)
			}
			pitch /= float64(tiers)
			if tiers == 2 && high == small || pitch*float64(len(names)) <= w.wide {
				return high, pitch, tiers
			}
		}
	}
}
