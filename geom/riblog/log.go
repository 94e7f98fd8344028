// Package riblog reads, writes and sums up the log of a build: a CSV file with a line for each rib, and one for the
// sample joint of each batch of adhesive.
//
// A line says what is known at the time; later lines about the same rib or batch fill in the rest. Of what is said
// twice, the later figure holds, with a warning. Line k of the file is Entry.Line. The columns, in a new log:
//
//	rib, kind          which rib; its kind, where the rib file has several
//	date               as given
//	batch, a_g, b_g    the batch of adhesive, and what was weighed of parts A and B; of a rib: for its first side
//	second_batch, …    the same for its second side
//	temperature_c, humidity_percent    where it was glued
//	mass_g             of the finished rib
//	coupon_load_n, wood_failure_percent    of the batch's sample joint: where it broke, and how much of the face was wood
//	signed, note
//
// A line without a rib is about the batch alone. People open the file in a spreadsheet, so columns may stand in any
// order, be missing, or have other units ("mass (oz)"), and the file may come back with semicolons, decimal commas or
// a byte-order mark: a new line is written in the manner of the file.
//
// A line counts when its end is on the disk: what stands behind the last line end is torn, by a power cut say, and is
// never read as a line nor joined to the next one (Tail). Masses are g, temperatures °C, loads N. The package opens no
// files; a caller that appends must hold others off and see to it that the line is on the disk before it says so.
package riblog

import (
	"slices"
	"strings"
	"unicode"

	"ribwright/geom/ribfile"
)

// Value is a number that may be missing.
type Value struct {
	V            float64
	OK           bool
	Line, Column int // where it stands in the file
}

// Glued is what a side was glued from: the batch, and what was weighed for it.
type Glued struct {
	Batch  string
	AG, BG Value
}

// Entry is a line of the log.
type Entry struct {
	Line                      int // in the file, from 1
	Rib, Kind, Date           string
	First, Second             Glued
	TemperatureC, HumidityPct Value
	MassG                     Value // of the finished rib
	CouponN, WoodPct          Value // of the sample joint of the batch First.Batch
	Signed, Note              string
}

// kind is what a column holds.
type kind int

const (
	words kind = iota
	mass
	temperature
	percent
	force
)

// column is a column of the log.
type column struct {
	name   string   // "second a"
	names  []string // other words that head it
	kind   kind
	text   func(*Entry) *string
	number func(*Entry) *Value
	least  float64
	most   float64 // what lies outside is a slip
}

const (
	mostRib     = 20000 // g
	mostWeighed = 5000  // g, of a part in a cup
	mostLoad    = 100e3 // N
)

// columns are the columns of a new log, in their order.
var columns = []column{
	{name: "rib", names: []string{"number", "no", "nr", "rib number", "rib no"}, text: func(e *Entry) *string { return &e.Rib }},
	{name: "kind", names: []string{"rib kind"}, text: func(e *Entry) *string { return &e.Kind }},
	{name: "date", names: []string{"day"}, text: func(e *Entry) *string { return &e.Date }},
	{name: "batch", names: []string{"first batch", "batch 1"}, text: func(e *Entry) *string { return &e.First.Batch }},
	{name: "a", names: []string{"part a", "first a", "a 1"}, kind: mass, number: func(e *Entry) *Value { return &e.First.AG }, most: mostWeighed},
	{name: "b", names: []string{"part b", "first b", "b 1"}, kind: mass, number: func(e *Entry) *Value { return &e.First.BG }, most: mostWeighed},
	{name: "second batch", names: []string{"batch 2"}, text: func(e *Entry) *string { return &e.Second.Batch }},
	{name: "second a", names: []string{"a 2", "second part a"}, kind: mass, number: func(e *Entry) *Value { return &e.Second.AG }, most: mostWeighed},
	{name: "second b", names: []string{"b 2", "second part b"}, kind: mass, number: func(e *Entry) *Value { return &e.Second.BG }, most: mostWeighed},
	{name: "temperature", names: []string{"temp"}, kind: temperature, number: func(e *Entry) *Value { return &e.TemperatureC }, least: -40, most: 80},
	{name: "humidity", names: []string{"rh", "relative humidity"}, kind: percent, number: func(e *Entry) *Value { return &e.HumidityPct }, most: 100},
	{name: "mass", names: []string{"weight", "rib mass", "mass of the rib"}, kind: mass, number: func(e *Entry) *Value { return &e.MassG }, most: mostRib},
	{name: "coupon load", names: []string{"load", "coupon"}, kind: force, number: func(e *Entry) *Value { return &e.CouponN }, most: mostLoad},
	{name: "wood failure", names: []string{"wood", "coupon wood failure"}, kind: percent, number: func(e *Entry) *Value { return &e.WoodPct }, most: 100},
	{name: "signed", names: []string{"sign", "signature", "initials", "by"}, text: func(e *Entry) *string { return &e.Signed }},
	{name: "note", names: []string{"notes", "remark", "remarks"}, text: func(e *Entry) *string { return &e.Note }},
}

