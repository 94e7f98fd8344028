package pack

import (
	"math"

	"ribwright/geom"
)

// grid finds what lies near a place: items by the cell in which their origin lies.
type grid struct {
	lo     geom.Pt
	cell   float64
	nx, ny int
	cells  [][]int32
}

// newGrid covers the box with cells of the size given, of which there are not too many.
func newGrid(lo, hi geom.Pt, cell float64) grid {
	w, h := max(hi.X-lo.X, 0), max(hi.Y-lo.Y, 0)
	cell = max(cell, w/200, h/200, hair)
	g := grid{lo: lo, cell: cell, nx: int(w/cell) + 1, ny: int(h/cell) + 1}
	g.cells = make([][]int32, g.nx*g.ny)
	return g
}

func (g *grid) at(v float64, n int) int { return min(max(int(math.Floor(v/g.cell)), 0), n-1) }

func (g *grid) add(p geom.Pt, k int) {
	c := g.at(p.Y-g.lo.Y, g.ny)*g.nx + g.at(p.X-g.lo.X, g.nx)
	g.cells[c] = append(g.cells[c], int32(k))
}

// each calls f for what may lie in the box, in a fixed order, until it says false.
func (g *grid) each(lo, hi geom.Pt, f func(k int) bool) {
	x0, x1 := g.at(lo.X-g.lo.X, g.nx), g.at(hi.X-g.lo.X, g.nx)
	y0, y1 := g.at(lo.Y-g.lo.Y, g.ny), g.at(hi.Y-g.lo.Y, g.ny)
	for y := y0; y <= y1; y++ {
		for _, cell := range g.cells[y*g.nx+x0 : y*g.nx+x1+1] {
			for _, k := range cell {
				if !f(int(k)) {
					return
				}
			}
		}
	}
}
