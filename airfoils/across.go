package airfoils

import (
	"slices"

	"ribwright/geom/finding"
)

// lyingOf returns what a line holds whose stations, upper or lower ordinates stand side by side: words that name it, and
// then two numbers or more.
func lyingOf(l *line) (role, []word) {
	for i := range l.words {
		if _, ok := number(l.words[i].text); !ok {
			continue
		}
		head := line{words: l.words[:i], text: l.text}
		cols, rest := headingOf(&head), line{words: l.words[i:], apart: l.apart}
		if i == 0 || len(cols) != 1 || cols[0] == other || cols[0] == ordinate || !rest.numeric() || len(rest.words) < 2 {
			return other, nil
		}
		if least, most := rest.columns(); least != most { // whole numbers and fractions that may belong together
			words, _, ok := rest.fields(least)
			if !ok {
				return other, nil
			}
			return cols[0], words
		}
		return cols[0], rest.words
	}
	return other, nil
}

// across sets a table upright whose stations stand side by side: lines of stations, of upper and of lower ordinates, each
// of the three with as many numbers. It may be broken into several such groups. said is in words for the section's form.
func across(lines []line) (out []line, said string) {
	var group [lower + 1][]word
	var at int // the line that the group begins on
	for i, l := range lines {
		kind, words := lyingOf(&lines[i])
		if kind == other {
			out = append(out, l)
			continue
		}
		words = slices.Clone(words)
		for k := range words {
			words[k].line = l.number
		}
		if group[kind] != nil {
			return lines, ""
		}
		if group[station] == nil && group[upper] == nil && group[lower] == nil {
			at = l.number
		}
		group[kind] = words
		n := len(group[station])
		if n == 0 || len(group[upper]) == 0 || len(group[lower]) == 0 {
			continue
		}
		if len(group[upper]) != n || len(group[lower]) != n {
			return lines, ""
		}
		for k := range n {
			out = append(out, line{number: at, apart: true, words: []word{group[station][k], group[upper][k], group[lower][k]}})
		}
		group, said = [lower + 1][]word{}, ", its stations side by side"
	}
	if said == "" || group[station] != nil || group[upper] != nil || group[lower] != nil {
		return lines, ""
	}
	return out, said
}

// bracketed tells once that numbers in brackets were taken as negative.
func (c *checker) bracketed(lines []line) {
	for i := range lines {
		if !lines[i].numeric() {
			continue
		}
		for _, w := range lines[i].words {
			if w.bracket {
				c.say(finding.Note, place{line: lines[i].number, column: w.column}, "section-brackets", "numbers in brackets are taken as negative",
					"If the brackets mean something else, take them away.")
				return
			}
		}
	}
}
