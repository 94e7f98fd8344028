package shop

import (
	"bytes"
	"math"
	"os"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/dxf"
	"ribwright/export/pdf"
	"ribwright/export/svg"
	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// checkJig holds what every jig drawing must be.
func checkJig(t *testing.T, j job) {
	t.Helper()
	d := Jig(j.drawn())
	if err := d.Check(); err != nil {
		t.Fatalf("%s: %v", j.name, err)
	}
	items := all(d.Sheets[0])
	for _, s := range overlaps(items, nil) {
		t.Errorf("%s: %s", j.name, s)
	}
	paper := geom.NewBox(geom.Pt{}, geom.Pt{X: d.Sheets[0].W, Y: d.Sheets[0].H}).Grow(-frameMargin)
	for _, it := range items {
		if it.Text != nil && it.Text.Height < small {
			t.Errorf("%s: %q is %g mm high", j.name, it.Text.S, it.Text.Height)
		}
		if b := itemBox(it); !b.Empty() && it.Layer != layerFrame && !(paper.Holds(b.Min) && paper.Holds(b.Max)) {
			t.Errorf("%s: %s on layer %s lies outside the frame: %v", j.name, it.ID, it.Layer, b)
		}
	}
	for id, side := range map[string]float64{"check-100mm": 100, "check-4in": 101.6} {
		checkSquareItem(t, j.name, items, id, side)
	}
	checkParts(t, j, items)
	checkNames(t, j, items)
	checkMeasures(t, j, items)
	checkAngles(t, j, items)
}

func checkSquareItem(t *testing.T, name string, items []export.Item, id string, side float64) {
	t.Helper()
	it, ok := byID(items, id)
	b := it.Path.Box()
	if !ok || !it.Path.Closed || len(it.Path.Segs) != 3 || math.Abs(b.W()-side) > 1e-9 || math.Abs(b.H()-side) > 1e-9 {
		t.Errorf("%s: %s is %.6f × %.6f mm with %d steps, want a closed square of %g mm", name, id, b.W(), b.H(), len(it.Path.Segs), side)
		return
	}
	edge := map[string]bool{}
	for _, other := range items {
		if other.ID != id && other.Text == nil && other.Layer != layerFrame && other.Path.Box().Meets(b.Grow(0.5)) {
			edge[other.Layer] = true
		}
	}
	if len(edge) > 0 {
		t.Errorf("%s: lines on layers %v lie over %s", name, edge, id)
	}
}

// checkParts compares every part with the rib: the same outline, moved, and its area unchanged.
func checkParts(t *testing.T, j job, items []export.Item) {
	t.Helper()
	var base geom.Pt
	if c, ok := byID(items, "outline"); ok {
		base = c.Path.Start.Sub(j.rib.Contour.Outline[0])
	}
	part := func(id string, p geom.Path) {
		if len(p.Segs) == 0 {
			return
		}
		it, ok := byID(items, id)
		if !ok || !it.Path.Closed {
			t.Errorf("%s: no closed path %s", j.name, id)
			return
		}
		got := it.Path
		if a, b := got.Area(), p.Area(); math.Abs(a-b) > 1e-4 {
			t.Errorf("%s: %s has %.6f mm², want %.6f", j.name, id, a, b)
		}
		for i, s := range got.Segs {
			if s.End.Sub(base).Dist(p.Segs[i].End) > 1e-9 || s.Bulge != p.Segs[i].Bulge {
				t.Errorf("%s: %s, step %d: %v, want %v", j.name, id, i, s.End.Sub(base), p.Segs[i].End)
				return
			}
		}
	}
	r := j.rib
	part("outline", r.Contour.Outline.Path())
	for _, c := range r.Caps {
		part(c.ID, c.Outline.Path())
	}
	for _, b := range r.Blocks {
		part(b.ID, b.Outline.Path())
	}
	for _, s := range r.Sticks {
		part(s.ID, s.Outline.Path())
		if len(s.Outline) > 0 && !lettered(items, s.ID) {
			t.Errorf("%s: the number %s is missing", j.name, s.ID)
		}
	}
	for _, s := range r.Spars {
		part("spar-"+s.Name, s.Opening.Path())
		if len(s.Opening) > 0 && !lettered(items, s.Name) {
			t.Errorf("%s: the spar's name %q is missing", j.name, s.Name)
		}
	}
	for _, g := range r.Gussets {
		part("plate-"+strings.ReplaceAll(g.ID, "+", "-"), g.Outline)
	}
	for _, k := range r.Joints {
		if !lettered(items, k.ID) {
			t.Errorf("%s: the joint's name %s is missing", j.name, k.ID)
		}
	}
}

func TestJigDemos(t *testing.T) {
	for _, j := range demos(t) {
		checkJig(t, j)
	}
}

// many returns how many ribs a test draws: all of them under CI=true, else a first few.
func many(all, few uint64) uint64 {
	if os.Getenv("CI") == "true" {
		return all
	}
	return few
}

func TestJigUnknownRibs(t *testing.T) {
	n := many(60, 15)
	for seed := range n {
		checkJig(t, unknown(t, seed))
	}
}

func TestJigWildRibs(t *testing.T) {
	n := many(200, 15)
	for seed := range n {
		checkJig(t, wild(t, seed))
	}
}

// A rib of which hardly anything could be laid out is drawn as far as it goes.
func TestJigPartial(t *testing.T) {
	doc := &ribfile.Doc{Title: "nothing", Units: ribfile.MM}
	for _, j := range []job{
		{"empty", &rib.Rib{}, doc, nil},
		{"contour alone", &rib.Rib{Chord: 300, Contour: rib.Contour{Outline: geom.Ring{{X: 300}, {X: 150, Y: 40}, {}}, Stations: []float64{0, 150, 300}}}, doc,
			[]finding.Finding{{Severity: finding.Error, Message: "the caps fill the rib", At: []geom.Pt{{X: 100}, {X: 1e9}, {X: math.NaN()}}}}},
		{"crowded", &rib.Rib{Chord: 300, Joints: []rib.Joint{{ID: "U1"}, {ID: "U2"}, {ID: "U3"}}}, doc, nil},
	} {
		d := Jig(j.drawn())
		if err := d.Check(); err != nil {
			t.Errorf("%s: %v", j.name, err)
		}
		if s := overlaps(all(d.Sheets[0]), outlines); len(s) > 0 {
			t.Errorf("%s: %v", j.name, s)
		}
	}
}

// Every finding with a place is marked, and explained on the sheet; those without are not.
func TestJigFindings(t *testing.T) {
	j := demos(t)[0]
	j.found = nil
	for i := range 60 {
		j.found = append(j.found, finding.Finding{Severity: finding.Severity(i % 3), Message: "the stick is short, and this is said at some length so that it needs two lines",
			Fix: "make it longer", At: []geom.Pt{{X: float64(20 * i), Y: 20}}})
	}
	j.found = append(j.found, finding.Finding{Severity: finding.Warning, Message: "no place"})
	checkJig(t, j)
	items := all(Jig(j.drawn()).Sheets[0])
	if lettered(items, "61") || !lettered(items, "60") {
		t.Errorf("of 61 findings, 60 with places, the drawing marks 60: %v, 61: %v", lettered(items, "60"), lettered(items, "61"))
	}
	found := false
	for _, it := range items {
		found = found || it.Text != nil && strings.HasPrefix(it.Text.S, "This rib has errors")
	}
	if !found {
		t.Error("the drawing of a rib with errors does not say so")
	}
}

// Findings may stand on one another, and where names stand.
func TestJigFindingsOnNames(t *testing.T) {
	j := demos(t)[0]
	var at []geom.Pt
	for _, s := range j.rib.Sticks {
		at = append(at, s.Axis[0].Lerp(s.Axis[1], 0.5))
	}
	for _, k := range j.rib.Joints {
		at = append(at, k.Surface, k.Surface, k.Surface)
	}
	j.found = nil
	for _, p := range at {
		j.found = append(j.found, finding.Finding{Severity: finding.Note, Message: "here", At: []geom.Pt{p}})
	}
	checkJig(t, j)
	items := all(Jig(j.drawn()).Sheets[0])
	rings := 0
	for _, it := range items {
		if _, _, ok := it.Path.IsCircle(); ok && it.Layer == layerFinding && !it.Fill {
			rings++
		}
	}
	if rings != 2*len(at) {
		t.Errorf("%d numbers in circles, want %d: one on the rib and one in the notes for each finding", rings, 2*len(at))
	}
}

func TestJigStationsOfATable(t *testing.T) {
	j := demos(t)[1]
	items := all(Jig(NewField(j.rib, j.doc, BoardOf(j.rib, j.doc), nil)).Sheets[0])
	// NACA 2412 (NACA Report 824, 1945) at 30 %: 7.88 and −4.12 % of 48 in.
	for _, s := range []string{"14.400", "3.782", "-1.978"} {
		if !lettered(items, s) {
			t.Errorf("the band of ordinates lacks %s in", s)
		}
	}
}

func TestJigDeterministic(t *testing.T) {
	j := demos(t)[0]
	var first []byte
	for range 3 {
		var b bytes.Buffer
		if err := pdf.Write(&b, Jig(j.drawn())); err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = b.Bytes()
		}
		if !bytes.Equal(first, b.Bytes()) {
			t.Fatal("two drawings of one rib differ")
		}
	}
}

