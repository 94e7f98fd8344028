package rib_test

import (
	"os"
	"path/filepath"
	"testing"

	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

func readFile(t testing.TB, name string) string {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// build lays out the rib of a rib file's text; dir is where its section's table stands.
func build(t testing.TB, text, dir string) (*rib.Rib, []finding.Finding) {
	t.Helper()
	doc, fs := ribfile.Read("rib.toml", []byte(text))
	if finding.HasError(fs) {
		t.Fatalf("the rib file has errors: %v", fs)
	}
	sec, more := rib.Section(doc, func(n string) ([]byte, error) { return os.ReadFile(filepath.Join(dir, n)) })
	if finding.HasError(more) {
		t.Fatalf("the section has errors: %v", more)
	}
	r, found := rib.Build(doc, sec)
	return r, append(append(fs, more...), doc.Locate(found)...)
}

// mustBuild lays out a rib that has no error findings.
func mustBuild(t testing.TB, text, dir string) *rib.Rib {
	t.Helper()
	r, fs := build(t, text, dir)
	if finding.HasError(fs) {
		t.Fatalf("got errors: %v\n%s", fs, text)
	}
	return r
}

func BenchmarkBuild(b *testing.B) {
	for _, name := range []string{"../../cmd/ribwright/demo/marsh-wren.toml", "../../testdata/reference-rib/rib.toml"} {
		doc, _ := ribfile.Read("rib.toml", []byte(readFile(b, name)))
		b.Run(filepath.Base(filepath.Dir(name)), func(b *testing.B) {
			for b.Loop() {
				sec, _ := rib.Section(doc, func(n string) ([]byte, error) { return os.ReadFile("../../testdata/reference-rib/" + n) })
				rib.Build(doc, sec)
			}
		})
	}
}
