package export_test

import (
	"math"
	"strings"
	"sync"
	"testing"

	"ribwright/export"
	"ribwright/geom"
)

func box(cs []export.Contour) geom.Box {
	var b geom.Box
	for _, c := range cs {
		b = b.Add(c.Start)
		for _, s := range c.Segs {
			b = b.Add(s.End)
		}
	}
	return b
}

// TestWidth compares with the advances in the hmtx tables of the Go fonts, in units of which a capital is
// 1480 high. (A second reader, written from the OpenType specification 1.9, was compared once with what
// golang.org/x/image/font/sfnt v0.47.0 reads: for all 709 characters of both fonts the advances are the
// same, and the outlines differ by half a unit at most, sfnt's rounding.)
func TestWidth(t *testing.T) {
	for _, c := range []struct {
		s     string
		bold  bool
		units float64
	}{
		{"H", false, 1479}, {"Hg", false, 1479 + 1139}, {"(,|@", false, 682 + 648 + 532 + 2079},
		{"Hg", true, 1479 + 1251}, {"j", true, 589}, {"", false, 0},
	} {
		got := export.Text{S: c.s, Height: 1480, Bold: c.bold}.Width()
		if math.Abs(got-c.units) > 1e-9 {
			t.Errorf("%q bold %v: width %v, want %v", c.s, c.bold, got, c.units)
		}
	}
}

// TestCapital holds Text.Height to be the height of a capital letter, at every angle.
// TestAdvance: words and blanks advance as much alone as together, also where letters are spelled out.
func TestAdvance(t *testing.T) {
	for _, s := range []string{"a few words", "⌀ 3 mm and Ø Øre", "木 ₂ x Æ 字字 é", "≈ \u0301 1"} {
		sum := 0.0
		for i, word := range strings.Split(s, " ") {
			if i > 0 {
				sum += export.Text{S: " "}.Advance()
			}
			sum += export.Text{S: word}.Advance()
		}
		if got := (export.Text{S: s}).Advance(); got != sum {
			t.Errorf("%q advances %g, its words and blanks %g", s, got, sum)
		}
	}
}

func TestCapital(t *testing.T) {
	for _, bold := range []bool{false, true} {
		b := box(export.Text{S: "H", Height: 5, Bold: bold}.Outlines())
		if math.Abs(b.Min.Y) > 1e-9 || math.Abs(b.Max.Y-5) > 1e-9 {
			t.Errorf("bold %v: H stands from %v to %v, want 0 to 5", bold, b.Min.Y, b.Max.Y)
		}
	}
	b := box(export.Text{S: "H", Height: 5, Angle: math.Pi / 2}.Outlines())
	if math.Abs(b.W()-5) > 1e-9 || b.Max.X > 1e-9 {
		t.Errorf("upright: H lies from %v to %v, want -5 to 0", b.Min.X, b.Max.X)
	}
}

// TestClosed holds every outline to end where it starts, as Contour promises.
func TestClosed(t *testing.T) {
	for _, bold := range []bool{false, true} {
		for r := '!'; r <= 'ž'; r++ {
			for i, c := range (export.Text{S: string(r), Height: 5, Bold: bold}).Outlines() {
				if n := len(c.Segs); n < 2 || c.Segs[n-1].End != c.Start {
					t.Errorf("%q bold %v, outline %d: %d steps, start %v: not closed", r, bold, i, n, c.Start)
				}
			}
		}
	}
}

// TestEachLetter builds a text of its letters, one by one, as a writer does that keeps them.
func TestEachLetter(t *testing.T) {
	for _, tx := range []export.Text{
		{S: "Rib U4 – 6 × 38 ″ 木", At: geom.Pt{X: 100, Y: 50}, Height: 7, Angle: 0.3, Anchor: export.Middle},
		{S: "⅝ in, Ø", At: geom.Pt{X: -3, Y: 2}, Height: 2.5, Bold: true, Anchor: export.Right},
	} {
		want, n, letters := tx.Outlines(), 0, ""
		tx.EachLetter(func(r rune, at geom.Pt) {
			letters += string(r)
			for _, c := range (export.Text{S: string(r), Height: tx.Height, Angle: tx.Angle, Bold: tx.Bold}).Outlines() {
				if n < len(want) && c.Start.Add(at).Dist(want[n].Start) > 1e-9 {
					t.Errorf("%q: an outline of %q begins at %v, want %v", tx.S, r, c.Start.Add(at), want[n].Start)
				}
				n++
			}
		})
		if n != len(want) || letters != tx.Letters() {
			t.Errorf("%q: %d outlines of %q, want %d of %q", tx.S, n, letters, len(want), tx.Letters())
		}
	}
}

