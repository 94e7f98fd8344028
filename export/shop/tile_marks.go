package shop

import (
	"iter"
	"math"
	"strconv"

	"ribwright/export"
	"ribwright/geom"
)

// register is what two neighbours share: a match line in the middle of their overlap, crosses on it with
// their names, and for either side the word that says which page follows. All in rib axes.
type register struct {
	a, b    Tile // left and right, or upper and lower
	line    [2]geom.Pt
	crosses []geom.Pt
	items   []export.Item // the line, the crosses and their names, on both pages alike
	onA     []export.Item // on a only
	onB     []export.Item
}

// Sizes of a register mark, mm.
const (
	crossArm  = 4.0
	crossRing = 2.0  // radius of its circle
	crossRoom = 24.0 // of a match line, for one cross
)

// registers returns the marks of every two pages whose cores meet, named in the order of pages.
func (t *tiling) registers() []register {
	const near = 1e-6
	var out []register
	for _, p := range t.tiles {
		for _, b := range [...]geom.Box{p.furniture.across, p.furniture.up} {
			if !b.Empty() { // a ruler in a strip that is cut off
				t.f.places.labels = append(t.f.places.labels, boxQuad(b.Move(p.Offset.Mul(-1)).Grow(0.5)))
			}
		}
	}
	for _, p := range t.tiles {
		for _, q := range t.tiles {
			a, b := p.core, q.core
			switch {
			case math.Abs(a.Max.X-b.Min.X) < near && math.Min(a.Max.Y, b.Max.Y)-math.Max(a.Min.Y, b.Min.Y) > near:
				out = append(out, t.register(p, q, [2]geom.Pt{{X: a.Max.X, Y: math.Max(a.Min.Y, b.Min.Y)}, {X: a.Max.X, Y: math.Min(a.Max.Y, b.Max.Y)}}, len(out)))
			case math.Abs(a.Min.Y-b.Max.Y) < near && math.Min(a.Max.X, b.Max.X)-math.Max(a.Min.X, b.Min.X) > near:
				out = append(out, t.register(p, q, [2]geom.Pt{{X: math.Max(a.Min.X, b.Min.X), Y: a.Min.Y}, {X: math.Min(a.Max.X, b.Max.X), Y: a.Min.Y}}, len(out)))
			}
		}
	}
	return out
}

func (t *tiling) register(a, b Tile, line [2]geom.Pt, n int) register {
	g := register{a: a, b: b, line: line}
	c := &canvas{}
	c.line(layerMatch, line[0], line[1])
	along := line[1].Sub(line[0]).Unit()
	shares := []float64{0.15, 0.85}
	if line[0].Dist(line[1]) < crossRoom {
		shares = shares[:0] // the pages are held by their other neighbours
	} else if line[0].Dist(line[1]) < 2*crossRoom {
		shares = []float64{0.5}
	}
	for k, share := range shares {
		at := t.crossing(line, share)
		g.crosses = append(g.crosses, at)
		c.line(layerRegister, at.Sub(along.Left().Mul(crossArm)), at.Along(along.Left(), crossArm))
		c.line(layerRegister, at.Sub(along.Mul(crossArm)), at.Along(along, crossArm))
		c.path(layerRegister, geom.Circle(at, crossRing))
		t.f.places.labels = append(t.f.places.labels, boxQuad(geom.NewBox(at).Grow(crossRing)))
		if label, ok := t.f.places.place(t.crossName(crossLetter(n, k), at, line)); ok {
			c.text(layerRegister, label.texts[0])
		}
	}
	g.items = c.items
	beyond := along.Left().Mul(-1) // from page a, which stands on the left or above
	// The later page is cut along the line and laid on the earlier one, which keeps its edge to be glued on.
	g.onA = t.follows(line, beyond, false, "under "+b.Name, b.Name)
	g.onB = t.follows(line, beyond.Mul(-1), true, "cut here, lay on "+a.Name, "cut, on "+a.Name, "on "+a.Name)
	return g
}

// crossLetter names the crosses of the n-th pair of neighbours: a1, a2; b1 … z2; a3, a4 …: two signs have room
// beside the match line, three have not.
func crossLetter(n, k int) string { return letters(n%26, 'a') + strconv.Itoa(1+k+2*(n/26)) }

