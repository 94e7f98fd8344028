package airfoils

import (
	"fmt"
	"math"
	"slices"
	"testing"
)

func clarkRows() [][3]float64 {
	s, _ := Builtin("clark-y")
	var rows [][3]float64
	for i, p := range s.Upper {
		rows = append(rows, [3]float64{100 * p.X, 100 * p.Y, 100 * s.Lower[i].Y})
	}
	return rows
}

func TestOrdinates(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name string
		edit func(r [][3]float64) [][3]float64
		want []string // code and key
	}{
		{"as printed", func(r [][3]float64) [][3]float64 { return r }, nil},
		{"ends at 99.5", func(r [][3]float64) [][3]float64 { r[16][0] = 99.5; return r }, nil},
		{"none", func(r [][3]float64) [][3]float64 { return nil }, []string{"section-few section.ordinates"}},
		{"four", func(r [][3]float64) [][3]float64 { return append(r[:3:3], r[16]) }, []string{"section-few section.ordinates[3]"}},
		{"ends at 95", func(r [][3]float64) [][3]float64 { return r[:16] }, []string{"section-end section.ordinates[15]"}},
		{"starts late", func(r [][3]float64) [][3]float64 { return r[1:] }, []string{"section-start section.ordinates[0]"}},
		{"NaN", func(r [][3]float64) [][3]float64 { r[4][1] = nan; return r }, []string{"section-number section.ordinates[4]"}},
		{"all NaN", func(r [][3]float64) [][3]float64 { return [][3]float64{{nan, 0, 0}} }, []string{"section-number section.ordinates[0]"}},
		{"swapped rows", func(r [][3]float64) [][3]float64 { r[4], r[5] = r[5], r[4]; return r }, []string{"section-order section.ordinates[5]"}},
		{"doubled", func(r [][3]float64) [][3]float64 { return slices.Insert(r, 4, r[4]) }, []string{"section-doubled section.ordinates[5]"}},
		{"crossed", func(r [][3]float64) [][3]float64 { r[8][1], r[8][2] = 0, 11.7; return r }, []string{"section-crossed section.ordinates[8]"}},
		{"absurd", func(r [][3]float64) [][3]float64 { r[8][1] = 1170; return r }, []string{"section-ordinate section.ordinates[8]"}},
		{"two mistakes", func(r [][3]float64) [][3]float64 { r[2][2] = nan; r[8][1] = -1; return r },
			[]string{"section-number section.ordinates[2]", "section-crossed section.ordinates[8]"}},
	} {
		s, found := Ordinates(c.edit(clarkRows()))
		var got []string
		for _, f := range found {
			got = append(got, f.Code+" "+f.Key)
			if f.File != "" || f.Line != 0 || f.Fix == "" {
				t.Errorf("%s: %+v", c.name, f)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: got %v, want %v", c.name, found, c.want)
		}
		if (len(found) == 0) != (len(s.Upper) > 0) {
			t.Errorf("%s: %d points", c.name, len(s.Upper))
		}
	}
}

// The note on a section moved to (0, 0): every printed table is free of it, the moved Clark Y has it.
func TestSheared(t *testing.T) {
	tables := printed(t)
	tables["Clark Y"] = clarkRows()
	for name, rows := range tables {
		if _, found := Ordinates(rows); len(found) > 0 {
			t.Errorf("%s: %v", name, found)
		}
	}
	rows := clarkRows()
	for i, r := range rows {
		down := 3.5 * (1 - r[0]/100)
		rows[i] = [3]float64{r[0], math.Round(1000*(r[1]-down)) / 1000, math.Round(1000*(r[2]-down)) / 1000}
	}
	if s, found := Ordinates(rows); len(found) != 1 || found[0].Code != "section-sheared" || len(s.Upper) == 0 {
		t.Errorf("moved Clark Y: %v, want a note", found)
	}
}

func TestNumber(t *testing.T) {
	for in, want := range map[string]string{
		"1.25": "1.25 true", "-.5": "-0.5 true", "5.": "5 true", "1e-3": "0.001 true", "+2": "2 true", "−3": "-3 true", "-0": "0 true",
		"5/16": "0.3125 true", "3-7/16": "3.4375 true", "-3-7/16": "-3.4375 true", "-1/8": "-0.125 true",
		"": "0 false", ".": "0 false", "-": "0 false", "--1": "0 false", "1/0": "0 false", "1/": "0 false", "/2": "0 false", "1/2/3": "0 false",
		"1.5/2": "0 false", "0x10": "0 false", "inf": "0 false", "NaN": "0 false", "1_000": "0 false", "1e": "0 false", "e": "0 false", "1-2": "0 false",
	} {
		v, ok := number(in)
		if got := fmt.Sprint(v, ok); got != want && !(want == "0 false" && !ok) {
			t.Errorf("number(%q) = %s, want %s", in, got, want)
		}
	}
}
