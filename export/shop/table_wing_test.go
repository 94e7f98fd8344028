package shop_test

import (
	"strings"
	"testing"

	"ribwright/export/shop"
	"ribwright/geom/ribfile"
	"ribwright/geom/wing"
)

// The list of the wing's ribs: a row for each station, with what a builder needs to find the drawing and set the rib up.
func TestWingList(t *testing.T) {
	doc, found := ribfile.Read("wing.toml", []byte(`
units = "in"
section = { naca = "4412" }
rib = { chord = 54 }
gusset = { faces = 1 }
spar = [{ name = "main", at = "20%", width = "3/4" }]
wing = { semi_span = "12 ft", spacing = 36, tip_chord = 36, washout = 2 }
`))
	if len(found) > 0 {
		t.Fatal(found)
	}
	p, found := wing.Of(doc)
	if len(found) > 0 {
		t.Fatal(found)
	}
	if _, found = p.Section(p.Kinds[0], nil); len(found) != 1 || found[0].Code != "wing-bevel" {
		t.Error(found)
	}
	list := shop.Wing(doc, p)
	var rows []string
	for _, r := range list.Rows {
		var cells []string
		for _, c := range r {
			cells = append(cells, c.Text)
		}
		rows = append(rows, strings.Join(cells, "|"))
	}
	// By hand: the chord falls by 18 in over 144 in; the quarter chord is straight, so the nose goes aft by a quarter of
	// that; at the tip it goes down by 9 in × sin 2° = 0.314 in.
	want := []string{"R1|both|0|R1|full|54.000|0.000|0.000|0.00|", "R2|both|36|R2|full|49.500|1.", "R3|both|72|R3|full|45.000|2.", "R4|both|108|R4|full|40.500|3.", "R5|both|144|R5|full|36.000|4.505|0.314|2.00|"}
	if len(rows) != len(want) {
		t.Fatalf("%q", rows)
	}
	for i := range rows {
		if !strings.HasPrefix(rows[i], want[i]) || !strings.HasSuffix(rows[i], "plates on one face") {
			t.Errorf("row %d: %q, want %q", i, rows[i], want[i])
		}
	}
	if none := shop.Wing(doc, wing.Plan{}); len(none.Rows) > 0 {
		t.Error(none.Rows)
	}
}
