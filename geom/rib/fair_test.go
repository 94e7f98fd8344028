package rib_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"ribwright/airfoils"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// clarkYText is Clark Y with the upper ordinate at 50 % off by 0.12 % of the chord.
const clarkYText = `units = "in"
[section]
%s
ordinates = [[0, 3.5, 3.5], [1.25, 5.45, 1.93], [2.5, 6.5, 1.47], [5, 7.9, 0.93], [7.5, 8.85, 0.63],
  [10, 9.6, 0.42], [15, 10.69, 0.15], [20, 11.36, 0.03], [30, 11.7, 0], [40, 11.4, 0], [50, 10.64, 0],
  [60, 9.15, 0], [70, 7.35, 0], [80, 5.22, 0], [90, 2.8, 0], [95, 1.49, 0], [100, 0.12, 0]]
[rib]
chord = 55
`

// sectionOf reads a rib file without mistakes and makes its section.
func sectionOf(t *testing.T, text string) (airfoils.Section, []finding.Finding) {
	t.Helper()
	doc, found := ribfile.Read("rib.toml", []byte(text))
	if len(found) > 0 {
		t.Fatal(found)
	}
	return rib.Section(doc, nil)
}

func TestFairKey(t *testing.T) {
	none, found := sectionOf(t, fmt.Sprintf(clarkYText, ""))
	if len(found) > 0 {
		t.Fatalf("without the key: %v", found)
	}
	fair, found := sectionOf(t, fmt.Sprintf(clarkYText, `fair = "1/64"`))
	if len(found) != 1 || found[0].Code != "section-faired" || found[0].Severity != finding.Note || found[0].Key != "section.fair" {
		t.Fatalf("with the key: got %v, want one note", found)
	}
	t.Log(found[0])
	const limit = 25.4 / 64
	if f := found[0]; f.Got > limit*(1+1e-12) || f.Limit != limit || !strings.Contains(f.Message, "upper at 27.500 by -0.0") {
		t.Errorf("got %+v", f)
	}
	const chord = 55 * 25.4
	listed := 0
	for i := range none.Upper {
		for _, d := range []float64{fair.Upper[i].Y - none.Upper[i].Y, fair.Lower[i].Y - none.Lower[i].Y} {
			if math.Abs(d*chord) > limit*(1+1e-12) {
				t.Errorf("station %v moves by %v mm, want %v at most", none.Upper[i].X, d*chord, limit)
			}
			if math.Abs(d*chord) > 0.0254 {
				listed++
			}
		}
	}
	if got := strings.Count(found[0].Message, " by ") - 1; got < listed || listed == 0 {
		t.Errorf("the note lists %d moves, want %d: %v", got, listed, found[0])
	}
}

func TestFairEquation(t *testing.T) {
	_, found := sectionOf(t, "units = \"mm\"\n[section]\nnaca = \"4412\"\nfair = 0.3\n[rib]\nchord = 1400\n")
	if len(found) != 1 || found[0].Code != "section-faired" || !strings.Contains(found[0].Message, "moved nothing") {
		t.Errorf("got %v, want a note that nothing moved", found)
	}
}
