package ribfile

import (
	"math"
	"strings"
)

// Paper is [paper]: what the printer takes, and how true it prints.
type Paper struct {
	Size    string  // as written: "A4", "24x36in", "roll 36in"
	W, H    float64 // of a sheet, either way round; of a roll W is its width, and H is 0
	Turn    string  // "auto", "portrait", "landscape"
	Margin  Margins
	Overlap float64
	Printed Printed
}

// Margins are what a printer leaves blank at the paper's edges, the paper held upright as portrait; of a
// roll, Left and Right are its edges, Top and Bottom the ends that are cut.
type Margins struct{ Left, Right, Top, Bottom float64 }

// Printed is what a length of 1 measured on a print, across and up as the sheet reads. The zero value is a
// printer that was not measured.
type Printed struct{ Across, Up float64 }

// Defaults of the paper.
const (
	defaultPaper       = "A4"
	defaultTurn        = "auto"
	defaultPaperMargin = 10 // most printers need 3 to 6 mm (common practice, no source)
	defaultOverlap     = 12
)

// Limits of the paper, mm.
const (
	leastShort, leastLong         = 140, 180 // the smallest sheet: a page needs 100 mm in both directions, and words beside it
	mostPaper                     = 20000    // longer than any roll is wide
	mostMargin                    = 100
	leastOverlap, mostOverlap     = 8, 40 // register marks stand there
	leastPrinted, mostPrinted     = 0.9, 1.1
	likelyPrinted                 = 0.03   // what a printer is off by itself (common practice, no source); fitting takes 3 to 7 %
	printedTrue                   = 0.0005 // nearer to true nobody measures on 100 mm (common practice, no source)
	squareMM, squareIn            = 100.0, 4.0
	leastSquareIn, mostBySquareIn = 3.0, 5.0 // a bare figure between these is of the square of 4 in
)

// paperSizes are the sizes with names, portrait, mm.
var paperSizes = map[string][2]float64{
	// ISO 216:2007, A series.
	"a5": {148, 210}, "a4": {210, 297}, "a3": {297, 420}, "a2": {420, 594}, "a1": {594, 841}, "a0": {841, 1189},
	// ANSI/ASME Y14.1, inches.
	"ansi a": inchPaper(8.5, 11), "ansi b": inchPaper(11, 17), "ansi c": inchPaper(17, 22),
	"ansi d": inchPaper(22, 34), "ansi e": inchPaper(34, 44),
	// Architects' sizes, inches (from memory).
	"arch a": inchPaper(9, 12), "arch b": inchPaper(12, 18), "arch c": inchPaper(18, 24),
	"arch d": inchPaper(24, 36), "arch e": inchPaper(36, 48),
	// Office paper of North America, inches (from memory).
	"letter": inchPaper(8.5, 11), "legal": inchPaper(8.5, 14), "tabloid": inchPaper(11, 17), "ledger": inchPaper(11, 17),
}

func inchPaper(w, h float64) [2]float64 { return [2]float64{w * MMPerInch, h * MMPerInch} }

// PaperNames lists the sizes of paper that have names.
const PaperNames = "A5 to A0, Letter, Legal, Tabloid, Ledger, ANSI A to ANSI E, Arch A to Arch E"

const paperFix = `Write a name (` + PaperNames + `), width and height such as "210x297 mm" or "13x19 in", or a roll's width such as "roll 36 in" or "roll 914 mm".`

