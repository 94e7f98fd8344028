package ribfile

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"ribwright/geom/finding"
)

// tab is a table being read: its value, which is nil where the file has no such table, and its key.
type tab struct {
	r   *reader
	v   *value
	key string // full, such as "spar[1]"; "" for the top
}

// limit is what a size must keep within.
type limit struct {
	min, max float64
	above    bool   // min itself is too small
	why      string // of the greatest size, such as ", a quarter of the chord"
}

func (r *reader) tell(code, key string, at int, message, fix string) *finding.Finding {
	p := r.src.place(at)
	r.fs = append(r.fs, finding.Finding{Code: code, Message: message, Fix: fix, Key: key, File: r.src.file, Line: p.line, Column: p.column})
	return &r.fs[len(r.fs)-1]
}

// has reports whether the file gives the key, well or badly.
func (t tab) has(key string) bool { return t.v != nil && t.v.fields[key] != nil }

// get returns the key's value, or nil where it is absent or its line could not be read.
func (t tab) get(key string) *value {
	if !t.has(key) || t.v.fields[key].kind == brokenKind {
		return nil
	}
	return t.v.fields[key]
}

// missing tells that a required key is not there. example is the line to write.
func (t tab) missing(key, example string) {
	if t.has(key) {
		return
	}
	at := 0
	if t.v != nil {
		at = t.v.at
	}
	t.r.tell(CodeValueMissing, join(t.key, key), at, say(join(t.key, key))+" is missing.",
		"Write "+example+" under "+header(schemaTable(t.key))+".")
}

func (t tab) wrongType(v *value, want, example string) {
	t.r.tell(CodeTypeWrong, v.key, v.at, fmt.Sprintf("%s must be %s, not %s.", say(v.key), want, v.what()), "Write it as "+example+".")
}

// what names the kind of value for a message.
func (v *value) what() string {
	switch v.kind {
	case textKind:
		return "the text " + quote(v.raw)
	case wholeKind, decimalKind:
		return "the number " + v.raw
	case truthKind:
		return v.raw
	case dateKind:
		return "a date or time"
	case listKind:
		return "a list"
	}
	return "a table"
}

// text reads text of at most 100 printable characters. ok is false where a finding was given.
func (t tab) text(key, def, example string) (s string, ok bool) {
	v := t.get(key)
	if v == nil {
		return def, !t.has(key)
	}
	if v.kind != textKind {
		t.wrongType(v, "text in quotation marks", example)
		return def, false
	}
	if fault := unfit(v.raw); fault != "" {
		t.r.tell(CodeTextUnfit, v.key, v.at, say(v.key)+" "+fault+".", "Write one line of at most 100 characters, such as "+example+".")
		return def, false
	}
	return v.raw, true
}

func unfit(s string) string {
	switch n := len([]rune(s)); {
	case strings.TrimSpace(s) == "":
		return "is empty"
	case n > 100:
		return fmt.Sprintf("has %d characters", n)
	case strings.ContainsFunc(s, func(r rune) bool { return r < ' ' || r == 0x7f || r >= 0x80 && r < 0xa0 }):
		return "has a line end or another sign that cannot be printed"
	}
	return ""
}

func (t tab) choice(key, def string, words ...string) string {
	return t.oneOf(key, def, words, func(v *value, s string) (code, message string) {
		return CodeChoiceUnknown, say(v.key) + " cannot be " + quote(s) + "."
	})
}

func (t tab) material(key, def string, words []string) string {
	return t.oneOf(key, def, words, func(v *value, s string) (code, message string) {
		if slices.Contains(Materials, s) {
			return CodeMaterialUnknown, quote(s) + " is not a material for " + say(v.key) + "."
		}
		return CodeMaterialUnknown, "The material " + quote(s) + " is not known."
	})
}

// oneOf reads one of some words; wrong says what to tell of any other.
func (t tab) oneOf(key, def string, words []string, wrong func(v *value, s string) (code, message string)) string {
	s, ok := t.text(key, def, key+" = "+quote(words[0]))
	if !ok || slices.Contains(words, s) {
		return s
	}
	v := t.get(key)
	fix := "Write " + choices(words) + "."
	if near := nearest(s, words); near != "" && len(words) > 1 {
		fix = "Did you mean " + quote(near) + "? " + fix
	}
	code, message := wrong(v, s)
	t.r.tell(code, v.key, v.at, message, fix)
	return def
}

