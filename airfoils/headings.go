package airfoils

import (
	"regexp"
	"slices"
	"strings"
)

// role is what a column holds.
type role int

const (
	other role = iota
	station
	upper
	lower
	ordinate
)

// names are the words that head a column, without points and brackets.
var names = map[string]role{
	"station": station, "stations": station, "sta": station, "stat": station, "stn": station, "x": station, "x/c": station,
	"distance": station, "abscissa": station, "xu": station, "xl": station,
	"upper": upper, "up": upper, "top": upper, "yu": upper, "yu/c": upper, "y_u": upper, "yupper": upper, "yo": upper, "oben": upper,
	"lower": lower, "low": lower, "lwr": lower, "bottom": lower, "yl": lower, "yl/c": lower, "y_l": lower, "ylower": lower, "unten": lower,
	"ordinate": ordinate, "ordinates": ordinate, "ord": ordinate, "y": ordinate, "y/c": ordinate,
}

// fillers are words of a heading that name no column.
var fillers = map[string]bool{"": true, "of": true, "the": true, "from": true, "in": true, "inch": true, "inches": true, "mm": true, "cm": true,
	"percent": true, "per": true, "cent": true, "chord": true, "c": true, "surface": true, "side": true, "l.e": true, "le": true,
	"leading": true, "edge": true, "and": true, "|": true, "-": true, "/": true, "measured": true, "down": true, "downward": true, "downwards": true, "below": true}

// headingOf returns the columns that a line of text names; words that name none are of the role other.
func headingOf(l *line) (cols []role) {
	yo := strings.Contains(strings.ToLower(l.text), "yo")
	for _, w := range l.words {
		t := strings.Trim(strings.ToLower(w.text), ".,:;()[]%\"″'")
		if name, unit, ok := strings.Cut(t, "_"); ok {
			if _, is := measuredUnits[unit]; is { // station_percent, as this program writes it
				t = name
			}
		}
		r := names[t]
		if t == "yu" && yo { // oben and unten
			r = lower
		}
		last := len(cols) - 1
		switch {
		case fillers[t]:
		case r == ordinate && last >= 0 && (cols[last] == upper || cols[last] == lower):
		case (r == upper || r == lower) && last >= 0 && cols[last] == ordinate:
			cols[last] = r
		default:
			cols = append(cols, r)
		}
	}
	return cols
}

// sideOf returns the side that a line of text announces, if it speaks of one only.
func sideOf(l *line, cols []role) role {
	up, low := slices.Contains(cols, upper), slices.Contains(cols, lower)
	if up == low || direction(l, cols) != 0 || radiusLine.MatchString(l.text) {
		return other
	}
	if up {
		return upper
	}
	return lower
}

// layout is what a table's headings say about its columns. Its slices hold the columns' places.
type layout struct {
	station, upper, lower int  // three columns and more
	x, y                  int  // two columns
	xu, yu, xl, yl        int  // four columns: both sides have their own stations
	four, named           bool // four columns are so named; any heading was used
	twice                 bool // the same three columns follow once more, in another unit
	left                  int  // columns that are not read
	at                    int  // the heading's line
}

func (a layout) same(b layout) bool { a.at, b.at = 0, 0; return a == b }

