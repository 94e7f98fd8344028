package export_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"ribwright/export"
	"ribwright/geom"
)

const strokeSigns = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ+-.,:/=°×()'\"?Ø"

// strokeBox returns the box of lettering in strokes.
func strokeBox(ps []geom.Path) (b geom.Box) {
	for _, p := range ps {
		b = b.Union(export.Bounds(p))
	}
	return b
}

// TestStrokes holds every letter open, smooth in its arcs, on its grid, and unlike any other.
func TestStrokes(t *testing.T) {
	seen := map[string]rune{}
	for _, r := range strokeSigns {
		tx := export.Text{S: string(r), Height: 12}
		ps := tx.Strokes()
		b := strokeBox(ps)
		if len(ps) == 0 || b.Min.X < -1e-9 || b.Min.Y < -1e-9 || b.Max.Y > 12+1e-9 || math.Abs(b.Max.X-tx.StrokeWidth()) > 1e-9 {
			t.Errorf("%q lies in %v, width %g", r, b, tx.StrokeWidth())
		}
		for _, p := range ps {
			if p.Closed || len(p.Segs) == 0 {
				t.Errorf("%q: %v is no open path", r, p)
			}
			for i, s := range p.Segs { // no kink where an arc meets a line that runs on
				a := p.Start
				if i > 0 {
					a = p.Segs[i-1].End
				}
				if d := s.End.Sub(a); s.Bulge != 0 && math.Abs(d.X) != math.Abs(d.Y) {
					t.Errorf("%q, step %d: %v is no quarter circle", r, i+1, d)
				}
			}
		}
		key := fmt.Sprint(ps)
		if o, twice := seen[key]; twice {
			t.Errorf("%q looks like %q", r, o)
		}
		seen[key] = r
	}
}

func TestStrokeSpelling(t *testing.T) {
	for _, c := range []struct{ s, as string }{
		{"u4", "U4"}, {"L12+u3", "L12+U3"}, {"38−0.2", "38-0.2"}, {"ß", "SS"}, {"漢", "?"}, {"a#b", "A?B"}, {"é", "E"}, {"⌀38", "Ø38"},
	} {
		if got, want := fmt.Sprint(export.Text{S: c.s, Height: 3}.Strokes()), fmt.Sprint(export.Text{S: c.as, Height: 3}.Strokes()); got != want {
			t.Errorf("%q is not drawn as %q", c.s, c.as)
		}
	}
}

// TestStrokePlace: anchors and turns place strokes as they place text.
func TestStrokePlace(t *testing.T) {
	at := geom.Pt{X: 100, Y: 50}
	for _, c := range []struct {
		anchor export.Anchor
		x, y   float64
	}{{export.Left, 0, 0}, {export.Center, 0.5, 0}, {export.Right, 1, 0}, {export.Middle, 0.5, 0.5}} {
		tx := export.Text{S: "H24H", At: at, Height: 6, Anchor: c.anchor}
		b := strokeBox(tx.Strokes())
		if got := b.Min.Add(geom.Pt{X: c.x * b.W(), Y: c.y * b.H()}); got.Dist(at) > 1e-9 || math.Abs(b.H()-6) > 1e-9 {
			t.Errorf("anchor %d: stands at %v, %g high", c.anchor, got, b.H())
		}
		tx.Angle = math.Pi / 2
		up := strokeBox(tx.Strokes())
		if math.Abs(up.W()-6) > 1e-9 || math.Abs(up.H()-b.W()) > 1e-9 {
			t.Errorf("anchor %d, upright: %v", c.anchor, up)
		}
	}
	if w := (export.Text{S: "", Height: 5}).StrokeWidth(); w != 0 {
		t.Errorf("no text is %g wide", w)
	}
	for _, r := range slices.Collect(func(yield func(rune) bool) {
		for r := ' '; r < 0x250 && yield(r); r++ {
		}
	}) {
		if tx := (export.Text{S: string(r), Height: 5}); r != ' ' && len(tx.Strokes()) > 0 && !(tx.StrokeWidth() >= 0) {
			t.Errorf("%q has the width %g", r, tx.StrokeWidth())
		}
	}
}

func ExampleText_Strokes() {
	for _, p := range (export.Text{S: "L4", Height: 12}).Strokes() {
		fmt.Println(p.Start, p.Segs)
	}
	// Output:
	// {0 12} [{{0 0} 0} {{7 0} 0}]
	// {17 0} [{{17 12} 0} {{11 4} 0} {{19 4} 0}]
}
