package shop

import (
	"math"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/ribfile"
)

// Sizes of the band of ordinates below the rib, mm.
const (
	pitch    = 4.5 // between two columns of turned lettering
	kink     = 7   // height in which a tick's line runs over to its column
	tickLong = 3
	offLine  = 1.2 // between the contour and a tick
	cellPad  = 1.4 // above and below the lettering in its row
)

// tick is a station of the table with what stands under it.
type tick struct {
	x            float64
	low          float64 // where its line begins, below the contour
	upper, lower string
	column       float64 // x of its column
}

// stations draws the ticks at the table's stations, and keeps the way down to the band free.
//
// Where a table is finer than lettering can follow, stations are left out between the first and the last.
func (f *field) stations() {
	all := f.r.Contour.Stations
	room := math.Max(f.rib.W(), 200) * 1.1
	thin := float64(len(all))*pitch > room
	for i, x := range all {
		last := i == len(all)-1
		if n := len(f.ticks); thin && n > 0 {
			if x-f.ticks[n-1].x < pitch && !last {
				continue
			}
			if last && n > 1 && x-f.ticks[n-1].x < pitch {
				f.ticks = f.ticks[:n-1]
			}
		}
		f.ticks = append(f.ticks, f.tick(x))
	}
	xs := make([]float64, len(f.ticks))
	for i, t := range f.ticks {
		xs[i] = t.x
	}
	for i, x := range spread(xs, pitch) {
		f.ticks[i].column = x
	}
	for _, t := range f.ticks {
		if y, ok := ordinate(f.r.Contour.Upper, t.x); ok {
			f.thin(layerStation, geom.Pt{X: t.x, Y: y + offLine}, geom.Pt{X: t.x, Y: y + offLine + tickLong})
		}
		f.thin(layerStation, geom.Pt{X: t.x, Y: -tickLong / 2.0}, geom.Pt{X: t.x, Y: tickLong / 2.0})
		// The line goes on to the band, whose place is known when all names stand: it is drawn then.
		f.places.lines.addLine(geom.Pt{X: t.x, Y: t.low}, geom.Pt{X: t.x, Y: f.rib.Min.Y - 30}, false)
	}
}

func (f *field) tick(x float64) tick {
	t := tick{x: x, low: f.rib.Min.Y, upper: "–", lower: "–"}
	if y, ok := ordinate(f.r.Contour.Upper, x); ok {
		t.upper = f.doc.Decimal(y)
	}
	if y, ok := ordinate(f.r.Contour.Lower, x); ok {
		t.low, t.lower = y, f.doc.Decimal(y)
	}
	t.low = math.Min(t.low, -tickLong/2.0) - offLine // clear of the tick on the chord line
	return t
}

// ordinate returns the height of a side at a station. Where the nose hangs over, it is the aft crossing,
// as a builder measures it; at the leading edge itself it is that of the leading edge.
func ordinate(side []geom.Pt, x float64) (y float64, ok bool) {
	n := len(side)
	if n < 2 {
		return 0, false
	}
	if math.Abs(side[0].X-x) < geom.Flat {
		return side[0].Y, true
	}
	for i := len(side) - 1; i > 0; i-- {
		a, b := side[i-1], side[i]
		if (a.X-x)*(b.X-x) > 0 || a.X == b.X {
			continue
		}
		return a.Lerp(b, (x-a.X)/(b.X-a.X)).Y, true
	}
	// An open tail stands square to the mean line, so one side ends a little ahead of the last station.
	a, b := side[n-2], side[n-1]
	if x > b.X && x-b.X < 0.005*(b.X-side[0].X) && b.X > a.X {
		return a.Lerp(b, (x-a.X)/(b.X-a.X)).Y, true
	}
	return 0, false
}

