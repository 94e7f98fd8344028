package airfoils

import (
	"fmt"
	"strconv"
	"strings"
)

// sorted is a table file with its rows taken out of the text around them.
type sorted struct {
	n     int // columns
	title int // lines above the first row
	rows  []line
	texts []line
}

// sortOut parts the rows of a table from the text above, between and below. What may be a row with a
// mistake in it counts as one: no row is ever skipped.
func sortOut(lines []line) sorted {
	p := sorted{n: columnsOf(lines)}
	first := firstRow(lines, p.n)
	if first < len(lines) && numericTitle(lines, first, p.n) {
		first++
		first += firstRow(lines[first:], p.n)
	}
	p.title = first
	last := len(lines) - 1
	for last > first && !(lines[last].numeric() && lines[last].has(p.n)) {
		last--
	}
	side := other
	for i, l := range lines {
		switch {
		case i >= first && len(l.words) == 1 && l.numeric() && !pageNumber(lines, i), i >= first && len(l.words) > 1 && l.rowLike(p.n, i < last):
			l.side = side
			p.rows = append(p.rows, l)
		default:
			p.texts = append(p.texts, l)
			if s := sideOf(&l, headingOf(&l)); s != other {
				side = s
			}
		}
	}
	return p
}

// has reports whether the line may have n columns.
func (l *line) has(n int) bool {
	least, most := l.columns()
	return least <= n && n <= most
}

// rowLike reports whether a line is a row of n columns, or may be one with a mistake. Between the first
// and the last row whatever begins with a number is.
func (l *line) rowLike(n int, between bool) bool {
	good, like := 0, 0
	for _, w := range l.words {
		if _, ok := number(w.text); ok {
			good++
		}
		if nearNumber(w.text) {
			like++
		}
	}
	_, begins := number(l.words[0].text)
	switch {
	case good == len(l.words):
		return true
	case l.has(n) && (begins || n > 2 && good >= n-1 || like == len(l.words)):
		return true
	}
	return like == len(l.words) || nearNumber(l.words[0].text) && (between || like > 1)
}

// nearNumber reports whether a word is a number, one with a slip of the pen ("1l.7", "O", "NaN"), or an
// empty column.
func nearNumber(w string) bool {
	if w == "" {
		return true
	}
	switch strings.ToLower(strings.TrimLeft(plainSigns(w), "+-")) {
	case "o", "l", "i", "nan", "inf", "?":
		return true
	}
	return strings.Contains("0123456789.+-−", string([]rune(w)[:1])) && strings.ContainsAny(w, "0123456789")
}

// numericTitle reports whether the first row is a title of numbers, such as "4412 12": it stands on top,
// and its first number is a name, 0012, or far outside the table; or it has too few columns and stands ahead
// of the leading edge.
func numericTitle(lines []line, first, n int) bool {
	if first > 0 || !lines[0].numeric() {
		return false
	}
	head := lines[0].words[0].text
	v, _ := number(head)
	far, rest := 0.0, 0
	for i := range lines[1:] {
		if l := &lines[1+i]; len(l.words) > 1 && l.numeric() {
			x, _ := number(l.words[0].text)
			far, rest = max(far, x), rest+1
		}
	}
	if rest < fewest || !onlyDigits(head) {
		return false
	}
	if len(head) > 2 && strings.HasPrefix(head, "00") && v > 0 {
		return true
	}
	next, ok := number(lines[1].words[0].text)
	if ok && next == 0 && n == 3 && !lines[0].has(n) {
		return true // nothing stands ahead of the leading edge
	}
	if len(lines[0].words) == 2 && (!ok || next <= far/20) {
		return false // point counts
	}
	if b, _ := number(lines[0].words[len(lines[0].words)-1].text); len(lines[0].words) == 2 && v+b == float64(rest) {
		return false
	}
	return v > 1.5*far
}

// pageNumber reports whether a number that stands alone on its line is no row with its ordinates lost: it
// stands apart from the rows, and is no station between its neighbours.
func pageNumber(lines []line, i int) bool {
	v, _ := number(lines[i].words[0].text)
	row := func(k int) bool { return k >= 0 && k < len(lines) && len(lines[k].words) > 1 && lines[k].numeric() }
	apart := lines[i].gap || i+1 == len(lines) || lines[i+1].gap || !row(i-1) || !row(i+1)
	if !apart || !onlyDigits(lines[i].words[0].text) {
		return false
	}
	before, after := -1.0, -1.0
	for k := i - 1; k >= 0 && before < 0; k-- {
		if row(k) {
			before, _ = number(lines[k].words[0].text)
		}
	}
	for k := i + 1; k < len(lines) && after < 0; k++ {
		if row(k) {
			after, _ = number(lines[k].words[0].text)
		}
	}
	if after < 0 {
		return v < before || before == 1 || before == 100
	}
	return v < min(before, after) || v > max(before, after)
}

// skipped returns in words which lines of text the reader made nothing of.
func (p sorted) skipped(used func(*line) bool) string {
	var at []string
	for i := range p.texts {
		if l := &p.texts[i]; !(i == 0 && p.title > 0) && !used(l) {
			at = append(at, strconv.Itoa(l.number))
		}
	}
	switch n := len(at); {
	case n == 0:
		return ""
	case n == 1:
		return ", text skipped on line " + at[0]
	case n > 8:
		return fmt.Sprintf(", text skipped on %d lines", n)
	default:
		return ", text skipped on lines " + strings.Join(at[:n-1], ", ") + " and " + at[n-1]
	}
}
