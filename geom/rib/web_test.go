package rib_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/outside"
	"ribwright/geom/rib"
)

// boxed is a rib 200 mm long and 100 deep, cut out of a section whose sides run level there, with one spar's opening of
// 20 × 84 mm between its caps of 8 mm, and a post of 6 mm on either side.
func boxed() string {
	var rows []string
	for x := 0; x <= 100; x += 4 {
		y := "5"
		if x == 0 {
			y = "0"
		}
		rows = append(rows, fmt.Sprintf("[%d, %s, -%s]", x, y, y))
	}
	return `units = "mm"
[section]
ordinates = [` + strings.Join(rows, ", ") + `]
[rib]
chord = 1000
leading_edge = "60%"
trailing_edge = "80%"
[cap]
depth = 8
width = 10
[stick]
depth = 6
[[spar]]
name = "main"
at = 700
width = 19
clearance = 0.5
`
}

// The areas of a rectangle with a rectangular opening, by hand.
func TestWebByHand(t *testing.T) {
	for _, c := range []struct {
		inset                float64
		web, cap, post, free float64
	}{
		{0, 200*100 - 20*84, 200 * 8, 84 * 6, 200*100 - 20*84 - 2*200*8 - 2*84*6},
		{3, 194*94 - 20*84, 194 * 5, 84 * 6, 194*94 - 20*84 - 2*194*5 - 2*84*6},
	} {
		r := mustBuild(t, boxed()+fmt.Sprintf("[web]\nfaces = \"both\"\ninset = %g\nthickness = 1", c.inset), "")
		w := r.Web
		if len(r.Gussets) != 0 || w.Faces() != 2 || w.Thickness != 1 || len(w.Holes) != 1 || w.Holes[0].Spar != "main" || w.Holes[0].Ring.Area() >= 0 {
			t.Fatalf("%d plates, a web on %d faces with %d holes", len(r.Gussets), w.Faces(), len(w.Holes))
		}
		free := w.AreaMM2
		for _, a := range w.GlueMM2 {
			free -= a
		}
		for _, k := range []struct {
			name      string
			got, want float64
		}{{"web", w.AreaMM2, c.web}, {"upper cap", w.GlueMM2["cap-upper"], c.cap}, {"lower cap", w.GlueMM2["cap-lower"], c.cap},
			{"S1", w.GlueMM2["S1"], c.post}, {"S2", w.GlueMM2["S2"], c.post}, {"free", free, c.free}} {
			if math.Abs(k.got-k.want) > 1e-6*k.want {
				t.Errorf("inset %g, %s: got %.6f mm², want %g", c.inset, k.name, k.got, k.want)
			}
		}
		spars := 0
		for _, m := range w.Marks {
			if m.Kind == "spar" {
				spars++
				if d := m.A.Dist(m.B); math.Abs(d-(8-c.inset)) > 1e-6 || math.Abs(m.A.X-700) > 1e-9 {
					t.Errorf("inset %g: a spar's line of %g mm at %g, want one over the cap", c.inset, d, m.A.X)
				}
			}
		}
		if spars != 2 || len(w.Marks) != 4 {
			t.Errorf("%d marks, %d of the spar; want one of each post, and the spar's on both caps", len(w.Marks), spars)
		}
	}
}

// A face with a web has no plates; the other one keeps those that the file gives it.
func TestWebOrPlates(t *testing.T) {
	for _, c := range []struct {
		gusset, web string
		plates      bool
		far         bool
		on          string
	}{
		{"", "none", true, false, "[]"},
		{"", "near", true, true, "[0]"},
		{"", "far", true, false, "[1]"},
		{"", "both", false, false, "[0 1]"},
		{"faces = 1\n", "near", false, false, "[0]"},
		{"faces = 1\n", "far", true, false, "[1]"},
		{"faces = 1\nface = \"far\"\n", "near", true, true, "[0]"},
		{"faces = 1\nface = \"far\"\n", "far", false, false, "[1]"},
	} {
		r := mustBuild(t, plain+bay("warren", 4, "upper")+"[gusset]\n"+c.gusset+"[[gusset.at]]\njoints = [\"U1\"]\nshape = \"rectangle\"\n[web]\nfaces = \""+c.web+"\"\n", "")
		if fmt.Sprint(r.Web.On()) != c.on || len(r.Gussets) > 0 != c.plates {
			t.Errorf("%q, web %s: on %v with %d plates", c.gusset, c.web, r.Web.On(), len(r.Gussets))
		}
		faces := 2 - len(r.Web.On())
		for _, g := range r.Gussets {
			if g.Far != c.far || g.Faces != faces && c.web != "none" {
				t.Errorf("%q, web %s: plate %s on %d faces, far %v", c.gusset, c.web, g.ID, g.Faces, g.Far)
			}
		}
	}
}

// A web is as wide as a plate where a swept spar passes through both.
func TestWebSwept(t *testing.T) {
	open := func(more string) float64 {
		r := mustBuild(t, strings.Replace(plain, "at =", "sweep = 20\nat =", 1)+more, "")
		return r.Spars[0].Gap()
	}
	none := open("[gusset]\nshape = \"none\"\n")
	for _, c := range []struct {
		more string
		want float64
	}{
		{"[web]\nfaces = \"both\"\nthickness = 2\n", 4},
		{"[gusset]\nthickness = 1.5\n[web]\nfaces = \"near\"\nthickness = 2\n", 3.5},
	} {
		if got, want := open(c.more)-none, float64(c.want*math.Tan(20*math.Pi/180)); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: the opening is %.9f mm wider than without, want %.9f", c.more, got, want)
		}
	}
}

