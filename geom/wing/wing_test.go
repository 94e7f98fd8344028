package wing_test

import (
	"fmt"
	"math"
	"math/rand"
	"os"
	"strings"
	"testing"

	"ribwright/airfoils"
	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/wing"
)

// plain is a rib file without a wing.
const plain = `
units = "mm"
section = { naca = "4412" }
rib = { chord = 1400 }
cap = { depth = 6, width = 12 }
nose = { block_to = "5%" }
tail = { block_from = "93%" }
spar = [
	{ name = "front", at = "14%", width = 19, clearance = 0.4 },
	{ name = "rear", at = "64%", width = 16, clearance = 0.4 },
]
bay = [{ from = "front", to = "rear", panels = 10 }]
gusset = { diameter = 38, thickness = 1.5 }
`

func read(t testing.TB, text string) *ribfile.Doc {
	t.Helper()
	doc, found := ribfile.Read("wing.toml", []byte(text))
	if len(found) > 0 {
		t.Fatalf("%v\n%s", found, text)
	}
	return doc
}

func plan(t testing.TB, text string) wing.Plan {
	t.Helper()
	p, found := wing.Of(read(t, text))
	if len(found) > 0 {
		t.Fatalf("%v\n%s", found, text)
	}
	return p
}

func section(t testing.TB, p wing.Plan, k wing.Kind) airfoils.Section {
	t.Helper()
	sec, found := p.Section(k, os.ReadFile)
	if finding.HasError(found) {
		t.Fatal(found)
	}
	return sec
}

func TestNoWing(t *testing.T) {
	doc := read(t, plain)
	p, found := wing.Of(doc)
	if len(found) > 0 || len(p.Kinds) != 1 || p.Kinds[0].Doc != doc || p.Kinds[0].Name != "" || p.SemiSpan != 0 || p.AreaMM2() != 0 {
		t.Errorf("%+v %v", p, found)
	}
	if s := section(t, p, p.Kinds[0]); s.Name != "NACA 4412" {
		t.Error(s.Name)
	}
}

// A wing without taper and washout is one rib with a count: the same rib file, and the same section.
func TestStraightWingIsOneRib(t *testing.T) {
	want := read(t, strings.Replace(plain, "chord = 1400", "chord = 1400, count = 26", 1))
	for _, more := range []string{
		"wing = { semi_span = 3600, spacing = 300 }",
		"wing = { semi_span = 3600, spacing = 300, washout = 0, tip_chord = 1400, align = \"40%\" }",
		"wing = { semi_span = 3600, spacing = 300, tip = { naca = \"4412\" }, rib = [{ ribs = \"3\", kind = \"full\", cap = { depth = 6 } }] }",
		"wing = { semi_span = 3600, spacing = 300, rib = [{ ribs = \"3\", gusset = { length = 60 } }] }", // of round plates
	} {
		p := plan(t, plain+more)
		if len(p.Kinds) != 1 {
			t.Fatalf("%d kinds, want 1: %s", len(p.Kinds), more)
		}
		k := p.Kinds[0]
		if k.Name != "" || !k.Doc.Same(want) || len(k.Places) != 26 {
			t.Errorf("%s\ngot  %+v\nwant %+v", more, *k.Doc, *want)
		}
		u, l := section(t, p, k).Contour(1400, 0.005)
		wantU, wantL := section(t, wing.Plan{}, wing.Kind{Doc: want}).Contour(1400, 0.005)
		if fmt.Sprint(u, l) != fmt.Sprint(wantU, wantL) {
			t.Errorf("another section: %s", more)
		}
	}
}

// A swept wing without taper is one rib, too; its spars' openings are wider.
func TestSweptWingIsOneRib(t *testing.T) {
	p := plan(t, plain+"wing = { semi_span = 3600, spacing = 300, sweep = 7.3, align = \"40%\" }")
	want := read(t, strings.ReplaceAll(strings.Replace(plain, "chord = 1400", "chord = 1400, count = 26", 1), "clearance", "sweep = 7.3, clearance"))
	if len(p.Kinds) != 1 {
		t.Fatalf("%d kinds", len(p.Kinds))
	}
	for i, s := range p.Kinds[0].Doc.Spars {
		if math.Abs(s.Sweep-want.Spars[i].Sweep) > 1e-12 || s.At != want.Spars[i].At {
			t.Errorf("spar %d: %+v, want %+v", i, s, want.Spars[i])
		}
	}
}

// randomWing writes a wing with taper, washout and sweep.
func randomWing(rnd *rand.Rand) string {
	number := func(lo, hi float64) float64 { return lo + rnd.Float64()*(hi-lo) }
	return plain + fmt.Sprintf(`
[wing]
semi_span = %.3f
tip_chord = %.3f
washout = %.3f
twist_axis = "%.1f%%"
align = "%.1f%%"
sweep = %.3f
spacing = 350
tip = { naca = "%d" }
spar = [{ name = "front", tip = "%.2f%%" }]
`, number(2000, 5000), number(700, 1500), number(-3, 6), number(0, 100), number(0, 100), number(-8, 12),
		[]int{4409, 2412, 23012, 4412}[rnd.Intn(4)], number(12, 20))
}

