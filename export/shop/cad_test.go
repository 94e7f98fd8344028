package shop_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/dxf"
	"ribwright/export/shop"
	"ribwright/geom"
	"ribwright/geom/fasten"
	"ribwright/geom/outside"
)

// dxfUnits are the units of DXF files, and how many millimetres each counts.
var dxfUnits = []struct {
	name string
	unit dxf.Unit
	mm   float64
}{{"mm", dxf.Millimetre, 1}, {"in", dxf.Inch, 25.4}}

// cadFile writes a drawing as DXF and returns the file's path.
func cadFile(t *testing.T, d export.Drawing, unit dxf.Unit) string {
	t.Helper()
	var b bytes.Buffer
	if err := dxf.WriteIn(&b, d, 0, unit); err != nil {
		t.Fatal(err)
	}
	return outside.File(t, "d.dxf", b.Bytes())
}

// onePage returns the drawings of one sheet.
func onePage(t *testing.T, name string) map[string]export.Drawing {
	t.Helper()
	r, doc := layOut(t, name)
	return map[string]export.Drawing{"jig": shop.Jig(shop.NewField(r, doc, shop.BoardOf(r, doc), nil)), "plates": shop.Plates(r, doc, fasten.Of(r, doc))}
}

// TestDXFInGDAL reads the drawings in both units with GDAL: as many things on each layer as were drawn, the check
// square 100 mm by its corners, its label beside it.
func TestDXFInGDAL(t *testing.T) {
	ogr := outside.Need(t, "ogr2ogr")
	for what, d := range onePage(t, ribFiles[0]) {
		for _, u := range dxfUnits {
			cmd := exec.Command(ogr, "-f", "GeoJSON", "-lco", "COORDINATE_PRECISION=9", "/vsistdout/", cadFile(t, d, u.unit))
			out, err := cmd.Output()
			if err != nil {
				t.Fatal(err)
			}
			var got struct {
				Features []struct {
					Properties struct{ Layer, Text string }
					Geometry   struct {
						Type        string
						Coordinates json.RawMessage
					}
				}
			}
			if err := json.Unmarshal(out, &got); err != nil {
				t.Fatal(err)
			}
			count, square, label := map[string]int{}, false, false
			for _, f := range got.Features {
				count[f.Properties.Layer]++
				label = label || strings.Contains(f.Properties.Text, "100 mm")
				var at [][]float64
				if f.Properties.Layer != "CHECK" || f.Geometry.Type != "LineString" || json.Unmarshal(f.Geometry.Coordinates, &at) != nil || len(at) != 5 {
					continue
				}
				side := func(i, k int) float64 { return math.Abs(at[i+1][k]-at[i][k]) * u.mm }
				square = square || math.Abs(side(0, 0)-100) < 1e-4 && math.Abs(side(1, 1)-100) < 1e-4
			}
			if what == "plates" { // a cut file is lettered in strokes
				label = !label
			}
			if !square || !label {
				t.Errorf("%s in %s: square of 100 mm %v, its label %v", what, u.name, square, label)
			}
			want := map[string]int{}
			for _, it := range d.Sheets[0].Parts[0].Items {
				want[strings.ToUpper(it.Layer)] += 1 + len(it.Holes)
			}
			for l, n := range want {
				if count[l] != n {
					t.Errorf("%s in %s: %d things on layer %s, want %d", what, u.name, count[l], l, n)
				}
			}
		}
	}
}

// TestDXFInLibreCAD prints the drawings in both units with LibreCAD: the check square is 100 mm on its paper.
func TestDXFInLibreCAD(t *testing.T) {
	librecad, qpdf := outside.Need(t, "librecad"), outside.Need(t, "qpdf")
	for what, d := range onePage(t, ribFiles[0]) {
		for _, u := range dxfUnits {
			file := cadFile(t, d, u.unit)
			cmd := exec.Command(librecad, "dxf2pdf", "-p", "2000x1000", file) // writes beside it
			cmd.Env = append(os.Environ(), "QT_QPA_PLATFORM=offscreen", "HOME="+t.TempDir(), "XDG_RUNTIME_DIR="+t.TempDir())
			if out, err := cmd.CombinedOutput(); err != nil {
				t.Fatalf("%v\n%s", err, out)
			}
			page := strings.TrimSuffix(file, ".dxf") + ".pdf"
			outside.Run(t, qpdf, "--qdf", "--object-streams=disable", page, filepath.Join(filepath.Dir(file), "d.txt"))
			text, err := os.ReadFile(filepath.Join(filepath.Dir(file), "d.txt"))
			if err != nil {
				t.Fatal(err)
			}
			lines := paths(string(text))
			for _, way := range []geom.Pt{{X: 100}, {Y: 100}} {
				sides := 0
				for _, l := range lines {
					if b := geom.NewBox(l...); len(l) == 2 && math.Abs(b.W()-way.X) < 0.05 && math.Abs(b.H()-way.Y) < 0.05 {
						sides++
					}
				}
				if sides < 2 {
					t.Errorf("%s in %s: %d lines of %v mm, want the square's two", what, u.name, sides, way)
				}
			}
			if n := len(d.Sheets[0].Parts[0].Items); len(lines) < n {
				t.Errorf("%s in %s: %d lines for %d things", what, u.name, len(lines), n)
			}
		}
	}
}

// TestEveryDrawingSaysItsScale holds that a DXF file, whatever its unit, has a square of 100 mm and its label.
func TestEveryDrawingSaysItsScale(t *testing.T) {
	for _, name := range ribFiles {
		for what, d := range onePage(t, name) {
			items := d.Sheets[0].Parts[0].Items
			square := slices.ContainsFunc(items, func(it export.Item) bool {
				b := it.Path.Box()
				return it.Layer == "check" && it.Path.Closed && math.Abs(b.W()-100) < 1e-9 && math.Abs(b.H()-100) < 1e-9
			})
			label := slices.ContainsFunc(items, func(it export.Item) bool { return it.Text != nil && strings.Contains(it.Text.S, "100 mm") })
			if what == "plates" { // a cut file is lettered in strokes
				label = !label
			}
			if !square || !label {
				t.Errorf("%s, %s: square %v, label %v", name, what, square, label)
			}
		}
	}
}
