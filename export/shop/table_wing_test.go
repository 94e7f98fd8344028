package shop_test

import (
	"math"
	"strings"
	"testing"

	"ribwright/export/shop"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
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
	if _, found = p.Section(p.Kinds[0], nil); len(found) > 0 {
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
	want := []string{"R1|both|-|0|R1|full|54.000|0.000|0.000|0.00|", "R2|both|-|36|R2|full|49.500|1.", "R3|both|-|72|R3|full|45.000|2.", "R4|both|-|108|R4|full|40.500|3.", "R5|both|-|144|R5|full|36.000|4.505|0.314|2.00|"}
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

// The spars of a wing whose sections are alike: a straight spar at one share of the chord passes as deep as the ribs let it,
// since the wing is ruled; one that crosses the chord's shares finds more room or less between.
func TestWingSpars(t *testing.T) {
	doc, found := ribfile.Read("wing.toml", []byte(`
units = "mm"
section = { naca = "4412" }
rib = { chord = 1400 }
gusset = { shape = "none" }
spar = [{ name = "front", at = "30%", width = 20 }, { name = "rear", at = "45%", width = 16 }]
wing = { semi_span = 3600, spacing = 1200, tip_chord = 800, spar = [{ name = "rear", tip = "85%" }] }
`))
	if len(found) > 0 {
		t.Fatal(found)
	}
	p, _ := wing.Of(doc)
	var set rib.Set
	for _, k := range p.Kinds {
		sec, _ := p.Section(k, nil)
		r, found := rib.Build(k.Doc, sec)
		if finding.HasError(found) {
			t.Fatal(found)
		}
		set = append(set, rib.Entry{Name: k.Name, Doc: k.Doc, Rib: r})
	}
	list := shop.WingSpars(doc, p, set)
	if len(list.Rows) != 8 {
		t.Fatalf("%d rows", len(list.Rows))
	}
	for i, r := range list.Rows {
		span, aft, front, top := r[2].Num, r[3].Num, r[4].Num, r[8].Num
		share, chord := 0.3, 1400-span/6
		if i > 3 {
			share = 0.45
		}
		root, tip := share*1400, 150+0.3*800
		if i > 3 {
			tip = 150 + 0.85*800
		}
		if want := root + (tip-root)*span/3600; math.Abs(aft-want) > 0.001 {
			t.Errorf("%s at %v: %.3f aft, want %.3f", r[0].Text, span, aft, want)
		}
		if i < 4 && (math.Abs(top) > 0.05 || front > 0.12*chord) {
			t.Errorf("%s at %v: depth %.2f, %.3f over a straight top", r[0].Text, span, front, top)
		}
		if (i == 5 || i == 6) && top < 1 {
			t.Errorf("%s at %v: %.3f over a straight top: the upper side is convex, and the spar crosses it", r[0].Text, span, top)
		}
	}
}