// ParsePaper reads a size of paper: a name such as "A4" or "Arch D", width and height such as "210x297",
// "210 × 297 mm" or "8.5x11in", or a roll such as "roll 36in". A unit behind the second number serves for
// both; numbers without any are in the unit given. Margins and overlap are the defaults. The error is a
// *QuantityError.
func ParsePaper(s string, bare Units) (Paper, error) {
	p := Paper{Size: s, Turn: defaultTurn, Overlap: defaultOverlap,
		Margin: Margins{defaultPaperMargin, defaultPaperMargin, defaultPaperMargin, defaultPaperMargin}}
	word := strings.Join(strings.Fields(strings.NewReplacer("-", " ", "_", " ").Replace(strings.ToLower(s))), " ")
	if wh, ok := paperSizes[word]; ok {
		p.W, p.H = wh[0], wh[1]
		return p, nil
	}
	wrong := &QuantityError{quote(s) + " is no size of paper.", paperFix}
	text := strings.ToLower(strings.TrimSpace(plainSigns.Replace(s)))
	if width, is := strings.CutPrefix(text, "roll"); is {
		w, unit, err := measured(width)
		if err != nil {
			return Paper{}, wrong
		}
		if p.W = bareIn(w, unit, bare); !(p.W >= leastLong && p.W <= mostPaper) {
			return Paper{}, unfitPaper("A roll of "+bare.Length(p.W), bare, MM.Length(leastLong), Inch.Length(leastLong))
		}
		return p, nil
	}
	w, h, wUnit, hUnit, ok := pair(text)
	if !ok {
		return Paper{}, wrong
	}
	if wUnit == "" {
		wUnit = hUnit
	}
	p.W, p.H = bareIn(w, wUnit, bare), bareIn(h, hUnit, bare)
	short, long := math.Min(p.W, p.H), math.Max(p.W, p.H)
	if !(short >= leastShort && long >= leastLong && long <= mostPaper) {
		return Paper{}, unfitPaper("Paper of "+bare.Length(p.W)+" × "+bare.Length(p.H), bare,
			MM.Length(leastShort)+" × "+MM.Length(leastLong), Inch.Decimal(leastShort)+" × "+Inch.Decimal(leastLong)+" in")
	}
	return p, nil
}

// unfitPaper says that a paper is too small, or longer than any roll.
func unfitPaper(what string, u Units, mm, in string) error {
	least := mm
	if u == Inch {
		least = in
	}
	return &QuantityError{what + " cannot be used: the least is " + least + ", and the longest side " + u.Length(mostPaper) + ".",
		`Mind the unit: write it behind the number, as in "13x19 in" or "330x480 mm".`}
}

// measured reads a length and the unit behind it: "in" of inches and feet, "mm" of metric ones, "" of none.
func measured(s string) (v float64, unit Units, err error) {
	s = strings.TrimSpace(s)
	v, has, err := ParseLength(s)
	switch {
	case err != nil || !has:
		return v, "", err
	case strings.ContainsAny(s, "m"): // mm, cm, m and their words; no word for inches or feet has an m
		return v, MM, nil
	}
	return v, Inch, nil
}

// bareIn returns a length of measured in mm; one without a unit is in the unit given.
func bareIn(v float64, unit, bare Units) float64 {
	if unit == "" && bare == Inch {
		return inchesMM(v)
	}
	return v
}

// pair reads two lengths with a cross between them. A unit that only the second one has serves for both.
func pair(s string) (a, b float64, aUnit, bUnit Units, ok bool) {
	one, two, cut := strings.Cut(strings.NewReplacer("×", "x", "*", "x").Replace(s), "x")
	if !cut {
		return 0, 0, "", "", false
	}
	a, aUnit, errA := measured(one)
	b, bUnit, errB := measured(two)
	if errA != nil || errB != nil {
		return 0, 0, "", "", false
	}
	if aUnit == "" && bUnit != "" {
		// The second unit is read again with the first number, so that "21x29.7cm" is right.
		unit := strings.TrimLeft(two, " 0123456789./-+")
		if a, aUnit, errA = measured(one + " " + unit); errA != nil {
			return 0, 0, "", "", false
		}
	}
	return a, b, aUnit, bUnit, true
}

// ParsePrinted reads what a check square measured on a print made without correction, across and up:
// "99.2x101.5" of the square of 100 mm, or "3.97 x 4.06 in" of the one of 4 in. Figures without a unit that
// are near 4 are inches. The error is a *QuantityError.
func ParsePrinted(s string) (Printed, error) {
	const fix = `Write what the square of 100 mm measured across and up, such as "99.2x101.5"; or the square of 4 in, such as "3.97x4.06 in".`
	a, b, aUnit, bUnit, ok := pair(strings.ToLower(strings.TrimSpace(plainSigns.Replace(s))))
	if !ok || (aUnit == "") != (bUnit == "") {
		return Printed{}, &QuantityError{quote(s) + " is not two measures of a square.", fix}
	}
	side := squareMM
	if near := func(v float64) bool { return v > leastSquareIn && v < mostBySquareIn }; aUnit == "" && near(a) && near(b) {
		side = squareIn
	}
	if aUnit == Inch || bUnit == Inch {
		side = squareIn * MMPerInch
	}
	p := Printed{a / side, b / side}
	for _, v := range [2]float64{p.Across, p.Up} {
		if !(v >= leastPrinted && v <= mostPrinted) {
			return Printed{}, &QuantityError{"By " + quote(s) + " the printer is " + decimals(100*math.Abs(v-1), 1) + " % off, more than 10 %: such a print was fitted to the page.",
				`Print at 100 % ("actual size", not "fit to page"), measure again, and write the square's two sides: ` + strings.TrimPrefix(fix, "Write ")}
		}
	}
	return p, nil
}

