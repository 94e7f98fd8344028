package shop

import (
	"math"

	"ribwright/geom"
)

// room tells quickly where a page surely has no place for a box. It looks at the drawing as a whole, in squares whose
// places no page's squares share, and takes as inked only what is inked on every page.
type room struct {
	paper *freePaper          // in rib axes
	fits  map[[2]int][]uint64 // by the size of a box in squares
}

// newRoom looks at the drawing with as much paper around it as a box may need.
func newRoom(runs []inkRun, band geom.Box) *room {
	const side, around = 2.0, 120.0 // mm
	b := band
	for i := range runs {
		b = b.Union(runs[i].box)
	}
	r := &room{paper: freePaperIn(b.Grow(around), side), fits: map[[2]int][]uint64{}}
	if !band.Empty() {
		r.paper.take(band.Grow(-fuzz), 0)
	}
	for i := range runs {
		for k := range runs[i].lines {
			runs[i].lines[k].squares(r.paper.box.Min, side, func(x, y0, y1 int) { r.paper.mark(cells{x, y0, x, y1}) })
		}
	}
	return r
}

// mayFit reports whether a page may have a place for a box of the size given; false is sure.
func (r *room) mayFit(page geom.Box, w, h float64) bool {
	p := r.paper
	// Wherever the box lies, it takes squares of the page; ink stays clear of these by air, and so many squares lie whole within.
	own := freeCell(page)
	whole := func(v float64) int { return int((float64(math.Ceil(v/own)*own)+2*inkAir)/p.cell) - 1 }
	cw, ch := whole(w), whole(h)
	in := p.around(page, inkAir)
	if cw < 1 || ch < 1 || in.x0 < 0 || in.y0 < 0 || in.x1 >= p.cols || in.y1 >= p.rows {
		return true
	}
	in.x1, in.y1 = in.x1-cw+1, in.y1-ch+1
	if in.x1 < in.x0 || in.y1 < in.y0 {
		return false
	}
	key := [2]int{cw, ch}
	if r.fits[key] == nil {
		r.fits[key] = p.places(cw, ch)
	}
	return p.any(r.fits[key], in)
}
