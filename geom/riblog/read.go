package riblog

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"ribwright/geom/csvtable"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// The codes of the findings.
const (
	CodeText       = "log-text"        // no plain text
	CodeHead       = "log-head"        // no headings, or none that serve
	CodeDoubled    = "log-doubled"     // two columns of one kind
	CodeUnit       = "log-unit"        // a heading with a unit of something else
	CodeColumn     = "log-column"      // a column that is not read
	CodeColumns    = "log-columns"     // a line of too many cells
	CodeMany       = "log-many"        // more lines than any build has
	CodeQuotes     = "log-quotes"      // quotation marks that do not pair
	CodeNumber     = "log-number"      // a cell that is no number
	CodeSize       = "log-size"        // a number that cannot be
	CodeTorn       = "log-torn"        // an unfinished last line
	CodeNameless   = "log-nameless"    // neither rib nor batch
	CodeNoColumn   = "log-no-column"   // nowhere to write a value
	CodeNotWritten = "log-not-written" // a line that could not be read back
)

const (
	mostColumns = 100
	mostLines   = 5000
	mostName    = 40 // characters of a rib's or batch's name
	mostText    = 500
	headFix     = "Let the first line name the columns: rib, batch, a_g, b_g, second_batch, second_a_g, second_b_g, mass_g and so on; \"ribwright log new LOG.csv\" writes them all."
)

// Log is a log that was read.
type Log struct {
	File    string
	Entries []Entry

	heads []head
	table csvtable.Table
	data  []byte // without what is torn
	units ribfile.Units
	found []finding.Finding
}

// Tail parts a log into its finished lines and what stands behind the last line end: nothing, or a torn line.
func Tail(data []byte) (whole, torn []byte) {
	i := len(data)
	for i > 0 && data[i-1] != '\n' && data[i-1] != '\r' {
		i--
	}
	return data[:i], data[i:]
}

// Read reads a log. Bare numbers, under headings that name no unit, are in the units given. Errors are what could not
// be read; a torn last line is left out with a warning.
func Read(file string, data []byte, units ribfile.Units) (Log, []finding.Finding) {
	whole, torn := Tail(data)
	l := Log{File: file, data: whole, units: units}
	var broken csvtable.Broken
	l.table, broken = csvtable.Read(whole, mostColumns, 1+mostLines)
	for _, row := range l.table.Rows {
		if l.heads == nil {
			if !l.head(row) {
				return l, finding.Sort(l.found)
			}
			continue
		}
		l.Entries = append(l.Entries, l.row(row))
	}
	l.tellBroken(broken)
	if len(torn) > 0 {
		l.tell(finding.Warning, csvtable.Cell{Line: l.lines() + 1, Column: 1}, CodeTorn, "The last line, "+strconv.Itoa(l.lines()+1)+", has no end, as after a power cut: it is not counted.",
			"If you wrote it yourself and it is whole, open the log and end the line with the Enter key; else write it again. \"log add\" sets it aside.")
	}
	if l.heads == nil && !finding.HasError(l.found) {
		l.refuse(csvtable.Cell{Line: 1, Column: 1}, CodeHead, "The log is empty.", headFix)
	}
	return l, finding.Sort(l.found)
}

// lines counts the finished lines of the file.
func (l *Log) lines() int {
	n, last := 0, byte(0)
	for _, b := range l.data {
		if b == '\n' && last != '\r' || b == '\r' {
			n++
		}
		last = b
	}
	return n
}

func (l *Log) tell(s finding.Severity, at csvtable.Cell, code, message, fix string) {
	l.found = append(l.found, finding.Finding{Severity: s, Code: code, Message: message, Fix: fix, File: l.File, Line: at.Line, Column: at.Column})
}

func (l *Log) refuse(at csvtable.Cell, code, message, fix string) {
	l.tell(finding.Error, at, code, message, fix)
}

func (l *Log) tellBroken(b csvtable.Broken) {
	at := csvtable.Cell{Line: b.Line, Column: b.Column}
	switch b.Fault {
	case csvtable.NotText:
		l.refuse(at, CodeText, "The file is not plain text.", "Save it as CSV in plain text (UTF-8).")
	case csvtable.Quotes:
		l.refuse(at, CodeQuotes, "This line's quotation marks do not pair.", "Put the quotation marks right, or leave them out.")
	case csvtable.Wide:
		l.refuse(at, CodeColumns, fmt.Sprintf("This line has %d columns.", b.Columns), headFix)
	case csvtable.Long:
		l.refuse(at, CodeMany, fmt.Sprintf("The log has more than %d lines.", mostLines), "Begin another log for another wing.")
	}
}

