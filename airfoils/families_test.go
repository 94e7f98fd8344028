package airfoils

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
)

// zeroLift returns the angle of zero lift of a section's mean line, degrees, by thin-aerofoil theory (Glauert):
// −1/π ∫ dy/dx (cos θ − 1) dθ with x = (1 − cos θ)/2, in two parts that meet where the line's parts join.
func zeroLift(s Section) float64 {
	f := func(theta float64) float64 {
		_, slope, _ := s.MeanLine((1 - math.Cos(theta)) / 2)
		return slope * (math.Cos(theta) - 1)
	}
	joint := math.Acos(1 - 2*s.eq.line.place)
	sum := quad.Fixed(f, 0, joint, 60, quad.Legendre{}, 0) + quad.Fixed(f, joint, math.Pi, 60, quad.Legendre{}, 0)
	return -sum / math.Pi * 180 / math.Pi
}

// moment returns the mean line's moment coefficient about the quarter chord: π/4 (A2 − A1).
func moment(s Section) float64 {
	coefficient := func(n float64) float64 {
		f := func(theta float64) float64 {
			_, slope, _ := s.MeanLine((1 - math.Cos(theta)) / 2)
			return slope * math.Cos(n*theta)
		}
		joint := math.Acos(1 - 2*s.eq.line.place)
		return 2 / math.Pi * (quad.Fixed(f, 0, joint, 60, quad.Legendre{}, 0) + quad.Fixed(f, joint, math.Pi, 60, quad.Legendre{}, 0))
	}
	return math.Pi / 4 * (coefficient(2) - coefficient(1))
}

// The angles of zero lift were computed by another program from the published mean lines.
func TestZeroLiftAngle(t *testing.T) {
	for code, want := range map[string]float64{"0012": 0, "2412": -2.077, "4412": -4.154, "23012": -1.094} {
		if got := zeroLift(mustNACA(t, code)); math.Abs(got-want) > 0.001 {
			t.Errorf("NACA %s: zero lift at %.4f°, want %.3f°", code, got, want)
		}
	}
	// Camber and design lift go straight into the angle.
	if a, b := zeroLift(mustNACA(t, "23012")), zeroLift(mustNACA(t, "43012")); math.Abs(b-2*a) > 1e-9 {
		t.Errorf("NACA 43012: %.4f°, want twice %.4f°", b, a)
	}
	s, _ := NACAWith("2412", Options{CamberScale: 1.5})
	if a, b := zeroLift(mustNACA(t, "2412")), zeroLift(s); math.Abs(b-1.5*a) > 1e-9 {
		t.Errorf("2412 with its camber by 1.5: %.4f°, want 1.5 times %.4f°", b, a)
	}
}

// Five-digit mean lines: the design lift is 0.3 (Report 537), that is 2π times the ideal angle's lift, the
// camber stands at its twentieths of the chord, both parts join smoothly, and the line ends on the chord.
func TestFiveDigitMeanLines(t *testing.T) {
	for place := 1; place <= 5; place++ {
		for reflex := 0; reflex <= 1; reflex++ {
			if place == 1 && reflex == 1 {
				continue
			}
			s := mustNACA(t, fmt.Sprintf("2%d%d12", place, reflex))
			l := s.eq.line
			best, at := 0.0, 0.0
			for i := 0; i <= 10000; i++ {
				if y, _, _ := s.MeanLine(float64(i) / 10000); y > best {
					best, at = y, float64(i)/10000
				}
			}
			if want := float64(place) / 20; math.Abs(at-want) > 0.002 {
				t.Errorf("%s: greatest camber %.4f at %.4f, want at %v", s.Name, best, at, want)
			}
			y0, _, _ := l.at(0)
			y1, _, _ := l.at(1)
			ya, sa, _ := l.at(l.place - 1e-12)
			yb, sb, _ := l.at(l.place)
			if math.Abs(y0) > 1e-12 || math.Abs(y1) > 1e-12 || math.Abs(ya-yb) > 1e-9 || math.Abs(sa-sb) > 1e-9 {
				t.Errorf("%s: ends %v and %v, joint %v/%v slope %v/%v", s.Name, y0, y1, ya, yb, sa, sb)
			}
			if reflex == 0 {
				// Design lift at the ideal angle: cl = π(2A0 + A1) with A0 = 0, so π A1.
				f := func(theta float64) float64 {
					_, slope, _ := s.MeanLine((1 - math.Cos(theta)) / 2)
					return slope * math.Cos(theta)
				}
				joint := math.Acos(1 - 2*l.place)
				a1 := 2 / math.Pi * (quad.Fixed(f, 0, joint, 60, quad.Legendre{}, 0) + quad.Fixed(f, joint, math.Pi, 60, quad.Legendre{}, 0))
				if got := math.Pi * a1; math.Abs(got-0.3) > 0.01 {
					t.Errorf("%s: design lift %.4f, want 0.3", s.Name, got)
				}
				continue
			}
			// Reflexed: no moment about the quarter chord, and k2/k1 by its formula.
			m, p := l.place, float64(place)/20
			if want := (3*(m-p)*(m-p) - m*m*m) / math.Pow(1-m, 3); math.Abs(l.ratio-want) > 0.01*want {
				t.Errorf("%s: k2/k1 is %v, by the formula %v", s.Name, l.ratio, want)
			}
			if got := moment(s); math.Abs(got) > 0.0015 {
				t.Errorf("%s: moment coefficient %.4f, want 0", s.Name, got)
			}
		}
	}
}

