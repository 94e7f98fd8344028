package ribfile

import (
	"math"
	"strconv"
	"strings"
)

// MMPerInch is the international inch, exact since 1959.
const MMPerInch = 25.4

// Tenths of a millimetre in one inch and one foot: whole numbers, so that 3/4 in becomes 19.05 mm and
// not its neighbour.
const (
	inchTenths = 254
	footTenths = 3048
)

// unitTenths holds the words a length may carry and how many tenths of a millimetre one of them is.
var unitTenths = map[string]float64{
	"in": inchTenths, "inch": inchTenths, "inches": inchTenths, `"`: inchTenths,
	"ft": footTenths, "foot": footTenths, "feet": footTenths, "'": footTenths,
	"mm": 10, "millimetre": 10, "millimetres": 10, "millimeter": 10, "millimeters": 10,
	"cm": 100, "centimetre": 100, "centimetres": 100, "centimeter": 100, "centimeters": 100,
	"m": 10000, "metre": 10000, "metres": 10000, "meter": 10000, "meters": 10000,
}

// amount is a number as written: a fraction, or a number over one.
type amount struct{ num, den float64 }

func (a amount) value() float64 { return a.num / a.den }

// mm is so many units of the given tenths of a millimetre.
func (a amount) mm(tenths float64) float64 { return a.num * tenths / (a.den * 10) }

// plainSigns turns the signs that word processors and plans use into the ones read here.
// A fraction sign gets a space before it, so that "1½" is one and a half.
var plainSigns = strings.NewReplacer(
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"⅓", " 1/3", "⅔", " 2/3", "⁄", "/", "”", `"`, "″", `"`, "’", "'", "′", "'", "''", `"`,
	"\u00a0", " ", "\u2009", " ", "\u202f", " ", "−", "-", "–", "-", "\t", " ",
)

// QuantityError says what is wrong with a quantity written as text, and how to write it.
type QuantityError struct{ Message, Fix string }

// Error joins what is wrong and the remedy.
func (e *QuantityError) Error() string { return e.Message + " " + e.Fix }

const lengthFix = `Write a length such as "1 1/4 in", "5/16", "3-7/16 in", "6 mm", "1.2 m" or "2 ft 3 in".`

// wanted is a text as the builder wrote it, and what it should have been: "a length", and how such is written.
type wanted struct{ text, noun, fix string }

func (w wanted) unreadable() *QuantityError {
	return &QuantityError{quote(w.text) + " cannot be read as " + w.noun + ".", w.fix}
}

func (w wanted) tooMuch() *QuantityError {
	if w.noun == aLength {
		return tooLong(w.text)
	}
	return &QuantityError{quote(w.text) + " is far too much.", w.fix}
}

const aLength = "a length"

func commaIn(s string) *QuantityError {
	return &QuantityError{quote(s) + " has a comma in it.",
		"Write a decimal point, and nothing between the thousands: " + quote(pointForComma(s)) + "."}
}

// ParseLength reads a length written as text. With a unit the value is millimetres; without one
// (hasUnit false) it is the bare number, whose unit the caller knows. Feet take inches after them, with
// a hyphen between or without; no other two units stand together. A minus sign is read, because ordinates need it. The error is a
// *QuantityError.
func ParseLength(s string) (value float64, hasUnit bool, err error) {
	rest := strings.TrimSpace(plainSigns.Replace(s))
	if rest == "" {
		return 0, false, &QuantityError{"There is no length here.", lengthFix}
	}
	if strings.Contains(rest, ",") {
		return 0, false, commaIn(s)
	}
	sign := 1.0
	if rest[0] == '-' || rest[0] == '+' {
		if rest[0] == '-' {
			sign = -1
		}
		rest = strings.TrimSpace(rest[1:])
	}
	first, rest, qe := scanNumber(wanted{s, aLength, lengthFix}, rest)
	if qe != nil {
		return 0, false, qe
	}
	if rest == "" {
		return noMinusZero(sign * first.value()), false, nil
	}
	unit, rest := scanUnit(rest)
	tenths, known := unitTenths[strings.ToLower(unit)]
	if !known {
		return 0, false, unknownUnit(s, unit)
	}
	if rest != "" {
		if first, qe = addInches(s, first, tenths, rest); qe != nil {
			return 0, false, qe
		}
		tenths = inchTenths
	}
	total := first.mm(tenths)
	if total > 1e9 {
		return 0, false, tooLong(s)
	}
	return noMinusZero(sign * total), true, nil
}

// addInches reads what stands after a length, which may only be inches after feet, and returns both in inches.
func addInches(whole string, feet amount, tenths float64, rest string) (amount, *QuantityError) {
	if tenths != footTenths {
		return amount{}, &QuantityError{quote(whole) + " cannot be read as one length.", lengthFix}
	}
	in, rest, qe := scanNumber(wanted{whole, aLength, lengthFix}, strings.TrimSpace(strings.TrimPrefix(rest, "-"))) // 2'-3", as on drawings
	if qe != nil {
		return amount{}, qe
	}
	unit, rest := scanUnit(rest)
	if unitTenths[strings.ToLower(unit)] != inchTenths || rest != "" {
		return amount{}, &QuantityError{"In " + quote(whole) + " only inches may follow the feet.", `Write it as "2 ft 3 in".`}
	}
	return amount{float64(12*feet.num*in.den) + float64(in.num*feet.den), feet.den * in.den}, nil
}

