package shop

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"ribwright/geom"
)

// TestLineGrid holds what the grids find against looking at everything.
func TestLineGrid(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 1))
	at := func() geom.Pt { return geom.Pt{X: 2000*r.Float64() - 500, Y: 300*r.Float64() - 100} }
	box := func() quad {
		u := geom.Polar(7 * r.Float64())
		return quad{at(), u, u.Left(), 1 + 40*r.Float64(), 1 + 5*r.Float64()}
	}
	var lines lineGrid
	var labels quadGrid
	for k := range 800 {
		a := at()
		lines.addLine(a, a.Along(geom.Polar(7*r.Float64()), 60*r.Float64()), k%7 == 0)
		labels.add(box())
	}
	met, free := 0, 0
	for range 2000 {
		q, a := box(), at()
		b := a.Along(geom.Polar(7*r.Float64()), 60*r.Float64())
		n, hard, crossed, meets, hit := 0, false, 0, false, false
		for _, l := range lines.lines {
			if _, _, in := q.within(l.a, l.b); in {
				n, hard = n+1, hard || l.hard
			}
			if l.hard && segmentsCross(a, b, l.a, l.b) {
				crossed++
			}
		}
		for _, l := range labels.quads {
			_, _, in := l.within(a, b)
			meets, hit = meets || q.meets(l), hit || in
		}
		if got, gotHard := lines.count(q); got != n || gotHard != hard {
			t.Errorf("%v is crossed by %d lines (hard %v), want %d (%v)", q, got, gotHard, n, hard)
		}
		if got, ok := lines.thin(q); ok == hard || ok && got != n {
			t.Errorf("%v: thin lines %d %v, want %d %v", q, got, ok, n, !hard)
		}
		if got := lines.crossed(a, b); got != crossed {
			t.Errorf("%v %v crosses %d outlines, want %d", a, b, got, crossed)
		}
		if labels.meets(q) != meets || labels.hit(a, b) != hit {
			t.Errorf("%v: meets %v, hit %v, want %v and %v", q, labels.meets(q), labels.hit(a, b), meets, hit)
		}
		if n > 0 {
			met++
		}
		if !meets {
			free++
		}
	}
	if met < 200 || free < 200 {
		t.Errorf("%d of 2000 are crossed by lines, %d free of labels: the cases say too little", met, free)
	}
}

// TestLattice holds the points that are found ring by ring against all of them, sorted.
func TestLattice(t *testing.T) {
	for _, ring := range []geom.Ring{{}, {{X: 1, Y: 1}, {X: 4, Y: 1}, {X: 4, Y: 3}}, {{}, {X: 90, Y: 10}, {X: 85, Y: 60}, {X: 40, Y: 20}, {X: -7, Y: 55}}} {
		box := ring.Box()
		var want []geom.Pt
		for x := -math.Floor(box.W() / 2 / latticeStep); x*latticeStep <= box.W()/2; x++ {
			for y := -math.Floor(box.H() / 2 / latticeStep); y*latticeStep <= box.H()/2; y++ {
				if p := (geom.Pt{X: x * latticeStep, Y: y * latticeStep}); ring.Holds(box.Centre().Add(p)) {
					want = append(want, p)
				}
			}
		}
		slices.SortStableFunc(want, func(p, q geom.Pt) int { return cmp.Compare(p.Len(), q.Len()) })
		l, n := newLattice(ring), 0
		for ; l.has(n); n++ {
			if n >= len(want) || l.pts[n] != want[n] {
				t.Fatalf("point %d of %v is %v, want %v", n, ring, l.pts[n], want[n:])
			}
		}
		if n != len(want) {
			t.Errorf("%d points in %v, want %d", n, ring, len(want))
		}
	}
}
