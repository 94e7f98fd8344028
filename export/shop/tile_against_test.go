package shop

import (
	"bytes"
	"fmt"
	"testing"

	"ribwright/export"
	"ribwright/export/pdf"
	"ribwright/geom"
)

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
			if tile.ink.Holds(pts[i-1].Lerp(pts[i], 0.5).Sub(v)) && !drawn[it.Layer+lineKey(pts[i-1], pts[i])] {
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
		d, err := Tiles(j.drawn(), paper(t, "Letter"))
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
		if _, err := Tiles(j.drawn(), p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkJig(b *testing.B) {
	j := demos(b)[0]
	for b.Loop() {
		Jig(j.drawn())
	}
}
