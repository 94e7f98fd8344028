package shop

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/rib"
)

// Dimensions after ISO 129-1: extension lines, filled arrowheads, figures above the line, read from below or
// from the right. Stations run from one origin along a single line above the rib (running dimensioning); depths
// stand at the spars.

// Sizes of dimensions, mm.
const (
	arrowLong   = 3.0
	arrowHalf   = 0.5 // half an arrowhead's width
	originRing  = 1.5 // radius of the circle at the origin of running dimensions
	overLine    = 2.0 // between a dimension line and its figure
	figurePitch = medium + 2
	tailLong    = 8.0 // of a dimension line beyond an arrowhead that points inward
)

// measure is a station that is dimensioned from the leading edge.
type measure struct {
	x, y   float64 // where its extension line begins
	figure string
	side   float64 // of the extension line on which the figure stands: −1 before it, 1 behind it; 0: turned, in line with it
	column float64 // x of a turned figure
}

// origin is where the dimensions above the rib begin: at the leading edge, or at the upper corner of the cut where a rib is cut
// off ahead.
func (f *field) origin() float64 {
	if f.r.Contour.CutAhead() {
		return f.r.Contour.Upper[0].X
	}
	return 0
}

// measures collects the stations that are dimensioned, and keeps their way up free.
func (f *field) measures() {
	if len(f.r.Contour.Upper) == 0 {
		return
	}
	var xs []float64
	for _, b := range f.r.Blocks {
		box := b.Outline.Box()
		if b.ID == rib.BlockNose {
			xs = append(xs, box.Max.X)
		} else {
			xs = append(xs, box.Min.X)
		}
	}
	for _, s := range f.r.Spars {
		if len(s.Opening) > 0 { // where its faces meet the upper contour, over which the figures stand
			for _, h := range []geom.Half{s.Ahead(), s.Behind().Flip()} {
				if p, ok := on(f.r.Contour.Upper, h); ok {
					xs = append(xs, p.X)
				}
			}
		}
	}
	xs = append(xs, f.rib.Max.X)
	slices.Sort(xs)
	for _, x := range slices.CompactFunc(xs, func(a, b float64) bool { return math.Abs(b-a) < geom.Step }) {
		y, ok := ordinate(f.r.Contour.Upper, x)
		if !ok || x-f.origin() < geom.Step {
			continue
		}
		f.stretch = append(f.stretch, measure{x: x, y: y + offLine, figure: f.doc.Ruler(x - f.origin())})
		f.places.lines.addLine(geom.Pt{X: x, Y: y + offLine}, geom.Pt{X: x, Y: f.rib.Max.Y + 30}, false)
	}
}

// running draws the line of running dimensions above everything else. It stands on the roll alone: on pages it would
// cost sheets of paper.
func (f *field) running() {
	if len(f.stretch) == 0 {
		return
	}
	end := &f.stretch[len(f.stretch)-1]
	y := f.box().Max.Y + 3
	zero := f.origin()
	if math.Abs(end.x-zero-f.r.Chord) < 0.05 && len(f.stretch) > 1 && end.x-f.stretch[len(f.stretch)-2].x > 40 {
		end.figure = "chord " + end.figure
	}
	tall := overLine + medium // of the figures that stand above the line
	f.placeFigures()
	f.ruled(layerMeasure, geom.Line(geom.Pt{X: zero + originRing, Y: y}, geom.Pt{X: end.x, Y: y}))
	f.ruled(layerMeasure, geom.Circle(geom.Pt{X: zero, Y: y}, originRing))
	if nose, ok := ordinate(f.r.Contour.Upper, zero); ok {
		f.fine = append(f.fine, fineLine{layerMeasure, geom.Pt{X: zero, Y: math.Max(nose, 5) + offLine}, geom.Pt{X: zero, Y: y - originRing}})
	}
	from := zero + originRing
	for _, m := range f.stretch {
		f.arrow(geom.Pt{X: m.x, Y: y}, geom.Pt{X: 1}, math.Min(arrowLong, float64(0.8*(m.x-from))))
		from = m.x
		f.fine = append(f.fine, fineLine{layerMeasure, geom.Pt{X: m.x, Y: m.y}, geom.Pt{X: m.x, Y: y}})
		if m.side != 0 {
			f.ruled(layerMeasure, geom.Line(geom.Pt{X: m.x, Y: y}, geom.Pt{X: m.x, Y: y + overLine}))
			anchor := export.Left
			if m.side < 0 {
				anchor = export.Right
			}
			f.figure(export.Text{S: m.figure, At: geom.Pt{X: m.x + float64(m.side*overLine), Y: y + overLine}, Height: medium, Anchor: anchor})
			continue
		}
		foot := geom.Pt{X: m.column, Y: y + tall + kink}
		f.ruled(layerMeasure, geom.Polyline(geom.Pt{X: m.x, Y: y}, geom.Pt{X: m.x, Y: y + tall + 1}, foot))
		f.figure(export.Text{S: m.figure, At: foot.Add(geom.Pt{X: medium / 2, Y: overLine}), Height: medium, Angle: math.Pi / 2})
	}
	f.fineLines()
}