// The spars' centre planes, taken from the laid out ribs and put into the wing's axes, are planes: a point on each spar's
// axis in every rib lies on the straight line from the first rib to the last.
func TestSparsAreStraight(t *testing.T) {
	rnd := rand.New(rand.NewSource(1))
	for n := range 20 {
		text := randomWing(rnd)
		p := plan(t, text)
		if len(p.Kinds) < 3 {
			t.Fatal(text)
		}
		for i := range p.Spars {
			at := func(k wing.Kind) (span, x float64) {
				place := k.Places[0]
				return place.Span, place.InWing(geom.Pt{X: k.Doc.Spars[i].At}).X
			}
			z0, x0 := at(p.Kinds[0])
			z1, x1 := at(p.Kinds[len(p.Kinds)-1])
			for _, k := range p.Kinds {
				z, x := at(k)
				if off := x - (x0 + (x1-x0)*(z-z0)/(z1-z0)); math.Abs(off) > 0.001 {
					t.Errorf("wing %d: spar %d at %s is %.4f mm off its line\n%s", n, i, k.Name, off, text)
				}
			}
		}
	}
}

// Leading and trailing edge of the ribs lie on straight lines in front view, and to second order in plan.
func TestEdgesAreStraight(t *testing.T) {
	p := plan(t, plain+`wing = { semi_span = 4000, tip_chord = 900, washout = 3, spacing = 400, twist_axis = "30%", align = "30%" }`)
	first, last := p.Kinds[0], p.Kinds[len(p.Kinds)-1]
	for _, share := range []float64{0, 1} {
		edge := func(k wing.Kind) geom.Pt { return k.Places[0].InWing(geom.Pt{X: share * k.Doc.Rib.Chord}) }
		for _, k := range p.Kinds {
			want := edge(first).Lerp(edge(last), k.Places[0].Span/4000)
			if got := edge(k); math.Abs(got.Y-want.Y) > 1e-9 || math.Abs(got.X-want.X) > 0.5 {
				t.Errorf("%s: edge %v, want %v", k.Name, got, want)
			}
		}
	}
	if got, want := last.Doc.Rib.Chord, 900.0; got != want || last.Share != 0 {
		t.Errorf("tip: chord %v, share %v", got, last.Share)
	}
	back := last.Places[0].InRib(last.Places[0].InWing(geom.Pt{X: 300, Y: 40}))
	if back.Dist(geom.Pt{X: 300, Y: 40}) > 1e-9 {
		t.Error(back)
	}
	if last.Places[0].Nose.Y >= 0 {
		t.Error("washout turns the nose down")
	}
}

// Every kind of a tapered wing can be laid out, and its sizes follow its own chord.
func TestTaperedWingIsBuilt(t *testing.T) {
	p := plan(t, plain+`wing = { semi_span = 4000, tip_chord = 1000, washout = 2, spacing = 1000, tip = { naca = "4409" }, rib = [
		{ ribs = "2-3", cap = { width = 15 }, stick = { width = 15 }, spar = [{ name = "rear", posts = false }] },
		{ at = 1500, name = "mid" }, { between = "4", bay = [{ from = "front", to = "rear", panels = 6 }] } ] }`)
	var names []string
	for _, k := range p.Kinds {
		names = append(names, k.Name)
		r, found := rib.Build(k.Doc, section(t, p, k))
		if finding.HasError(found) {
			t.Errorf("%s: %v", k.Name, k.Doc.Locate(found))
		}
		if r.Count != 2 || r.Chord != k.Doc.Rib.Chord {
			t.Errorf("%s: %d ribs of chord %v", k.Name, r.Count, r.Chord)
		}
	}
	if got, want := strings.Join(names, " "), "R1 R2 mid R3 R4 A2 R5"; got != want {
		t.Errorf("names %q, want %q", got, want)
	}
	if k := p.Kinds[1]; k.Doc.Cap.Width != 15 || k.Doc.Cap.Depth != 6 || k.Doc.Spars[1].Posts || !k.Doc.Spars[0].Posts || k.Doc.Spars[1].Width != 16 {
		t.Errorf("%+v", k.Doc)
	}
	if k := p.Kinds[1]; k.Doc.Title != "Rib, rib R2" || k.Ribs() != "R2; left and right" {
		t.Errorf("%q, %q", k.Doc.Title, k.Ribs())
	}
	if k := p.Kinds[5]; len(k.Doc.Bays) != 1 || k.Doc.Bays[0].Panels != 6 {
		t.Errorf("%+v", k.Doc.Bays)
	}
}

func BenchmarkOf(b *testing.B) {
	doc := read(b, plain+`wing = { semi_span = 40000, tip_chord = 700, stations = [`+stations(3000)+`] }`)
	for b.Loop() {
		wing.Of(doc)
	}
}

func stations(n int) string {
	var s []string
	for k := range n {
		s = append(s, fmt.Sprint(k*13))
	}
	return strings.Join(s, ", ")
}

// Ribs of one kind are named shortly.
func TestRibsOfAKind(t *testing.T) {
	for _, c := range []struct {
		wings int
		want  string
	}{{2, "R1 to R4, R6, R7, R9; left and right"}, {1, "R1 to R4, R6, R7, R9"}} {
		p := plan(t, plain+fmt.Sprintf(`wing = { semi_span = 4000, spacing = 500, wings = %d, rib = [{ ribs = "5, 8", cap = { depth = 7 } }] }`, c.wings))
		if got := p.Kinds[0].Ribs(); got != c.want || len(p.Kinds) != 2 {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// Plates on one face tell left from right, and a note says what to do.
func TestHanded(t *testing.T) {
	text := strings.Replace(plain, "diameter = 38", "faces = 1, diameter = 38", 1)
	for wings, want := range map[int]int{1: 0, 2: 1} {
		p := plan(t, text+fmt.Sprintf("wing = { semi_span = 4000, spacing = 500, wings = %d }", wings))
		section(t, p, p.Kinds[0])
		if notes := p.Notes(); len(notes) != want || len(p.Handed(p.Kinds[0])) != want {
			t.Errorf("%d wings: %v, %v", wings, notes, p.Handed(p.Kinds[0]))
		}
	}
}
