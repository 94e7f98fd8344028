package rib_test

import (
	"fmt"
	"strings"
	"testing"

	"ribwright/airfoils"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// BenchmarkThirtyRibs lays out thirty ribs of the reference's kind, chords 1,400 to 900 mm, with all areas: the
// work that testdata/reference-rib's two independent programs do.
func BenchmarkThirtyRibs(b *testing.B) {
	text := readFile(b, "../../testdata/reference-rib/rib.toml")
	text = strings.Replace(text, `file = "outline_1400_n200.csv"`, `naca = "4412"`, 1)
	var docs []*ribfile.Doc
	for i := range 30 {
		chord := fmt.Sprintf("chord = %.6f", 1400-500*float64(i)/29)
		doc, _ := ribfile.Read("rib.toml", []byte(strings.Replace(text, "chord = 1400", chord, 1)))
		docs = append(docs, doc)
	}
	for b.Loop() {
		for _, d := range docs {
			sec, _ := airfoils.NACA(d.Section.NACA)
			rib.Build(d, sec)
		}
	}
}
