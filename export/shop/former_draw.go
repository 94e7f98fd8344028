package shop

import (
	"math"
	"slices"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/bend"
	"ribwright/geom/ribfile"
)

// Sizes of what is drawn on a form, mm.
const (
	clampHole  = 22.0 // diameter: the foot of a small clamp passes
	clampEdge  = 20.0 // from the edge to the hole's centre
	clampEvery = 55.0 // along the edge, at the least
	tickBeyond = 2.5  // of a station's line, beyond the strip
	tickClear  = 6.0  // between a station's line and another mark
)

// draw draws the board to saw, the strip on it, the rib's stations along the bend, and the holes for clamps.
func (f form) draw(doc *ribfile.Doc, b bend.Bend) block {
	c := &canvas{}
	board := f.board()
	c.part(layerCut, "form-"+f.strip.ID, board.Path())
	face := f.face()
	aft, nose := f.ends()
	c.part(layerCap, "strip-"+f.strip.ID, geom.Polyline(face...))
	c.line(layerCap, aft, face[0])
	c.line(layerCap, nose, face[len(face)-1])
	f.clamps(c, board)
	f.ticks(c, doc, f.limits(c, doc, b))

	box := board.Box()
	u := doc.Units
	lines := []string{f.strip.ID + ": bend the strip over the curved edge, this side towards you",
		"strip " + doc.Length(f.strip.Depth) + " deep, stations in " + map[ribfile.Units]string{ribfile.MM: "millimetres", ribfile.Inch: "inches"}[u] + " from the leading edge"}
	for i, s := range lines {
		c.write(layerName, s, geom.Pt{X: box.Centre().X, Y: box.Min.Y + 3 + float64(noteStep*float64(len(lines)-1-i))}, small, export.Center, i == 0)
	}
	return newBlock(c)
}

// at returns the place and the outward normal of a station on the edge.
func (f form) at(station float64) (p, normal geom.Pt, ok bool) {
	for i := len(f.stations) - 1; i > 0; i-- { // from the nose: a station that comes twice is the one nearer to it
		a, b := f.stations[i], f.stations[i-1]
		if a <= station && station <= b && a < b {
			t := (station - a) / (b - a)
			return f.edge[i].Lerp(f.edge[i-1], t), f.normal[i].Lerp(f.normal[i-1], t).Unit(), true
		}
	}
	return geom.Pt{}, geom.Pt{}, false
}

// ticks draws the rib's stations across the strip, every 25 mm or every inch, and where it begins. One that would
// stand on another mark is left out.
func (f form) ticks(c *canvas, doc *ribfile.Doc, taken []mark) {
	every, n := 25.0, len(f.edge)-1
	if doc.Units == ribfile.Inch {
		every = ribfile.MMPerInch
	}
	tick := func(p, u geom.Pt, s string) {
		end := p.Along(u, f.strip.Depth+tickBeyond)
		half := textWidth(s, small, false) / 2
		away := float64(math.Abs(u.X)*half) + float64(math.Abs(u.Y)*small/2) + 1 // so far the lettering reaches back to the line
		m := mark{p, centred(s, end.Along(u, away), small, 0, false)}
		if slices.ContainsFunc(taken, m.meets) {
			return
		}
		taken = append(taken, m)
		c.line(layerStation, p, end)
		c.text(layerName, m.text)
	}
	tick(f.edge[n], f.normal[n], doc.Number(math.Max(0, f.stations[n])))
	for k := 1; float64(every*float64(k)) < f.stations[0]; k++ {
		if p, u, ok := f.at(float64(every * float64(k))); ok {
			tick(p, u, doc.Number(float64(every*float64(k))))
		}
	}
}

// mark is a place on the edge with what is written there.
type mark struct {
	at   geom.Pt
	text export.Text
}

