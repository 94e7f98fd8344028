package shop

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ribwright/geom/mix"
	"ribwright/geom/ribfile"
)

// Weighing is the adhesive of one cup, to be weighed and mixed.
type Weighing struct {
	Title          string
	RatioA, RatioB float64 // as the maker gives them
	By             string  // "weight" or "volume"
	Ratio          mix.Ratio
	Scale          mix.Scale
	Shows          ribfile.Units // what the scale shows: Inch ounces, MM grams
	For            string        // what the target is for, such as "the first side of a rib"; may be empty
	TargetG        float64       // what is to be mixed; 0: not known
	CupLeastG      float64       // 0: not given
	CupMostG       float64       // 0: not given
}

// Cups returns how many cups the target takes, each weighed alike.
func (w Weighing) Cups() int {
	if w.CupMostG <= 0 {
		return 1
	}
	return max(1, int(math.Ceil(w.TargetG/w.CupMostG-1e-9)))
}

// Card returns how one cup is weighed.
func (w Weighing) Card() mix.Card {
	return w.Scale.Card(w.Ratio, math.Max(w.TargetG/float64(w.Cups()), w.CupLeastG))
}

// Reading writes what the scale shows: as fine as its step, and no finer.
func (w Weighing) Reading(g float64) string {
	unit, word := 1.0, " g"
	if w.Shows == ribfile.Inch {
		unit, word = ribfile.GramsPerOunce, " oz"
	}
	return decimal(g/unit, w.places(w.Scale.StepG/unit)) + word
}

// places returns how many decimals the scale shows, four at most.
func (w Weighing) places(step float64) int {
	for p := range 4 {
		if x := float64(step * math.Pow10(p)); math.Abs(x-math.Round(x)) < 1e-6*x {
			return p
		}
	}
	return 4
}

// inPercent writes a share as a percentage.
func inPercent(share float64) string {
	return strings.TrimSuffix(decimal(100*share, 1), ".0") + " %"
}

func plainNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// ratioWords writes the ratio as the maker gives it, and by weight where that is another.
func (w Weighing) ratioWords() string {
	s := fmt.Sprintf("A : B = %s : %s by %s", plainNumber(w.RatioA), plainNumber(w.RatioB), w.By)
	if w.By == "volume" {
		s += fmt.Sprintf(", %s : 1 by weight", decimal(w.Ratio.A/w.Ratio.B, 3))
	}
	return s
}

// steps are the three things to do, and what the scale reads at each.
func (w Weighing) steps(c mix.Card) [3][2]string {
	return [3][2]string{
		{"Tare the empty cup", w.Reading(0)},
		{"Pour A until it reads", w.Reading(c.AG)},
		{"Pour B until it reads", w.Reading(c.TotalG)},
	}
}

// parts says what the cup holds.
func (w Weighing) parts(a, b, total float64) string {
	return fmt.Sprintf("%s of A + %s of B = %s", w.Reading(a), w.Reading(b), w.Reading(total))
}

// stepWords says what the step of the scale does to the ratio.
func (w Weighing) stepWords(e mix.Span, within bool) string {
	if within {
		off := inPercent(e.Worst())
		if e.Worst() < 0.0005 {
			off = "less than 0.1 %"
		}
		return fmt.Sprintf("The scale's step of %s can put the ratio off by %s; %s is allowed.", w.Reading(w.Scale.StepG), off, inPercent(w.Scale.Tolerance))
	}
	off := "by " + inPercent(e.Worst())
	switch {
	case e.Worst() > 1:
		off = "by more than double"
	case inPercent(e.Worst()) == inPercent(w.Scale.Tolerance): // 2% over 2% would puzzle people
		off = "by just over " + inPercent(w.Scale.Tolerance)
	}
	return fmt.Sprintf("CAUTION: the scale's step of %s can put the ratio off %s; only %s is allowed.", w.Reading(w.Scale.StepG), off, inPercent(w.Scale.Tolerance))
}

// smallestWords says how large a batch must be for the scale.
func (w Weighing) smallestWords(within bool) string {
	least, _, ok := w.Scale.Smallest(w.Ratio)
	switch {
	case !ok:
		return "Weigh on a finer scale: no batch is large enough for this one."
	case within:
		return fmt.Sprintf("The smallest batch that it weighs so well is %s.", w.Reading(least))
	}
	return fmt.Sprintf("Mix at least %s in one cup, or weigh on a finer scale.", w.Reading(least))
}

