package airfoils

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ribwright/geom/finding"
)

// unfair warns of the table's points that do not lie on the curve of their neighbours.
func (c *checker) unfair(s *Section, t table) {
	suspects := s.Suspects()
	for i, p := range suspects {
		if p.Cause == LostPoint {
			c.unfairGap(s, t, suspects, i)
			continue
		}
		side := t.upper
		if p.Side == LowerSide {
			side = t.lower
		}
		n := side[p.Index]
		off := "above"
		if p.Residual < 0 {
			off = "below"
		}
		message := fmt.Sprintf("at station %s the %s ordinate %s stands %.2f %% of the chord %s the curve of its neighbours; it is likely to be %s",
			c.figure(s, n.x, n.xs), p.Side, c.figure(s, n.y, n.ys), 100*math.Abs(p.Residual), off, c.likely(s, p.Likely, n.ys))
		if p.Cause != NoCause {
			message += ": " + p.Cause.String()
		}
		c.say(finding.Warning, n.py, "section-unfair", message,
			"Compare the figure with the plans, and put it right if it was miscopied. If the plans say the same, look at the curve before cutting wood.")
	}
}

// unfairGap warns of a lost point: once where both sides lack it.
func (c *checker) unfairGap(s *Section, t table, suspects []Suspect, i int) {
	p := suspects[i]
	side, values := t.upper, ""
	if p.Side == LowerSide {
		side = t.lower
	}
	n := side[p.Index]
	for k, q := range suspects {
		if q.Cause != LostPoint || math.Abs(q.Station-p.Station) > asPrinted || k != i && t.upper[0].px != t.lower[0].px {
			continue
		}
		if k < i {
			return // told with the other side
		}
		if values != "" {
			values += ", "
		}
		values += q.Side.String() + " " + c.likely(s, q.Likely, n.ys)
	}
	station := c.likely(s, p.Station, n.xs)
	c.say(finding.Warning, n.px, "section-unfair",
		fmt.Sprintf("a point seems to be lost ahead of station %s: tables of this kind have station %s there, with ordinates of about %s",
			c.figure(s, n.x, n.xs), station, values),
		"Compare with the plans, and write the missing line in. If the plans have none there, all is well.")
}

// figure writes a number of the table as the builder wrote it.
func (c *checker) figure(s *Section, v float64, text string) string {
	if s.inUnit > 0 {
		return lengthText(v/100*s.inUnit, "")
	}
	return text
}

// likely writes an ordinate that the table does not hold in the manner of one that it holds.
func (c *checker) likely(s *Section, share float64, like string) string {
	if s.inUnit > 0 {
		return lengthText(share*s.inUnit, "")
	}
	return lengthText(share*c.scale, like)
}

// lengthText writes a figure as a fraction where it is like one, and else with as many decimals. Where
// there is nothing to be like, it is a fraction if it lies on 1/64, and has three decimals if not.
func lengthText(v float64, like string) string {
	n := math.Round(v * 64)
	if strings.Contains(like, "/") || like == "" && math.Abs(float64(v*64)-n) < 1e-6 {
		return fractionText(n)
	}
	decimals := 3
	if like != "" {
		_, after, _ := strings.Cut(strings.ReplaceAll(like, ",", "."), ".")
		decimals = max(2, len(after))
		if len(after) > 6 {
			decimals = 6
		}
	}
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return text
}

// fractionText writes n/64 as builders do: 3-7/16.
func fractionText(n float64) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	whole, part, base := math.Floor(n/64), int(math.Mod(n, 64)), 64
	for part > 0 && part%2 == 0 {
		part, base = part/2, base/2
	}
	switch {
	case part == 0:
		if whole == 0 {
			return "0"
		}
		return sign + strconv.FormatFloat(whole, 'f', 0, 64)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", sign, part, base)
	}
	return fmt.Sprintf("%s%.0f-%d/%d", sign, whole, part, base)
}
