package geom_test

import (
	"fmt"

	"ribwright/geom"
)

// A round plate that overhangs the edge of a cap strip, and the glue area of one face.
func Example() {
	cap := geom.Ring{{X: 0, Y: 0}, {X: 200, Y: 0}, {X: 200, Y: 6.35}, {X: 0, Y: 6.35}}
	fmt.Printf("glue area %.2f mm²\n", geom.DiscRing(geom.Pt{X: 90, Y: 2}, 14, cap))
	for _, p := range geom.DiscClip(geom.Pt{X: 90, Y: 2}, 14, cap) {
		b := p.Box()
		fmt.Printf("outline of %d lines and arcs, %.2f by %.2f mm, %.2f mm² again\n", len(p.Segs), b.W(), b.H(), p.Area())
	}
	// Output:
	// glue area 175.62 mm²
	// outline of 4 lines and arcs, 28.00 by 6.35 mm, 175.62 mm² again
}

// The inner edge of a wedge-shaped tail: where both sides cross, they are trimmed.
func ExampleParallel() {
	tail := []geom.Pt{{X: 100, Y: 0}, {X: 0, Y: 20}, {X: 0, Y: -20}, {X: 100, Y: 0}}
	rings, _ := geom.Parallel(tail, false, 6)
	for _, p := range rings[0] {
		fmt.Printf("%.3f %.3f\n", p.X, p.Y)
	}
	// Output:
	// 69.406 0.000
	// 6.000 12.681
	// 6.000 -12.681
}

// A stick is cut on the line of the cap's inner edge. The tag tells afterwards which edge is the cut.
func ExampleShape_Cut() {
	stick := geom.Shape{Ring: geom.Ring{{X: 0, Y: 0}, {X: 6, Y: 0}, {X: 6, Y: 100}, {X: 0, Y: 100}}}
	edge := geom.LeftOf(geom.Pt{X: 10, Y: 92}, geom.Pt{X: 0, Y: 90})
	for _, p := range stick.Cut(edge, 7) {
		for i, q := range p.Ring {
			fmt.Printf("%.1f %.1f  tag %d\n", q.X, q.Y, p.Tags[i])
		}
	}
	// Output:
	// 0.0 90.0  tag 0
	// 0.0 0.0  tag 0
	// 6.0 0.0  tag 0
	// 6.0 91.2  tag 7
}

// A half-turn arc has the bulge 1, and keeps it when the path is turned; a mirror changes its sign.
func ExampleTransform_Path() {
	p := geom.Path{Segs: []geom.Seg{{End: geom.Pt{X: 4}, Bulge: 1}}}
	fmt.Println(geom.Turn(geom.Pt{}, 1).Path(p).Segs[0].Bulge, geom.Zoom(1, -1).Path(p).Segs[0].Bulge)
	fmt.Printf("%.4f\n", p.Length())
	// Output:
	// 1 -1
	// 6.2832
}

func ExamplePath_Flatten() {
	pts := geom.Circle(geom.Pt{}, 14.2875).Flatten(geom.Flat) // a plate 1 1/8 in across
	fmt.Println(len(pts), "chords")
	// Output:
	// 120 chords
}