func TestAnchors(t *testing.T) {
	at := geom.Pt{X: 100, Y: 50}
	for _, c := range []struct {
		anchor export.Anchor
		x, y   float64 // of the anchor in the capital's box, shares
	}{{export.Left, 0, 0}, {export.Center, 0.5, 0}, {export.Right, 1, 0}, {export.Middle, 0.5, 0.5}} {
		for _, angle := range []float64{0, 0.3, math.Pi / 2, math.Pi, -2} {
			tx := export.Text{S: "Rib U4", At: at, Height: 7, Angle: angle, Anchor: c.anchor}
			k := tx.Corners()
			up := k[3].Sub(k[0]).Unit()
			base := k[3].Along(up, -7) // the base line's left end
			got := base.Along(k[1].Sub(k[0]), c.x).Along(up, 7*c.y)
			if got.Dist(at) > 1e-9 || base.Dist(tx.Origin()) > 1e-9 {
				t.Errorf("anchor %d at %v rad: stands at %v, want %v", c.anchor, angle, got, at)
			}
			if d := up.Dist(geom.Polar(angle + math.Pi/2)); d > 1e-9 {
				t.Errorf("anchor %d at %v rad: up is %v", c.anchor, angle, up)
			}
		}
	}
}

// TestCorners holds every letter of a common text inside the box that a placer of labels uses.
func TestCorners(t *testing.T) {
	for _, bold := range []bool{false, true} {
		tx := export.Text{S: "Hamburgefonts gypq 0123456789", Height: 10, Bold: bold}
		k := tx.Corners()
		ink := box(tx.Outlines())
		if ink.Min.X < k[0].X || ink.Max.X > k[2].X || ink.Min.Y < k[0].Y || ink.Max.Y > k[2].Y+0.9 { // b, f and h rise above the capitals
			t.Errorf("bold %v: ink %v outside the box %v", bold, ink, k)
		}
	}
}

// TestMissingLetters: what the font lacks is drawn otherwise, never left out.
func TestMissingLetters(t *testing.T) {
	for _, c := range []struct{ s, as string }{
		{"⌀38", "Ø38"}, {"漢", "?"}, {"a\u2009b", "a b"}, {"ok ✓", "ok ?"}, {"a\u0301", "a"}, {"😀", "?"}, {"\xff", "\ufffd"},
	} {
		got, want := export.Text{S: c.s, Height: 5}, export.Text{S: c.as, Height: 5}
		if got.Width() != want.Width() || len(got.Outlines()) != len(want.Outlines()) {
			t.Errorf("%q: width %v, %d contours; want those of %q: %v, %d", c.s, got.Width(), len(got.Outlines()), c.as, want.Width(), len(want.Outlines()))
		}
	}
}

// TestOutlinesTogether draws from many goroutines at once; the race detector watches where it runs.
func TestOutlinesTogether(t *testing.T) {
	const s = "Drawings are written in parallel: 0123456789 éØ½"
	want := len(export.Text{S: s, Height: 5}.Outlines())
	var wg sync.WaitGroup
	for i := range 8 {
		wg.Go(func() {
			if got := len(export.Text{S: s, Height: 5, Bold: i%2 == 1}.Outlines()); got != want {
				t.Errorf("goroutine %d: %d contours, want %d", i, got, want)
			}
		})
	}
	wg.Wait()
}

func TestASCII(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"6 × 38 mm", "6 x 38 mm"}, {"12.5°", "12.5 deg"}, {"°", "deg"}, {"café Märsh Ærø", "cafe Marsh AEro"},
		{"Ø38", "dia. 38"}, {"⌀ 38", "dia. 38"}, {"Øster", "Oster"}, {"1½ in", "1 1/2 in"}, {"⅛", "1/8"}, {"5⅜″", "5 3/8\""},
		{"U1–U4 … ±0.1 mm²", "U1-U4 ... +/-0.1 mm2"}, {"“x” ≤ 3", "\"x\" <= 3"}, {"漢", "?"}, {"a\tb", "a b"}, {"e\u0301", "e"}, {"\xff", "?"},
		{"plain ~ {text} ^", "plain ~ {text} ^"}, {"→ aft", "-> aft"}, {"", ""},
	} {
		got := export.ASCII(c.in)
		if got != c.want {
			t.Errorf("%q: got %q, want %q", c.in, got, c.want)
		}
		for _, r := range got {
			if r < ' ' || r > '~' {
				t.Errorf("%q: got %q, which is not ASCII", c.in, got)
			}
		}
	}
}

func FuzzText(f *testing.F) {
	for _, s := range []string{"6 × 38 mm", "1½ Ø38 12.5°", "漢😀", "e\u0301", "\xff\x00", " √ "} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, r := range export.ASCII(s) {
			if r < ' ' || r > '~' {
				t.Errorf("%q is spelt %q", s, export.ASCII(s))
			}
		}
		tx := export.Text{S: s, Height: 5, Anchor: export.Middle}
		if w := tx.Width(); !(w >= 0) || len(tx.Outlines()) > 0 && w == 0 {
			t.Errorf("%q is %v mm long with %d outlines", s, w, len(tx.Outlines()))
		}
	})
}
