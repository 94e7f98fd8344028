package fasten

import (
	"fmt"
	"math/rand"
	"os"
	"testing"

	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// testRib is a rib with its fasteners.
type testRib struct {
	name string
	r    *rib.Rib
	doc  *ribfile.Doc
	p    Pattern
}

// layOut lays a rib file's text out; ok is false where it has errors.
func layOut(t testing.TB, name, text string) (one testRib, ok bool) {
	t.Helper()
	doc, fs := ribfile.Read(name, []byte(text))
	sec, more := rib.Section(doc, nil)
	if fs = append(fs, more...); finding.HasError(fs) {
		t.Fatalf("%s has errors: %v\n%s", name, fs, text)
	}
	r, fs := rib.Build(doc, sec)
	return testRib{name, r, doc, Of(r, doc)}, !finding.HasError(fs)
}

// demo lays out a demo rib, with staples or nails as the keys say.
func demo(t testing.TB, name, keys string) testRib {
	t.Helper()
	data, err := os.ReadFile("../../cmd/ribwright/demo/" + name + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	doc, fs := ribfile.Read("fastener", []byte("units = \"mm\"\nsection = { naca = \"0012\" }\nrib = { chord = 1000 }\n[fastener]\n"+keys))
	if len(fs) > 0 {
		t.Fatal(fs)
	}
	one, _ := layOut(t, name, string(data))
	one.doc.Fastener = doc.Fastener
	one.p = Of(one.r, one.doc)
	return one
}

// randoms lays out random ribs that have no errors.
func randoms(t testing.TB, n int) []testRib {
	t.Helper()
	r := rand.New(rand.NewSource(7))
	var out []testRib
	for k := 0; len(out) < n && k < 4*n; k++ {
		if one, ok := layOut(t, fmt.Sprintf("random %d", k), randomText(r)); ok {
			out = append(out, one)
		}
	}
	if len(out) < n {
		t.Fatalf("only %d random ribs without errors, want %d", len(out), n)
	}
	return out
}

func randomText(r *rand.Rand) string {
	pick := func(s ...string) string { return s[r.Intn(len(s))] }
	from := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	s := fmt.Sprintf("units = \"mm\"\nsection = { naca = %q }\nrib = { chord = %.1f }\n", pick("0015", "4412", "23015", "2415"), from(900, 1900))
	s += fmt.Sprintf("cap = { depth = %.2f, width = 10 }\nnose = { block_to = \"%.1f%%\" }\n", from(5, 9), from(4, 8))
	s += fmt.Sprintf("stick = { depth = %.2f, width = 10, meet = %q }\n", from(5, 9), pick("butt", "mitre"))
	s += fmt.Sprintf("spar = [{ name = \"a\", at = \"%.1f%%\", width = %.1f }, { name = \"b\", at = \"%.1f%%\", width = 12 }]\n", from(16, 22), from(8, 18), from(60, 66))
	s += fmt.Sprintf("[[bay]]\nfrom = \"a\"\nto = \"b\"\npattern = %q\npanels = %d\n", pick("warren", "pratt", "uprights"), 2+r.Intn(4))
	s += fmt.Sprintf("[[bay]]\nfrom = \"b\"\nto = \"80%%\"\npattern = \"warren\"\npanels = %d\nstart = \"lower\"\n", 1+r.Intn(2))
	if r.Intn(2) == 0 {
		s += fmt.Sprintf("[gusset]\ndiameter = %.1f\nfaces = %d\n[saw]\nplates = %q\n", from(26, 44), 1+r.Intn(2), pick("hole-saw", "laser"))
	} else {
		s += fmt.Sprintf("[gusset]\nshape = \"rectangle\"\nlength = %.1f\nheight = %.1f\nfaces = %d\n", from(30, 50), from(20, 34), 1+r.Intn(2))
	}
	s += fmt.Sprintf("[fastener]\nkind = %q\nleg = %.1f\nedge = %.2f\nend = %.2f\nspacing = %.1f\nwire = 0.8\n", pick("staple", "nail"), from(4, 11), from(0.8, 2.2), from(3, 8), from(12, 25))
	return s
}
