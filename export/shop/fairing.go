package shop

import (
	"fmt"
	"math"
	"sort"

	"ribwright/airfoils"
	"ribwright/export"
	"ribwright/geom"
)

const (
	layerCurvature = "curvature"
	layerSuspect   = "suspect"
	layerGrid      = "grid"

	plotLeft, plotWide, plotHigh = 25.0, 250.0, 62.0 // mm: where the panels stand, and their size
	plotGap                      = 16.0              // between the panels
	dotSize, ringSize            = 0.7, 2.4          // radius of a table's point, and of the ring round a suspect, mm
)

// Curvature draws the curvature of a section against the station, one panel for each side, on a sheet of
// 297 mm width, with a dot at each point of the table and a ring round the suspects; below them the
// suspects are told in words. Curvature is one over the radius in chords, upward where the contour bulges
// outward. The nose, which bends many times more than the rest, runs off the panel.
func Curvature(sec airfoils.Section, suspects []airfoils.Suspect) export.Drawing {
	thin := export.Pen{Width: narrow}
	d := export.Drawing{Title: "Curvature of " + sec.Name, Layers: []export.Layer{
		{ID: layerGrid, Pen: export.Pen{Width: narrow, Gray: 0.75}}, {ID: layerStation, Pen: thin},
		{ID: layerCurvature, Pen: export.Pen{Width: wide}}, {ID: layerSuspect, Pen: export.Pen{Width: wide}}, {ID: layerName, Pen: thin},
	}}
	words := suspectWords(suspects)
	sheet := export.Sheet{Name: "curvature", W: 297, H: math.Max(210, 58+2*(plotHigh+plotGap)+float64(5*float64(len(words))))}
	c := &canvas{}
	c.write(layerName, d.Title, geom.Pt{X: plotLeft, Y: sheet.H - 18}, large, export.Left, true)
	upper, lower := sec.Curvature()
	top := sheet.H - 32
	for _, s := range []struct {
		side  airfoils.Side
		bends []airfoils.Bend
	}{{airfoils.UpperSide, upper}, {airfoils.LowerSide, lower}} {
		p := panel{top: top, most: scaleOf(s.bends)}
		p.frame(c, s.side)
		sheet.Parts = append(sheet.Parts, p.curve(s.bends, s.side, suspects))
		top -= plotHigh + plotGap
	}
	at := geom.Pt{X: plotLeft, Y: top}
	c.write(layerName, "Across: station, percent of the chord. Up: 1 / radius, in chords. A wrong ordinate shows as a spike with its neighbours bent the other way.", at, small, export.Left, false)
	for _, w := range words {
		at.Y -= 5
		c.write(layerName, w, at, small, export.Left, false)
	}
	sheet.Parts = append(sheet.Parts, export.Part{Items: c.items})
	d.Sheets = []export.Sheet{sheet}
	return d
}

// suspectWords tells the suspects, one line each.
func suspectWords(suspects []airfoils.Suspect) []string {
	if len(suspects) == 0 {
		return []string{"No point of the table stands out."}
	}
	var out []string
	for _, s := range suspects {
		line := fmt.Sprintf("%s side at %s %%: ", s.Side, decimal(100*s.Station, 2))
		if s.Cause == airfoils.LostPoint {
			line += fmt.Sprintf("a point seems to be lost; likely %s %% of the chord.", decimal(100*s.Likely, 2))
		} else {
			line += fmt.Sprintf("%s %% of the chord, likely %s %%", decimal(100*s.Found, 2), decimal(100*s.Likely, 2))
			if s.Cause != airfoils.NoCause {
				line += ": " + s.Cause.String()
			}
			line += "."
		}
		out = append(out, line)
	}
	return out
}

