package list_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"reflect"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/list"
	"ribwright/geom/outside"
)

func cutList() export.Table {
	return export.Table{
		ID: "cut-list", Title: "Sticks | cutting order",
		Columns: []export.Column{
			{Key: "id", Head: "stick"},
			{Key: "length_mm", Head: "long point", Unit: "in", Right: true},
			{Key: "note", Head: "note"},
		},
		Rows: [][]export.Cell{
			{export.Str("S1"), export.Num(123.825, "4 7/8"), export.Str("=1+1")},
			{export.Str("S2"), export.Num(-0.00000001, "0"), export.Str(`a|b, "c" <b> 5 < 6`)},
			{export.Str("S10"), export.Num(1e7, "10,000,000"), export.Str("-3.5")},
			{export.Str("−"), export.Num(38, ""), export.Str("two\nlines é")},
		},
		Notes: []string{"Saw kerf 1/16 in.", "@home"},
	}
}

func glueList() export.Table {
	return export.Table{ID: "glue", Title: "Glue", Columns: []export.Column{{Key: "mass_g", Head: "mass", Unit: "g", Right: true}},
		Rows: [][]export.Cell{{export.Num(12.5, "12.5")}}}
}

func written(t *testing.T, f func(io.Writer, ...export.Table) error, tables ...export.Table) string {
	t.Helper()
	var b, again bytes.Buffer
	for _, w := range []*bytes.Buffer{&b, &again} {
		if err := f(w, tables...); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(b.Bytes(), again.Bytes()) {
		t.Error("two runs differ")
	}
	return b.String()
}

func TestCSVOne(t *testing.T) {
	got := written(t, list.CSV, cutList())
	want := "id,length_mm,note\r\n" +
		"S1,123.825,'=1+1\r\n" +
		"S2,0,\"a|b, \"\"c\"\" <b> 5 < 6\"\r\n" +
		"S10,10000000,-3.5\r\n" +
		"−,38,\"two\r\nlines é\"\r\n"
	if got != want {
		t.Errorf("got\n%q\nwant\n%q", got, want)
	}
	rows, err := csv.NewReader(strings.NewReader(got)).ReadAll()
	if err != nil || len(rows) != 5 {
		t.Errorf("read back %d rows, %v; want 5", len(rows), err)
	}
}

func TestCSVSeveral(t *testing.T) {
	got := written(t, list.CSV, glueList(), cutList())
	if want := "Glue\r\nmass_g\r\n12.5\r\n\r\nSticks | cutting order\r\nid,length_mm,note\r\n"; !strings.HasPrefix(got, want) {
		t.Errorf("got\n%q\nwant it to begin\n%q", got, want)
	}
	if want := "Saw kerf 1/16 in.\r\n'@home\r\n"; !strings.HasSuffix(got, want) {
		t.Errorf("got\n%q\nwant it to end\n%q", got, want)
	}
}

// TestFormulas holds the texts that OWASP's page on CSV injection warns of.
func TestFormulas(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"=HYPERLINK(\"x\")", "'=HYPERLINK(\"x\")"}, {"+1-1", "'+1-1"}, {"-2+3", "'-2+3"}, {"@SUM(A1)", "'@SUM(A1)"},
		{"\tx", "'\tx"}, {"-3.5", "-3.5"}, {"+4", "+4"}, {"-1e3", "-1e3"}, {"-Inf", "'-Inf"}, {"-", "-"}, {"S1", "S1"}, {"", ""}, {"1-2", "1-2"},
	} {
		tb := export.Table{ID: "t", Columns: []export.Column{{Key: "a"}, {Key: "b"}}, Rows: [][]export.Cell{{export.Str(c.in), export.Str("x")}}}
		rows, err := csv.NewReader(strings.NewReader(written(t, list.CSV, tb))).ReadAll()
		if err != nil || rows[1][0] != c.want {
			t.Errorf("%q: got %q, %v, want %q", c.in, rows[1][0], err, c.want)
		}
	}
}

func TestJSON(t *testing.T) {
	got := written(t, list.JSON, cutList(), glueList())
	var back []struct {
		ID, Title string
		Columns   []export.Column
		Rows      []map[string]any
		Notes     []string
	}
	if err := json.Unmarshal([]byte(got), &back); err != nil {
		t.Fatalf("%v in\n%s", err, got)
	}
	if len(back) != 2 || back[0].ID != "cut-list" || len(back[0].Rows) != 4 || back[1].Notes == nil {
		t.Errorf("read back %+v", back)
	}
	want := map[string]any{"id": "S1", "length_mm": 123.825, "note": "=1+1"}
	if !reflect.DeepEqual(back[0].Rows[0], want) {
		t.Errorf("row 1: got %v, want %v", back[0].Rows[0], want)
	}
	if line := `{"id": "S1", "length_mm": 123.825, "note": "=1+1"}`; !strings.Contains(got, line) {
		t.Errorf("the keys of a row are not in order:\n%s\nwant %s", got, line)
	}
	if none := written(t, list.JSON); none != "[]\n" {
		t.Errorf("no tables: got %q", none)
	}
}

