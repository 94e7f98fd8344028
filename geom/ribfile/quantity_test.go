package ribfile

import (
	"errors"
	"math"
	"testing"
)

func TestParseLength(t *testing.T) {
	tests := []struct {
		in      string
		want    float64
		hasUnit bool
	}{
		{"1 1/4 in", 31.75, true}, {"5/16", 0.3125, false}, {"3-7/16 in", 87.3125, true}, {"6 mm", 6, true},
		{"1.2 m", 1200, true}, {"2 ft 3 in", 685.8, true}, {"1.5cm", 15, true}, {`1/4"`, 6.35, true},
		{`2' 3 1/2"`, 698.5, true}, {"2'", 609.6, true}, {"55", 55, false}, {"0.006 in", 0.1524, true},
		{"½ in", 12.7, true}, {"1½ in", 38.1, true}, {"1 ⅞ in", 47.625, true}, {"⅛", 0.125, false}, {"¼ in", 6.35, true},
		{"¾\"", 19.05, true}, {"⅜ in", 9.525, true}, {"⅝in", 15.875, true}, {"1⁄2 in", 12.7, true},
		{"3/4 in.", 19.05, true}, {"3/4 IN", 19.05, true}, {"2 feet 3 inches", 685.8, true}, {" 6\u00a0mm ", 6, true},
		{".5 in", 12.7, true}, {"-1 7/16", -1.4375, false}, {"−1/4 in", -6.35, true}, {"+3 mm", 3, true}, {"-0", 0, false},
		{`2'-3"`, 685.8, true}, {`2' - 3½"`, 698.5, true}, {`4'-0"`, 1219.2, true}, {`2'-3-1/2"`, 698.5, true}, {"2 ft-3 in", 685.8, true}, {`-2'-3"`, -685.8, true},
		{"2½ in", 63.5, true}, {"1 ft 1-1/2 in", 342.9, true}, {"5/4 in", 31.75, true}, {"12”", 304.8, true}, {"1''", 25.4, true},
	}
	for _, tt := range tests {
		got, hasUnit, err := ParseLength(tt.in)
		if err != nil || got != tt.want || hasUnit != tt.hasUnit || math.Signbit(got) != (got < 0) {
			t.Errorf("ParseLength(%q) = %v, %v, %v; want %v, %v", tt.in, got, hasUnit, err, tt.want, tt.hasUnit)
		}
	}
}

func TestParseLengthRefuses(t *testing.T) {
	for _, in := range []string{"", " ", "in", "1,5 mm", "1,000 mm", "1/0", "1/0 in", "1 5/4 in", "1 1/ in", "/4", "1//4", "1/2/3", "1.5/2",
		"1.5 1/4 in", "1.2.3", ".", "1e3 mm", "nan", "inf", "0x10", "6 furlongs", "2 ft 3", "2'-3", "2'--3\"", "2 in-3 in", "2 ft 3 mm", "3 in 2 ft", "1 m 20 cm", "14%",
		"6 mm 7", "9999999999", "999999999 m", "one", "--1", "1 - 1/4", "6 m m", "1 2 in", "٣ mm", "1/2 ½", "6mm²"} {
		got, hasUnit, err := ParseLength(in)
		var q *QuantityError
		if !errors.As(err, &q) || q.Message == "" || q.Fix == "" {
			t.Errorf("ParseLength(%q) = %v, %v, %v; want a refusal with a remedy", in, got, hasUnit, err)
		}
	}
}

// The inch is exact: 1 in = 25.4 mm (NIST SP 811, appendix B). Every 64th up to two feet comes out as the
// float nearest to its exact length.
func TestInchesAreExact(t *testing.T) {
	for n := 1; n <= 24*64; n++ {
		text := inches(float64(n) / 64)
		got, _, err := ParseLength(text + " in")
		want := float64(n) * 254 / 640
		if err != nil || got != want {
			t.Fatalf("%s in = %v mm, %v; want %v", text, got, err, want)
		}
	}
}

func TestParseShare(t *testing.T) {
	tests := []struct {
		in      string
		want    float64
		isShare bool
		good    bool
	}{
		{"14%", 14, true, true}, {"14 %", 14, true, true}, {"12 1/2%", 12.5, true, true}, {"62.5%", 62.5, true, true},
		{"-1%", -1, true, true}, {"14", 0, false, true}, {"%", 0, true, false}, {"14,5%", 0, true, false}, {"14 in%", 0, true, false},
	}
	for _, tt := range tests {
		got, isShare, err := parseShare(tt.in)
		if got != tt.want || isShare != tt.isShare || (err == nil) != tt.good {
			t.Errorf("parseShare(%q) = %v, %v, %v; want %v, %v, good %v", tt.in, got, isShare, err, tt.want, tt.isShare, tt.good)
		}
	}
}

func TestUnitsLength(t *testing.T) {
	tests := []struct {
		units Units
		mm    float64
		want  string
	}{
		{Inch, 28.575, "1 1/8 in"}, {Inch, 1397, "55 in"}, {Inch, 25.4 * 3 / 32, "3/32 in"}, {Inch, 25.4 * 1.127, "1.127 in"},
		{Inch, 25.4 * 1.1269, "1 1/8 in"}, {Inch, 0, "0 in"}, {Inch, -6.35, "-1/4 in"}, {Inch, 0.1524, "0.006 in"}, {Inch, 0.0254, "0.001 in"},
		{Inch, -1e-9, "0 in"}, {Inch, -0.01, "0 in"}, {Inch, 195.58, "7.700 in"}, {Inch, 25.4 * 0.999, "1 in"}, {Inch, 25.4 * 63 / 64, "63/64 in"},
		{MM, 28.575, "28.6 mm"}, {MM, 6, "6 mm"}, {MM, -0.001, "0 mm"}, {MM, 0.152, "0.15 mm"}, {MM, 0.999, "1 mm"}, {MM, 1400, "1400 mm"}, {MM, -12.34, "-12.3 mm"},
	}
	for _, tt := range tests {
		if got := tt.units.Length(tt.mm); got != tt.want {
			t.Errorf("%s: Length(%v) = %q, want %q", tt.units, tt.mm, got, tt.want)
		}
		if got := tt.units.Number(tt.mm) + " " + string(tt.units); got != tt.want {
			t.Errorf("%s: Number(%v) with its unit = %q, want %q", tt.units, tt.mm, got, tt.want)
		}
	}
}

func TestUnitsDecimal(t *testing.T) {
	for _, c := range []struct {
		u    Units
		mm   float64
		want string
	}{{Inch, 28.575, "1.125"}, {Inch, -1e-9, "0.000"}, {Inch, -36.4, "-1.433"}, {MM, 28.55, "28.6"}, {MM, 0.15, "0.15"}} {
		if got := c.u.Decimal(c.mm); got != c.want {
			t.Errorf("%s: Decimal(%g) = %q, want %q", c.u, c.mm, got, c.want)
		}
	}
}
