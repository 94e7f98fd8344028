package airfoils

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"ribwright/geom/csvtable"
)

// line is one line of a table file that is neither empty nor a comment.
type line struct {
	number int // from 1
	text   string
	words  []word
	apart  bool // commas, semicolons or tabs part the columns, so that a space may stand inside a number
	gap    bool // an empty line stands before it
	side   role // upper or lower, where the last heading above announces that side
}

// word is a run of characters between separators.
type word struct {
	text   string
	column int    // in characters, from 1
	spaced bool   // only spaces stand before it
	mark   string // "%" or "in", where the number was written 5% or 1/4"

	bracket bool // a negative number that was written in brackets
	line    int  // where it stands, if not on its line: see across
}

// splitLines cuts a file into its lines, and returns with them the source that a comment names.
func splitLines(texts []string, d dialect) (lines []line, source string) {
	gap := false
	for i, t := range texts {
		t, comment, _ := strings.Cut(t, "#")
		if key, rest, ok := strings.Cut(comment, ":"); ok && source == "" && strings.EqualFold(strings.TrimSpace(key), "source") {
			source = strings.TrimSpace(rest)
		}
		l := line{number: i + 1, text: strings.TrimSpace(t), gap: gap}
		l.split([]rune(t), d)
		gap = len(l.words) == 0 && (gap || comment == "")
		if len(l.words) > 0 {
			lines = append(lines, l)
		}
	}
	return lines, source
}

// rawLines returns the lines of a file as they stand there.
func rawLines(data []byte) []string {
	text := strings.TrimPrefix(csvtable.Decode(data), "\ufeff")
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		lines[i] = withoutBars(l)
	}
	return lines
}

// withoutBars turns the bars between the columns of a drawn table, as in Markdown, into tabs, and a line of bars and
// dashes alone into a comment.
func withoutBars(l string) string {
	switch {
	case strings.Count(l, "|") < 2:
		return l
	case strings.Trim(l, "|+-:= \t") == "":
		return "# " + l
	}
	return strings.ReplaceAll(l, "|", "\t")
}

// split cuts the line into words. Two commas with nothing between hold an empty word; commas at the end,
// as spreadsheets leave them, hold none.
func (l *line) split(t []rune, d dialect) {
	comma, spaced := true, false
	for i := 0; i < len(t); {
		switch {
		case d.parts(t, i):
			if comma {
				l.words = append(l.words, word{column: i + 1})
			}
			comma, spaced, l.apart = true, false, true
			i++
		case unicode.IsSpace(t[i]):
			if t[i] == '\t' {
				spaced = false
				l.apart = l.apart || len(l.words) > 0
			}
			i++
		default:
			j := i
			for j < len(t) && !d.parts(t, j) && !unicode.IsSpace(t[j]) {
				j++
			}
			l.words = append(l.words, d.word(string(t[i:j]), i+1, spaced))
			comma, spaced = false, true
			i = j
		}
	}
	for n := len(l.words); n > 0 && l.words[n-1].text == ""; n-- {
		l.words = l.words[:n-1]
	}
}

// mixed counts the places where a whole number and a fraction may be one number: "1 1/4".
func (l *line) mixed() int {
	n := 0
	for i := range l.words {
		if l.joins(i) {
			n++
		}
	}
	return n
}

func (l *line) joins(i int) bool {
	if i == 0 || !l.words[i].spaced {
		return false
	}
	whole := strings.TrimLeft(plainSigns(l.words[i-1].text), "+-")
	a, b, ok := strings.Cut(l.words[i].text, "/")
	return ok && onlyDigits(a) && onlyDigits(b) && onlyDigits(whole) && strings.Trim(whole, "0") != ""
}

// columns returns how many columns the line may have: from the first number to the second.
func (l *line) columns() (least, most int) {
	least, most = len(l.words)-l.mixed(), len(l.words)
	if l.apart {
		most = least
	}
	return least, most
}

// numeric reports whether every word is a number.
func (l *line) numeric() bool {
	for _, w := range l.words {
		if _, ok := number(w.text); !ok {
			return false
		}
	}
	return true
}

// fields returns the line's words as n columns, whole numbers joined with their fractions. It is not ok
// where the line has another number of columns; it is not sure where the joining can be done in two ways.
func (l *line) fields(n int) (out []word, sure, ok bool) {
	least, most := l.columns()
	if n < least || n > most {
		return nil, true, false
	}
	if n != least && n != len(l.words) {
		return nil, false, true
	}
	for i, w := range l.words {
		if n == least && l.joins(i) {
			out[len(out)-1].text += "-" + w.text
			out[len(out)-1].mark += w.mark
			continue
		}
		out = append(out, w)
	}
	return out, true, true
}

// number reads a decimal number or a fraction: "1.25", "-.5", "1e-3", "5/16", "3-7/16", "2½".
func number(s string) (float64, bool) {
	s = spelled(plainSigns(s))
	body := strings.TrimLeft(s, "+-")
	if len(s)-len(body) > 1 {
		return 0, false
	}
	v, ok := 0.0, false
	if strings.Contains(body, "/") {
		v, ok = fraction(body)
	} else if strings.Trim(body, "0123456789.eE+-") == "" {
		w, err := strconv.ParseFloat(body, 64)
		v, ok = w, err == nil
	}
	if strings.HasPrefix(s, "-") && v != 0 {
		v = -v
	}
	return v, ok
}

// fraction reads "5/16" and "3-7/16".
func fraction(s string) (float64, bool) {
	whole, part, mixed := strings.Cut(s, "-")
	if !mixed {
		whole, part = "0", s
	}
	a, b, _ := strings.Cut(part, "/")
	if !onlyDigits(whole) || !onlyDigits(a) || !onlyDigits(b) || len(s) > 40 {
		return 0, false
	}
	w, _ := strconv.ParseFloat(whole, 64)
	n, _ := strconv.ParseFloat(a, 64)
	d, _ := strconv.ParseFloat(b, 64)
	if d == 0 {
		return 0, false
	}
	return w + n/d, true
}

var minusSigns = strings.NewReplacer("−", "-", "–", "-", "‒", "-")

// plainSigns writes the typographer's minus signs as the plain one.
func plainSigns(s string) string { return minusSigns.Replace(s) }

// vulgar are the fractions that have a sign of their own.
var vulgar = map[rune]string{'½': "1/2", '¼': "1/4", '¾': "3/4", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8", '⅓': "1/3", '⅔': "2/3"}

// spelled writes a fraction's sign, which ends a word, with a stroke: "2½" as "2-1/2".
func spelled(s string) string {
	r, n := utf8.DecodeLastRuneInString(s)
	part, ok := vulgar[r]
	if !ok {
		return s
	}
	s = s[:len(s)-n]
	if onlyDigits(strings.TrimLeft(s, "+-")) {
		s += "-"
	}
	return s + part
}

func onlyDigits(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }
