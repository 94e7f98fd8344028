package airfoils

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/finding"
)

// print4412 is NACA 4412 on a chord of 1,400 mm.
func print4412(t testing.TB) (upper, lower []geom.Pt) {
	t.Helper()
	s, found := NACA("4412")
	if len(found) > 0 {
		t.Fatal(found)
	}
	return s.Contour(1400, geom.Flat)
}

// synthetic measures both sides of a contour that was scaled, turned and shifted, with an error of the
// standard deviation noise across the contour, at the customary stations.
func synthetic(upper, lower []geom.Pt, move func(geom.Pt) geom.Pt, noise float64, seed uint64) []Reading {
	rnd := rand.New(rand.NewPCG(seed, 412))
	var out []Reading
	for k, side := range [][]geom.Pt{upper, lower} {
		for _, pc := range customary {
			y, _ := height(side, math.Min(1400*pc/100, side[len(side)-1].X))
			q := move(geom.Pt{X: 1400 * pc / 100, Y: y})
			out = append(out, Reading{Of: Surface(k), Station: q.X, Value: q.Y + noise*rnd.NormFloat64()})
		}
	}
	return out
}

// TestFitRecoversPrint is the issue's own check: a print scaled 0.987 with 0.2 mm noise gives its scale to
// 0.001, for every one of 20 seeds.
func TestFitRecoversPrint(t *testing.T) {
	upper, lower := print4412(t)
	worst, worstX, worstY := 0.0, 0.0, 0.0
	for seed := range uint64(20) {
		r := synthetic(upper, lower, func(p geom.Pt) geom.Pt { return p.Mul(0.987) }, 0.2, seed)
		f := Compare(upper, lower, r, false).Fit
		if !f.OK || math.Abs(f.ScaleX-0.987) > 0.001 || f.ScaleX != f.ScaleY {
			t.Errorf("seed %d: scale %.5f, want 0.987 to 0.001 (%+v)", seed, f.ScaleX, f)
		}
		worst = math.Max(worst, math.Abs(f.ScaleX-0.987))
		f = Compare(upper, lower, r, true).Fit
		worstX, worstY = math.Max(worstX, math.Abs(f.ScaleX-0.987)), math.Max(worstY, math.Abs(f.ScaleY-0.987))
	}
	t.Logf("one scale: wrong by %.5f at most; apart: %.5f along the chord, %.5f across", worst, worstX, worstY)
	if worstX > 0.002 || worstY > 0.003 {
		t.Errorf("scales apart: wrong by %.5f and %.5f", worstX, worstY)
	}
}

// TestFitRecoversMove recovers shift, turn and scale without noise, with one reading 12 mm wrong as well.
func TestFitRecoversMove(t *testing.T) {
	upper, lower := print4412(t)
	for _, c := range []struct {
		x, y, turn, kx, ky float64
		apart              bool
	}{
		{0, 0, 0, 1, 1, false},
		{1.5, -2, 0, 1, 1, false},
		{0, 0, 0.01, 1, 1, false},
		{-3, 4, -0.02, 0.94, 0.94, false},
		{2, 1, 0.005, 1.06, 1.06, false},
		{1, 1, 0.003, 0.99, 1.01, true},
	} {
		m := geom.Zoom(c.kx, c.ky).Then(geom.Turn(geom.Pt{}, c.turn)).Then(geom.Move(geom.Pt{X: c.x, Y: c.y}))
		for _, odd := range []int{-1, 7, 30} {
			r := synthetic(upper, lower, m.Pt, 0, 1)
			if odd >= 0 {
				r[odd].Value += 12
			}
			got := Compare(upper, lower, r, c.apart)
			f := got.Fit
			if !f.OK || math.Abs(f.Shift.X-c.x) > 0.05 || math.Abs(f.Shift.Y-c.y) > 0.05 || math.Abs(f.Turn-c.turn) > 1e-4 ||
				math.Abs(f.ScaleX-c.kx) > 2e-4 || math.Abs(f.ScaleY-c.ky) > 2e-4 {
				t.Errorf("%+v, reading %d wrong: got %+v", c, odd, f)
			}
			for i, d := range got.Deviations {
				if d.Odd != (i == odd) {
					t.Errorf("%+v, reading %d wrong: reading %d has odd = %v, %.3f mm after the fit, spread %.4f", c, odd, i, d.Odd, d.Fitted, f.Spread)
				}
			}
		}
	}
}

