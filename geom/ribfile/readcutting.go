package ribfile

import (
	"fmt"
	"math"

	"ribwright/geom"
)

// Saw is [saw]: what cuts the plates, and what each tool takes away.
type Saw struct {
	Plates      string  // what cuts the plates: "line" (no kerf is taken), "laser", "hole-saw", "band-saw", "router"
	LaserKerf   float64 // width of the cut
	HoleSaw     float64 // outer diameter of the saw; 0: not given
	HoleSawKerf float64 // width of its teeth
	Pilot       float64 // diameter of its pilot drill
	BandKerf    float64
	RouterBit   float64 // diameter

	// Of a machine that drills the pilot holes.
	Feed         float64 // mm/min
	SafeHeight   float64 // above the plywood, where the drill moves from hole to hole
	Breakthrough float64 // how far the drill goes below the plywood
}

// Sheet is [sheet]: plywood in stock, and how plates lie on it.
type Sheet struct {
	Gap    float64 // between two plates after cutting
	Margin float64 // to the sheet's edge
	Grain  string  // which way the face grain runs: "length" or "width"
	Effort int     // how long a better layout is sought, in steps
	Stock  []SheetStock
}

// SheetStock is one [[sheet.stock]]: a rectangle, or an odd offcut by its outline.
type SheetStock struct {
	Length, Width float64
	Outline       [][2]float64 // mm; empty: a rectangle
	Count         int          // 0: as many as needed
	Price         float64      // of one; 0: not given
}

// Stock is [stock]: bars for caps and sticks, and how they are cut.
type Stock struct {
	Kerf      float64 // of the saw
	Trim      float64 // cut off each end of a new bar
	Offcut    float64 // shortest that is kept
	Allowance float64 // on the length of each cap
	Scarf     float64 // length of a scarf, times the depth
	Bars      []Bar
}

// Bar is one [[stock.bar]].
type Bar struct {
	Length float64
	Count  int     // 0: as many as needed
	Price  float64 // of one; 0: not given
	Of     string  // "caps", "sticks" or "both"
}

func (r *reader) saw(t tab) {
	s := &r.doc.Saw
	s.Plates = t.choice("plates", "line", "line", "laser", "hole-saw", "band-saw", "router")
	kerf, bit := limit{min: 0, max: 6}, limit{min: 0.5, max: 20}
	s.LaserKerf, _ = t.length("laser_kerf", 0.2, kerf)
	s.HoleSaw, _ = t.length("hole_saw", 0, limit{min: 5, max: 300})
	teeth := kerf
	if s.HoleSaw > 0 {
		teeth.max, teeth.why = min(kerf.max, s.HoleSaw/4), ", a quarter of the saw's diameter"
	}
	s.HoleSawKerf, _ = t.length("hole_saw_kerf", min(2, teeth.max), teeth)
	s.Pilot, _ = t.length("pilot", MMPerInch/4, bit)
	s.BandKerf, _ = t.length("band_kerf", MMPerInch/32, kerf)
	s.RouterBit, _ = t.length("router_bit", MMPerInch/8, bit)
	s.Feed, _ = t.length("feed", 100, limit{min: 1, max: 5000})
	s.SafeHeight, _ = t.length("safe_height", 10, limit{min: 1, max: 200})
	s.Breakthrough, _ = t.length("breakthrough", 1, limit{min: 0, max: 20})
}

func (r *reader) sheet(t tab) {
	s := &r.doc.Sheet
	s.Gap, _ = t.length("gap", 2, limit{min: 0, max: 50})
	s.Margin, _ = t.length("margin", 5, limit{min: 0, max: 100})
	s.Grain = t.choice("grain", "length", "length", "width")
	s.Effort = t.whole("effort", 1, 0, 1000, "steps")
	if t.v == nil {
		return
	}
	size := limit{min: 20, max: 10000}
	for _, at := range r.tableList("sheet.stock", "stock", t.v) {
		var one SheetStock
		if !at.has("outline") {
			at.missing("length", "length = 600")
			at.missing("width", "width = 300")
		}
		one.Length, _ = at.length("length", 0, size)
		one.Width, _ = at.length("width", 0, size)
		one.Outline = r.sheetOutline(at)
		one.Count = at.whole("count", 0, 1, 10000, "sheets")
		one.Price = at.number("price", 0, 0, 1e6, false, "")
		s.Stock = append(s.Stock, one)
	}
}

