package airfoils

import (
	"math"
	"os"
	"strings"
	"testing"
)

// A sheared flat-bottomed section names the shift that puts its flat back on its axis, in the table's unit.
func TestShearBack(t *testing.T) {
	for _, c := range []struct {
		file, want string
	}{
		{"good-sheared-clark-y.txt", "3.5 at the leading edge, 0 at the trailing edge"},
		{"good-sheared-lengths.txt", "2.1 at the leading edge, 0 at the trailing edge"},
		{"good-sheared-unit.txt", "0.035 at the leading edge, 0 at the trailing edge"},
	} {
		_, found := Read(c.file, mustRead(t, c.file))
		if len(found) != 1 || !strings.Contains(found[0].Fix, c.want) {
			t.Errorf("%s: got %v, want a remedy with %q", c.file, found, c.want)
		}
	}
}

// However a table is written down, it is the same section. The table is Clark Y's.
func TestSameTable(t *testing.T) {
	want, _ := Builtin("clark-y")
	rows := strings.Split(strings.TrimSpace(strings.TrimPrefix(string(mustRead(t, "good-three-percent.txt")), "Clark Y")), "\n")[:17]
	each := func(f func(x, u, l string) string) []string {
		var out []string
		for _, r := range rows {
			w := strings.Fields(r)
			out = append(out, f(w[0], w[1], w[2]))
		}
		return out
	}
	comma := func(s string) string { return strings.ReplaceAll(s, ".", ",") }
	uppers := each(func(x, u, _ string) string { return x + " " + u })
	lowers := each(func(x, _, l string) string { return x + " " + l })
	for name, lines := range map[string][]string{
		"semicolons":      each(func(x, u, l string) string { return comma(x + " ;" + u + "; " + l + ";") }),
		"comma and space": each(func(x, u, l string) string { return comma(x) + ", " + comma(u) + ", " + comma(l) }),
		"quoted":          each(func(x, u, l string) string { return `"` + x + `","` + u + `","` + l + `"` }),
		"percent signs":   each(func(x, u, l string) string { return x + "% " + u + "% " + l + "%" }),
		"low. up. sta.":   append([]string{"Low. Up. Sta."}, each(func(x, u, l string) string { return l + " " + u + " " + x })...),
		"headings": append(append(append([]string{"Plans 3", "UPPER SURFACE", "x  y"}, uppers...), "LOWER SURFACE", "x  y"),
			lowers...),
		"empty line":   append(append(uppers[:17:17], ""), lowers...),
		"four columns": append([]string{"xu yu xl yl"}, each(func(x, u, l string) string { return x + " " + u + " " + x + " " + l })...),
		"pages":        append(append(rows[:9:9], "", "- 2 -", "station upper lower", ""), rows[9:]...),
	} {
		s, found := Read(name, []byte(strings.Join(lines, "\n")))
		if len(found) > 0 || len(s.Upper) != len(want.Upper) || len(s.Lower) != len(want.Lower) {
			t.Errorf("%s: %v, %d and %d points", name, found, len(s.Upper), len(s.Lower))
			continue
		}
		for i, p := range want.Upper {
			if s.Upper[i].Dist(p) > 1e-12 || s.Lower[i].Dist(want.Lower[i]) > 1e-12 {
				t.Errorf("%s: point %d: got %v and %v, want %v and %v", name, i, s.Upper[i], s.Lower[i], p, want.Lower[i])
			}
		}
	}
}

// No printed table is taken for one that is measured down or from a base line below; NACA Report 824.
func TestPrintedTablesRaiseNoAlarm(t *testing.T) {
	for name, rows := range printed(t) {
		s, found := Ordinates(rows)
		if len(found) > 0 || s.Datum != "the chord line, from leading to trailing edge" {
			t.Errorf("NACA %s: %v, datum %q", name, found, s.Datum)
		}
	}
	if s, _ := Read("clark.txt", mustRead(t, "good-three-percent.txt")); !strings.Contains(s.Datum, "leading edge at 3.5 %") {
		t.Errorf("Clark Y: datum %q", s.Datum)
	}
}

// The radius, its unit, and its slope or centre, as plans write them above a table of NACA 2412 in percent.
func TestNoseCircle(t *testing.T) {
	table := string(mustRead(t, "good-numeric-title-short.txt"))
	table = table[strings.Index(table, "\n"):]
	for _, c := range []struct {
		text          string
		radius, slope float64 // percent; radius 0: refused
	}{
		{"L.E. radius 1.58", 1.58, 0},
		{"LE rad. = 1.58 %", 1.58, 0},
		{"Leading-edge radius: 0.0158c", 1.58, 0},
		{"Radius of nose 1.58 percent of chord", 1.58, 0},
		{"L. E. Radius 1 1/2", 1.5, 0},
		{"L.E. radius 1.58, slope of radius through L.E. 2/20", 1.58, 0.1},
		{"Nose radius 1.58 with centre at 1.572, 0.157", 1.58, 0.09987},
		{"L.E. radius 0", 0, 0},
		{"L.E. radius 1.58 in.", 0, 0},
		{"L.E. radius 0.0158", 0, 0},
		{"L.E. radius 1.58, centre at 15.8, 0", 0, 0},
	} {
		s, found := Read("t.txt", []byte(c.text+table))
		if math.Abs(100*s.NoseRadius-c.radius) > 1e-9 || math.Abs(s.NoseSlope-c.slope) > 1e-4 || (len(s.Upper) == 0) != (c.radius == 0) {
			t.Errorf("%q: got %v %% and %v, %v; want %v %% and %v", c.text, 100*s.NoseRadius, s.NoseSlope, found, c.radius, c.slope)
		}
	}
}

func mustRead(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(corpus + "/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}
