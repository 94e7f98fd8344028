package airfoils

import (
	"fmt"
	"math"
	"math/rand"
	"os"
	"strconv"
	"strings"
	"testing"

	"ribwright/geom/finding"
)

// printedTable is a published table, its figures as they are printed.
type printedTable struct {
	name string
	rows [][]string // station, upper, lower
}

// printedTables reads the tables of NACA Report 824 and of the classic sections; the files say whence.
func printedTables(t *testing.T) []printedTable {
	t.Helper()
	var out []printedTable
	for _, file := range []string{"naca-report-824.txt", "classic-sections.txt"} {
		data, err := os.ReadFile("../testdata/airfoils/printed/" + file)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range strings.Split(string(data), "\n") {
			if head, ok := strings.CutPrefix(l, "#"); ok {
				name, rest, _ := strings.Cut(head, ":")
				if strings.HasPrefix(strings.TrimSpace(rest), "station") {
					out = append(out, printedTable{name: strings.TrimSpace(name)})
				}
				continue
			}
			w := strings.Fields(l)
			if len(w) == 2 { // symmetrical
				w = append(w, "-"+w[1])
			}
			if len(w) == 3 && len(out) > 0 {
				out[len(out)-1].rows = append(out[len(out)-1].rows, w)
			}
		}
	}
	if len(out) != 13 {
		t.Fatalf("read %d tables, want 13: %v", len(out), out)
	}
	return out
}

// text writes the table as a file of three columns; row i stands on line i + 2.
func (p printedTable) text() []byte {
	var b strings.Builder
	b.WriteString(p.name + "\n")
	for _, r := range p.rows {
		b.WriteString(strings.Join(r, " ") + "\n")
	}
	return []byte(b.String())
}

// told returns the lines that findings accuse.
func told(found []finding.Finding) []int {
	var out []int
	for _, f := range found {
		if f.Severity != finding.Note {
			out = append(out, f.Line)
		}
	}
	return out
}

// TestPrintedTablesAreFair counts the rows of untouched tables that are called wrong.
func TestPrintedTablesAreFair(t *testing.T) {
	rows, alarms := 0, 0
	for _, p := range printedTables(t) {
		_, found := Read("t.txt", p.text())
		rows += len(p.rows)
		for _, f := range found {
			if f.Severity != finding.Note {
				alarms++
				t.Logf("%s: %v", p.name, f)
			}
		}
	}
	t.Logf("untouched tables: %d false alarms in %d rows, %.2f %%", alarms, rows, 100*float64(alarms)/float64(rows))
	if float64(alarms) > 0.01*float64(rows) {
		t.Errorf("got %d false alarms in %d rows, want at most 1 %%", alarms, rows)
	}
}

// trial is a table with one planted mistake.
type trial struct {
	kind, where string
	table       printedTable
	line        int // where the mistake stands; of a lost point, the line of the row after the gap
}

// plant makes the trial's mistake; it is not ok where the row bears none of that kind.
func plant(rng *rand.Rand, p printedTable, kind string) (trial, bool) {
	i, col := rng.Intn(len(p.rows)), 1+rng.Intn(2)
	rows := make([][]string, len(p.rows))
	for k := range rows {
		rows[k] = append([]string(nil), p.rows[k]...)
	}
	tr := trial{kind: kind, line: i + 2, where: "inner rows"}
	x, _ := strconv.ParseFloat(rows[i][0], 64)
	switch {
	case i == 0:
		tr.where = "leading edge"
	case i == len(rows)-1:
		tr.where = "trailing edge"
	case x < 5:
		tr.where = "near the nose"
	}
	was, err := strconv.ParseFloat(rows[i][col], 64)
	if err != nil {
		panic(err)
	}
	switch kind {
	case "off by 0.3 to 2 %":
		e := 0.3 + 1.7*rng.Float64()
		if rng.Intn(2) == 0 {
			e = -e
		}
		rows[i][col] = strconv.FormatFloat(was+e, 'f', 2, 64)
	case "digit swap":
		s := []byte(rows[i][col])
		a := rng.Intn(len(s))
		b := a + 1
		if b < len(s) && s[b] == '.' {
			b++
		}
		if b >= len(s) || s[a] == '.' || s[a] == '-' {
			return trial{}, false
		}
		s[a], s[b] = s[b], s[a]
		if now, err := strconv.ParseFloat(string(s), 64); err != nil || math.Abs(now-was) < 0.3 {
			return trial{}, false
		}
		rows[i][col] = string(s)
	case "lost point":
		rows = append(rows[:i], rows[i+1:]...)
		tr.line = min(i, len(rows)-1) + 2
	}
	tr.table = printedTable{p.name, rows}
	return tr, true
}

// TestPlantedMistakes plants 500 mistakes in published tables, and prints how many are found in their row.
func TestPlantedMistakes(t *testing.T) {
	const trials, want = 500, 0.95
	var tables []printedTable
	for _, p := range printedTables(t) {
		if p.name != "GOE 398" && p.name != "Clark YH" { // not sure to be as printed
			tables = append(tables, p)
		}
	}
	kinds := []string{"off by 0.3 to 2 %", "digit swap", "lost point"}
	type rate struct{ found, of, more int }
	rates := map[string]*rate{}
	add := func(key string, hit, more bool) {
		if rates[key] == nil {
			rates[key] = &rate{}
		}
		r := rates[key]
		r.of++
		if hit {
			r.found++
		}
		if more {
			r.more++
		}
	}
	rng := rand.New(rand.NewSource(3))
	for n := 0; n < trials; {
		tr, ok := plant(rng, tables[rng.Intn(len(tables))], kinds[n%len(kinds)])
		if !ok {
			continue
		}
		n++
		_, found := Read("t.txt", tr.table.text())
		hit, more := false, false
		for _, l := range told(found) {
			hit = hit || l == tr.line
			more = more || l != tr.line
		}
		if !hit {
			t.Logf("not found: %s, %s, line %d: %v", tr.table.name, tr.kind, tr.line, tr.table.rows[tr.line-2])
		}
		add("all", hit, more)
		add(tr.kind, hit, more)
		add(tr.kind+", "+tr.where, hit, more)
	}
	keys := append([]string{"all"}, kinds...)
	for _, k := range kinds {
		for _, w := range []string{"leading edge", "near the nose", "inner rows", "trailing edge"} {
			keys = append(keys, k+", "+w)
		}
	}
	report := ""
	for _, k := range keys {
		if r := rates[k]; r != nil {
			report += fmt.Sprintf("%-34s found and placed %3d of %3d, %5.1f %%; other rows accused, too, in %d\n", k, r.found, r.of, 100*float64(r.found)/float64(r.of), r.more)
		}
	}
	t.Log("planted mistakes:\n" + report)
	if r := rates["all"]; float64(r.found) < want*float64(r.of) {
		t.Errorf("got %d of %d found, want %v", r.found, r.of, want)
	}
	if r := rates["all"]; r.more > 5 {
		t.Errorf("other rows were accused in %d trials, want at most 5", r.more)
	}
}