// meets reports whether two marks stand too near to each other.
func (m mark) meets(o mark) bool {
	return m.at.Dist(o.at) < tickClear || textQuad(m.text, 0.5).meets(textQuad(o.text, 0.5))
}

// limits marks where the strip passes from one way of bending to the next, and returns the marks.
func (f form) limits(c *canvas, doc *ribfile.Doc, b bend.Bend) (marked []mark) {
	for i, l := range []struct {
		station float64
		word    string
	}{{b.SoakFrom, "soaked"}, {b.CareFrom, "dry with care"}, {b.DryFrom, "dry"}} {
		p, u, ok := f.at(l.station)
		if i == 2 && !ok && b.DryFrom <= f.stations[0]+1 {
			p, u, ok = f.edge[0], f.normal[0], true
		}
		if !ok || l.station <= f.stations[len(f.stations)-1]+1 {
			continue
		}
		anchor := export.Center
		switch {
		case u.X < -0.3:
			anchor = export.Right
		case u.X > 0.3:
			anchor = export.Left
		}
		end := p.Along(u, f.strip.Depth+tickBeyond+small+4)
		m := mark{at: p}
		for range 4 { // higher, where the neighbours' lettering stands
			m.text = export.Text{S: l.word + " behind " + doc.Decimal(l.station), At: end.Add(geom.Pt{Y: 1}), Height: small, Anchor: anchor}
			if !slices.ContainsFunc(marked, func(o mark) bool { return textQuad(m.text, 0.5).meets(textQuad(o.text, 0.5)) }) {
				break
			}
			end = end.Add(geom.Pt{Y: noteStep})
		}
		c.line(layerAxis, p, end)
		c.text(layerName, m.text)
		marked = append(marked, m)
	}
	return marked
}

// clamps draws the holes for clamps along the edge, each with its centre line square to the edge, where
// the board has room for them.
func (f form) clamps(c *canvas, board geom.Ring) {
	aft, nose := f.ends()
	line := append(append([]geom.Pt{aft}, f.edge...), nose)
	normal := append(append([]geom.Pt{f.normal[0]}, f.normal...), f.normal[len(f.normal)-1])
	next, arc := clampEdge, 0.0
	var done []geom.Pt
	for i := 1; i < len(line); i++ {
		d := line[i].Dist(line[i-1])
		for ; next <= arc+d; next += 1 {
			t := (next - arc) / d
			p, u := line[i-1].Lerp(line[i], t), normal[i-1].Lerp(normal[i], t).Unit()
			at := p.Along(u, -clampEdge)
			if !f.roomFor(at, board, done) {
				continue
			}
			done = append(done, at)
			c.part(layerCut, "clamp", geom.Circle(at, clampHole/2))
			c.line(layerAxis, at.Along(u, -clampHole/2-3), p.Along(u, f.strip.Depth+tickBeyond))
			c.line(layerAxis, at.Along(u.Left(), -clampHole/2-3), at.Along(u.Left(), clampHole/2+3))
			next += clampEvery
		}
		arc += d
	}
}

// roomFor reports whether a clamp's hole stands clear of the edge, of the board's other sides and of other holes.
func (f form) roomFor(at geom.Pt, board geom.Ring, done []geom.Pt) bool {
	for i, p := range board {
		q := board[(i+1)%len(board)]
		if distance(at, p, q) < clampHole/2+7 {
			return false
		}
	}
	for _, p := range f.edge {
		if at.Dist(p) < clampEdge-1 {
			return false
		}
	}
	for _, p := range done {
		if at.Dist(p) < clampHole+8 {
			return false
		}
	}
	return board.Holds(at)
}

// distance returns how far a point is from the segment ab.
func distance(p, a, b geom.Pt) float64 {
	d := b.Sub(a)
	if d.Dot(d) == 0 {
		return p.Dist(a)
	}
	t := math.Max(0, math.Min(1, p.Sub(a).Dot(d)/d.Dot(d)))
	return p.Dist(a.Along(d, t))
}
