package wing_test

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"testing"

	"ribwright/geom/wing"
)

// What a builder calls a rib parts it from no other: a kind goes by the name that all its ribs have, or by its first
// rib's number, and tells the other names.
func TestNames(t *testing.T) {
	for _, c := range []struct{ ribs, name, title, also string }{
		{`{ ribs = "1-5", name = "main" }`, "", "", "R1 main R2 R3 R4 R5"}, // one kind needs no name
		{`{ ribs = "4", cap = { depth = 7 } }, { ribs = "1-3, 5", name = "main" }`, "main", "R1 to R3, R5; left and right", "R1 R2 R3 R5"},
		{`{ ribs = "4", cap = { depth = 7 } }, { ribs = "2, 5", name = "strut" }`, "R1", "R1 to R3, R5; left and right; R2, R5 also called strut", "R2 strut R3 R5"},
		{`{ ribs = "4", cap = { depth = 7 } }, { ribs = "1", name = "root" }, { ribs = "5", name = "tip" }`, "R1",
			"R1 to R3, R5; left and right; R1 also called root; R5 also called tip", "root R2 R3 R5 tip"},
	} {
		p := plan(t, plain+"wing = { semi_span = 4000, spacing = 1000, rib = ["+c.ribs+"] }")
		k := p.Kinds[0]
		if k.Name != c.name || strings.Join(k.Also, " ") != c.also || c.title != "" && k.Ribs() != c.title {
			t.Errorf("%s: %q, %q, also %q; want %+v", c.ribs, k.Name, k.Ribs(), k.Also, c)
		}
		if len(p.Kinds) != min(2, 1+strings.Count(c.ribs, "depth")) {
			t.Errorf("%s: %d kinds", c.ribs, len(p.Kinds))
		}
	}
	var ribs []string
	for n := range 9 {
		ribs = append(ribs, fmt.Sprintf(`{ ribs = "%d", name = "N%d" }`, n+1, n))
	}
	p := plan(t, plain+`wing = { semi_span = 4000, spacing = 500, wings = 1, rib = [{ at = 100, cap = { depth = 7 } }, `+strings.Join(ribs, ", ")+"] }")
	if got := p.Kinds[0].Ribs(); !strings.HasSuffix(got, "R6 also called N5; 3 more have names of their own") {
		t.Error(got)
	}
}

// Kinds that turn out to be one rib are put together: their ribs root to tip, counted, and named anew.
func TestTogether(t *testing.T) {
	p := plan(t, plain+`wing = { semi_span = 4000, spacing = 1000, rib = [{ ribs = "1, 4", cap = { depth = 7 } }, { ribs = "3", name = "low", cap = { depth = 8 } }] }`)
	before := fmt.Sprint(p.Kinds[0].Name, p.Kinds[1].Name, p.Kinds[2].Name, p.Kinds[0].Doc.Title)
	q := p.Together([]int{0, 1, 0})
	if len(q.Kinds) != 2 || q.Kinds[0].Ribs() != "R1, R3, R4; left and right; R3 also called low" || q.Kinds[0].Doc.Rib.Count != 6 || q.Kinds[1].Name != "R2" {
		t.Errorf("%+v", q.Kinds)
	}
	if after := fmt.Sprint(p.Kinds[0].Name, p.Kinds[1].Name, p.Kinds[2].Name, p.Kinds[0].Doc.Title); after != before || p.Kinds[0].Doc.Rib.Count != 4 {
		t.Errorf("the plan itself was %s, is %s", before, after)
	}
	one := p.Together([]int{0, 0, 0})
	if len(one.Kinds) != 1 || one.Kinds[0].Name != "" || one.Kinds[0].Doc.Title != "Rib" || !slices.IsSortedFunc(one.Kinds[0].Places, func(a, b wing.Place) int { return cmp.Compare(a.Span, b.Span) }) {
		t.Errorf("%+v", one.Kinds)
	}
	if same := p.Together([]int{0, 1, 2}); len(same.Kinds) != 3 || same.Kinds[0].Doc != p.Kinds[0].Doc {
		t.Errorf("%+v", same.Kinds)
	}
}
