package bend_test

import (
	"math"
	"strings"
	"testing"

	"ribwright/airfoils"
	"ribwright/geom"
	"ribwright/geom/bend"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

var rules = ribfile.Bend{Dry: 125, Care: 75, Soak: 30}

func rad(degrees float64) float64 { return degrees * math.Pi / 180 }

// arc returns points on a circle about (r, 0), from its foremost point on, over an angle.
func arc(r, over float64, n int) []geom.Pt {
	var out []geom.Pt
	for i := range n + 1 {
		out = append(out, geom.Pt{X: r}.Along(geom.Polar(math.Pi-float64(over*float64(i))/float64(n)), r))
	}
	return out
}

// TestTiers holds the tiers at, just above and just below their limits, and the strain t/2R that the ratio means.
func TestTiers(t *testing.T) {
	for _, c := range []struct {
		ratio float64
		want  bend.Tier
	}{
		{1e9, bend.Dry}, {125, bend.Dry}, {124.999, bend.Care}, {75, bend.Care}, {74.999, bend.Soak}, {30, bend.Soak}, {29.999, bend.Steam}, {0, bend.Steam},
	} {
		if got := bend.TierOf(c.ratio, rules); got != c.want {
			t.Errorf("ratio %g: got %s, want %s", c.ratio, got, c.want)
		}
	}
	// By hand: 6 mm on 450 mm, strain 6/900; the limits are strains of 0.4, 0.667 and 1.667 %.
	if got := bend.Strain(6, 450); math.Abs(got-1.0/150) > 1e-15 {
		t.Errorf("strain: got %g, want 1/150", got)
	}
	if !math.IsInf(bend.Strain(6, 0), 1) {
		t.Error("a strip folded on itself must have no finite strain")
	}
}

// TestCircle holds a strip inside a circle against the closed form.
func TestCircle(t *testing.T) {
	for _, c := range []struct {
		r, depth float64
		want     bend.Tier
	}{{753, 6, bend.Dry}, {752.9, 6, bend.Care}, {453, 6, bend.Care}, {183, 6, bend.Soak}, {182.9, 6, bend.Steam}, {3, 6, bend.Steam}} {
		edge := arc(c.r, 1.4, 400)
		b := bend.Of(bend.Strip{ID: "s", Depth: c.depth, Edge: edge, Radius: c.r}, rules)
		if middle := c.r - c.depth/2; math.Abs(b.Radius-middle) > 1e-12 || b.Tier != c.want || math.Abs(b.Ratio*c.depth-middle) > 1e-12 {
			t.Errorf("circle %g: got %+v, want radius %g, %s", c.r, b, middle, c.want)
		}
		if b.Radius > 0 && math.Abs(b.Strain-c.depth/2/b.Radius) > 1e-12 {
			t.Errorf("circle %g: strain %g", c.r, b.Strain)
		}
	}
}

// TestStations holds the station behind which a strip bends dry, with care and soaked on y² = 2px, whose radius is
// p(1 + 2x/p)^1.5 (the parabola's curvature, in any textbook): within 2 %, and on the safe side.
func TestStations(t *testing.T) {
	const p, depth = 20.0, 6.0
	var edge []geom.Pt
	for i := range 4001 {
		y := 600 * math.Pow(float64(i)/4000, 1.5)
		edge = append(edge, geom.Pt{X: y * y / (2 * p), Y: y})
	}
	b := bend.Of(bend.Strip{ID: "s", Depth: depth, Edge: edge, Radius: p}, rules)
	for _, c := range []struct{ got, limit float64 }{{b.DryFrom, rules.Dry}, {b.CareFrom, rules.Care}, {b.SoakFrom, rules.Soak}} {
		radius := (c.limit + 0.5) * depth
		want := p / 2 * (math.Pow(radius/p, 2.0/3) - 1)
		if c.got > 1.02*want || c.got < want-0.05 {
			t.Errorf("limit %g: got station %.2f, want %.2f", c.limit, c.got, want)
		}
	}
}

// TestStationsOfJoins holds the same where one point of the curve stands off by a thousandth of a millimetre, as
// where two stretches were joined, and where a chord was parted.
func TestStationsOfJoins(t *testing.T) {
	edge := arc(900, 0.5, 100)
	edge[60].X += 0.002
	edge = append(edge[:30], append([]geom.Pt{edge[29].Lerp(edge[30], 0.9)}, edge[30:]...)...)
	b := bend.Of(bend.Strip{ID: "s", Depth: 6, Edge: edge, Radius: 900}, rules)
	if b.DryFrom != edge[0].X {
		t.Errorf("a circle of 900 mm bends dry from station %g only", b.DryFrom)
	}
}

// TestNACANose holds the least radius of a NACA section's contour against r = 1.1019 t² c (NACA Report 460).
func TestNACANose(t *testing.T) {
	const chord, depth = 1400.0, 6.0
	sec, fs := airfoils.NACA("0012")
	if len(fs) > 0 {
		t.Fatal(fs)
	}
	up, _ := sec.Contour(chord, geom.Flat)
	r := 1.1019 * 0.12 * 0.12 * chord
	s := bend.Strip{ID: "cap", Depth: depth, Edge: up, Radius: nearest3(up), RadiusAt: up[1].X}
	b := bend.Of(s, rules)
	if math.Abs(b.Radius-(r-depth/2)) > 0.01*r || b.Tier != bend.Steam {
		t.Errorf("got a radius of %.2f mm, want %.2f; %s", b.Radius, r-depth/2, b.Tier)
	}
}

// nearest3 is the radius of the circle through the first three points.
func nearest3(p []geom.Pt) float64 {
	a, b, c := p[0].Dist(p[1]), p[1].Dist(p[2]), p[0].Dist(p[2])
	return a * b * c / (2 * math.Abs(p[1].Sub(p[0]).Cross(p[2].Sub(p[0]))))
}

// TestLaminations holds that each of the strips keeps the ratio and that one strip fewer would not.
func TestLaminations(t *testing.T) {
	for _, c := range []struct{ r, depth, ratio float64 }{{203, 6, 125}, {100, 6, 30}, {25, 6, 75}, {756, 6, 125}, {5000, 6, 125}, {753, 6, 125}} {
		n := bend.Laminations(c.r, c.depth, c.ratio)
		inner := func(n int) float64 { // ratio of the innermost strip's middle
			thick := c.depth / float64(n)
			return (c.r - c.depth + thick/2) / thick
		}
		if n < 1 || inner(n) < c.ratio-1e-9 || n > 1 && inner(n-1) >= c.ratio {
			t.Errorf("%+v: %d strips", c, n)
		}
	}
	if n := bend.Laminations(6, 6, 125); n != 0 {
		t.Errorf("a curve as tight as the depth: got %d strips, want 0", n)
	}
}

// TestPlywood holds rows of FAA AC 43.13-1B Table 1-2 as printed (inches), values between them by hand, and what
// lies outside.
func TestPlywood(t *testing.T) {
	for _, c := range []struct {
		inch       float64
		plies      int
		along, wet bool
		want       float64 // inches; 0: not in the table
	}{
		{0.035, 3, false, false, 2.0}, {0.035, 3, true, false, 1.1}, {0.035, 3, false, true, 0.5}, {0.035, 3, true, true, 0.1},
		{0.070, 0, true, false, 3.2}, {0.125, 3, false, false, 12}, {0.185, 0, true, true, 2.6},
		{0.160, 5, false, false, 17}, {0.190, 0, true, false, 14}, {0.375, 5, false, true, 21}, {0.375, 0, true, false, 36},
		{0.0525, 3, false, false, 3.6}, {0.0525, 3, true, false, 2.15}, {0.140, 0, false, true, 4.55}, {0.345, 5, true, true, 8.5},
		{0.03125, 3, true, false, 0}, {0.5, 0, true, false, 0}, {0.2, 3, true, true, 0}, {0.1, 5, true, true, 0}, {0.1, 4, true, true, 0},
	} {
		got, from, to, ok := bend.Sheet{Thickness: c.inch * 25.4, Plies: c.plies, Along: c.along, Wet: c.wet}.LeastRadius()
		if ok != (c.want > 0) || ok && math.Abs(got/25.4-c.want) > 1e-9 {
			t.Errorf("%+v: got %g in, %v", c, got/25.4, ok)
		}
		if !ok && c.plies != 4 && from >= to {
			t.Errorf("%+v: the table's range is %g to %g", c, from, to)
		}
	}
	// 1 mm sheet is 0.0394 in: between 0.035 and 0.070.
	if got, _, _, ok := (bend.Sheet{Thickness: 1, Along: true}).LeastRadius(); !ok || math.Abs(got-34.60) > 0.01 {
		t.Errorf("1 mm: got %g mm, %v; want 1.1 + 2.1 × 0.00437/0.035 = 1.362 in", got, ok)
	}
}

// TestOverbend holds the form for a strip that springs back: none gives the curve itself, a share of it gives
// lengths that are kept and an angle greater by 1/(1 − share); a circle stays a circle.
func TestOverbend(t *testing.T) {
	edge := arc(50, 1.5, 300)
	for i, p := range bend.Overbend(edge, 0) {
		if p.Dist(edge[i]) > 1e-10 {
			t.Fatalf("point %d moved by %g without any spring-back", i, p.Dist(edge[i]))
		}
	}
	form := bend.Overbend(edge, 0.1)
	for i := 1; i < len(edge); i++ {
		if math.Abs(form[i].Dist(form[i-1])-edge[i].Dist(edge[i-1])) > 1e-10 {
			t.Fatalf("chord %d changed its length", i)
		}
	}
	centre := geom.Pt{X: 45} // 0.9 of the radius aft of the start, which keeps its place and direction
	for i, p := range form {
		if math.Abs(p.Dist(centre)-45) > 1e-3 {
			t.Fatalf("point %d lies on a radius of %g, want 45", i, p.Dist(centre))
		}
	}
	n := len(form)
	turned := func(p []geom.Pt) float64 {
		a, b := p[1].Sub(p[0]), p[n-1].Sub(p[n-2])
		return math.Abs(math.Remainder(b.Angle()-a.Angle(), 2*math.Pi))
	}
	if got, want := turned(form), turned(edge)/0.9; math.Abs(got-want) > 1e-10 {
		t.Errorf("the form turns by %g, want %g", got, want)
	}
	if got := bend.Overbend(nil, 0.1); len(got) != 0 {
		t.Errorf("nothing became %v", got)
	}
}

// TestFind holds severities, the places and that strips of one tier are told together.
func TestFind(t *testing.T) {
	doc := &ribfile.Doc{Units: ribfile.MM, Bend: rules, Rib: ribfile.Rib{Chord: 1000}, Cap: ribfile.Cap{Depth: 6}}
	strip := func(id string, r float64) bend.Bend {
		return bend.Of(bend.Strip{ID: id, Depth: 6, Edge: arc(r, 1.5, 300), Radius: r}, rules)
	}
	fs := bend.Find([]bend.Bend{strip("a", 760), strip("b", 500), strip("c", 200), strip("d", 20), strip("e", 19), strip("f", 2)}, doc)
	if len(fs) != 3 {
		t.Fatalf("got %d findings: %v", len(fs), fs)
	}
	for i, want := range []struct {
		severity finding.Severity
		part     string
		places   int
		words    []string
	}{
		{finding.Warning, "d, e, f", 3, []string{"rounder than half the depth", "nose block"}},
		{finding.Warning, "c", 1, []string{"197 mm", "32.8 times", "1.5 %", "soak it", "laminate it of 4 strips of 1.5 mm, which bend dry"}},
		{finding.Note, "b", 1, []string{"497 mm", "82.8 times", "0.6 %", "with care"}},
	} {
		f := fs[i]
		if f.Code != "cap-bend" || f.Severity != want.severity || f.Part != want.part || len(f.At) != want.places || f.Limit != 750 {
			t.Errorf("finding %d: %+v", i, f)
		}
		for _, w := range want.words {
			if !strings.Contains(f.Message+f.Fix, w) {
				t.Errorf("finding %d lacks %q: %v", i, w, f)
			}
		}
	}
}

// TestFindSkins holds a nose that the skin follows and one that it does not, by the way it is laid and bent.
func TestFindSkins(t *testing.T) {
	edge := arc(30, 1.5, 200) // 30 mm is 1.18 in
	low := make([]geom.Pt, len(edge))
	for i, p := range edge {
		low[i] = geom.Pt{X: p.X, Y: -p.Y}
	}
	for _, c := range []struct {
		skin ribfile.Skin
		code string // of severity and code; "": none
		word string
	}{
		{ribfile.Skin{Thickness: 0.9, Grain: "span", Bend: "dry"}, "", ""},
		{ribfile.Skin{Thickness: 0.9, Grain: "chord", Bend: "dry"}, "warning skin-bend", `grain = "span"`},
		{ribfile.Skin{Thickness: 1.5, Grain: "span", Bend: "dry"}, "warning skin-bend", `bend = "soaked"`},
		{ribfile.Skin{Thickness: 1.5, Grain: "diagonal", Bend: "soaked"}, "", ""},
		{ribfile.Skin{Thickness: 6.35, Grain: "span", Bend: "soaked"}, "warning skin-bend", "thinner sheet"},
		{ribfile.Skin{Thickness: 0.8, Grain: "span", Bend: "dry"}, "", ""}, // thinner than the table, and 1.1 in would do
		{ribfile.Skin{Thickness: 0.8, Grain: "chord", Bend: "dry"}, "note skin-bend", "does not say"},
		{ribfile.Skin{Thickness: 12, Grain: "span", Bend: "dry"}, "note skin-bend", "does not say"},
		{ribfile.Skin{Thickness: 12, Grain: "none"}, "", ""},
		{ribfile.Skin{From: 10, Thickness: 6, Grain: "span", Bend: "dry"}, "", ""},
	} {
		for _, side := range []string{"both", "upper", "lower"} {
			k := c.skin
			k.To, k.Side = 40, side
			doc := &ribfile.Doc{Units: ribfile.MM, Rib: ribfile.Rib{Chord: 1000}, Section: ribfile.Section{Skins: []ribfile.Skin{k}}}
			fs := bend.FindSkins(edge, low, doc)
			got, words := "", ""
			for _, f := range fs {
				got, words = f.Severity.String()+" "+f.Code, f.Message+f.Fix
			}
			if got != c.code || !strings.Contains(words, c.word) {
				t.Errorf("%+v: got %q, want %q with %q: %s", k, got, c.code, c.word, words)
			}
		}
	}
}
