package shop

import (
	"strings"
	"testing"

	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// TestWordsForOneFace holds that a list speaks of a second face only where there is one, and of a skin only where one is.
func TestWordsForOneFace(t *testing.T) {
	j := demo(t, "marsh-wren")
	for _, c := range []struct {
		faces int
		face  string
		want  string
		turn  bool
	}{{2, "near", "on 2 faces.", true}, {1, "near", "on the near face only.", false}, {1, "far", "on the far face only.", false}} {
		doc := *j.doc
		doc.Gusset.Faces, doc.Gusset.Face = c.faces, c.face
		notes := strings.Join(table(t, Tables(j.rib, &doc, BoardOf(j.rib, &doc), j.t), "plates").Notes, "\n")
		if !strings.Contains(notes, c.want) || strings.Contains(notes, turnedOver) != c.turn {
			t.Errorf("%d faces, %s: %s", c.faces, c.face, notes)
		}
	}
	doc := *j.doc
	for _, skins := range [][]ribfile.Skin{nil, {{Thickness: 1}}} {
		doc.Section.Skins = skins
		notes := strings.Join(table(t, Tables(j.rib, &doc, BoardOf(j.rib, &doc), takeoff.Of(j.rib, &doc)), "ordinates").Notes, "\n")
		if strings.Contains(notes, "skin") != (len(skins) > 0) {
			t.Errorf("%d skins: %s", len(skins), notes)
		}
	}
}

// TestWireByDecimals holds that a wire keeps its thickness: 0.03 in is not 1/32 in, nor 0.55 mm 0.6 mm.
func TestWireByDecimals(t *testing.T) {
	for _, c := range []struct {
		units      ribfile.Units
		wire, flat float64
		want       string
	}{
		{ribfile.Inch, 0.03 * 25.4, 0, "wire 0.030 in"},
		{ribfile.Inch, 0.05 * 25.4, 0.02 * 25.4, "wire 0.050 × 0.020 in"},
		{ribfile.MM, 0.55, 0, "wire 0.55 mm"},
		{ribfile.MM, 1.2, 0.5, "wire 1.2 × 0.5 mm"},
	} {
		doc := &ribfile.Doc{Units: c.units}
		doc.Fastener.Kind, doc.Fastener.Wire, doc.Fastener.Flat = "nail", c.wire, c.flat
		if got := fastenerName(doc); !strings.HasSuffix(got, c.want) {
			t.Errorf("got %q, want %q at its end", got, c.want)
		}
	}
}
