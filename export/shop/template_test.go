package shop_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/dxf"
	"ribwright/export/shop"
	"ribwright/export/svg"
	"ribwright/geom"
	"ribwright/geom/outside"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// templates makes the templates of a rib, on one sheet and over pages.
var templates = []struct {
	name  string
	sheet func(*rib.Rib, *ribfile.Doc, takeoff.TakeOff) export.Drawing
	pages func(*rib.Rib, *ribfile.Doc, takeoff.TakeOff, shop.Page) export.Drawing
}{
	{"sticks", shop.Sticks, shop.StickPages},
	{"plates", shop.PlateTemplates, shop.PlateTemplatePages},
	{"former", shop.Former, shop.FormerPages},
}

var a4, letter, a3, small = shop.Page{W: 210, H: 297, Margin: 10}, shop.Page{W: 215.9, H: 279.4, Margin: 10}, shop.Page{W: 420, H: 297, Margin: 8}, shop.Page{W: 148, H: 210, Margin: 8}

// TestTemplatesLetter holds that on every sheet of every template no lettering is smaller than 2.5 mm, none overlaps
// another, and all stands within the paper's margins; and that a square to measure is there.
func TestTemplatesLetter(t *testing.T) {
	for _, name := range append(slices.Clone(ribFiles), "cmd/ribwright/demo/starter.toml") {
		r, doc := layOut(t, name)
		take := takeoff.Of(r, doc)
		for _, m := range templates {
			if m.name == "plates" && !shop.HasRoundPlates(r) {
				continue
			}
			for i, d := range []export.Drawing{m.sheet(r, doc, take), m.pages(r, doc, take, a4), m.pages(r, doc, take, letter), m.pages(r, doc, take, a3), m.pages(r, doc, take, small)} {
				what := fmt.Sprintf("%s, %s %d", name, m.name, i)
				if err := d.Check(); err != nil {
					t.Errorf("%s: %v", what, err)
				}
				margin := []float64{15, 10, 10, 8, 8}[i]
				for _, s := range d.Sheets {
					letteringStands(t, what+", "+s.Name, s, margin)
				}
			}
		}
	}
}

// TestTemplatesOfOddRibs holds the same for small and large chords, thin and thick sections, caps that begin on the nose
// block, a skin, and inches.
func TestTemplatesOfOddRibs(t *testing.T) {
	for _, c := range []struct {
		units, section, cap, nose string
		chord                     float64
	}{
		{"mm", `{ naca = "0006" }`, "depth = 3, width = 6", "", 300},
		{"mm", `{ naca = "0030" }`, "depth = 8, width = 12", "nose = { block_to = \"8%\" }", 4000},
		{"in", `{ naca = "23012", skin = [{ to = "20%", thickness = "1/16" }] }`, `depth = "5/16", width = "1/2", from = "3%"`, "nose = { block_to = \"5%\" }", 63},
		{"in", `{ builtin = "clark-y" }`, `depth = 2, width = "1/2"`, "", 60},
		{"mm", `{ naca = "6415" }`, "depth = 1, width = 8", "", 900},
	} {
		text := fmt.Sprintf("title = %q\nunits = %q\nsection = %s\nrib = { chord = %g, count = 7 }\ncap = { %s }\n%s\n", strings.Repeat("A long title ", 7), c.units, c.section, c.chord, c.cap, c.nose) +
			"[[spar]]\nname = \"front\"\nat = \"20%\"\nwidth = \"10 mm\"\n[[bay]]\nfrom = \"front\"\nto = \"70%\"\npanels = 4\n[gusset]\ndiameter = \"25 mm\"\n"
		doc, fs := ribfile.Read("odd.toml", []byte(text))
		sec, more := rib.Section(doc, nil)
		if len(fs)+len(more) > 0 {
			t.Fatal(text, fs, more)
		}
		r, _ := rib.Build(doc, sec)
		take := takeoff.Of(r, doc)
		for _, m := range templates {
			if m.name == "former" && !shop.NeedsFormer(take) {
				continue
			}
			for i, d := range []export.Drawing{m.sheet(r, doc, take), m.pages(r, doc, take, a4), m.pages(r, doc, take, small)} {
				what := fmt.Sprintf("%s of %g %s, %s %d", c.section, c.chord, c.units, m.name, i)
				if err := d.Check(); err != nil {
					t.Errorf("%s: %v", what, err)
				}
				for _, s := range d.Sheets {
					letteringStands(t, what+", "+s.Name, s, []float64{15, 10, 8}[i])
				}
			}
		}
	}
}

