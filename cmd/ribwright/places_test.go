package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"
)

// TestWingPlaces: the report says where every rib stands, as the list of the wing's ribs does.
func TestWingPlaces(t *testing.T) {
	for _, c := range []struct {
		wing  string
		kinds int
	}{
		{"semi_span = 3000\ntip_chord = 1100\nwashout = 2\nsweep = 3\nspacing = 1000\nrib = [{ between = \"2\", kind = \"nose\", name = \"false\" }]\n", 5},
		{"semi_span = 3000\nspacing = 1000\nwings = 1\n", 1},
	} {
		path := wingFile(t, "\n[wing]\n"+c.wing)
		code, out, msg := call("check", path, "--json")
		if code != exitOK {
			t.Fatal(msg)
		}
		var r struct {
			Ribs []struct{ Name string }
			Wing struct {
				SemiSpan float64 `json:"semi_span_mm"`
				Wings    int
				Places   []struct {
					Rib, Called, Hand, Drawing, Kind string
					Chord                            float64    `json:"chord_mm"`
					Span                             float64    `json:"span_mm"`
					Nose                             [2]float64 `json:"nose_mm"`
					Incidence                        float64    `json:"incidence_deg"`
				}
			}
		}
		if err := json.Unmarshal([]byte(out), &r); err != nil {
			t.Fatal(err)
		}
		code, out, msg = call("list", path, "--table", "wing", "--format", "csv")
		if code != exitOK {
			t.Fatal(msg)
		}
		rows, err := csv.NewReader(bytes.NewBufferString(out)).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		column := map[string]int{}
		for i, name := range rows[0] {
			column[name] = i
		}
		rows = rows[1:]
		if r.Wing.SemiSpan != 3000 || len(r.Ribs) != c.kinds || len(r.Wing.Places) != r.Wing.Wings*len(rows) || len(rows) < 4 {
			t.Fatalf("%d kinds, %d places for %d rows", len(r.Ribs), len(r.Wing.Places), len(rows))
		}
		for i, p := range r.Wing.Places {
			row := rows[i/r.Wing.Wings]
			cell := func(name string) string { return row[column[name]] }
			for name, got := range map[string]string{"rib": p.Rib, "kind": p.Kind} {
				if cell(name) != got {
					t.Errorf("place %d: %s is %q, in the list %q", i, name, got, cell(name))
				}
			}
			if cell("called") != "-" && cell("called") != p.Called || c.kinds > 1 && cell("drawing") != p.Drawing || c.kinds == 1 && p.Drawing != r.Ribs[0].Name {
				t.Errorf("place %d: called %q, drawn by %q; in the list %q", i, p.Called, p.Drawing, row)
			}
			if want := []string{"left", "right"}[i%r.Wing.Wings]; p.Hand != want {
				t.Errorf("place %d: hand %q", i, p.Hand)
			}
			for name, got := range map[string]float64{"span_mm": p.Span, "chord_mm": p.Chord, "aft_mm": p.Nose[0], "down_mm": -p.Nose[1], "nose_down_deg": -p.Incidence} {
				if want, err := strconv.ParseFloat(cell(name), 64); err != nil || math.Abs(want-got) > 1e-5 {
					t.Errorf("place %d: %s %v, in the list %s", i, name, got, cell(name))
				}
			}
		}
	}
	if _, out, _ := call("check", demoFile(t, "marsh-wren.toml"), "--json"); strings.Contains(out, `"wing"`) {
		t.Error("a rib without a wing has places in one")
	}
}
