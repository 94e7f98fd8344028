package cut_test

import (
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
	l := cut.Nest(set, nil)
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
