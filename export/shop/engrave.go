package shop

import (
	"math"
	"slices"

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
	lines := append(make([][2]geom.Pt, 0, len(marks)+len(ring)), marks...)
	for i, p := range ring {
		lines = append(lines, [2]geom.Pt{p, ring[(i+1)%len(ring)]})
	}
	for _, h := range engraved {
		t := export.Text{S: s, Height: h, Anchor: export.Middle}
		half := geom.Pt{X: float64(t.StrokeWidth()/2) + engraveClear, Y: float64(h/2) + engraveClear}
		room := geom.Pt{X: float64(b.W()/2) - half.X, Y: float64(b.H()/2) - half.Y}
		if room.X < 0 || room.Y < 0 {
			continue
		}
		g := placeGrid{middle: b.Centre(), step: math.Max(0.5, math.Max(b.W(), b.H())/engraveSteps), half: half, room: room, lines: lines}
		if at, ok := g.nearest(ring); ok {
			t.At = at
			return t, true
		}
	}
	return export.Text{}, false
}

// slit returns an outline with holes as one line, which runs to each hole and back: what lies in a hole lies outside it.
func slit(outline geom.Path, holes []geom.Path) geom.Path {
	if len(holes) == 0 {
		return outline
	}
	pts := outline.Flatten(0.02)
	start := pts[0]
	for _, h := range holes {
		ring := h.Flatten(0.02)
		pts = append(append(append(pts, start), ring...), ring[0])
	}
	return geom.Ring(append(pts, start)).Path()
}

// engraveBeside is engrave, clear of where fasteners go too, if a name can be: it counts for more than they.
func engraveBeside(outline geom.Path, marks, clamps [][2]geom.Pt, s string) (export.Text, bool) {
	if t, ok := engrave(outline, slices.Concat(marks, clamps), s); ok {
		return t, true
	}
	return engrave(outline, marks, s)
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