func (t tab) truth(key string, def bool) bool {
	v := t.get(key)
	if v == nil {
		return def
	}
	if v.kind != truthKind {
		t.wrongType(v, "true or false", key+" = true, without quotation marks")
		return def
	}
	return v.raw == "true"
}

// whole reads a number of things, named by noun.
func (t tab) whole(key string, def, least, most int, noun string) int {
	v := t.get(key)
	if v == nil {
		return def
	}
	if v.kind != wholeKind {
		example := max(def, least)
		if n, err := strconv.Atoi(strings.TrimSpace(v.raw)); err == nil && n >= least && n <= most {
			example = n
		}
		t.wrongType(v, "a whole number", fmt.Sprintf("%s = %d", key, example))
		return def
	}
	n, err := strconv.ParseInt(v.raw, 0, 64)
	if err != nil || n < int64(least) || n > int64(most) {
		got := v.float()
		f := t.r.tell(CodeSizeImpossible, v.key, v.at, fmt.Sprintf("%s is %s; it must be from %d to %d %s.", say(v.key), v.raw, least, most, noun),
			"Write a number between these.")
		f.Got, f.Limit, f.Unit = got, float64(most), noun
		if got < float64(least) {
			f.Limit = float64(least)
		}
		return def
	}
	return int(n)
}

// float is the value of a number as written; whole numbers may be hexadecimal, and any may hold underscores.
func (v *value) float() float64 {
	if v.kind == wholeKind {
		if n, err := strconv.ParseInt(v.raw, 0, 64); err == nil {
			return float64(n)
		}
	}
	f, _ := strconv.ParseFloat(strings.ReplaceAll(v.raw, "_", ""), 64)
	return f
}

// bare reads a number that is neither nan nor inf.
func (t tab) bare(v *value) (float64, bool) {
	n := v.float()
	if !finite(n) {
		t.r.tell(CodeNumberUnreadable, v.key, v.at, say(v.key)+" is "+v.raw+", which no ruler shows.", "Write a number such as 6.5.")
		return 0, false
	}
	return noMinusZero(n), true
}

// number reads a number that is no length, in the unit named ("" where it has none).
func (t tab) number(key string, def, least, most float64, above bool, unit string) float64 {
	v := t.get(key)
	if v == nil {
		return def
	}
	if v.kind == workedKind {
		return v.num
	}
	if v.kind != wholeKind && v.kind != decimalKind {
		t.wrongType(v, "a number", key+" = "+decimals(max(def, least, 1), 3))
		return def
	}
	n, ok := t.bare(v)
	if !ok {
		return def
	}
	if n < least || n > most || (above && n == least) {
		word := strings.TrimSpace(" " + unit)
		if word != "" {
			word = " " + word
		}
		f := t.r.tell(CodeSizeImpossible, v.key, v.at,
			fmt.Sprintf("%s is %s%s; it must be from %s to %s%s.", say(v.key), decimals(n, 6), word, decimals(least, 3), decimals(most, 3), word),
			"Write a number between these.")
		f.Got, f.Limit, f.Unit = n, most, unit
		if n <= least {
			f.Limit = least
		}
		if unit == "" {
			f.Unit = "1"
		}
		return def
	}
	return n
}

// degrees reads an angle of at most so many degrees either way, in radians; 0 where the file gives none.
func (t tab) degrees(key string, most float64) float64 {
	return t.number(key, 0, -most, most, false, "degrees") * math.Pi / 180
}

// length reads a size. ok is false where a finding was given.
func (t tab) length(key string, def float64, lim limit) (mm float64, ok bool) {
	v := t.get(key)
	if v == nil {
		return def, !t.has(key)
	}
	mm, ok = t.quantity(v)
	if !ok {
		return def, false
	}
	if !t.within(v, mm, lim) {
		return def, false
	}
	return mm, true
}

// quantity reads a length in millimetres, without limits.
func (t tab) quantity(v *value) (mm float64, ok bool) {
	switch v.kind {
	case workedKind:
		return v.num, true
	case wholeKind, decimalKind:
		n, ok := t.bare(v)
		return t.r.inUnits(v, n), ok
	case textKind:
		n, hasUnit, err := ParseLength(v.raw)
		if err != nil {
			t.unreadable(v, err)
			return 0, false
		}
		if !hasUnit {
			n = t.r.inUnits(v, n)
		}
		return n, true
	}
	t.wrongType(v, "a length", `6, "1/4" or "6 mm"`)
	return 0, false
}

