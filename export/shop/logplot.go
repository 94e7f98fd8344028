package shop

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/ribfile"
	"ribwright/geom/riblog"
)

// Sizes of the plot of a log, mm.
const (
	logLeft, logWide = 22.0, 200.0 // where the panels stand, and how wide they are
	logHigh          = 75.0
	logGap           = 26.0 // between the panels
	logTag           = 3.6  // between the names of two lines
	logNames         = 46.0 // width of what stands beside a panel
	logDot, logRing  = 0.9, 2.0
	bandHalf         = 2 // standard deviations
)

// LogPlot draws what a log tells, rib by rib in the order in which they were begun: the masses with their mean, twice
// their standard deviation either way, what was computed, and the ribs that stand out; and the adhesive of each rib's two
// sides against the plan. Where there are several kinds of rib, masses are in percent of what was computed.
func LogPlot(s riblog.Summary, doc *ribfile.Doc) export.Drawing {
	thin, thick := export.Pen{Width: narrow}, export.Pen{Width: wide}
	d := export.Drawing{Title: doc.Title, Layers: []export.Layer{
		{ID: layerTrend, Pen: export.Pen{Width: narrow, Gray: 0.88}}, {ID: layerGrid, Pen: export.Pen{Width: narrow, Gray: 0.75}},
		{ID: layerStation, Pen: thin}, {ID: layerAxis, Pen: export.Pen{Width: narrow, Dash: dashDot}}, {ID: layerMean, Pen: export.Pen{Width: narrow, Dash: dashMean}},
		{ID: layerDeviation, Pen: thin}, {ID: layerOver, Pen: thick}, {ID: layerName, Pen: thin},
	}}
	p := &logPlot{canvas: &canvas{}, s: s, doc: doc}
	title := doc.Title + ": the log"
	if doc.Date != "" {
		title += ", " + doc.Date
	}
	p.write(layerName, clip(title, large, logLeft+logWide+logNames, true, "…"), geom.Pt{X: 0, Y: 14}, large, export.Left, true)
	p.masses(-4)
	p.adhesive(-4 - logHigh - logGap)
	y := -4 - 2*logHigh - logGap - 16
	for _, l := range p.words() {
		for _, part := range wrap(l, small, logLeft+logWide+logNames, false) {
			p.write(layerName, part, geom.Pt{Y: y}, small, export.Left, false)
			y -= noteStep
		}
	}
	return onSheet(d, p.canvas, "log")
}

// logPlot draws a log.
type logPlot struct {
	*canvas
	s   riblog.Summary
	doc *ribfile.Doc
}

// logFrame is a panel: its box, and the figures at its lower and upper edge.
type logFrame struct {
	box    geom.Box
	lo, hi float64
	n      int // places across
}

func (f logFrame) x(i int) float64 {
	return f.box.Min.X + float64(f.box.W()*(float64(i)+0.5)/float64(max(f.n, 1)))
}

func (f logFrame) y(v float64) float64 {
	return f.box.Min.Y + float64(f.box.H()*(v-f.lo)/(f.hi-f.lo))
}

// logPlace is one place across a panel: the rib, and its figure.
type logPlace struct {
	name string
	v    float64
	odd  bool
}

// logLevel is a line across a panel with its name.
type logLevel struct {
	v     float64
	name  string
	layer string
}

// open draws a panel's frame with its scale and the names below it.
func (p *logPlot) open(top float64, title string, values []float64, fromZero bool, names []string) logFrame {
	f := logFrame{box: geom.NewBox(geom.Pt{X: logLeft, Y: top - logHigh}, geom.Pt{X: logLeft + logWide, Y: top}), n: len(names)}
	lo, hi := slices.Min(values), slices.Max(values)
	if fromZero {
		lo = 0
	}
	room := math.Max(hi-lo, 1e-3*math.Max(math.Abs(hi), 1e-3))
	hi += float64(0.08 * room)
	if !fromZero {
		lo -= float64(0.08 * room)
	}
	step := roundStep((hi - lo) / 6)
	f.lo, f.hi = float64(math.Floor(lo/step)*step), float64(math.Ceil(hi/step)*step)
	p.path(layerStation, geom.Rect(f.box))
	for k := math.Round(f.lo / step); float64(k*step) <= f.hi+float64(step/2); k++ {
		v := float64(k * step)
		if v > f.lo+float64(step/2) && v < f.hi-float64(step/2) {
			p.line(layerGrid, geom.Pt{X: f.box.Min.X, Y: f.y(v)}, geom.Pt{X: f.box.Max.X, Y: f.y(v)})
		}
		p.write(layerName, decimal(v, max(0, -int(math.Floor(float64(math.Log10(step))+1e-9)))), geom.Pt{X: f.box.Min.X - 2, Y: f.y(v) - small/2}, small, export.Right, false)
	}
	p.write(layerName, title, geom.Pt{X: f.box.Min.X, Y: top + 2.5}, medium, export.Left, false)
	wide := 0.0
	for _, n := range names {
		wide = math.Max(wide, textWidth(n, small, false))
	}
	every := max(1, int(math.Ceil((wide+1.5)*float64(f.n)/logWide)))
	for i, n := range names {
		if i%every == 0 {
			p.write(layerName, n, geom.Pt{X: f.x(i), Y: f.box.Min.Y - small - 1.5}, small, export.Center, false)
		}
	}
	p.write(layerName, "rib", geom.Pt{X: f.box.Min.X, Y: f.box.Min.Y - 2*small - 3.5}, small, export.Left, false)
	return f
}