// sheetOutline reads the corners of an odd offcut.
func (r *reader) sheetOutline(t tab) [][2]float64 {
	const example = "outline = [[0, 0], [400, 0], [0, 300]]"
	v := t.get("outline")
	if v == nil {
		return nil
	}
	switch {
	case v.kind != listKind:
		t.wrongType(v, "a list of corners", example)
		return nil
	case len(v.items) < 3:
		r.tell(CodeSheetOutline, v.key, v.at, "The outline has fewer than three corners.", "Write it as "+example+".")
		return nil
	}
	var out [][2]float64
	for _, item := range v.items {
		if item.kind != listKind || len(item.items) != 2 {
			t.wrongType(item, "a corner of two lengths", example)
			return nil
		}
		var p [2]float64
		for i, c := range item.items {
			mm, ok := t.quantity(c)
			if !ok {
				return nil
			}
			p[i] = mm
		}
		out = append(out, p)
	}
	return r.checkOutline(t, v, out)
}

// checkOutline refuses an outline that crosses itself, has no area, or stands beside a length or a width.
func (r *reader) checkOutline(t tab, v *value, corners [][2]float64) [][2]float64 {
	var ring geom.Ring
	for _, c := range corners {
		ring = append(ring, geom.Pt{X: c[0], Y: c[1]})
	}
	const least = 400 // mm²
	switch {
	case t.has("length") || t.has("width"):
		r.tell(CodeSheetOutline, v.key, v.at, "The sheet has an outline and a length or width besides.", "Write length and width of a rectangle, or the outline of an odd piece.")
	case !ring.Simple() || math.Abs(ring.Area()) < least:
		r.tell(CodeSheetOutline, v.key, v.at, "The outline crosses itself or has next to no area.", "Write the corners in the order in which one walks round the piece.")
	default:
		return corners
	}
	return nil
}

func (r *reader) stock(t tab) {
	s := &r.doc.Stock
	s.Kerf, _ = t.length("kerf", MMPerInch/16, limit{min: 0, max: 10})
	s.Trim, _ = t.length("trim", MMPerInch/2, limit{min: 0, max: 200})
	s.Offcut, _ = t.length("offcut", 6*MMPerInch, limit{min: 0, max: 2000})
	s.Allowance, _ = t.length("allowance", MMPerInch, limit{min: 0, max: 500})
	s.Scarf = t.number("scarf", 10, 4, 30, false, "times the depth")
	if t.v == nil {
		return
	}
	for _, at := range r.tableList("stock.bar", "bar", t.v) {
		at.missing("length", `length = "8 ft"`)
		var one Bar
		one.Length, _ = at.length("length", 0, limit{min: 50, max: 20000})
		if left := one.Length - float64(2*s.Trim); one.Length > 0 && left < 20 {
			v := at.get("length")
			r.tell(CodeBarTrimmed, v.key, v.at, fmt.Sprintf("Next to nothing is left of a bar of %s once %s are trimmed off either end.", r.doc.Length(one.Length), r.doc.Length(s.Trim)),
				"Write a smaller trim under [stock], or leave the bar out.")
		}
		one.Count = at.whole("count", 0, 1, 10000, "bars")
		one.Price = at.number("price", 0, 0, 1e6, false, "")
		one.Of = at.choice("of", "both", "both", "caps", "sticks")
		s.Bars = append(s.Bars, one)
	}
}
