package shop

import (
	"cmp"
	"math"
	"strings"

	"ribwright/export"
	"ribwright/geom/ribfile"
	"ribwright/geom/wing"
)

// Wing lists the ribs of a wing, root to tip: which drawing each is built by, and how it stands. It has no rows where the
// rib file has no [wing].
func Wing(doc *ribfile.Doc, p wing.Plan) export.Table {
	w := lister{doc: doc, inch: doc.Units == ribfile.Inch}
	t := export.Table{ID: "wing", Title: "The ribs of the wing",
		Columns: []export.Column{text("rib", "rib"), text("wings", "wings"), w.lengthColumn("span", "from the root"), text("drawing", "drawing"), text("kind", "kind"),
			w.lengthColumn("chord", "chord"), w.lengthColumn("aft", "nose aft of the root's"), w.lengthColumn("down", "nose down"), number("nose_down_deg", "turned nose down", "°"),
			w.lengthColumn("bevel", "caps' bevel"), text("differs", "left and right differ in")},
		Notes: []string{
			"From the root is where the middle of the rib's width stands; nose aft and nose down are where the leading edge of its chord line stands against the root's. Turned is against the root's chord line.",
			"Write rib and wing on each rib as it leaves the jig: R5 left.",
			"The caps' bevel is how much more depth one edge of a cap has than the other, where it is most. The drawing shows the middle.",
		}}
	for _, s := range p.Stands() {
		if s.Hand == wing.Right {
			continue // it stands as the left one does
		}
		k, hands := s.Kind, string(s.Hand)
		if p.Wings == 2 {
			hands = "both"
		}
		turned := 0 - s.Incidence*180/math.Pi
		t.Rows = append(t.Rows, []export.Cell{export.Str(s.Rib), export.Str(hands), w.length(s.Span), export.Str(cmp.Or(k.Name, "the one")), export.Str(k.Kind),
			w.fine(k.Doc.Rib.Chord), w.fine(s.Nose.X), w.fine(0 - s.Nose.Y), export.Num(turned, decimal(turned, 2)),
			w.fine(p.Bevel(k).Across), export.Str(cmp.Or(strings.Join(p.Handed(k), ", "), "-"))})
	}
	return t
}
