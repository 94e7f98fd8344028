package shop

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/pdf"
	"ribwright/geom"
	"ribwright/geom/ribfile"
)

func paper(t testing.TB, s string) Paper {
	t.Helper()
	p, err := ParsePaper(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestParsePaper(t *testing.T) {
	for _, c := range []struct {
		in   string
		w, h float64
	}{
		{"A4", 210, 297}, {" a3 ", 297, 420}, {"A0", 841, 1189}, {"Letter", 215.9, 279.4}, {"legal", 215.9, 355.6}, {"TABLOID", 279.4, 431.8},
		{"210x297", 210, 297}, {"210 × 297 mm", 210, 297}, {"8.5x11in", 215.9, 279.4}, {"8 1/2 x 11 in", 215.9, 279.4},
		{"21 cm x 29.7 cm", 210, 297}, {"8.5in x 11in", 215.9, 279.4}, {"297 mm*420 mm", 297, 420},
	} {
		p, err := ParsePaper(c.in)
		if err != nil || math.Abs(p.W-c.w) > 1e-9 || math.Abs(p.H-c.h) > 1e-9 || p.Margin != 10 || p.Overlap != 12 {
			t.Errorf("ParsePaper(%q) = %v, %v; want %g × %g, margin 10, overlap 12", c.in, p, err, c.w, c.h)
		}
	}
	for _, in := range []string{"", "A", "A7000", "x", "210", "210x", "x297", "0x297", "-210x297", "NaNx297", "210x1e9", "210x297x3", "8.5x11furlongs", "14%x3"} {
		if p, err := ParsePaper(in); err == nil {
			t.Errorf("ParsePaper(%q) = %v, want an error", in, p)
		}
	}
}

func FuzzParsePaper(f *testing.F) {
	for _, s := range []string{"A4", "210x297", "8.5x11in", "8 1/2×11 in", "x", "1x1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if p, err := ParsePaper(s); err == nil && !(p.W > 0 && p.H > 0 && p.W <= 20000 && p.H <= 20000) {
			t.Errorf("ParsePaper(%q) = %v", s, p)
		}
	})
}

func TestPaperTooSmall(t *testing.T) {
	j := demos(t)[0]
	for _, s := range []string{"A5", "187x198", "188x197", "100x2000"} {
		if _, err := Tiles(j.rib, j.doc, nil, paper(t, s)); err == nil || !strings.Contains(err.Error(), "188 mm × 198 mm") {
			t.Errorf("paper %s: %v, want an error that names 188 mm × 198 mm", s, err)
		}
	}
	if d, err := Tiles(j.rib, j.doc, nil, paper(t, "188x198")); err != nil || len(d.Sheets) == 0 {
		t.Errorf("paper 188x198: %v, want pages", err)
	}
	j.doc.Units = ribfile.Inch
	if _, err := Tiles(j.rib, j.doc, nil, paper(t, "A5")); err == nil || !strings.Contains(err.Error(), " in") {
		t.Errorf("in inches: %v", err)
	}
	for _, p := range []Paper{{210, 297, -1, 12}, {210, 297, 10, 2}, {210, 297, 10, math.NaN()}, {210, 297, 150, 12}} {
		if _, err := Tiles(j.rib, j.doc, nil, p); err == nil {
			t.Errorf("paper %v: no error", p)
		}
	}
}

// TestTiles lays the pages on each other: they agree with the drawing on one sheet to 1e-9 mm.
func TestTiles(t *testing.T) {
	d := demos(t)
	for _, c := range []struct {
		j    job
		size string
	}{
		{d[0], "A4"}, {d[0], "Letter"}, {d[0], "A3"}, {d[1], "Letter"}, {d[1], "8.5x14in"}, {d[2], "A4"},
		{unknown(t, 3), "A2"}, {unknown(t, 9), "A4"}, {unknown(t, 10), "200x200"},
	} {
		checkTiles(t, c.j, c.size)
	}
}

