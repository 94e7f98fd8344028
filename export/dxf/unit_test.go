package dxf_test

import (
	"bytes"
	"math"
	"strconv"
	"testing"

	"ribwright/export"
	"ribwright/export/dxf"
	"ribwright/export/internal/sample"
	"ribwright/geom"
)

func inches(t testing.TB, d export.Drawing, sheet int) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := dxf.WriteIn(&b, d, sheet, dxf.Inch); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestInches writes drawings in both units: groups that are lengths differ by 25.4 to 1e-6 mm, all others,
// the bulges among them, are the same; and ezdxf finds nothing to mend.
func TestInches(t *testing.T) {
	for name, d := range map[string]export.Drawing{"sample": {Layers: sample.Drawing().Layers, Sheets: sample.Drawing().Sheets[1:]}, "job": sample.Job()} {
		mm, in := groups(t, written(t, d, 0)), groups(t, inches(t, d, 0))
		check(t, inches(t, d, 0))
		if len(mm) != len(in) {
			t.Fatalf("%s: %d groups in millimetres, %d in inches", name, len(mm), len(in))
		}
		worst, bulges, variable := 0.0, 0, ""
		for i, g := range mm {
			if g.code == 9 {
				variable = g.value
			}
			v, _ := strconv.ParseFloat(g.value, 64)
			w, _ := strconv.ParseFloat(in[i].value, 64)
			switch {
			case g.code != in[i].code:
				t.Fatalf("%s: group %d is %v in millimetres, %v in inches", name, i, g, in[i])
			case g == in[i]:
				if g.code == 42 {
					bulges++
				}
			case g.code == 70 && variable == "$INSUNITS" && v == 4 && w == 1, g.code == 70 && variable == "$MEASUREMENT" && v == 1 && w == 0:
			case g.code >= 10 && g.code < 42 || g.code == 49:
				worst = math.Max(worst, math.Abs(v-w*25.4))
			default:
				t.Errorf("%s: group %d is %v in millimetres, %v in inches", name, i, g, in[i])
			}
		}
		if worst > 1e-6 || bulges == 0 {
			t.Errorf("%s: lengths differ by %g mm, %d bulges", name, worst, bulges)
		}
	}
	d := one(export.Item{Path: geom.Rect(geom.NewBox(geom.Pt{X: 25.4, Y: 50.8}, geom.Pt{X: 127, Y: 152.4}))}, export.Item{Path: geom.Circle(geom.Pt{X: 100, Y: 100}, 50)},
		export.Item{Text: &export.Text{S: "4 in", At: geom.Pt{X: 76.2, Y: 25.4}, Height: 5.08, Anchor: export.Middle}})
	d.Layers[1].Pen.Dash = []float64{25.4, 12.7}
	a := ezdxf(t, inches(t, d, 0))
	if len(a.Errors)+len(a.Fixes) > 0 || a.Units != 1 {
		t.Errorf("ezdxf: %v %v, units %d", a.Errors, a.Fixes, a.Units)
	}
	near(t, "area, square inches", a.Area["CUT"], 16+math.Pi*2500/645.16, 1e-7)
	near(t, "extents", a.Header[1][0], 150/25.4, 1e-7)
	near(t, "dashes", a.Dashes["DASHES-ODD-DASH"][1], 1, 0)
	if a.Texts[0][1] != 0.2 || a.Texts[0][4] != 3.0 || a.Texts[0][5] != 1.0 {
		t.Errorf("text: %v", a.Texts[0])
	}
}

// TestInchesKeepMillimetres holds paths at random, written in inches, against their true area in mm².
func TestInchesKeepMillimetres(t *testing.T) {
	for seed := range uint64(6) {
		p := sample.Path(seed, true)
		_, want := sample.Measure(p)
		a := ezdxf(t, inches(t, one(export.Item{Path: p}), 0))
		near(t, "area", a.Area["CUT"]*645.16, math.Abs(want), 1e-3)
	}
}
