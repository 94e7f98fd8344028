package wing_test

import (
	"strings"
	"testing"

	"ribwright/geom/finding"
	"ribwright/geom/rib"
)

// Plates that the top of the file names are left out where the rib ends ahead of their joints, and told where a rib's own
// bays or its fore end give the number to another joint; a rib's own list is taken as it is.
func TestPlatesNamedAtTheTop(t *testing.T) {
	text := strings.Replace(plain, "thickness = 1.5", `thickness = 1.5, at = [{ joints = ["U4", "U8"], shape = "rectangle", length = 50, height = 30 }]`, 1)
	p := plan(t, text+`wing = { semi_span = 4000, spacing = 1000, rib = [
		{ ribs = "2", kind = "nose" },
		{ ribs = "3", bay = [{ from = "nose", to = "front", panels = 3 }, { from = "front", to = "rear", panels = 4 }] },
		{ ribs = "4", bay = [{ from = "nose", to = "front", panels = 3 }, { from = "front", to = "rear", panels = 4 }], gusset = { at = [] } },
		{ ribs = "5", stick = { depth = 8 } } ] }`)
	if len(p.Kinds) != 5 {
		t.Fatalf("%d kinds", len(p.Kinds))
	}
	for i, want := range []string{"", "", "U4U8", "", ""} {
		k := p.Kinds[i]
		r, found := rib.Build(k.Doc, section(t, p, k))
		for _, f := range found {
			if f.Code == "joint-unknown" && k.Name != "R3" {
				t.Errorf("%s: %v", k.Name, f)
			}
		}
		told := ""
		for _, f := range p.FindPlates(k, r) {
			told += f.Part
			if f.Severity != finding.Warning || !strings.Contains(f.Fix, "[[wing.rib]]") {
				t.Errorf("%s: %v", k.Name, f)
			}
		}
		if told != want {
			t.Errorf("%s: told of %q, want %q", k.Name, told, want)
		}
	}
}