func checkTiles(t *testing.T, j job, size string) {
	t.Helper()
	where := j.name + " on " + size
	p := paper(t, size)
	d, err := Tiles(j.rib, j.doc, j.found, p)
	if err != nil {
		t.Fatalf("%s: %v", where, err)
	}
	plan, err := TilePlan(j.rib, j.doc, j.found, p)
	if err != nil || len(plan) != len(d.Sheets) {
		t.Fatalf("%s: %d sheets, but %d in the plan: %v", where, len(d.Sheets), len(plan), err)
	}
	if err := d.Check(); err != nil {
		t.Fatalf("%s: %v", where, err)
	}
	roll := all(Jig(j.rib, j.doc, j.found).Sheets[0])
	names := map[string]bool{}
	marks := map[string][]geom.Pt{}
	for k, tile := range plan {
		s := d.Sheets[k]
		if names[tile.Name] || s.Name != tile.Name {
			t.Errorf("%s: sheet %d is called %q, its tile %q", where, k+1, s.Name, tile.Name)
		}
		names[tile.Name] = true
		if s.W*s.H-p.W*p.H > 1e-9 || math.Min(s.W, s.H) != math.Min(p.W, p.H) {
			t.Errorf("%s: a page of %g × %g", where, s.W, s.H)
		}
		items := all(s)
		square, _ := byID(items, "check-100mm")
		if square.Path.Box().Meets(tile.Window) {
			t.Errorf("%s, page %s: the square stands in the window", where, s.Name)
		}
		checkSquareItem(t, where+", page "+s.Name, s.Parts[2].Items, "check-100mm", 100)
		checkPage(t, where, tile, s)
		checkAgainst(t, where, j, tile, s.Parts[0].Items, roll)
		for _, it := range s.Parts[1].Items {
			if c, _, ok := it.Path.IsCircle(); ok {
				at := c.Sub(tile.Offset)
				key := fmt.Sprintf("%.6f %.6f", at.X, at.Y)
				marks[key] = append(marks[key], at)
			}
		}
	}
	for key, at := range marks {
		if len(at) != 2 || at[0].Dist(at[1]) > 1e-9 {
			t.Errorf("%s: the cross at %s stands on %d pages, want 2", where, key, len(at))
		}
	}
	if want := 2 * neighbours(plan); len(marks) != want {
		t.Errorf("%s: %d crosses, want %d: two for every two neighbours", where, len(marks), want)
	}
	for _, q := range j.rib.Contour.Outline {
		shown := false
		for _, tile := range plan {
			shown = shown || tile.Window.Holds(q.Add(tile.Offset))
		}
		if !shown {
			t.Errorf("%s: the contour's point %v is on no page", where, q)
		}
	}
}

func neighbours(plan []Tile) int {
	n := 0
	for _, a := range plan {
		for _, b := range plan {
			if a.row == b.row && a.column+1 == b.column || a.column == b.column && a.row+1 == b.row {
				n++
			}
		}
	}
	return n
}

// checkPage looks at what stands on a page beside the drawing.
func checkPage(t *testing.T, where string, tile Tile, s export.Sheet) {
	t.Helper()
	where += ", page " + s.Name
	if s.Parts[0].Clip != tile.Window || s.Parts[1].Clip != tile.Window {
		t.Errorf("%s: the drawing is not clipped to its window", where)
	}
	if len(s.Parts[0].Items) == 0 {
		t.Errorf("%s: the window is empty", where)
	}
	printed := geom.NewBox(geom.Pt{X: 10, Y: 10}, geom.Pt{X: s.W - 10, Y: s.H - 10}).Grow(1e-9)
	for _, it := range s.Parts[2].Items {
		b := itemBox(it)
		if it.Text != nil {
			b = geom.NewBox(it.Text.At, it.Text.At.Add(geom.Pt{Y: it.Text.Height})) // descenders may reach into the margin
		}
		if !(printed.Holds(b.Min) && printed.Holds(b.Max)) {
			t.Errorf("%s: %v on layer %s lies in the margin", where, b, it.Layer)
		}
		if it.Layer != layerMap && itemBox(it).Meets(tile.Window) && tile.Window.Grow(-1).Meets(itemBox(it)) {
			t.Errorf("%s: the panel's %s reaches into the window", where, it.Layer)
		}
		if it.Text != nil && it.Text.Height < small {
			t.Errorf("%s: %q is %g mm high", where, it.Text.S, it.Text.Height)
		}
	}
	if !lettered(s.Parts[2].Items, tile.Name) {
		t.Errorf("%s: the page's name is missing", where)
	}
	for _, o := range overlaps(s.Parts[2].Items, ruled) {
		if !strings.Contains(o, "layer title ()") { // the map's outline may run under nothing, but numbers stand outside it
			t.Errorf("%s: %s", where, o)
		}
	}
	for _, o := range overlaps(append(s.Parts[0].Items[:len(s.Parts[0].Items):len(s.Parts[0].Items)], s.Parts[1].Items...), outlines) {
		t.Errorf("%s: %s", where, o)
	}
}

