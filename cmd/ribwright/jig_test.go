package main

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
)

// TestJigReport holds the board in the report: blocks that lie on it and name what they hold, its holes, and nothing where the
// file wants none.
func TestJigReport(t *testing.T) {
	type report struct {
		Ribs []struct {
			Joints []struct{}
			Sticks []struct{ ID string }
			Jig    *struct {
				BoardMM [2]float64 `json:"board_mm"`
				BoardAt [2]float64 `json:"board_at"`
				Blocks  []struct {
					ID       string
					Members  []string
					At       [2]float64
					AngleDeg float64    `json:"angle_deg"`
					SizeMM   [2]float64 `json:"size_mm"`
					Outline  [][2]float64
					Contacts []struct {
						Member     string
						At, Normal [2]float64
					}
				}
				Relief  []struct{ Joint string }
				Members []struct {
					ID               string
					Held, UnderPlate bool
				}
			}
		}
	}
	for _, name := range []string{"demo/marsh-wren.toml", "demo/reed-bunting.toml", "demo/starter.toml"} {
		_, out, _ := call("check", "--json", name)
		var r report
		if err := json.Unmarshal([]byte(out), &r); err != nil || len(r.Ribs) != 1 || r.Ribs[0].Jig == nil {
			t.Fatalf("%s: no board in the report (%v)", name, err)
		}
		j := r.Ribs[0].Jig
		if len(j.Relief) != len(r.Ribs[0].Joints) || len(j.Blocks) < len(r.Ribs[0].Joints) || len(j.Members) < len(r.Ribs[0].Sticks)+2 {
			t.Errorf("%s: %d holes, %d blocks, %d members for %d joints and %d sticks", name, len(j.Relief), len(j.Blocks), len(j.Members), len(r.Ribs[0].Joints), len(r.Ribs[0].Sticks))
		}
		for _, b := range j.Blocks {
			if len(b.Members) == 0 || len(b.Contacts) == 0 || len(b.Outline) != 4 {
				t.Errorf("%s: %s tells too little: %+v", name, b.ID, b)
			}
			for _, p := range b.Outline {
				for k := range 2 {
					if p[k] < j.BoardAt[k] || p[k] > j.BoardAt[k]+j.BoardMM[k] {
						t.Errorf("%s: %s stands off the board: %v", name, b.ID, p)
					}
				}
			}
			s, c := math.Sincos(b.AngleDeg * math.Pi / 180)
			if mid := (b.Outline[0][0] + b.Outline[1][0]) / 2; math.Abs(mid-b.At[0]) > 1e-4 || math.Abs(math.Abs((b.Outline[0][0]-b.Outline[1][0])*c+(b.Outline[0][1]-b.Outline[1][1])*s)-b.SizeMM[0]) > 1e-4 {
				t.Errorf("%s: the outline of %s is not %v at %v: %v", name, b.ID, b.SizeMM, b.At, b.Outline)
			}
		}
	}
	data, err := demo.ReadFile("demo/marsh-wren.toml")
	if err != nil {
		t.Fatal(err)
	}
	none := layOut("none.toml", append(data, "\n[jig]\nblocks = \"none\"\n"...), nil, nil)
	var b strings.Builder
	if err := none.report().Write(&b); err != nil || strings.Contains(b.String(), "board_mm") {
		t.Errorf("a board in the report of a rib without blocks (%v)", err)
	}
}
