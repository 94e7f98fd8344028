package shop_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/shop"
	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/wing"
)

// TestWingDrawing: no name of the picture lies on another, lettering is at least 2.5 mm high, and the first spar's
// openings of all ribs stand on one line.
func TestWingDrawing(t *testing.T) {
	for _, c := range []struct {
		wing string
		all  bool // every rib is named, in plan and in the picture of the ribs
	}{
		{"semi_span = 4000\ntip_chord = 900\nspacing = 500", true},
		{"semi_span = 4000\ntip_chord = 700\nwashout = 3\nsweep = 8\nspacing = 40", true},
		{"semi_span = 4000\ntip_chord = 700\nwashout = 3\nsweep = 8\nspacing = 20", false},
		{"semi_span = 4000\nspacing = 2000\nrib = [{ at = [30, 60], kind = \"tail\" }, { between = \"1-2\", kind = \"nose\" }, { ribs = \"3\", kind = \"compression\", name = \"strut\" }]", true},
		{"semi_span = 4000\nsweep = -5\nspacing = 2000", true},
	} {
		doc, fs := ribfile.Read("w.toml", []byte("units = \"mm\"\ntitle = \"W\"\n[section]\nnaca = \"4412\"\n[rib]\nchord = 1400\n[[spar]]\nname = \"front\"\nat = \"15%\"\nwidth = 19\n[[spar]]\nname = \"rear\"\nat = \"60%\"\nwidth = 16\n[wing]\n"+c.wing+"\n"))
		plan, more := wing.Of(doc)
		if finding.HasError(append(fs, more...)) {
			t.Fatal(fs, more)
		}
		var set rib.Set
		for _, k := range plan.Kinds {
			sec, _ := plan.Section(k, nil)
			r, _ := rib.Build(k.Doc, sec)
			set = append(set, rib.Entry{Name: k.Name, Doc: k.Doc, Rib: r})
		}
		d := shop.WingDrawing(doc, plan, set)
		var boxes []geom.Box
		var texts []string
		named := map[string]int{}
		for _, p := range d.Sheets[0].Parts {
			for _, it := range p.Items {
				if it.Text == nil {
					continue
				}
				if it.Text.Height < 2.5 {
					t.Errorf("%q is %g mm high", it.Text.S, it.Text.Height)
				}
				q := it.Text.Corners()
				box := geom.NewBox(q[:]...)
				for i, o := range boxes {
					if box.Meets(o) {
						t.Errorf("%s: %q lies on %q", c.wing, it.Text.S, texts[i])
					}
				}
				boxes, texts = append(boxes, box), append(texts, it.Text.S)
				first, _, _ := strings.Cut(it.Text.S, " ")
				named[first]++
			}
		}
		missing := 0
		for _, p := range plan.Stands() {
			want := 1
			if p.Kind.Name == p.Rib {
				want = 2
			}
			if named[p.Rib] < want {
				missing++
			}
		}
		if told := strings.Contains(strings.Join(texts, "\n"), "and the last are named here"); c.all != (missing == 0) || c.all == told {
			t.Errorf("%s: %d ribs are not named; told: %v", c.wing, missing, told)
		}
		if strings.Contains(c.wing, "kind") {
			continue // not every rib has both spars
		}
		if err := spread(d, len(set)); err > 4.5 { // washout leans it by 3° over 170 mm, drawn 1 : 5
			t.Errorf("%s: the front spar's openings stand %g mm apart", c.wing, err)
		}
	}
}

// spread is how far the front spar's openings, the foremost of each rib, stand from one another.
func spread(d export.Drawing, ribs int) float64 {
	var at []float64
	for _, it := range d.Sheets[0].Parts[0].Items {
		if it.Layer == "spar" && it.Text == nil && it.Path.Closed {
			at = append(at, it.Path.Box().Min.X)
		}
	}
	if len(at) != 2*ribs {
		panic(fmt.Sprintf("%d openings of %d ribs", len(at), ribs))
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := 0; i < len(at); i += 2 {
		lo, hi = min(lo, at[i]), max(hi, at[i])
	}
	return hi - lo
}
