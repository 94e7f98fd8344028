package rib

import (
	"math"
	"strings"
	"testing"

	"ribwright/airfoils"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// sectionOf makes the section of a rib file with the lines given under [section], and a table beside it.
func sectionOf(t *testing.T, lines, table string) (airfoils.Section, []finding.Finding) {
	t.Helper()
	doc, found := ribfile.Read("rib.toml", []byte("units = \"mm\"\n[section]\n"+lines+"\n[rib]\nchord = 1000\n"))
	if len(found) > 0 {
		t.Fatalf("%s: %v", lines, found)
	}
	return Section(doc, func(string) ([]byte, error) { return []byte(table), nil })
}

func TestSectionChanged(t *testing.T) {
	for _, c := range []struct {
		lines      string
		name       string
		x          float64
		depth, mid float64 // at x
	}{
		{`naca = "4412"`, "NACA 4412", 1, 0.00252, 0},
		{"naca = \"4412\"\nclosed_tail = true", "NACA 4412, closed tail", 1, 0, 0},
		{"naca = \"0012\"\nthickness = \"15%\"", "NACA 0012, 15 % thick", 0.3, 0.15004, 0},
		{"naca = \"2412\"\ncamber = 2", "NACA 2412, camber × 2", 0.4, 0.11606, 0.04},
		{`naca = "0012-64"`, "NACA 0012-64", 0.4, 0.12, 0},
		{"naca = \"0012\"\ntail_thickness = 8", "NACA 0012", 1, 0.008, 0},
		{"builtin = \"clark-y\"\ntail_thickness = 8", "Clark Y", 1, 0.008, 0.0006},
		{"builtin = \"clark-y\"\nnose_radius = 12", "Clark Y", 0.3, 0.117, 0.0585},
	} {
		s, found := sectionOf(t, c.lines, "")
		u, l, ok := s.At(c.x)
		if strings.Contains(c.lines, "clark-y") && strings.Contains(c.lines, "tail") {
			found = found[:0] // its flat bottom is bent: TestFlatBottomBent
		}
		if len(found) > 0 || s.Name != c.name || !ok || math.Abs(u-l-c.depth) > 3e-5 || math.Abs((u+l)/2-c.mid) > 3e-5 {
			t.Errorf("%s: %q, depth %.5f and middle %.5f at %v, want %v and %v; %v", c.lines, s.Name, u-l, (u+l)/2, c.x, c.depth, c.mid, found)
		}
	}
	if s, _ := sectionOf(t, "builtin = \"clark-y\"\nnose_radius = 12", ""); s.NoseRadius != 0.012 {
		t.Errorf("nose radius %v, want 0.012", s.NoseRadius)
	}
}

// A table's own nose radius is used; one that cannot be is told and left aside.
func TestOwnNoseRadius(t *testing.T) {
	const table = "Wren\n0 0 0\n1.25 1.894 -1.894\n2.5 2.615 -2.615\n5 3.555 -3.555\n10 4.683 -4.683\n20 5.738 -5.738\n30 6.002 -6.002\n" +
		"40 5.803 -5.803\n60 4.563 -4.563\n80 2.623 -2.623\n100 0.126 -0.126\n"
	read, found := sectionOf(t, `file = "wren.txt"`, table)
	if len(found) > 0 {
		t.Fatal(found)
	}
	for _, c := range []struct{ radius, want float64 }{{0.0158, 0.0158}, {0.2, 0}, {0, 0}} {
		read.NoseRadius = c.radius
		s, found := ends(&ribfile.Doc{Rib: ribfile.Rib{Chord: 1000}}, read)
		if s.NoseRadius != c.want || (len(found) > 0) != (c.radius != c.want) || finding.HasError(found) {
			t.Errorf("radius %v: %v, %v", c.radius, s.NoseRadius, found)
		}
		if len(found) > 0 && (found[0].Key != "section.file" || !strings.Contains(found[0].Fix, "points alone")) {
			t.Errorf("radius %v: %+v", c.radius, found[0])
		}
	}
}

// A flat bottom that an opened tail bends is told, with how far: half of what 8 mm are more than the table's 1.2 mm.
func TestFlatBottomBent(t *testing.T) {
	_, found := sectionOf(t, "builtin = \"clark-y\"\ntail_thickness = 8", "")
	if len(found) != 1 || found[0].Severity != finding.Note || found[0].Code != "section-tail-flat" || !strings.Contains(found[0].Message, "3.4 mm") || math.Abs(found[0].Got-3.4) > 1e-6 {
		t.Errorf("got %v, want a note of 3.4 mm", found)
	}
	for _, lines := range []string{"builtin = \"clark-y\"\ntail_thickness = 1", "naca = \"4412\"\ntail_thickness = 8"} {
		if _, found := sectionOf(t, lines, ""); len(found) > 0 {
			t.Errorf("%s: %v", lines, found)
		}
	}
}
