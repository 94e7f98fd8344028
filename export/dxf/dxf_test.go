package dxf_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/dxf"
	"ribwright/export/internal/sample"
	"ribwright/geom"
	"ribwright/geom/outside"
)

var update = flag.Bool("update", false, "rewrite the files under testdata")

func written(t testing.TB, d export.Drawing, sheet int) []byte {
	t.Helper()
	var b, again bytes.Buffer
	for _, w := range []*bytes.Buffer{&b, &again} {
		if err := dxf.Write(w, d, sheet); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(b.Bytes(), again.Bytes()) {
		t.Error("two runs differ")
	}
	return b.Bytes()
}

func one(items ...export.Item) export.Drawing {
	for i := range items {
		items[i].Layer = "cut"
	}
	return export.Drawing{Title: "t", Layers: []export.Layer{{ID: "cut", Pen: export.Pen{Width: 0.1}}, {ID: "odd-dash", Pen: export.Pen{Dash: []float64{3}}}},
		Sheets: []export.Sheet{{W: 300, H: 300, Parts: []export.Part{{Items: items}}}}}
}

// group is one code and its value.
type group struct {
	code  int
	value string
}

func groups(t *testing.T, b []byte) []group {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(string(b), "\n"), "\n")
	if len(lines)%2 != 0 {
		t.Fatalf("%d lines: a code without a value", len(lines))
	}
	out := make([]group, 0, len(lines)/2)
	for i := 0; i < len(lines); i += 2 {
		c, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		if err != nil {
			t.Fatalf("line %d: %v", i+1, err)
		}
		out = append(out, group{c, lines[i+1]})
	}
	return out
}

// check holds what other readers let pass: numbers that are none, layers that are not declared, handles
// that are doubled or not below the seed, a wrong count of vertices, a missing end, text beyond ASCII.
func check(t *testing.T, b []byte) {
	t.Helper()
	gs := groups(t, b)
	if last := gs[len(gs)-1]; last != (group{0, "EOF"}) {
		t.Errorf("the file ends with %v", last)
	}
	handles, layers, seed := map[string]bool{}, map[string]bool{}, int64(0)
	section, kind, vertices, counted := "", "", 0, 0
	closeEntity := func() {
		if kind == "LWPOLYLINE" && vertices != counted {
			t.Errorf("%d vertices said, %d written", vertices, counted)
		}
		vertices, counted = 0, 0
	}
	for i, g := range gs {
		for _, r := range g.value {
			if r < ' ' || r > '~' {
				t.Errorf("%d %q is not ASCII", g.code, g.value)
			}
		}
		if g.code >= 10 && g.code < 60 || g.code >= 140 && g.code < 150 {
			v, err := strconv.ParseFloat(g.value, 64)
			if err != nil || math.IsNaN(v) || math.IsInf(v, 0) || strings.ContainsAny(g.value, "eE") || g.value == "-0" {
				t.Errorf("group %d: %q", g.code, g.value)
			}
		}
		switch {
		case g.code == 0:
			closeEntity()
			kind = g.value
			if kind == "SECTION" {
				section = gs[i+1].value
			}
		case g.code == 9:
			kind = g.value
		case g.code == 5 && kind == "$HANDSEED":
			seed, _ = strconv.ParseInt(g.value, 16, 64)
		case g.code == 5 || g.code == 105 && kind == "DIMSTYLE":
			if handles[g.value] {
				t.Errorf("the handle %s is doubled", g.value)
			}
			handles[g.value] = true
			if h, err := strconv.ParseInt(g.value, 16, 64); err != nil || h <= 0 || h >= seed {
				t.Errorf("the handle %s is not below the seed %X", g.value, seed)
			}
		case g.code == 2 && section == "TABLES" && kind == "LAYER":
			layers[g.value] = true
		case g.code == 8 && !layers[g.value]:
			t.Errorf("the layer %s is not declared", g.value)
		case g.code == 90 && kind == "LWPOLYLINE":
			vertices, _ = strconv.Atoi(g.value)
		case g.code == 10 && kind == "LWPOLYLINE":
			counted++
		}
	}
	for i, g := range gs { // owners and other pointers lead somewhere
		if (g.code == 330 || g.code == 340 || g.code == 350 || g.code == 390) && g.value != "0" && !handles[g.value] {
			t.Errorf("group %d after %v points to %s, which is nothing", g.code, gs[i-1], g.value)
		}
	}
}

func TestOwnCheck(t *testing.T) {
	check(t, written(t, sample.Drawing(), 1))
	check(t, written(t, sample.Job(), 0))
	check(t, written(t, one(), 0))
}

