package cut_test

import (
	"slices"
	"strings"
	"testing"

	"ribwright/geom/cut"
	"ribwright/geom/rib"
)

// TestPly: plates of other plywood than most lie on no sheet, and that is told.
func TestPly(t *testing.T) {
	r, doc := layOut(t, wren, "")
	thick := *doc
	thick.Gusset.Thickness = 3
	one := *r
	one.Count = 2
	set := rib.Set{{Name: "strut", Doc: &thick, Rib: &one}, {Name: "R2", Doc: doc, Rib: r}}
	if got := cut.MainPly(set); got.Thickness != 1.5 {
		t.Errorf("the sheets are %+v", got)
	}
	l := cut.Nest(set, nil, nil)
	apart := 0
	for _, p := range l.Plates {
		if (p.Apart == cut.OtherPly) != (p.Entry == 0) {
			t.Errorf("%s: %v", p.ID, p.Apart)
		}
		if p.Apart != cut.Together {
			apart += p.Count
		}
	}
	if want := 2 * 2 * len(r.Gussets); apart != want || l.Pieces() != r.Count*2*len(r.Gussets) || l.Ply.Thickness != 1.5 {
		t.Errorf("%d plates apart, want %d; %d on sheets", apart, want, l.Pieces())
	}
	found := cut.FindPly(set)
	if len(found) != 1 || found[0].Part != "strut" || !strings.Contains(found[0].Message, "3 mm") {
		t.Errorf("got %v", found)
	}
	if len(cut.FindPly(rib.One(r, doc))) > 0 {
		t.Error("a single rib's plates are the sheets'")
	}
}

// TestHands: of ribs that are built as mirror images a plate of one face lies on the other, and its marks are mirrored.
func TestHands(t *testing.T) {
	r, doc := layOut(t, wren, "")
	one := *r
	one.Count, one.Mirrored = 6, 2
	one.Gussets = slices.Clone(r.Gussets)
	for i := range one.Gussets {
		one.Gussets[i].Faces = 1
	}
	all := cut.Plates(rib.Set{{Name: "R3", Doc: doc, Rib: &one}}, nil)
	if len(all) != 2*len(r.Gussets) {
		t.Fatalf("%d kinds of plates for %d joints", len(all), len(r.Gussets))
	}
	for i := 0; i < len(all); i += 2 {
		a, b := all[i], all[i+1]
		if a.ID != "R3 "+r.Gussets[i/2].ID+" left" || !strings.HasSuffix(b.ID, " right") || a.Count != 4 || b.Count != 2 || a.Face != 0 || b.Face != 1 {
			t.Errorf("%s × %d on face %d, %s × %d on face %d", a.ID, a.Count, a.Face, b.ID, b.Count, b.Face)
		}
		if len(a.Clamps) != len(b.Clamps) || len(a.Clamps) == 0 && i == 0 {
			t.Errorf("%s: %d fasteners, mirrored %d", a.ID, len(a.Clamps), len(b.Clamps))
		}
		for k, m := range a.Marks {
			if n := b.Marks[k]; m.A.X != -n.A.X || m.A.Y != n.A.Y {
				t.Errorf("%s: mark %v is %v on the right", a.ID, m, n)
			}
		}
	}
}
