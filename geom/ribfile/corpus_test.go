package ribfile

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"ribwright/geom/finding"
)

const badFiles = "../../testdata/bad/*.toml"

var (
	wantLine = regexp.MustCompile(`(?m)^# want: (\S+ \S+ \d+:\d+)\r?$`)
	// jargon is what a builder must never meet in a message.
	jargon = regexp.MustCompile(`%!|<nil>|\bnil\b|U\+|strconv|unmarshal|float64|int64|struct|\bEOF\b|toml:|unexpected`)
)

// TestBadFiles reads every rib file of the corpus. Each says in remarks "# want: SEVERITY CODE LINE:COLUMN"
// which findings it must give: these and no others. Files with "# stage: layout" hold mistakes that only
// show when the rib is laid out; the reader must find nothing in them.
func TestBadFiles(t *testing.T) {
	paths, err := filepath.Glob(badFiles)
	if err != nil || len(paths) < 70 {
		t.Fatalf("%d bad files, want 70 or more (%v)", len(paths), err)
	}
	for _, path := range paths {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".toml"), func(t *testing.T) {
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			var want []string
			for _, m := range wantLine.FindAllStringSubmatch(string(data), -1) {
				want = append(want, m[1])
			}
			if len(want) == 0 {
				t.Fatal("no # want: line")
			}
			if strings.Contains(string(data), "# stage: layout") {
				want = nil
			}
			doc, fs := Read(path, data)
			if doc == nil {
				t.Fatal("no Doc")
			}
			var got []string
			for _, f := range fs {
				got = append(got, fmt.Sprintf("%s %s %d:%d", f.Severity, f.Code, f.Line, f.Column))
				checkWords(t, f, path)
			}
			slices.Sort(got)
			slices.Sort(want)
			if !slices.Equal(got, want) {
				t.Errorf("got  %q\nwant %q\n%s", got, want, text(fs))
			}
		})
	}
}

func checkWords(t *testing.T, f finding.Finding, path string) {
	t.Helper()
	words := f.Message + " " + f.Fix
	if f.File != path || f.Fix == "" || !strings.HasSuffix(f.Message, ".") || jargon.MatchString(words) {
		t.Errorf("badly worded: %v", f)
	}
	if f.Code == CodeSizeImpossible && f.Unit == "" {
		t.Errorf("no unit with got and limit: %v", f)
	}
}

func text(fs []finding.Finding) string {
	var b strings.Builder
	for _, f := range fs {
		fmt.Fprintln(&b, f)
	}
	return b.String()
}

// Every code the reader can give stands in the corpus, so that each has been seen with its place. The
// codes that need a file too large or unfit for the corpus are tested in read_test.go.
func TestEveryCodeInCorpus(t *testing.T) {
	paths, _ := filepath.Glob(badFiles)
	var all strings.Builder
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		all.Write(data)
	}
	source, err := os.ReadFile("codes.go")
	if err != nil {
		t.Fatal(err)
	}
	elsewhere := []string{CodeFileLarge, CodeEncoding, CodeTooMany}
	for _, m := range regexp.MustCompile(`Code\w+\s+= "([a-z-]+)"`).FindAllStringSubmatch(string(source), -1) {
		if !slices.Contains(elsewhere, m[1]) && !strings.Contains(all.String(), " "+m[1]+" ") {
			t.Errorf("no bad file for %s", m[1])
		}
	}
}