// The modified sections keep Report 492's conditions: radius at the nose 1.1019 t² (I/6)², greatest ordinate
// t/2 at its place, both parts with one slope and one curvature there, a tail of 0.01 t.
func TestModifiedThickness(t *testing.T) {
	for index := 1; index <= 9; index++ {
		for tenths := 2; tenths <= 6; tenths++ {
			s := mustNACA(t, fmt.Sprintf("0012-%d%d", index, tenths))
			m, k := float64(tenths)/10, s.eq.shape
			y := func(x float64) float64 { return k.half(math.Sqrt(x), 0.12) }
			want := 1.1019 * 0.12 * 0.12 * float64(index*index) / 36
			if index == 9 {
				want = 3 * 1.1019 * 0.12 * 0.12
			}
			if got := y(1e-10) * y(1e-10) / 2e-10; math.Abs(got/want-1) > 0.003 {
				t.Errorf("%s: radius %.5f at the nose, want %.5f", s.Name, got, want)
			}
			const h = 1e-4
			fore := (y(m-h) - 2*y(m-2*h) + y(m-3*h)) / h / h
			aft := (y(m+3*h) - 2*y(m+2*h) + y(m+h)) / h / h
			if math.Abs(y(m)-0.06) > 1e-12 || math.Abs(y(m+h)-y(m-h))/2/h > 1e-4 || math.Abs(fore-aft) > 0.03 {
				t.Errorf("%s at its greatest thickness: ordinate %v, second derivatives %v and %v", s.Name, y(m), fore, aft)
			}
			for i := 0; i <= 1000; i++ {
				if v := y(float64(i) / 1000); v > 0.06*1.001 {
					t.Errorf("%s: half the thickness is %.5f at %v", s.Name, v, float64(i)/1000)
					break
				}
			}
			if math.Abs(y(1)-0.0012) > 1e-12 {
				t.Errorf("%s: the tail's half is %v, want 0.0012", s.Name, y(1))
			}
		}
	}
}

// The coefficients for index 6, as Abbott and von Doenhoff print them (Theory of Wing Sections; from memory).
func TestModifiedCoefficients(t *testing.T) {
	for tenths, want := range map[int][6]float64{ // a1, a2, a3, d1, d2, d3
		2: {0.213337, -2.931954, 5.229170, 0.200, -0.040625, -0.070312},
		3: {-0.096082, -0.543310, 0.559395, 0.234, -0.068571, -0.093878},
		4: {-0.246867, 0.175384, -0.266917, 0.315, -0.233333, -0.032407},
		5: {-0.310275, 0.341700, -0.321820, 0.465, -0.684000, 0.292000},
		6: {-0.271180, 0.140200, -0.082137, 0.700, -1.662500, 1.312500},
	} {
		k := modified(6, tenths, false)
		got := [6]float64{k.fore[1], k.fore[2], k.fore[3], k.aft[1], k.aft[2], k.aft[3]}
		for i := range got {
			if math.Abs(got[i]-want[i]) > 6e-5 {
				t.Errorf("place %d: got %.6f, printed %v", tenths, got, want)
				break
			}
		}
	}
}

