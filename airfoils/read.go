package airfoils

import (
	"bytes"
	"cmp"
	"fmt"
	"path"
	"slices"
	"strings"
	"unicode"

	"ribwright/geom/finding"
)

// Read returns the section in a table file. The forms it knows:
//
//   - two columns "x y", continuous: trailing edge, over the upper side, round the leading edge, back
//     along the lower side; the trailing edge stands there once or twice;
//   - two columns, upper side and then lower side, each nose to tail: after a line of two point counts, or
//     with a heading above each, "upper" and "lower", or with an empty line between;
//   - three columns, station, upper and lower ordinate, nose to tail; a heading that names the columns
//     gives their order, and may name more than are read;
//   - four columns under a heading "station ordinate station ordinate": upper side, lower side.
//
// Columns are parted by commas, semicolons, tabs or spaces, "#" begins a comment, a title may stand on
// top, and "# Source: …" names the publication. Numbers are decimals or fractions ("5/16", "1 1/4",
// "3-7/16"), with an inch or percent mark if need be; a decimal comma is read where it can be nothing else.
// Text around the table is skipped, but for what it says of units, of lower ordinates measured down, and
// of the leading-edge radius. Where the largest station is 1 or 100, within a hundredth, the table is in
// shares or percent of the chord; otherwise it is in lengths of any unit, and the largest station is the
// chord. The section's Form says what the file was taken for. The file's name serves the findings only;
// nothing is opened.
func Read(file string, data []byte) (Section, []finding.Finding) {
	c := &checker{file: file}
	s := Section{Name: baseName(file)}
	if bytes.IndexByte(data, 0) >= 0 || bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) {
		c.refuse(place{line: 1, column: 1}, "section-text", "Save the table as plain text (UTF-8).", "the file is not plain text")
		return s, c.found
	}
	texts := rawLines(data)
	d, unsure := dialectOf(texts)
	if unsure > 0 {
		c.refuse(place{line: unsure, column: 1}, "section-comma", "Write decimals with a point, or put semicolons between the columns and no points in the numbers.",
			"it is not clear whether the commas on this line part columns, decimals or thousands")
		return s, c.found
	}
	lines, source := splitLines(texts, d)
	s.Source = source
	lines, lying := across(lines)
	lines, named := c.nameless(lines)
	c.bracketed(lines)
	p := sortOut(lines)
	if p.title > 0 {
		s.Name = printable(lines[0].text)
	}
	if len(p.rows) == 0 {
		c.refuse(place{line: 1, column: 1}, "section-empty", "Give a row of two or three numbers for each station.", "the file holds no rows of numbers")
		return s, c.found
	}
	if len(p.rows) > most {
		c.refuse(place{line: p.rows[most].number, column: 1}, "section-many", "Leave points out: a few hundred draw any section.",
			"the table has %d rows, more than %d", len(p.rows), most)
		return s, c.found
	}
	t, nose, used := c.sheet(p, d)
	if c.length {
		s.Chord = c.scale
	}
	if t.form != "" {
		t.form += d.say() + lying + named + p.skipped(used)
	}
	t.nose = nose
	c.finish(&s, t)
	return s, finding.Sort(c.found)
}

// sheet reads the rows of a table by what its text says of them.
func (c *checker) sheet(p sorted, d dialect) (t table, nose noseCircle, used func(*line) bool) {
	lay, ok := c.headings(p.texts, p.n)
	ok = c.units(p.texts, p.rows, p.n) && ok
	ok = c.ways(p.texts) && ok
	nose, radii := c.circle(p.texts, d.decimalComma)
	used = func(l *line) bool {
		cols := headingOf(l)
		_, names := layoutOf(cols, p.n, false)
		unit, _ := unitOf(l.text)
		return names || radii[l.number] || direction(l, cols) != 0 || sideOf(l, cols) != other || unit != "" && (unitLine.MatchString(l.text) || allPercent.MatchString(l.text)) ||
			p.n == 4 && len(cols) == 2 && !slices.Contains(cols, other)
	}
	rows := c.rows(p.rows, p.n, lay)
	switch {
	case len(rows) == 0 || !ok:
		return t, nose, used
	case lay.four:
		t = c.blocks(points(rows, lay.xu, lay.yu), points(rows, lay.xl, lay.yl), "four columns, both sides with stations of their own")
	case p.n > 2:
		t = c.three(rows, lay)
	case isCounts(rows):
		t = c.twoSurfaces(rows, lay)
	default:
		if up, low, how, ok := parted(rows, lay); ok {
			t = c.blocks(points(up, lay.x, lay.y), points(low, lay.x, lay.y), "two columns, upper and lower side "+how)
		} else {
			t = c.continuous(rows, lay)
		}
	}
	t.form += lay.words(p.n)
	return t, nose, used
}

