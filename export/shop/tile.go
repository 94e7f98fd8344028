package shop

import (
	"fmt"
	"math"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// Tile is one page of the drawing in tiles.
type Tile struct {
	Name   string   // a letter for the row, from the top, and a number for the column: "B3"
	Offset geom.Pt  // a point of the rib stands on the page at its rib axes plus Offset
	Window geom.Box // the part of the page that shows the drawing
	row    int
	column int
}

// Tiles returns the jig drawing over pages of paper, turned so that fewest are needed. Every page has its
// own square to measure, its name, and crosses that it shares with its neighbours; windows in which there
// is nothing to draw are left out. A paper that is too small is an error that names the least size.
func Tiles(r *rib.Rib, doc *ribfile.Doc, found []finding.Finding, paper Paper) (export.Drawing, error) {
	t, err := newTiling(newField(r, doc, found), paper)
	if err != nil {
		return export.Drawing{}, err
	}
	d := export.Drawing{Title: doc.Title, Layers: jigLayers()}
	marks := t.registers()
	for k := range t.tiles {
		d.Sheets = append(d.Sheets, t.page(k, marks, found))
	}
	return d, nil
}

// TilePlan returns the pages that Tiles draws, in the same order.
func TilePlan(r *rib.Rib, doc *ribfile.Doc, found []finding.Finding, paper Paper) ([]Tile, error) {
	t, err := newTiling(newField(r, doc, found), paper)
	return t.tiles, err
}

// tiling is a field cut into windows of one size that overlap.
type tiling struct {
	f          *field
	paper      Paper
	w, h       float64  // of a page
	side       bool     // the panel stands beside the window, not below it
	window     geom.Box // on the page
	origin     geom.Pt  // of the grid: the lower left corner of its lowest window, in rib axes
	rows, cols int
	tiles      []Tile
	cut        int // labels that a match line parts
	ink        inked
}

// newTiling tries the paper both ways round, the panel below and beside, and some places of the grid,
// and takes what needs fewest pages; of equals, what parts fewest labels, then what comes first.
func newTiling(f *field, paper Paper) (tiling, error) {
	if err := paper.check(f.doc.Units); err != nil {
		return tiling{}, err
	}
	ink := newInk(f.items)
	var best tiling
	long, short := math.Max(paper.W, paper.H), math.Min(paper.W, paper.H)
	for _, turned := range []bool{false, true} {
		for _, side := range []bool{false, true} {
			t := tiling{f: f, ink: ink, paper: paper, w: short, h: long, side: side}
			if turned {
				t.w, t.h = long, short
			}
			if !t.grid() {
				continue
			}
			if t = t.shift(); len(best.tiles) == 0 || t.better(best) {
				best = t
			}
		}
	}
	for i, p := range best.tiles {
		best.tiles[i].Name = fmt.Sprintf("%s%d", letters(p.row, 'A'), p.column+1)
	}
	return best, nil
}

func (t tiling) better(u tiling) bool {
	if len(t.tiles) != len(u.tiles) {
		return len(t.tiles) < len(u.tiles)
	}
	return t.cut < u.cut
}

// grid sets the window and how many are needed; it is false where the page is too small this way round.
func (t *tiling) grid() bool {
	m := t.paper.Margin
	page := geom.NewBox(geom.Pt{X: m, Y: m}, geom.Pt{X: t.w - m, Y: t.h - m})
	long := page.W()
	if t.side {
		long = page.H()
		page.Max.X -= panelHigh
	} else {
		page.Min.Y += panelHigh
	}
	if long < panelLong || page.W() < windowMin || page.H() < windowMin {
		return false
	}
	t.window = page
	box, o := t.f.box(), t.paper.Overlap
	need := func(size, window float64) int {
		return max(1, int(math.Ceil((size-o)/(window-o)-1e-9)))
	}
	t.cols, t.rows = need(box.W(), page.W()), need(box.H(), page.H())
	return true
}

// shift moves the grid within what it is larger than the field, to need fewer pages and to part fewer
// labels.
func (t tiling) shift() tiling {
	const tries = 6 // to either side of the middle
	box := t.f.box()
	slack := geom.Pt{X: t.span(t.cols, t.window.W()) - box.W(), Y: t.span(t.rows, t.window.H()) - box.H()}
	var best tiling
	for i := range 2*tries + 1 {
		for k := range 2*tries + 1 {
			u := t
			share := geom.Pt{X: 0.5 + turn(i)/(2*tries), Y: 0.5 + turn(k)/(2*tries)}
			u.origin = geom.Pt{X: box.Min.X - float64(slack.X*share.X), Y: box.Min.Y - float64(slack.Y*share.Y)}
			u.fill()
			if best.tiles == nil || u.better(best) {
				best = u
			}
		}
	}
	return best
}

// span returns the length of n windows that overlap.
func (t *tiling) span(n int, window float64) float64 {
	return float64(float64(n)*(window-t.paper.Overlap)) + t.paper.Overlap
}

// fill lists the pages that have something to show, from the top left, and counts the labels that match
// lines part. What counts is the window's core, up to the match lines: what lies beyond is in the
// neighbour's core.
func (t *tiling) fill() {
	t.tiles = []Tile{}
	for row := range t.rows {
		for col := range t.cols {
			if t.ink.meets(t.core(row, col)) {
				at := t.corner(row, col)
				t.tiles = append(t.tiles, Tile{"", t.window.Min.Sub(at), t.window, row, col})
			}
		}
	}
	var xs, ys []float64 // of the match lines
	for c := 1; c < t.cols; c++ {
		xs = append(xs, t.core(0, c).Min.X)
	}
	for r := 1; r < t.rows; r++ {
		ys = append(ys, t.core(r, 0).Max.Y)
	}
	t.cut = 0
	for i := range t.ink {
		if k := &t.ink[i]; k.item.Text != nil {
			t.cut += between(xs, k.box.Min.X, k.box.Max.X) + between(ys, k.box.Min.Y, k.box.Max.Y)
		}
	}
}

// between counts the values between two bounds.
func between(vs []float64, lo, hi float64) int {
	n := 0
	for _, v := range vs {
		if lo < v && v < hi {
			n++
		}
	}
	return n
}

// corner returns the lower left corner of a window in rib axes; rows count from the top.
func (t *tiling) corner(row, col int) geom.Pt {
	o := t.paper.Overlap
	return t.origin.Add(geom.Pt{X: float64(col) * (t.window.W() - o), Y: float64(t.rows-1-row) * (t.window.H() - o)})
}

// core returns a window up to its match lines, in rib axes: to the window's edge where no further
// window is.
func (t *tiling) core(row, col int) geom.Box {
	at, o := t.corner(row, col), float64(t.paper.Overlap/2)
	b := geom.NewBox(at, at.Add(geom.Pt{X: t.window.W(), Y: t.window.H()}))
	if col > 0 {
		b.Min.X += o
	}
	if col < t.cols-1 {
		b.Max.X -= o
	}
	if row > 0 {
		b.Max.Y -= o
	}
	if row < t.rows-1 {
		b.Min.Y += o
	}
	return b
}

// at returns the page at a place of the grid.
func (t *tiling) at(row, col int) (Tile, bool) {
	for _, p := range t.tiles {
		if p.row == row && p.column == col {
			return p, true
		}
	}
	return Tile{}, false
}

// letters counts a, b … z, aa, ab …
func letters(n int, first rune) string {
	s := string(first + rune(n%26))
	if n >= 26 {
		return letters(n/26-1, first) + s
	}
	return s
}
