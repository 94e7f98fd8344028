package shop_test

import (
	"bytes"
	"encoding/json"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ribwright/export/dxf"
	"ribwright/export/list"
	"ribwright/export/shop"
	"ribwright/export/svg"
	"ribwright/geom"
	"ribwright/geom/cut"
	"ribwright/geom/outside"
	"ribwright/geom/rib"
)

// measureSheets reads a DXF file of sheets with ezdxf and measures it with shapely: of every sheet the areas inside the
// cuts, the least distance between two of them, and the least distance to the sheet's edge.
const measureSheets = `
import sys, json, warnings
warnings.simplefilter("ignore")
from math import atan, cos, hypot, pi, sin, tan
from ezdxf import recover
from shapely.geometry import Polygon, box
from shapely.prepared import prep
from shapely.strtree import STRtree
doc, aud = recover.readfile(sys.argv[1])
def points(e):
    if e.dxftype() == 'CIRCLE':
        c, r = e.dxf.center, e.dxf.radius
        return [(c.x + r * cos(k * pi / 360), c.y + r * sin(k * pi / 360)) for k in range(720)]
    out, pts = [], list(e.get_points('xyb'))
    for p, q in zip(pts, pts[1:] + pts[:1]):
        out.append((p[0], p[1]))
        if p[2]: # an arc: its points turn about a centre beside the chord
            h = (1 / p[2] - p[2]) / 4
            cx, cy = (p[0] + q[0]) / 2 - h * (q[1] - p[1]), (p[1] + q[1]) / 2 + h * (q[0] - p[0])
            x, y, w = p[0] - cx, p[1] - cy, 4 * atan(p[2])
            n = 1 + int(abs(w) * 120)
            out += [(cx + x * cos(w * k / n) - y * sin(w * k / n), cy + x * sin(w * k / n) + y * cos(w * k / n)) for k in range(1, n)]
    return out
def polygons(layer):
    return [Polygon(points(e)) for e in doc.modelspace()
        if e.dxf.layer == layer and (e.dxftype() == 'CIRCLE' or e.dxftype() == 'LWPOLYLINE' and e.closed)]
cuts, holes, texts = polygons('CUT'), polygons('HOLE'), sum(e.dxftype() in ('TEXT', 'MTEXT') for e in doc.modelspace())
out = dict(errors=len(aud.errors), fixes=len(aud.fixes), texts=texts, sheets=[], lost=len(cuts))
for s in polygons('SHEET'):
    inside = prep(s)
    on = [c for c in cuts if inside.contains(c)]
    out['lost'] -= len(on)
    tree, gap = STRtree(on), 1e9
    for c in on:
        x, y, X, Y = c.bounds
        for o in tree.query(box(x, y - 20, X + 20, Y + 20)): # every pair from its left one
            o = on[o] if not isinstance(o, Polygon) else o # shapely 2 gives indices, 1.8 shapes
            p, q, P, Q = o.bounds
            if o is not c and max(p - X, x - P, q - Y, y - Q) < gap:
                gap = min(gap, c.distance(o))
    out['sheets'].append(dict(areas=sorted(c.area for c in on), gap=gap, edge=min(c.distance(s.exterior) for c in on),
        holes=[[h.centroid.x - s.bounds[0], h.centroid.y - s.bounds[1]] for h in holes if s.contains(h)]))
print(json.dumps(out))
`