// ways takes from the text which way lower ordinates are measured.
func (c *checker) ways(texts []line) bool {
	for i := range texts {
		l := &texts[i]
		way := direction(l, headingOf(l))
		if way != 0 && c.down != 0 && way != c.down {
			c.refuse(place{line: l.number, column: 1}, "section-lower-down", "Put # before the line that is wrong.",
				"this line and another contradict each other on the way in which lower ordinates are measured")
			return false
		}
		if way != 0 {
			c.down = way
		}
	}
	return true
}

// table is what a form's reader made of the rows: the sides, nose to tail.
type table struct {
	upper, lower []node
	form         string
	nose         noseCircle
}

// finish gives the section its form and its points, unless the table was refused.
func (c *checker) finish(s *Section, t table) {
	s.Form = t.form
	if c.failed() || len(t.upper) == 0 || len(t.lower) == 0 {
		return
	}
	t = c.close(t)
	s.Upper, s.Lower = c.share(t.upper), c.share(t.lower)
	s.Form += c.nosed(s, t.nose)
	if c.failed() { // the leading-edge radius does not suit
		s.Upper, s.Lower = nil, nil
		return
	}
	c.remark(s, t)
	c.unfair(s, t)
	s.Form += c.settle(s, t)
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
	gap   bool
	side  role
}

type cell struct {
	v    float64
	text string
	at   place
}

// rows reads lines of n columns, and reports all that are none.
func (c *checker) rows(lines []line, n int, lay layout) []row {
	if n != 2 && n != 3 && !lay.named {
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
	of := func(w word) place { return place{line: cmp.Or(w.line, l.number), column: w.column} }
	switch {
	case !ok && !l.numeric():
		for _, w := range l.words {
			if _, good := number(w.text); !good {
				c.notNumber(of(w), w.text, "Take the line out, put # before it, or put the number right.")
				return row{}, false
			}
		}
	case !ok && len(l.words) > n:
		c.refuse(at(l.words[n].column), "section-columns", "Take out what is too much. Decimals are written with a point; a fraction may be written 1-1/4.",
			"this line has %s, the table has %d", columnsText(len(l.words)), n)
		return row{}, false
	case !ok:
		last := l.words[len(l.words)-1]
		c.refuse(at(last.column+len([]rune(last.text))), "section-columns", "Give the number that is missing.",
			"this line has %s, the table has %d", columnsText(len(l.words)), n)
		return row{}, false
	case !sure:
		c.refuse(at(l.words[0].column), "section-fraction", "Write whole number and fraction with a hyphen, 1-1/4, or put commas between the columns.",
			"it is not clear which of the whole numbers and fractions on this line belong together")
		return row{}, false
	}
	r := row{line: l.number, gap: l.gap, side: l.side, cells: make([]cell, 0, n)}
	good := true
	for _, w := range words {
		v, ok := number(w.text)
		if !ok {
			c.notNumber(of(w), w.text, "Put the number right. Decimals are written with a point, fractions as 5/16 or 3-7/16.")
			good = false
		}
		r.cells = append(r.cells, cell{v, w.text, of(w)})
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

func columnsText(n int) string {
	if n == 1 {
		return "1 column"
	}
	return fmt.Sprintf("%d columns", n)
}

func point(x, y cell) node { return node{x.v, y.v, x.text, y.text, x.at, y.at} }

// counted writes "17 upper and 16 lower points".
func counted(upper, lower int) string {
	return fmt.Sprintf("%d upper and %d lower points", upper, lower)
}
