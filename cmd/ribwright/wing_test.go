package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"ribwright/geom/finding"
)

// wingFile writes the demo rib with a [wing] behind it, few plates for a quick test.
func wingFile(t *testing.T, wing string) string {
	t.Helper()
	path := demoFile(t, "marsh-wren.toml")
	rewrite(t, path, "count = 26                      # how many of this rib", "")
	rewrite(t, path, "panels = 10", "panels = 4")
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, append(data, wing...), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

// TestWingBuild: a tapered wing has a folder for each kind of rib and one set of sheets, lists and report; what an
// older build left of a rib that is no more goes.
func TestWingBuild(t *testing.T) {
	path, dir := wingFile(t, "\n[wing]\nsemi_span = 3000\ntip_chord = 1100\nwashout = 1.5\nspacing = 1500\n"), t.TempDir()
	code, out, msg := call("build", path, "-o", dir)
	if code != exitOK || !strings.Contains(out, "6 ribs of 3 kinds") || !strings.Contains(msg, "nearly so, with all ribs") {
		t.Fatalf("exit status %d: %s%s", code, out, msg)
	}
	for _, n := range []string{"ribs.csv", "cut-list.csv", "sheets.pdf", "lists.md", "report.json", "R1/jig-tiles.pdf", "R1/jig.dxf", "R3/lists.md", "R3/sticks.pdf"} {
		if _, err := os.Stat(filepath.Join(dir, n)); err != nil {
			t.Error(err)
		}
	}
	for _, n := range []string{"jig.pdf", "R1/sheets.pdf", "R1/report.json", "R1/cut-list.csv"} {
		if _, err := os.Stat(filepath.Join(dir, n)); err == nil {
			t.Errorf("%s is there", n)
		}
	}
	var r struct {
		Ribs []struct {
			Name   string
			Count  int
			Sticks []any
		}
		Totals struct{ Ribs, Sticks int }
	}
	data, err := os.ReadFile(filepath.Join(dir, "report.json"))
	if err == nil {
		err = json.Unmarshal(data, &r)
	}
	sticks := 0
	for _, k := range r.Ribs {
		sticks += k.Count * len(k.Sticks)
	}
	if err != nil || len(r.Ribs) != 3 || r.Ribs[2].Name != "R3" || r.Totals.Ribs != 6 || r.Totals.Sticks != sticks || sticks == 0 {
		t.Errorf("the report: %v, %d sticks, %+v", err, sticks, r.Totals)
	}
	rewrite(t, path, "spacing = 1500", "spacing = 3000")
	if code, _, msg := call("build", path, "-o", dir); code != exitOK {
		t.Fatal(msg)
	}
	if _, err := os.Stat(filepath.Join(dir, "R3")); err == nil {
		t.Error("the folder of the rib that is no more is there still")
	}
}

// TestWingStraight: a wing without taper and washout gives, byte for byte, the files of one rib with a count, and those of the
// wing besides. A rib file that has no wing any more leaves none of these behind.
func TestWingStraight(t *testing.T) {
	wing := wingFile(t, "\n[wing]\nsemi_span = 3000\nspacing = 1000\n")
	one := wingFile(t, "")
	rewrite(t, one, "chord = 1400", "count = 8\nchord = 1400")
	var got [2]map[string]string
	for i, path := range []string{wing, one} {
		dir := t.TempDir()
		if code, _, msg := call("build", path, "-o", dir); code != exitOK {
			t.Fatal(msg)
		}
		got[i] = files(t, dir)
	}
	for n, data := range got[1] {
		if n == "report.json" { // places of findings in the file, which has other lines
			continue
		}
		if got[0][n] != data {
			t.Errorf("%s differs", n)
		}
	}
	var more []string
	for n := range got[0] {
		if _, both := got[1][n]; !both {
			more = append(more, n)
		}
	}
	if slices.Sort(more); strings.Join(more, " ") != "wing-spars.csv wing.csv wing.pdf wing.svg" {
		t.Errorf("more files: %v", more)
	}
	if n := strings.Count(got[0]["wing.csv"], "\n"); n != 5 {
		t.Errorf("%d lines in wing.csv, want a head and four ribs", n)
	}
	if code, out, _ := call("list", wing, "--table", "wing-spars"); code != exitOK || !strings.Contains(out, "| rear") {
		t.Errorf("exit status %d: %s", code, out)
	}
	dir := t.TempDir()
	for _, path := range []string{wing, one} {
		if code, _, msg := call("build", path, "-o", dir); code != exitOK {
			t.Fatal(msg)
		}
	}
	for _, n := range more {
		if _, err := os.Stat(filepath.Join(dir, n)); err == nil {
			t.Errorf("%s is there still", n)
		}
	}
}

// TestWingOne: single drawings and lists of a wing name the rib, or are the set's.
func TestWingOne(t *testing.T) {
	path := wingFile(t, "\n[wing]\nsemi_span = 3000\ntip_chord = 1100\nspacing = 3000\n")
	for _, c := range []struct {
		args string
		code int
		want string // in what is printed
	}{
		{"draw FILE --rib R2 --format svg", exitOK, "<svg"},
		{"draw FILE --rib r1 --sheet plates", exitOK, "<svg"},
		{"draw FILE --sheet sheets --format svg", exitOK, "<svg"},
		{"draw FILE", exitUsage, "--rib"},
		{"draw FILE --rib R7", exitUsage, "R1, R2"},
		{"list FILE --table ribs", exitOK, "| R2 "},
		{"list FILE --table cut-list", exitOK, "R1 S1"},
		{"list FILE --table cut-list --rib R2", exitOK, "| S1 "},
		{"list FILE --table ordinates", exitUsage, "--rib"},
		{"list FILE --table ordinates --rib R2", exitOK, "station"},
		{"list FILE --table sheets", exitOK, "R1 U1"},
		{"check FILE", exitOK, "nearly so, with all ribs"},
	} {
		code, out, msg := call(strings.Fields(strings.ReplaceAll(c.args, "FILE", path))...)
		if code != c.code || !strings.Contains(out+msg, c.want) {
			t.Errorf("%s: exit status %d, want %d and %q: %.300s", c.args, code, c.code, c.want, out+msg)
		}
	}
	single := demoFile(t, "marsh-wren.toml")
	if code, _, msg := call("draw", single, "--rib", "R1"); code != exitUsage || !strings.Contains(msg, "leave the name out") {
		t.Errorf("a rib's name for a single rib: %d %s", code, msg)
	}
}

// TestGather: what is alike with several kinds is told once, with their names.
func TestGather(t *testing.T) {
	p, err := load(wingFile(t, "\n[wing]\nsemi_span = 3000\ntip_chord = 500\nspacing = 1000\n"), nil)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]int{}
	for _, f := range p.found {
		seen[f.Code]++
		if f.Line == 0 {
			t.Errorf("no place: %v", f)
		}
	}
	if seen["cap-bend"] != 1 || !slices.ContainsFunc(p.first().found, func(f finding.Finding) bool { return f.Code == "cap-bend" }) {
		t.Errorf("got %v", seen)
	}
}

