package wing_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"ribwright/airfoils"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
	"ribwright/geom/wing"
)

// depthOff returns the greatest difference of two sections' ordinates, in shares of the chord.
func depthOff(a, b airfoils.Section) float64 {
	worst := 0.0
	for x := 0.02; x < 0.99; x += 0.01 {
		ua, la, _ := a.At(x)
		ub, lb, _ := b.At(x)
		worst = max(worst, math.Abs(ua-ub), math.Abs(la-lb))
	}
	return worst
}

// The ribs at root and tip have the sections given; between, the depth goes from one to the other without turning
// back; half way from NACA 4415 to 4409 stands NACA 4412, to 0.1 % of the chord.
func TestSectionsAlongTheSpan(t *testing.T) {
	text := strings.Replace(plain, "4412", "4415", 1)
	p := plan(t, text+`wing = { semi_span = 4000, spacing = 500, tip = { naca = "4409" } }`)
	want, _ := airfoils.NACA("4412")
	if off := depthOff(section(t, p, p.Kinds[4]), want); off > 0.001 {
		t.Errorf("half way it is %.5f of the chord off NACA 4412", off)
	}
	p = plan(t, text+`wing = { semi_span = 4000, spacing = 500, tip_chord = 800, tip = { builtin = "clark-y" } }`)
	root, _ := airfoils.NACA("4415")
	tip, _ := airfoils.Builtin("clark-y")
	if a, b := section(t, p, p.Kinds[0]), section(t, p, p.Kinds[8]); depthOff(a, root) != 0 || depthOff(b, tip) != 0 {
		t.Errorf("root %s, tip %s", a.Name, b.Name)
	}
	for _, x := range []float64{0.05, 0.2, 0.5, 0.8} {
		var depths []float64
		for _, k := range p.Kinds {
			u, l, _ := section(t, p, k).At(x)
			depths = append(depths, l-u)
		}
		if !slices.IsSorted(depths) {
			t.Errorf("the depth at %v turns back: %v", x, depths)
		}
	}
}

// A tail of one thickness is that on every rib, whatever its chord; a table in lengths and its nose go with the chord.
func TestLengthsOfTheSection(t *testing.T) {
	const table = `section = { ordinates = [[0, 0, 0], [35, 40, -20], [140, 90, -40], [420, 120, -45], [840, 90, -30], [1400, 0, 0]], ordinate_unit = "length", nose_radius = 12, tail_thickness = 4 }`
	p := plan(t, strings.Replace(plain, `section = { naca = "4412" }`, table, 1)+`wing = { semi_span = 4000, spacing = 2000, tip_chord = 700 }`)
	for _, k := range p.Kinds {
		sec := section(t, p, k)
		u, l, _ := sec.At(1)
		if got := (u - l) * k.Doc.Rib.Chord; math.Abs(got-4) > 0.001 {
			t.Errorf("%s: the tail is %.4f mm thick, want 4", k.Name, got)
		}
		if u, _, _ := sec.At(0.3); math.Abs(u-120.0/1400) > 0.002 {
			t.Errorf("%s: %v at 30 %%", k.Name, u)
		}
	}
}

// What is wrong with a section is told at its place; errors come with every kind, the rest once.
func TestFindingsOfSections(t *testing.T) {
	doc := read(t, plain+"[wing]\nsemi_span = 4000\nspacing = 2000\n[wing.tip]\nfile = \"tip.dat\"\n")
	p, _ := wing.Of(doc)
	for _, k := range p.Kinds {
		_, found := p.Section(k, func(string) ([]byte, error) { return nil, errors.New("there is none") })
		if len(found) != 1 || found[0].Severity != finding.Error || found[0].Line != 18 || found[0].Code != "section-file" {
			t.Errorf("%s: %v", k.Name, found)
		}
	}
	taper := plan(t, plain+`wing = { semi_span = 4000, spacing = 2000, tip_chord = 700, rib = [{ ribs = "2", section = { naca = "0012" } }] }`)
	for i, k := range taper.Kinds {
		sec, found := taper.Section(k, nil)
		if len(found) > 0 {
			t.Errorf("%s: %v", k.Name, found)
		}
		if want := map[bool]string{true: "NACA 0012", false: "NACA 4412"}[i == 1]; !strings.HasPrefix(sec.Name, want) {
			t.Errorf("%s: %s, want %s", k.Name, sec.Name, want)
		}
	}
	if notes := taper.Notes(); len(notes) != 1 || notes[0].Code != "wing-bevel" {
		t.Error(notes)
	}
}

// A mistake that shows in many ribs is told once, with the first of them and at its place in the file.
func TestFindingsOfRibs(t *testing.T) {
	doc, found := ribfile.Read("wing.toml", []byte(plain+`
[wing]
semi_span = 4000
spacing = 400
tip_chord = 700
[[wing.rib]]
ribs = "3-5"
[wing.rib.cap]
depth = 400
deep = 4
`))
	if len(found) > 0 {
		t.Fatal(found)
	}
	_, found = wing.Of(doc)
	if len(found) != 2 || found[0].Line != 22 || found[0].Part != "R3" || found[1].Code != ribfile.CodeKeyUnknown || found[1].Line != 23 ||
		!strings.Contains(found[0].Message, "Rib R3, 800 mm from the root: cap.depth is 400 mm") || !strings.Contains(found[0].Message, "3 kinds of rib") {
		t.Errorf("%v", found)
	}
}

// TestSectionName: a rib's title names the section that it has, not the root's.
func TestSectionName(t *testing.T) {
	p := plan(t, plain+`wing = { semi_span = 4000, spacing = 2000, tip = { builtin = "clark-y" }, rib = [
		{ between = "1", section = { naca = "2412" } } ] }`)
	root := p.Kinds[0].Doc.SectionName()
	for i, want := range []string{root, "NACA 2412", "50 % " + root + " + 50 % clark-y", "clark-y"} {
		if got := p.Kinds[i].Doc.SectionName(); got != want {
			t.Errorf("%s: %q, want %q", p.Kinds[i].Name, got, want)
		}
	}
	p = plan(t, plain+`wing = { semi_span = 4000, spacing = 2000, tip_chord = 1000 }`)
	for _, k := range p.Kinds {
		if got := k.Doc.SectionName(); got != root {
			t.Errorf("%s of one section: %q, want %q", k.Name, got, root)
		}
	}
}
