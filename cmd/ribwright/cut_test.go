package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// rewrite replaces a text of a file.
func rewrite(t *testing.T, path, old, fresh string) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(data, []byte(old)) {
		t.Fatalf("%s lacks %q", path, old)
	}
	if err := os.WriteFile(path, bytes.Replace(data, []byte(old), []byte(fresh), 1), 0o666); err != nil {
		t.Fatal(err)
	}
}

// TestChangedTool builds with a hole saw and then with a laser: the holes and the programs of the older build go.
func TestChangedTool(t *testing.T) {
	path, dir := demoFile(t, "marsh-wren.toml"), t.TempDir()
	rewrite(t, path, "count = 26", "count = 2")
	if code, _, msg := call("build", path, "-o", dir); code != exitOK {
		t.Fatal(msg)
	}
	of := []string{"holes.pdf", "holes.dxf", "holes.csv", "drill-1.ngc"}
	before := files(t, dir)
	for _, n := range append(of, "sheets.pdf", "sheets.svg", "sheets.dxf", "sheets.csv", "buy.csv") {
		if before[n] == "" {
			t.Errorf("%s is missing", n)
		}
	}
	rewrite(t, path, `plates = "hole-saw"`, `plates = "laser"`)
	code, _, msg := call("build", path, "-o", dir)
	if code != exitOK {
		t.Fatal(msg)
	}
	after := files(t, dir)
	for _, n := range of {
		if after[n] != "" || !strings.Contains(msg, n) {
			t.Errorf("%s of the older build is there still, or its going was not told: %s", n, msg)
		}
	}
	if code, out, msg := call("draw", path, "--sheet", "holes"); code != exitUsage || out != "" || !strings.Contains(msg, "holes") {
		t.Errorf("holes for a laser: exit status %d, %d bytes, %s", code, len(out), msg)
	}
	for _, format := range []string{"pdf", "svg", "dxf"} {
		if code, out, msg := call("draw", path, "--sheet", "sheets", "--format", format); code != exitOK || len(out) < 1000 {
			t.Errorf("sheets as %s: exit status %d, %d bytes, %s", format, code, len(out), msg)
		}
	}
}

// TestSheetShort tells of plywood that does not suffice, and of a saw of the wrong size, and builds all the same.
func TestSheetShort(t *testing.T) {
	path, dir := demoFile(t, "marsh-wren.toml"), t.TempDir()
	rewrite(t, path, "hole_saw = 42", "hole_saw = 44\n[[sheet.stock]]\nlength = 600\nwidth = 300\ncount = 1")
	rewrite(t, path, "count = 26", "count = 4")
	rewrite(t, path, "hole_saw_kerf = 2\n", "")
	rewrite(t, path, "pilot = 6 ", "# ")
	code, _, msg := call("build", path, "-o", dir)
	if code != exitOK || !strings.Contains(msg, "[sheet-short]") || !strings.Contains(msg, "[saw-plate-size]") {
		t.Errorf("exit status %d: %s", code, msg)
	}
	if !strings.Contains(msg, "plates of 40 mm") || !strings.Contains(msg, "a saw of 42 mm outer diameter") {
		t.Errorf("the saw's plate is not told: %s", msg)
	}
	if !strings.Contains(files(t, dir)["lists.md"], "plates are on no sheet") {
		t.Error("the list of sheets is silent about what is left")
	}
}

// TestBar: nothing shows of quick work, a bar of slow work, and nothing of it stays.
func TestBar(t *testing.T) {
	f, err := os.Create(filepath.Join(t.TempDir(), "terminal"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	at := time.Unix(0, 0)
	show := bar(f, "nesting", func() time.Time { at = at.Add(200 * time.Millisecond); return at })
	written := func() string {
		b, err := os.ReadFile(f.Name())
		if err != nil {
			t.Fatal(err)
		}
		return string(b)
	}
	show(1, 10)
	show(2, 10)
	show(10, 10)
	if got := written(); got != "" {
		t.Errorf("quick work: %q", got)
	}
	show(3, 10)
	show(5, 10)
	if got := written(); !strings.Contains(got, "nesting [###############               ]  50 %") {
		t.Errorf("slow work: %q", got)
	}
	show(10, 10)
	if got := written(); !strings.HasSuffix(got, "\r") || strings.TrimSpace(got[strings.LastIndex(strings.TrimRight(got, "\r"), "\r"):]) != "" {
		t.Errorf("at the end: %q", got)
	}
	if (&app{err: f}).progress("nesting") != nil || (&app{err: new(bytes.Buffer)}).progress("nesting") != nil {
		t.Error("a file is taken for a terminal")
	}
}