// roundStep returns the next step of 1, 2 and 5 that is no smaller.
func roundStep(v float64) float64 {
	p := math.Pow10(int(math.Floor(math.Log10(v))))
	for _, k := range []float64{1, 2, 5} {
		if float64(k*p) >= v-1e-12 {
			return float64(k * p)
		}
	}
	return 10 * p
}

// levels draws lines across a panel, with their names behind it: moved apart where they would lie on each other.
func (p *logPlot) levels(f logFrame, all []logLevel) {
	sort.SliceStable(all, func(i, j int) bool { return all[i].v < all[j].v })
	ys := make([]float64, len(all))
	for i, l := range all {
		ys[i] = f.y(l.v)
	}
	for range 50 { // pairs push each other apart until all have room
		for i := 1; i < len(ys); i++ {
			if d := logTag - (ys[i] - ys[i-1]); d > 1e-6 {
				ys[i-1], ys[i] = ys[i-1]-float64(d/2), ys[i]+float64(d/2)
			}
		}
	}
	x := f.box.Max.X
	for i, l := range all {
		p.line(l.layer, geom.Pt{X: f.box.Min.X, Y: f.y(l.v)}, geom.Pt{X: x, Y: f.y(l.v)})
		p.line(layerStation, geom.Pt{X: x, Y: f.y(l.v)}, geom.Pt{X: x + 3, Y: ys[i]})
		p.write(layerName, l.name, geom.Pt{X: x + 4, Y: ys[i] - small/2}, small, export.Left, false)
	}
}

// nothing says that a panel has nothing to show.
func (p *logPlot) nothing(top float64, title, why string) {
	box := geom.NewBox(geom.Pt{X: logLeft, Y: top - logHigh}, geom.Pt{X: logLeft + logWide, Y: top})
	p.path(layerStation, geom.Rect(box))
	p.write(layerName, title, geom.Pt{X: box.Min.X, Y: top + 2.5}, medium, export.Left, false)
	p.write(layerName, why, box.Centre(), medium, export.Center, false)
}

// weight turns grams into what people of the file's units read.
func (p *logPlot) weight(g float64) float64 {
	if p.doc.Units == ribfile.Inch {
		return g / ribfile.GramsPerOunce
	}
	return g
}

func (p *logPlot) weightUnit() string {
	if p.doc.Units == ribfile.Inch {
		return "oz"
	}
	return "g"
}

// masses draws the panel of the masses.
func (p *logPlot) masses(top float64) {
	several := len(p.s.Plan.Kinds) > 1
	title := "Mass of each rib, " + p.weightUnit()
	if several {
		title = "Mass of each rib, percent of what was computed for its kind"
	}
	of := func(r riblog.Rib) float64 {
		if several {
			return 100 * r.MassG.V / p.s.Plan.Kinds[r.Kind].MassG
		}
		return p.weight(r.MassG.V)
	}
	var places []logPlace
	var plain, values []float64
	var names []string
	for _, r := range p.s.Ribs {
		if !r.MassG.OK || r.Kind < 0 || p.s.Plan.Kinds[r.Kind].MassG <= 0 {
			continue
		}
		places, names, values = append(places, logPlace{r.Name, of(r), r.Odd}), append(names, r.Name), append(values, of(r))
		if !r.Odd {
			plain = append(plain, of(r))
		}
	}
	if len(places) == 0 {
		p.nothing(top, title, "no rib is weighed yet")
		return
	}
	spread := riblog.SpreadOf(plain)
	computed := 100.0
	say := func(v float64) string { return decimal(v, 1) + " %" }
	if !several {
		computed = p.weight(p.s.Plan.Kinds[0].MassG)
		say = func(v float64) string {
			return decimal(v, map[bool]int{true: 2, false: 1}[p.doc.Units == ribfile.Inch]) + " " + p.weightUnit()
		}
	}
	low, high := spread.Mean-float64(bandHalf*spread.SD), spread.Mean+float64(bandHalf*spread.SD)
	f := p.open(top, title, append(values, computed, low, high), false, names)
	levels := []logLevel{{computed, "computed " + say(computed), layerAxis}, {spread.Mean, "mean " + say(spread.Mean), layerMean}}
	if spread.N > 2 && spread.SD > 0 {
		p.items = slices.Insert(p.items, 0, export.Item{Layer: layerTrend, Fill: true,
			Path: geom.Rect(geom.NewBox(geom.Pt{X: f.box.Min.X, Y: f.y(low)}, geom.Pt{X: f.box.Max.X, Y: f.y(high)}))})
		levels = append(levels, logLevel{low, "mean − 2 s: " + say(low), layerGrid}, logLevel{high, "mean + 2 s: " + say(high), layerGrid})
	}
	p.levels(f, levels)
	for i, one := range places {
		at := geom.Pt{X: f.x(i), Y: f.y(one.v)}
		p.fill(layerDeviation, geom.Circle(at, logDot))
		if one.odd {
			p.part(layerOver, "stands-out-"+one.name, geom.Circle(at, logRing))
			p.nameOdd(f, at, "rib "+one.name+", "+say(one.v))
		}
	}
}

