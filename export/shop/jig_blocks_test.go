package shop

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/jig"
)

// TestJigBlocks holds the board on the drawing against the plan: every block and relief hole once, in place, on its own layer;
// the corners of the board on the roll and on no page.
func TestJigBlocks(t *testing.T) {
	for _, j := range demos(t) {
		plan, _ := jig.Plan(j.rib, j.doc)
		items := all(Jig(j.drawn()).Sheets[0])
		outline, _ := byID(items, "outline")
		base := outline.Path.Start.Sub(j.rib.Contour.Outline[0])
		for _, b := range plan.Blocks {
			it, ok := byID(items, "jig-"+b.ID)
			if !ok || it.Layer != layerJigBlock || !it.Path.Closed || math.Abs(it.Path.Area()-float64(b.Length*b.Width)) > 1e-6 || it.Path.Start.Sub(base).Dist(b.Outline[0]) > 1e-9 {
				t.Errorf("%s: block %s is not drawn as planned: %v", j.name, b.ID, it)
			}
		}
		for _, h := range plan.Holes {
			it, ok := byID(items, "relief-"+h.Joint)
			c, r, circle := it.Path.IsCircle()
			if !ok || it.Layer != layerRelief || !circle || math.Abs(r-h.Diameter/2) > 1e-9 || c.Sub(base).Dist(h.At) > 1e-9 {
				t.Errorf("%s: the relief hole of %s is not drawn as planned: %v", j.name, h.Joint, it)
			}
		}
		blocks, diagonals, board := 0, 0, geom.Box{}
		for _, it := range items {
			switch {
			case it.Layer == layerJigBlock && it.Path.Closed:
				blocks++
			case it.Layer == layerJigBlock && it.Text == nil:
				diagonals++
			case it.Layer == layerBoard && it.Text == nil:
				board = board.Union(it.Path.Box())
			}
		}
		if blocks != len(plan.Blocks) || diagonals != blocks {
			t.Errorf("%s: %d blocks and %d diagonals are drawn, want %d of each", j.name, blocks, diagonals, len(plan.Blocks))
		}
		if board.Min.Sub(base).Dist(plan.Board.Min) > 1e-6 || board.Max.Sub(base).Dist(plan.Board.Max) > 1e-6 {
			t.Errorf("%s: the corners of the board stand at %v, want %v", j.name, board, plan.Board)
		}
		for _, it := range newField(j.rib, j.doc, BoardOf(j.rib, j.doc), j.found).items {
			if it.Layer == layerBoard {
				t.Errorf("%s: the board's corner stands on the pages", j.name)
			}
		}
	}
}

// TestJigBlocksNone holds that [jig] blocks = "none" leaves the board away.
func TestJigBlocksNone(t *testing.T) {
	j := demos(t)[0]
	with := len(all(Jig(j.drawn()).Sheets[0]))
	none := *j.doc
	none.Jig.Blocks = "none"
	items := all(Jig(NewField(j.rib, &none, BoardOf(j.rib, &none), j.found)).Sheets[0])
	for _, it := range items {
		if strings.HasPrefix(it.Layer, "jig-") {
			t.Fatalf("%s is drawn on layer %s", it.ID, it.Layer)
		}
	}
	if len(items) >= with {
		t.Errorf("%d items without blocks, %d with", len(items), with)
	}
	w := lister{r: j.rib, doc: &none}
	if tab := w.jigBlocks(); len(tab.Rows) != 0 || len(tab.Notes) != 1 {
		t.Errorf("the schedule of no blocks: %v", tab)
	}
}

// TestJigBlocksTable holds the schedule's counts against the plan.
func TestJigBlocksTable(t *testing.T) {
	for _, j := range append(demos(t), unknown(t, 3), unknown(t, 5)) {
		plan, _ := jig.Plan(j.rib, j.doc)
		w := lister{r: j.rib, doc: j.doc, board: plan, inch: j.doc.Units == "in"}
		tab := w.jigBlocks()
		if err := tab.Check(); err != nil {
			t.Errorf("%s: %v", j.name, err)
		}
		blocks, held, holes := 0.0, map[string]float64{}, 0.0
		for _, r := range tab.Rows {
			switch what := r[0].Text; {
			case what == "blocks" || what == "shortened blocks":
				blocks += r[2].Num
			case strings.HasPrefix(what, "hold "):
				held[strings.TrimPrefix(what, "hold ")] = r[2].Num
				if n := len(strings.Fields(r[4].Text)); strings.HasPrefix(r[4].Text, "J") && n != int(r[2].Num) {
					t.Errorf("%s: %s: %d blocks named, %g counted", j.name, what, n, r[2].Num)
				}
			case what == "relief holes":
				holes = r[2].Num
			}
		}
		if int(blocks) != len(plan.Blocks) || int(holes) != len(plan.Holes) || len(held) != len(plan.Holds) {
			t.Errorf("%s: %g blocks, %g holes, %d members, want %d, %d and %d", j.name, blocks, holes, len(held), len(plan.Blocks), len(plan.Holes), len(plan.Holds))
		}
		for _, h := range plan.Holds {
			if int(held[h.Member]) != len(h.Blocks) {
				t.Errorf("%s: %s", j.name, fmt.Sprint(h.Member, held[h.Member], h.Blocks))
			}
		}
	}
}
