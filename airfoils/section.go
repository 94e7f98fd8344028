// Package airfoils holds wing sections: NACA equations, readers of tables of ordinates, and the contour
// that is drawn through a table's points.
//
// A Section is for chord 1: x is the station, 0 at the leading edge and 1 at the trailing edge, y up.
// Contours are millimetres. The package takes nothing off for skin and cuts nothing at the tail: that is
// the rib's business.
package airfoils

import "ribwright/geom"

// Section is a wing section for chord 1.
type Section struct {
	Name   string // "NACA 4412", or the table's title line
	Form   string // what the reader took the table for, in words; empty for equations
	Source string // publication
	// Upper and Lower are the table's points, nose to tail, in shares of the chord; both start at the
	// leading edge. For an equation they are its values at the customary stations.
	Upper, Lower []geom.Pt
}
