package csvtable

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

func ExampleRead() {
	t, _ := Read([]byte("# weighed on the small scale\nrib;mass;note\r\n7;241,5;\"clean; dry\"\r\n\r\n"), 10, 100)
	for _, row := range t.Rows {
		for _, c := range row {
			fmt.Printf("%d:%d %s\n", c.Line, c.Column, c.Text)
		}
	}
	fmt.Println(t.Point("241,5"))
	// Output:
	// 2:1 rib
	// 2:5 mass
	// 2:10 note
	// 3:1 7
	// 3:3 241,5
	// 3:9 clean; dry
	// 241.5
}

// TestRead reads what spreadsheets and people save: RFC 4180 and what comes instead of it.
func TestRead(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"plain", "a,b\n1,2\n", "a|b / 1|2"},
		{"RFC 4180, line ends and quotes", "a,b\r\n\"1,5\",\"say \"\"2\"\"\"\r\n", `a|b / 1,5|say "2"`},
		{"a line end in quotes", "a,b\n\"one\ntwo\",3\n", "a|b / one\ntwo|3"},
		{"old machines", "a,b\r1,2\r", "a|b / 1|2"},
		{"byte-order mark, semicolons", "\ufeffa;b\n1,5;2\n", "a|b / 1,5|2"},
		{"tabs and spaces", " a\tb \n 1 \t2", "a|b / 1|2"},
		{"Windows-1252", "a,b\n20 \xb0C,\x93so\x94\n", "a|b / 20 °C|“so”"},
		{"empty lines and cells", "\n a,b\n,,\n\n1,\n", "a|b / 1|"},
		{"an inch's mark", "a,b\n5/16\",2\n", `a|b / 5/16"|2`},
		{"nothing", "", ""},
		{"comments alone", "# a\n#b\n", ""},
	} {
		got, broken := Read([]byte(c.text), 10, 10)
		var rows []string
		for _, r := range got.Rows {
			var cells []string
			for _, one := range r {
				cells = append(cells, one.Text)
			}
			rows = append(rows, strings.Join(cells, "|"))
		}
		if s := strings.Join(rows, " / "); s != c.want || broken.Fault != None {
			t.Errorf("%s: got %q, %+v, want %q", c.name, s, broken, c.want)
		}
	}
}

// TestBroken holds where reading ends, and that the rows before stay.
func TestBroken(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       Broken
		rows       int
	}{
		{"not text", "a\x00b", Broken{NotText, 1, 1, 0}, 0},
		{"two bytes a character", "\xff\xfea\n", Broken{NotText, 1, 1, 0}, 0},
		{"wide", "a,b\n1,2,3,4\n", Broken{Wide, 2, 1, 4}, 1},
		{"long", "a\n1\n2\n\n3\n", Broken{Long, 5, 1, 0}, 3},
	} {
		got, broken := Read([]byte(c.text), 3, 3)
		if broken != c.want || len(got.Rows) != c.rows {
			t.Errorf("%s: got %+v after %d rows, want %+v after %d", c.name, broken, len(got.Rows), c.want, c.rows)
		}
	}
}

// FuzzRead holds that every cell has a place in the file and no spaces round it.
func FuzzRead(f *testing.F) {
	for _, s := range []string{"a,b\n1,2\n", "\ufeffa;b\r\n\"1\n2\";3", "# x\na\tb\r", "\"", "a\n\"b", "\x93,\xb0\n"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		got, broken := Read(data, 20, 50)
		lines := got.Lines
		if broken.Fault == NotText {
			lines = 1
		}
		for _, c := range slices.Concat(got.Rows...) {
			if c.Line < 1 || c.Line > lines || c.Column < 1 || c.Text != strings.TrimSpace(c.Text) {
				t.Fatalf("cell %+v of %d lines", c, lines)
			}
		}
		if broken.Fault != None && (broken.Line < 1 || broken.Column < 1) {
			t.Fatalf("%+v", broken)
		}
	})
}
