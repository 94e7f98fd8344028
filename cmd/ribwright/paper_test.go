package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"ribwright/geom/ribfile"
)

// withPaper writes a demo rib file with a [paper] of its own.
func withPaper(t *testing.T, keys string) string {
	t.Helper()
	data, err := os.ReadFile(demoFile(t, "marsh-wren.toml"))
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "rib.toml")
	if err := os.WriteFile(path, append(data, "\n[paper]\n"+keys...), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// mediaBoxes returns the different sizes of a PDF's pages, in points, and how many pages it has.
func mediaBoxes(pdf string) (sizes []string, pages int) {
	seen := map[string]bool{}
	for _, m := range regexp.MustCompile(`/MediaBox \[0 0 ([\d. ]+)\]`).FindAllStringSubmatch(pdf, -1) {
		if pages++; !seen[m[1]] {
			seen[m[1]] = true
			sizes = append(sizes, m[1])
		}
	}
	return sizes, pages
}

// TestPaperOfTheFile holds that the rib file gives the paper, and flags say otherwise.
func TestPaperOfTheFile(t *testing.T) {
	path := withPaper(t, "size = \"Arch D\"\nprinted = \"99.2x101.5\"\n")
	for _, c := range []struct {
		flags string
		sizes string // in points: the paper, however the print is corrected
		note  string
	}{
		{"", "2592 1728", ""},
		{"--paper A3 --turn landscape", "1190.55118 841.88976", ""},
		{"--paper ANSI-C --turn portrait --printed 100x100", "1224 1584", ""},
		{"--printed 95x95.1", "2592 1728", "note: --printed: The print is 5 % off"},
		{"--printed 100.02x100", "2592 1728", "note: --printed: The printer is true to 0.05 %"},
	} {
		args := append([]string{"draw", path, "--sheet", "tiles"}, strings.Fields(strings.ReplaceAll(c.flags, "ANSI-C", "ansi_c"))...)
		code, out, msg := call(args...)
		sizes, _ := mediaBoxes(out)
		if code != exitOK || len(sizes) != 1 || sizes[0] != c.sizes || !strings.Contains(msg, c.note) || c.note == "" && msg != "" {
			t.Errorf("%v: exit status %d, pages of %v points, want %q; %q", args[3:], code, sizes, c.sizes, msg)
		}
	}
}

// TestTemplatesKeepThePaper holds that corrected templates stay on the paper, upright and turned.
func TestTemplatesKeepThePaper(t *testing.T) {
	path := demoFile(t, "marsh-wren.toml")
	for _, s := range []string{"sticks", "templates"} {
		_, plain, _ := call("draw", path, "--sheet", s)
		code, out, msg := call("draw", path, "--sheet", s, "--format", "pdf", "--printed", "97.5x102")
		want, _ := mediaBoxes(plain)
		got, _ := mediaBoxes(out)
		if code != exitOK || len(want) != 1 || len(got) != 1 || got[0] != want[0] {
			t.Errorf("%s: exit status %d, pages of %v points, want %v; %s", s, code, got, want, msg)
		}
	}
}

// TestOnlyPrintsAreCorrected holds that files for other programs stay true.
func TestOnlyPrintsAreCorrected(t *testing.T) {
	path := demoFile(t, "marsh-wren.toml")
	for _, format := range []string{"svg", "dxf"} {
		_, plain, _ := call("draw", path, "--format", format)
		if _, got, _ := call("draw", path, "--format", format, "--printed", "99x101"); got != plain {
			t.Errorf("%s differs where the printer is off", format)
		}
	}
	_, plain, _ := call("draw", path)
	if _, got, _ := call("draw", path, "--printed", "99x101"); got == plain {
		t.Error("the PDF is not corrected")
	}
	if p, err := (&options{printed: "99x101"}).paperOf(nil); err != nil || p.Printed != (ribfile.Printed{Across: 0.99, Up: 1.01}) {
		t.Errorf("the printer is %v, %v", p.Printed, err)
	}
}

// TestPaperOfTheSet: what a wing has once is printed as the file says, and its sample joint is of the file's cap, whatever the first
// rib has of its own; that rib's drawings lie on its own paper.
func TestPaperOfTheSet(t *testing.T) {
	path := wingFile(t, `
[wing]
semi_span = 3000
stations = [0, 3000]
[[wing.rib]]
ribs = "1"
cap = { width = 20 }
stick = { width = 20 }
paper = { size = "A3", printed = "98x98" }
`)
	for args, want := range map[string]string{"bars": "A4", "coupon": "A4", "sticks --rib R1": "A3", "sticks --rib R2": "A4"} {
		code, out, msg := call(append([]string{"draw", path, "--format", "pdf", "--sheet"}, strings.Fields(args)...)...)
		sizes, _ := mediaBoxes(out)
		if size := map[string]string{"595.27559 841.88976": "A4", "841.88976 595.27559": "A4", "841.88976 1190.55118": "A3"}[strings.Join(sizes, ", ")]; code != exitOK || size != want {
			t.Errorf("%s: exit status %d, pages of %v points, not on %s; %s", args, code, sizes, want, msg)
		}
	}
	_, out, _ := call("draw", path, "--sheet", "wing")
	_, plain, _ := call("draw", path, "--sheet", "wing", "--printed", "100x100")
	got, _ := mediaBoxes(out)
	if want, _ := mediaBoxes(plain); !slices.Equal(got, want) {
		t.Errorf("the wing is corrected for the first rib's printer: %v", got)
	}
	for _, rib := range []string{"R1", "R2"} {
		_, joint, msg := call("list", path, "--table", "coupons", "--rib", rib, "--format", "csv")
		if !strings.Contains(joint, ",152.4,7.9,1203.96,") { // 12.7 × 12 mm of Sitka spruce
			t.Errorf("%s: %s%s", rib, joint, msg)
		}
	}
}
