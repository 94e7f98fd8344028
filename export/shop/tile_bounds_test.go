package shop

import (
	"math"
	"math/rand/v2"
	"testing"

	"ribwright/geom"
)

// scattered returns lines that nobody drew, long and short, some of them level or upright.
func scattered(r *rand.Rand) inked {
	var ink inked
	for range 1 + r.IntN(30) {
		a := geom.Pt{X: 2000 * r.Float64(), Y: 600 * r.Float64()}
		b := a.Add(geom.Pt{X: 400 * (r.Float64() - 0.5), Y: 300 * (r.Float64() - 0.5)})
		switch r.IntN(6) {
		case 0:
			b.X = a.X
		case 1:
			b.Y = a.Y
		}
		k := itemInk{box: geom.NewBox(a, b)}
		k.addLine(a, b)
		ink = append(ink, k)
	}
	return ink
}

// TestGroundFinds compares what the grid finds in a slab with all lines, one by one.
func TestGroundFinds(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	for n := range 200 {
		g := newGround(scattered(r).runs())
		if n%2 == 1 {
			g = g.flip()
		}
		for range 20 {
			lo := g.box.Min.X + float64(g.box.W()*r.Float64())
			hi, y := lo+float64(300*r.Float64()), g.box.Min.Y+float64(g.box.H()*(1.2*r.Float64()-0.1))
			below, above := math.Inf(-1), math.Inf(1)
			for i := range g.lines {
				if low, high, ok := g.lines[i].clipped(lo, hi); ok {
					if low < y {
						below = max(below, min(high, y))
					}
					if high >= y {
						above = min(above, max(low, y))
					}
				}
			}
			if got := g.below(lo, hi, y); got != below {
				t.Fatalf("case %d: below %g in %g to %g: %g, want %g", n, y, lo, hi, got, below)
			}
			if got := g.above(lo, hi, y); got != above {
				t.Fatalf("case %d: above %g in %g to %g: %g, want %g", n, y, lo, hi, got, above)
			}
		}
	}
}

// TestStrataSure holds that the raster's count of windows is never more than it takes, and right where it is sure; and that it mostly is sure.
func TestStrataSure(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 2))
	all, unsure := 0, 0
	for n := range 400 {
		ink := scattered(r)
		g := newGround(ink.runs())
		if n%2 == 1 {
			g = g.flip()
		}
		c := newCover(g, 70+400*r.Float64(), 70+400*r.Float64(), 8+20*r.Float64(), n%2 == 1)
		shift := float64(r.Float64() * c.pitch())
		for k, strips := 0, c.strips(shift); k < strips; k++ {
			lo, hi := c.slab(k, strips, shift)
			got, sure := c.bits.windows(lo, hi, c.h, c.overlap)
			want := len(c.column(k, strips, shift))
			if got > want || sure && got != want {
				t.Fatalf("case %d, strip %d: %d windows (sure: %v), want %d", n, k, got, sure, want)
			}
			if all++; !sure {
				unsure++
			}
		}
	}
	if unsure*10 > all {
		t.Errorf("of %d strips %d are not sure", all, unsure)
	}
}

// TestFreePaperFind compares what is found among bits with a search square by square.
func TestFreePaperFind(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	for n := range 60 {
		p := newFreePaper(geom.NewBox(geom.Pt{X: 7, Y: -3}, geom.Pt{X: 20 + 480*r.Float64(), Y: 10 + 300*r.Float64()}))
		for range r.IntN(12) {
			at := p.box.Min.Add(geom.Pt{X: p.box.W() * r.Float64(), Y: p.box.H() * r.Float64()})
			p.take(geom.NewBox(at, at.Add(geom.Pt{X: 90 * r.Float64(), Y: 60 * r.Float64()})), 2)
		}
		w, h := 1+float64(200*r.Float64()), 1+float64(80*r.Float64())
		cw, ch := int(math.Ceil(w/p.cell)), int(math.Ceil(h/p.cell))
		fit := func(b geom.Box) bool { return n%2 == 0 || math.Mod(b.Min.X+b.Min.Y, 3) < 1 }
		want, least := geom.Box{}, math.MaxInt
		for y := 0; y+ch <= p.rows; y++ {
			for x := 0; x+cw <= p.cols; x++ {
				free := true
				for k := 0; k < cw*ch && free; k++ {
					i, j := x+k%cw, y+k/cw
					free = p.inked[j*p.words+i>>6]>>(i&63)&1 == 0
				}
				at := p.box.Min.Add(geom.Pt{X: float64(x) * p.cell, Y: float64(y) * p.cell})
				b := geom.NewBox(at, at.Add(geom.Pt{X: w, Y: h}))
				if far := min(x, p.cols-cw-x) + min(y, p.rows-ch-y); free && far < least && fit(b) {
					want, least = b, far
				}
			}
		}
		if got, ok := p.find(w, h, fit); ok != (least < math.MaxInt) || got != want {
			t.Fatalf("case %d: found %v (%v), want %v", n, got, ok, want)
		}
	}
}

// TestRoomSure looks for places on pages anywhere over the demos: where the room says that there is none, there is none.
func TestRoomSure(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	none := 0
	for _, j := range demos(t) {
		f := newField(j.rib, j.doc, BoardOf(j.rib, j.doc), j.found)
		u, err := newTiling(f, j.found, paper(t, "A4"))
		if err != nil {
			t.Fatal(err)
		}
		for range many(200, 40) {
			at := u.overview.Min.Add(geom.Pt{X: u.overview.W() * r.Float64(), Y: u.overview.H()*r.Float64() - 100})
			window := geom.NewBox(geom.Pt{X: 10, Y: 20}, geom.Pt{X: 30 + 170*r.Float64(), Y: 40 + 240*r.Float64()})
			p := Tile{Window: window, Offset: window.Min.Sub(at)}
			p.core = p.shown()
			free, o := u.free(&p), j.rib.Contour.Outline
			for range 20 {
				w, h := 4+float64(120*r.Float64()), 4+float64(120*r.Float64())
				for _, outside := range []bool{false, true} {
					fit := func(b geom.Box) bool { return !outside || !o.Holds(b.Centre().Sub(p.Offset)) }
					if u.room.mayFit(u.blank(&p), w, h, outside) {
						continue
					}
					none++
					if b, ok := free.find(w, h, fit); ok {
						t.Fatalf("%s, page at %v: %g × %g, outside %v: no room, but it fits at %v", j.name, p.shown(), w, h, outside, b)
					}
				}
			}
		}
	}
	if none == 0 {
		t.Error("there was room everywhere")
	}
}
