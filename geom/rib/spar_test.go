package rib_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/rib"
)

// bar is a rib file whose section is a straight bar from 20 % to 80 % of 1000 mm, its upper side at 80, its lower one at −40 mm, so
// that what a leaning spar cuts out of it is known by hand.
func bar(extra string) string {
	var rows []string
	for x := 0; x <= 100; x += 2 {
		h := math.Min(1, math.Min(float64(x), float64(100-x))/12)
		h = math.Sqrt(1 - (1-h)*(1-h))
		rows = append(rows, fmt.Sprintf("[%d, %.6f, %.6f]", x, 8*h, -4*h))
	}
	return "units = \"mm\"\n[section]\nordinates = [" + strings.Join(rows, ", ") + "]\n[rib]\nchord = 1000\n[cap]\ndepth = 6\nwidth = 12\n" + extra
}

const (
	barTop, barBottom = 74.0, -34.0 // the caps' inner edges
	leaning           = `[[spar]]
name = "main"
at = 500
width = 20
clearance = 0.5
`
)

// TestTilt holds a spar that leans against figures by hand: between parallel caps its opening is a parallelogram.
func TestTilt(t *testing.T) {
	for _, deg := range []float64{-15, -3.5, 6, 15} {
		r := mustBuild(t, bar(leaning+fmt.Sprintf("tilt = %g\n", deg)), "")
		a := deg * math.Pi / 180
		s := r.Spars[0]
		near := func(what string, got, want float64) {
			t.Helper()
			if math.Abs(got-want) > 2e-3 { // the bar is a spline through its points
				t.Errorf("tilt %g: %s is %.5f, want %.5f", deg, what, got, want)
			}
		}
		long := (barTop - barBottom) / math.Cos(a)
		near("the opening", s.Gap(), 21)
		near("its fore face on the chord line", s.Fore, 500-10.5/math.Cos(a))
		near("its aft face on the chord line", s.Aft, 500+10.5/math.Cos(a))
		near("its area", s.Opening.Area(), 21*long)
		near("the upper end of the fore face", s.Opening.Box().Max.X, 500+10.5/math.Cos(a)+math.Max(barTop*math.Tan(a), barBottom*math.Tan(a)))
		// The largest spar is square to its faces at the ends that the caps cut: its depth is the same on both faces, and the bevel the tilt.
		near("the depth in front", s.DepthFront, long)
		near("the depth behind", s.DepthRear, long)
		near("the bevel of the top, degrees", s.BevelTop*180/math.Pi, deg)
		near("the bevel of the bottom, degrees", s.BevelBottom*180/math.Pi, deg)
		if len(r.Sticks) != 2 {
			t.Fatalf("got %d sticks, want two posts", len(r.Sticks))
		}
		for k, p := range r.Sticks {
			near("a post's angle", p.Axis[1].Sub(p.Axis[0]).Angle(), math.Pi/2-a)
			near("a post's area", p.Outline.Area(), 6*long)
			near("a post's long point", p.LongPoint, long+6*math.Abs(math.Tan(a)))
			for _, e := range p.Ends {
				near("a post's cut, degrees", e.Cuts[0].Angle*180/math.Pi, deg)
			}
			mid := []float64{500 - 13.5/math.Cos(a), 500 + 13.5/math.Cos(a)}[k]
			for _, j := range r.Joints { // its joints stand where its centre line meets the contour
				if j.ID == p.To {
					near("the upper joint", j.Station, mid+80*math.Tan(a))
				}
				if j.ID == p.From {
					near("the lower joint", j.Station, mid-40*math.Tan(a))
				}
			}
		}
		checkSpars(t, r)
		holdRib(t, r, nil)
	}
}

// TestSweep holds a swept spar's opening against the sum by hand: its width aslant, what it moves by while it passes
// through a rib of 12 mm with a plate of 1.6 mm on either face, and the clearances.
func TestSweep(t *testing.T) {
	r := mustBuild(t, bar(leaning+"sweep = 10\n[gusset]\nthickness = 1.6\n"), "")
	a := 10 * math.Pi / 180
	if got, want := r.Spars[0].Gap(), 20/math.Cos(a)+15.2*math.Tan(a)+1; math.Abs(got-want) > 1e-9 {
		t.Errorf("the opening is %.6f, want %.6f", got, want)
	}
	bare := mustBuild(t, bar(leaning+"sweep = -10\n[gusset]\nshape = \"none\"\n"), "")
	if got, want := bare.Spars[0].Gap(), 20/math.Cos(a)+12*math.Tan(a)+1; math.Abs(got-want) > 1e-9 {
		t.Errorf("without plates the opening is %.6f, want %.6f", got, want)
	}
}

