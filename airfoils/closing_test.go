package airfoils

import (
	"os"
	"testing"

	"ribwright/geom"
)

// TestClosedTail holds that the sides of a fine table whose tail closes below its last decimal do not cross.
func TestClosedTail(t *testing.T) {
	for _, name := range []string{"good-tail-met-early.txt", "good-continuous-tail-met-early.txt"} {
		data, err := os.ReadFile(corpus + "/" + name)
		if err != nil {
			t.Fatal(err)
		}
		s, _ := Read(name, data)
		upper, lower := s.Contour(1400, geom.Flat)
		for _, side := range [][]geom.Pt{upper, lower} {
			for _, p := range side[1 : len(side)-1] {
				if p.X < 700 {
					continue
				}
				up, ok1 := onLine(upper, p.X)
				low, ok2 := onLine(lower, p.X)
				if !ok1 || !ok2 || up-low < -1e-9 {
					t.Errorf("%s: at station %.2f the upper side stands at %.4f, the lower one at %.4f", name, p.X, up, low)
				}
			}
		}
	}
}

// onLine returns the ordinate of a line whose stations rise.
func onLine(line []geom.Pt, x float64) (float64, bool) {
	for i := len(line) - 1; i > 0; i-- {
		if a, b := line[i-1], line[i]; a.X <= x && x <= b.X && b.X > a.X {
			return a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X), true
		}
	}
	return 0, false
}