func letteringStands(t *testing.T, what string, s export.Sheet, margin float64) {
	t.Helper()
	var texts []export.Text
	square := false
	room := geom.NewBox(geom.Pt{}, geom.Pt{X: s.W, Y: s.H}).Grow(-margin + 0.01)
	for _, p := range s.Parts {
		for _, it := range p.Items {
			square = square || strings.HasPrefix(it.ID, "check-")
			b := it.Path.Box()
			if it.Text != nil {
				c := it.Text.Corners()
				b = geom.NewBox(c[:]...)
				texts = append(texts, *it.Text)
				if it.Text.Height < 2.5 {
					t.Errorf("%s: %q is %g mm high", what, it.Text.S, it.Text.Height)
				}
			}
			if !room.Holds(b.Min) || !room.Holds(b.Max) {
				t.Errorf("%s: %s%v stands in the margin: %v to %v", what, it.ID, it.Text, b.Min, b.Max)
			}
		}
	}
	if !square {
		t.Errorf("%s: no square to measure", what)
	}
	for i, a := range texts {
		for _, b := range texts[:i] {
			ca, cb := a.Corners(), b.Corners()
			ba, bb := geom.NewBox(ca[:]...), geom.NewBox(cb[:]...)
			if ba.Min.X < bb.Max.X && bb.Min.X < ba.Max.X && ba.Min.Y < bb.Max.Y && bb.Min.Y < ba.Max.Y {
				t.Errorf("%s: %q overlaps %q", what, a.S, b.S)
			}
		}
	}
}

// readParts tells of each closed line of a DXF file its layer, area, and width along x.
const readParts = `
import sys, json, math
from ezdxf import recover
from shapely.geometry import Polygon
doc, aud = recover.readfile(sys.argv[1])
parts, lines = [], []
for e in doc.modelspace():
    if e.dxftype() == 'CIRCLE':
        c = e.dxf.center
        parts.append([e.dxf.layer.lower(), math.pi * e.dxf.radius ** 2, 2 * e.dxf.radius, c.x, c.y])
    elif e.dxftype() == 'LWPOLYLINE' and e.closed:
        p = Polygon([q[:2] for q in e.get_points('xy')])
        parts.append([e.dxf.layer.lower(), p.area, p.bounds[2] - p.bounds[0], p.centroid.x, p.centroid.y])
    elif e.dxftype() == 'LINE':
        lines.append([e.dxf.layer.lower(), e.dxf.start.x, e.dxf.start.y, e.dxf.end.x, e.dxf.end.y])
    elif e.dxftype() == 'LWPOLYLINE' and len(e) == 2:
        q = list(e.get_points('xy')); lines.append([e.dxf.layer.lower(), q[0][0], q[0][1], q[1][0], q[1][1]])
print(json.dumps(dict(faults=len(aud.errors) + len(aud.fixes), parts=parts, lines=lines)))
`

type dxfParts struct {
	Faults       int
	Parts, Lines [][5]any
}

func readBack(t *testing.T, d export.Drawing) dxfParts {
	t.Helper()
	python := outside.Python(t, "ezdxf")
	var b bytes.Buffer
	if err := dxf.Write(&b, d, 0); err != nil {
		t.Fatal(err)
	}
	var got dxfParts
	if err := json.Unmarshal([]byte(outside.Run(t, python, "-c", readParts, outside.File(t, "d.dxf", b.Bytes()))), &got); err != nil {
		t.Fatal(err)
	}
	if got.Faults > 0 {
		t.Errorf("ezdxf finds %d faults", got.Faults)
	}
	return got
}

// TestSticksReadBack reads the sticks' templates with ezdxf and shapely: each group's area is the rib's stick's, and it
// is as long as its long point; and the SVG is well formed.
func TestSticksReadBack(t *testing.T) {
	xmllint := outside.Need(t, "xmllint")
	for _, name := range ribFiles {
		r, doc := layOut(t, name)
		take := takeoff.Of(r, doc)
		d := shop.Sticks(r, doc, take)
		got := readBack(t, d)
		n := 0
		for _, p := range got.Parts {
			if p[0] == "stick" {
				n++
			}
		}
		if n != len(take.Sticks) {
			t.Errorf("%s: %d sticks drawn, want %d", name, n, len(take.Sticks))
		}
		for _, g := range take.Sticks {
			if !slices.ContainsFunc(got.Parts, func(p [5]any) bool {
				return p[0] == "stick" && math.Abs(p[1].(float64)-g.First.Outline.Area()) < 0.01 && math.Abs(p[2].(float64)-g.First.LongPoint) < 0.001
			}) {
				t.Errorf("%s: no template of %.2f mm² and %.3f mm for %v", name, g.First.Outline.Area(), g.First.LongPoint, g.IDs)
			}
		}
		var b bytes.Buffer
		if err := svg.Write(&b, d, 0); err != nil {
			t.Fatal(err)
		}
		outside.Run(t, xmllint, "--noout", "--nonet", outside.File(t, "sticks.svg", b.Bytes()))
	}
}

// TestStickPages reads the pages' own paths: a true square on each page, and every stick that fits at its full length.
func TestStickPages(t *testing.T) {
	for _, name := range ribFiles {
		r, doc := layOut(t, name)
		take := takeoff.Of(r, doc)
		d := shop.StickPages(r, doc, take, a4)
		got := pages(t, d)
		var lengths []float64
		square := 100.0
		if doc.Units == ribfile.Inch { // what a rule in inches shows
			square = 4 * ribfile.MMPerInch
		}
		for i, page := range got {
			if !hasSquare(page, square) && !hasSquare(page, square/2) {
				t.Errorf("%s: page %d has no true square", name, i+1)
			}
			for _, p := range page {
				lengths = append(lengths, geom.NewBox(p...).W())
			}
		}
		for _, g := range take.Sticks {
			if !slices.ContainsFunc(lengths, func(l float64) bool { return math.Abs(l-g.First.LongPoint) < 0.01 }) {
				t.Errorf("%s: %v of %.2f mm stands on no page", name, g.IDs, g.First.LongPoint)
			}
		}
	}
}

