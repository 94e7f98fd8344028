// Package geom is the plane geometry that the rest of the program stands on: points, boxes, paths of
// lines and arcs, regions, areas, half-plane clipping, discs in polygons, parallel curves and transforms.
//
// Lengths are millimetres, angles radians, areas mm². Axes: x to the right (on a rib: aft), y up.
// Outer contours run counter-clockwise, holes clockwise:
//
//	y
//	|   3-------2       Ring{0, 1, 2, 3}: area positive, inside to the left of every edge
//	|   |       |       Seg.Bulge = tan(sweep/4): 1 is a half turn counter-clockwise, 0 a line
//	|   0-------1       Parallel(…, d): d > 0 to the left, inward; d < 0 to the right, outward
//	+--------------- x
//
// The zero value of every type is empty: it has no area, no length, no points, and adds nothing to what
// it is joined with. (Transform is the exception: its neutral value is Identity.) All types are values.
// No function changes a slice it was handed, and none returns one: results are the caller's own.
//
// No function here fails. What does not exist comes back empty: no pieces, no rings, no curve. Rings must
// be simple, that is, not cross themselves; areas of others are the signed sums of their loops.
//
// Three tolerances serve the whole program: Coincident, Flat and Step. Products that feed a sum are written
// float64(a*b), so that every processor gives the same digits; a test reads the compiler's listing for it.
//
// The package does no general booleans of regions, no splines (geom/curve), no units but millimetres, no
// files; and it knows no ribs.
package geom
