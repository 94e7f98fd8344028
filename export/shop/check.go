package shop

import (
	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/ribfile"
)

// check is the square that a drawing has to measure.
type check struct {
	id, size string  // size as lettered: "100 mm"
	side     float64 // mm
}

// checkIn returns the square for the rule in the builder's hand: of 4 in where the file is in inches, else of 100 mm.
func checkIn(u ribfile.Units) check {
	if u == ribfile.Inch {
		return check{"check-4in", "4 in", 4 * ribfile.MMPerInch}
	}
	return check{"check-100mm", "100 mm", 100}
}

// draw draws the square with its lower left corner at a point.
func (k check) draw(c *canvas, at geom.Pt) { checkSquare(c, k.id, k.size, at, k.side) }

// checkSquare draws a square of known size and what it is for.
func checkSquare(c *canvas, id, size string, at geom.Pt, side float64) {
	c.part(layerCheck, id, geom.Rect(geom.NewBox(at, at.Add(geom.Pt{X: side, Y: side}))))
	m := at.Add(geom.Pt{X: side / 2, Y: side / 2})
	head, rest := float64(large), medium
	if side < 80 {
		head, rest = medium, small
	}
	c.write(layerCheck, size+" × "+size, m.Add(geom.Pt{Y: 1}), head, export.Center, true)
	c.write(layerCheck, "measure before cutting", m.Add(geom.Pt{Y: -rest - 2}), rest, export.Center, false)
	directions(c, geom.NewBox(at, at.Add(geom.Pt{X: side, Y: side})))
}
