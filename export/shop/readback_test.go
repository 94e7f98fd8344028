package shop_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/dxf"
	"ribwright/export/pdf"
	"ribwright/export/shop"
	"ribwright/export/svg"
	"ribwright/geom"
	"ribwright/geom/fasten"
	"ribwright/geom/outside"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// ribFiles are the ribs whose files are read back by other programs.
var ribFiles = []string{"cmd/ribwright/demo/marsh-wren.toml", "cmd/ribwright/demo/reed-bunting.toml", "testdata/reference-rib/rib.toml"}

// layOut lays out a rib file of the repository.
func layOut(t *testing.T, name string) (*rib.Rib, *ribfile.Doc) {
	t.Helper()
	path := filepath.Join("../..", name)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	doc, fs := ribfile.Read(path, data)
	sec, more := rib.Section(doc, func(n string) ([]byte, error) { return os.ReadFile(filepath.Join(filepath.Dir(path), n)) })
	if len(fs)+len(more) > 0 {
		t.Fatal(fs, more)
	}
	r, _ := rib.Build(doc, sec)
	return r, doc
}

// readDXF is what ezdxf finds in a DXF file.
const readDXF = `
import sys, json, math
from ezdxf import recover
doc, aud = recover.readfile(sys.argv[1])
out = dict(errors=len(aud.errors), fixes=len(aud.fixes), insunits=doc.header.get('$INSUNITS'), parts=[])
for e in doc.modelspace():
    if e.dxftype() == 'CIRCLE':
        out['parts'].append([e.dxf.layer, 'CIRCLE', math.pi * e.dxf.radius ** 2])
    elif e.dxftype() == 'LWPOLYLINE' and e.closed:
        pts = list(e.get_points('xyb')); area = 0
        for p, q in zip(pts, pts[1:] + pts[:1]):
            area += (p[0] * q[1] - p[1] * q[0]) / 2
            if p[2]:
                w = 4 * math.atan(p[2]); r = math.hypot(q[0] - p[0], q[1] - p[1]) / 2 / math.sin(w / 2)
                area += r * r * (w - math.sin(w)) / 2
        out['parts'].append([e.dxf.layer, 'BULGE' if any(p[2] for p in pts) else 'LINES', abs(area)])
print(json.dumps(out))
`

// TestDXFAreas reads the drawings with ezdxf: no error, no repair, and the parts' areas are the rib's to 1e-3 mm².
func TestDXFAreas(t *testing.T) {
	python := outside.Python(t, "ezdxf")
	for _, name := range ribFiles {
		r, doc := layOut(t, name)
		for what, d := range map[string]export.Drawing{"jig": shop.Jig(shop.NewField(r, doc, shop.BoardOf(r, doc), nil)), "plates": shop.Plates(r, doc, fasten.Of(r, doc))} {
			var b bytes.Buffer
			if err := dxf.Write(&b, d, 0); err != nil {
				t.Fatal(err)
			}
			var got struct {
				Errors, Fixes, Insunits int
				Parts                   [][3]any
			}
			out := outside.Run(t, python, "-c", readDXF, outside.File(t, what+".dxf", b.Bytes()))
			if err := json.Unmarshal([]byte(out), &got); err != nil {
				t.Fatal(err)
			}
			if got.Errors+got.Fixes > 0 || got.Insunits != 4 {
				t.Errorf("%s, %s: %d errors, %d repairs, units %d", name, what, got.Errors, got.Fixes, got.Insunits)
			}
			find := func(part, kind string, area float64) {
				i := slices.IndexFunc(got.Parts, func(p [3]any) bool {
					return (kind == "" || p[1] == kind) && math.Abs(p[2].(float64)-area) < 1e-3
				})
				if i < 0 {
					t.Errorf("%s, %s: no %s of %.4f mm² for %s", name, what, kind, area, part)
					return
				}
				got.Parts = slices.Delete(got.Parts, i, i+1)
			}
			for _, g := range r.Gussets {
				kind := "LINES"
				if _, _, whole := g.Outline.IsCircle(); whole {
					kind = "CIRCLE"
				} else if g.Shape == rib.Round {
					kind = "BULGE"
				}
				find("plate "+g.ID, kind, g.AreaMM2)
			}
			if what == "plates" {
				continue
			}
			find("contour", "LINES", r.Contour.AreaMM2)
			for _, s := range r.Sticks {
				find(s.ID, "LINES", s.Outline.Area())
			}
			for _, k := range r.Blocks {
				find(k.ID, "LINES", k.AreaMM2)
			}
			for _, c := range r.Caps {
				find(c.ID, "LINES", c.Outline.Area())
			}
		}
	}
}