// audit lets ezdxf read, mend and audit a file, and returns what it found, as JSON.
const audit = `import sys, json, math
from ezdxf import recover, bbox
doc, aud = recover.readfile(sys.argv[1])
out = dict(errors=[e.message for e in aud.errors], fixes=[e.message for e in aud.fixes],
    version=doc.dxfversion, units=doc.header['$INSUNITS'], types={}, area={}, texts=[], layers={}, dashes={},
    header=[list(doc.header['$EXTMIN']), list(doc.header['$EXTMAX'])])
for e in doc.modelspace():
    k = e.dxftype()
    out['types'][k] = out['types'].get(k, 0) + 1
    a = 0
    if k == 'CIRCLE':
        a = math.pi * e.dxf.radius ** 2
    if k == 'LWPOLYLINE' and e.closed:
        p = [(q[0], q[1], q[4]) for q in e.get_points()]
        for (x, y, b), (u, v, _) in zip(p, p[1:] + p[:1]):
            a += (x * v - y * u) / 2
            if b:
                th = 4 * math.atan(b)
                r = math.hypot(u - x, v - y) / 2 / math.sin(th / 2)
                a += r * r * (th - math.sin(th)) / 2
    out['area'][e.dxf.layer] = out['area'].get(e.dxf.layer, 0) + abs(a)
    if k == 'TEXT':
        at = e.get_pos() if hasattr(e, 'get_pos') else e.get_placement()
        out['texts'].append([e.plain_text(), e.dxf.height, e.dxf.rotation, str(at[0]).split('.')[-1], at[1][0], at[1][1]])
for l in doc.layers:
    out['layers'][l.dxf.name] = [l.dxf.lineweight, l.dxf.linetype, l.dxf.color]
for l in doc.linetypes:
    out['dashes'][l.dxf.name] = [t.value for t in l.pattern_tags.tags if t.code in (40, 49)]
b = bbox.extents(doc.modelspace())
out['box'] = [list(b.extmin), list(b.extmax)] if b.has_data else None
print(json.dumps(out))`

type audited struct {
	Errors, Fixes []string
	Version       string
	Units         int
	Types         map[string]int
	Area          map[string]float64
	Texts         [][]any
	Layers        map[string][]any
	Dashes        map[string][]float64
	Header, Box   [][]float64
}