// head reads the headings.
func (l *Log) head(row []csvtable.Cell) bool {
	heads := []head{}
	for i, c := range row {
		h, known, ok := heading(c.Text, l.units)
		h.index, h.text = i, c.Text
		switch {
		case !known && c.Text != "":
			l.tell(finding.Note, c, CodeColumn, "The column "+quote(c.Text)+" is not read.", headFix)
		case !known:
		case !ok:
			l.refuse(c, CodeUnit, "The unit in the heading "+quote(c.Text)+" is none for that column.", "Masses are in g or oz, temperatures in c or f, loads in n or lbf, shares in percent.")
			return false
		case slices.ContainsFunc(heads, func(o head) bool { return o.column == h.column }):
			l.refuse(c, CodeDoubled, "Two columns are headed "+quote(h.column.name)+".", "Keep one of them.")
			return false
		default:
			heads = append(heads, h)
		}
	}
	if !slices.ContainsFunc(heads, func(h head) bool { return h.column.name == "rib" || h.column.name == "batch" }) {
		l.found = nil // that no column could be read says it all
		l.refuse(row[0], CodeHead, "The first line names neither a column of ribs nor one of batches.", headFix)
		return false
	}
	l.heads = heads
	return true
}

// row reads a line.
func (l *Log) row(row []csvtable.Cell) Entry {
	e := Entry{Line: row[0].Line}
	for _, h := range l.heads {
		if h.index < len(row) {
			l.cell(&e, h, row[h.index], l.table.Point(row[h.index].Text))
		}
	}
	last := 0
	for _, h := range l.heads {
		last = max(last, h.index)
	}
	for _, c := range row[min(len(row), last+1):] {
		if c.Text != "" && len(row) > len(l.table.Rows[0]) {
			l.refuse(c, CodeColumns, fmt.Sprintf("This line has %d cells, and the headings are %d.", len(row), len(l.table.Rows[0])),
				"Write decimals with a point, or put what holds a comma in quotation marks.")
			break
		}
	}
	if e.Rib == "" && e.First.Batch == "" && e.Second.Batch == "" && e.says() {
		l.tell(finding.Warning, row[0], CodeNameless, "This line names neither a rib nor a batch: it is not counted.", "Write the number of the rib, or of the batch that it is about.")
	}
	return e
}

// says reports whether an entry has a number.
func (e *Entry) says() bool {
	return slices.ContainsFunc(columns, func(c column) bool { return c.number != nil && c.number(e).OK })
}

// cell reads a cell into its place in an entry. text is what stands there, with a decimal point.
func (l *Log) cell(e *Entry, h head, c csvtable.Cell, text string) {
	if h.column.text != nil {
		s := strings.Join(strings.Fields(c.Text), " ")
		most := mostName
		if h.column.name == "note" {
			most = mostText
		}
		switch {
		case len([]rune(s)) > most:
			l.refuse(c, CodeSize, fmt.Sprintf("This is longer than %d characters.", most), "Keep the long story elsewhere.")
		case strings.ContainsFunc(s, unprintable):
			l.refuse(c, CodeText, "There is a sign here that cannot be printed.", "Take it out.")
		default:
			*h.column.text(e) = s
		}
		return
	}
	if strings.Trim(text, "-–—") == "" {
		return
	}
	v, err := h.value(text)
	if err != nil {
		l.refuse(c, CodeNumber, h.column.name+": "+err.Message, err.Fix)
		return
	}
	if v < h.column.least || v > h.column.most {
		l.refuse(c, CodeSize, h.column.name+": "+quote(c.Text)+" cannot be.", "Look for a lost decimal point or a wrong unit.")
		return
	}
	*h.column.number(e) = Value{v, true, c.Line, c.Column}
}

func unprintable(r rune) bool { return unicode.IsControl(r) || r == unicode.ReplacementChar }

// value reads a number in the column's unit, or with its own.
func (h head) value(text string) (float64, *ribfile.QuantityError) {
	var v float64
	var hasUnit bool
	var err error
	switch h.column.kind {
	case mass:
		v, hasUnit, err = ribfile.ParseMass(text)
	case temperature:
		v, hasUnit, err = ribfile.ParseTemperature(text)
	case force:
		v, hasUnit, err = ribfile.ParseForce(text)
	default:
		n := strings.TrimSpace(strings.TrimSuffix(text, "%"))
		v, err = strconv.ParseFloat(n, 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) || strings.ContainsAny(n, "xXpP_") {
			return 0, &ribfile.QuantityError{Message: quote(text) + " cannot be read as percent.", Fix: "Write a number from 0 to 100."}
		}
		return v, nil
	}
	if err != nil {
		return 0, err.(*ribfile.QuantityError)
	}
	switch {
	case hasUnit:
	case h.unit.key == "f":
		v = ribfile.Inch.Celsius(v)
	default:
		v *= h.unit.one
	}
	return v, nil
}

// quote shortens what a message repeats.
func quote(s string) string {
	if r := []rune(s); len(r) > 30 {
		s = string(r[:30]) + "…"
	}
	return strconv.Quote(s)
}
