// Package list writes tables as CSV for spreadsheets, JSON for programs and Markdown for people.
//
// Columns keep their order everywhere. In CSV and JSON a column goes by its key, which names the unit,
// and a number is the plain number behind the cell; in Markdown a column goes by its heading, and a cell
// shows its text. The package sorts and adds up nothing, and knows no ribs.
package list

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"

	"ribwright/export"
)

// places of a number in CSV and JSON: a millionth of a millimetre or a gram hides nothing from anybody.
const places = 6

// piece is how much of a list is handed on at once; a bufio.Writer keeps the first error, and tells it when it is flushed.
const piece = 32 << 10

// CSV writes tables by RFC 4180, in UTF-8, lines ended by CR LF.
//
// One table is a row of keys and the rows, nothing else, so that a program can read it as it is. Several
// tables follow each other in one sheet, each under a row with its title, its notes in rows below it, a
// blank line between them. A text that a spreadsheet would take for a formula gets an apostrophe in front.
func CSV(w io.Writer, tables ...export.Table) error {
	if err := check(tables); err != nil {
		return err
	}
	out := csv.NewWriter(w) // it keeps the first error
	out.UseCRLF = true
	several := len(tables) > 1
	for i, t := range tables {
		if i > 0 {
			_ = out.Write(nil)
		}
		if several {
			_ = out.Write([]string{harmless(t.Title)})
		}
		head := make([]string, len(t.Columns))
		for j, c := range t.Columns {
			head[j] = c.Key
		}
		_ = out.Write(head)
		for _, row := range t.Rows {
			cells := make([]string, len(row))
			for j, c := range row {
				cells[j] = plain(c)
			}
			_ = out.Write(cells)
		}
		if several {
			for _, n := range t.Notes {
				_ = out.Write([]string{harmless(n)})
			}
		}
	}
	out.Flush()
	return written(out.Error(), "CSV")
}

// plain returns the cell for a program.
func plain(c export.Cell) string {
	if c.IsNum {
		return string(export.AppendNum(nil, c.Num, places))
	}
	return harmless(c.Text)
}

// harmless keeps a spreadsheet from running a text as a formula: OWASP, CSV injection. A number and a
// lone dash stay as they are.
func harmless(s string) string {
	if s == "" || s == "-" || !strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return s
	}
	if strings.Trim(s, "0123456789.eE+-") == "" { // not the hexadecimal and endless ones that Go reads too
		if _, err := strconv.ParseFloat(s, 64); err == nil {
			return s
		}
	}
	return "'" + s
}

// JSON writes an array with one object for each table: id, title, columns, rows, notes. A row is an
// object with the columns' keys in their order; numbers are numbers.
func JSON(w io.Writer, tables ...export.Table) error {
	if err := check(tables); err != nil {
		return err
	}
	p := &jsonPrinter{bufio.NewWriterSize(w, piece)}
	p.list("", len(tables), func(i int) {
		t := tables[i]
		p.b.WriteString("{\n  \"id\": ")
		p.value(t.ID)
		p.b.WriteString(",\n  \"title\": ")
		p.value(t.Title)
		p.b.WriteString(",\n  \"columns\": ")
		p.list("  ", len(t.Columns), func(j int) { p.column(t.Columns[j]) })
		p.b.WriteString(",\n  \"rows\": ")
		keys := make([]string, len(t.Columns))
		for j, c := range t.Columns {
			keys[j] = quoted(c.Key) + ": "
		}
		p.list("  ", len(t.Rows), func(j int) { p.row(keys, t.Rows[j]) })
		p.b.WriteString(",\n  \"notes\": ")
		p.list("  ", len(t.Notes), func(j int) { p.value(t.Notes[j]) })
		p.b.WriteString("\n}")
	})
	p.b.WriteByte('\n')
	return written(p.b.Flush(), "JSON")
}

// jsonPrinter writes one row a line, which encoding/json cannot, nor keep the order of keys in a map.
type jsonPrinter struct{ b *bufio.Writer }

func (p *jsonPrinter) list(indent string, n int, entry func(i int)) {
	p.b.WriteByte('[')
	for i := range n {
		if i > 0 {
			p.b.WriteByte(',')
		}
		p.b.WriteString("\n" + indent)
		if indent != "" {
			p.b.WriteString("  ")
		}
		entry(i)
	}
	if n > 0 {
		p.b.WriteString("\n" + indent)
	}
	p.b.WriteByte(']')
}

func (p *jsonPrinter) value(s string) { p.b.WriteString(quoted(s)) }

// quoted returns a string of JSON.
func quoted(s string) string {
	if strings.IndexFunc(s, func(r rune) bool { return r < ' ' || r > '~' || r == '"' || r == '\\' }) < 0 {
		return `"` + s + `"`
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	_ = e.Encode(s) // a string always encodes
	return strings.TrimRight(b.String(), "\n")
}

func (p *jsonPrinter) column(c export.Column) {
	p.b.WriteString(`{"key": `)
	p.value(c.Key)
	p.b.WriteString(`, "head": `)
	p.value(c.Head)
	p.b.WriteString(`, "unit": `)
	p.value(c.Unit)
	p.b.WriteByte('}')
}

// row writes a row; the keys are quoted, with what parts them from their values.
func (p *jsonPrinter) row(keys []string, row []export.Cell) {
	p.b.WriteByte('{')
	for i, c := range row {
		if i > 0 {
			p.b.WriteString(", ")
		}
		p.b.WriteString(keys[i])
		if c.IsNum {
			p.b.Write(export.AppendNum(p.b.AvailableBuffer(), c.Num, places))
		} else {
			p.value(c.Text)
		}
	}
	p.b.WriteByte('}')
}

func check(tables []export.Table) error {
	seen := map[string]bool{}
	for _, t := range tables {
		if err := t.Check(); err != nil {
			return fmt.Errorf("list: %w", err)
		}
		if seen[t.ID] {
			return fmt.Errorf("list: two tables have the ID %q", t.ID)
		}
		seen[t.ID] = true
	}
	return nil
}

func written(err error, kind string) error {
	if err != nil {
		return fmt.Errorf("writing %s: %w", kind, err)
	}
	return nil
}
