package ribfile

import "testing"

func TestDocFormat(t *testing.T) {
	mm, fractions, decimals := &Doc{Units: MM}, &Doc{Units: Inch}, &Doc{Units: Inch, Drawing: Drawing{Inches: "decimals"}}
	for _, c := range []struct {
		name                           string
		doc                            *Doc
		mm                             float64
		number, length, decimal, ruler string
	}{
		{"mm", mm, 186.54, "186.5", "186.5 mm", "186.5", "186.5"},
		{"fractions, a 64th", fractions, 19.05, "3/4", "3/4 in", "0.750", "3/4"},
		{"fractions, within 0.002 in", fractions, 25.4 * 0.7515, "3/4", "3/4 in", "0.752", "3/4"},
		{"fractions, below a 64th", fractions, 25.4 * 7.342, "7 11/32", "7 11/32 in", "7.342", "7 11/32"},
		{"fractions, rounded", fractions, 25.4 * 7.347, "7.347", "7.347 in", "7.347", "≈ 7 11/32"},
		{"fractions, below a 128th", fractions, 25.4 * 0.006, "0.006", "0.006 in", "0.006", "≈ 0"},
		{"decimals", decimals, 19.05, "0.75", "0.75 in", "0.750", "0.750"},
		{"decimals, whole", decimals, 1219.2, "48", "48 in", "48.000", "48.000"},
		{"decimals, nothing", decimals, -1e-9, "0", "0 in", "0.000", "0.000"},
	} {
		for _, g := range [][2]string{{c.doc.Number(c.mm), c.number}, {c.doc.Length(c.mm), c.length}, {c.doc.Decimal(c.mm), c.decimal}, {c.doc.Ruler(c.mm), c.ruler}} {
			if g[0] != g[1] {
				t.Errorf("%s: %g mm is written %q, want %q", c.name, c.mm, g[0], g[1])
			}
		}
	}
}

// A drawing's fractions are the nearest 64th, and say so where that is not the size itself.
func TestArea(t *testing.T) {
	for _, c := range []struct {
		units Units
		mm2   float64
		want  string
	}{{MM, 508.3, "508 mm²"}, {MM, 4.44, "4.4 mm²"}, {MM, 0.02, "0 mm²"}, {Inch, 645.16, "1.000 in²"}, {Inch, 8, "0.012 in²"}} {
		if got := (&Doc{Units: c.units}).Area(c.mm2); got != c.want {
			t.Errorf("%g mm² in %s: %q, want %q", c.mm2, c.units, got, c.want)
		}
	}
}

func TestRulerNearest(t *testing.T) {
	d := &Doc{Units: Inch}
	for n := range 5000 {
		in := float64(n) * 0.00377
		s := d.Ruler(in * MMPerInch)
		rounded := len(s) > len("≈ ") && s[:len("≈ ")] == "≈ "
		if rounded {
			s = s[len("≈ "):]
		}
		got, _, err := ParseLength(s)
		off := got - in
		if off < 0 {
			off = -off
		}
		if err != nil || off > 1.0/128+1e-9 || rounded != (off > 0.002) {
			t.Fatalf("%.5f in is written %q (rounded %v), off by %.5f in: %v", in, s, rounded, off, err)
		}
	}
}
