package list

import (
	"bufio"
	"io"
	"strings"
	"unicode"

	"ribwright/export"
)

// Markdown writes tables as GitHub Flavored Markdown, section 4.10: a heading, the table with its columns
// drawn level so that it reads well in a terminal too, and the notes as a list. A table without rows has its notes alone.
func Markdown(w io.Writer, tables ...export.Table) error {
	if err := check(tables); err != nil {
		return err
	}
	b := bufio.NewWriterSize(w, piece)
	for i, t := range tables {
		if i > 0 {
			b.WriteByte('\n')
		}
		if t.Title != "" {
			b.WriteString("## " + escape(t.Title) + "\n\n")
		}
		if len(t.Rows) > 0 {
			grid(b, t)
		}
		if len(t.Notes) > 0 && len(t.Rows) > 0 {
			b.WriteByte('\n')
		}
		for _, n := range t.Notes {
			b.WriteString("- " + escape(n) + "\n")
		}
	}
	return written(b.Flush(), "Markdown")
}

// grid writes headings, the line below them, and the rows.
func grid(b *bufio.Writer, t export.Table) {
	lines := make([][]string, 0, len(t.Rows)+1)
	head := make([]string, len(t.Columns))
	for j, c := range t.Columns {
		head[j] = escape(c.Head)
		if c.Unit != "" {
			head[j] += " (" + escape(c.Unit) + ")"
		}
	}
	lines = append(lines, head)
	for _, row := range t.Rows {
		line := make([]string, len(row))
		for j, c := range row {
			line[j] = escape(shown(c))
		}
		lines = append(lines, line)
	}
	wide, widths := make([]int, len(t.Columns)), make([]int, 0, len(lines)*len(t.Columns))
	for j := range wide {
		wide[j] = 3 // the least that the line below the headings takes
	}
	for _, line := range lines {
		for j, s := range line {
			w := width(s)
			widths, wide[j] = append(widths, w), max(wide[j], w)
		}
	}
	for i, line := range lines {
		b.WriteByte('|')
		for j, s := range line {
			fill := wide[j] - widths[i*len(t.Columns)+j]
			b.WriteByte(' ')
			if t.Columns[j].Right {
				blanks(b, fill)
				b.WriteString(s)
			} else {
				b.WriteString(s)
				blanks(b, fill)
			}
			b.WriteString(" |")
		}
		b.WriteByte('\n')
		if i == 0 {
			rule(b, t.Columns, wide)
		}
	}
}

func blanks(b *bufio.Writer, n int) {
	const some = "                                "
	for ; n > len(some); n -= len(some) {
		b.WriteString(some)
	}
	b.WriteString(some[:n])
}

func rule(b *bufio.Writer, columns []export.Column, wide []int) {
	b.WriteByte('|')
	for j, c := range columns {
		if c.Right {
			b.WriteString(" " + strings.Repeat("-", wide[j]-1) + ": |")
		} else {
			b.WriteString(" " + strings.Repeat("-", wide[j]) + " |")
		}
	}
	b.WriteByte('\n')
}

// shown returns the cell for people: its text, or the number where nobody wrote one.
func shown(c export.Cell) string {
	if c.Text == "" && c.IsNum {
		return string(export.AppendNum(nil, c.Num, places))
	}
	return c.Text
}

// escape makes one line of s that breaks no table and starts no tag. Other marks are left alone: the
// tables are read in terminals as often as in browsers.
func escape(s string) string {
	s = oneLine(s)
	if !strings.ContainsAny(s, "|<") {
		return s
	}
	rs := append([]rune(s), ' ')
	var b strings.Builder
	for i, r := range rs[:len(rs)-1] {
		next := rs[i+1]
		if r == '|' || r == '<' && (unicode.IsLetter(next) || next == '/' || next == '!') {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// oneLine puts one blank wherever there is any, and none at the ends.
func oneLine(s string) string {
	before := ' '
	for _, r := range s {
		if r != ' ' && unicode.IsSpace(r) || r == ' ' && before == ' ' {
			return strings.Join(strings.Fields(s), " ")
		}
		before = r
	}
	return strings.TrimSuffix(s, " ")
}

// width counts the places s takes in a terminal: a character one, an accent that follows it none.
func width(s string) int {
	n := 0
	for _, r := range s {
		if r < 0x300 || !unicode.Is(unicode.Mn, r) { // there are none before that
			n++
		}
	}
	return n
}
