package shop

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// Tile is one page of the drawing in tiles. Its lengths are true; on a page that is corrected for a printer,
// everything stands at Scale times its place.
type Tile struct {
	Name   string   // a letter for the row, from the top, and a number for the column: "B3"
	W, H   float64  // of the page
	Offset geom.Pt  // a point of the rib stands on the page at its rib axes plus Offset
	Window geom.Box // the part of the page that shows the drawing
	Scale  geom.Pt  // of the page as it is sent to the printer; 1, 1: the printer prints true

	ink         geom.Box // the part of the window where it does: what is cut off stays blank
	core        geom.Box // what this page must show, up to the match lines; in rib axes
	row, column int
	furniture   furniture
	free        *freePaper // without the furniture
}

// Place returns where a point of the rib stands on the page as it is sent to the printer.
func (p Tile) Place(q geom.Pt) geom.Pt {
	q = q.Add(p.Offset)
	return geom.Pt{X: float64(q.X * p.Scale.X), Y: float64(q.Y * p.Scale.Y)}
}

// Tiles returns the jig drawing over pages of paper, in as few as the paper takes: turned, and every column
// or row of pages moved, as needs fewest. Every page has 100 mm (or 4 in) to measure across and up, its
// name, and crosses that it shares with its neighbours; windows in which there is nothing to draw are left
// out. Where the paper says what the printer made of the square, pages are corrected by it. Paper that
// leaves too little between its margins is an error.
func Tiles(f Field, paper ribfile.Paper) (export.Drawing, error) {
	t, err := newTiling(f.copied(), f.found, paper)
	if err != nil {
		return export.Drawing{}, err
	}
	return t.drawing(), nil
}

// TilePlan returns the pages that Tiles draws, in the same order.
func TilePlan(f Field, paper ribfile.Paper) ([]Tile, error) {
	t, err := newTiling(f.copied(), f.found, paper)
	return t.tiles, err
}

// tiling is a field cut into windows of one size that overlap.
type tiling struct {
	f        *field
	found    []finding.Finding
	paper    ribfile.Paper
	lay      layout
	ink      inked
	runs     []inkRun   // of the ink
	labels   []geom.Box // its lettering
	band     geom.Box   // of the ordinates
	overview geom.Box   // of what the map shows: all windows, in rib axes
	rows     bool       // pages stand in rows that are moved one by one, not in columns
	even     bool       // the rows run through
	tiles    []Tile

	wordings map[float64]wording // by their width, as far as they were asked for
	room     *room
}

func (t *tiling) drawing() export.Drawing {
	d := export.Drawing{Title: t.f.doc.Title, Layers: t.f.layers()}
	marks := t.registers()
	large := t.largeMap()
	for k := range t.tiles {
		d.Sheets = append(d.Sheets, t.page(k, marks, large))
	}
	return export.Scaled(d, t.tiles[0].Scale.X, t.tiles[0].Scale.Y)
}

// bleed is how far the drawing goes on beyond the line where a page is cut, mm, so that a cut a little outside
// of it shows no white.
const bleed = 0.6

// newTiling finds the fewest pages. Of arrangements with equally many it takes the one whose pages have most squares to
// measure and part fewest labels.
func newTiling(f *field, found []finding.Finding, paper ribfile.Paper) (tiling, error) {
	t := tiling{f: f, found: found, paper: paper, ink: newInk(f.items), wordings: map[float64]wording{}}
	t.overview, t.band = t.ink.box().Union(f.rib), t.ink.band()
	var all []choice
	least := math.MaxInt
	t.runs, t.labels = t.ink.runs(), t.ink.labels()
	upright := newGround(t.runs)
	grounds := map[bool]*ground{false: upright, true: upright.flip()}
	for _, l := range t.layouts() {
		for _, flip := range []bool{false, true} {
			c := choice{lay: l, cover: newCover(grounds[flip], l.window.W(), l.window.H(), paper.Overlap, flip)}
			c.coarse()
			if flip && c.least >= all[len(all)-1].least {
				continue // columns are as good
			}
			all, least = append(all, c), min(least, c.least)
		}
	}
	if len(all) == 0 {
		return t, t.tooSmall()
	}
	byCount := map[int][]plan{}
	for _, c := range all {
		if c.least <= least+2 { // what needs many more is not looked at closely
			c.fine()
		}
		byCount[c.least] = append(byCount[c.least], c.plans()...)
	}
	t.room = newRoom(t.runs, t.band, f.r.Contour.Outline)
	for _, n := range slices.Sorted(maps.Keys(byCount)) {
		if best, ok := t.best(byCount[n]); ok {
			return best, nil
		}
	}
	return t, t.tooSmall()
}

// trim shortens a window of a roll to its ink.
func (t *tiling) trim(s slot) slot {
	const air = 3.0
	ink := geom.Box{}
	for i := range t.ink {
		for _, l := range t.ink[i].segs {
			if t0, t1, hit := boxQuad(s.core).within(l.a, l.b); hit {
				ink = ink.Add(l.a.Lerp(l.b, t0)).Add(l.a.Lerp(l.b, t1))
			}
		}
	}
	if s.core.Min.X == s.window.Min.X {
		s.window.Min.X = math.Max(s.window.Min.X, ink.Min.X-air)
		s.core.Min.X = s.window.Min.X
	}
	if s.core.Max.X == s.window.Max.X {
		s.window.Max.X = math.Min(s.window.Max.X, ink.Max.X+air)
		s.core.Max.X = s.window.Max.X
	}
	return s
}

// name puts the pages in order, row by row from the top left, and names them.
func (t *tiling) name() {
	last := t.tiles[len(t.tiles)-1].column
	most, tops := 0, []float64{}
	for i := range t.tiles {
		p := &t.tiles[i]
		if t.rows { // strips count from below, and their windows from the right
			p.row, p.column = last-p.column, 0
			continue
		}
		most = max(most, p.row)
		if y := math.Round(p.shown().Max.Y); !slices.Contains(tops, y) {
			tops = append(tops, y)
		}
	}
	slices.Sort(tops)
	t.even = !t.rows && len(tops) <= most+1
	for i := range t.tiles {
		if p := &t.tiles[i]; t.even {
			p.row = len(tops) - 1 - slices.Index(tops, math.Round(p.shown().Max.Y))
		}
	}
	slices.SortFunc(t.tiles, func(a, b Tile) int {
		return cmp.Or(cmp.Compare(a.row, b.row), cmp.Compare(a.core.Min.X, b.core.Min.X))
	})
	for i := range t.tiles {
		p := &t.tiles[i]
		if t.rows && i > 0 && p.row == t.tiles[i-1].row {
			p.column = t.tiles[i-1].column + 1
		}
		p.Name = fmt.Sprintf("%s%d", letters(p.row, 'A'), p.column+1)
	}
}

// shown returns what of the drawing the page shows, in rib axes.
func (p Tile) shown() geom.Box { return p.Window.Move(p.Offset.Mul(-1)) }

// letters counts a, b … z, aa, ab …
func letters(n int, first rune) string {
	s := string(first + rune(n%26))
	if n >= 26 {
		return letters(n/26-1, first) + s
	}
	return s
}
