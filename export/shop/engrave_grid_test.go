package shop

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"ribwright/geom"
)

// TestPlaceGrid holds the place that is found against a plain search through all of them.
func TestPlaceGrid(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	at := func(w, h float64) geom.Pt { return geom.Pt{X: (r.Float64() - 0.5) * w, Y: (r.Float64() - 0.5) * h} }
	found := 0
	for n := range 600 {
		w, h := 12+60*r.Float64(), 8+40*r.Float64()
		if n%10 == 0 {
			w *= 10 // coarse steps
		}
		ring := geom.Ring{at(w, h), at(w, h), at(w, h), at(w, h)}
		if n%3 > 0 {
			ring = geom.Ring{{X: -w / 2, Y: -h / 2}, {X: w / 2, Y: -h / 2}, {X: w / 2, Y: h / 2}, {X: -w / 2, Y: h / 2}}
		}
		b := ring.Box()
		g := placeGrid{middle: b.Centre(), step: math.Max(0.5, math.Max(b.W(), b.H())/engraveSteps), half: geom.Pt{X: 1.5 + 3*r.Float64(), Y: 1.5 + 2*r.Float64()}}
		g.room = geom.Pt{X: b.W()/2 - g.half.X, Y: b.H()/2 - g.half.Y}
		for range r.IntN(9) {
			p, q := at(w, h), at(w, h)
			switch r.IntN(3) { // level, upright, or as a box touches it
			case 0:
				q.Y = p.Y
			case 1:
				q.X = p.X
				p.X, q.X = math.Round(p.X/g.step)*g.step+g.half.X, math.Round(p.X/g.step)*g.step+g.half.X
			}
			g.lines = append(g.lines, [2]geom.Pt{p, q})
		}
		for i, p := range ring {
			g.lines = append(g.lines, [2]geom.Pt{p, ring[(i+1)%len(ring)]})
		}
		got, ok := g.nearest(ring)
		want, there := g.plainly(ring)
		if got != want || ok != there {
			t.Errorf("case %d: %v %v, want %v %v", n, got, ok, want, there)
		}
		if ok {
			found++
		}
	}
	if found < 100 || found > 500 {
		t.Errorf("%d of 600 have a place: the cases say too little", found)
	}
}

// plainly looks at every place, the nearest first.
func (g placeGrid) plainly(ring geom.Ring) (geom.Pt, bool) {
	var all [][2]float64
	for k := range engraveSteps + 1 {
		for i := range engraveSteps + 1 {
			all = append(all, [2]float64{turn(i), turn(k)})
		}
	}
	slices.SortStableFunc(all, func(a, b [2]float64) int { return int(a[0]*a[0] + a[1]*a[1] - b[0]*b[0] - b[1]*b[1]) })
	for _, k := range all {
		d := geom.Pt{X: float64(g.step * k[0]), Y: float64(g.step * k[1])}
		if math.Abs(d.X) > g.room.X || math.Abs(d.Y) > g.room.Y {
			continue
		}
		at := g.middle.Add(d)
		if freeBox(geom.NewBox(at.Sub(g.half), at.Add(g.half)), ring, g.lines) {
			return at, true
		}
	}
	return geom.Pt{}, false
}
