package ribfile

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// quote puts text of the file in quotation marks for a message: shortened, and on one line.
func quote(s string) string {
	const most = 40
	var b strings.Builder
	n := 0
	for _, r := range s {
		if n++; n > most {
			b.WriteString("…")
			break
		}
		if !unicode.IsPrint(r) {
			r = '\ufffd'
		}
		b.WriteRune(r)
	}
	return `"` + b.String() + `"`
}

// say names a key for people, who count from 1: "spar[1].width" is width of spar 2, with width in quotation marks.
func say(key string) string {
	end := strings.LastIndexByte(key, ']')
	if end < 0 {
		return key
	}
	open := strings.LastIndexByte(key[:end], '[')
	n, err := strconv.Atoi(key[max(open+1, 0):end])
	if open < 0 || err != nil {
		return key
	}
	table, name := key[:open], strings.TrimPrefix(key[end+1:], ".")
	switch {
	case name != "":
		return `"` + name + `" of ` + say(key[:end+1])
	case table == "section.ordinates":
		return fmt.Sprintf("row %d of the ordinates", n+1)
	case strings.HasPrefix(table, "section.ordinates["):
		return fmt.Sprintf("figure %d in %s", n+1, say(table))
	case slices.Contains(listTables, table):
		return fmt.Sprintf("%s %d", strings.TrimPrefix(table, "section."), n+1)
	}
	return fmt.Sprintf("entry %d of %s", n+1, say(table))
}

// choices writes words as they stand in the file: "a", "b" or "c".
func choices(words []string) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = quote(w)
	}
	return list(quoted, "or")
}

// list writes words in a row: a, b and c.
func list(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + " " + last + " " + words[n]
}

// nearest returns the known word that the wrong one is most likely meant for, or "".
func nearest(wrong string, words []string) string {
	wrong = strings.ToLower(strings.ReplaceAll(wrong, "-", "_"))
	best, least := "", 1+min(2, max(1, len(wrong)/3))
	if len(wrong) < 2 || len(wrong) > 40 {
		return ""
	}
	for _, w := range words {
		if d := distance(wrong, strings.ToLower(strings.ReplaceAll(w, "-", "_"))); d < least {
			best, least = w, d
		}
	}
	return best
}

// distance counts the letters to put in, leave out, change or swap with their neighbour (Damerau's
// distance with no letter touched twice).
func distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	rows := make([][]int, len(x)+1)
	for i := range rows {
		rows[i] = make([]int, len(y)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(x); i++ {
		for j := 1; j <= len(y); j++ {
			change := 1
			if x[i-1] == y[j-1] {
				change = 0
			}
			d := min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+change)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				d = min(d, rows[i-2][j-2]+1)
			}
			rows[i][j] = d
		}
	}
	return rows[len(x)][len(y)]
}