// TestWingMany: of a wing of many kinds only what the set needs stays in memory, and a rib is drawn as if it were alone.
func TestWingMany(t *testing.T) {
	path := wingFile(t, "\n[wing]\nsemi_span = 3250\ntip_chord = 1000\nspacing = 50\nwings = 1\n")
	rewrite(t, path, "plates = \"hole-saw\"", "plates = \"line\"")
	p, err := load(path, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.jobs) <= mostFull || !p.jobs[40].slim || p.jobs[40].rib.Caps[0].Outline != nil {
		t.Fatalf("%d kinds of rib, the last whole: %v", len(p.jobs), !p.jobs[40].slim)
	}
	j, err := p.named("R41")
	if err != nil || j.index != 40 || len(j.rib.Caps[0].Outline) == 0 || len(j.jig.Blocks) == 0 {
		t.Fatalf("the rib by itself: %v", err)
	}
	if want := p.jobs[40]; j.rib.Contour.AreaMM2 != want.rib.Contour.AreaMM2 || j.take.Mass.TotalG != want.take.Mass.TotalG {
		t.Error("laid out anew it is another rib")
	}
	for _, table := range p.tables(inSet, false) {
		if table.ID == "ribs" && len(table.Rows) != len(p.jobs) {
			t.Errorf("%d ribs in the list, want %d", len(table.Rows), len(p.jobs))
		}
	}
}
