package wing_test

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"ribwright/airfoils"
	"ribwright/geom"
	"ribwright/geom/wing"
)

// ring returns the kind's contour in the wing's axes.
func ring(t testing.TB, p wing.Plan, k wing.Kind) (upper, lower []geom.Pt) {
	upper, lower = section(t, p, k).Contour(k.Doc.Rib.Chord, 0.0005)
	for _, side := range [][]geom.Pt{upper, lower} {
		for i := range side {
			side[i] = k.Places[0].InWing(side[i])
		}
	}
	return upper, lower
}

// yAt returns the ordinate of a side at x.
func yAt(pts []geom.Pt, x float64) float64 {
	for i := len(pts) - 1; i > 0; i-- {
		if a, b := pts[i-1], pts[i]; a.X <= x && b.X >= x {
			return a.Lerp(b, (x-a.X)/(b.X-a.X)).Y
		}
	}
	return math.NaN()
}

// The greatest bevel is that between two ribs as far apart as a rib is wide.
func TestBevel(t *testing.T) {
	p := plan(t, plain+`wing = { semi_span = 4000, tip_chord = 800, washout = 2.5, sweep = 3, stations = [1994, 2000, 2006], tip = { naca = "23012" } }`)
	in, out := p.Kinds[0], p.Kinds[2]
	inU, inL := ring(t, p, in)
	outU, outL := ring(t, p, out)
	midU, midL := ring(t, p, p.Kinds[1])
	got := p.Bevel(p.Kinds[1])
	worst := 0.0
	nose := p.Kinds[1].Places[0].Nose.X
	for x := nose + got.Station; x < nose+1050; x += 5 {
		for _, s := range []struct {
			in, mid, out []geom.Pt
			sign         float64
		}{{inU, midU, outU, 1}, {inL, midL, outL, -1}} {
			slope := (yAt(s.mid, x+1) - yAt(s.mid, x-1)) / 2
			across := s.sign * (yAt(s.out, x) - yAt(s.in, x)) / math.Hypot(1, slope)
			if math.Abs(across) > math.Abs(worst) {
				worst = across
			}
		}
	}
	t.Logf("bevel %.4f mm over 12 mm, %.3f° at %.0f mm of the %s cap; from the contours %.4f mm", got.Across, got.Angle*180/math.Pi, got.Station, got.Side, worst)
	if math.Abs(got.Across-math.Abs(worst)) > 0.01 || got.Angle*worst < 0 || got.Across < 0.1 {
		t.Errorf("got %+v, want %.4f mm across", got, worst)
	}
	straight := plan(t, plain+`wing = { semi_span = 4000, spacing = 400 }`)
	section(t, straight, straight.Kinds[0])
	if b := straight.Bevel(straight.Kinds[0]); b.Across != 0 {
		t.Errorf("a straight wing has a bevel: %+v", b)
	}
}

// Area and volume against gonum's Gauss-Legendre rule over the span.
func TestAreaAndVolume(t *testing.T) {
	for _, tip := range []string{"", `, tip = { naca = "4409" }`, `, tip = { naca = "23015" }, washout = 3`} {
		text := plain + `wing = { semi_span = 4000, tip_chord = 900, spacing = 500` + tip + ` }`
		p := plan(t, text)
		chord := func(z float64) float64 { return 1400 + (900-1400)*z/4000 }
		first, last := p.Kinds[0], p.Kinds[len(p.Kinds)-1]
		a, b := section(t, p, first), section(t, p, last)
		area := func(z float64) float64 {
			share := z / 4000 * 900 / chord(z)
			u, l := airfoils.Blend(a, b, share).Contour(chord(z), 0.0005)
			slices.Reverse(u)
			return geom.Ring(append(u, l...)).Area()
		}
		want := 2 * quad.Fixed(chord, 0, 4000, 4, quad.Legendre{}, 0)
		if got := p.AreaMM2(); math.Abs(got-want) > 1e-9*want {
			t.Errorf("area %v, want %v", got, want)
		}
		want = 2 * quad.Fixed(area, 0, 4000, 6, quad.Legendre{}, 0)
		got := p.VolumeMM3()
		t.Logf("volume %.0f mm³, by quadrature %.0f", got, want)
		if math.Abs(got-want) > 2e-5*want {
			t.Errorf("volume %v, want %v", got, want)
		}
	}
}

// The bevel is looked for on the wood that is there: of ribs that are cut off, ahead of the cut or behind it. Turned about
// the nose, a wing slopes most at its tail; turned about the tail, at its nose.
func TestBevelOfRibsCutOff(t *testing.T) {
	for _, axis := range []string{"0%", "100%"} {
		p := plan(t, plain+`wing = { semi_span = 4000, washout = 8, spacing = 1000, twist_axis = "`+axis+`", rib = [
			{ ribs = "2", kind = "nose" }, { ribs = "3", kind = "tail" }, { ribs = "4", kind = "cut" } ] }`)
		section(t, p, p.Kinds[0])
		for i, within := range [][2]float64{{0, 1}, {0, 0.16}, {0.62, 1}, {0, 0.66}} {
			k := p.Kinds[i]
			b := p.Bevel(k)
			if at := b.Station / k.Doc.Rib.Chord; at < within[0] || at > within[1] || b.Across == 0 {
				t.Errorf("turned about %s: %s %s: %+v stands at %.3f of the chord, want it in %v", axis, k.Kind, k.Name, b, at, within)
			}
		}
	}
}

// What is said of the chord.
func TestChords(t *testing.T) {
	for more, want := range map[string]string{"": "chord 1400 mm", ", tip_chord = 900": "chord 1400 mm at the root, 900 mm at the tip"} {
		if got := plan(t, plain+"wing = { semi_span = 4000, spacing = 500"+more+" }").Chords(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