func ezdxf(t *testing.T, b []byte) audited {
	t.Helper()
	python := outside.Python(t, "ezdxf")
	var a audited
	out := outside.Run(t, python, "-c", audit, outside.File(t, "s.dxf", b))
	if err := json.Unmarshal([]byte(out), &a); err != nil {
		t.Fatalf("%v in %s", err, out)
	}
	if len(a.Errors)+len(a.Fixes) > 0 || a.Version != "AC1015" || a.Units != 4 && a.Units != 1 {
		t.Errorf("errors %q, repairs %q, version %s, units %d; want none, none, AC1015, 4 or 1", a.Errors, a.Fixes, a.Version, a.Units)
	}
	return a
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

func TestAudit(t *testing.T) {
	a := ezdxf(t, written(t, sample.Drawing(), 1))
	for kind, n := range map[string]int{"LWPOLYLINE": 4, "CIRCLE": 2, "LINE": 1, "TEXT": 1} {
		if a.Types[kind] != n {
			t.Errorf("%s: got %d, want %d", kind, a.Types[kind], n)
		}
	}
	// Plate, disc, slot, frame and its hole, from the sizes on the sheet.
	want := 50.0*30 + math.Pi*19*19 + (60*25 + math.Pi*12.5*12.5) + 80*60 + math.Pi*12.5*12.5
	near(t, "area of the contours", a.Area["CONTOUR"], want, 1e-3)
	if a.Dashes["DASHES-AXIS"] == nil || a.Layers["AXIS"][1] != "DASHES-AXIS" || a.Layers["AXIS"][0] != 18.0 || a.Layers["CONTOUR"][0] != 35.0 {
		t.Errorf("layers %v, dashes %v", a.Layers, a.Dashes)
	}
	for i, v := range []float64{10, 6, -1.5, 1, -1.5} {
		near(t, "dashes of the axis", a.Dashes["DASHES-AXIS"][i], v, 0)
	}
	for i := range 2 {
		for k := range 2 {
			near(t, "extents in the header", a.Header[i][k], a.Box[i][k], 1e-4)
		}
	}
	odd := ezdxf(t, written(t, one(), 0))
	if got := odd.Dashes["DASHES-ODD-DASH"]; len(got) != 3 || got[0] != 6 || got[1] != 3 || got[2] != -3 {
		t.Errorf("an odd count of dashes: got %v, want 6, 3, -3", got)
	}
}

func TestText(t *testing.T) {
	at := geom.Pt{X: 100, Y: 50}
	want := [][]any{ // as ezdxf names the alignment
		{"45 deg", 5.0, 45.0, "LEFT", 100.0, 50.0}, {"Ord 6 x 38 50%", 2.5, 0.0, "CENTER", 100.0, 50.0},
		{"a^b", 5.0, 270.0, "RIGHT", 100.0, 50.0}, {"U4", 5.0, 0.0, "MIDDLE_CENTER", 100.0, 50.0},
	}
	a := ezdxf(t, written(t, one(
		export.Item{Text: &export.Text{S: "45°", At: at, Height: 5, Angle: math.Pi / 4}},
		export.Item{Text: &export.Text{S: "Örd 6 × 38 50%", At: at, Height: 2.5, Anchor: export.Center}},
		export.Item{Text: &export.Text{S: "a^b", At: at, Height: 5, Angle: -math.Pi / 2, Anchor: export.Right}},
		export.Item{Text: &export.Text{S: "U4", At: at, Height: 5, Angle: 2 * math.Pi, Anchor: export.Middle}},
	), 0))
	for i, w := range want {
		for k := range w {
			if a.Texts[i][k] != w[k] {
				t.Errorf("text %d: got %v, want %v", i+1, a.Texts[i], w)
				break
			}
		}
	}
}

// TestReadBack writes paths at random and reads the polyline back from the groups.
func TestReadBack(t *testing.T) {
	for seed := range uint64(300) {
		p := sample.Path(seed, seed%3 != 0)
		got, in := geom.Path{}, false
		var pts []geom.Pt
		var bulges []float64
		for _, g := range groups(t, written(t, one(export.Item{Path: p}), 0)) {
			v, _ := strconv.ParseFloat(g.value, 64)
			switch {
			case g.code == 0:
				in = g.value == "LWPOLYLINE"
			case !in:
			case g.code == 70:
				got.Closed = v == 1
			case g.code == 10:
				pts, bulges = append(pts, geom.Pt{X: v}), append(bulges, 0)
			case g.code == 20:
				pts[len(pts)-1].Y = v
			case g.code == 42:
				bulges[len(bulges)-1] = v
			}
		}
		got.Start = pts[0]
		for i := range pts {
			if i+1 < len(pts) {
				got.Segs = append(got.Segs, geom.Seg{End: pts[i+1], Bulge: bulges[i]})
			} else if got.Closed {
				got.Segs = append(got.Segs, geom.Seg{End: pts[0], Bulge: bulges[i]})
			}
		}
		l, a := sample.Measure(p)
		gl, ga := sample.Measure(got)
		near(t, "length", gl, l, 1e-5)
		near(t, "area", ga, a, 1e-3)
		if got.Closed != p.Closed {
			t.Errorf("seed %d: closed %v, want %v", seed, got.Closed, p.Closed)
		}
	}
}

// TestEntitiesGolden shows a plate with a hole, a slot and a label as they stand in the file.
func TestEntitiesGolden(t *testing.T) {
	b := written(t, one(
		export.Item{Path: geom.Rect(geom.NewBox(geom.Pt{X: 5, Y: 5}, geom.Pt{X: 55, Y: 30})), Holes: []geom.Path{geom.Circle(geom.Pt{X: 30, Y: 17.5}, 6.35)}},
		export.Item{Path: sample.Slot(geom.Pt{X: 80, Y: 20}, 20, 10)},
		export.Item{Text: &export.Text{S: "Ø12.7", At: geom.Pt{X: 10, Y: 10}, Height: 3}},
	), 0)
	got := b[bytes.Index(b, []byte("ENTITIES")):bytes.Index(b, []byte("OBJECTS"))]
	const file = "testdata/entities.txt"
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("the entities differ from %s; run with -update and read the difference\n%s", file, got)
	}
}

func TestRefused(t *testing.T) {
	var b bytes.Buffer
	for name, f := range map[string]func() error{
		"a clipped part": func() error { return dxf.Write(&b, sample.Drawing(), 0) },
		"no such sheet":  func() error { return dxf.Write(&b, sample.Drawing(), -1) },
		"not a number":   func() error { return dxf.Write(&b, one(export.Item{Path: geom.Circle(geom.Pt{}, math.NaN())}), 0) },
	} {
		if err := f(); err == nil || b.Len() > 0 {
			t.Errorf("%s: got %v and %d bytes, want an error and nothing", name, err, b.Len())
		}
	}
	if err := dxf.Write(fullDisk{}, sample.Drawing(), 1); !errors.Is(err, errFull) {
		t.Errorf("got %v, want %v", err, errFull)
	}
}

type fullDisk struct{}

var errFull = errors.New("disk full")

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }

func BenchmarkWrite(b *testing.B) {
	d := sample.Job()
	for b.Loop() {
		if err := dxf.Write(io.Discard, d, 0); err != nil {
			b.Fatal(err)
		}
	}
}