// nameOdd letters a rib that stands out, beside its ring, on the side that has more room.
func (p *logPlot) nameOdd(f logFrame, at geom.Pt, s string) {
	anchor, away := export.Left, logRing+1
	if at.X > f.box.Centre().X {
		anchor, away = export.Right, -logRing-1
	}
	p.write(layerName, s, at.Add(geom.Pt{X: away, Y: -small / 2}), small, anchor, true)
}

// sideAdhesive is what a rib's side has of its batch, g: the batch over the sides that were glued from it.
func (p *logPlot) sideAdhesive(ref riblog.Ref) (g float64, ok bool) {
	for _, b := range p.s.Batches {
		if b.Holds(ref) && b.AG.OK && b.BG.OK && b.Sides > 0 {
			return (b.AG.V + b.BG.V) / float64(b.Sides), true
		}
	}
	return 0, false
}

// adhesive draws the panel of the adhesive.
func (p *logPlot) adhesive(top float64) {
	title := "Adhesive weighed for each rib, " + p.weightUnit() + ": first side below, second above"
	var names []string
	var bars [][2]float64
	var plan, values []float64
	for _, r := range p.s.Ribs {
		first, has := p.sideAdhesive(r.Batch[0])
		second, has2 := p.sideAdhesive(r.Batch[1])
		if !has && !has2 || r.Kind < 0 {
			continue
		}
		k := p.s.Plan.Kinds[r.Kind]
		names, bars = append(names, r.Name), append(bars, [2]float64{p.weight(first), p.weight(second)})
		plan = append(plan, p.weight(k.SidesG[0]+k.SidesG[1]))
		values = append(values, p.weight(first+second), plan[len(plan)-1])
	}
	if len(bars) == 0 {
		p.nothing(top, title, "no adhesive is in the log yet")
		return
	}
	f := p.open(top, title, values, true, names)
	half := math.Min(3, 0.35*logWide/float64(f.n))
	for i, b := range bars {
		x, y := f.x(i), f.box.Min.Y
		for side, v := range b {
			if v <= 0 {
				continue
			}
			to := y + f.y(v) - f.box.Min.Y
			bar := geom.Rect(geom.NewBox(geom.Pt{X: x - half, Y: y}, geom.Pt{X: x + half, Y: to}))
			if side == 0 {
				p.fill(layerTrend, bar)
			}
			p.path(layerDeviation, bar)
			y = to
		}
	}
	if len(p.s.Plan.Kinds) == 1 {
		p.levels(f, []logLevel{{plan[0], "planned " + decimal(plan[0], 2) + " " + p.weightUnit(), layerAxis}})
		return
	}
	for i, v := range plan {
		p.line(layerOver, geom.Pt{X: f.x(i) - half, Y: f.y(v)}, geom.Pt{X: f.x(i) + half, Y: f.y(v)})
	}
}

// words says below the panels what they show.
func (p *logPlot) words() []string {
	out := []string{"s: standard deviation, without ribs that stand out. Ringed: a modified z-score over " + fmt.Sprint(riblog.OddScore) + " (Iglewicz and Hoaglin, 1993). Computed: wood at its handbook density."}
	batch := "Adhesive: each batch, parted evenly among the sides that were glued from it; sample joints and what stays in the cup are in it."
	if len(p.s.Plan.Kinds) > 1 {
		batch += " Thick lines: what was planned."
	}
	return append(out, batch)
}
