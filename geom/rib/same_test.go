package rib_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// alikeText is a rib file of a nose rib with two materials to choose.
const alikeText = `
units = "mm"
title = "T%d"
section = { naca = "4412" }
rib = { chord = 1400, count = %d, trailing_edge = "front fore" }
nose = { block_to = "5%%" }
tail = { block_from = "9%d%%" }
spar = [{ name = "front", at = "15%%", width = 19 }, { name = "rear", at = "62%%", width = 16 }]
bay = [{ from = "front", to = "rear", panels = %d }]
mass = { weighed = { caps = %d } }
`

// TestAlike: title, count and what lies beyond the cut part no ribs; what is said of them does. However many ribs have one size,
// each is compared as a text.
func TestAlike(t *testing.T) {
	var s rib.Set
	add := func(k, weighed int) {
		text := fmt.Sprintf(alikeText, k, 1+k, k%9, 3+k%9, weighed)
		doc, found := ribfile.Read("rib.toml", []byte(text))
		if len(found) > 0 {
			t.Fatal(found)
		}
		s = append(s, rib.Entry{Doc: doc, Rib: mustBuild(t, text, ".")})
	}
	for k := range 4 {
		add(k, 50)
	}
	for k := range 60 {
		add(k, 60+k)
	}
	add(2, 64)
	got := s.Alike()
	for i, first := range got[:64] {
		if i < 4 && first != 0 || i >= 4 && first != i {
			t.Errorf("rib %d is as rib %d", i, first)
		}
	}
	if got[64] != 8 || slices.Contains(got, -1) || strings.Contains(s[0].Doc.Said(), "0x") {
		t.Errorf("the last is as rib %d; %s", got[64], s[0].Doc.Said())
	}
}