// TestBrokenSticks holds that a stick longer than the page shows both of its ends, full size, and says its length.
func TestBrokenSticks(t *testing.T) {
	r, doc := layOut(t, "cmd/ribwright/demo/marsh-wren.toml")
	take := takeoff.Of(r, doc)
	d := shop.StickPages(r, doc, take, shop.Page{W: 148, H: 148, Margin: 8})
	parts, texts := map[string][]geom.Box{}, ""
	for _, s := range d.Sheets {
		for _, it := range s.Parts[0].Items {
			if it.Text != nil {
				texts += it.Text.S + "\n"
			} else if strings.HasPrefix(it.ID, "stick-") {
				id := strings.Split(it.ID, "-")[1]
				parts[id] = append(parts[id], it.Path.Box())
			}
		}
	}
	broken := 0
	for _, g := range take.Sticks {
		id, l := g.First.ID, g.First.LongPoint
		switch b := parts[id]; {
		case len(b) == 1 && math.Abs(b[0].W()-l) < 1e-6:
		case len(b) == 2 && l > 148-2*8-2*5 && b[1].Min.X > b[0].Max.X+5:
			broken++
		default:
			t.Errorf("%s of %.1f mm is drawn as %v", id, l, b)
		}
		if !strings.Contains(texts, "long point "+ribfile.MM.Number(l)+" mm") {
			t.Errorf("%s: its length of %s is not written", id, ribfile.MM.Number(l))
		}
	}
	if broken == 0 {
		t.Error("no stick is longer than the page: the test tests nothing")
	}
}

// TestPlateTemplates reads the templates for round plates with ezdxf: the plate's circle, the cap's line at the plates'
// one distance from its centre, and crosses for the saw that stand a saw and a gap apart, nearest to nearest.
func TestPlateTemplates(t *testing.T) {
	for _, name := range []string{"cmd/ribwright/demo/marsh-wren.toml", "cmd/ribwright/demo/starter.toml"} {
		r, doc := layOut(t, name)
		got := readBack(t, shop.PlateTemplates(r, doc, takeoff.Of(r, doc)))
		round := r.Gussets[slices.IndexFunc(r.Gussets, func(g rib.Gusset) bool { return g.Shape == rib.Round })]
		var centre *geom.Pt
		var pilots []geom.Pt
		for _, p := range got.Parts {
			at := geom.Pt{X: p[3].(float64), Y: p[4].(float64)}
			switch {
			case p[0] == "cut" && math.Abs(p[2].(float64)-round.Size[0]) < 1e-3:
				centre = &at
			case p[0] == "plate":
				pilots = append(pilots, at)
			}
		}
		if centre == nil {
			t.Fatalf("%s: no circle of %g mm", name, round.Size[0])
		}
		// Half the chord at the distance d from the centre of a circle is √(r² − d²).
		half := math.Sqrt(round.Size[0]*round.Size[0]/4 - round.MarkDistance*round.MarkDistance)
		if !slices.ContainsFunc(got.Lines, func(l [5]any) bool {
			a, b := geom.Pt{X: l[1].(float64), Y: l[2].(float64)}.Sub(*centre), geom.Pt{X: l[3].(float64), Y: l[4].(float64)}.Sub(*centre)
			return l[0] == "mark" && math.Abs(a.Y-round.MarkDistance) < 1e-3 && math.Abs(b.Y-round.MarkDistance) < 1e-3 && math.Abs(b.X-a.X-2*half) < 1e-3
		}) {
			t.Errorf("%s: no cap's line at %g mm from the centre", name, round.MarkDistance)
		}
		pitch := round.Size[0] + 2*doc.Saw.HoleSawKerf + doc.Sheet.Gap
		for i, p := range pilots {
			nearest := math.Inf(1)
			for k, q := range pilots {
				if k != i {
					nearest = math.Min(nearest, p.Dist(q))
				}
			}
			if math.Abs(nearest-pitch) > 1e-3 {
				t.Errorf("%s: cross %d stands %.3f mm from the next, want %.3f", name, i, nearest, pitch)
			}
		}
		if len(pilots) < 4 {
			t.Errorf("%s: %d crosses", name, len(pilots))
		}
	}
}

// TestFormerReadBack reads the former with ezdxf: no fault, and two boards.
func TestFormerReadBack(t *testing.T) {
	for _, name := range ribFiles {
		r, doc := layOut(t, name)
		got := readBack(t, shop.Former(r, doc, takeoff.Of(r, doc)))
		boards := 0
		for _, p := range got.Parts {
			if p[0] == "cut" && p[1].(float64) > 5000 {
				boards++
			}
		}
		if boards != 2 {
			t.Errorf("%s: %d boards, want 2", name, boards)
		}
	}
}
