package airfoils

import (
	"strings"
	"unicode"
)

// dialect is how a file writes its numbers and parts its columns, beside spaces and tabs.
type dialect struct {
	semicolons   bool // semicolons part the columns
	decimalComma bool // a comma between digits is the decimal sign
}

// say returns the dialect in words, for the section's form.
func (d dialect) say() string {
	out := ""
	if d.semicolons {
		out += ", semicolons between the columns"
	}
	if d.decimalComma {
		out += ", decimals with a comma"
	}
	return out
}

// dialectOf tells how a file parts its columns. Commas are decimal signs only where they can be nothing
// else: every row then has two or three columns by spaces, tabs or semicolons, and not by commas. Where
// both readings hold, and where a comma may part thousands, unsure is the number of a line that shows it.
func dialectOf(texts []string) (d dialect, unsure int) {
	rows, at := numberRows(texts)
	points, commas, certain := false, 0, false
	for i, r := range rows {
		d.semicolons = d.semicolons || strings.Contains(r, ";")
		points = points || strings.Contains(r, ".")
		for _, w := range cells(r) {
			if _, after, ok := strings.Cut(w, ","); ok && commaNumber(w) {
				if commas == 0 {
					unsure = at[i]
				}
				commas++
				certain = certain || len(after) != 3 || strings.HasPrefix(strings.TrimLeft(plainSigns(w), "+-"), "0")
			}
		}
	}
	switch {
	case commas == 0:
		return d, 0
	case d.semicolons:
		if points || !certain {
			return d, unsure
		}
		d.decimalComma = true
		return d, 0
	case points || !evenly(rows, cells, commaNumber):
		return d, 0
	case !certain, evenly(rows, byCommas, isNumber):
		return d, unsure
	}
	d.decimalComma = true
	return d, 0
}

// numberRows returns the lines that are made of numbers alone, and their numbers. A first one that stands
// by itself, as a title does, is left out.
func numberRows(texts []string) (rows []string, at []int) {
	for i, t := range texts {
		t, _, _ = strings.Cut(t, "#")
		if strings.ContainsAny(t, "0123456789") && strings.Trim(plainSigns(t), "0123456789.,;+-/%\"″”'eE \t\u00a0") == "" && len(cells(t)) > 0 {
			rows, at = append(rows, t), append(at, i+1)
		}
	}
	if len(rows) > 3 && len(cells(rows[0])) != len(cells(rows[1])) {
		rows, at = rows[1:], at[1:]
	}
	return rows, at
}

// cells cuts a row at spaces, tabs and semicolons; a comma before a space parts, too.
func cells(row string) []string {
	out := strings.FieldsFunc(row, func(r rune) bool { return r == ';' || unicode.IsSpace(r) })
	for i := range out {
		out[i] = strings.TrimSuffix(strings.Trim(out[i], "%\"″”'"), ",")
	}
	return out
}

func byCommas(row string) []string {
	return strings.FieldsFunc(row, func(r rune) bool { return r == ',' || unicode.IsSpace(r) })
}

// evenly reports whether the rows, cut so, have two or three columns of numbers, all alike.
func evenly(rows []string, cut func(string) []string, good func(string) bool) bool {
	n := 0
	for _, r := range rows {
		words := cut(r)
		if len(words) == 1 { // a page number
			continue
		}
		if n == 0 {
			n = len(words)
		}
		if len(words) != n || n > 3 {
			return false
		}
		for _, w := range words {
			if !good(w) {
				return false
			}
		}
	}
	return n > 0
}

func isNumber(w string) bool {
	_, ok := number(w)
	return ok
}

// commaNumber reports whether a word is a whole number, or a decimal written with a comma.
func commaNumber(w string) bool {
	whole, part, comma := strings.Cut(strings.TrimLeft(plainSigns(w), "+-"), ",")
	if !comma {
		return onlyDigits(whole)
	}
	return (whole == "" || onlyDigits(whole)) && onlyDigits(part)
}

// parts reports whether the character at i parts two columns.
func (d dialect) parts(t []rune, i int) bool {
	switch {
	case t[i] == ';':
		return d.semicolons
	case t[i] != ',':
		return false
	case d.decimalComma:
		return i+1 == len(t) || t[i+1] < '0' || t[i+1] > '9'
	}
	return !d.semicolons
}

// word makes a word of a run of characters: quotes round it go, marks of inch and percent are kept apart,
// a decimal comma becomes a point, and a number in brackets, as accountants write it, a negative one.
func (d dialect) word(s string, column int, spaced bool) word {
	w := word{text: s, column: column, spaced: spaced}
	if n := len(s); n > 2 && s[0] == '"' && s[n-1] == '"' {
		s = s[1 : n-1]
	}
	body, mark := s, ""
	for _, m := range [...][2]string{{"%", "%"}, {"\"", "in"}, {"″", "in"}, {"”", "in"}, {"''", "in"}} {
		if b, ok := strings.CutSuffix(s, m[0]); ok {
			body, mark = b, m[1]
		}
	}
	if d.decimalComma && commaNumber(body) {
		body = strings.Replace(body, ",", ".", 1)
	}
	if inner, ok := strings.CutPrefix(body, "("); ok && strings.HasSuffix(inner, ")") {
		if v, ok := number(strings.TrimSuffix(inner, ")")); ok && v >= 0 {
			body, w.bracket = "-"+strings.TrimSuffix(inner, ")"), true
		}
	}
	if _, ok := number(body); ok {
		w.text, w.mark = spelled(body), mark
	}
	return w
}