// Columns returns the names of a line's columns, as Cells takes them.
func Columns() []string {
	out := make([]string, len(columns))
	for i, c := range columns {
		out[i] = c.name
	}
	return out
}

// unit is a unit that a heading may name.
type unit struct {
	kind kind
	one  float64 // in g, N or percent
	shown,
	key string
}

// unitWords are the words for units in headings; temperatures in Fahrenheit have their own zero.
var unitWords = map[string][]unit{
	"g": {{mass, 1, "g", "g"}}, "grams": {{mass, 1, "g", "g"}}, "oz": {{mass, ribfile.GramsPerOunce, "oz", "oz"}}, "ounces": {{mass, ribfile.GramsPerOunce, "oz", "oz"}},
	"kg": {{mass, 1000, "kg", "kg"}, {force, ribfile.NewtonsPerKgf, "kg", "kg"}}, "lb": {{mass, ribfile.GramsPerPound, "lb", "lb"}, {force, ribfile.NewtonsPerLbf, "lbf", "lbf"}},
	"n": {{force, 1, "N", "n"}}, "lbf": {{force, ribfile.NewtonsPerLbf, "lbf", "lbf"}},
	"c": {{temperature, 1, "C", "c"}}, "f": {{temperature, 1, "F", "f"}},
	"percent": {{percent, 1, "%", "percent"}}, "%": {{percent, 1, "%", "percent"}},
}

// unitOf finds the unit that a word of a heading stands for in a column of a kind.
func unitOf(word string, k kind) (unit, bool) {
	i := slices.IndexFunc(unitWords[word], func(u unit) bool { return u.kind == k })
	if i < 0 {
		return unit{}, false
	}
	return unitWords[word][i], true
}

// usual returns the unit of a kind in files of the units given.
func usual(k kind, u ribfile.Units) unit {
	word := map[kind]string{mass: "g", temperature: "c", percent: "percent", force: "n"}[k]
	if u == ribfile.Inch {
		word = map[kind]string{mass: "oz", temperature: "f", percent: "percent", force: "lbf"}[k]
	}
	out, _ := unitOf(word, k)
	return out
}

// head is a column as a file has it.
type head struct {
	column *column
	unit   unit
	named  bool // the heading names the unit
	index  int
	text   string
}

// heading finds what a heading stands for. known is false where no column goes by it; ok is false where its unit
// is none of that column.
func heading(s string, units ribfile.Units) (h head, known, ok bool) {
	parts := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool {
		return unicode.IsSpace(r) || strings.ContainsRune("_()[],.:/-°", r)
	})
	if len(parts) == 0 {
		return head{}, false, true
	}
	last := parts[len(parts)-1]
	for i := range columns {
		c := &columns[i]
		goesBy := func(words []string) bool {
			name := strings.Join(words, " ")
			return name == c.name || slices.Contains(c.names, name)
		}
		switch {
		case goesBy(parts):
			return head{column: c, unit: usual(c.kind, units)}, true, true
		case len(parts) > 1 && len(unitWords[last]) > 0 && goesBy(parts[:len(parts)-1]):
			u, ok := unitOf(last, c.kind)
			return head{column: c, unit: u, named: true}, true, ok
		}
	}
	return head{}, false, true
}

// same writes a rib's or a batch's name such that two ways of writing one are the same: "No 07" and "no 7".
func same(name string) string {
	parts := strings.Fields(strings.ToLower(name))
	for i, p := range parts {
		if strings.Trim(p, "0123456789") == "" {
			parts[i] = strings.TrimLeft(p[:len(p)-1], "0") + p[len(p)-1:]
		}
	}
	return strings.Join(parts, " ")
}