// placeFigures finds room for the figures: above the line before their own extension line, or behind it, or
// else turned, in line with the extension line, those beside each other.
func (f *field) placeFigures() {
	var turned []int
	var xs []float64
	taken := f.origin() + originRing // above the line, from the left
	for k := range f.stretch {
		m := &f.stretch[k]
		w := textWidth(m.figure, medium, false) + float64(2*overLine)
		next := math.Inf(1)
		if k+1 < len(f.stretch) {
			n := f.stretch[k+1]
			next = n.x - textWidth(n.figure, medium, false) - float64(2*overLine)
		}
		switch {
		case m.x-w >= taken:
			m.side, taken = -1, m.x
		case m.x+w <= next:
			m.side, taken = 1, m.x+w
		default:
			turned, xs, taken = append(turned, k), append(xs, m.x), m.x
		}
	}
	for i, x := range spread(xs, figurePitch) {
		f.stretch[turned[i]].column = x
	}
}

// figure letters a figure at its place, which is free.
func (f *field) figure(t export.Text) { f.draw(layerMeasure, f.places.taken(t)) }

// ruled draws a narrow line that is not interrupted.
func (f *field) ruled(layer string, p geom.Path) {
	f.path(layer, p)
	f.places.lines.add(p, true)
}

// arrow draws a filled arrowhead with its tip at a point.
func (f *field) arrow(tip, dir geom.Pt, long float64) {
	back, side := tip.Along(dir, -long), dir.Left().Mul(float64(arrowHalf*long)/arrowLong)
	head := geom.Ring{tip, back.Add(side), back.Sub(side)}.Path()
	f.fill(layerMeasure, head)
	f.places.lines.add(head, true)
}

// depths dimensions the rib at every spar's centre, along the spar: between the caps by arrowheads inside the
// opening, over the contour by arrowheads from outside. What finds no room for its figure is in the table of spars alone.
func (f *field) depths() {
	for _, s := range f.r.Spars {
		lo, hi, ok := crossing(s.Opening, s)
		if !ok {
			continue
		}
		up, at := s.Up(), centreLine(s)
		if hi-lo > 4*arrowLong {
			if _, ok := f.beside(f.doc.Ruler(hi-lo), s, lo+float64((hi-lo)/4), lo, hi, s.Opening); ok {
				f.thin(layerMeasure, at(lo), at(hi))
				f.arrow(at(hi), up, arrowLong)
				f.arrow(at(lo), up.Mul(-1), arrowLong)
			}
		}
		f.depthOver(s, at)
	}
}

// centreLine returns the points of a spar's centre line by their height along it, from the foot of the perpendicular
// from the origin; of an upright one that is the chord line.
func centreLine(s rib.Spar) func(height float64) geom.Pt {
	mid := s.Plane(s.At)
	foot := mid.N.Mul(mid.D)
	return func(height float64) geom.Pt { return foot.Along(s.Up(), height) }
}

// on returns the point where a side crosses the edge of a half-plane.
func on(side []geom.Pt, h geom.Half) (geom.Pt, bool) {
	if h.N.Y == 0 {
		x := h.D / h.N.X
		y, ok := ordinate(side, x)
		return geom.Pt{X: x, Y: y}, ok
	}
	for i := len(side) - 1; i > 0; i-- {
		if u, v := h.Off(side[i-1]), h.Off(side[i]); (u < 0) != (v < 0) {
			return side[i-1].Lerp(side[i], u/(u-v)), true
		}
	}
	return geom.Pt{}, false
}

// over returns the heights along a spar's centre line at which it meets the contour.
func over(c rib.Contour, s rib.Spar) (low, top float64, ok bool) {
	u, ok := on(c.Upper, s.Plane(s.At))
	l, ok2 := on(c.Lower, s.Plane(s.At))
	return l.Dot(s.Up()), u.Dot(s.Up()), ok && ok2
}

