package airfoils

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"ribwright/geom/finding"
)

// TestCauses spoils one figure of a table in each of the ways that are told apart.
func TestCauses(t *testing.T) {
	clark := printedTable{}
	for _, p := range printedTables(t) {
		if p.name == "Clark Y" {
			clark = p
		}
	}
	for _, c := range []struct {
		row, col int
		wrong    string
		cause    Cause
		likely   string
	}{
		{11, 1, "9.51", DigitSwap, "9.15"},
		{5, 1, "6.90", DigitSwap, "9.60"},
		{10, 1, "1.052", DecimalPoint, "10.520"},
		{14, 1, "0.28", DecimalPoint, "2.80"},
		{2, 2, "-1.47", WrongSign, "1.47"},
		{9, 1, "12.40", NoCause, ""},
		{0, 1, "5.30", TwoNoses, "3.50"},
		{0, 2, "2.00", TwoNoses, "3.50"},
	} {
		rows := make([][]string, len(clark.rows))
		for i := range rows {
			rows[i] = append([]string(nil), clark.rows[i]...)
		}
		rows[c.row][c.col] = c.wrong
		_, found := Read("t.txt", printedTable{"Clark Y", rows}.text())
		var f finding.Finding
		for _, g := range found {
			if g.Code == "section-unfair" {
				f = g
			}
		}
		if f.Line != c.row+2 || f.Severity != finding.Warning || !strings.Contains(f.Message, "likely to be "+c.likely) || !strings.Contains(f.Message, c.cause.String()) {
			t.Errorf("%v for %s: got %v, want %q, likely %s", c.wrong, clark.rows[c.row][c.col], found, c.cause, c.likely)
		}
	}
}

// TestNeighbourFraction reads a table in sixteenths of an inch with one ordinate a sixteenth off.
func TestNeighbourFraction(t *testing.T) {
	const chord, row = 16.0, 7
	for _, by := range []float64{-1, 1} {
		var b strings.Builder
		var rows [][3]float64
		s, _ := Builtin("clark-y")
		for i, p := range s.Upper {
			y, l := math.Round(p.Y*chord*32)/32, math.Round(s.Lower[i].Y*chord*32)/32
			if i == row {
				y += by / 16
			}
			fmt.Fprintf(&b, "%v %s %s\n", p.X*chord, fractionText(64*y), fractionText(64*l))
			rows = append(rows, [3]float64{100 * p.X, 100 * y / chord, 100 * l / chord})
		}
		want := fractionText(64 * math.Round(s.Upper[row].Y*chord*32) / 32)
		_, read := Read("t.txt", []byte(b.String()))
		_, given := OrdinatesOn(rows, chord)
		for _, found := range [][]finding.Finding{read, given} {
			if len(found) != 1 || !strings.Contains(found[0].Message, "likely to be "+want+": the neighbouring fraction") || found[0].Line+len(found[0].Key) == 0 {
				t.Errorf("%v/16 off: got %v, want the neighbouring fraction, %s", by, found, want)
			}
		}
	}
}

// TestSuspectsInABreath holds the time that the largest table that is judged takes.
func TestSuspectsInABreath(t *testing.T) {
	var b strings.Builder
	const n = mostJudged / 2
	for i := range n {
		x := float64(i) / (n - 1)
		y := 0.3*math.Sqrt(x)*(1-x) + 0.0003*math.Sin(float64(i*i))
		fmt.Fprintf(&b, "%.6f %.6f %.6f\n", x, y, -y-0.002)
	}
	start := time.Now()
	s, _ := Read("t.txt", []byte(b.String()))
	if took := time.Since(start); took > 10*time.Second || len(s.Upper) == 0 {
		t.Errorf("%d points took %v", len(s.Upper), took)
	} else {
		t.Logf("%d points took %v", len(s.Upper), took)
	}
}
