package geom

import "math"

// Ring is a closed polygon, its last point joined to its first, which is not repeated.
// Outer rings run counter-clockwise, holes clockwise. The zero value is empty.
type Ring []Pt

// Seg is one step of a path: a line or an arc to End. Bulge is tan(sweep/4), positive for an arc
// that runs counter-clockwise, 0 for a line.
type Seg struct {
	End   Pt
	Bulge float64
}

// Path is a chain of lines and arcs. A closed path returns to Start by a straight line unless its
// last segment ends there. The zero value is empty.
type Path struct {
	Start  Pt
	Segs   []Seg
	Closed bool
}

// Region is an area: an outer contour, counter-clockwise, and holes, clockwise. The zero value is empty.
type Region struct {
	Outer Path
	Holes []Path
}

// Line returns the open path from a to b.
func Line(a, b Pt) Path { return Path{Start: a, Segs: []Seg{{End: b}}} }

// Polyline returns the open path through the points.
func Polyline(pts ...Pt) Path {
	if len(pts) == 0 {
		return Path{}
	}
	p := Path{Start: pts[0], Segs: make([]Seg, 0, len(pts))}
	for _, q := range pts[1:] {
		p.Segs = append(p.Segs, Seg{End: q})
	}
	return p
}

// Path returns the ring as a closed path of lines.
func (r Ring) Path() Path {
	p := Polyline(r...)
	p.Closed = len(r) > 0
	return p
}

// Rect returns the closed path of an upright rectangle, counter-clockwise from its lower left corner.
func Rect(b Box) Path {
	return Ring{b.Min, {b.Max.X, b.Min.Y}, b.Max, {b.Min.X, b.Max.Y}}.Path()
}

// Circle returns a full circle as two half-turn arcs, counter-clockwise from its rightmost point.
func Circle(c Pt, r float64) Path {
	a, b := Pt{float64(c.X) + float64(r), c.Y}, Pt{float64(c.X) - float64(r), c.Y} // guarded like Pt.Add
	return Path{Start: a, Segs: []Seg{{b, 1}, {a, 1}}, Closed: true}
}

// IsCircle reports whether the path is a full circle as Circle makes it, with its centre and radius.
func (p Path) IsCircle() (c Pt, r float64, ok bool) {
	if !p.Closed || len(p.Segs) != 2 || math.Abs(p.Segs[0].Bulge) != 1 || p.Segs[0].Bulge != p.Segs[1].Bulge || p.Segs[1].End != p.Start {
		return Pt{}, 0, false
	}
	return p.Start.Lerp(p.Segs[0].End, 0.5), p.Start.Dist(p.Segs[0].End) / 2, true
}

// Arc returns centre, radius, start angle and sweep (radians, positive counter-clockwise) of the arc
// from a to b with the bulge given, which must not be 0. With the half chord s and the quarter angle's tangent k
// the rise is s·k, the radius s·(1 + k²)/(2k), and the centre lies s·(1 − k²)/(2k) to the left of the chord.
func Arc(a, b Pt, bulge float64) (c Pt, r, start, sweep float64) {
	chord := b.Sub(a)
	sweep = 4 * math.Atan(bulge)
	h := (1/bulge - bulge) / 4 // centre's distance from the chord, in chords, to the left
	c = a.Lerp(b, 0.5).Along(chord.Left(), h)
	return c, chord.Len() * math.Abs(1/bulge+bulge) / 4, a.Sub(c).Angle(), sweep
}
