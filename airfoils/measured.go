package airfoils

import (
	"math"
	"strings"
	"unicode"

	"ribwright/geom/csvtable"
	"ribwright/geom/finding"
)

// Surface is what a reading was taken of.
type Surface int

// The surfaces: the ordinate of either side, or the distance between them.
const (
	OfUpper Surface = iota
	OfLower
	OfDepth
)

// String returns "upper", "lower" or "depth".
func (s Surface) String() string { return [...]string{"upper", "lower", "depth"}[s] }

// Reading is one number that a builder measured on a rib or on a print, mm.
type Reading struct {
	Of      Surface
	Station float64 // aft of the leading edge
	Value   float64 // ordinate or depth
	Line    int     // where it stands in the builder's file
}

// inch is the international inch, mm.
const inch = 25.4

// measuredUnits are the words for units in a heading or behind a number, in mm; a percent is of the chord.
var measuredUnits = map[string]float64{
	"mm": 1, "millimetre": 1, "millimetres": 1, "millimeter": 1, "millimeters": 1, "cm": 10,
	"in": inch, "inch": inch, "inches": inch, `"`: inch, "”": inch, "″": inch, "%": 0, "percent": 0,
}

// measuredNames are the words that head a column.
var measuredNames = map[string]string{
	"station": "station", "stations": "station", "x": "station",
	"upper": "upper", "top": "upper", "lower": "lower", "bottom": "lower",
	"depth": "depth", "height": "depth", "thickness": "depth",
}

const headFix = "Let the first line name the columns: station, upper, lower; or station, depth. Units may stand there: station_mm, upper_in."

// ReadMeasured reads what a builder measured: a CSV file whose first line names its columns, "station" and
// "upper", "lower" or "depth", each with a unit where it has one ("station_mm", "depth (in)", "station %").
// Numbers without a unit are in unit, mm; percents are of the chord, mm. Columns are parted by commas, or by
// semicolons or tabs, and then decimals may have a comma. Fractions are read as in tables of ordinates. An
// empty cell, or a dash, was not measured. Other columns are passed over, with a note.
func ReadMeasured(file string, data []byte, unit, chord float64) ([]Reading, []finding.Finding) {
	table, broken := csvtable.Read(data, mostColumns, 1+mostReadings)
	m := &measuredReader{checker: checker{file: file}, unit: unit, chord: chord, table: table}
	m.read(broken)
	if m.failed() {
		return nil, finding.Sort(m.found)
	}
	return m.readings, finding.Sort(m.found)
}

// measuredReader reads one file of measurements.
type measuredReader struct {
	checker
	unit, chord float64
	table       csvtable.Table
	columns     []measuredColumn
	readings    []Reading
}

// measuredColumn is a column that is read: its index, what it holds and what its bare numbers are in, mm.
type measuredColumn struct {
	index int
	name  string
	unit  float64
}

// mostColumns and mostReadings are far more than anybody measures.
const (
	mostColumns  = 100
	mostReadings = 1000
)

// cellAt is a cell with its place.
type cellAt struct {
	text string
	at   place
}

// read goes through the rows of the table, and tells where it breaks off.
func (m *measuredReader) read(broken csvtable.Broken) {
	for _, row := range m.table.Rows {
		line := make([]cellAt, len(row))
		for i, c := range row {
			line[i] = cellAt{c.Text, place{line: c.Line, column: c.Column}}
		}
		switch {
		case m.columns != nil:
			m.row(line)
		case !m.head(line):
			return
		}
	}
	at := place{line: broken.Line, column: broken.Column}
	switch broken.Fault {
	case csvtable.NotText:
		m.refuse(at, "measured-text", "Save it as CSV in plain text (UTF-8).", "the file is not plain text")
		return
	case csvtable.Quotes:
		m.refuse(at, "measured-quotes", "Put the quotation marks right, or leave them out.", "this line's quotation marks do not pair")
		return
	case csvtable.Wide:
		m.refuse(at, "measured-columns", headFix, "this line has %d columns", broken.Columns)
		return
	case csvtable.Long:
		m.refuse(at, "measured-many", "A few dozen measurements tell everything.", "the file has more than %d rows", mostReadings)
		return
	}
	if m.columns == nil {
		m.refuse(place{line: 1, column: 1}, "measured-empty", headFix, "the file holds no measurements")
	} else if len(m.readings) == 0 && !m.failed() {
		m.refuse(place{line: m.table.Lines, column: 1}, "measured-empty", "Give a row for each station that was measured.", "there is no measurement below the headings")
	}
}

// head reads the line of headings.
func (m *measuredReader) head(cells []cellAt) bool {
	seen := map[string]bool{}
	for i, c := range cells {
		name, unit, known := m.heading(c.text)
		if !known {
			if c.text != "" {
				m.say(finding.Note, c.at, "measured-column", "the column “"+brief(c.text)+"” is not read", headFix)
			}
			continue
		}
		switch {
		case !seen[name]:
			seen[name] = true
			m.columns = append(m.columns, measuredColumn{i, name, unit})
		case name != "station": // the list of ordinates has its stations in percent and as lengths: the first serves
			m.refuse(c.at, "measured-doubled", "Keep one of them.", "two columns are headed “%s”", name)
			return false
		}
	}
	if !seen["station"] || !(seen["upper"] || seen["lower"] || seen["depth"]) {
		m.found = nil // that no column could be read says it all
		m.refuse(cells[0].at, "measured-head", headFix, "the first line does not name a column of stations and one of ordinates or depths")
		return false
	}
	return true
}