// spread moves places apart to the pitch given, each as little as can be in the sum of squares: with the
// pitches taken off, places that stand in order, found by pooling neighbours that do not (isotonic
// regression by pooling adjacent violators).
func spread(xs []float64, pitch float64) []float64 {
	type pool struct {
		sum float64
		n   int
	}
	var pools []pool
	for i, x := range xs {
		pools = append(pools, pool{x - float64(float64(i)*pitch), 1})
		for k := len(pools) - 1; k > 0 && pools[k-1].sum/float64(pools[k-1].n) > pools[k].sum/float64(pools[k].n); k-- {
			pools[k-1].sum += pools[k].sum
			pools[k-1].n += pools[k].n
			pools = pools[:k]
		}
	}
	out := make([]float64, 0, len(xs))
	for _, p := range pools {
		for range p.n {
			out = append(out, p.sum/float64(p.n)+float64(float64(len(out))*pitch))
		}
	}
	return out
}

// ordinates draws the band below everything else: for each station a column of turned figures.
func (f *field) ordinates() {
	if len(f.ticks) == 0 {
		return
	}
	top := f.box().Min.Y - kink - 2
	rows := []struct {
		head string
		of   func(t tick) string
	}{
		{"station", func(t tick) string { return f.doc.Decimal(t.x) }},
		{"upper", func(t tick) string { return t.upper }},
		{"lower", func(t tick) string { return t.lower }},
	}
	left, right := f.ticks[0].column-pitch/2, f.ticks[len(f.ticks)-1].column+pitch/2
	for _, t := range f.ticks {
		f.fine = append(f.fine, fineLine{layerStation, geom.Pt{X: t.x, Y: t.low}, geom.Pt{X: t.x, Y: top + kink}})
		p := geom.Polyline(geom.Pt{X: t.x, Y: top + kink}, geom.Pt{X: t.column, Y: top + 1}, geom.Pt{X: t.column, Y: top})
		f.ruled(layerStation, p)
	}
	y := top
	for _, row := range rows {
		h := 0.0
		for _, t := range f.ticks {
			h = math.Max(h, textWidth(row.of(t), small, false))
		}
		h += 2 * cellPad
		f.line(layerStation, geom.Pt{X: left, Y: y}, geom.Pt{X: right, Y: y})
		f.heads(row.head, y-float64(h/2)-small/2)
		for _, t := range f.ticks {
			at := geom.Pt{X: t.column + small/2, Y: y - h + cellPad}
			f.band(export.Text{S: row.of(t), At: at, Height: small, Angle: math.Pi / 2})
		}
		y -= h
	}
	f.line(layerStation, geom.Pt{X: left, Y: y}, geom.Pt{X: right, Y: y})
	words := "stations and ordinates of this outline, " + unitWord(f.doc.Units)
	if f.r.Contour.CutAhead() {
		words += "; the dimensions above the rib are from its upper fore corner, at station " + f.doc.Decimal(f.origin())
	}
	f.band(export.Text{S: words, At: geom.Pt{X: left, Y: y - small - 2}, Height: small})
}

// band letters the band, and keeps its places for what is drawn later.
func (f *field) band(t export.Text) { f.draw(layerStation, f.places.taken(t)) }

// heads writes a row's name between columns where there is room, again and again, so that every page of a
// drawing in tiles shows it; before the first column where there is room nowhere.
func (f *field) heads(s string, y float64) {
	const again, before = 130.0, 3.0 // mm: between two names of a row; between a column and the name
	need := textWidth("station", small, false) + 2*before
	last := math.Inf(-1)
	for i := 1; i < len(f.ticks); i++ {
		a, b := f.ticks[i-1].column, f.ticks[i].column
		if b-a-small < need || a-last < again {
			continue
		}
		f.band(export.Text{S: s, At: geom.Pt{X: a + small/2 + before, Y: y}, Height: small})
		last = a
	}
	if math.IsInf(last, -1) {
		f.band(export.Text{S: s, At: geom.Pt{X: f.ticks[0].column - pitch/2 - 2, Y: y}, Height: small, Anchor: export.Right})
	}
}

// unitWord names the units in full.
func unitWord(u ribfile.Units) string {
	if u == ribfile.Inch {
		return "inches"
	}
	return "millimetres"
}
