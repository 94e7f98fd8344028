package airfoils

import (
	"regexp"
	"strings"
)

// A line is believed about units where it heads the columns, or speaks of what is measured.
var (
	unitLine  = regexp.MustCompile(`(?i)\b(dimensions?|ordinates?|stations?|distances?|measurements?|values|units?)\b`)
	chordText = regexp.MustCompile(`(?i)\bchord\s*(length|of|is|=|:)*\s*[-0-9./ ]+\s*(inch(es)?|in\b\.?|mm|cm|"|″)|[0-9./]+[- ]*(inch(es)?|in\b\.?|mm|cm|"|″)[- ]*chord`)
	percents  = regexp.MustCompile(`(?i)%|\bper ?cent\b`)
	inches    = regexp.MustCompile(`(?i)\binch(es)?\b|[(\[]in\.?[)\]]|\bins\b`)
	metric    = regexp.MustCompile(`(?i)\bmm\b|\bmillimet(re|er)s?\b`)
	centi     = regexp.MustCompile(`(?i)\bcm\b|\bcentimet(re|er)s?\b`)
)

// allPercent finds words that say it of the whole table: "percent of chord", "in %", a line "percent". Behind a number
// they say it of that number: "thickness 12 percent of chord".
var allPercent = regexp.MustCompile(`(?i)(^|[^0-9 \t])\s*(%|per ?cent)\s*(of\s+)?(the\s+)?(chord|c\b)|\bin (%|per ?cent\b)|^\W*(%|per ?cent)\W*$`)

// unitOf returns the unit that a line of text speaks of, "percent", "inches", "mm" or "cm"; several is set
// where it speaks of more than one.
func unitOf(text string) (unit string, several bool) {
	text = chordText.ReplaceAllString(text, "chord ")
	for _, u := range [...]struct {
		name string
		find *regexp.Regexp
	}{{"percent", percents}, {"inches", inches}, {"mm", metric}, {"cm", centi}} {
		if u.find.MatchString(text) {
			several = unit != ""
			unit = u.name
		}
		if several {
			break
		}
	}
	return unit, several
}

// units takes the unit that the headings of the columns and marks at the numbers name, or else lines
// about what is measured. Two that differ are refused: stations in percent with ordinates in inches would
// be misread.
func (c *checker) units(texts, rows []line, n int) bool {
	take := func(unit string, several bool, at place) bool {
		if unit == "" {
			return true
		}
		if several || c.unit != "" && c.unit != unit {
			c.refuse(at, "section-units", "Give stations and ordinates in one unit. If they are, put # before the line that says otherwise.",
				"the table speaks of two units: stations and ordinates must be in one")
			return false
		}
		c.unit, c.unitAt = unit, at
		return true
	}
	for i := range rows {
		for _, w := range rows[i].words {
			mark := map[string]string{"%": "percent", "in": "inches"}[w.mark]
			if !take(mark, false, place{line: rows[i].number, column: w.column}) {
				return false
			}
		}
	}
	for _, firm := range [...]bool{true, false} {
		for i := range texts {
			l := &texts[i]
			lay, heads := layoutOf(headingOf(l), n, false)
			if radiusLine.MatchString(l.text) || heads != firm || !firm && !unitLine.MatchString(l.text) && !allPercent.MatchString(l.text) {
				continue
			}
			text := l.text
			if heads && lay.twice {
				text = firstHalf(text)
			}
			unit, several := unitOf(text)
			if !take(unit, several, place{line: l.number, column: 1}) {
				return false
			}
		}
		if c.unit != "" {
			c.unitFirm = firm
			return true
		}
	}
	return true
}

// firstHalf returns a heading up to where its second column of stations begins.
func firstHalf(text string) string {
	const word = "station"
	low := strings.ToLower(text)
	if i := strings.Index(low, word); i >= 0 && len(low) == len(text) {
		if k := strings.Index(low[i+len(word):], word); k >= 0 {
			return text[:i+len(word)+k]
		}
	}
	return text
}

// unitAgrees refuses a table whose last station is not what the unit in its text asks for.
func (c *checker) unitAgrees(full float64, xs string) bool {
	if c.unit != "percent" || full == 100 || c.broken {
		return true
	}
	c.refuse(c.unitAt, "section-units", "If the stations are lengths or shares of the chord, say so instead, or put # before this line; if rows are missing, give them.",
		"this line speaks of percent, but the last station is %s, not 100", xs)
	return false
}
