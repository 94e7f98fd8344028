package wing_test

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"testing"

	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
	"ribwright/geom/wing"
)

// FuzzOf: a rib file without errors gives a plan, whatever its [wing] says: no panic, every rib in one kind, finite places,
// and what is wrong has its place and words.
func FuzzOf(f *testing.F) {
	for _, more := range []string{
		"", "wing = { semi_span = 3600, spacing = 300 }",
		"wing = { semi_span = 4000, tip_chord = 900, washout = 3, sweep = -4, stations = [0, 900, 4000], tip = { naca = \"0009\" }, spar = [{ name = \"rear\", tip = \"70%\" }] }",
		"wing = { semi_span = 4000, tip_chord = 60, spacing = 1000, rib = [{ ribs = \"1-3\", cap = { depth = 300 }, spar = [{ name = \"new\", at = \"80%\", width = 9 }] }, { at = 10, name = \"N\" }, { between = \"1\", bay = [] }] }",
	} {
		f.Add([]byte(plain + more))
	}
	bad, _ := filepath.Glob("../../testdata/bad/wing-*.toml")
	for _, path := range bad {
		data, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		doc, found := ribfile.Read("x", data)
		if finding.HasError(found) {
			return
		}
		p, found := wing.Of(doc)
		for _, one := range found {
			if one.Line < 1 || one.Message == "" || one.Fix == "" {
				t.Fatalf("without place or words: %v", one)
			}
		}
		if len(p.Kinds) == 0 {
			t.Fatal("no kind of rib")
		}
		for _, k := range p.Kinds[:min(len(p.Kinds), 20)] {
			if doc.Wing != nil && (k.Doc.Rib.Count != len(k.Places) || len(k.Places) == 0) {
				t.Fatalf("%s: %d ribs in %d places", k.Name, k.Doc.Rib.Count, len(k.Places))
			}
			for _, at := range k.Places[:min(len(k.Places), 20)] {
				if s := at.Nose.X + at.Nose.Y + at.Incidence + at.Span; math.IsNaN(s) || math.IsInf(s, 0) {
					t.Fatalf("%+v", at)
				}
			}
			p.Section(k, func(string) ([]byte, error) { return nil, errors.New("no file") })
		}
	})
}
