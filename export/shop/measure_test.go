package shop

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ribwright/airfoils"
	"ribwright/export"
	"ribwright/export/dxf"
	"ribwright/geom"
	"ribwright/geom/outside"
	"ribwright/geom/ribfile"
)

// printOf measures a piece of a demo rib, scaled, with one upper reading 20 mm wrong.
func printOf(j job, scale float64) Measured {
	var readings []airfoils.Reading
	c := j.rib.Contour
	for i, x := range c.Stations {
		up, lo, ok := c.At(x)
		if !ok {
			continue
		}
		if i == 9 {
			up += 20
		}
		readings = append(readings, airfoils.Reading{Of: airfoils.OfUpper, Station: scale * x, Value: scale * up, Line: i + 2},
			airfoils.Reading{Of: airfoils.OfLower, Station: scale * x, Value: scale * lo, Line: i + 2})
	}
	return Measured{Comparison: airfoils.Compare(c.Upper, c.Lower, readings, false), Title: j.doc.Title,
		Units: j.doc.Units, Chord: j.rib.Chord, Tolerance: ribfile.MMPerInch / 32}
}

// onPaper fails where a drawing is faulty, or draws beyond its sheet.
func onPaper(t *testing.T, name string, d export.Drawing) {
	t.Helper()
	if err := d.Check(); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	s := d.Sheets[0]
	paper := geom.NewBox(geom.Pt{}, geom.Pt{X: s.W, Y: s.H})
	for _, it := range s.Parts[0].Items {
		if b := itemBox(it); !paper.Holds(b.Min) || !paper.Holds(b.Max) {
			t.Errorf("%s: an item on layer %s lies off the sheet: %v", name, it.Layer, b)
		}
	}
}

// TestMeasurePicture holds that the picture lies on a sheet for an A3 page, that the deviations drawn are the
// factor times the true ones, and that the wrong reading alone is cut off and numbered after the fit.
func TestMeasurePicture(t *testing.T) {
	for _, j := range demos(t) {
		m := printOf(j, 0.985)
		d := m.Drawing(j.rib.Contour.Upper, j.rib.Contour.Lower)
		onPaper(t, j.name, d)
		if s := d.Sheets[0]; s.W > 420 || s.H > 297 {
			t.Errorf("%s: the sheet is %.0f × %.0f mm, want 420 × 297 at most", j.name, s.W, s.H)
		}
		fitted := func(d airfoils.Deviation) float64 { return d.Fitted }
		p := &picture{canvas: &canvas{}, m: m, scale: reduction(m.Chord), factor: m.factor(fitted)}
		p.bars(fitted)
		arrows, numbers := 0, 0
		var drawn []float64
		for _, it := range p.items {
			switch {
			case it.Text != nil:
				numbers++
			case it.Layer == layerOver && it.Fill && len(it.Path.Segs) == 2:
				arrows++
			case it.Layer == layerDeviation && !it.Fill && len(it.Path.Segs) == 1:
				drawn = append(drawn, it.Path.Start.Dist(it.Path.Segs[0].End))
			}
		}
		if arrows != 1 || numbers != 1 {
			t.Errorf("%s: %d arrows and %d numbers after the fit, want 1 and 1", j.name, arrows, numbers)
		}
		for _, dev := range m.Deviations {
			if long := math.Abs(dev.Fitted) * p.factor; !m.over(dev.Fitted) && long > 1e-9 && !holds(drawn, long) {
				t.Errorf("%s: no bar is %.4f mm long", j.name, long)
			}
		}
	}
}

func holds(all []float64, v float64) bool {
	for _, a := range all {
		if math.Abs(a-v) < 1e-9 {
			return true
		}
	}
	return false
}

// TestMeasureWords holds what is said of a small print, in both unit systems.
func TestMeasureWords(t *testing.T) {
	for _, j := range demos(t) {
		m := printOf(j, 0.985)
		words := strings.Join(m.Words(), "\n")
		for _, want := range []string{"it fits best at 98.5 %", "line 11 upper. Measure there again", "over the tolerance of " + j.doc.Units.Length(m.Tolerance)} {
			if !strings.Contains(words, want) {
				t.Errorf("%s: the words lack %q:\n%s", j.name, want, words)
			}
		}
		if err := m.Table().Check(); err != nil {
			t.Errorf("%s: %v", j.name, err)
		}
	}
}

// TestSectionDrawings draws every section that is built in, and one from equations, at two chords: on the sheet,
// with the contour as long as the chord to the ends of its open tail.
func TestSectionDrawings(t *testing.T) {
	var all []airfoils.Section
	for _, n := range airfoils.BuiltinNames() {
		s, _ := airfoils.Builtin(n)
		all = append(all, s)
	}
	s, _ := airfoils.NACA("4412")
	for _, s := range append(all, s) {
		for _, chord := range []float64{120, 1400} {
			d := SectionDrawing(s, chord, ribfile.MM)
			onPaper(t, s.Name, d)
			it, ok := byID(d.Sheets[0].Parts[0].Items, "outline")
			if w := it.Path.Box().W(); !ok || math.Abs(w-chord) > chord/500 {
				t.Errorf("%s: the contour is %.3f mm long, want %.0f", s.Name, w, chord)
			}
		}
	}
}

// TestMeasureDXF reads the new drawings with ezdxf: no error and no repair.
func TestMeasureDXF(t *testing.T) {
	python := outside.Python(t, "ezdxf")
	j := demos(t)[0]
	s, _ := airfoils.Builtin("clark-y")
	for i, d := range []export.Drawing{printOf(j, 0.985).Drawing(j.rib.Contour.Upper, j.rib.Contour.Lower), SectionDrawing(s, 1200, ribfile.MM)} {
		var b bytes.Buffer
		if err := dxf.Write(&b, d, 0); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), fmt.Sprintf("%d.dxf", i))
		if err := os.WriteFile(path, b.Bytes(), 0o666); err != nil {
			t.Fatal(err)
		}
		out := outside.Run(t, python, "-c", "import sys\nfrom ezdxf import recover\nd, a = recover.readfile(sys.argv[1])\nprint(len(a.errors), len(a.fixes))", path)
		if got := strings.TrimSpace(string(out)); got != "0 0" {
			t.Errorf("drawing %d: ezdxf found %s errors and repairs", i, got)
		}
	}
}
