package export

import (
	"math"

	"ribwright/geom"
)

// What the writers of pages and cut files share: paths without doubled points.

// Snap returns the path as it is written with so many decimal places: its points rounded, steps of no
// length left out. A closed path's last step ends elsewhere than at Start unless it is an arc: the
// closing line is the writer's to draw. A path of which nothing is left has no Segs.
func Snap(p geom.Path, places int) geom.Path {
	return SnapIn(make([]geom.Seg, 0, len(p.Segs)), p, places)
}

// SnapIn is Snap with its Segs in the memory of those handed in, as far as that goes.
func SnapIn(segs []geom.Seg, p geom.Path, places int) geom.Path {
	unit := math.Pow10(places)
	round := func(q geom.Pt) geom.Pt {
		return geom.Pt{X: math.Round(q.X*unit) / unit, Y: math.Round(q.Y*unit) / unit}
	}
	out := geom.Path{Start: round(p.Start), Segs: segs[:0], Closed: p.Closed}
	at := out.Start
	for _, s := range p.Segs {
		end := round(s.End)
		if end == at {
			continue
		}
		b := s.Bulge
		if math.Abs(b)*at.Dist(end)/2 < geom.Coincident { // the arc's rise over its chord
			b = 0
		}
		out.Segs = append(out.Segs, geom.Seg{End: end, Bulge: b})
		at = end
	}
	if n := len(out.Segs); p.Closed && n > 1 && at == out.Start && out.Segs[n-1].Bulge == 0 {
		out.Segs = out.Segs[:n-1]
	}
	return out
}

// Vanishes reports whether Snap leaves nothing of the path: all its points are written as one.
func Vanishes(p geom.Path, places int) bool {
	unit := math.Pow10(places)
	x, y := math.Round(p.Start.X*unit), math.Round(p.Start.Y*unit)
	for _, s := range p.Segs {
		if math.Round(s.End.X*unit) != x || math.Round(s.End.Y*unit) != y {
			return false
		}
	}
	return true
}

// SplitArc returns the step from a as steps of equal sweep, none above the sweep given (radians): the
// step itself where it is a line or short enough.
func SplitArc(a geom.Pt, s geom.Seg, most float64) []geom.Seg {
	sweep := 4 * math.Atan(s.Bulge)
	n := int(math.Ceil(math.Abs(sweep)/most - 1e-9))
	if n <= 1 {
		return []geom.Seg{s}
	}
	c, r, start, _ := geom.Arc(a, s.End, s.Bulge)
	bulge := math.Tan(sweep / float64(4*n))
	out := make([]geom.Seg, n)
	for i := range out {
		out[i] = geom.Seg{End: c.Along(geom.Polar(start+float64(sweep*(float64(i+1)/float64(n)))), r), Bulge: bulge}
	}
	out[n-1].End = s.End
	return out
}

// Bounds returns the box of a path with its arcs.
func Bounds(p geom.Path) geom.Box { return Extend(geom.Box{}, p) }

// Extend returns the box of b and a path with its arcs.
func Extend(b geom.Box, p geom.Path) geom.Box {
	if len(p.Segs) == 0 {
		return b
	}
	b = b.Add(p.Start)
	at := p.Start
	for _, s := range p.Segs {
		b = b.Add(s.End)
		if s.Bulge != 0 && at != s.End {
			// An arc goes nowhere farther from its chord than its rise.
			rise := math.Abs(s.Bulge) * at.Dist(s.End) / 2
			if near := geom.NewBox(at, s.End).Grow(rise); !b.Holds(near.Min) || !b.Holds(near.Max) {
				b = arcBounds(b, at, s)
			}
		}
		at = s.End
	}
	return b
}

// arcBounds grows b by those of the circle's four outermost points that lie on the arc.
func arcBounds(b geom.Box, a geom.Pt, s geom.Seg) geom.Box {
	c, r, start, sweep := geom.Arc(a, s.End, s.Bulge)
	for i, q := range [4]geom.Pt{{X: r}, {Y: r}, {X: -r}, {Y: -r}} {
		turn := math.Remainder(float64(float64(i)*math.Pi/2)-start, 2*math.Pi)
		if turn*sweep < 0 {
			turn += math.Copysign(2*math.Pi, sweep)
		}
		if math.Abs(turn) <= math.Abs(sweep) {
			b = b.Add(c.Add(q))
		}
	}
	return b
}