// The same rib in inches has the same web, and its mirror image the mirrored one.
func TestWebUnitsAndMirror(t *testing.T) {
	const web = "[web]\nfaces = \"near\"\ninset = \"1.5 mm\"\nthickness = \"1 mm\"\n"
	up := mustBuild(t, plain+bay("warren", 5, "upper")+web, "")
	down := mustBuild(t, plain+bay("warren", 5, "lower")+web, "")
	if a, b := up.Web, down.Web; math.Abs(a.AreaMM2-b.AreaMM2) > 1e-6 || math.Abs(a.GlueMM2["cap-upper"]-b.GlueMM2["cap-lower"]) > 1e-6 {
		t.Errorf("area %.7f and mirrored %.7f mm², upper cap %.7f and lower %.7f", a.AreaMM2, b.AreaMM2, a.GlueMM2["cap-upper"], b.GlueMM2["cap-lower"])
	}
	for id, a := range up.Web.GlueMM2 {
		if b := down.Web.GlueMM2[id]; id[0] == 'S' && math.Abs(a-b) > 1e-6 {
			t.Errorf("%s: %.7f and mirrored %.7f mm²", id, a, b)
		}
	}
	sized := func(units string, in float64) *rib.Rib {
		return mustBuild(t, fmt.Sprintf(`units = %q
section = { naca = "2412" }
rib = { chord = %g }
cap = { depth = %g, width = %g }
nose = { block_to = "5%%" }
spar = [{ name = "front", at = "20%%", width = %g, clearance = %g }]
bay = [{ from = "front", to = "80%%", panels = 5 }]
web = { faces = "far", inset = %g, thickness = %g }
`, units, 60*in, in/4, in/2, 3*in/4, in/64, in/16, in/16), "")
	}
	inch, mm := sized("in", 1).Web, sized("mm", 25.4).Web
	if math.Abs(inch.AreaMM2-mm.AreaMM2) > 1e-6 || len(inch.GlueMM2) != len(mm.GlueMM2) || len(inch.GlueMM2) < 5 || inch.Thickness != mm.Thickness {
		t.Errorf("in inches %.7f mm², in millimetres %.7f", inch.AreaMM2, mm.AreaMM2)
	}
	for id, a := range inch.GlueMM2 {
		if math.Abs(a-mm.GlueMM2[id]) > 1e-6 {
			t.Errorf("%s: in inches %.7f mm², in millimetres %.7f", id, a, mm.GlueMM2[id])
		}
	}
}

// TestWebsAgainstGEOS holds the area of every member under a web, and the sum of these and of what lies free, against an
// overlay of the outlines by GEOS: with the demos' ribs and with random ones.
func TestWebsAgainstGEOS(t *testing.T) {
	type web struct {
		Name    string
		Outline geom.Ring
		Holes   []geom.Ring
		Members map[string]geom.Ring
		Areas   map[string]float64
		Area    float64
	}
	python := outside.Python(t, "shapely")
	var in bytes.Buffer
	enc := json.NewEncoder(&in)
	ribs := 0
	add := func(name string, r *rib.Rib) {
		w := web{Name: name, Outline: r.Web.Outline, Members: map[string]geom.Ring{}, Areas: r.Web.GlueMM2, Area: r.Web.AreaMM2}
		for _, h := range r.Web.Holes {
			w.Holes = append(w.Holes, h.Ring)
		}
		for _, c := range r.Caps {
			w.Members[c.ID] = c.Outline
		}
		for _, k := range r.Blocks {
			w.Members[k.ID] = k.Outline
		}
		for _, s := range r.Sticks {
			w.Members[s.ID] = s.Outline
		}
		if err := enc.Encode(w); err != nil {
			t.Fatal(err)
		}
		ribs++
	}
	const demos = "../../cmd/ribwright/demo"
	for _, name := range []string{"marsh-wren", "reed-bunting", "starter"} {
		data, err := os.ReadFile(filepath.Join(demos, name+".toml"))
		if err != nil {
			t.Fatal(err)
		}
		for _, inset := range []string{"0", "\"1/16 in\""} {
			text := string(data) + "\n[web]\nfaces = \"both\"\ninset = " + inset + "\n"
			if head, tail, ok := strings.Cut(string(data), "faces = \"none\""); ok { // the starter shows all keys
				text = head + "faces = \"both\"" + strings.Replace(tail, "inset = 0", "inset = "+inset, 1)
			}
			add(name, mustBuild(t, text, demos))
		}
	}
	rnd := rand.New(rand.NewSource(7))
	for k := 0; ribs < 60; k++ {
		text := randomRib(rnd) + fmt.Sprintf("[web]\nfaces = \"both\"\ninset = %s\n", []string{"0", "0", "1.3"}[rnd.Intn(3)])
		if r, fs := build(t, text, ""); !finding.HasError(fs) {
			add(fmt.Sprint("random ", k), r)
		}
	}
	out := strings.TrimSpace(outside.Run(t, python, "testdata/webs.py", outside.File(t, "webs.json", in.Bytes())))
	if strings.Contains(out, "\n") {
		t.Errorf("GEOS finds other areas:\n%s", out)
	}
	t.Logf("%d ribs; the worst relative difference of a member and of a web: %s", ribs, out)
}
