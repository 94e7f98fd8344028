package jig

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/outside"
)

// TestAgainstGEOS asks GEOS, by way of Debian's python3-shapely, for the areas that blocks share with anything else on the board.
func TestAgainstGEOS(t *testing.T) {
	type board struct {
		Name   string
		Blocks []geom.Ring
		Things map[string]geom.Ring
		Holes  [][3]float64
	}
	python := outside.Python(t, "shapely")
	var in bytes.Buffer
	enc := json.NewEncoder(&in)
	ribs := append(demos(t), randoms(t, 50)...)
	for _, one := range ribs {
		j := one.j
		b := board{Name: one.name, Things: woodOf(one.r)}
		for _, s := range one.r.Spars {
			b.Things["spar "+s.Name] = s.Opening
		}
		for _, g := range one.r.Gussets {
			b.Things["plate "+g.ID] = g.Outline.Flatten(1e-3)
		}
		for _, k := range j.Blocks {
			b.Blocks = append(b.Blocks, k.Outline)
		}
		for _, h := range j.Holes {
			b.Holes = append(b.Holes, [3]float64{h.At.X, h.At.Y, h.Diameter / 2})
		}
		if err := enc.Encode(b); err != nil {
			t.Fatal(err)
		}
	}
	out := strings.TrimSpace(outside.Run(t, python, "testdata/common.py", outside.File(t, "boards.json", in.Bytes())))
	lines := strings.Split(out, "\n")
	if last := lines[len(lines)-1]; last != "looked at all" || len(lines) > 1 {
		t.Errorf("GEOS finds areas in common:\n%s", out)
	}
}
