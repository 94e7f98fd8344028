package shop

import (
	"math"

	"ribwright/geom"
)

// engraveSteps is how finely a place is sought over a plate's longer side.
const engraveSteps = 80

// placeGrid are the places for a box of lettering: those of a grid about the plate's middle.
type placeGrid struct {
	middle geom.Pt
	step   float64 // of the grid
	half   geom.Pt // from the box's middle to its corner
	room   geom.Pt // how far from the middle it may stand
	lines  [][2]geom.Pt
}

// nearest returns the free place nearest to the middle, of equals that in the row nearest to it. Row by row it strikes out
// what the lines surely block, and looks closely at what is left. Four rows at once are passed over where the lines
// block what is common to their boxes.
func (g placeGrid) nearest(ring geom.Ring) (best geom.Pt, ok bool) {
	const rows = 4
	least := math.Inf(1)
	var shut [2]bool // on either side of the middle
	for k := range engraveSteps + 1 {
		row, side := turn(k), k%2
		d := geom.Pt{Y: float64(g.step * row)}
		if row*row >= least || math.Abs(d.Y) > g.room.Y {
			break
		}
		if k > 0 && int(math.Abs(row))%rows == 1 {
			const on = (rows - 1) / 2.0 // to the middle of the rows
			shut[side] = g.row(g.middle.Y+float64(g.step*(row+math.Copysign(on, row))), g.half.Y-float64(on*g.step)).full()
		}
		if k > 0 && shut[side] {
			continue
		}
		taken := g.row(g.middle.Y+d.Y, g.half.Y)
		if taken.full() {
			continue
		}
		for i := range engraveSteps + 1 {
			col := turn(i)
			d.X = float64(g.step * col)
			away := float64(col*col) + float64(row*row)
			if away >= least || math.Abs(d.X) > g.room.X {
				break
			}
			if taken.has(int(col)) {
				continue
			}
			at := g.middle.Add(d)
			if freeBox(geom.NewBox(at.Sub(g.half), at.Add(g.half)), ring, g.lines) {
				best, least, ok = at, away, true
				break
			}
		}
	}
	return best, ok
}

// row strikes out what lines block of boxes of half a height in a row, and what lies outside of the room.
func (g placeGrid) row(y, half float64) places {
	const sure = 1e-6 // mm: nearer to its edge a box is looked at closely
	wide, tall := g.half.X-sure, half-sure
	low, high := y-tall, y+tall
	reach := math.Floor(g.room.X/g.step + sure)
	var out places
	out.strike(math.Inf(-1), -reach-1)
	out.strike(reach+1, math.Inf(1))
	for _, l := range g.lines {
		a, b := l[0], l[1]
		if a.Y > b.Y {
			a, b = b, a
		}
		if b.Y < low || a.Y > high || tall < 0 {
			continue
		}
		from, to := a.X, b.X
		if a.Y < low {
			from = a.X + float64((b.X-a.X)*(low-a.Y))/(b.Y-a.Y)
		}
		if b.Y > high {
			to = b.X + float64((b.X-a.X)*(high-b.Y))/(b.Y-a.Y)
		}
		out.strike((min(from, to)-wide-g.middle.X)/g.step, (max(from, to)+wide-g.middle.X)/g.step)
		if out.full() {
			break
		}
	}
	return out
}

// places are those of a row of the grid that are struck out, a bit for each.
type places [2]uint64

// allPlaces is a row with none left.
var allPlaces = places{math.MaxUint64, 1<<(engraveSteps+1-64) - 1}

// strike strikes out the places from one column to another.
func (p *places) strike(from, to float64) {
	const half = engraveSteps / 2
	if from > half || to < -half {
		return
	}
	i, j := int(math.Ceil(max(from, -half)))+half, int(math.Floor(min(to, half)))+half
	for w := range p { // the bits i … j of the words one after the other
		if lo, hi := max(i-64*w, 0), min(j-64*w, 63); lo <= hi {
			p[w] |= math.MaxUint64 << lo & (math.MaxUint64 >> (63 - hi))
		}
	}
}

// has reports whether the place in a column is struck out.
func (p places) has(col int) bool {
	i := col + engraveSteps/2
	return p[i/64]>>(i%64)&1 == 1
}

func (p places) full() bool { return p == allPlaces }

// freeBox reports whether a box lies in the ring and no line, the ring's own among them, runs through it.
func freeBox(b geom.Box, ring geom.Ring, lines [][2]geom.Pt) bool {
	q := boxQuad(b)
	for _, l := range lines {
		p, r := l[0], l[1]
		if max(p.X, r.X) < b.Min.X || min(p.X, r.X) > b.Max.X || max(p.Y, r.Y) < b.Min.Y || min(p.Y, r.Y) > b.Max.Y {
			continue
		}
		if _, _, in := q.within(p, r); in {
			return false
		}
	}
	return ring.Holds(b.Centre())
}