// TestSheetsInShapely holds what a laser would cut: on every sheet the plates of the list, each with its kerf, no two cuts nearer
// than the gap, none nearer to the edge than the margin, and over all sheets the whole set.
func TestSheetsInShapely(t *testing.T) {
	python := outside.Python(t, "shapely")
	for _, name := range ribFiles {
		r, doc := layOut(t, name)
		l := cut.Nest(rib.One(r, doc), nil, nil)
		var b bytes.Buffer
		if err := dxf.Write(&b, shop.SheetFile(shop.NewCutting(doc, l)), 0); err != nil {
			t.Fatal(err)
		}
		var got struct {
			Errors, Fixes, Texts, Lost int
			Sheets                     []struct {
				Areas     []float64
				Gap, Edge float64
				Holes     [][2]float64
			}
		}
		if err := json.Unmarshal([]byte(outside.Run(t, python, "-c", measureSheets, outside.File(t, "sheets.dxf", b.Bytes()))), &got); err != nil {
			t.Fatal(err)
		}
		if got.Errors+got.Fixes+got.Texts+got.Lost > 0 || len(got.Sheets) != len(l.Sheets) {
			t.Fatalf("%s: %d errors, %d repairs, %d texts, %d cuts on no sheet, %d sheets of %d", name, got.Errors, got.Fixes, got.Texts, got.Lost, len(got.Sheets), len(l.Sheets))
		}
		kerf, pieces := l.Tool.Kerf, 0
		if l.Tool.Name == "hole-saw" {
			kerf = math.Min(kerf, l.Tool.Line) // of two cuts side by side; wider ones stand farther apart
		}
		for k, s := range l.Sheets {
			m := got.Sheets[k]
			var want []float64
			for _, p := range s.Placed {
				plate := l.Plates[p.Plate]
				switch {
				case plate.Blank > 0:
					want = append(want, math.Pi/4*(plate.Blank+l.Tool.Kerf)*(plate.Blank+l.Tool.Kerf))
				default:
					c := l.Tool.Kerf
					if l.Tool.Name == "hole-saw" {
						c = l.Tool.Line
					}
					want = append(want, plate.Outline.Area()+plate.Outline.Length()*c/2+math.Pi*c*c/4)
				}
			}
			slices.Sort(want)
			if len(m.Areas) != len(want) {
				t.Fatalf("%s, sheet %d: %d cuts for %d plates", name, k+1, len(m.Areas), len(want))
			}
			for i := range want {
				if math.Abs(m.Areas[i]-want[i]) > 0.05 { // the chords of 720 to a circle take 0.02 mm² of a plate
					t.Errorf("%s, sheet %d: a cut about %.3f mm², want %.3f", name, k+1, m.Areas[i], want[i])
				}
			}
			if m.Gap < doc.Sheet.Gap+kerf-0.002 {
				t.Errorf("%s, sheet %d: two cuts %.4f mm apart, want %g and the kerf %g", name, k+1, m.Gap, doc.Sheet.Gap, kerf)
			}
			if m.Edge < doc.Sheet.Margin+kerf/2-0.002 {
				t.Errorf("%s, sheet %d: a cut %.4f mm from the edge, want %g", name, k+1, m.Edge, doc.Sheet.Margin)
			}
			pieces += s.Count * len(m.Areas)
			checkHoles(t, name, l, k, m.Holes)
			t.Logf("%s, sheet %d ×%d: %d plates, nearest %.3f mm, edge %.3f mm", name, k+1, s.Count, len(m.Areas), m.Gap, m.Edge)
		}
		set := 0
		for _, g := range r.Gussets {
			set += r.Count * g.Faces
		}
		if pieces != set {
			t.Errorf("%s: %d plates on the sheets, the set has %d", name, pieces, set)
		}
	}
}

// checkHoles finds every pilot hole where the drill goes.
func checkHoles(t *testing.T, name string, l cut.Layout, k int, got [][2]float64) {
	t.Helper()
	holes := l.Holes(k)
	if len(got) != len(holes) {
		t.Errorf("%s, sheet %d: %d holes, want %d", name, k+1, len(got), len(holes))
	}
	for _, h := range holes {
		if !slices.ContainsFunc(got, func(g [2]float64) bool { return h.At.Dist(geom.Pt{X: g[0], Y: g[1]}) < 1e-3 }) {
			t.Errorf("%s, sheet %d: no hole at %v", name, k+1, h.At)
		}
	}
}

// TestHolesRead reads the holes' drawing with ezdxf: a circle of the pilot drill at each place of the list, and nothing to repair.
func TestHolesRead(t *testing.T) {
	python := outside.Python(t, "ezdxf")
	r, doc := layOut(t, ribFiles[0])
	l := cut.Nest(rib.One(r, doc), nil, nil)
	var b bytes.Buffer
	if err := dxf.Write(&b, shop.HoleFile(doc, l), 0); err != nil {
		t.Fatal(err)
	}
	const read = `
import sys, json, warnings
warnings.simplefilter("ignore")
from ezdxf import recover
doc, aud = recover.readfile(sys.argv[1])
print(json.dumps([len(aud.errors) + len(aud.fixes), [[e.dxf.center.x, e.dxf.center.y, e.dxf.radius] for e in doc.modelspace() if e.dxftype() == 'CIRCLE' and e.dxf.layer == 'HOLE']]))
`
	var got []json.RawMessage
	if err := json.Unmarshal([]byte(outside.Run(t, python, "-c", read, outside.File(t, "holes.dxf", b.Bytes()))), &got); err != nil {
		t.Fatal(err)
	}
	var faults int
	var circles [][3]float64
	if json.Unmarshal(got[0], &faults) != nil || json.Unmarshal(got[1], &circles) != nil || faults > 0 {
		t.Fatalf("%s", got)
	}
	n := 0
	for k := range l.Sheets {
		for i, h := range l.Holes(k) {
			c := circles[n]
			if k == 0 && h.At.Dist(geom.Pt{X: c[0], Y: c[1]}) > 1e-3 || math.Abs(c[2]-l.Tool.Pilot/2) > 1e-3 {
				t.Errorf("sheet %d, hole %d: circle %v, want %v", k+1, i+1, c, h.At)
			}
			n++
		}
	}
	if n != len(circles) {
		t.Errorf("%d circles for %d holes", len(circles), n)
	}
}

