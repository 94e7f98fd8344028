package shop

import (
	"fmt"
	"math"
	"strings"

	"ribwright/geom/ribfile"
)

// Paper is a sheet of paper as it goes into the printer, mm. Either way round is the same paper.
type Paper struct {
	W, H    float64
	Margin  float64 // along every edge, where printers do not print
	Overlap float64 // by which neighbouring pages show the same
}

// What ParsePaper gives every paper.
const (
	defaultMargin  = 10
	defaultOverlap = 12
)

// papers are the sizes with names: ISO 216, and the sizes in inches of ANSI/ASME Y14.1 and of the office.
var papers = map[string][2]float64{
	"a5": {148, 210}, "a4": {210, 297}, "a3": {297, 420}, "a2": {420, 594}, "a1": {594, 841}, "a0": {841, 1189},
	"letter": {215.9, 279.4}, "legal": {215.9, 355.6}, "tabloid": {279.4, 431.8}, "ledger": {279.4, 431.8},
}

// ParsePaper reads a size of paper: a name such as "A4" or "Letter", or width and height such as
// "210x297", "210 × 297 mm" or "8.5x11in". A number without a unit is in millimetres; a unit behind the
// second number serves for both.
func ParsePaper(s string) (Paper, error) {
	word := strings.ToLower(strings.TrimSpace(s))
	if wh, ok := papers[word]; ok {
		return Paper{wh[0], wh[1], defaultMargin, defaultOverlap}, nil
	}
	wrong := fmt.Errorf("%q is no size of paper: give a name (A4, A3, A2, A1, A0, Letter, Legal, Tabloid), or width and height such as \"210x297\" or \"8.5x11in\"", s)
	w, h, two := strings.Cut(strings.NewReplacer("×", "x", "*", "x").Replace(word), "x")
	if !two {
		return Paper{}, wrong
	}
	width, wUnit, err := paperLength(w)
	if err != nil {
		return Paper{}, wrong
	}
	height, hUnit, err := paperLength(h)
	if err != nil {
		return Paper{}, wrong
	}
	if hUnit == "in" && wUnit == "" {
		width *= ribfile.MMPerInch
	}
	const most = 20000 // mm: longer than any roll
	if !(width > 0 && width <= most && height > 0 && height <= most) {
		return Paper{}, wrong
	}
	return Paper{width, height, defaultMargin, defaultOverlap}, nil
}

// paperLength reads one length and says which unit was written behind it: "in" for inches and feet, "mm"
// for metric ones, "" for none.
func paperLength(s string) (mm float64, unit string, err error) {
	s = strings.TrimSpace(s)
	mm, has, err := ribfile.ParseLength(s)
	switch {
	case err != nil || !has:
		return mm, "", err
	case strings.HasSuffix(s, "m"):
		return mm, "mm", nil
	}
	return mm, "in", nil
}

// The parts of a page.
const (
	panelHigh = 108.0 // the band, or the column, with the square to measure and 8 mm of air
	panelLong = 178.0 // its least length: the square and the lettering
	windowMin = 60.0
	air       = panelHigh - 100
)

// check reports, in the units given, what is wrong with a paper.
func (p Paper) check(u ribfile.Units) error {
	switch {
	case !(p.Margin >= 0 && p.Margin < 1000):
		return fmt.Errorf("a page cannot have a margin of %v mm", p.Margin)
	case !(p.Overlap >= 8 && p.Overlap <= 40):
		return fmt.Errorf("pages must overlap by %s to %s, not by %s: the register marks stand there", u.Length(8), u.Length(40), u.Length(p.Overlap))
	}
	long, short := math.Max(p.W, p.H), math.Min(p.W, p.H)
	// Panel along one edge: the window stands beside it. Either edge may be the longer one.
	a, b := panelLong+2*p.Margin, panelHigh+windowMin+2*p.Margin
	if !(short >= math.Min(a, b) && long >= math.Max(a, b)) {
		return fmt.Errorf("paper of %s × %s is too small for a page with a square of 100 mm to measure: the least is %s × %s",
			u.Length(p.W), u.Length(p.H), u.Length(math.Min(a, b)), u.Length(math.Max(a, b)))
	}
	return nil
}
