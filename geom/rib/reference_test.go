package rib_test

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// names maps the reference's joints to ours: numbered along each cap, nose to tail.
var names = map[string]string{
	"T5": "U1", "U1T": "U2", "U2T": "U3", "T22": "U4", "T32": "U5", "T42": "U6", "T52": "U7", "U3T": "U8", "U4T": "U9", "T75": "U10",
	"U1B": "L2", "U2B": "L3", "B18": "L4", "B27": "L5", "B37": "L6", "B47": "L7", "B57": "L8", "U3B": "L9", "U4B": "L10", "B85": "L11",
}

// member maps the reference's member at a joint to ours.
func member(name, joint string) string {
	n, err := strconv.Atoi(name[1:])
	switch {
	case name == "nose":
		return "block-nose"
	case name == "cap" && joint[0] == 'U':
		return "cap-upper"
	case name == "cap":
		return "cap-lower"
	case err == nil && name[0] == 'U':
		return fmt.Sprintf("S%d", n)
	}
	return fmt.Sprintf("S%d", n+5)
}

// TestReferenceAreas holds every glue area against testdata/reference-rib/areas.txt, computed by GEOS and in
// closed form: each within 0.3 mm², the sum within 0.1 %.
func TestReferenceAreas(t *testing.T) {
	r := mustBuild(t, readFile(t, "../../testdata/reference-rib/rib.toml"), "../../testdata/reference-rib")
	got := map[string]map[string]float64{}
	sum := 0.0
	for _, g := range r.Gussets {
		got[g.ID] = g.GlueMM2
		for _, a := range g.GlueMM2 {
			sum += a
		}
	}
	f, err := os.Open("../../testdata/reference-rib/areas.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	joints, worst := 0, 0.0
	for sc := bufio.NewScanner(f); sc.Scan(); {
		words := strings.Fields(sc.Text())
		if words[0] == "EXACT" {
			want, _ := strconv.ParseFloat(words[4], 64)
			if d := math.Abs(sum-want) / want; d > 1e-3 {
				t.Errorf("sum of glue areas: got %.3f, want %.3f mm²", sum, want)
			}
			continue
		}
		id := names[words[1]]
		joints++
		for _, w := range words[6:] {
			if name, v, ok := strings.Cut(w, "="); ok {
				want, _ := strconv.ParseFloat(v, 64)
				m := member(name, id)
				worst = math.Max(worst, math.Abs(got[id][m]-want))
				if math.Abs(got[id][m]-want) > 0.3 {
					t.Errorf("%s (%s), %s: got %.3f, want %.3f mm²", id, words[1], m, got[id][m], want)
				}
				delete(got[id], m)
			}
		}
		if len(got[id]) > 0 {
			t.Errorf("%s: areas the reference has not: %v", id, got[id])
		}
	}
	if joints != 20 || len(r.Gussets) != 20 {
		t.Errorf("got %d joints and %d plates, want 20 of both", joints, len(r.Gussets))
	}
	t.Logf("sum %.3f mm², largest difference %.3f mm²", sum, worst)
}