// Off reports whether the printer is so far off that a correction helps.
func (p Printed) Off() bool {
	x, y := p.Correction()
	return x != 1 || y != 1
}

// Doubt says what is doubtful about the measures of a printer: that they need no correction, or that they are
// rather those of a page that was fitted. It is empty where nothing is.
func (p Printed) Doubt() (message, fix string) {
	most := math.Max(math.Abs(p.Across-1), math.Abs(p.Up-1))
	switch {
	case !p.Off():
		return "The printer is true to 0.05 %, so nothing is corrected.", "Leave the measures out."
	case most > likelyPrinted:
		return "The print is " + decimals(100*most, 1) + " % off; printers themselves are seldom off by more than 3 %.",
			`Make sure that it was printed at 100 % ("actual size", not "fit to page"), and measure again.`
	}
	return "", ""
}

// Correction returns by what a page is to be scaled, across and up, so that it is printed true: 1 where the
// printer was not measured, or is true to 0.05 %.
func (p Printed) Correction() (x, y float64) {
	one := func(v float64) float64 {
		if v == 0 || math.Abs(v-1) < printedTrue-1e-9 {
			return 1
		}
		return 1 / v
	}
	return one(p.Across), one(p.Up)
}

// Words says what the printer prints for the square: "99.2 × 101.5 mm for 100 mm".
func (p Printed) Words(u Units) string {
	if u == Inch {
		return Inch.Decimal(p.Across*squareIn*MMPerInch) + " × " + Inch.Decimal(p.Up*squareIn*MMPerInch) + " in for 4 in"
	}
	return decimals(p.Across*squareMM, 2) + " × " + decimals(p.Up*squareMM, 2) + " mm for 100 mm"
}

// ParseMargins reads the printer's margins: one length for all edges, or four with commas between for left,
// right, top and bottom. Numbers without a unit are in the unit given. The error is a *QuantityError.
func ParseMargins(s string, bare Units) (Margins, error) {
	parts := strings.Split(s, ",")
	if len(parts) != 1 && len(parts) != 4 {
		return Margins{}, &QuantityError{quote(s) + " is not one margin, and not four.", `Write one length such as "6 mm", or four with commas between, for left, right, top and bottom: "5,5,12,12".`}
	}
	var v [4]float64
	for i := range v {
		part := parts[min(i, len(parts)-1)]
		mm, unit, err := measured(part)
		if err != nil {
			return Margins{}, err
		}
		if v[i] = bareIn(mm, unit, bare); !(v[i] >= 0 && v[i] <= mostMargin) {
			return Margins{}, &QuantityError{"A margin of " + bare.Length(v[i]) + " cannot be.", "Write a margin from 0 to " + bare.Length(mostMargin) + "; mind the unit."}
		}
	}
	return Margins{v[0], v[1], v[2], v[3]}, nil
}

// ParseOverlap reads by how much neighbouring pages overlap. The error is a *QuantityError.
func ParseOverlap(s string, bare Units) (float64, error) {
	mm, unit, err := measured(s)
	if err != nil {
		return 0, err
	}
	if mm = bareIn(mm, unit, bare); !(mm >= leastOverlap && mm <= mostOverlap) {
		return 0, &QuantityError{"Pages cannot overlap by " + bare.Length(mm) + ": the register marks stand there.",
			"Write an overlap from " + bare.Length(leastOverlap) + " to " + bare.Length(mostOverlap) + "; mind the unit."}
	}
	return mm, nil
}

// TurnFault reports what is wrong with a paper's turn: a roll has none.
func (p Paper) TurnFault() error {
	if p.H == 0 && p.Turn != defaultTurn {
		return &QuantityError{"A roll has no " + p.Turn + ": the drawing lies along it.", `Leave turn out, or write "auto".`}
	}
	return nil
}
