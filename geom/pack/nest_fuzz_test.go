package pack

import (
	"math"
	"testing"

	"ribwright/geom"
)

// FuzzNest makes outlines of the bytes, good ones and bad ones, and nests them; whatever comes, the layout is right.
func FuzzNest(f *testing.F) {
	f.Add([]byte{0, 0, 0, 40, 0, 0, 40, 40, 0, 0, 40, 0}, 2.0, 3.0, byte(3))
	f.Add([]byte{0, 0, 0, 40, 0, 20, 40, 40, 0, 0, 40, 236, 20, 30, 1}, 0.0, 0.0, byte(9))
	f.Add([]byte{0, 0, 0, 10, 0, 0, 20, 0, 0, 20, 20, 0, 10, 20, 0, 0, 20, 0}, 1e-9, 0.0, byte(2))
	f.Add([]byte{5, 5, 100, 5, 50, 100}, 0.5, 1.0, byte(1))
	f.Add([]byte{0, 0, 0, 90, 0, 0, 90, 90, 0, 80, 10, 0, 70, 90, 0, 60, 10, 0, 50, 90, 0, 40, 10, 0}, 1.0, 0.0, byte(2))
	f.Add([]byte{}, -1.0, math.Inf(1), byte(0))
	f.Fuzz(func(t *testing.T, data []byte, gap, margin float64, count byte) {
		if len(data) > 90 || gap > 100 || margin > 100 {
			return
		}
		var o geom.Path
		for i := 0; i+2 < len(data); i += 3 {
			p := geom.Pt{X: float64(data[i]) / 2, Y: float64(data[i+1]) / 2}
			if i == 0 {
				o.Start = p
			} else {
				o.Segs = append(o.Segs, geom.Seg{End: p, Bulge: float64(int8(data[i+2])) / 64})
			}
		}
		o.Closed = true
		job := NestJob{Gap: gap, Margin: margin, Effort: 500,
			Parts:  []Part{{Outline: o, Count: int(count % 8), Angles: []float64{0, 1}}, {Outline: geom.Circle(geom.Pt{}, 9), Count: 2}},
			Sheets: []Sheet{{Outline: rect(130, 90), Count: 2}, {Outline: geom.Ring{{}, {X: 90}, {X: 40, Y: 60}}, Count: 1}}}
		l := Nest(job)
		if gap >= 0 && margin >= 0 {
			checkLayout(t, "fuzz", job, l)
		} else if len(l.Placed) > 0 {
			t.Errorf("gap %g, margin %g: %d placed", gap, margin, len(l.Placed))
		}
	})
}
