package airfoils

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ribwright/geom/csvtable"
	"ribwright/geom/finding"
)

const corpus = "../testdata/airfoils/tables"

// want is what a table file of the corpus says about itself, in comments at its end:
//
//	#! code line:column part of the message     one for each finding, in order
//	#= name: …      #= form: …      #= datum: …      #= count: points of upper and lower side
//	#= nose: radius and slope
//	#= at station: upper lower                   in percent of the chord
type want struct {
	findings []string
	facts    [][2]string
}

func wanted(data []byte) (w want) {
	data = bytes.ReplaceAll(data, []byte{0}, nil)
	for _, l := range strings.FieldsFunc(csvtable.Decode(data), func(r rune) bool { return r == '\n' || r == '\r' }) {
		if rest, ok := strings.CutPrefix(l, "#! "); ok {
			w.findings = append(w.findings, rest)
		}
		if rest, ok := strings.CutPrefix(l, "#= "); ok {
			key, value, _ := strings.Cut(rest, ": ")
			w.facts = append(w.facts, [2]string{key, value})
		}
	}
	return w
}

func corpusFiles(t testing.TB) []string {
	files, err := filepath.Glob(corpus + "/*")
	if err != nil || len(files) == 0 {
		t.Fatalf("no tables in %s: %v", corpus, err)
	}
	return files
}

func TestCorpus(t *testing.T) {
	for _, file := range corpusFiles(t) {
		name := filepath.Base(file)
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			w := wanted(data)
			s, got := Read(name, data)
			checkFindings(t, got, w.findings)
			for _, f := range got {
				if f.File != name || f.Line < 1 || f.Column < 1 || f.Fix == "" || f.Message == "" {
					t.Errorf("finding without place, message or remedy: %+v", f)
				}
			}
			if finding.HasError(got) != (len(s.Upper) == 0) || finding.HasError(got) != strings.HasPrefix(name, "bad-") {
				t.Errorf("%d points and findings %v", len(s.Upper), got)
			}
			for _, f := range w.facts {
				checkFact(t, s, f[0], f[1])
			}
		})
	}
}

func checkFindings(t *testing.T, got []finding.Finding, want []string) {
	t.Helper()
	for i := range max(len(got), len(want)) {
		if i >= len(want) {
			t.Errorf("got a finding too many: %s", got[i])
			continue
		}
		code, rest, _ := strings.Cut(want[i], " ")
		at, part, _ := strings.Cut(rest, " ")
		if i >= len(got) {
			t.Errorf("no finding for %q", want[i])
			continue
		}
		if f := got[i]; f.Code != code || fmt.Sprintf("%d:%d", f.Line, f.Column) != at || !strings.Contains(strings.ToLower(f.Message), strings.ToLower(part)) {
			t.Errorf("got  %s\nwant %s", f, want[i])
		}
	}
}

func checkFact(t *testing.T, s Section, key, value string) {
	t.Helper()
	if station, ok := strings.CutPrefix(key, "at "); ok {
		var x, u, l float64
		if _, err := fmt.Sscan(station+" "+value, &x, &u, &l); err != nil {
			t.Fatal(err)
		}
		gu, gl, ok := s.At(x / 100)
		if !ok || math.Abs(100*gu-u) > 1e-7 || math.Abs(100*gl-l) > 1e-7 {
			t.Errorf("at %v %%: got %v and %v (%v), want %v and %v", x, 100*gu, 100*gl, ok, u, l)
		}
		return
	}
	got := map[string]string{"name": s.Name, "form": s.Form, "datum": s.Datum, "nose": fmt.Sprintf("%.4f %.4f", s.NoseRadius, s.NoseSlope), "count": fmt.Sprint(len(s.Upper), len(s.Lower))}[key]
	if got != value {
		t.Errorf("%s: got %q, want %q", key, got, value)
	}
}
