package rib_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
)

// has reports whether the findings hold a code at a severity.
func has(fs []finding.Finding, s finding.Severity, code string) bool {
	return slices.ContainsFunc(fs, func(f finding.Finding) bool { return f.Severity == s && f.Code == code })
}

// TestPlatesThatMiss holds that a plate which misses its cap or every stick of its joint is an error.
func TestPlatesThatMiss(t *testing.T) {
	line := "[[line]]\nfrom = \"lower 30%\"\nto = \"upper 40%\"\n"
	for _, c := range []struct {
		plate string
		want  bool
	}{{"diameter = 5\n", true}, {"shape = \"rectangle\"\nlength = 30\nheight = 4\n", true}, {"diameter = 30\n", false}} {
		_, fs := build(t, "units = \"mm\"\nsection = { naca = \"4412\" }\nrib = { chord = 1200 }\n"+line+"[gusset]\n"+c.plate, "")
		if got := has(fs, finding.Error, "gusset-misses"); got != c.want {
			t.Errorf("%q: error %v, want %v: %v", c.plate, got, c.want, fs)
		}
	}
}

// TestMitreSteep holds that a post and a diagonal nearly alongside it meet on one bisector.
func TestMitreSteep(t *testing.T) {
	r, _ := build(t, `units = "mm"
section = { naca = "4415" }
rib = { chord = 1060 }
stick = { meet = "mitre", depth = 8 }
spar = [{ name = "f", at = "12%", width = 20 }]
line = [{ from = "upper 8.4%", to = "lower f fore" }]
gusset = { shape = "none" }
`, "")
	for i, p := range r.Sticks {
		for _, q := range r.Sticks[i+1:] {
			if a := geom.CommonArea(p.Outline, q.Outline); a > 1e-6 {
				t.Errorf("%s and %s share %g mm²", p.ID, q.ID, a)
			}
		}
	}
	var cuts []rib.Cut
	for _, s := range r.Sticks {
		for e := range s.Ends {
			for _, c := range s.Ends[e].Cuts {
				if strings.HasPrefix(c.Against, "S") {
					cuts = append(cuts, c)
				}
			}
		}
	}
	if len(cuts) != 2 {
		t.Fatalf("got %d mitre cuts, want 2", len(cuts))
	}
	if h := geom.LeftOf(cuts[0].A, cuts[0].B); math.Abs(h.Off(cuts[1].A)) > 1e-6 || math.Abs(h.Off(cuts[1].B)) > 1e-6 {
		t.Errorf("the two faces of the mitre lie %g and %g mm apart", h.Off(cuts[1].A), h.Off(cuts[1].B))
	}
}

// TestSkinOnOneSide holds that a skin on the upper side alone begins at the leading edge of a cambered section.
func TestSkinOnOneSide(t *testing.T) {
	text := "units = \"mm\"\nsection = { naca = \"4412\" }\nrib = { chord = 1600 }\n"
	whole := mustBuild(t, text, "")
	r := mustBuild(t, strings.Replace(text, "\"4412\"", "\"4412\", skin = [{ from = \"0%\", to = \"20%\", thickness = 1.6, side = \"upper\" }]", 1), "")
	for _, p := range whole.Contour.Upper {
		if p.X > 0.19*1600 || p.Y < 3 {
			continue
		}
		if d := geom.Distance(p, r.Contour.Outline, true); math.Abs(d-1.6) > 0.01 {
			t.Errorf("at %v the contour stands %.3f mm inside, want 1.6", p, d)
		}
	}
}

// TestOneSawCut holds that a straight end on a flat cap is one cut, though the cap's line has a corner there.
func TestOneSawCut(t *testing.T) {
	r := mustBuild(t, "units = \"mm\"\nsection = { builtin = \"clark-y\" }\nrib = { chord = 1000 }\nline = [{ from = \"upper 66%\", to = \"lower 80%\" }]\n", "")
	if n := len(r.Sticks[0].Ends[1].Cuts); n != 1 {
		t.Errorf("got %d cuts on the flat lower cap, want 1: %v", n, r.Sticks[0].Ends[1].Cuts)
	}
}

