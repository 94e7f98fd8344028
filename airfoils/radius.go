package airfoils

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"ribwright/geom/finding"
)

const measure = `([-+−]?(?:\d+[- ]\d+/\d+|\d+/\d+|\d*[.,]?\d+))`

var (
	radiusLine  = regexp.MustCompile(`(?i)\b(radius|rad)\b`)
	noseWords   = regexp.MustCompile(`(?i)\b(l\.? ?e\b\.?|leading[- ]edge|nose)`)
	slopeText   = regexp.MustCompile(`(?i)\bslope\b[^0-9]*?` + measure)
	centreText  = regexp.MustCompile(`(?i)\b(?:centre|center)\b[^0-9]*?` + measure + `[^0-9]*?[,; ][^0-9]*?` + measure)
	centreAlone = regexp.MustCompile(`(?i)^(its )?(centre|center) *(at|is|=|:|of (the )?(radius|circle))`)
	radiusText  = regexp.MustCompile(`(?i)\b(?:radius|rad)\b[^0-9]*?` + measure + `\s*(%|(?:in )?per ?cent|c\b|chord|inch(?:es)?|in\b|"|″|mm\b|cm\b|)`)
)

// noseCircle is what the text around a table says about the leading-edge radius.
type noseCircle struct {
	radius, slope, cx, cy float64 // in the table's unit; slope is a ratio
	unit                  string
	given, sloped         bool
	centred               bool
	at                    place
	text                  string
}

// circle reads the lines of text that give the leading-edge radius, the slope of the radius through the
// leading edge, and the circle's centre. Lines that speak of a radius and are not understood are told.
func (c *checker) circle(texts []line, decimalComma bool) (n noseCircle, used map[int]bool) {
	used = map[int]bool{}
	value := func(s string) (float64, bool) {
		s = strings.Replace(s, " ", "-", 1)
		if decimalComma {
			s = strings.Replace(s, ",", ".", 1)
		}
		return number(s)
	}
	for _, l := range texts {
		text := l.text
		nosed := noseWords.MatchString(text) || n.given && centreAlone.MatchString(text)
		if !radiusLine.MatchString(text) && !(nosed && centreText.MatchString(text)) {
			continue
		}
		at, understood := place{line: l.number, column: 1}, false
		if m := slopeText.FindStringSubmatch(text); m != nil && nosed {
			if v, ok := value(m[1]); ok {
				n.slope, n.sloped, understood = v, true, true
				text = strings.Replace(text, m[0], "", 1)
			}
		}
		if m := centreText.FindStringSubmatch(text); m != nil && nosed {
			x, okX := value(m[1])
			y, okY := value(m[2])
			if okX && okY {
				n.cx, n.cy, n.centred, understood = x, y, true, true
				text = strings.Replace(text, m[0], "", 1)
			}
		}
		if m := radiusText.FindStringSubmatch(text); m != nil && nosed {
			if v, ok := value(m[1]); ok {
				if n.given && n.radius != v {
					c.refuse(at, "section-radius", "Leave one of them, and put # before the other line.", "the leading-edge radius is given twice, %s and %s", n.text, m[1])
				}
				n.radius, n.unit, n.given, n.at, n.text, understood = v, strings.ToLower(m[2]), true, at, m[1], true
			}
		}
		used[l.number] = understood
		if !understood {
			c.say(finding.Note, at, "section-radius", "this line speaks of a radius, and was not used",
				"If it is the leading-edge radius, write: L.E. radius 1.58. Otherwise put # before the line.")
		}
	}
	if (n.sloped || n.centred) && !n.given && !c.failed() {
		for _, l := range texts {
			if used[l.number] {
				c.refuse(place{line: l.number, column: 1}, "section-radius", "Give the radius, too: L.E. radius 1.58; or put # before the line.",
					"the nose circle's slope or centre is given without its radius")
				break
			}
		}
	}
	return n, used
}

// nosed gives the section the leading-edge radius of the table's text, and returns it in words.
func (c *checker) nosed(s *Section, n noseCircle) string {
	if !n.given {
		return ""
	}
	r := n.radius / c.scale
	switch unit := n.unit; {
	case unit == "%", strings.Contains(unit, "cent"):
		r = n.radius / 100
	case unit == "c", unit == "chord":
		r = n.radius
	case unit == "":
	default:
		if !c.length {
			c.refuse(n.at, "section-radius", "Give it in the table's unit, without a unit of its own.",
				"the leading-edge radius is a length, and the table is in shares of the chord")
			return ""
		}
		if unit != "mm" && unit != "cm" {
			unit = "inches"
		}
		if c.unit != "" && c.unit != unit {
			c.refuse(n.at, "section-radius", "Give it in the table's unit.", "the leading-edge radius is in another unit than the table")
			return ""
		}
	}
	if like := noseLike(s); !(r > 0) || r > 0.15 || like > 0 && (r > 5*like || r < like/5) {
		c.refuse(n.at, "section-radius", "Put the radius right or give its unit (1.58 percent), or put # before the line.",
			"the leading-edge radius %s does not suit this table, whose first ordinates ask for about %s", n.text, plain(round3(float64(like*c.scale))))
		return ""
	}
	if math.Abs(n.slope) > 1 {
		c.refuse(n.at, "section-radius", "Put the slope right: it is rise over run, such as 0.20 or 2/20.", "the slope of the radius through the leading edge, %s, is steeper than 1", plain(n.slope))
		return ""
	}
	slope := n.slope
	if n.centred {
		le := s.Upper[0].Lerp(s.Lower[0], 0.5)
		dx, dy := n.cx/c.scale-le.X, n.cy/c.scale-le.Y
		if away := math.Hypot(dx, dy); !(dx > 0) || math.Abs(away-r) > float64(0.1*r) {
			c.refuse(n.at, "section-radius", "Put radius or centre right; the centre's station and ordinate are in the table's unit and datum.",
				"the nose circle's centre is %s from the leading edge, and the radius is %s", plain(round3(float64(away*c.scale))), n.text)
			return ""
		}
		slope = dy / dx
	}
	s.NoseRadius, s.NoseSlope = r, slope+0
	out := fmt.Sprintf(", leading-edge radius %s %% of chord", plain(round3(100*r)))
	if slope != 0 {
		out += " on a slope of " + plain(round3(slope))
	}
	return out
}

// noseLike returns the leading-edge radius that the first ordinates ask for, were the nose a parabola
// about its mean line: half the thickness squared, over twice the station. 0 where they cannot tell.
func noseLike(s *Section) float64 {
	if len(s.Upper) < 2 || s.Upper[0] != s.Lower[0] {
		return 0
	}
	var lows []node
	for _, p := range s.Lower {
		lows = append(lows, node{x: p.X, y: p.Y})
	}
	for _, p := range s.Upper[1:] {
		if y, ok := polyline(lows, p.X); ok && p.X >= 0.005 && p.X <= 0.05 {
			half := (p.Y - y) / 2
			return float64(half*half) / (2 * p.X)
		}
	}
	return 0
}

// round3 rounds to three decimals.
func round3(v float64) float64 { return math.Round(1000*v)/1000 + 0 }