// TestRawDeviation holds what is measured with nothing fitted: along the normal, proud positive.
func TestRawDeviation(t *testing.T) {
	upper, lower := print4412(t)
	u, _ := height(upper, 560)
	l, _ := height(lower, 560)
	for _, c := range []struct {
		r    Reading
		want float64
	}{
		{Reading{Of: OfUpper, Station: 560, Value: u + 0.5}, 0.5},
		{Reading{Of: OfUpper, Station: 560, Value: u - 0.5}, -0.5},
		{Reading{Of: OfLower, Station: 560, Value: l - 0.5}, 0.5},
		{Reading{Of: OfLower, Station: 560, Value: l + 0.5}, -0.5},
		{Reading{Of: OfDepth, Station: 560, Value: u - l + 0.5}, 0.5},
		{Reading{Of: OfUpper, Station: -2, Value: 0}, 1.965}, // the cambered nose hangs over by 0.035 mm
		{Reading{Of: OfUpper, Station: upper[len(upper)-1].X, Value: upper[len(upper)-1].Y}, 0},
	} {
		d := Compare(upper, lower, []Reading{c.r}, false)
		if got := d.Deviations[0].Raw; math.Abs(got-c.want) > 0.02 || d.Fit.OK {
			t.Errorf("%+v: got %.4f, want %.2f; fit %v", c.r, got, c.want, d.Fit.OK)
		}
	}
}

// TestFitDepths finds the scale from depths alone, and holds height and angle.
func TestFitDepths(t *testing.T) {
	upper, lower := print4412(t)
	var r []Reading
	for _, pc := range customary[1:17] {
		u, _ := height(upper, 14*pc)
		l, _ := height(lower, 14*pc)
		r = append(r, Reading{Of: OfDepth, Station: 0.98 * 14 * pc, Value: 0.98 * (u - l)})
	}
	f := Compare(upper, lower, r, false).Fit
	if !f.OK || !f.DepthsOnly || math.Abs(f.ScaleX-0.98) > 5e-4 || f.Shift.Y != 0 || f.Turn != 0 {
		t.Errorf("got %+v, want a scale of 0.98", f)
	}
}

// TestReadMeasured reads what builders and spreadsheets write.
func TestReadMeasured(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"plain", "station,upper,lower\n0,0,0\n100,60.5,-20\n", "upper 0 0; lower 0 0; upper 100 60.5; lower 100 -20; "},
		{"inches in the heading", "Station (in), Upper_in, note\n10, 3-7/16, fair\n", "upper 254 87.3125; "},
		{"units in the cells", "station,depth\n10 in,1 1/4\"\n500 mm,\n", "depth 254 31.75; "},
		{"percent", "station %;depth_mm\n# by the front spar\n14;160,5\n30%;-\n", "depth 140 160.5; "},
		{"the program's own list", "station_percent,station_mm,upper_mm,lower_mm\r\n10,100,55,-20\r\n", "upper 100 55; lower 100 -20; "},
		{"tabs", "x\ttop\tbottom\n10\t5\t−3\n", "upper 10 5; lower 10 -3; "},
	} {
		got, found := ReadMeasured("m.csv", []byte(c.text), 1, 1000)
		s := ""
		for _, r := range got {
			s += fmt.Sprintf("%s %.6g %.6g; ", r.Of, r.Station, r.Value)
		}
		if finding.HasError(found) || s != c.want {
			t.Errorf("%s: got %s %v, want %s", c.name, s, found, c.want)
		}
	}
}