// TestStickAdrift holds that a stick of which only a piece between others is left is an error.
func TestStickAdrift(t *testing.T) {
	_, fs := build(t, plain+"[gusset]\nshape = \"none\"\n[[line]]\nfrom = \"lower 30%\"\nto = \"upper 30%\"\n"+
		"[[line]]\nfrom = \"lower 44%\"\nto = \"upper 44%\"\n[[line]]\nfrom = \"lower 26%\"\nto = \"upper 48%\"\n", "")
	if !has(fs, finding.Error, "stick-adrift") {
		t.Errorf("no error found: %v", fs)
	}
}

// TestSkinsThatMeet holds that skins over the whole chord are taken off, and that the rib ends where they meet.
func TestSkinsThatMeet(t *testing.T) {
	for _, skin := range []string{
		`{ from = "0%", to = "100%", thickness = 3, side = "both" }`,
		`{ from = "0%", to = "15%", thickness = 3, side = "both" }, { from = "15%", to = "100%", thickness = 3, side = "both" }`,
		`{ from = "0%", to = "100%", thickness = 3, side = "upper" }, { from = "0%", to = "100%", thickness = 3, side = "lower" }`,
	} {
		text := "units = \"mm\"\nsection = { naca = \"2412\" }\nrib = { chord = 900 }\n"
		whole := mustBuild(t, text, "")
		r, fs := build(t, strings.Replace(text, `"2412"`, `"2412", skin = [`+skin+`]`, 1), "")
		if finding.HasError(fs) || !has(fs, finding.Note, "skins-meet") {
			t.Errorf("%s: got %v, want a note that the skins meet", skin, fs)
		}
		for _, x := range []float64{100, 270, 500, 800} {
			up, lo, _ := whole.Contour.At(x)
			for _, y := range []float64{up, lo} {
				if d := geom.Distance(geom.Pt{X: x, Y: y}, r.Contour.Outline, true); math.Abs(d-3) > 0.03 {
					t.Errorf("%s: at station %g the contour stands %.3f mm inside, want 3", skin, x, d)
				}
			}
		}
		for _, x := range r.Contour.Stations {
			if up, lo, ok := r.Contour.At(x); !ok || up < lo-1e-6 {
				t.Errorf("%s: at station %g upper %g, lower %g", skin, x, up, lo)
			}
		}
	}
}

// TestSkinZones holds that skins of two thicknesses behind each other, and skins that lie on each other, are
// taken off with the thickness that lies there.
func TestSkinZones(t *testing.T) {
	text := "units = \"mm\"\nsection = { naca = \"2412\" }\nrib = { chord = 1200 }\n"
	whole := mustBuild(t, text, "")
	for _, c := range []struct {
		skins string
		at    map[float64]float64 // thickness by station
	}{
		{`{ from = "0%", to = "15%", thickness = 1.5, side = "both" }, { from = "15%", to = "60%", thickness = 3, side = "both" }`,
			map[float64]float64{60: 1.5, 170: 1.5, 190: 3, 700: 3, 730: 0, 1000: 0}},
		{`{ from = "0%", to = "40%", thickness = 0.8, side = "both" }, { from = "0%", to = "40%", thickness = 0.8, side = "both" }`,
			map[float64]float64{60: 1.6, 300: 1.6, 470: 1.6, 490: 0}},
		{`{ from = "0%", to = "50%", thickness = 0.8, side = "both" }, { from = "10%", to = "30%", thickness = 1, side = "both" }`,
			map[float64]float64{60: 0.8, 130: 1.8, 350: 1.8, 370: 0.8, 590: 0.8, 610: 0}},
	} {
		r, fs := build(t, strings.Replace(text, `"2412"`, `"2412", skin = [`+c.skins+`]`, 1), "")
		if finding.HasError(fs) {
			t.Errorf("%s: %v", c.skins, fs)
			continue
		}
		for x, want := range c.at {
			up, lo, _ := whole.Contour.At(x)
			for _, y := range []float64{up, lo} {
				if d := geom.Distance(geom.Pt{X: x, Y: y}, r.Contour.Outline, true); math.Abs(d-want) > 0.02 {
					t.Errorf("%s: at station %g the contour stands %.3f mm inside, want %g", c.skins, x, d, want)
				}
			}
		}
	}
}