// layoutOf returns the layout of n columns that a heading names.
func layoutOf(cols []role, n int, lowerFirst bool) (layout, bool) {
	l := layout{station: 0, upper: 1, lower: 2, x: 0, y: 1, named: true}
	count := map[role]int{}
	for _, r := range cols {
		count[r]++
	}
	switch {
	case len(cols) != n:
		return l, false
	case n == 2:
		l.x = slices.Index(cols, station)
		l.y = 1 - l.x
		return l, count[station] == 1 && count[other] == 0
	case n == 4 && cols[0] == station && cols[1] == station && count[upper] == 1 && count[lower] == 1:
		// The first column says in percent what the second says in the ordinates' unit.
		l.station, l.upper, l.lower, l.left = 1, slices.Index(cols, upper), slices.Index(cols, lower), 1
		return l, true
	case n == 6 && slices.Equal(cols[:3], cols[3:]) && count[station] == 2 && count[upper] == 2 && count[lower] == 2:
		l.station, l.upper, l.lower = slices.Index(cols, station), slices.Index(cols, upper), slices.Index(cols, lower)
		l.left, l.twice = 3, true
		return l, true
	case count[station] == 1 && count[upper] == 1 && count[lower] == 1 && count[other] == n-3:
		l.station, l.upper, l.lower = slices.Index(cols, station), slices.Index(cols, upper), slices.Index(cols, lower)
		l.left = n - 3
		return l, true
	case n == 4 && cols[0] == station && cols[2] == station && count[station] == 2 && count[other] == 0:
		l.xu, l.yu, l.xl, l.yl, l.four = 0, 1, 2, 3, true
		if cols[1] == lower || cols[3] == upper || cols[1] == ordinate && lowerFirst {
			l.xu, l.yu, l.xl, l.yl = 2, 3, 0, 1
		}
		return l, cols[1] != cols[3] || cols[1] == ordinate
	}
	return l, false
}

// words returns the order of the columns, where it is not the usual one.
func (l layout) words(n int) string {
	switch {
	case !l.named:
		return ""
	case n == 2 && l.x == 1:
		return ", the ordinate in the first column"
	case l.four && l.xu == 2:
		return ", the lower side in the first two columns"
	case n == 3 && l.station == 0 && l.lower < l.upper:
		return ", the lower side before the upper one"
	case n > 3 && !l.four || n == 3 && l.station != 0:
		place := [...]string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"}
		return ", by the headings: station in the " + place[min(l.station, 7)] + " column, upper in the " + place[min(l.upper, 7)] + ", lower in the " + place[min(l.lower, 7)]
	}
	return ""
}

// headings gathers what a table's text says about its columns: the layout, taken from the headings that
// name n columns. Two headings that differ are refused.
func (c *checker) headings(texts []line, n int) (layout, bool) {
	out := layout{station: 0, upper: 1, lower: 2, x: 0, y: 1}
	lowerFirst := false
	for i := range texts {
		cols := headingOf(&texts[i])
		if len(cols) == 2 && n == 4 && !slices.Contains(cols, other) {
			lowerFirst = cols[0] == lower && cols[1] == upper
		}
		l, ok := layoutOf(cols, n, lowerFirst)
		if !ok {
			continue
		}
		l.at = texts[i].number
		if out.named && !out.same(l) {
			c.refuse(place{line: l.at, column: 1}, "section-headings", "Let all headings name the columns in one order, or put # before the one that is wrong.",
				"this heading names the columns otherwise than the one on line %d", out.at)
			return out, false
		}
		out = l
	}
	return out, true
}

// These find words on how the lower ordinates are measured.
var (
	directed = regexp.MustCompile(`(?i)\blower (surface |side )?(ordinates?|values|figures|column)\b[^.;]*\b(measured|positive|plus|given|reckoned)\b`)
	lowDown  = regexp.MustCompile(`(?i)\b(lower|low)\b.*\b(down|downwards?|below)\b`)
	lowUp    = regexp.MustCompile(`(?i)\b(lower|low)\b.*\b(up|upwards?|above)\b`)
	baseText = regexp.MustCompile(`(?i)\b(base|datum)\b`)
)

// direction returns -1 where a line, or the heading of the lower column, says that lower ordinates are
// measured down, 1 where it says up, and 0 where it says nothing of the kind.
func direction(l *line, cols []role) int {
	heads := slices.Contains(cols, lower) && slices.Contains(cols, station) && !slices.Contains(cols, other)
	down, up := lowDown.MatchString(l.text), lowUp.MatchString(l.text)
	switch {
	case baseText.MatchString(l.text), !directed.MatchString(l.text) && !(heads && down):
		return 0
	case down && !up:
		return -1
	case up && !down:
		return 1
	}
	return 0
}