func TestOptions(t *testing.T) {
	for _, code := range []string{"0012", "4412", "23012", "2412-34"} {
		s, found := NACAWith(code, Options{ClosedTail: true})
		if len(found) > 0 {
			t.Fatal(found)
		}
		u, l := s.Contour(1000, 0.01)
		if a, b := u[len(u)-1], l[len(l)-1]; a != b || a.Dist(b) != 0 || math.Abs(a.X-1000) > 1e-9 {
			t.Errorf("%s: the sides end at %v and %v", s.Name, a, b)
		}
		plain := mustNACA(t, code)
		thin, found := NACAWith(code, Options{Thickness: 0.13})
		if len(found) > 0 || thin.Name != plain.Name+", 13 % thick" || thin.eq.line != plain.eq.line {
			t.Errorf("%q: %v", thin.Name, found)
		}
	}
	s, found := NACAWith("4412", Options{Thickness: 0.15})
	if u, l, _ := s.At(0.3); len(found) > 0 {
		t.Fatal(found)
	} else if a, b, _ := mustNACA(t, "4415").At(0.3); a != u || b != l {
		t.Errorf("4412 with 15 %%: %v and %v, 4415: %v and %v", u, l, a, b)
	}
	for _, o := range []Options{{Thickness: 0.5}, {Thickness: -1}, {Thickness: math.NaN()}, {CamberScale: -1}, {CamberScale: 4}, {CamberScale: math.Inf(1)}} {
		if s, found := NACAWith("4412", o); len(found) != 1 || len(s.Upper) > 0 || found[0].Key == "section.naca" {
			t.Errorf("%+v: %v", o, found)
		}
	}
}

// A five-digit and a modified section of every number have sides that do not cross.
func TestAllFamilies(t *testing.T) {
	taken := 0
	for _, line := range []string{"00", "24", "64", "210", "220", "230", "240", "250", "221", "231", "241", "251", "430", "630"} {
		for _, th := range []string{"06", "12", "21"} {
			for _, suffix := range []string{"", "-34", "-63", "-95"} {
				s, found := NACA(line + th + suffix)
				if len(found) > 0 {
					t.Logf("%s%s%s: %s", line, th, suffix, found[0].Message)
					continue
				}
				taken++
				for k := 1; k <= 100; k++ {
					if u, l, ok := s.At(float64(k) / 100); !ok || !(u > l) {
						t.Fatalf("%s at %d %%: upper %v, lower %v, %v", s.Name, k, u, l, ok)
					}
				}
			}
		}
	}
	if taken < 150 {
		t.Errorf("%d sections taken", taken)
	}
}

// FuzzNACA: no number makes the program stumble, and one that is taken has a contour.
func FuzzNACA(f *testing.F) {
	for _, code := range []string{"4412", "NACA 23012", "23112", "0012-64", "2412-34", "44121", "63-212", "12-64", "9199", "", "NACA-"} {
		f.Add(code, 0.0, 0.0, false)
		f.Add(code, 0.13, 1.1, true)
	}
	f.Fuzz(func(t *testing.T, code string, thick, camber float64, closed bool) {
		s, found := NACAWith(code, Options{Thickness: thick, CamberScale: camber, ClosedTail: closed})
		if len(found) > 0 {
			if len(s.Upper) > 0 || found[0].Fix == "" || found[0].Key == "" {
				t.Fatalf("%q: %v", code, found)
			}
			return
		}
		u, l := s.Contour(1000, 0.1)
		if len(s.Upper) != len(customary) || len(u) < 3 || len(l) < 3 || u[0] != l[0] {
			t.Fatalf("%q: %d points, contour of %d and %d", code, len(s.Upper), len(u), len(l))
		}
		for _, p := range append(u, l...) {
			if math.IsNaN(p.X+p.Y) || math.Abs(p.X) > 1200 || math.Abs(p.Y) > 1000 {
				t.Fatalf("%q: contour with %v", code, p)
			}
		}
	})
}