// TestSheetsSVG holds the laser's file well formed, in millimetres, its groups in the order of cutting, without text.
func TestSheetsSVG(t *testing.T) {
	xmllint := outside.Need(t, "xmllint")
	for _, name := range ribFiles[:2] {
		r, doc := layOut(t, name)
		var b bytes.Buffer
		if err := svg.Write(&b, shop.SheetFile(shop.NewCutting(doc, cut.Nest(rib.One(r, doc), nil, nil))), 0); err != nil {
			t.Fatal(err)
		}
		outside.Run(t, xmllint, "--noout", "--nonet", outside.File(t, "sheets.svg", b.Bytes()))
		s := b.String()
		if !regexp.MustCompile(`width="[\d.]+mm" height="[\d.]+mm" viewBox="0 0 [\d.]+ [\d.]+"`).MatchString(s) || strings.Contains(s, "<text") {
			t.Errorf("%s: no size in mm, or text", name)
		}
		at := -1
		for _, id := range []string{"mark", "hole", "cut"} {
			i := strings.Index(s, `<g id="`+id+`"`)
			if i < 0 && id != "hole" || i >= 0 && i < at {
				t.Errorf("%s: the group %s stands at %d, behind %d", name, id, i, at)
			}
			at = max(at, i)
		}
	}
}

// TestDrillingIsTheList: the programs drill where the list of holes says, in its order, in millimetres and in inches.
func TestDrillingIsTheList(t *testing.T) {
	for _, name := range []string{ribFiles[0], "cmd/ribwright/demo/starter.toml"} {
		r, doc := layOut(t, name)
		doc.Saw.Plates = "hole-saw"
		l := cut.Nest(rib.One(r, doc), nil, nil)
		var csv bytes.Buffer
		if err := list.CSV(&csv, shop.CutTables(doc, l)[1]); err != nil {
			t.Fatal(err)
		}
		rows := strings.Split(strings.TrimSpace(strings.ReplaceAll(csv.String(), "\r", "")), "\n")[1:]
		for k := range l.Sheets {
			var b bytes.Buffer
			if err := shop.Drilling(doc, l, k).Write(&b); err != nil {
				t.Fatal(err)
			}
			for _, m := range regexp.MustCompile(`(?m)^(?:G98 G81 )?X([-\d.]+) Y([-\d.]+)(?: Z\S+ R\S+ F\S+)? \((\S+)\)$`).FindAllStringSubmatch(b.String(), -1) {
				if len(rows) == 0 {
					t.Fatalf("%s, sheet %d: more holes than the list has", name, k+1)
				}
				row := strings.Split(rows[0], ",")
				rows = rows[1:]
				for i, want := range row[2:4] {
					w, _ := strconv.ParseFloat(want, 64)
					if got, err := strconv.ParseFloat(m[1+i], 64); err != nil || math.Abs(got-w) > 0.00051 || row[0] != strconv.Itoa(k+1) || m[3] != row[4] {
						t.Fatalf("%s, sheet %d: drilled %v, the list has %v", name, k+1, m, row)
					}
				}
			}
		}
		if len(rows) > 0 {
			t.Errorf("%s: %d holes of the list are not drilled", name, len(rows))
		}
	}
}

// TestDrillingInLinuxCNC runs the demo's program through LinuxCNC's stand-alone interpreter: it drills at the places of the list.
func TestDrillingInLinuxCNC(t *testing.T) {
	rs274 := outside.Optional(t, "rs274")
	r, doc := layOut(t, ribFiles[0])
	l := cut.Nest(rib.One(r, doc), nil, nil)
	for k := range l.Sheets {
		var b bytes.Buffer
		if err := shop.Drilling(doc, l, k).Write(&b); err != nil {
			t.Fatal(err)
		}
		out := outside.Run(t, rs274, "-g", outside.File(t, "drill.ngc", b.Bytes()))
		var drilled []geom.Pt
		for _, m := range regexp.MustCompile(`STRAIGHT_FEED\(([-\d.]+), ([-\d.]+), -2\.5000`).FindAllStringSubmatch(out, -1) {
			x, _ := strconv.ParseFloat(m[1], 64)
			y, _ := strconv.ParseFloat(m[2], 64)
			drilled = append(drilled, geom.Pt{X: x, Y: y})
		}
		holes := l.Holes(k)
		if len(drilled) != len(holes) {
			t.Fatalf("sheet %d: %d holes drilled, want %d\n%.500s", k+1, len(drilled), len(holes), out)
		}
		for i, h := range holes {
			if h.At.Dist(drilled[i]) > 0.001 {
				t.Errorf("sheet %d: hole %d at %v, want %v", k+1, i+1, drilled[i], h.At)
			}
		}
	}
}
