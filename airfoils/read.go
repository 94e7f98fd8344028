package airfoils

import (
	"bytes"
	"fmt"
	"path"
	"strings"
	"unicode"

	"ribwright/geom/finding"
)

// Read returns the section in a table file. The three forms it knows:
//
//   - two columns "x y", continuous: trailing edge, over the upper side, round the leading edge, back
//     along the lower side; the trailing edge stands there once or twice;
//   - two columns after a line of two point counts: upper side, then lower side, each nose to tail;
//   - three columns, station, upper and lower ordinate, nose to tail.
//
// Columns are parted by commas, tabs or spaces, "#" begins a comment, a title may stand on top, and
// "# Source: …" names the publication. Numbers are decimals or fractions ("5/16", "1 1/4", "3-7/16").
// Where the largest station is 1 or 100, within a hundredth, the table is in shares or percent of the
// chord; otherwise it is in lengths of any unit, and the largest station is the chord. The section's Form
// says what the file was taken for. The file's name serves the findings only; nothing is opened.
func Read(file string, data []byte) (Section, []finding.Finding) {
	c := &checker{file: file}
	s := Section{Name: baseName(file)}
	if bytes.IndexByte(data, 0) >= 0 || bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) {
		c.refuse(place{line: 1, column: 1}, "section-text", "Save the table as plain text (UTF-8).", "the file is not plain text")
		return s, c.found
	}
	lines, source := splitLines(data)
	s.Source = source
	n := columnsOf(lines)
	first := firstRow(lines, n)
	if first > 0 {
		s.Name = printable(lines[0].text)
	}
	if first == len(lines) {
		c.refuse(place{line: 1, column: 1}, "section-empty", "Give a row of two or three numbers for each station; decimals are written with a point.",
			"the file holds no rows of numbers")
		return s, c.found
	}
	if len(lines)-first > most {
		c.refuse(place{line: lines[first+most].number, column: 1}, "section-many", "Leave points out: a few hundred draw any section.",
			"the table has %d rows, more than %d", len(lines)-first, most)
		return s, c.found
	}
	rows := c.rows(lines[first:], n)
	var t table
	switch {
	case len(rows) == 0:
	case n == 3:
		t = c.three(rows)
	case isCounts(rows):
		t = c.twoSurfaces(rows)
	default:
		t = c.continuous(rows)
	}
	s.Form = t.form
	if c.length {
		s.Chord = c.scale
	}
	c.finish(&s, t)
	return s, finding.Sort(c.found)
}

// table is what a form's reader made of the rows: the sides, nose to tail.
type table struct {
	upper, lower []node
	form         string
}

// finish gives the section its points, unless the table was refused.
func (c *checker) finish(s *Section, t table) {
	if c.failed() || len(t.upper) == 0 || len(t.lower) == 0 {
		return
	}
	s.Upper, s.Lower = c.share(t.upper), c.share(t.lower)
	c.remark(s, t)
	c.unfair(s, t)
}

// baseName returns a file's name without folders and ending, as a title.
func baseName(file string) string {
	b := path.Base(strings.ReplaceAll(file, `\`, "/"))
	if name := strings.TrimSuffix(b, path.Ext(b)); name != "" && name != "." && name != "/" {
		return name
	}
	return ""
}

// printable drops control characters from a title.
func printable(title string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return -1
		}
		return r
	}, title))
}

// columnsOf returns the number of columns that most of the numeric rows have: 3 or 2, or whatever else
// they have where none has either; 0 without rows.
func columnsOf(lines []line) int {
	var two, three int
	other := map[int]int{}
	for i := range lines {
		if len(lines[i].words) < 2 || !lines[i].numeric() {
			continue
		}
		least, most := lines[i].columns()
		if least <= 2 && 2 <= most {
			two++
		}
		if least <= 3 && 3 <= most {
			three++
		}
		other[least]++
	}
	switch {
	case three > 0 && three >= two:
		return 3
	case two > 0:
		return 2
	}
	best := 0
	for n, count := range other {
		if best == 0 || count > other[best] || count == other[best] && n < best {
			best = n
		}
	}
	return best
}

// firstRow returns the index of the table's first row: the first line of numbers, or one of three columns
// that wants to be, with one of them misspelt. What stands above is title and headings.
func firstRow(lines []line, n int) int {
	for i := range lines {
		words := lines[i].words
		if len(words) < 2 {
			continue
		}
		if lines[i].numeric() {
			return i
		}
		good := 0
		for _, w := range words {
			if _, ok := number(w.text); ok {
				good++
			}
		}
		if _, ok := number(words[0].text); ok && n == 3 && len(words) == 3 && good == 2 {
			return i
		}
	}
	return len(lines)
}

// row is a line of the table that could be read.
type row struct {
	cells []cell
	line  int
}

type cell struct {
	v    float64
	text string
	at   place
}

// rows reads lines of n columns, and reports all that are none.
func (c *checker) rows(lines []line, n int) []row {
	if n != 2 && n != 3 {
		c.refuse(place{line: lines[0].number, column: lines[0].words[0].column}, "section-columns",
			"A table has two columns, x and y, or three: station, upper, lower. If its decimals are written with a comma, write them with a point.",
			"the table has %d columns", n)
		return nil
	}
	out := make([]row, 0, len(lines))
	for i := range lines {
		if r, ok := c.row(&lines[i], n); ok {
			out = append(out, r)
		} else {
			c.broken = true
		}
	}
	return out
}

func (c *checker) row(l *line, n int) (row, bool) {
	words, sure, ok := l.fields(n)
	at := func(column int) place { return place{line: l.number, column: column} }
	switch {
	case !ok && !l.numeric():
		for _, w := range l.words {
			if _, good := number(w.text); !good {
				c.notNumber(at(w.column), w.text, "Take the line out, put # before it, or put the number right.")
				return row{}, false
			}
		}
	case !ok && len(l.words) > n:
		c.refuse(at(l.words[n].column), "section-columns", "Take out what is too much. Decimals are written with a point; a fraction may be written 1-1/4.",
			"this line has %d columns, the table has %d", len(l.words), n)
		return row{}, false
	case !ok:
		last := l.words[len(l.words)-1]
		c.refuse(at(last.column+len([]rune(last.text))), "section-columns", "Give the number that is missing.",
			"this line has %d columns, the table has %d", len(l.words), n)
		return row{}, false
	case !sure:
		c.refuse(at(l.words[0].column), "section-fraction", "Write whole number and fraction with a hyphen, 1-1/4, or put commas between the columns.",
			"it is not clear which of the whole numbers and fractions on this line belong together")
		return row{}, false
	}
	r := row{line: l.number, cells: make([]cell, 0, n)}
	good := true
	for _, w := range words {
		v, ok := number(w.text)
		if !ok {
			c.notNumber(at(w.column), w.text, "Put the number right. Decimals are written with a point, fractions as 5/16 or 3-7/16.")
			good = false
		}
		r.cells = append(r.cells, cell{v, w.text, at(w.column)})
	}
	return r, good
}

func (c *checker) notNumber(at place, text, fix string) {
	if text == "" {
		c.refuse(at, "section-number", "Give the number, or take the comma out.", "a number is missing between two commas")
		return
	}
	if r := []rune(text); len(r) > 30 {
		text = string(r[:30]) + "…"
	}
	c.refuse(at, "section-number", fix, "“%s” is not a number", text)
}

func point(x, y cell) node { return node{x.v, y.v, x.text, y.text, x.at, y.at} }

// counted writes "17 upper and 16 lower points".
func counted(upper, lower int) string {
	return fmt.Sprintf("%d upper and %d lower points", upper, lower)
}
