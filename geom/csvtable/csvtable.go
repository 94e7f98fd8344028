// Package csvtable reads the tables that people keep in a spreadsheet or write by hand, saved as CSV: into rows of
// cells, each with its place in the file.
//
// Columns are parted by commas, semicolons or tabs, as the first line has it; where it is not by commas, decimals
// may be written with one. Text is UTF-8, with or without a byte-order mark, or Windows-1252; lines end as on any
// machine; cells may stand in quotation marks. Empty lines, and lines that begin with #, are passed over. What a
// cell means is its reader's business. The package opens no files.
package csvtable

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"strings"
	"unicode/utf8"
)

// Cell is a cell without the spaces round it, and its place: line and column, in characters, from 1.
type Cell struct {
	Text         string
	Line, Column int
}

// Table is a table as it stands in the file.
type Table struct {
	Rows    [][]Cell // those that hold anything; each has a cell at least
	Parting rune     // what parts the columns
	Lines   int      // of the file
}

// Comma reports whether decimals may be written with a comma.
func (t Table) Comma() bool { return t.Parting != ',' }

// Fault is what keeps a file from being read to its end.
type Fault int

// The faults.
const (
	None    Fault = iota
	NotText       // another kind of file, or text of two bytes a character
	Quotes        // quotation marks that do not pair
	Wide          // a line of more columns than there can be
	Long          // more rows than there can be
)

// Broken is a fault with its place, and for Wide the number of columns.
type Broken struct {
	Fault        Fault
	Line, Column int
	Columns      int
}

// Read reads a file of at most so many columns and rows, the headings among them. Where it breaks off, the rows before
// the fault are returned with it.
func Read(data []byte, mostColumns, mostRows int) (Table, Broken) {
	if bytes.IndexByte(data, 0) >= 0 || bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) {
		return Table{Parting: ','}, Broken{Fault: NotText, Line: 1, Column: 1}
	}
	text := strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(strings.TrimPrefix(Decode(data), "\ufeff"))
	lines := strings.Split(text, "\n")
	out := Table{Parting: parting(lines), Lines: len(lines)}
	in := csv.NewReader(strings.NewReader(text))
	in.Comma, in.Comment, in.FieldsPerRecord, in.LazyQuotes = out.Parting, '#', -1, true
	for {
		record, err := in.Read()
		if errors.Is(err, io.EOF) {
			return out, Broken{}
		}
		if bad := new(csv.ParseError); errors.As(err, &bad) {
			return out, Broken{Fault: Quotes, Line: bad.Line, Column: max(bad.Column, 1)}
		}
		if len(record) > mostColumns {
			l, _ := in.FieldPos(0)
			return out, Broken{Fault: Wide, Line: l, Column: 1, Columns: len(record)}
		}
		row, empty := make([]Cell, len(record)), true
		for i, t := range record {
			l, c := in.FieldPos(i)
			row[i] = Cell{strings.TrimSpace(t), l, characters(lines, l, c)}
			empty = empty && row[i].Text == ""
		}
		switch {
		case empty:
		case len(out.Rows) >= mostRows:
			return out, Broken{Fault: Long, Line: row[0].Line, Column: row[0].Column}
		default:
			out.Rows = append(out.Rows, row)
		}
	}
}

// parting returns what parts the columns: what the first line that is no comment has.
func parting(lines []string) rune {
	for _, l := range lines {
		if t := strings.TrimSpace(l); t == "" || t[0] == '#' {
			continue
		}
		switch {
		case strings.Contains(l, ";"):
			return ';'
		case strings.Contains(l, "\t"):
			return '\t'
		}
		return ','
	}
	return ','
}

// characters turns a column in bytes into one in characters.
func characters(lines []string, line, column int) int {
	if line < 1 || line > len(lines) || column-1 > len(lines[line-1]) {
		return max(column, 1)
	}
	return len([]rune(lines[line-1][:max(column-1, 0)])) + 1
}

// Point writes a number's decimal comma, where there may be one, as a point.
func (t Table) Point(number string) string {
	if t.Comma() && strings.Count(number, ",") == 1 && !strings.Contains(number, ".") {
		return strings.Replace(number, ",", ".", 1)
	}
	return number
}

// western are the characters of Windows-1252 from 0x80 to 0x9f; the rest of it is as in Unicode.
const western = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ"

// Decode returns the text of a file in UTF-8 or, where it is not, in Windows-1252.
func Decode(data []byte) string {
	if utf8.Valid(data) {
		return string(data)
	}
	high := []rune(western)
	var b strings.Builder
	b.Grow(len(data) + len(data)/8)
	for _, c := range data {
		if c >= 0x80 && c < 0xa0 {
			b.WriteRune(high[c-0x80])
		} else {
			b.WriteRune(rune(c))
		}
	}
	return b.String()
}