// TestPython reads CSV and JSON with another language's readers.
func TestPython(t *testing.T) {
	python := outside.Python(t, "json, csv")
	const program = `import sys, csv, json
rows = list(csv.DictReader(open(sys.argv[1], newline='', encoding='utf-8')))
print(len(rows), rows[0]['length_mm'], rows[1]['note'], rows[3]['note'].count('\n'))
print(json.load(open(sys.argv[2], encoding='utf-8'))[0]['rows'][0]['length_mm'] + 1)`
	c := outside.File(t, "t.csv", []byte(written(t, list.CSV, cutList())))
	j := outside.File(t, "t.json", []byte(written(t, list.JSON, cutList())))
	got := outside.Run(t, python, "-c", program, c, j)
	if want := "4 123.825 a|b, \"c\" <b> 5 < 6 1\n124.825\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestMarkdown(t *testing.T) {
	got := written(t, list.Markdown, cutList(), glueList())
	want := strings.Join([]string{
		`## Sticks \| cutting order`, ``,
		`| stick | long point (in) | note                 |`,
		`| ----- | --------------: | -------------------- |`,
		`| S1    |           4 7/8 | =1+1                 |`,
		`| S2    |               0 | a\|b, "c" \<b> 5 < 6 |`,
		`| S10   |      10,000,000 | -3.5                 |`,
		`| −     |              38 | two lines é          |`, ``,
		`- Saw kerf 1/16 in.`, `- @home`, ``,
		`## Glue`, ``,
		`| mass (g) |`, `| -------: |`, `|     12.5 |`, ``}, "\n")
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestRefused(t *testing.T) {
	nan, short, doubled := glueList(), glueList(), cutList()
	nan.Rows[0][0].Num = math.NaN()
	short.Rows = append(short.Rows, nil)
	doubled.Columns[1].Key = "id"
	for name, tables := range map[string][]export.Table{
		"NaN": {nan}, "a short row": {short}, "a doubled key": {doubled}, "two tables of one ID": {glueList(), glueList()},
	} {
		for _, f := range []func(io.Writer, ...export.Table) error{list.CSV, list.JSON, list.Markdown} {
			var b bytes.Buffer
			if err := f(&b, tables...); err == nil || b.Len() > 0 {
				t.Errorf("%s: got %q, %v; want an error and nothing written", name, b.String(), err)
			}
		}
	}
}

type fullDisk struct{}

var errFull = errors.New("disk full")

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }

func TestWriteError(t *testing.T) {
	for _, f := range []func(io.Writer, ...export.Table) error{list.CSV, list.JSON, list.Markdown} {
		if err := f(fullDisk{}, glueList()); !errors.Is(err, errFull) {
			t.Errorf("got %v, want %v", err, errFull)
		}
	}
}

func ExampleMarkdown() {
	t := export.Table{
		ID: "cut-list", Title: "Cut list",
		Columns: []export.Column{{Key: "stick", Head: "stick"}, {Key: "long_point_mm", Head: "long point", Unit: "in", Right: true}},
		Rows: [][]export.Cell{
			{export.Str("S1"), export.Num(123.825, "4 7/8")},
			{export.Str("S2"), export.Num(258.7625, "10 3/16")},
		},
	}
	if err := list.Markdown(os.Stdout, t); err != nil {
		fmt.Println(err)
	}
	fmt.Println()
	var b strings.Builder
	if err := list.CSV(&b, t); err != nil {
		fmt.Println(err)
	}
	fmt.Print(strings.ReplaceAll(b.String(), "\r\n", "\n"))
	// Output:
	// ## Cut list
	//
	// | stick | long point (in) |
	// | ----- | --------------: |
	// | S1    |           4 7/8 |
	// | S2    |         10 3/16 |
	//
	// stick,long_point_mm
	// S1,123.825
	// S2,258.7625
}

func BenchmarkCSV(b *testing.B) {
	t := cutList()
	for range 1000 {
		t.Rows = append(t.Rows, t.Rows[0])
	}
	for b.Loop() {
		if err := list.CSV(io.Discard, t); err != nil {
			b.Fatal(err)
		}
	}
}

// TestMarkdownWithoutRows holds that a table without rows has its notes alone.
func TestMarkdownWithoutRows(t *testing.T) {
	tab := glueList()
	tab.Rows, tab.Notes = nil, []string{"No glue."}
	if got, want := written(t, list.Markdown, tab), "## Glue\n\n- No glue.\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// TestMarkdownBlanks holds that a cell is one line with single blanks, whatever blanks it came with.
func TestMarkdownBlanks(t *testing.T) {
	for s, want := range map[string]string{
		" a  b ": "a b", "a\tb\nc": "a b c", "a b": "a b", "a ": "a", " ": "", "ä\u00a0b": "ä b", "a\u2003": "a", "x | <b": "x \\| \\<b",
	} {
		tab := export.Table{ID: "t", Columns: []export.Column{{Key: "k", Head: "k"}}, Rows: [][]export.Cell{{export.Str(s)}}}
		rows := strings.Split(written(t, list.Markdown, tab), "\n")
		if got := strings.TrimSuffix(strings.TrimPrefix(rows[2], "| "), " |"); strings.TrimRight(got, " ") != want {
			t.Errorf("%q: got %q, want %q", s, got, want)
		}
	}
}
