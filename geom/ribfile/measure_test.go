package ribfile

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestParseMeasures(t *testing.T) {
	for _, tt := range []struct {
		m       *measure
		in      string
		want    float64
		hasUnit bool
	}{
		{&masses, "25 g", 25, true}, {&masses, "0.9 oz", 25.5145708125, true}, {&masses, "1 lb", 453.59237, true}, {&masses, "2.2 kg", 2200, true},
		{&masses, "1 lb 4 oz", 566.9904625, true}, {&masses, "1/2 oz.", 14.1747615625, true}, {&masses, "½lb", 226.796185, true}, {&masses, "25", 25, false},
		{&masses, "3 Grams", 3, true}, {&masses, "150 mg", 0.15, true}, {&masses, "1lb4oz", 566.9904625, true}, {&masses, "0", 0, false},
		{&temperatures, "21 C", 21, true}, {&temperatures, "21 °C", 21, true}, {&temperatures, "70 F", 190.0 / 9, true}, {&temperatures, "70°f", 190.0 / 9, true},
		{&temperatures, "-40 F", -40, true}, {&temperatures, "32 F", 0, true}, {&temperatures, "−5 °C", -5, true}, {&temperatures, "18", 18, false}, {&temperatures, "20 deg C", 20, true},
		{&durations, "30 min", 30, true}, {&durations, "6 h", 360, true}, {&durations, "1 h 30 min", 90, true}, {&durations, "1 day", 1440, true}, {&durations, "90 s", 1.5, true},
		{&durations, "45", 45, false}, {&durations, "1 1/2 h", 90, true}, {&durations, "1½h", 90, true}, {&durations, "2 days 4 h", 3120, true}, {&durations, "1h30m", 90, true},
		{&rates, "290 g/m2", 290, true}, {&rates, "290 g/m²", 290, true}, {&rates, "290g / m²", 290, true}, {&rates, "60 lb/MSGL", 60 * GM2PerMSGL, true},
		{&rates, "60 lb per 1000 sq ft", 60 * GM2PerMSGL, true}, {&forces, "1200 N", 1200, true}, {&forces, "1.2 kN", 1200, true}, {&forces, "270 lbf", 1201.0198, true}, {&forces, "122 kg", 1196.4113, true}, {&forces, "5", 5, false},
		{&stresses, "7.9 MPa", 7.9, true}, {&stresses, "7.9 N/mm²", 7.9, true}, {&stresses, "1150 psi", 7.9289709, true}, {&stresses, "1150 lb per sq in", 7.9289709, true}, {&stresses, "900", 900, false},
		{&rates, "0.3 kg/m2", 300, true}, {&rates, "1 oz/ft2", 305.15172, true}, {&rates, "60", 60, false},
	} {
		got, hasUnit, err := tt.m.parse(tt.in)
		if err != nil || math.Abs(got-tt.want) > 1e-5*math.Abs(tt.want) || hasUnit != tt.hasUnit || math.Signbit(got) != (got < 0) {
			t.Errorf("%s %q = %v, %v, %v; want %v, %v", tt.m.noun, tt.in, got, hasUnit, err, tt.want, tt.hasUnit)
		}
	}
}

func TestParseMeasuresRefuses(t *testing.T) {
	for _, tt := range []struct {
		m  *measure
		in []string
	}{
		{&masses, []string{"", "oz", "1,5 g", "-3 g", "3 stone", "3 g 4 oz", "1 lb 4 g", "1 oz 1 lb", "1 lb 4", "1 g/m2", "1e3 g", "999999999 kg", "nan", "3 mm", "1/0 g", "5 gr"}},
		{&temperatures, []string{"", "C", "21 K", "1,5 C", "21 C 3", "70 F 21 C", "--3 C", "2000 C", "warm"}},
		{&durations, []string{"", "min", "1:30", "-5 min", "30 min 1 h", "1 h 2 h", "2 weeks", "1 h 30", "1 month", "1,5 h"}},
		{&forces, []string{"", "N", "5 g", "-5 N", "5 N 3", "5 MPa"}},
		{&stresses, []string{"", "MPa", "7,9 MPa", "7.9 N", "-7.9 MPa", "5 bar"}},
		{&rates, []string{"", "g/m2", "-3 g/m2", "60 lb", "60 lb/MDGL", "290 g/m3", "290 g", "60 lb/MSGL 2 oz/ft2", "9999 lb/ft2"}},
	} {
		for _, in := range tt.in {
			got, hasUnit, err := tt.m.parse(in)
			var q *QuantityError
			if !errors.As(err, &q) || q.Fix == "" || !strings.HasSuffix(q.Message, ".") || got != 0 {
				t.Errorf("%s %q = %v, %v, %v; want a refusal with a remedy", tt.m.noun, in, got, hasUnit, err)
			}
		}
	}
}

