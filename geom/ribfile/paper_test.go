package ribfile

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestParsePaper(t *testing.T) {
	for _, c := range []struct {
		in   string
		bare Units
		w, h float64
	}{
		{"A5", MM, 148, 210}, {"A4", MM, 210, 297}, {" a3 ", MM, 297, 420}, {"A2", MM, 420, 594}, {"A1", MM, 594, 841}, {"A0", MM, 841, 1189},
		{"Letter", MM, 215.9, 279.4}, {"legal", MM, 215.9, 355.6}, {"TABLOID", MM, 279.4, 431.8}, {"Ledger", Inch, 279.4, 431.8},
		{"ANSI A", MM, 215.9, 279.4}, {"ANSI B", MM, 279.4, 431.8}, {"ansi-c", MM, 431.8, 558.8}, {"ANSI D", MM, 558.8, 863.6}, {"ANSI  E", MM, 863.6, 1117.6},
		{"Arch A", MM, 228.6, 304.8}, {"Arch B", MM, 304.8, 457.2}, {"Arch C", MM, 457.2, 609.6}, {"arch_d", MM, 609.6, 914.4}, {"Arch E", MM, 914.4, 1219.2},
		{"210x297", MM, 210, 297}, {"210 × 297 mm", MM, 210, 297}, {"8.5x11in", MM, 215.9, 279.4}, {"8 1/2 x 11 in", MM, 215.9, 279.4},
		{"21x29.7cm", MM, 210, 297}, {"21 cm x 29.7 cm", Inch, 210, 297}, {"8.5in x 11in", MM, 215.9, 279.4}, {"297 mm*420 mm", Inch, 297, 420},
		{"13x19", Inch, 330.2, 482.6}, {"24x36", Inch, 609.6, 914.4},
		{"roll 36in", MM, 914.4, 0}, {"roll 914", MM, 914, 0}, {"Roll 24", Inch, 609.6, 0}, {"roll 0.61 m", Inch, 610, 0}, {`roll 36"`, MM, 914.4, 0},
	} {
		p, err := ParsePaper(c.in, c.bare)
		if err != nil || math.Abs(p.W-c.w) > 1e-9 || math.Abs(p.H-c.h) > 1e-9 || p.Margin != (Margins{10, 10, 10, 10}) || p.Overlap != 12 || p.Turn != "auto" {
			t.Errorf("ParsePaper(%q) = %+v, %v; want %g × %g, margins 10, overlap 12", c.in, p, err, c.w, c.h)
		}
	}
	for _, in := range []string{"", "A", "A6", "A7000", "ansi f", "x", "210", "210x", "x297", "0x297", "-210x297", "NaNx297", "210x1e9", "210x297x3",
		"8.5x11furlongs", "14%x3", "8.5x11", "139x300", "roll", "roll x", "roll 36", "roll -900", "roll 99999"} {
		p, err := ParsePaper(in, MM)
		if q := (*QuantityError)(nil); err == nil || !errors.As(err, &q) || q.Message == "" || q.Fix == "" {
			t.Errorf("ParsePaper(%q) = %v, %v, want an error with a remedy", in, p, err)
		}
	}
}

func FuzzParsePaper(f *testing.F) {
	for _, s := range []string{"A4", "210x297", "8.5x11in", "8 1/2×11 in", "x", "1x1", "roll 36in", "arch d"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, u := range []Units{MM, Inch} {
			p, err := ParsePaper(s, u)
			if err == nil && !(p.W >= leastShort && p.W <= mostPaper && (p.H == 0 || p.H >= leastShort && p.H <= mostPaper)) {
				t.Errorf("ParsePaper(%q, %s) = %v", s, u, p)
			}
		}
	})
}

