package shop

import (
	"fmt"
	"strings"

	"ribwright/export"
	"ribwright/geom/jig"
	"ribwright/geom/ribfile"
)

// jigBlocks is the schedule of the board: blocks by size, what holds each member, relief holes, spacers, the board.
func (w lister) jigBlocks() export.Table {
	t := export.Table{ID: "jig-blocks", Title: "Jig: blocks and board",
		Columns: []export.Column{text("what", "what"), text("size", "size"), number("count", "count", ""), w.lengthColumn("play", "play of its ends"), text("which", "which")}}
	plan := w.board
	if len(plan.Blocks) == 0 {
		t.Notes = []string{"The rib file wants no blocks ([jig] blocks)."}
		return t
	}
	row := func(what, size string, n int, play export.Cell, which []string) {
		t.Rows = append(t.Rows, []export.Cell{export.Str(what), export.Str(size), count(n), play, export.Str(strings.Join(which, " "))})
	}
	none, u := export.Str(""), w.doc
	sizes, ids := blockSizes(plan.Blocks)
	for i, s := range sizes {
		name, which := "blocks", []string{"all but those below"}
		if len(sizes) == 1 {
			which = nil
		}
		if i > 0 {
			name, which = "shortened blocks", ids[i]
		}
		row(name, u.Number(s[0])+" × "+u.Number(s[1])+" × "+u.Length(plan.Height), len(ids[i]), none, which)
	}
	if len(sizes) > 1 {
		row("all blocks", "", len(plan.Blocks), none, nil)
	}
	for _, h := range plan.Holds {
		play, which := w.fine(h.Play*w.doc.Jig.Clearance), h.Blocks
		switch {
		case h.Covered:
			play, which = export.Str("-"), []string{"under its plates, no room beside it: lay it by hand"}
		case !h.Held && h.Play == 0:
			play = export.Str("not held")
		case len(which) == 0:
			which = []string{"what it is cut against holds it"}
		}
		row("hold "+h.Member, "", len(h.Blocks), play, which)
	}
	for _, s := range plan.Spacers {
		row("loose spacer", u.Number(s.Width)+" × "+w.about(s.Length), 1, none, []string{"between the posts of spar " + s.Spar})
	}
	if n := len(plan.Holes); n > 0 {
		row("relief holes", "⌀ "+u.Length(plan.Holes[0].Diameter), n, none, []string{"one under each joint, centred on the cap's inner edge"})
	}
	ahead := fmt.Sprintf("%s ahead of the leading edge", w.about(-plan.Board.Min.X))
	if plan.Board.Min.X > 0 { // of a rib that is cut off ahead
		ahead = "at station " + w.about(plan.Board.Min.X)
	}
	row("board", w.about(plan.Board.W())+" × "+w.about(plan.Board.H()), 1, none, []string{
		fmt.Sprintf("its lower fore corner %s and %s below the chord line", ahead, w.about(-plan.Board.Min.Y))})
	t.Notes = []string{
		fmt.Sprintf("Blocks: length along the edge they bear on × width × height. Each stands %s off the wood; a slip of that thickness sets it.", u.Length(w.doc.Jig.Clearance)),
		fmt.Sprintf("A member is held by its blocks and by what was laid before it. Play: how far its ends can then move; %d clearances at most where nothing is said to slide.", jig.PlayLimit),
		"Spacer: a loose piece that holds the two posts of a spar apart while the glue sets, so that no block stands in the opening; lift it out with the rib. Its length is the least.",
		"Wax the board and the blocks, or lay film under the drawing: squeeze-out must not bond the rib to them.",
	}
	return t
}

// about writes a length that needs no ruler: to a millimetre, or a sixteenth.
func (w lister) about(mm float64) string {
	step := 1.0
	if w.inch {
		step = ribfile.MMPerInch / 16
	}
	n := mm / step
	if n-float64(int(n)) > 1e-6 {
		n = float64(int(n)) + 1
	}
	return w.doc.Length(n * step)
}

// blockSizes returns the sizes of blocks, the largest first, and the blocks of each.
func blockSizes(blocks []jig.Block) (sizes [][2]float64, ids [][]string) {
	for _, b := range blocks {
		k := 0
		for ; k < len(sizes) && sizes[k] != [2]float64{b.Length, b.Width}; k++ {
		}
		if k == len(sizes) {
			sizes, ids = append(sizes, [2]float64{b.Length, b.Width}), append(ids, nil)
		}
		ids[k] = append(ids[k], b.ID)
	}
	for i := range sizes { // few: full, half the length, half of both
		for k := i + 1; k < len(sizes); k++ {
			if sizes[k][0] > sizes[i][0] || sizes[k][0] == sizes[i][0] && sizes[k][1] > sizes[i][1] {
				sizes[i], sizes[k], ids[i], ids[k] = sizes[k], sizes[i], ids[k], ids[i]
			}
		}
	}
	return sizes, ids
}
