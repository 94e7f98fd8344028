package main

import (
	"bytes"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// size returns the dots of a picture.
func size(t *testing.T, data string) (w, h int) {
	t.Helper()
	c, err := png.DecodeConfig(strings.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return c.Width, c.Height
}

// TestBuildPictures builds with and without pictures: one for each sheet and page, and none of an older build left.
func TestBuildPictures(t *testing.T) {
	path, dir := demoFile(t, "marsh-wren.toml"), t.TempDir()
	strange := filepath.Join(dir, "jig-of-my-own.png")
	if err := os.WriteFile(strange, []byte("no picture of ours"), 0o666); err != nil {
		t.Fatal(err)
	}
	if code, _, msg := call("build", path, "--png", "60", "-o", dir); code != exitOK {
		t.Fatal(msg)
	}
	got, pages := files(t, dir), 0
	for n, data := range got {
		if regexp.MustCompile(`^jig-tiles-[A-Z]\d+\.png$`).MatchString(n) {
			pages++
			if w, h := size(t, data); min(w, h) != int(math.Ceil(210*60/25.4)) || max(w, h) != int(math.Ceil(297*60/25.4)) {
				t.Errorf("%s has %d × %d dots, not those of A4", n, w, h)
			}
		}
	}
	if want := bytes.Count([]byte(got["jig-tiles.pdf"]), []byte("/Type /Page /")); pages != want || pages < 2 || got["jig.png"] == "" || got["plates.png"] == "" {
		t.Errorf("got %d pictures of %d pages", pages, want)
	}
	code, _, msg := call("build", path, "-o", dir)
	if code != exitOK || !strings.Contains(msg, "pictures of an older build are removed") {
		t.Errorf("exit status %d, %s", code, msg)
	}
	left, err := filepath.Glob(filepath.Join(dir, "*.png"))
	if err != nil || !slices.Equal(left, []string{strange}) {
		t.Errorf("left: %v %v, want the stranger alone", left, err)
	}
}

// TestDrawPictures draws pictures to files, folders and the standard output.
func TestDrawPictures(t *testing.T) {
	path, dir := demoFile(t, "marsh-wren.toml"), t.TempDir()
	for _, c := range []struct {
		args []string
		want string // a file that is written
	}{
		{[]string{"--png", "50", "-o", filepath.Join(dir, "a.png")}, "a.png"},
		{[]string{"-o", filepath.Join(dir, "b.png")}, "b.png"},
		{[]string{"--png", "50", "-o", dir}, "jig.png"},
		{[]string{"--png", "50", "-o", filepath.Join(dir, "new") + "/"}, "new/jig.png"},
		{[]string{"--sheet", "plates", "--format", "png", "-o", filepath.Join(dir, "c")}, "c"},
		{[]string{"--sheet", "tiles", "--png", "30", "-o", dir}, "jig-tiles-A1.png"},
		{[]string{"--sheet", "tiles", "--png", "30", "-o", filepath.Join(dir, "d.png")}, "d-A1.png"},
		{[]string{"--sheet", "tiles", "--paper", "2000x1000", "--png", "30", "-o", filepath.Join(dir, "e.png")}, "e.png"},
	} {
		code, _, msg := call(append([]string{"draw", path}, c.args...)...)
		data, err := os.ReadFile(filepath.Join(dir, c.want))
		if code != exitOK || err != nil {
			t.Errorf("%v: exit status %d, %s, %v", c.args, code, msg, err)
			continue
		}
		size(t, string(data))
	}
	_, out, _ := call("draw", path, "--png", "100")
	w, _ := size(t, out)
	if i := strings.Index(out, "pHYs"); i < 0 || !strings.HasPrefix(out[i+4:], "\x00\x00\x0f\x61\x00\x00\x0f\x61\x01") { // 3937 dots a metre
		t.Error("the picture does not say how large its dots are")
	}
	code, long, msg := call("draw", path, "--png", "600")
	if most, _ := size(t, long); code != exitOK || most > mostDots || most < mostDots*99/100 || !strings.Contains(msg, "15000") {
		t.Errorf("600 dots an inch where 100 give %d: got %d dots, %q", w, most, msg)
	}
	for _, c := range []struct{ args, want string }{
		{"--sheet tiles --png 50", "pages"}, {"--png 5", "--png 5"}, {"--png 601", "--png 601"}, {"--png 50 --format svg", "svg"}, {"--png 50 -o x.pdf", "pdf"}, {"--png much", "png"},
	} {
		if code, out, msg := call(append([]string{"draw", path}, strings.Fields(c.args)...)...); code != exitUsage || out != "" || !strings.Contains(msg, c.want) {
			t.Errorf("%s: exit status %d, %q", c.args, code, msg)
		}
	}
}
