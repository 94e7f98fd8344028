// Package airfoils holds wing sections: NACA equations, readers of tables of ordinates, and the contour
// that is drawn through a table's points.
//
// A Section is for chord 1: x is the station, 0 at the leading edge and 1 at the trailing edge, y up.
// Contours are millimetres. A table keeps its own datum: a Clark Y measured from its flat lower side has
// its leading edge at y = 0.035. The package takes nothing off for skin and cuts nothing at the tail: that
// is the rib's business. Mistakes in a table are findings, all of them in one run; a section with an
// error among its findings has no points.
package airfoils

import (
	"math"

	"ribwright/geom"
)

// Section is a wing section for chord 1.
type Section struct {
	Name   string // "NACA 4412", or the table's title line
	Form   string // what the reader took the table for, in words; empty for equations
	Source string // publication
	// Chord is the chord of a table in lengths, in the table's own unit; 0 for tables in shares or percent.
	Chord float64
	// Upper and Lower are the table's points, nose to tail, in shares of the chord; both start at the
	// leading edge. For an equation they are its values at the customary stations.
	Upper, Lower []geom.Pt
	// Datum says in words what a table's ordinates are measured from; empty for equations.
	Datum string
	// NoseRadius is the leading-edge radius that a table's text gives, in shares of the chord; 0 where it
	// gives none. NoseSlope is then the slope, against the chord, of the radius drawn through the leading
	// edge, on which the circle's centre lies; 0 where the text gives none. The contour has that radius, where
	// the points leave room for it: see WithNose.
	NoseRadius, NoseSlope float64

	inUnit float64 // the chord in the builder's unit, of lengths that came as percent; 0: they came as they are

	eq    equation // thickness 0: the section is its table, or a blend
	mix   *mix     // of a blend
	wedge wedge    // that opens the tail of an equation or a blend
}

// customary are the stations at which sections are printed, in percent of the chord.
var customary = [...]float64{0, 1.25, 2.5, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 95, 100}

// sameStation is the difference below which two stations are one, in shares of the chord.
const sameStation = 1e-9

// Stations returns the table's stations in shares of the chord. Equations, and tables whose upper and
// lower points stand at different stations, have the customary ones: 0, 1.25, 2.5, 5 … 95, 100 %.
func (s Section) Stations() []float64 {
	if len(s.Upper) == 0 {
		return nil
	}
	if s.eq.t == 0 && len(s.Upper) == len(s.Lower) {
		out := make([]float64, 0, len(s.Upper))
		for i, p := range s.Upper {
			if math.Abs(p.X-s.Lower[i].X) > sameStation || i > 0 && p.X <= out[i-1] {
				break
			}
			out = append(out, p.X)
		}
		if len(out) == len(s.Upper) {
			return out
		}
	}
	out := make([]float64, len(customary))
	for i, c := range customary {
		out[i] = c / 100
	}
	return out
}

// beyond is how far a side that ends short of the last station is drawn on in a straight line, in shares
// of the chord: the open tail of an equation stands square to its mean line, not to the chord.
const beyond = 0.01

// At returns the ordinates of the contour at station x, both in shares of the chord. It is not ok ahead
// of the leading edge, aft of the trailing edge, and for a section without points. At station 0 it
// returns the leading edge.
func (s Section) At(x float64) (upper, lower float64, ok bool) {
	u, l, ok := s.sides(1)
	if !ok || !(x >= 0) {
		return 0, 0, false
	}
	if x == 0 && s.mix != nil && u.blunt == nil { // its curve begins at the foremost point
		p := u.nose()
		return p.Y, p.Y, true
	}
	upper, upOK := u.at(x)
	lower, loOK := l.at(x)
	if !upOK || !loOK {
		return 0, 0, false
	}
	return upper, lower, true
}

// at returns the ordinate of one side at station x.
func (d side) at(x float64) (float64, bool) {
	last := len(d.breaks) - 1
	if first := d.curve(d.breaks[0]); x <= first.X {
		return first.Y, x >= first.X-sameStation
	}
	b := d.breaks[last]
	if end := d.curve(b); x > end.X {
		near := d.curve(b - float64(1e-6*(b-d.breaks[last-1])))
		slope := (end.Y - near.Y) / (end.X - near.X)
		return end.Y + float64(slope*(x-end.X)), x <= end.X+beyond && !math.IsNaN(slope) && !math.IsInf(slope, 0)
	}
	// From the tail forward: where the nose hangs over, the last crossing is the one that a builder measures.
	i := last
	for i > 1 && d.curve(d.breaks[i-1]).X > x {
		i--
	}
	lo, hi := d.breaks[i-1], d.breaks[i]
	for range 60 {
		mid := (lo + hi) / 2
		if mid == lo || mid == hi {
			break
		}
		if d.curve(mid).X > x {
			hi = mid
		} else {
			lo = mid
		}
	}
	a, c := d.curve(lo), d.curve(hi)
	if c.X == a.X {
		return c.Y, true
	}
	return a.Y + float64((c.Y-a.Y)*((x-a.X)/(c.X-a.X))), true
}