func (t tab) unreadable(v *value, err error) {
	q := err.(*QuantityError)
	t.r.tell(CodeLengthUnreadable, v.key, v.at, say(v.key)+": "+q.Message, q.Fix)
}

// within holds a size against its limit.
func (t tab) within(v *value, mm float64, lim limit) bool {
	return t.withinAs(v, mm, lim, t.r.doc.Length, "mm")
}

// withinAs holds any quantity against its limit; written is how it stands in messages, and unit the finding's.
func (t tab) withinAs(v *value, x float64, lim limit, written func(float64) string, unit string) bool {
	low := x < lim.min || (lim.above && x == lim.min)
	if !low && x <= lim.max {
		return true
	}
	word, bound, why, fix := "at most ", lim.max, lim.why, "Write less; mind the unit."
	if low {
		word, bound, why, fix = "at least ", lim.min, "", "Write more; mind the unit."
		if lim.above {
			word = "more than "
		}
	}
	f := t.r.tell(CodeSizeImpossible, v.key, v.at,
		fmt.Sprintf("%s is %s; it must be %s%s%s.", say(v.key), written(x), word, written(bound), why), fix)
	f.Got, f.Limit, f.Unit = x, bound, unit
	return false
}

// station is a place along the chord. ok is false where it cannot be compared with others.
type station struct {
	mm float64
	ok bool
}

// station reads a length from the leading edge or a share of the chord, between 0 and aft.
func (t tab) station(key string, def, aft float64) station {
	v := t.get(key)
	if v == nil {
		return station{def, !t.has(key)}
	}
	return t.stationOf(v, v.raw, aft)
}

// stationOf reads the station in text, which is v's or part of it.
func (t tab) stationOf(v *value, text string, aft float64) station {
	if v.kind == workedKind {
		return t.inRib(v, v.num, aft, t.r.chordKnown)
	}
	if v.kind == textKind {
		share, isShare, err := parseShare(text)
		if err != nil {
			t.unreadable(v, err)
			return station{}
		}
		if isShare {
			return t.inRib(v, share*t.r.chord/100, aft, true)
		}
		n, hasUnit, err := ParseLength(text)
		if err != nil {
			t.unreadable(v, err)
			return station{}
		}
		if !hasUnit {
			n = t.r.inUnits(v, n)
		}
		return t.inRib(v, n, aft, t.r.chordKnown)
	}
	if v.kind != wholeKind && v.kind != decimalKind {
		t.wrongType(v, "a station", `"14%" or "8 1/2 in"`)
		return station{}
	}
	n, ok := t.bare(v)
	if !ok {
		return station{}
	}
	return t.inRib(v, t.r.inUnits(v, n), aft, t.r.chordKnown)
}

// inRib holds a station against the rib's ends. comparable is false for a length where the chord is not known.
func (t tab) inRib(v *value, mm, aft float64, comparable bool) station {
	// A hundred-thousandth of a millimetre forgives "100%" of a chord in inches.
	const slack = 1e-5
	if mm >= 0 && (mm <= aft+slack || !comparable) {
		return station{min(mm, max(aft, 0)), comparable}
	}
	r, end := t.r, "the trailing edge"
	if aft < r.chord-slack {
		end = "where the rib is cut off"
	}
	f := r.tell(CodeStationOutside, v.key, v.at,
		fmt.Sprintf("%s stands at %s, outside the rib: it must be from 0 (the leading edge) to %s (%s).", say(v.key), r.far(mm), r.far(aft), end),
		"Mend the station; it is measured aft from the leading edge.")
	f.Got, f.Limit, f.Unit = mm, aft, "mm"
	if mm < 0 {
		f.Limit = 0
	}
	if !r.chordKnown { // lengths made of shares of a chord that is not known would mislead
		f.Got, f.Limit, f.Unit = 100*mm/r.chord, 100*f.Limit/r.chord, "%"
	}
	return station{}
}

// far writes a station for people: a length, or a share where the chord is not known.
func (r *reader) far(mm float64) string {
	if r.chordKnown {
		return r.doc.Length(mm)
	}
	return decimals(100*mm/r.chord, 2) + "%"
}