// The pound is 453.59237 g, the ounce 28.349523125 g, and °C = (°F − 32)/1.8: NIST SP 811, appendix B. 1 ft² is
// 0.09290304 m² there, so that 1 lb/1000 ft² is 4.88243 g/m² (B.8: 1 lb/ft² = 4.882428 kg/m²).
func TestFactorsOfNIST(t *testing.T) {
	for _, tt := range []struct {
		name            string
		got, want, slip float64
	}{
		{"ounce", GramsPerOunce, 28.349523125, 1e-12},
		{"pound", GramsPerPound, 453.59237, 0},
		{"lb/MSGL", GM2PerMSGL, 4.882428, 5e-7},
		{"70 °F", Inch.Celsius(70), 190.0 / 9, 1e-12},
		{"0.9 oz", Inch.Grams(0.9), 25.5145708125, 1e-12},
		{"60 lb/MSGL", Inch.GM2(60), 292.9457, 5e-4},
		{"lbf", Inch.Newtons(1), 4.448222, 5e-7},
		{"psi", Inch.MPa(1000), 6.894757, 5e-7},
	} {
		if math.Abs(tt.got-tt.want) > tt.slip {
			t.Errorf("%s is %v, want %v", tt.name, tt.got, tt.want)
		}
	}
}

func TestMeasuresWritten(t *testing.T) {
	for _, tt := range [][2]string{
		{MM.Mass(25.51), "25.5 g"}, {MM.Mass(9.999), "10.0 g"}, {MM.Mass(0.5), "0.50 g"}, {Inch.Mass(25.5145708125), "0.90 oz"}, {MM.Mass(-1e-9), "0.00 g"},
		{MM.Temperature(21), "21 °C"}, {Inch.Temperature(190.0 / 9), "70 °F"}, {MM.Temperature(20.3), "20.5 °C"}, {MM.Temperature(-0.1), "0 °C"},
		{MM.Rate(292.9457), "293 g/m²"}, {Inch.Rate(292.9457), "60 lb/MSGL"}, {Inch.Rate(290), "59.4 lb/MSGL"},
		{MM.Force(1274.2), "1270 N (130 kg)"}, {Inch.Force(1274.2), "286 lbf"}, {MM.Force(0), "0 N (0 kg)"}, {MM.Force(9.87654), "9.88 N (1.01 kg)"},
		{MM.Stress(7.9), "7.9 MPa"}, {Inch.Stress(7.9), "1150 psi"}, {Inch.Stress(0), "0 psi"},
		{Duration(90), "1 h 30 min"}, {Duration(45), "45 min"}, {Duration(1.5), "90 s"}, {Duration(1), "1 min"}, {Duration(0), "0 min"},
		{Duration(1440), "1 day"}, {Duration(3120), "2 days 4 h"}, {Duration(59.7), "1 h"}, {Duration(-30), "-30 min"},
	} {
		if tt[0] != tt[1] {
			t.Errorf("got %q, want %q", tt[0], tt[1])
		}
	}
}

// What is written is read again as what it was, within its last digit.
func TestMeasuresThereAndBack(t *testing.T) {
	for i := range 400 {
		x := float64(i) * 1.37
		for _, u := range []Units{MM, Inch} {
			check := func(what, s string, slip float64, parse func(string) (float64, bool, error)) {
				if got, hasUnit, err := parse(s); err != nil || !hasUnit || math.Abs(got-x) > slip {
					t.Fatalf("%s %v is written %q and read as %v (%v)", what, x, s, got, err)
				}
			}
			check("mass", u.Mass(x), 0.15, ParseMass)
			check("temperature", u.Temperature(x), 0.26, ParseTemperature)
			check("rate", u.Rate(x), 0.51, ParseRate)
			check("duration", Duration(x), 0.51, durations.parse)
		}
	}
}

func TestScaleDefaults(t *testing.T) {
	for units, step := range map[string]float64{"mm": 0.1, "in": Inch.Grams(0.01)} {
		doc, _ := Read("", []byte("units = \""+units+"\"\n"))
		if s := doc.Scale; s.Step != step || s.RatioTolerance != 0.02 || s.CupLeast != 0 || s.CupMost != 0 {
			t.Errorf("%s: %+v", units, s)
		}
	}
	doc, fs := Read("", []byte(small+"[scale]\nstep = 1\ncup_least = \"1 oz\"\ncup_most = 60\n"))
	if s := doc.Scale; len(fs) > 0 || s.Step != 1 || s.CupLeast != GramsPerOunce || s.CupMost != 60 {
		t.Errorf("%+v\n%s", s, text(fs))
	}
}

func TestMassIn(t *testing.T) {
	for s, want := range map[string]Units{"0.1 g": MM, "0.01 oz": Inch, "1/4lb": Inch, "1 kg": MM, "3": "bare", "": "bare", "3 stone": "bare", "oz": "bare"} {
		if got := MassIn(s, "bare"); got != want {
			t.Errorf("%q is in %q, want %q", s, got, want)
		}
	}
	doc, _ := Read("", []byte("units = \"in\"\nscale.step = \"0.1 g\"\n"))
	if doc.Scale.Shows != MM || doc.Scale.Step != 0.1 {
		t.Errorf("a scale that shows grams: %+v", doc.Scale)
	}
}

func FuzzParseMeasure(f *testing.F) {
	for _, s := range []string{"1 lb 4 oz", "70 °F", "1 h 30 min", "60 lb/MSGL", "1,5 g", "1e9 kg", "1/0 s", "290 g / m²"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, m := range []*measure{&masses, &temperatures, &durations, &rates} {
			v, _, err := m.parse(s)
			if math.IsNaN(v) || math.IsInf(v, 0) || (err != nil && v != 0) {
				t.Fatalf("%s %q = %v, %v", m.noun, s, v, err)
			}
		}
	})
}
