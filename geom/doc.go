// Package geom is the plane geometry that the rest of the program stands on: points, boxes, paths of
// lines and arcs, regions, areas, half-plane clipping, parallel curves and transforms.
//
// Lengths are millimetres, angles radians, areas mm². Axes: x to the right (on a rib: aft), y up.
// Outer contours run counter-clockwise, holes clockwise. The zero value of every type is empty. All
// types are values, and no function changes a slice it was handed. The package knows no ribs.
package geom