// TestBadMeasured tells every mistake with its line and column, and gives no readings.
func TestBadMeasured(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", "measured-empty 1:1"},
		{"only headings", "station,upper\n", "measured-empty 2:1"},
		{"no headings", "0,0,0\n10,2,3\n", "measured-head 1:1"},
		{"no ordinates", "station,remark\n10,2\n", "measured-head 1:1"},
		{"two of a kind", "station,upper,top\n10,2,3\n", "measured-doubled 1:15"},
		{"no number", "station,upper,lower\n10,5,-3\n20,6O,-3\n", "measured-number 3:4"},
		{"not finite", "station,upper\n10,NaN\n20,1e999\n", "measured-number 2:4 measured-number 3:4"},
		{"off the rib", "station,upper\n2540,5\n", "measured-station 2:1"},
		{"no station", "station,upper\n,5\n", "measured-station 2:1"},
		{"exchanged", "station,upper,lower\n10,-30,50\n", "measured-crossed 2:8"},
		{"decimal comma", "station,upper,lower\n10,5,25,-3,5\n", "measured-columns 2:9"},
		{"large", "station,depth\n10,5000\n", "measured-ordinate 2:4"},
		{"negative depth", "station,depth\n10,-5\n", "measured-ordinate 2:4"},
		{"other unit", "station,depth\n10,5 yd\n", "measured-number 2:4"},
		{"wide", "station,depth\n10,5" + strings.Repeat(",", 200) + "\n", "measured-columns 2:1"},
		{"not text", "station\x00", "measured-text 1:1"},
	} {
		got, found := ReadMeasured("m.csv", []byte(c.text), 1, 1000)
		var s []string
		for _, f := range found {
			if f.Severity == finding.Error {
				s = append(s, fmt.Sprintf("%s %d:%d", f.Code, f.Line, f.Column))
			}
		}
		if got != nil || strings.Join(s, " ") != c.want {
			t.Errorf("%s: got %v and findings %v, want %s", c.name, got, found, c.want)
		}
	}
}

// FuzzReadMeasured holds that nothing read panics or lets through what is no number of this rib.
func FuzzReadMeasured(f *testing.F) {
	for _, s := range []string{"station,upper,lower\n0,0,0\n100,60.5,-20\n", "station %;depth\n5;1,5\n", "x\ttop\n1 1/4 in\t3-7/16\"\n", "\"station\",\"upper\n", "#\n\n;"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		got, found := ReadMeasured("m.csv", data, 1, 1000)
		if len(got) == 0 && !finding.HasError(found) {
			t.Fatal("no readings and no finding")
		}
		for _, r := range got {
			if !(math.Abs(r.Station) <= 1200) || !(math.Abs(r.Value) <= 1000) {
				t.Fatalf("accepted %+v", r)
			}
		}
	})
}

// TestMeasures compares with the numbers that give the sections their names, and with the Clark Y's
// thickness, 11.7 %, its camber, 3.4 % (both from memory), and the flat lower side aft of 30 % of its table.
func TestMeasures(t *testing.T) {
	for _, c := range []struct {
		name                           string
		thick, thickAt, camber, flat   float64
		tolThick, tolAt, tolC, tolFlat float64
	}{
		{"0012", 0.12, 0.30, 0, 0, 1e-4, 0.005, 1e-9, 0},
		{"4412", 0.12, 0.30, 0.04, 0, 5e-4, 0.02, 5e-4, 0},
		{"2412", 0.12, 0.30, 0.02, 0, 5e-4, 0.02, 5e-4, 0},
		{"clark-y", 0.117, 0.28, 0.034, 0.7, 3e-4, 0.03, 2e-3, 1e-9},
	} {
		s, found := Builtin(c.name)
		if finding.HasError(found) {
			s, found = NACA(c.name)
		}
		if finding.HasError(found) {
			t.Fatal(found)
		}
		thick, at := s.MaxThickness()
		camber, _ := s.MaxCamber()
		flat := s.FlatShare()
		if math.Abs(thick-c.thick) > c.tolThick || math.Abs(at-c.thickAt) > c.tolAt || math.Abs(camber-c.camber) > c.tolC || math.Abs(flat-c.flat) > c.tolFlat {
			t.Errorf("%s: thickness %.4f at %.3f, camber %.4f, flat %.3f; want %+v", c.name, thick, at, camber, flat, c)
		}
	}
	if t2, _ := (Section{}).MaxThickness(); t2 != 0 {
		t.Errorf("an empty section is %v thick", t2)
	}
}