// TestSVGForm holds that the SVG is well formed, sized in mm, and has plain numbers and one group a layer.
func TestSVGForm(t *testing.T) {
	xmllint := outside.Need(t, "xmllint")
	number := regexp.MustCompile(`\d[eE][-+]?\d|-0[^.\d]|\d\.\d{5}|NaN|Inf`)
	for _, name := range ribFiles {
		r, doc := layOut(t, name)
		for what, d := range map[string]export.Drawing{"jig": shop.Jig(shop.NewField(r, doc, shop.BoardOf(r, doc), nil)), "plates": shop.Plates(r, doc, fasten.Of(r, doc))} {
			var b bytes.Buffer
			if err := svg.Write(&b, d, 0); err != nil {
				t.Fatal(err)
			}
			outside.Run(t, xmllint, "--noout", "--nonet", outside.File(t, what+".svg", b.Bytes()))
			s := d.Sheets[0]
			if !regexp.MustCompile(`width="[\d.]+mm" height="[\d.]+mm" viewBox="0 0 [\d.]+ [\d.]+"`).Match(b.Bytes()) {
				t.Errorf("%s, %s: no size in mm", name, what)
			}
			for _, p := range regexp.MustCompile(` d="[^"]*"`).FindAllString(b.String(), -1) {
				if bad := number.FindString(p); bad != "" {
					t.Errorf("%s, %s: %q is no plain number", name, what, bad)
				}
			}
			for _, l := range d.Layers {
				used := slices.ContainsFunc(s.Parts, func(p export.Part) bool {
					return slices.ContainsFunc(p.All(), func(i export.Item) bool { return i.Layer == l.ID })
				})
				if n := strings.Count(b.String(), `<g id="`+l.ID+`"`); used && n != 1 || !used && n > 0 {
					t.Errorf("%s, %s: %d groups for layer %s", name, what, n, l.ID)
				}
			}
		}
	}
}

// pages reads the paths of every page of a PDF, in mm, after qpdf has checked and unpacked it.
func pages(t *testing.T, d export.Drawing) [][][]geom.Pt {
	t.Helper()
	qpdf := outside.Need(t, "qpdf")
	var b bytes.Buffer
	if err := pdf.Write(&b, d); err != nil {
		t.Fatal(err)
	}
	file := outside.File(t, "d.pdf", b.Bytes())
	outside.Run(t, qpdf, "--check", file)
	outside.Run(t, qpdf, "--qdf", "--object-streams=disable", file, file+".txt")
	text, err := os.ReadFile(file + ".txt")
	if err != nil {
		t.Fatal(err)
	}
	var out [][][]geom.Pt
	for _, m := range regexp.MustCompile(`(?s)stream\n(.*?)\nendstream`).FindAllSubmatch(text, -1) {
		if bytes.Contains(m[1], []byte(" cm\n")) {
			out = append(out, paths(string(m[1])))
		}
	}
	return out
}

// paths follows the operators of a content stream; Béziers count by their end point.
func paths(content string) (out [][]geom.Pt) {
	const mm = 25.4 / 72
	m := geom.Identity
	var stack []geom.Transform
	for _, line := range strings.Split(content, "\n") {
		f := strings.Fields(line)
		if len(f) == 0 {
			continue
		}
		var v []float64
		for _, w := range f[:len(f)-1] {
			if x, err := strconv.ParseFloat(w, 64); err == nil {
				v = append(v, x)
			}
		}
		switch op := f[len(f)-1]; {
		case op == "q":
			stack = append(stack, m)
		case op == "Q":
			m, stack = stack[len(stack)-1], stack[:len(stack)-1]
		case op == "cm" && len(v) == 6:
			m = geom.Transform{A: v[0], B: v[1], C: v[2], D: v[3], E: v[4], F: v[5]}.Then(m)
		case op == "m" && len(v) == 2:
			out = append(out, []geom.Pt{m.Pt(geom.Pt{X: v[0], Y: v[1]}).Mul(mm)})
		case (op == "l" || op == "c") && len(v) >= 2:
			k := len(out) - 1
			out[k] = append(out[k], m.Pt(geom.Pt{X: v[len(v)-2], Y: v[len(v)-1]}).Mul(mm))
		}
	}
	return out
}

