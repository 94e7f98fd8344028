package shop

import (
	"iter"
	"math"

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
	crossRing = 2.0 // radius of its circle
)

// registers returns the marks of every two neighbours, named a1, a2; b1 … in the order of pages.
func (t *tiling) registers() []register {
	var out []register
	for _, p := range t.tiles {
		c := t.core(p.row, p.column)
		if q, ok := t.at(p.row, p.column+1); ok {
			out = append(out, t.register(p, q, [2]geom.Pt{{X: c.Max.X, Y: c.Min.Y}, c.Max}, len(out)))
		}
		if q, ok := t.at(p.row+1, p.column); ok {
			out = append(out, t.register(p, q, [2]geom.Pt{c.Min, {X: c.Max.X, Y: c.Min.Y}}, len(out)))
		}
	}
	return out
}

func (t *tiling) register(a, b Tile, line [2]geom.Pt, n int) register {
	g := register{a: a, b: b, line: line}
	c := &canvas{}
	c.line(layerMatch, line[0], line[1])
	along := line[1].Sub(line[0]).Unit()
	for k, share := range [2]float64{0.25, 0.75} {
		at := t.crossing(line, share)
		g.crosses = append(g.crosses, at)
		c.line(layerRegister, at.Sub(along.Left().Mul(crossArm)), at.Along(along.Left(), crossArm))
		c.line(layerRegister, at.Sub(along.Mul(crossArm)), at.Along(along, crossArm))
		c.path(layerRegister, geom.Circle(at, crossRing))
		t.f.places.labels = append(t.f.places.labels, boxQuad(geom.NewBox(at).Grow(crossRing)))
		if label, ok := t.f.places.place(t.crossName(letters(n, 'a')+string(rune('1'+k)), at, along)); ok {
			c.text(layerRegister, label.texts[0])
		}
	}
	g.items = c.items
	beyond := along.Left().Mul(-1) // from page a, which stands on the left or above
	g.onA = t.follows("to "+b.Name, line, beyond)
	g.onB = t.follows("to "+a.Name, line, beyond.Mul(-1))
	return g
}

// crossing returns a place on a match line for a cross, as near to the share of its length as can be
// without lines of the drawing in the way.
func (t *tiling) crossing(line [2]geom.Pt, share float64) geom.Pt {
	const step = 3.0
	l := line[0].Dist(line[1])
	best, least := geom.Pt{}, math.Inf(1)
	for k := range int(l / 3 / step) {
		at := line[0].Lerp(line[1], share).Along(line[1].Sub(line[0]).Unit(), step*turn(k))
		q := boxQuad(geom.NewBox(at).Grow(crossArm + 1))
		n, _ := t.f.places.lines.count(q)
		for _, r := range t.f.places.labels {
			if q.meets(r) {
				n += 10
			}
		}
		if cost := float64(50*n) + math.Abs(turn(k)); cost < least {
			best, least = at, cost
		}
	}
	return best
}

// crossName offers places for a cross's name beside its circle, in the overlap, so that both pages show it.
func (t *tiling) crossName(name string, at, along geom.Pt) iter.Seq[candidate] {
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
				p := at.Along(along, d).Along(across, side*far)
				if !yield(candidate{texts: []export.Text{centred(name, p, small, 0, false)}, cost: float64(2*k + i)}) {
					return
				}
			}
		}
	}
}

// follows writes which page follows, in the overlap beyond the match line, where there is room.
func (t *tiling) follows(s string, line [2]geom.Pt, beyond geom.Pt) []export.Item {
	const step = 2.0
	along := line[1].Sub(line[0]).Unit()
	l := line[0].Dist(line[1])
	d := t.paper.Overlap / 4
	label, ok := t.f.places.place(func(yield func(candidate) bool) {
		for k := range int(l/step) - 8 {
			shift := step * turn(k)
			at := line[0].Lerp(line[1], 0.5).Along(along, shift).Along(beyond, d)
			if !yield(candidate{texts: []export.Text{centred(s, at, small, readable(along.Angle()), false)}, cost: math.Abs(shift)}) {
				return
			}
		}
	})
	c := &canvas{}
	if ok {
		c.text(layerRegister, label.texts[0])
	}
	return c.items
}
