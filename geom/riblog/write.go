package riblog

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"ribwright/geom/csvtable"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// Header returns the line of headings of a new log: masses in g, temperatures in °C and loads in N, or in oz, °F and lbf.
func Header(units ribfile.Units) []byte {
	keys := make([]string, len(columns))
	for i, c := range columns {
		keys[i] = strings.ReplaceAll(c.name, " ", "_")
		if c.kind != words {
			keys[i] += "_" + usual(c.kind, units).key
		}
	}
	return []byte(strings.Join(keys, ",") + "\n")
}

// Line is a line to be appended.
type Line struct {
	Bytes  []byte   // with the line end; behind the headings, where the log is new
	Number int      // of the line in the file
	Says   []string // what is written where: "a_g 5.6"
}

// Append returns the line that says what is given, by the names of Columns, in the manner of the log that holds data, which
// must end with a line end, or of a new log in the units given where there is none. Where a finding is an error, nothing
// may be written: the whole log with the new line is read again here, and the line must stand there as it was meant.
func Append(file string, data []byte, given map[string]string, units ribfile.Units) (Line, []finding.Finding) {
	var start []byte
	if len(data) == 0 {
		start = Header(units)
	}
	l, found := Read(file, append(bytes.Clone(data), start...), units)
	if l.heads == nil {
		return Line{}, found
	}
	l.found = nil // of the older lines, Summary tells
	e, cells := l.fill(given)
	if e.Rib == "" && e.First.Batch == "" && e.Second.Batch == "" {
		l.refuse(csvtable.Cell{}, CodeNameless, "The line names neither a rib nor a batch.", "Say which rib it is about, with --rib, or which batch of adhesive, with --batch.")
	}
	if len(l.found) > 0 {
		return Line{}, l.found
	}
	text := l.write(cells)
	if !utf8.Valid(data) && strings.ContainsFunc(text, func(r rune) bool { return r >= utf8.RuneSelf }) {
		l.refuse(csvtable.Cell{}, CodeText, "The log is not in UTF-8, and the new line has signs that plain letters lack.", "Save the log as CSV in UTF-8, or write the line without them.")
		return Line{}, l.found
	}
	out := Line{Bytes: append(start, text...), Number: l.lines() + 1}
	for i, h := range l.heads {
		if cells[i] != "" {
			out.Says = append(out.Says, h.text+" "+cells[i])
		}
	}
	again, _ := Read(file, append(bytes.Clone(data), out.Bytes...), units)
	if n := len(l.Entries); len(again.Entries) != n+1 || !l.agree(again.Entries[n], e) {
		l.refuse(csvtable.Cell{}, CodeNotWritten, "The line would not be read as it is meant behind the lines that are there.", "Look for a quotation mark without its other one in the log, and for odd signs in the new line.")
		return Line{}, l.found
	}
	return out, nil
}

// fill reads what is given into an entry, and returns with it what to write into each column of the log.
func (l *Log) fill(given map[string]string) (Entry, []string) {
	var e Entry
	cells := make([]string, len(l.heads))
	missing := map[string]bool{}
	for name, text := range given {
		missing[name] = text != ""
	}
	for i, h := range l.heads {
		text := strings.TrimSpace(given[h.column.name])
		if h.column.name == "rib" || strings.HasSuffix(h.column.name, "batch") {
			text = strings.TrimSpace(strings.TrimLeft(text, "#")) // a line that begins with # is a remark
		}
		delete(missing, h.column.name)
		l.cell(&e, h, csvtable.Cell{Text: text}, text)
		if h.column.text != nil {
			cells[i] = *h.column.text(&e)
		} else if v := h.column.number(&e); v.OK {
			cells[i] = l.number(h, v.V)
		}
	}
	for _, c := range columns {
		if missing[c.name] {
			l.refuse(csvtable.Cell{}, CodeNoColumn, "The log has no column for "+quote(c.name)+".", "Add it to the log's first line, or leave it away here.")
		}
	}
	return e, cells
}

// number writes a number in its column's unit, or with a unit where the column has none of its own.
func (l *Log) number(h head, v float64) string {
	if h.unit.key == "f" {
		v = float64(v*1.8) + 32
	} else {
		v /= h.unit.one
	}
	const places = 4 // finer than any scale on a bench
	s := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(math.Round(v*1e4)/1e4+0, 'f', places, 64), "0"), ".")
	if l.commas() {
		s = strings.Replace(s, ".", ",", 1)
	}
	if !h.named && h.column.kind != percent {
		s += " " + h.unit.shown
	}
	return s
}

// commas reports whether the log writes decimals with a comma: where it may, and no number in it has a point.
func (l *Log) commas() bool {
	if !l.table.Comma() {
		return false
	}
	for _, row := range l.table.Rows[1:] {
		for _, h := range l.heads {
			if h.column.number != nil && h.index < len(row) && strings.Contains(row[h.index].Text, ".") {
				return false
			}
		}
	}
	return true
}

// write writes cells as a line of the log.
func (l *Log) write(cells []string) string {
	row := make([]string, len(l.table.Rows[0]))
	for i, h := range l.heads {
		row[h.index] = cells[i]
	}
	var b bytes.Buffer
	out := csv.NewWriter(&b)
	out.Comma, out.UseCRLF = l.table.Parting, bytes.Contains(l.data, []byte("\r\n"))
	_ = out.Write(row) // a bytes.Buffer takes everything
	out.Flush()
	return b.String()
}

// agree reports whether two entries say the same, to the last decimal that is written.
func (l *Log) agree(a, b Entry) bool {
	for _, h := range l.heads {
		if h.column.text != nil {
			if *h.column.text(&a) != *h.column.text(&b) {
				return false
			}
			continue
		}
		v, w := *h.column.number(&a), *h.column.number(&b)
		if v.OK != w.OK || math.Abs(v.V-w.V) > 1e-4*h.unit.one {
			return false
		}
	}
	return true
}
