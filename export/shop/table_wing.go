package shop

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/wing"
)

// Wing lists the ribs of a wing, root to tip: which drawing each is built by, and how it stands. It has no rows where the
// rib file has no [wing].
func Wing(doc *ribfile.Doc, p wing.Plan) export.Table {
	w := lister{doc: doc, inch: doc.Units == ribfile.Inch}
	t := export.Table{ID: "wing", Title: "The ribs of the wing",
		Columns: []export.Column{text("rib", "rib"), text("wings", "wings"), text("called", "called"), w.lengthColumn("span", "from the root"), text("drawing", "drawing"), text("kind", "kind"),
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
		t.Rows = append(t.Rows, []export.Cell{export.Str(s.Rib), export.Str(hands), export.Str(cmp.Or(s.Called, "-")), w.length(s.Span), export.Str(cmp.Or(k.Name, "the one")), export.Str(k.Kind),
			w.fine(k.Doc.Rib.Chord), w.fine(s.Nose.X), w.fine(0 - s.Nose.Y), export.Num(turned, decimal(turned, 2)),
			w.fine(p.Bevel(k).Across), export.Str(cmp.Or(strings.Join(p.Handed(k), ", "), "-"))})
	}
	return t
}

// WingSpars lists how each spar goes through the wing: its place in plan, the largest spar that passes each rib, and whether a
// straight one passes all of them. set holds the plan's kinds. It has no rows where the rib file has no [wing].
func WingSpars(doc *ribfile.Doc, p wing.Plan, set rib.Set) export.Table {
	w := lister{doc: doc, inch: doc.Units == ribfile.Inch}
	t := export.Table{ID: "wing-spars", Title: "The spars of the wing",
		Columns: []export.Column{text("spar", "spar"), text("rib", "rib"), w.lengthColumn("span", "from the root"), w.lengthColumn("aft", "aft of the root's nose"),
			w.lengthColumn("depth_front", "largest depth, front face"), w.lengthColumn("depth_rear", "rear face"),
			number("bevel_top_deg", "bevel of the top", "degrees"), number("bevel_bottom_deg", "of the bottom", "degrees"),
			w.lengthColumn("room_top", "over a straight top"), w.lengthColumn("room_bottom", "under a straight bottom")},
		Notes: []string{"The depths are those of the largest spar that passes between the caps, without clearance above and below.",
			"Straight are the lines from the first rib to the last that the spar passes. Where there is a minus before a figure the cap comes nearer than that line: a spar planed straight from end to end is too deep there by that much."}}
	for _, line := range p.Spars {
		var rows []sparAt
		for _, s := range p.Stands() {
			r := set[s.Entry].Rib
			at := slices.IndexFunc(r.Spars, func(o rib.Spar) bool { return o.Name == line.Name })
			if s.Hand == wing.Left && at >= 0 {
				rows = append(rows, sparAt{s, r.Spars[at]})
			}
		}
		for _, o := range rows {
			first, last := rows[0], rows[len(rows)-1]
			room := func(of func(rib.Spar) [2]geom.Pt, sign float64) export.Cell {
				if len(rows) < 2 {
					return w.fine(0)
				}
				a, b := first.height(of), last.height(of)
				straight := a + float64((b-a)*(o.Span-first.Span)/(last.Span-first.Span))
				return w.fine(float64(sign*(o.height(of)-straight)) + 0)
			}
			t.Rows = append(t.Rows, []export.Cell{export.Str(line.Name), export.Str(o.Rib), w.length(o.Span), w.fine(o.InWing(geom.Pt{X: o.spar.At}).X),
				w.computed(o.spar.DepthFront), w.computed(o.spar.DepthRear), angle(o.spar.BevelTop), angle(o.spar.BevelBottom),
				room(func(s rib.Spar) [2]geom.Pt { return s.Top }, 1), room(func(s rib.Spar) [2]geom.Pt { return s.Bottom }, -1)})
		}
	}
	return t
}

// sparAt is a spar where it passes a rib.
type sparAt struct {
	wing.Stand
	spar rib.Spar
}

// height returns how high the middle of the spar's top or bottom stands in the wing's axes.
func (s sparAt) height(of func(rib.Spar) [2]geom.Pt) float64 {
	e := of(s.spar)
	return s.InWing(e[0].Lerp(e[1], 0.5)).Y
}