// The sheet goes through every writer.
func TestJigWriters(t *testing.T) {
	j := demos(t)[1]
	d := Jig(j.drawn())
	var b bytes.Buffer
	for _, err := range []error{svg.Write(&b, d, 0), dxf.Write(&b, d, 0), pdf.Write(&b, d)} {
		if err != nil {
			t.Error(err)
		}
	}
}

// A table finer than lettering can follow keeps its first and last station, and its columns apart.
func TestJigFineTable(t *testing.T) {
	for _, step := range []float64{0.5, 3, 4.4} {
		j := unknown(t, 9)
		j.rib.Contour.Stations = nil
		for x := 0.0; x < j.rib.Chord; x += step {
			j.rib.Contour.Stations = append(j.rib.Contour.Stations, x)
		}
		j.rib.Contour.Stations = append(j.rib.Contour.Stations, j.rib.Chord)
		checkJig(t, j)
		items := all(Jig(NewField(j.rib, j.doc, BoardOf(j.rib, j.doc), nil)).Sheets[0])
		if !lettered(items, j.doc.Units.Number(j.rib.Chord)) {
			t.Errorf("stations every %g mm: the last one is missing", step)
		}
	}
}

// The same rib file in inches and in millimetres gives the same parts.
func TestJigUnits(t *testing.T) {
	text := func(units string) string {
		return "title = \"rib\"\nunits = \"" + units + `"
[section]
naca = "4412"
[rib]
chord = "50 in"
[cap]
depth = "1/4 in"
width = "1/2 in"
[stick]
depth = "1/4 in"
width = "1/2 in"
[nose]
block_to = "5%"
[[spar]]
name = "front"
at = "15%"
width = "3/4 in"
clearance = "1/32 in"
[gusset]
shape = "round"
diameter = "1 1/8 in"
thickness = "1/16 in"
`
	}
	a, b := build(t, "inches", text("in")), build(t, "millimetres", text("mm"))
	p, q := all(Jig(NewField(a.rib, a.doc, BoardOf(a.rib, a.doc), nil)).Sheets[0]), all(Jig(NewField(b.rib, b.doc, BoardOf(b.rib, b.doc), nil)).Sheets[0])
	for _, id := range []string{"outline", "cap-upper", "cap-lower", "block-nose", "spar-front", "spar-front-largest", "plate-U1"} {
		x, ok := byID(p, id)
		y, ok2 := byID(q, id)
		if !ok || !ok2 || math.Abs(x.Path.Area()-y.Path.Area()) > 1e-9 {
			t.Errorf("%s: %.9f mm² from inches (%v), %.9f from millimetres (%v)", id, x.Path.Area(), ok, y.Path.Area(), ok2)
		}
	}
	if !lettered(p, "50 in") || !lettered(p, "inches") || !lettered(q, "1270 mm") || !lettered(q, "millimetres") {
		t.Error("the chord or the units are not said in the file's units")
	}
}
