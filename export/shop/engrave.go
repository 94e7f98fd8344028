package shop

import (
	"math"

	"ribwright/export"
	"ribwright/geom"
)

// Plates are lettered in single strokes, which a machine engraves as it marks: as large as the room between the
// marks allows.

// engraved are the heights of lettering on a plate, the largest that fits is taken; the least is what a laser still
// draws legibly (common practice, no source).
var engraved = []float64{5, 4, 3.5, 3, 2.5, 2, 1.5}

// engraveClear is the room about the lettering, to marks and to the plate's edge.
const engraveClear = 1.2

// engrave returns a plate's name, upright, where it crosses neither marks nor the outline: of the places where the
// largest lettering stands, the one nearest to the middle. It is not ok where no lettering fits.
func engrave(outline geom.Path, marks [][2]geom.Pt, s string) (export.Text, bool) {
	ring := geom.Ring(outline.Flatten(0.02))
	if len(ring) < 3 {
		return export.Text{}, false
	}
	b := ring.Box()
	for _, h := range engraved {
		t := export.Text{S: s, Height: h, Anchor: export.Middle}
		w := t.StrokeWidth()
		if w+2*engraveClear > b.W() || h+2*engraveClear > b.H() {
			continue
		}
		best := math.Inf(1)
		step := math.Max(0.5, math.Max(b.W(), b.H())/80)
		for k := range int(b.H() / step) {
			for i := range int(b.W() / step) {
				d := geom.Pt{X: step * turn(i), Y: step * turn(k)}
				at := b.Centre().Add(d)
				if d.Len() >= best {
					continue
				}
				if q := boxQuad(geom.NewBox(at.Sub(geom.Pt{X: w / 2, Y: h / 2}), at.Add(geom.Pt{X: w / 2, Y: h / 2})).Grow(engraveClear)); q.free(ring, marks) {
					best, t.At = d.Len(), at
				}
			}
		}
		if !math.IsInf(best, 1) {
			return t, true
		}
	}
	return export.Text{}, false
}

// free reports whether a quad lies in the ring and no line runs through it.
func (q quad) free(ring geom.Ring, lines [][2]geom.Pt) bool {
	for _, l := range lines {
		if _, _, hit := q.within(l[0], l[1]); hit {
			return false
		}
	}
	if !ring.Holds(q.middle()) {
		return false
	}
	for i, a := range ring {
		if _, _, hit := q.within(a, ring[(i+1)%len(ring)]); hit {
			return false
		}
	}
	return true
}

// strokes letters a text in single strokes.
func (c *canvas) strokes(layer string, t export.Text) {
	for _, p := range t.Strokes() {
		c.path(layer, p)
	}
}

// markLines returns the stretches of a plate's marks that lie on it and are long enough to be seen.
func markLines(outline geom.Path, marks [][2]geom.Pt) [][2]geom.Pt {
	ring := geom.Ring(outline.Flatten(geom.Flat)) // a trimmed plate's centre may lie off it
	var out [][2]geom.Pt
	for _, m := range marks {
		for _, l := range ring.Stretches(m[0], m[1]) {
			if l[0].Dist(l[1]) >= leastMark {
				out = append(out, l)
			}
		}
	}
	return out
}
