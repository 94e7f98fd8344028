package shop

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"ribwright/geom"
	"ribwright/geom/ribfile"
)

// TestFewestTiles compares the number of pages with brute force: a grid of windows of the same size is moved over
// the drawing in small steps, and the windows that have ink in what is theirs are counted. No place of the grid
// needs fewer pages, upright or turned.
func TestFewestTiles(t *testing.T) {
	jobs := demos(t)
	for seed := range many(6, 2) {
		jobs = append(jobs, unknown(t, 40+seed))
	}
	if testing.Short() {
		jobs = jobs[:1]
	}
	sizes := []string{"A5", "A4", "Letter", "A3", "ANSI C", "150x600"}
	for i, j := range jobs {
		f := newField(j.rib, j.doc, BoardOf(j.rib, j.doc), j.found)
		pts := inkPoints(newInk(f.items))
		for k, size := range sizes {
			if some := i >= 3 || os.Getenv("CI") != "true"; some && k%3 != (i+1)%3 { // under CI=true the demos on all, else on a third
				continue
			}
			p := paper(t, size)
			u, err := newTiling(f, j.found, p)
			if err != nil {
				t.Fatalf("%s on %s: %v", j.name, size, err)
			}
			windows := [][2]float64{{u.lay.window.W(), u.lay.window.H()}}
			for _, l := range u.layouts() {
				if l.up && k == (i+1)%3 { // these always find room for everything
					windows = append(windows, [2]float64{l.window.W(), l.window.H()})
				}
			}
			for _, w := range windows {
				if least := bruteForce(pts, w[0], w[1], p.Overlap); len(u.tiles) > least {
					t.Errorf("%s on %s: %d pages, but windows of %.0f × %.0f mm cover it with %d", j.name, size, len(u.tiles), w[0], w[1], least)
				}
			}
		}
	}
}

// inkPoints returns points along everything drawn, half a millimetre apart, those that nearly coincide once.
func inkPoints(k inked) []geom.Pt {
	var out []geom.Pt
	seen := map[[2]int]bool{}
	for i := range k {
		for _, l := range k[i].segs {
			n := int(l.a.Dist(l.b)*2) + 1
			for s := range n + 1 {
				p := l.a.Lerp(l.b, float64(s)/float64(n))
				if at := [2]int{int(math.Round(p.X)), int(math.Round(p.Y))}; !seen[at] {
					seen[at] = true
					out = append(out, p)
				}
			}
		}
	}
	return out
}

// bruteForce returns the least number of windows w × h, in a grid in which neighbours overlap, that show all points.
func bruteForce(pts []geom.Pt, w, h, overlap float64) int {
	const steps = 16
	b := geom.NewBox(pts...).Grow(lineEdge)
	px, py := w-overlap, h-overlap
	need := func(size, pitch float64) int { return max(1, int(math.Ceil((size-overlap)/pitch-1e-9))) }
	least := math.MaxInt
	for i := range steps {
		for k := range steps {
			sx, sy := px*float64(i)/steps, py*float64(k)/steps
			nx, ny := need(b.W()+sx, px), need(b.H()+sy, py)
			seen := make([]bool, nx*ny)
			n := 0
			for _, p := range pts {
				c := max(0, min(nx-1, int(math.Floor((p.X-b.Min.X+sx-overlap/2)/px))))
				r := max(0, min(ny-1, int(math.Floor((p.Y-b.Min.Y+sy-overlap/2)/py))))
				if !seen[c*ny+r] {
					seen[c*ny+r] = true
					n++
				}
			}
			least = min(least, n)
		}
	}
	return least
}

// TestCoverSlots holds for random lines and windows that every point lies in a core, that cores do not
// overlap, and that windows whose cores touch share the overlap.
func TestCoverSlots(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for n := range 300 {
		var ink inked
		for range 1 + r.IntN(12) {
			a := geom.Pt{X: 2000 * r.Float64(), Y: 600 * r.Float64()}
			b := a.Add(geom.Pt{X: 400 * (r.Float64() - 0.5), Y: 300 * (r.Float64() - 0.5)})
			ink = append(ink, itemInk{segs: []inkLine{{a: a, b: b, box: geom.NewBox(a, b)}}})
		}
		w, h, overlap := 70+400*r.Float64(), 70+400*r.Float64(), 8+20*r.Float64()
		g := newGround(ink.runs())
		if n%2 == 1 {
			g = g.flip()
		}
		c := newCover(g, w, h, overlap, n%2 == 1)
		shift := r.Float64() * c.pitch()
		slots := c.slots(shift, float64(r.IntN(3))/2)
		if len(slots) > windows(c.tops(shift)) {
			t.Fatalf("case %d: %d windows, want at most %d", n, len(slots), windows(c.tops(shift)))
		}
		for _, p := range inkPoints(ink) {
			held := 0
			for _, s := range slots {
				if s.core.Grow(1e-6).Holds(p) {
					held++
				}
			}
			if held == 0 {
				t.Fatalf("case %d (flip %v): the point %v is in no core", n, c.flip, p)
			}
		}
		for i, a := range slots {
			if math.Abs(a.window.W()-w) > 1e-9 || math.Abs(a.window.H()-h) > 1e-9 {
				t.Fatalf("case %d: a window of %g × %g, want %g × %g", n, a.window.W(), a.window.H(), w, h)
			}
			for _, b := range slots[i+1:] {
				if x, y := common(a.core, b.core); x > 1e-6 && y > 1e-6 {
					t.Fatalf("case %d: cores %v and %v overlap", n, a.core, b.core)
				}
			}
		}
	}
}

// common returns how wide and how high what two boxes share is; less than 0: they are apart by that.
func common(a, b geom.Box) (x, y float64) {
	return math.Min(a.Max.X, b.Max.X) - math.Max(a.Min.X, b.Min.X), math.Min(a.Max.Y, b.Max.Y) - math.Max(a.Min.Y, b.Min.Y)
}

// TestSheetsOfTheDemo holds how many pages the demo takes.
func TestSheetsOfTheDemo(t *testing.T) {
	j := demos(t)[0]
	for _, c := range []struct {
		size string
		most int
	}{{"A4", 8}, {"Letter", 10}, {"A3", 4}, {"roll 610", 1}, {"roll 36in", 1}, {"roll 210", 2}} {
		p, err := ribfile.ParsePaper(c.size, ribfile.MM)
		if err != nil {
			t.Fatal(err)
		}
		if plan, err := TilePlan(NewField(j.rib, j.doc, BoardOf(j.rib, j.doc), nil), p); err != nil || len(plan) > c.most {
			t.Errorf("%s: %d pages, want at most %d (%v)", c.size, len(plan), c.most, err)
		}
	}
}
