package airfoils

import (
	"slices"
	"strings"
)

// edge is an end of the chord that a row is named after.
type edge int

const (
	noEdge edge = iota
	leading
	trailing
)

// edgeAt returns the edge that the words from i on name, and how many words that takes: "L.E.", "(LE)", "trailing edge".
func edgeAt(words []word, i int) (edge, int) {
	bare := func(k int) string {
		if k >= len(words) {
			return ""
		}
		return strings.ToLower(strings.Map(func(r rune) rune {
			if strings.ContainsRune(".,:()[]", r) {
				return -1
			}
			return r
		}, words[k].text))
	}
	switch one, two := bare(i), bare(i)+" "+bare(i+1); {
	case one == "le":
		return leading, 1
	case one == "te":
		return trailing, 1
	case two == "leading edge", two == "l e":
		return leading, 2
	case two == "trailing edge", two == "t e":
		return trailing, 2
	}
	return noEdge, 0
}

// nameless reads rows that name an edge: the name goes where the row has its station, too, and stands for the station
// where it has not: 0 at the leading edge, at the trailing edge the whole chord, where the other stations leave no doubt
// of it. said is in words for the section's form.
func (c *checker) nameless(lines []line) (out []line, said string) {
	n := columnsOf(lines)
	for i, l := range lines {
		at, e, k := 0, noEdge, 0
		for ; at < len(l.words) && e == noEdge; at++ {
			e, k = edgeAt(l.words, at)
		}
		at--
		if e == noEdge || len(l.words)-k < max(n-1, 1) {
			continue
		}
		rest := l
		rest.words = slices.Delete(slices.Clone(l.words), at, at+k)
		if !rest.numeric() || !rest.has(n) && !(n > 2 && at == 0 && rest.has(n-1)) || rest.has(n) && rest.mixed() > 0 {
			continue
		}
		if !rest.has(n) {
			station := "0"
			if e == trailing {
				station = wholeChord(lines)
			}
			if station == "" {
				c.refuse(place{line: l.number, column: l.words[0].column}, "section-number", "Write the station of the trailing edge in its place.",
					"“%s” has no station, and the other stations do not tell it", wordsText(l.words[:k]))
				station = "100"
			}
			rest.words = append([]word{{text: station, column: l.words[0].column}}, rest.words...)
			rest.apart = true // what was two columns stays two
		}
		if out == nil {
			out, said = slices.Clone(lines), ", rows named after the leading or trailing edge"
		}
		out[i] = rest
	}
	if out == nil {
		return lines, ""
	}
	return out, said
}

func wordsText(words []word) string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = w.text
	}
	return strings.Join(out, " ")
}

// wholeChord is 100 for a table that speaks of percent, and 100 or 1 for one whose stations are percents or shares by their
// look: tenths of the chord from a fifth to nine tenths, and none beyond. It is empty for others.
func wholeChord(lines []line) string {
	for i := range lines {
		if t := lines[i].text; allPercent.MatchString(t) || unitLine.MatchString(t) && percents.MatchString(t) {
			return "100"
		}
	}
	for _, full := range []float64{100, 1} {
		have, beyond := 0, false
		for i := range lines {
			if len(lines[i].words) < 2 || !lines[i].numeric() {
				continue
			}
			x, _ := number(lines[i].words[0].text)
			beyond = beyond || x > full
			for k := 2; k <= 9; k++ {
				if x == full*float64(k)/10 {
					have++
				}
			}
		}
		if have >= 6 && !beyond {
			return plain(full)
		}
	}
	return ""
}
