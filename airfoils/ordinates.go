package airfoils

import (
	"fmt"
	"math"

	"ribwright/geom/finding"
)

// Ordinates returns the section of a table with rows of station, upper and lower ordinate, nose to tail,
// in percent of the chord. Findings have the key "section.ordinates[i]", the rows counted from 0.
func Ordinates(rows [][3]float64) (Section, []finding.Finding) { return OrdinatesOn(rows, 0) }

// OrdinatesOn is Ordinates for rows that were lengths on a chord, given in the builder's unit, before they
// became percent: findings on unfair points name lengths. A chord of 0 leaves them in percent.
func OrdinatesOn(rows [][3]float64, chord float64) (Section, []finding.Finding) {
	c := &checker{scale: 100}
	s := Section{inUnit: chord, Form: fmt.Sprintf("station, upper, lower, percent of chord, %d stations", len(rows))}
	if len(rows) == 0 || len(rows) > most {
		c.refuse(place{key: "section.ordinates"}, "section-few", "Give a row of station, upper and lower ordinate for each station of the plans.",
			"the table of ordinates has %d rows", len(rows))
		return s, c.found
	}
	var t table
	for i, r := range rows {
		at := place{key: fmt.Sprintf("section.ordinates[%d]", i)}
		good := true
		for _, v := range r {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				c.refuse(at, "section-number", "Put the number right.", "“%v” is not a number", v)
				good = false
			}
		}
		if !good {
			c.broken = true
			continue
		}
		t.upper = append(t.upper, node{r[0], r[1], plain(r[0]), plain(r[1]), at, at})
		t.lower = append(t.lower, node{r[0], r[2], plain(r[0]), plain(r[2]), at, at})
	}
	if len(t.upper) == 0 {
		return s, c.found
	}
	t.form = s.Form
	c.directed(&t)
	c.checkThree(t)
	if last := largest(t.upper); !c.broken && math.Abs(last.x-100) > 100*atTail {
		c.refuse(last.px, "section-end", "End with the trailing edge, station 100. If the ordinates are lengths, say so: ordinate_unit = \"length\".",
			"the table ends at station %s, not at the trailing edge", last.xs)
	}
	c.finish(&s, t)
	return s, c.found
}