// heading returns what a heading stands for and the unit of its numbers.
func (m *measuredReader) heading(s string) (name string, unit float64, known bool) {
	unit = m.unit
	for _, w := range strings.FieldsFunc(strings.ToLower(s), func(r rune) bool {
		return unicode.IsSpace(r) || strings.ContainsRune("_()[],.:/-", r)
	}) {
		if n, ok := measuredNames[w]; ok && name == "" {
			name = n
		} else if mm, ok := measuredUnits[w]; ok {
			unit = m.inMM(mm)
		}
	}
	return name, unit, name != ""
}

func (m *measuredReader) inMM(unit float64) float64 {
	if unit == 0 {
		return m.chord / 100
	}
	return unit
}

// row reads one line of measurements.
func (m *measuredReader) row(cells []cellAt) {
	last := m.columns[0].index
	for _, c := range m.columns {
		last = max(last, c.index)
	}
	values, given := map[string]float64{}, map[string]cellAt{}
	for _, c := range m.columns {
		if c.index >= len(cells) {
			continue
		}
		cell := cells[c.index]
		if strings.Trim(cell.text, "-–—") == "" {
			continue
		}
		mm, ok := m.value(cell.text, c.unit)
		if !ok {
			m.refuse(cell.at, "measured-number", "Put the number right. Write a point for the decimals, fractions as 5/16 or 3-7/16; leave the cell empty where nothing was measured.",
				"“%s” is not a length", brief(cell.text))
			return
		}
		values[c.name], given[c.name] = mm, cell
	}
	for _, c := range cells[min(last+1, len(cells)):] {
		if _, ok := m.value(c.text, 1); ok && !m.table.Comma() && len(m.columns) == last+1 {
			m.refuse(c.at, "measured-columns", "Write decimals with a point, or part the columns by semicolons.", "this line has %d columns, the headings are %d", len(cells), last+1)
			return
		}
	}
	m.take(cells[0].at, values, given)
}

// take keeps the readings of a row, where they can be of this rib at all.
func (m *measuredReader) take(row place, values map[string]float64, given map[string]cellAt) {
	x, ok := values["station"]
	if !ok {
		m.refuse(row, "measured-station", "Give the station of each measurement.", "this line has no station")
		return
	}
	if at := given["station"]; x < -float64(0.05*m.chord) || x > float64(1.2*m.chord) {
		m.refuse(at.at, "measured-station", "Stations are measured aft from the leading edge. Look at the unit, too: it may stand in the heading, as in station_mm or station_in.",
			"station %s lies off the rib, whose chord is %s mm", brief(at.text), plain(math.Round(10*m.chord)/10))
		return
	}
	upper, hasUpper := values["upper"]
	lower, hasLower := values["lower"]
	const slack = 0.01 // share of the chord: at nose and tail both sides measure nearly the same
	if hasUpper && hasLower && lower-upper > float64(slack*m.chord) {
		m.refuse(given["lower"].at, "measured-crossed", "Ordinates below the chord line are negative. Look for a missing sign, or for columns exchanged.",
			"at station %s the lower side, %s, stands above the upper one, %s", brief(given["station"].text), brief(given["lower"].text), brief(given["upper"].text))
		return
	}
	for _, s := range []Surface{OfUpper, OfLower, OfDepth} {
		v, ok := values[s.String()]
		if !ok {
			continue
		}
		if at := given[s.String()]; math.Abs(v) > m.chord || s == OfDepth && v < 0 {
			m.refuse(at.at, "measured-ordinate", "Look for a lost decimal point or a wrong unit.", "“%s” cannot be a measure of this rib", brief(at.text))
			return
		}
		m.readings = append(m.readings, Reading{Of: s, Station: x, Value: v, Line: given[s.String()].at.line})
	}
}

// value reads a number, with a unit behind it or in the column's.
func (m *measuredReader) value(s string, unit float64) (float64, bool) {
	n := strings.TrimRight(s, "\"”″%abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ")
	if word := strings.ToLower(strings.TrimSpace(s[len(n):])); word != "" {
		mm, ok := measuredUnits[word]
		if !ok {
			return 0, false
		}
		unit = m.inMM(mm)
	}
	words := strings.Fields(plainSigns(m.table.Point(n)))
	if len(words) == 2 && strings.Contains(words[1], "/") {
		words = []string{words[0] + "-" + words[1]}
	}
	if len(words) != 1 {
		return 0, false
	}
	v, ok := number(words[0])
	return float64(v * unit), ok && !math.IsInf(v*unit, 0)
}

// brief shortens what a message repeats.
func brief(s string) string {
	if r := []rune(printable(s)); len(r) > 30 {
		return string(r[:30]) + "…"
	}
	return printable(s)
}
