package jig

import (
	"fmt"
	"math/rand"
	"os"
	"strings"
	"testing"

	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// testRib is a rib laid out for a test.
type testRib struct {
	name string
	r    *rib.Rib
	doc  *ribfile.Doc
}

// layOut lays a rib file's text out; ok is false where it has errors.
func layOut(t testing.TB, name, text string) (one testRib, ok bool) {
	t.Helper()
	doc, fs := ribfile.Read(name, []byte(text))
	if finding.HasError(fs) {
		t.Fatalf("%s: the rib file has errors: %v", name, fs)
	}
	sec, fs := rib.Section(doc, nil)
	if finding.HasError(fs) {
		t.Fatalf("%s: the section has errors: %v", name, fs)
	}
	r, fs := rib.Build(doc, sec)
	return testRib{name, r, doc}, !finding.HasError(fs)
}

func must(t testing.TB, name, text string) testRib {
	t.Helper()
	one, ok := layOut(t, name, text)
	if !ok {
		t.Fatalf("%s has errors", name)
	}
	return one
}

// planned is a rib with its board.
type planned struct {
	testRib
	j     Jig
	found []finding.Finding
}

// everyRib holds the demo ribs, then random ones without errors, each laid out and planned once. No test changes them.
var everyRib = map[string]planned{}

func plannedOnce(t testing.TB, name string, text func() string) (planned, bool) {
	t.Helper()
	if one, ok := everyRib[name]; ok {
		return one, one.r != nil
	}
	one, ok := layOut(t, name, text())
	if !ok {
		everyRib[name] = planned{}
		return planned{}, false
	}
	j, found := Plan(one.r, one.doc)
	everyRib[name] = planned{one, j, found}
	return everyRib[name], true
}

// demos returns the demo ribs and the starter.
func demos(t testing.TB) []planned {
	t.Helper()
	var out []planned
	for _, n := range []string{"marsh-wren", "reed-bunting", "starter"} {
		one, ok := plannedOnce(t, n, func() string {
			data, err := os.ReadFile("../../cmd/ribwright/demo/" + n + ".toml")
			if err != nil {
				t.Fatal(err)
			}
			return string(data)
		})
		if !ok {
			t.Fatalf("%s has errors", n)
		}
		out = append(out, one)
	}
	return out
}

// randoms returns n ribs with sizes drawn from a fixed row, those without errors.
func randoms(t testing.TB, n int) []planned {
	t.Helper()
	r := rand.New(rand.NewSource(5))
	var out []planned
	for k := 0; len(out) < n; k++ {
		text := randomRib(r)
		if one, ok := plannedOnce(t, fmt.Sprintf("random rib %d", k), func() string { return text }); ok {
			out = append(out, one)
		}
	}
	return out
}

func randomRib(r *rand.Rand) string {
	pick := func(s ...string) string { return s[r.Intn(len(s))] }
	num := func(lo, hi float64) string { return fmt.Sprintf("%.2f", lo+(hi-lo)*r.Float64()) }
	var b strings.Builder
	line := func(format string, a ...any) { fmt.Fprintf(&b, format+"\n", a...) }
	line(`units = "mm"`)
	line("section = { naca = %q }", pick("00", "23", "24", "44", "34")+fmt.Sprint(12+r.Intn(7)))
	line("rib = { chord = %s, trailing_edge = %q }", num(800, 1900), pick("100%", "100%", "100%", "80%"))
	line("cap = { depth = %s, width = 10 }", num(4, 8))
	if r.Intn(5) > 0 {
		line("nose = { block_to = %q }", num(3, 8)+"%")
	}
	if r.Intn(2) > 0 {
		line("tail = { block_from = %q }", num(76, 79)+"%")
	}
	line("stick = { depth = %s, width = 10, meet = %q }", num(4, 8), pick("butt", "mitre"))
	line(`[[spar]]` + "\n" + `name = "front"`)
	line("at = %q\nwidth = %s\nposts = %s", num(15, 20)+"%", num(8, 20), pick("true", "true", "false"))
	line(`[[spar]]` + "\n" + `name = "rear"`)
	line("at = %q\nwidth = %s", num(58, 66)+"%", num(8, 16))
	line("[[bay]]\nfrom = \"front\"\nto = \"rear\"\npattern = %q\npanels = %d\nstart = %q", pick("warren", "warren", "pratt", "uprights"), 2+r.Intn(7), pick("upper", "lower"))
	line("[[bay]]\nfrom = \"rear\"\nto = \"%d%%\"\npattern = %q\npanels = %d", 70+r.Intn(4), pick("warren", "pratt", "uprights"), 1+r.Intn(2))
	switch r.Intn(5) {
	case 0:
		line("[gusset]\nshape = \"none\"")
	case 1, 2:
		line("[gusset]\nlength = %s\nheight = %s\nshape = \"rectangle\"", num(25, 45), num(15, 28))
	default:
		line("[gusset]\ndiameter = %s", num(20, 36))
	}
	line("[jig]\nblock_length = %s\nblock_width = %s\nclearance = %s\nroom = %s\nrelief = %s\nspacing = %s", num(12, 25), num(8, 16), num(0.05, 0.5),
		num(0, 3), pick("0", "12", "20", "25"), num(120, 300))
	return b.String()
}