// TestSweptSparPasses pushes the largest spar through a curved rib in steps: nowhere on its way may it cut into a cap, and a
// hair's more depth would.
func TestSweptSparPasses(t *testing.T) {
	for _, tilt := range []float64{0, 5} {
		text := strings.Replace(readFile(t, "../../cmd/ribwright/demo/marsh-wren.toml"), "width = 16", fmt.Sprintf("width = 16\ntilt = %g\nsweep = 20", tilt), 1)
		r := mustBuild(t, text, "")
		s := r.Spars[1]
		thick := 12 + 2*r.GussetThickness
		spar := geom.Ring{s.Bottom[0], s.Bottom[1], s.Top[1], s.Top[0]}
		least := math.Inf(1)
		for k := range 41 {
			push := s.Square().Mul((float64(k)/40 - 0.5) * thick * math.Tan(s.Sweep))
			moved := make(geom.Ring, len(spar))
			for i, p := range spar {
				moved[i] = p.Add(push)
			}
			if out := moved.Area() - geom.CommonArea(moved, s.Opening); out > 1e-6 {
				t.Errorf("tilt %g, step %d: %g mm² of the spar do not pass", tilt, k, out)
			}
			for _, p := range moved {
				least = math.Min(least, geom.Distance(p, r.Contour.Inner, true))
			}
			for _, p := range r.Contour.Inner {
				least = math.Min(least, geom.Distance(p, moved, true))
			}
		}
		if least > 0.01 {
			t.Errorf("tilt %g: the spar never comes nearer to a cap than %g mm: a larger one would pass", tilt, least)
		}
		if w := s.Top[1].Sub(s.Top[0]).Dot(s.Square()) * math.Cos(s.Sweep); math.Abs(w-16) > 1e-9 {
			t.Errorf("across itself the spar is %g wide, want 16", w)
		}
	}
}

// TestTiltMirrored holds that a rib turned upside down, with the tilt the other way, is the rib's mirror image.
func TestTiltMirrored(t *testing.T) {
	text := func(flip bool) string {
		rows, tilt, start := "[0,0,0],[2.5,3,-1],[10,6,-1.5],[30,9,-1],[60,7,0],[80,4,0.4],[100,0.5,-0.5]", 7.0, "upper"
		if flip {
			rows, tilt, start = "[0,0,0],[2.5,1,-3],[10,1.5,-6],[30,1,-9],[60,0,-7],[80,-0.4,-4],[100,0.5,-0.5]", -7, "lower"
		}
		return fmt.Sprintf(`units = "mm"
[section]
ordinates = [%s]
[rib]
chord = 1200
[cap]
depth = 6
width = 12
[[spar]]
name = "front"
at = "20%%"
width = 18
tilt = %g
[[spar]]
name = "rear"
at = "62%%"
width = 14
tilt = %g
posts = false
[[bay]]
from = "front"
to = "rear"
panels = 5
start = %q
[gusset]
diameter = 24
`, rows, tilt, tilt/2, start)
	}
	a, b := mustBuild(t, text(false), ""), mustBuild(t, text(true), "")
	if len(a.Sticks) != len(b.Sticks) || len(a.Gussets) != len(b.Gussets) {
		t.Fatalf("%d sticks and %d plates, upside down %d and %d", len(a.Sticks), len(a.Gussets), len(b.Sticks), len(b.Gussets))
	}
	same := func(what string, p, q geom.Ring) {
		t.Helper()
		flipped := make(geom.Ring, len(q))
		for i, c := range q {
			flipped[i] = geom.Pt{X: c.X, Y: -c.Y}
		}
		flipped = flipped.Reverse()
		if d := math.Abs(p.Area() - geom.CommonArea(p, flipped)); d > 1e-4 || math.Abs(p.Area()-flipped.Area()) > 1e-4 {
			t.Errorf("%s: upside down it differs by %g mm²", what, d)
		}
	}
	for i, s := range a.Sticks {
		same(s.ID, s.Outline, b.Sticks[i].Outline)
	}
	for i, s := range a.Spars {
		same("spar "+s.Name, s.Opening, b.Spars[i].Opening)
		if o := b.Spars[i]; math.Abs(s.DepthFront-o.DepthFront) > 1e-6 || math.Abs(s.BevelTop+o.BevelBottom) > 1e-6 {
			t.Errorf("spar %s: depth %g and bevel %g, upside down %g and %g", s.Name, s.DepthFront, s.BevelTop, o.DepthFront, o.BevelBottom)
		}
	}
	areas := func(r *rib.Rib) (sum float64) {
		for _, g := range r.Gussets {
			for _, v := range g.GlueMM2 {
				sum += v
			}
		}
		return sum
	}
	if p, q := areas(a), areas(b); math.Abs(p-q) > 1e-3 {
		t.Errorf("glue areas: %.4f mm², upside down %.4f", p, q)
	}
}

// TestTiltUnits holds that inches and millimetres give the same leaning spar.
func TestTiltUnits(t *testing.T) {
	text := func(units string, in float64) string {
		return fmt.Sprintf("units = %q\n[section]\nnaca = \"4412\"\n[rib]\nchord = %g\n[cap]\ndepth = %g\nwidth = %g\n[[spar]]\nname = \"main\"\n"+
			"at = %g\nwidth = %g\nclearance = %g\ntilt = 4\nsweep = 3\n[gusset]\nthickness = %g\n", units, 48*in, 0.25*in, 0.5*in, 12*in, 0.75*in, in/64, in/16)
	}
	a, b := mustBuild(t, text("in", 1), ""), mustBuild(t, text("mm", 25.4), "")
	s, o := a.Spars[0], b.Spars[0]
	if math.Abs(s.Fore-o.Fore) > 1e-9 || math.Abs(s.DepthFront-o.DepthFront) > 1e-9 || math.Abs(s.Gap()-o.Gap()) > 1e-9 || math.Abs(s.BevelTop-o.BevelTop) > 1e-9 {
		t.Errorf("in inches %+v, in millimetres %+v", s, o)
	}
}