// hasSquare reports whether a page holds a path of four corners that is w × w mm to 0.01 mm.
func hasSquare(page [][]geom.Pt, w float64) bool {
	return slices.ContainsFunc(page, func(p []geom.Pt) bool {
		b := geom.NewBox(p...)
		return len(p) == 4 && math.Abs(b.W()-w) < 0.01 && math.Abs(b.H()-w) < 0.01
	})
}

// TestPDFPages reads the pages' own paths: a check square on the roll and on every tile, the page's box, and
// the tiles laid on each other give the roll.
func TestPDFPages(t *testing.T) {
	pdfinfo := outside.Need(t, "pdfinfo")
	for _, name := range ribFiles {
		r, doc := layOut(t, name)
		roll := pages(t, shop.Jig(shop.NewField(r, doc, shop.BoardOf(r, doc), nil)))
		if len(roll) != 1 || !hasSquare(roll[0], 100) || !hasSquare(roll[0], 101.6) {
			t.Errorf("%s: the roll has no true check squares of 100 mm and 4 in", name)
		}
		for _, size := range []string{"A4", "Letter", "A3", "330x480"} {
			paper, err := ribfile.ParsePaper(size, ribfile.MM)
			if err != nil {
				t.Fatal(err)
			}
			d, plan := shop.TilesAndPlan(t, r, doc, nil, paper)
			got := pages(t, d)
			if len(got) != len(d.Sheets) || len(plan) != len(got) {
				t.Fatalf("%s on %s: %d pages, %d sheets, %d tiles", name, size, len(got), len(d.Sheets), len(plan))
			}
			for i, page := range got {
				if !hasSquare(page, 100) {
					t.Errorf("%s on %s: sheet %s has no true check square", name, size, d.Sheets[i].Name)
				}
			}
			layTiles(t, fmt.Sprintf("%s on %s", name, size), r.Contour.Outline, got, plan)
			var b bytes.Buffer
			if err := pdf.Write(&b, d); err != nil {
				t.Fatal(err)
			}
			box := outside.Run(t, pdfinfo, "-box", outside.File(t, "d.pdf", b.Bytes()))
			m := regexp.MustCompile(`Page size: +([\d.]+) x ([\d.]+) pts`).FindStringSubmatch(box)
			w, _ := strconv.ParseFloat(m[1], 64)
			h, _ := strconv.ParseFloat(m[2], 64)
			if s := d.Sheets[0]; math.Abs(w*25.4/72-s.W) > 0.01 || math.Abs(h*25.4/72-s.H) > 0.01 {
				t.Errorf("%s on %s: page %g × %g points, want %g × %g mm", name, size, w, h, s.W, s.H)
			}
		}
	}
}

// layTiles holds that every point of the contour stands on some tile, to 0.01 mm, where that tile's window shows it.
func layTiles(t *testing.T, what string, contour geom.Ring, got [][][]geom.Pt, plan []shop.Tile) {
	t.Helper()
	on := map[[2]int64]bool{} // drawing points found on the tiles, on a grid of 0.01 mm
	for i, page := range got {
		for _, path := range page {
			for _, p := range path {
				q := p.Sub(plan[i].Offset)
				if plan[i].Window.Grow(0.01).Holds(p) {
					on[[2]int64{int64(math.Round(q.X * 100)), int64(math.Round(q.Y * 100))}] = true
				}
			}
		}
	}
	missing := 0
	for _, p := range contour {
		x, y := int64(math.Round(p.X*100)), int64(math.Round(p.Y*100))
		found := false
		for dx := int64(-1); dx <= 1; dx++ {
			for dy := int64(-1); dy <= 1; dy++ {
				found = found || on[[2]int64{x + dx, y + dy}]
			}
		}
		if !found {
			missing++
		}
	}
	if missing > 0 {
		t.Errorf("%s: %d of the contour's %d points stand on no tile", what, missing, len(contour))
	}
}
