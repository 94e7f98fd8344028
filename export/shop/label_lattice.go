package shop

import (
	"cmp"
	"slices"

	"ribwright/geom"
)

// lattice is the points of a lattice about a ring's middle that lie in the ring, as seen from there, the nearest first. They are
// looked for as far out as they are asked for.
type lattice struct {
	ring   geom.Ring
	middle geom.Pt
	cols   int // on either side of the middle
	rows   int
	pts    []geom.Pt // as far as they are known
	bands  int       // how many rings about the middle they come from
}

const (
	latticeStep = 2.0 // mm between two points
	latticeBand = 6   // steps: the width of a ring
)

func newLattice(ring geom.Ring) *lattice {
	b := ring.Box()
	return &lattice{ring: ring, middle: b.Centre(), cols: int(b.W() / 2 / latticeStep), rows: int(b.H() / 2 / latticeStep)}
}

// has reports whether there is a point k, counted from 0.
func (l *lattice) has(k int) bool {
	for k >= len(l.pts) {
		if inner := l.bands * latticeBand; inner*inner > l.cols*l.cols+l.rows*l.rows {
			return false
		}
		l.more()
	}
	return true
}

// more adds the points of one ring more.
func (l *lattice) more() {
	inner, outer := l.bands*latticeBand, (l.bands+1)*latticeBand
	l.bands++
	known := len(l.pts)
	for x := -min(l.cols, outer); x <= min(l.cols, outer); x++ {
		for y := -min(l.rows, outer); y <= min(l.rows, outer); y++ {
			if d := x*x + y*y; d < inner*inner || d >= outer*outer {
				continue
			}
			if p := (geom.Pt{X: float64(x) * latticeStep, Y: float64(y) * latticeStep}); l.ring.Holds(l.middle.Add(p)) {
				l.pts = append(l.pts, p)
			}
		}
	}
	slices.SortStableFunc(l.pts[known:], func(p, q geom.Pt) int { return cmp.Compare(p.Len(), q.Len()) })
}