// cupWords says why a cup gets another mass than was asked for, where it does.
func (w Weighing) cupWords() []string {
	var out []string
	if n := w.Cups(); n > 1 {
		out = append(out, fmt.Sprintf("%s is more than a cup takes (%s): mix %d cups like this.", w.Reading(w.TargetG), w.Reading(w.CupMostG), n))
	}
	if w.TargetG < w.CupLeastG {
		out = append(out, fmt.Sprintf("The least you mix in a cup is %s, so it is more than the %s that are needed.", w.Reading(w.CupLeastG), w.Reading(w.TargetG)))
	}
	return out
}

// Words is the card as text, for a screen: what is done with full hands stands first, in short lines.
func (w Weighing) Words() []string {
	c := w.Card()
	var out []string
	if w.Title != "" {
		out = append(out, w.Title)
	}
	out = append(out, "Adhesive "+w.ratioWords(), "")
	for i, s := range w.steps(c) {
		out = append(out, fmt.Sprintf("  %d  %-21s  %9s", i+1, s[0], s[1]))
	}
	out = append(out, "  4  Stir well; scrape sides and bottom", "", w.parts(c.AG, c.BG, c.TotalG))
	if w.For != "" {
		out = append(out, "That is for "+w.For+".")
	}
	out = append(out, w.cupWords()...)
	out = append(out, w.stepWords(c.Error, c.Within), w.smallestWords(c.Within))
	out = append(out, "Poured too much? Take nothing out: ribwright mix … --poured A,B says what to add.")
	return append(out, glueCautions...)
}

// MendWords says what to add to a cup into which other masses were poured than the card says.
func (w Weighing) MendWords(aG, bG float64) []string {
	c := w.Scale.Correct(w.Ratio, aG, bG)
	var out []string
	if w.Title != "" {
		out = append(out, w.Title)
	}
	out = append(out, "Adhesive "+w.ratioWords(), "Poured: "+w.parts(aG, bG, aG+bG), beforeWords(c), "")
	switch {
	case len(c.Add) == 0:
		out = append(out, "  ADD NOTHING: it is right within the scale's step", "")
	default:
		for _, add := range c.Add {
			out = append(out, fmt.Sprintf("  ADD %s of %s", w.Reading(add.AddG), add.Part), "      until the scale reads "+w.Reading(add.ReadG))
		}
		out = append(out, "")
		if c.Stay {
			out = append(out, fmt.Sprintf("It may also stay as it is: %s is allowed, and the readings keep within that.", inPercent(w.Scale.Tolerance)))
		}
		out = append(out, "Then: "+w.parts(c.AG, c.BG, c.TotalG), "(If the scale was tared since, count from 0: add just the masses.)")
	}
	out = append(out, w.fitWords(c.TotalG)...)
	out = append(out, w.stepWords(c.Error, c.Within))
	if !c.Within {
		out = append(out, "What is poured in parts is weighed less well. If the maker allows no more, mix anew. "+w.smallestWords(false))
	}
	return append(out, glueCautions...)
}

// beforeWords says how the ratio stands as it was poured.
func beforeWords(c mix.Correction) string {
	switch {
	case math.IsInf(c.Before, 1):
		return "There is no B in it yet."
	case c.Before <= -1:
		return "There is no A in it yet."
	case math.Abs(c.Before) < 0.0005:
		return "The ratio is right."
	case c.Before > 0:
		return fmt.Sprintf("The ratio A/B is %s too high: too much A.", inPercent(c.Before))
	}
	return fmt.Sprintf("The ratio A/B is %s too low: too much B.", inPercent(-c.Before))
}

// fitWords says whether a new total still fits the cup, and what it does to the pot life.
func (w Weighing) fitWords(totalG float64) []string {
	var out []string
	const dust = 1e-6
	if most := w.CupMostG; most > 0 {
		if totalG > most+dust {
			out = append(out, fmt.Sprintf("CAUTION: that is %s more than the cup takes (%s). Pour all of it into a larger cup first.", w.Reading(totalG-most), w.Reading(most)))
		} else {
			out = append(out, fmt.Sprintf("Cup: it fits; %s go in.", w.Reading(most)))
		}
	}
	planned := w.Card().TotalG
	switch over := totalG - planned; {
	case w.TargetG <= 0:
		out = append(out, "Pot life: the more there is in the cup, the shorter it is; go by the maker's figure for this mass.")
	case over > dust:
		out = append(out, fmt.Sprintf("Pot life: %s more than the %s planned, so it is shorter than planned. Spread it sooner, or pour it out flat.", w.Reading(over), w.Reading(planned)))
	default:
		out = append(out, fmt.Sprintf("Pot life: as planned; it is no more than the %s planned.", w.Reading(planned)))
	}
	return out
}