func TestParsePrinted(t *testing.T) {
	for _, c := range []struct {
		in         string
		across, up float64
		x, y       float64 // the correction
		words      string
	}{
		{"99.2x101.5", 0.992, 1.015, 1 / 0.992, 1 / 1.015, "99.2 × 101.5 mm for 100 mm"},
		{"99.2 × 101.5 mm", 0.992, 1.015, 1 / 0.992, 1 / 1.015, "99.2 × 101.5 mm for 100 mm"},
		{"9.92 x 10.15 cm", 0.992, 1.015, 1 / 0.992, 1 / 1.015, "99.2 × 101.5 mm for 100 mm"},
		{"3.97x4.06 in", 0.9925, 1.015, 1 / 0.9925, 1 / 1.015, "99.25 × 101.5 mm for 100 mm"},
		{"3.97x4.06", 0.9925, 1.015, 1 / 0.9925, 1 / 1.015, "99.25 × 101.5 mm for 100 mm"},
		{"3 31/32 x 4 in", 0.9921875, 1, 1 / 0.9921875, 1, "99.22 × 100 mm for 100 mm"},
		{"100x100", 1, 1, 1, 1, "100 × 100 mm for 100 mm"},
		{"100.04x99.96", 1.0004, 0.9996, 1, 1, "100.04 × 99.96 mm for 100 mm"}, // under 0.05 %
		{"90x110", 0.9, 1.1, 1 / 0.9, 1 / 1.1, "90 × 110 mm for 100 mm"},
	} {
		p, err := ParsePrinted(c.in)
		x, y := p.Correction()
		if err != nil || math.Abs(p.Across-c.across) > 1e-12 || math.Abs(p.Up-c.up) > 1e-12 || math.Abs(x-c.x) > 1e-12 || math.Abs(y-c.y) > 1e-12 || p.Words(MM) != c.words {
			t.Errorf("ParsePrinted(%q) = %v, %v; correction %g × %g, %q", c.in, p, err, x, y, p.Words(MM))
		}
	}
	if w := (Printed{0.9925, 1.015}).Words(Inch); w != "3.970 × 4.060 in for 4 in" {
		t.Errorf("in inches: %q", w)
	}
	for _, in := range []string{"", "99", "99.2", "99x", "x", "99.2x101.5x3", "0x0", "99xNaN", "100 mm x 4", "3.97", "99.2x101.5 in"} {
		if p, err := ParsePrinted(in); err == nil {
			t.Errorf("ParsePrinted(%q) = %v, want an error", in, p)
		}
	}
	for _, in := range []string{"89.9x100", "100x110.1", "94x88", "3.5x4"} { // fitted to the page
		if _, err := ParsePrinted(in); err == nil || !strings.Contains(err.Error(), "fitted to the page") {
			t.Errorf("ParsePrinted(%q): %v, want an error that speaks of the page", in, err)
		}
	}
}

func TestParseMargins(t *testing.T) {
	for _, c := range []struct {
		in   string
		bare Units
		want Margins
	}{
		{"6", MM, Margins{6, 6, 6, 6}}, {"1/4", Inch, Margins{6.35, 6.35, 6.35, 6.35}}, {"5,6,7 mm,1/2 in", MM, Margins{5, 6, 7, 12.7}}, {"0", MM, Margins{}},
	} {
		if m, err := ParseMargins(c.in, c.bare); err != nil || m != c.want {
			t.Errorf("ParseMargins(%q) = %v, %v, want %v", c.in, m, err, c.want)
		}
	}
	for _, in := range []string{"", "1,2", "1,2,3", "1,2,3,4,5", "-1", "101", "5,5,5,wide"} {
		if m, err := ParseMargins(in, MM); err == nil {
			t.Errorf("ParseMargins(%q) = %v, want an error", in, m)
		}
	}
	for in, want := range map[string]float64{"8": 8, "1/2 in": 12.7, "40 mm": 40} {
		if v, err := ParseOverlap(in, MM); err != nil || v != want {
			t.Errorf("ParseOverlap(%q) = %v, %v, want %v", in, v, err, want)
		}
	}
	for _, in := range []string{"", "much", "7.9", "41"} {
		if v, err := ParseOverlap(in, MM); err == nil {
			t.Errorf("ParseOverlap(%q) = %v, want an error", in, v)
		}
	}
}

func TestReadPaper(t *testing.T) {
	doc, fs := Read("rib.toml", []byte("units = \"in\"\n[section]\nnaca = \"4412\"\n[rib]\nchord = 48\n[paper]\nsize = \"24x36\"\nturn = \"landscape\"\nmargin = [0.25, \"6 mm\", 0.5, 0.75]\noverlap = \"1/2\"\nprinted = \"3.97x4.06\"\n"))
	want := Paper{"24x36", 609.6, 914.4, "landscape", Margins{6.35, 6, 12.7, 19.05}, 12.7, Printed{0.9925, 1.015}}
	want.W, want.H = inchesMM(24), inchesMM(36)
	if got := doc.Paper; len(fs) > 0 || got.Size != want.Size || got.Turn != want.Turn || got.Margin != want.Margin || got.Overlap != want.Overlap ||
		math.Abs(got.W-want.W)+math.Abs(got.H-want.H)+math.Abs(got.Printed.Across-0.9925)+math.Abs(got.Printed.Up-1.015) > 1e-9 {
		t.Errorf("got %+v, want %+v\n%s", doc.Paper, want, text(fs))
	}
	_, fs = Read("rib.toml", []byte("units = \"mm\"\n[section]\nnaca = \"4412\"\n[rib]\nchord = 1200\n[paper]\nprinted = \"100.02x99.97\"\n"))
	if len(fs) != 1 || fs[0].Code != CodePrintedDoubt || fs[0].Severity.String() != "note" || fs[0].Line != 7 {
		t.Errorf("a true printer: %s", text(fs))
	}
}