// parseShare reads "14%" as 14. isShare is false where the text has no percent sign at its end.
func parseShare(s string) (percent float64, isShare bool, err error) {
	text := strings.TrimSpace(plainSigns.Replace(s))
	body, isShare := strings.CutSuffix(text, "%")
	if !isShare {
		return 0, false, nil
	}
	body = strings.TrimSpace(body)
	sign := 1.0
	if strings.HasPrefix(body, "-") {
		sign, body = -1, strings.TrimSpace(body[1:])
	}
	if strings.Contains(body, ",") {
		return 0, true, &QuantityError{quote(s) + " has a comma in it.", "Write a decimal point: " + quote(pointForComma(s)) + "."}
	}
	n, rest, qe := scanNumber(wanted{s, aLength, lengthFix}, body)
	if qe != nil {
		return 0, true, qe
	}
	if rest != "" {
		return 0, true, &QuantityError{quote(s) + " cannot be read as a share of the chord.", `Write it as "14%".`}
	}
	return noMinusZero(sign * n.value()), true, nil
}

// scanNumber reads a whole number, a decimal, a fraction or a mixed number at the start of rest, and
// returns what stands after it.
func scanNumber(w wanted, rest string) (amount, string, *QuantityError) {
	head, after := scanDigits(rest)
	if head == "" && !strings.HasPrefix(after, ".") {
		return amount{}, "", w.unreadable()
	}
	if len(head) > 9 {
		return amount{}, "", w.tooMuch()
	}
	if strings.HasPrefix(after, ".") {
		tail, after := scanDigits(after[1:])
		n, err := strconv.ParseFloat("0"+head+"."+tail+"0", 64)
		if err != nil || head+tail == "" || len(tail) > 18 || strings.HasPrefix(after, "/") || strings.HasPrefix(after, ".") {
			return amount{}, "", w.unreadable()
		}
		return amount{n, 1}, strings.TrimSpace(after), nil
	}
	n, _ := strconv.ParseFloat(head, 64)
	if strings.HasPrefix(after, "/") {
		return scanFraction(w.text, 0, head, after[1:])
	}
	// "1 1/4" and "1-1/4": a second number that has a stroke after it belongs to the first.
	second := strings.TrimLeft(after, " ")
	if len(second) == len(after) {
		second = strings.TrimPrefix(after, "-")
	}
	if len(second) < len(after) {
		if num, stroke := scanDigits(second); num != "" && strings.HasPrefix(stroke, "/") {
			return scanFraction(w.text, n, num, stroke[1:])
		}
	}
	return amount{n, 1}, strings.TrimSpace(after), nil
}

// scanFraction finishes a fraction whose numerator num has been read; ahead is the whole number before it.
func scanFraction(whole string, ahead float64, num, rest string) (amount, string, *QuantityError) {
	den, after := scanDigits(rest)
	if den == "" || len(den) > 9 || len(num) > 9 || strings.HasPrefix(after, "/") || strings.HasPrefix(after, ".") {
		return amount{}, "", &QuantityError{"The fraction in " + quote(whole) + " cannot be read.", `Write fractions as "5/16" or "1 1/4".`}
	}
	a, _ := strconv.ParseFloat(num, 64)
	b, _ := strconv.ParseFloat(den, 64)
	if b == 0 {
		return amount{}, "", &QuantityError{"The fraction in " + quote(whole) + " is divided by zero.", "Mend the figure below the stroke."}
	}
	if ahead > 0 && a >= b {
		return amount{}, "", &QuantityError{"In " + quote(whole) + " the fraction after the whole number is one or more.", `Write "1 1/4" for one and a quarter.`}
	}
	return amount{float64(ahead*b) + a, b}, strings.TrimSpace(after), nil
}

func scanDigits(s string) (digits, rest string) {
	i := 0
	for i < len(s) && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	return s[:i], s[i:]
}

// scanUnit splits off the unit at the start of s: a word, with or without a full stop, or a mark.
func scanUnit(s string) (unit, rest string) {
	i := 0
	for i < len(s) && !strings.ContainsRune(" 0123456789.-+", rune(s[i])) {
		i++
		if s[i-1] == '"' || s[i-1] == '\'' {
			break
		}
	}
	return s[:i], strings.TrimSpace(strings.TrimPrefix(s[i:], "."))
}

func unknownUnit(whole, unit string) error {
	if unit == "" {
		return wanted{whole, aLength, lengthFix}.unreadable()
	}
	if strings.HasPrefix(unit, "%") {
		return &QuantityError{quote(whole) + " is a share; a length is needed here.", lengthFix}
	}
	return &QuantityError{"The unit " + quote(unit) + " in " + quote(whole) + " is not known.", "Use in, ft, mm, cm or m."}
}

func tooLong(whole string) *QuantityError {
	return &QuantityError{quote(whole) + " is far too long for a wing.", lengthFix}
}

// pointForComma mends the text for the remedy: a last comma becomes a point.
func pointForComma(s string) string {
	i := strings.LastIndex(s, ",")
	return strings.ReplaceAll(s[:i], ",", "") + "." + s[i+1:]
}

// inchesMM turns inches into millimetres.
func inchesMM(n float64) float64 { return amount{n, 1}.mm(inchTenths) }

func noMinusZero(v float64) float64 {
	if v == 0 {
		return 0
	}
	return v
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