// checkAgainst finds every item of a page on the one sheet, whole or a stretch of it, at the place that the
// offset gives; and every line of the field that the window shows on the page.
func checkAgainst(t *testing.T, where string, j job, tile Tile, page, roll []export.Item) {
	t.Helper()
	where += ", page " + tile.Name
	outline, _ := byID(roll, "outline")
	v := outline.Path.Start.Sub(j.rib.Contour.Outline[0]).Sub(tile.Offset) // from the page to the one sheet
	n := 0
	drawn := map[string]bool{}
	for _, it := range page {
		for ; n < len(roll) && !stretch(it, roll[n], v); n++ {
		}
		if n == len(roll) {
			t.Errorf("%s: %s on layer %s is not on the one sheet", where, it.ID, it.Layer)
			return
		}
		pts := corners(it.Path)
		for i := 1; i < len(pts); i++ {
			drawn[it.Layer+lineKey(pts[i-1].Add(v), pts[i].Add(v))] = true
		}
	}
	for _, it := range roll {
		if it.Layer != layerContour && it.Layer != layerCap && it.Layer != layerStick && it.Layer != layerPlate {
			continue // the title and the squares have other places on the pages
		}
		pts := corners(it.Path)
		for i := 1; i < len(pts); i++ {
			if tile.Window.Holds(pts[i-1].Lerp(pts[i], 0.5).Sub(v)) && !drawn[it.Layer+lineKey(pts[i-1], pts[i])] {
				t.Errorf("%s: a line of %s on layer %s is missing", where, it.ID, it.Layer)
				return
			}
		}
	}
}

func lineKey(a, b geom.Pt) string {
	return fmt.Sprintf(" %.6f %.6f %.6f %.6f", a.X+0, a.Y+0, b.X+0, b.Y+0)
}

// corners returns a path's corners, the first again at the end where it is closed.
func corners(p geom.Path) []geom.Pt {
	if len(p.Segs) == 0 {
		return nil
	}
	pts := []geom.Pt{p.Start}
	for _, s := range p.Segs {
		pts = append(pts, s.End)
	}
	if p.Closed && pts[len(pts)-1] != p.Start {
		pts = append(pts, p.Start)
	}
	return pts
}

// stretch reports whether a, moved by v, is b or a run of b's lines.
func stretch(a, b export.Item, v geom.Pt) bool {
	const near = 1e-9
	if a.Layer != b.Layer || a.ID != b.ID && a.ID != "" || (a.Text == nil) != (b.Text == nil) {
		return false
	}
	if a.Text != nil {
		return a.Text.S == b.Text.S && a.Text.At.Add(v).Dist(b.Text.At) < near && a.Text.Angle == b.Text.Angle
	}
	p, q := corners(a.Path), corners(b.Path)
	if len(p) > len(q) {
		return false
	}
	cycle := len(q)
	if b.Path.Closed {
		cycle--
	}
	for from := range q {
		i := 0
		for i < len(p) && (b.Path.Closed || from+i < len(q)) && p[i].Add(v).Dist(q[(from+i)%cycle]) < near {
			i++
		}
		if i == len(p) {
			return true
		}
	}
	return false
}

func TestTilesDeterministic(t *testing.T) {
	j := demos(t)[1]
	var b [2]bytes.Buffer
	for i := range b {
		d, err := Tiles(j.rib, j.doc, j.found, paper(t, "Letter"))
		if err != nil {
			t.Fatal(err)
		}
		if err := pdf.Write(&b[i], d); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(b[0].Bytes(), b[1].Bytes()) {
		t.Error("two drawings of one rib differ")
	}
}

func TestLetters(t *testing.T) {
	for n, want := range map[int]string{0: "a", 25: "z", 26: "aa", 27: "ab", 51: "az", 52: "ba", 702: "aaa"} {
		if got := letters(n, 'a'); got != want {
			t.Errorf("letters(%d) = %q, want %q", n, got, want)
		}
	}
}

func BenchmarkTiles(b *testing.B) {
	j := demos(b)[0]
	p := paper(b, "A4")
	for b.Loop() {
		if _, err := Tiles(j.rib, j.doc, j.found, p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkJig(b *testing.B) {
	j := demos(b)[0]
	for b.Loop() {
		Jig(j.rib, j.doc, j.found)
	}
}
