package shop

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/pdf"
	"ribwright/geom"
	"ribwright/geom/ribfile"
)

func paper(t testing.TB, s string) ribfile.Paper {
	t.Helper()
	p, err := ribfile.ParsePaper(s, ribfile.MM)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// printed is a paper in a printer that makes 100 mm as long as said, across and up.
func printed(t testing.TB, s, measured string) ribfile.Paper {
	t.Helper()
	p := paper(t, s)
	var err error
	if p.Printed, err = ribfile.ParsePrinted(measured); err != nil {
		t.Fatal(err)
	}
	return p
}

func TestPaperTooSmall(t *testing.T) {
	j := demos(t)[0]
	p := paper(t, "A4")
	p.Margin.Top, p.Margin.Left, p.Margin.Right = 100, 60, 60
	_, err := Tiles(NewField(j.rib, j.doc, BoardOf(j.rib, j.doc), nil), p)
	if err == nil || !strings.Contains(err.Error(), "210 mm × 297 mm") || !strings.Contains(err.Error(), "100 mm") {
		t.Errorf("margins of 60 and 100 mm on A4: %v", err)
	}
	for _, s := range []string{"140x180", "A5", "roll 180"} {
		if d, err := Tiles(NewField(j.rib, j.doc, BoardOf(j.rib, j.doc), nil), paper(t, s)); err != nil || len(d.Sheets) == 0 {
			t.Errorf("paper %s: %v, want pages", s, err)
		}
	}
}

// TestTiles lays the pages on each other: they agree with the drawing on one sheet to 1e-9 mm.
func TestTiles(t *testing.T) {
	d := demos(t)
	for _, c := range []struct {
		j job
		p ribfile.Paper
	}{
		{d[0], paper(t, "A4")}, {d[0], paper(t, "Letter")}, {d[0], paper(t, "A3")}, {d[1], paper(t, "Letter")}, {d[1], paper(t, "8.5x14in")},
		{d[2], paper(t, "A5")}, {d[2], paper(t, "A0")}, {d[0], paper(t, "roll 610")}, {d[1], paper(t, "roll 210")},
		{unknown(t, 3), paper(t, "A2")}, {unknown(t, 9), paper(t, "A4")}, {unknown(t, 10), paper(t, "200x200")}, {unknown(t, 12), paper(t, "Letter")},
		{d[0], printed(t, "A4", "99.2x101.5")}, {d[1], printed(t, "Letter", "4.1x3.9in")}, {d[0], printed(t, "roll 250", "91x109")},
	} {
		checkTiles(t, c.j, c.p)
	}
}

func TestTilePlan(t *testing.T) {
	j, p := demos(t)[0], printed(t, "A3", "99x101")
	d, plan := TilesAndPlan(t, j.rib, j.doc, j.found, p)
	one, err := Tiles(j.drawn(), p)
	if err != nil || !reflect.DeepEqual(d, one) {
		t.Errorf("Tiles draws something else (%v)", err)
	}
	if two, err := TilePlan(j.drawn(), p); err != nil || !reflect.DeepEqual(plan, two) {
		t.Errorf("TilePlan plans something else (%v)", err)
	}
}

func TestTilesTurned(t *testing.T) {
	j := demos(t)[1]
	for _, turn := range []string{"portrait", "landscape"} {
		p := paper(t, "A4")
		p.Turn, p.Margin = turn, ribfile.Margins{Left: 4, Right: 6, Top: 5, Bottom: 17}
		checkTiles(t, j, p)
		plan, err := TilePlan(NewField(j.rib, j.doc, BoardOf(j.rib, j.doc), nil), p)
		if err != nil || (plan[0].W > plan[0].H) != (turn == "landscape") {
			t.Errorf("%s: a page of %g × %g, %v", turn, plan[0].W, plan[0].H, err)
		}
	}
}

func checkTiles(t *testing.T, j job, p ribfile.Paper) {
	t.Helper()
	where := fmt.Sprintf("%s on %s %s %v", j.name, p.Size, p.Turn, p.Printed)
	d, plan := TilesAndPlan(t, j.rib, j.doc, j.found, p)
	if len(plan) != len(d.Sheets) {
		t.Fatalf("%s: %d sheets, but %d in the plan", where, len(d.Sheets), len(plan))
	}
	if err := d.Check(); err != nil {
		t.Fatalf("%s: %v", where, err)
	}
	names := map[string]bool{}
	marks := map[string]int{}
	x, y := p.Printed.Correction()
	for k, tile := range plan {
		s := d.Sheets[k]
		if names[tile.Name] || s.Name != tile.Name {
			t.Errorf("%s: sheet %d is called %q, its tile %q", where, k+1, s.Name, tile.Name)
		}
		names[tile.Name] = true
		checkSize(t, where, s, p)
		s = export.Scaled(export.Drawing{Sheets: []export.Sheet{s}}, 1/x, 1/y).Sheets[0] // as the printer prints it
		checkPage(t, where, j, p, tile, s)
		for _, at := range crosses(s.Parts[1].Items) {
			q := at.Sub(tile.Offset)
			marks[fmt.Sprintf("%.5f %.5f", q.X, q.Y)]++
		}
	}
	roll := all(Jig(j.drawn()).Sheets[0])
	if !p.Printed.Off() { // a stretch is not looked for among scaled figures
		for k, tile := range plan {
			checkAgainst(t, where, j, tile, d.Sheets[k].Parts[0].Items, roll)
		}
	}
	for at, n := range marks {
		if n != 2 {
			t.Errorf("%s: the cross at %s stands on %d pages, want 2", where, at, n)
		}
	}
	if least := len(plan) - 1; len(marks) < 2*least {
		t.Errorf("%s: %d crosses for %d pages, want two for each after the first", where, len(marks), len(plan))
	}
	for _, q := range j.rib.Contour.Outline {
		shown := false
		for _, tile := range plan {
			shown = shown || tile.core.Holds(q) && tile.ink.Holds(q.Add(tile.Offset))
		}
		if !shown {
			t.Errorf("%s: the contour's point %v is on no page", where, q)
		}
	}
}

// crosses returns the middles of the register marks: of every two lines of one length that halve each other.
func crosses(items []export.Item) []geom.Pt {
	var out []geom.Pt
	for i, it := range items {
		if i == 0 || it.Layer != layerRegister || items[i-1].Layer != layerRegister || len(it.Path.Segs) != 1 || len(items[i-1].Path.Segs) != 1 {
			continue
		}
		a, b := it.Path.Box(), items[i-1].Path.Box()
		if a.Centre().Dist(b.Centre()) < 1e-6 {
			out = append(out, a.Centre())
		}
	}
	return out
}

// checkSize holds that a page is the paper, one way round; of a roll, as high as the roll is wide.
func checkSize(t *testing.T, where string, s export.Sheet, p ribfile.Paper) {
	t.Helper()
	const near = 1e-9
	turned := math.Abs(s.W-p.H) < near && math.Abs(s.H-p.W) < near
	upright := math.Abs(s.W-p.W) < near && math.Abs(s.H-p.H) < near
	if p.H == 0 {
		upright = math.Abs(s.H-p.W) < near && s.W < pdf.MaxSide
	}
	if !turned && !upright {
		t.Errorf("%s: a page of %g × %g", where, s.W, s.H)
	}
}

// checkPage looks at what stands on a page beside the drawing.
func checkPage(t *testing.T, where string, j job, p ribfile.Paper, tile Tile, s export.Sheet) {
	t.Helper()
	where += ", page " + s.Name
	if near := 1e-9; s.Parts[0].Clip.Min.Dist(tile.ink.Min) > near || s.Parts[1].Clip.Max.Dist(tile.Window.Max) > near {
		t.Errorf("%s: the drawing is not clipped to its window", where)
	}
	if len(s.Parts[0].Items) == 0 {
		t.Errorf("%s: the window is empty", where)
	}
	least := min(p.Margin.Left, p.Margin.Right, p.Margin.Top, p.Margin.Bottom) / 1.1
	sheet := geom.NewBox(geom.Pt{X: least, Y: least}, geom.Pt{X: s.W - least, Y: s.H - least})
	checkMeasure(t, where, j, s.Parts[2].Items)
	for _, part := range s.Parts {
		for _, it := range part.Items {
			if it.Text != nil && it.Text.Height < small-1e-9 {
				t.Errorf("%s: %q is %g mm high", where, it.Text.S, it.Text.Height)
			}
		}
	}
	for _, it := range s.Parts[2].Items {
		b := itemBox(it)
		if it.Text != nil {
			b = geom.NewBox(it.Text.At, it.Text.At.Add(geom.Pt{Y: it.Text.Height})) // descenders may reach into the margin
		}
		if !(sheet.Holds(b.Min) && sheet.Holds(b.Max)) {
			t.Errorf("%s: %v on layer %s lies in the margin", where, b, it.Layer)
		}
	}
	if !lettered(s.Parts[2].Items, tile.Name) {
		t.Errorf("%s: the page's name is missing", where)
	}
	for _, o := range overlaps(s.Parts[2].Items, ruled) {
		t.Errorf("%s: %s", where, o)
	}
	shown := s.Parts[0].Items[:len(s.Parts[0].Items):len(s.Parts[0].Items)]
	for _, it := range s.Parts[1].Items {
		if it.Text == nil || s.Parts[0].Clip.Meets(itemBox(it)) { // in a strip that is cut off no line shows
			shown = append(shown, it)
		}
	}
	for _, o := range overlaps(s.Parts[1].Items, nil) {
		t.Errorf("%s: %s", where, o)
	}
	for _, o := range overlaps(shown, outlines) {
		t.Errorf("%s: %s", where, o)
	}
	checkApart(t, where, tile, s)
}

// checkApart holds that nothing of the drawing that shows stands where something beside it does: 0 items of
// the drawing meet the words, the map, or what is measured.
func checkApart(t *testing.T, where string, tile Tile, s export.Sheet) {
	t.Helper()
	for n, part := range s.Parts[:2] {
		ink := newInk(part.Items)
		for _, it := range s.Parts[2].Items {
			if it.Layer == layerMap { // grey: the window's frame
				continue
			}
			b := itemBox(it)
			if hidden := part.Clip; !b.Meets(hidden) {
				continue
			}
			for i := range ink {
				if k := &ink[i]; clippedMeets(k, b, part.Clip) {
					t.Errorf("%s: %s %q of the drawing (part %d) at %v meets %s %s at %v", where, k.item.Layer, name(*k.item), n, k.box, it.Layer, name(it), b)
				}
			}
		}
	}
}

func name(it export.Item) string {
	if it.Text != nil {
		return it.Text.S
	}
	return it.ID
}

// clippedMeets reports whether what a clip leaves of an item meets a box.
func clippedMeets(k *itemInk, b, clip geom.Box) bool {
	low := geom.Pt{X: math.Max(b.Min.X, clip.Min.X), Y: math.Max(b.Min.Y, clip.Min.Y)}
	high := geom.Pt{X: math.Min(b.Max.X, clip.Max.X), Y: math.Min(b.Max.Y, clip.Max.Y)}
	if low.X > high.X || low.Y > high.Y {
		return false
	}
	c := geom.NewBox(low, high)
	return k.meets(c, boxQuad(c))
}

// checkMeasure holds that a page has a closed square to measure, or a length across and one up; and 100 mm
// in both directions whatever the units.
func checkMeasure(t *testing.T, where string, j job, items []export.Item) {
	t.Helper()
	id, side := "check-100mm", 100.0
	if j.doc.Units == ribfile.Inch {
		id, side = "check-4in", 101.6
	}
	if it, ok := byID(items, id); ok {
		b := it.Path.Box()
		if !it.Path.Closed || len(it.Path.Segs) != 3 || math.Abs(b.W()-side) > 1e-6 || math.Abs(b.H()-side) > 1e-6 {
			t.Errorf("%s: the square is %g × %g mm", where, b.W(), b.H())
		}
		if id == "check-4in" && !lettered(items, "to the ticks: 100 mm") {
			t.Errorf("%s: the square has no 100 mm", where)
		}
		return
	}
	across, ok := byID(items, id+"-across")
	up, too := byID(items, id+"-up")
	a, u := across.Path.Box(), up.Path.Box()
	if !ok || !too || math.Abs(a.W()-side) > 1e-6 || a.H() > 1e-9 || math.Abs(u.H()-side) > 1e-6 || u.W() > 1e-9 {
		t.Errorf("%s: the lengths are %v and %v", where, a, u)
	}
	if it, ok := byID(items, "check-100mm-up"); !ok || math.Abs(it.Path.Box().H()-100) > 1e-6 {
		t.Errorf("%s: no 100 mm up", where)
	}
}