// crossing returns a place on a match line for a cross, as near to the share of its length as can be
// without lines of the drawing in the way.
func (t *tiling) crossing(line [2]geom.Pt, share float64) geom.Pt {
	const step, end = 3.0, crossRoom / 2 // so far from the line's ends, for the cross and its name
	l := line[0].Dist(line[1])
	start := math.Max(end, math.Min(l-end, share*l))
	best, least := geom.Pt{}, math.Inf(1)
	labels := t.labelsNear(line, crossArm+1)
	for k := range int(2 * l / 3 / step) {
		if math.Abs(turn(k)) >= least {
			break // all that follow are farther off
		}
		s := start + float64(step*turn(k))
		if s < end || s > l-end {
			continue
		}
		at := line[0].Along(line[1].Sub(line[0]).Unit(), s)
		q := boxQuad(geom.NewBox(at).Grow(crossArm + 1))
		n, _ := t.f.places.lines.count(q)
		for _, r := range labels {
			if q.meets(r) {
				n += 100 // lettering, other marks and rulers must not be met
			}
		}
		if cost := float64(50*n) + math.Abs(turn(k)); cost < least {
			best, least = at, cost
		}
	}
	return best
}

// labelsNear returns the labels and marks within a distance of a line.
func (t *tiling) labelsNear(line [2]geom.Pt, d float64) []quad {
	all := boxQuad(geom.NewBox(line[0], line[1]).Grow(d))
	var out []quad
	for _, r := range t.f.places.labels {
		if all.meets(r) {
			out = append(out, r)
		}
	}
	return out
}

// crossName offers places for a cross's name beside its circle, in the overlap, so that both pages show it.
func (t *tiling) crossName(name string, at geom.Pt, line [2]geom.Pt) iter.Seq[candidate] {
	along := line[1].Sub(line[0]).Unit()
	s, l := at.Dist(line[0]), line[0].Dist(line[1])
	w := textWidth(name, small, false)
	half := func(d geom.Pt) float64 { return float64(math.Abs(d.X)*w/2) + float64(math.Abs(d.Y)*small/2) }
	across := along.Left()
	far := math.Min(clearance+0.4+half(across), float64(t.paper.Overlap/2)-0.5-half(across))
	on := crossRing + clearance + 0.3 + half(along)
	return func(yield func(candidate) bool) {
		for k := range 24 {
			for i, side := range [2]float64{1, -1} {
				d := on + 2*float64(k/2)
				if k%2 == 1 {
					d = -d
				}
				if s+d < half(along)+1 || s+d > l-half(along)-1 {
					continue // off the end
				}
				p := at.Along(along, d).Along(across, side*far)
				if !yield(candidate{texts: []export.Text{centred(name, p, small, 0, false)}, cost: float64(2*k + i)}) {
					return
				}
			}
		}
	}
}

// follows writes beyond the match line what is to be done there, in the first words that find room. A strip that is
// cut off is blank: there only lettering and marks are in the way.
func (t *tiling) follows(line [2]geom.Pt, beyond geom.Pt, blank bool, words ...string) []export.Item {
	const step = 2.0
	along := line[1].Sub(line[0]).Unit()
	middle := line[0].Lerp(line[1], 0.5).Along(beyond, t.paper.Overlap/4)
	c := &canvas{}
	for _, s := range words {
		room := (line[0].Dist(line[1]) - textWidth(s, small, false)) / 2
		offer := func(yield func(candidate) bool) {
			for k := 0; math.Abs(step*turn(k)) < room-1; k++ {
				at := middle.Along(along, step*turn(k))
				if !yield(candidate{texts: []export.Text{centred(s, at, small, readable(along.Angle()), false)}, cost: math.Abs(step * turn(k))}) {
					return
				}
			}
		}
		label, ok := t.f.places.place(offer)
		if !ok && blank {
			clear := newPlacer() // without the lines
			clear.labels = t.labelsNear(line, t.paper.Overlap+2*small)
			n := len(clear.labels)
			if label, ok = clear.place(offer); ok {
				t.f.places.labels = append(t.f.places.labels, clear.labels[n:]...)
			}
		}
		if ok {
			c.text(layerRegister, label.texts[0])
			break
		}
	}
	return c.items
}