// depthOver dimensions the depth over the contour, with its figure above the rib or below.
func (f *field) depthOver(s rib.Spar, at func(y float64) geom.Pt) {
	low, top, ok := over(f.r.Contour, s)
	if !ok {
		return
	}
	up, figure := s.Up(), f.doc.Ruler(top-low)
	long := textWidth(figure, medium, false)
	ends := [2]float64{top + tailLong, low - tailLong}
	first := top + arrowLong + float64(long/2) + clearance
	mid, ok := f.beside(figure, s, first, top, first+long+15, nil)
	if ok {
		ends[0] = mid + float64(long/2)
	} else {
		first = low - arrowLong - float64(long/2) - clearance
		if mid, ok = f.beside(figure, s, first, first-long-15, low, nil); !ok {
			return
		}
		ends[1] = mid - float64(long/2)
	}
	f.thin(layerMeasure, at(top), at(ends[0]))
	f.thin(layerMeasure, at(low), at(ends[1]))
	f.arrow(at(top), up.Mul(-1), arrowLong)
	f.arrow(at(low), up, arrowLong)
}

// crossing returns the heights between which a spar's centre line runs inside a ring.
func crossing(ring geom.Ring, s rib.Spar) (lo, hi float64, ok bool) {
	lo, hi = math.Inf(1), math.Inf(-1)
	mid, up := s.Plane(s.At), s.Up()
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		u, v := mid.Off(a), mid.Off(b)
		if u*v < 0 {
			y := a.Lerp(b, u/(u-v)).Dot(up)
			lo, hi = math.Min(lo, y), math.Max(hi, y)
		} else if u == 0 {
			lo, hi = math.Min(lo, a.Dot(up)), math.Max(hi, a.Dot(up))
		}
	}
	return lo, hi, lo < hi
}

// beside letters a figure beside a spar's centre line, to be read from the right, clear of the arrowheads
// at two heights, as near to another height as can be, and inside a ring where there is one. It returns the figure's height.
func (f *field) beside(figure string, s rib.Spar, y, lo, hi float64, ring geom.Ring) (float64, bool) {
	const step = 1.5
	half := float64(textWidth(figure, medium, false)/2) + arrowLong + 0.5
	place, angle := centreLine(s), math.Pi/2-s.Tilt
	c, ok := f.places.place(func(yield func(candidate) bool) {
		for k := range int(2*(hi-lo)/step) + 1 {
			at := y + float64(step*turn(k))
			if at-half < lo || at+half > hi {
				continue
			}
			for _, side := range [2]float64{-1, 1} {
				off := float64(side * (medium/2 + clearance + 0.1))
				c := candidate{texts: []export.Text{centred(figure, place(at).Along(s.Square(), off), medium, angle, false)}, cost: math.Abs(at-y) + off}
				if (ring == nil || c.in(ring)) && !yield(c) {
					return
				}
			}
		}
	})
	if !ok {
		return 0, false
	}
	f.draw(layerMeasure, c)
	return c.texts[0].At.Dot(s.Up()), true
}

// endAngles letters the saw's angles inside each stick near its ends, as the cut list gives them. Where a stick
// is too thin, or plates and other sticks lie over it, the table of sticks has them alone.
func (f *field) endAngles() {
	const step, gap = 1.5, 2.0
	for _, s := range f.r.Sticks {
		if len(s.Outline) == 0 {
			continue
		}
		for k, e := range s.Ends {
			words := angles(e)
			if len(e.Cuts) == 0 {
				continue
			}
			from, to := s.Axis[k], s.Axis[1-k]
			dir := to.Sub(from)
			w, reach, along, angle := textWidth(words, small, false), dir.Len(), dir.Unit(), readable(dir.Angle())
			if textQuad(export.Text{S: words, Height: small}, 0).h > f.r.StickDepth {
				continue
			}
			c, ok := f.places.place(func(yield func(candidate) bool) {
				for d := gap + float64(w/2); d < float64(0.45*reach); d += step {
					t := centred(words, from.Along(along, d), small, angle, false)
					if !yield(candidate{texts: []export.Text{t}, tight: true, cost: d}) {
						return
					}
				}
			})
			if ok {
				f.draw(layerMeasure, c)
			}
		}
	}
}

// angles writes the cuts of an end as the saw is set, from the stick's right edge to its left edge.
func angles(e rib.End) string {
	var out []string
	for _, c := range e.Cuts {
		out = append(out, degrees(c.Angle))
	}
	return cmp.Or(strings.Join(out, " "), "–")
}
