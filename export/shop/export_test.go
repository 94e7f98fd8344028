package shop

import (
	"testing"

	"ribwright/export"
	"ribwright/geom/finding"
	"ribwright/geom/jig"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// BoardOf plans the board that a rib is drawn on.
func BoardOf(r *rib.Rib, doc *ribfile.Doc) jig.Jig {
	board, _ := jig.Plan(r, doc)
	return board
}

// TilesAndPlan is Tiles and TilePlan in half the time. TestTilePlan holds that it gives what they give.
func TilesAndPlan(t testing.TB, r *rib.Rib, doc *ribfile.Doc, found []finding.Finding, paper ribfile.Paper) (export.Drawing, []Tile) {
	t.Helper()
	u, err := newTiling(newField(r, doc, BoardOf(r, doc), found), found, paper)
	if err != nil {
		t.Fatalf("%s on %s: %v", doc.Title, paper.Size, err)
	}
	return u.drawing(), u.tiles
}
