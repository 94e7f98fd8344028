package ribfile

import (
	"os"
	"path/filepath"
	"reflect"
	"testing"
)

const demoFolder = "../../cmd/ribwright/demo/"

func TestDemoFilesAreClean(t *testing.T) {
	paths, err := filepath.Glob(demoFolder + "*.toml")
	if err != nil || len(paths) < 3 {
		t.Fatalf("%d demo files, want 3 or more (%v)", len(paths), err)
	}
	for _, path := range paths {
		if doc, fs := Read(path, mustRead(t, path)); len(fs) > 0 || doc.Rib.Chord == 0 {
			t.Errorf("%s: chord %g, findings:\n%s", path, doc.Rib.Chord, text(fs))
		}
	}
}

func mustRead(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// The starter shows every optional key with its default: without them the same Doc is read.
func TestStarterShowsDefaults(t *testing.T) {
	const required = `
		units = "in"
		section = { naca = "4412" }
		rib.chord = 48
		nose.block_to = "5%"
		tail.block_from = "92%"
		spar = [{ name = "front", at = "15%", width = "3/4" }, { name = "rear", at = "65%", width = "3/4" }]
		bay = [
			{ from = "nose", to = "front", panels = 1 }, { from = "front", to = "rear", panels = 8 },
			{ from = "rear", to = "82%", panels = 2, start = "lower" },
		]`
	full, _ := Read("starter", mustRead(t, demoFolder+"starter.toml"))
	short, fs := Read("starter", []byte(required))
	if len(fs) > 0 {
		t.Fatal(text(fs))
	}
	full.places, short.places = nil, nil
	if !reflect.DeepEqual(full, short) {
		t.Errorf("starter:\n%+v\nrequired keys only:\n%+v", full, short)
	}
}

// Adhesive for one face of a rib of 1.4 m with twenty 38 mm plates, which cover about 7,700 mm² of wood,
// is between 4 g and 14 g (under half an ounce: common practice, no source).
func TestDefaultAdhesiveIsReasonable(t *testing.T) {
	doc, _ := Read("", nil)
	a := doc.Adhesive
	grams := 7700 * 2 * a.Spread * a.Density / 1000 * (1 + a.CupLoss)
	if a.Coat != "both" || grams < 4 || grams > 14 {
		t.Errorf("%.2f g mixed for one face, want 4 to 14 g (%+v)", grams, a)
	}
}