// scaleOf returns the curvature at a panel's edge: twice what nine tenths of the side stay below, aft of its
// nose, in round figures.
func scaleOf(bends []airfoils.Bend) float64 {
	const nose = 0.1
	var all []float64
	for _, b := range bends {
		if b.Station >= nose {
			all = append(all, math.Abs(b.Curvature))
		}
	}
	if len(all) == 0 {
		return 1
	}
	sort.Float64s(all)
	want := math.Min(math.Max(2*all[len(all)*9/10], 0.5), 1e6)
	step := math.Pow(10, math.Floor(math.Log10(want)))
	for _, k := range []float64{1, 2, 5} {
		if k*step >= want {
			return k * step
		}
	}
	return 10 * step
}

// panel is the plot of one side.
type panel struct {
	top  float64 // of its frame on the sheet, mm
	most float64 // curvature at its upper edge; the lower edge has the opposite
}

func (p panel) at(station, curvature float64) geom.Pt {
	return geom.Pt{X: plotLeft + float64(plotWide*station), Y: p.top - plotHigh/2 + float64(plotHigh/2*curvature/p.most)}
}

func (p panel) frame(c *canvas, side airfoils.Side) {
	c.path(layerStation, geom.Rect(geom.NewBox(p.at(0, -p.most), p.at(1, p.most))))
	for i := 0; i <= 10; i++ {
		x := float64(i) / 10
		if i > 0 && i < 10 {
			c.line(layerGrid, p.at(x, -p.most), p.at(x, p.most))
		}
		foot := p.at(x, -p.most)
		c.write(layerName, fmt.Sprint(10*i), geom.Pt{X: foot.X, Y: foot.Y - 4}, small, export.Center, false)
	}
	for i := -2; i <= 2; i++ {
		k := float64(p.most * float64(i) / 2)
		if i > -2 && i < 2 {
			c.line(layerGrid, p.at(0, k), p.at(1, k))
		}
		c.write(layerName, number3(k), p.at(0, k).Add(geom.Pt{X: -2, Y: -small / 2}), small, export.Right, false)
	}
	c.write(layerName, side.String()+" side", p.at(0, p.most).Add(geom.Pt{Y: 2.5}), medium, export.Left, false)
}

// number3 writes a figure of a scale without needless zeros.
func number3(v float64) string { return fmt.Sprintf("%.3g", v+0) }

// curve draws what is inside the frame.
func (p panel) curve(bends []airfoils.Bend, side airfoils.Side, suspects []airfoils.Suspect) export.Part {
	c := &canvas{}
	line := make([]geom.Pt, 0, len(bends))
	for _, b := range bends {
		k := math.Min(math.Max(b.Curvature, -50*p.most), 50*p.most)
		line = append(line, p.at(b.Station, k))
		if q := p.at(b.Station, k); b.Point && math.Abs(k) <= p.most {
			c.items = append(c.items, export.Item{Layer: layerCurvature, Path: geom.Circle(q, dotSize), Fill: true})
		}
	}
	c.path(layerCurvature, geom.Polyline(line...))
	for i, s := range suspects {
		if s.Side != side {
			continue
		}
		k := nearest(bends, s.Station)
		edge := p.most - float64(2*p.most*ringSize/plotHigh) // a suspect off the panel is marked at its edge
		at := p.at(s.Station, math.Min(math.Max(k, -edge), edge))
		c.part(layerSuspect, fmt.Sprintf("suspect-%d", i+1), geom.Circle(at, ringSize))
		c.line(layerSuspect, p.at(s.Station, -p.most), p.at(s.Station, -0.9*p.most))
	}
	return export.Part{Clip: geom.NewBox(p.at(0, -p.most), p.at(1, p.most)), Items: c.items}
}

// nearest returns the curvature at the place nearest to a station.
func nearest(bends []airfoils.Bend, station float64) float64 {
	best, k := math.Inf(1), 0.0
	for _, b := range bends {
		if d := math.Abs(b.Station - station); d < best {
			best, k = d, b.Curvature
		}
	}
	return k
}
