package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write what the layout finds into the layout-stage files of testdata/bad")

var wantLine = regexp.MustCompile(`(?m)^# want: (.*)$`)

// TestBadFiles builds every file of testdata/bad: each exits 1 and writes nothing, and gives just the
// findings that its "# want: SEVERITY CODE LINE:COLUMN" lines name.
func TestBadFiles(t *testing.T) {
	names, err := filepath.Glob("../../testdata/bad/*.toml")
	if err != nil || len(names) < 60 {
		t.Fatalf("got %d bad files (%v), want at least 60", len(names), err)
	}
	for _, name := range names {
		t.Run(filepath.Base(name), func(t *testing.T) {
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			j, err := load(name, nil)
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, f := range j.found {
				got = append(got, fmt.Sprintf("%s %s %d:%d", f.Severity, f.Code, f.Line, f.Column))
			}
			if *update && bytes.Contains(data, []byte("# stage: layout")) {
				text := strings.TrimRight(wantLine.ReplaceAllString(string(data), ""), "\n") + "\n"
				for _, g := range got {
					text += "# want: " + g + "\n"
				}
				if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
					t.Fatal(err)
				}
				return
			}
			var want []string
			for _, m := range wantLine.FindAllStringSubmatch(string(data), -1) {
				want = append(want, strings.TrimSpace(m[1]))
			}
			slices.Sort(got)
			slices.Sort(want)
			if !slices.Equal(got, want) {
				t.Errorf("findings:\ngot  %s\nwant %s", strings.Join(got, "; "), strings.Join(want, "; "))
			}
			dir := filepath.Join(t.TempDir(), "out")
			var out, msg bytes.Buffer
			if code := run([]string{"build", name, "-o", dir}, &out, &msg); code != exitFound {
				t.Errorf("exit status: got %d, want %d\n%s", code, exitFound, msg.String())
			}
			if _, err := os.Stat(dir); err == nil || out.Len() > 0 {
				t.Errorf("something was written: %v %q", err, out.String())
			}
		})
	}
}
