package shop

import (
	"math"
	"slices"

	"ribwright/geom"
)

// room tells quickly where a page surely has no place for a box. It looks at the drawing as a whole, in squares whose
// places no page's squares share, and takes as inked only what is inked on every page.
type room struct {
	paper *freePaper           // in rib axes
	wood  []uint64             // squares that with those to the right, above, and both lie within the contour
	fits  map[boxSize][]uint64 // where boxes may lie
}

// boxSize is the size of a box in squares, and from its lower left square to that below and left of its middle.
type boxSize struct {
	w, h, toX, toY int
	outside        bool // its middle lies outside the contour
}

// roomSide is the side of a room's squares, mm. It must be the air around ink.
const roomSide = inkAir

// newRoom looks at the drawing with as much paper around it as a box may need.
func newRoom(runs []inkRun, band geom.Box, contour geom.Ring) *room {
	const around = 120.0 // mm
	b := band
	for i := range runs {
		b = b.Union(runs[i].box)
	}
	r := &room{paper: freePaperIn(b.Grow(around), roomSide), fits: map[boxSize][]uint64{}}
	r.within(contour)
	if !band.Empty() {
		r.paper.take(band.Grow(-fuzz), 0)
	}
	for i := range runs {
		r.paper.through(runs[i].lines)
	}
	return r
}

// through marks the squares that lines run through.
func (p *freePaper) through(lines []inkLine) {
	for i := range lines {
		lines[i].squares(p.box.Min, p.cell, func(x, y0, y1 int) { p.mark(cells{x, y0, x, y1}) })
	}
}

// within finds the squares inside a contour: those whose middles are, as far as it does not run through them.
func (r *room) within(contour geom.Ring) {
	edge := freePaperIn(r.paper.box, roomSide)
	in := make([]uint64, len(edge.inked))
	for i, a := range contour {
		b := contour[(i+1)%len(contour)]
		edge.through([]inkLine{{a, b, geom.NewBox(a, b)}})
		p, q := edge.at(a), edge.at(b)
		for y := int(math.Ceil(min(p.Y, q.Y) - 0.5)); float64(y)+0.5 < max(p.Y, q.Y); y++ {
			x := p.X + float64((float64(y)+0.5-p.Y)/(q.Y-p.Y)*(q.X-p.X))
			if c := int(math.Ceil(x - 0.5)); c < edge.cols {
				in[y*edge.words+c>>6] ^= 1 << (c & 63) // from here on the other side
			}
		}
	}
	for row := 0; row < len(in); row += edge.words {
		other := uint64(0)
		for i := row; i < row+edge.words; i++ {
			for by := 1; by < 64; by *= 2 {
				in[i] ^= in[i] << by
			}
			in[i] ^= other
			other = -(in[i] >> 63) // all ones where the next word begins inside
			edge.inked[i] |= ^in[i]
		}
	}
	r.wood = edge.places(2, 2)
}

// mayFit reports whether a page may have a place for a box of the size given, with its middle outside the contour if it
// must be; false is sure.
func (r *room) mayFit(page geom.Box, w, h float64, outside bool) bool {
	p := r.paper
	// Wherever the box lies, it takes squares of the page; ink stays clear of these by air, and so many squares lie whole within.
	own := freeCell(page)
	whole := func(v float64) int { return int((float64(math.Ceil(v/own)*own)+2*inkAir)/p.cell) - 1 }
	size := boxSize{whole(w), whole(h), int(w / 2 / p.cell), int(h / 2 / p.cell), outside}
	in := p.around(page, inkAir)
	if size.w < 1 || size.h < 1 || in.x0 < 0 || in.y0 < 0 || in.x1 >= p.cols || in.y1 >= p.rows {
		return true
	}
	in.x1, in.y1 = in.x1-size.w+1, in.y1-size.h+1
	if in.x1 < in.x0 || in.y1 < in.y0 {
		return false
	}
	return p.any(r.places(size), in)
}

// places returns where the lower left one of the squares may be that lie whole in the air around a box. From there to the
// lower left corner of the box it is less than a square, so the middle lies in one of four squares.
func (r *room) places(s boxSize) []uint64 {
	if all, ok := r.fits[s]; ok {
		return all
	}
	p := r.paper
	if !s.outside {
		r.fits[s] = p.places(s.w, s.h)
		return r.fits[s]
	}
	anywhere := s
	anywhere.outside = false
	out := slices.Clone(r.places(anywhere))
	r.fits[s] = out
	whole, part := s.toX>>6, uint(s.toX&63)
	for i := range out {
		from := i + s.toY*p.words + whole
		last := i - i%p.words + (s.toY+1)*p.words - 1 // word of that row
		if from > last || from >= len(r.wood) {
			continue
		}
		wood := r.wood[from] >> part
		if part > 0 && from < last && from+1 < len(r.wood) {
			wood |= r.wood[from+1] << (64 - part)
		}
		out[i] &^= wood
	}
	return out
}
