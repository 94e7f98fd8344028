package ribfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// fractionTol is how far a length may be off a 64th of an inch to be written as one, in inches.
const fractionTol = 0.002

// Length formats a length in millimetres for people, with its unit: "1 1/8 in", "1.127 in", "28.6 mm".
func (u Units) Length(mm float64) string {
	if u == Inch {
		return u.Number(mm) + " in"
	}
	return u.Number(mm) + " mm"
}

// Number formats a length without the word for its unit. Inches: the nearest 64th as a reduced
// fraction where the length is within 0.002 in of it, else three decimals. Millimetres: one decimal,
// two below 1 mm, without trailing zeros.
func (u Units) Number(mm float64) string {
	if u == Inch {
		return inches(mm / MMPerInch)
	}
	places := 1
	if math.Abs(mm) < 0.995 {
		places = 2
	}
	return decimals(mm, places)
}

// Decimal formats a length that was computed, without the word for its unit: inches with three decimals,
// millimetres as Number does. Beside each other such lengths read alike, where Number would give one as a
// fraction and its neighbour as a decimal.
func (u Units) Decimal(mm float64) string {
	if u != Inch {
		return u.Number(mm)
	}
	if s := strconv.FormatFloat(mm/MMPerInch, 'f', 3, 64); s != "-0.000" {
		return s
	}
	return "0.000"
}

func inches(v float64) string {
	if math.Abs(v) < 0.0005 {
		return "0"
	}
	n := math.Round(v * 64)
	if math.Abs(v-float64(n/64)) > fractionTol || n == 0 || math.Abs(n) > 1e12 {
		return strconv.FormatFloat(v, 'f', 3, 64)
	}
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	whole, num, den := int64(n)/64, int64(n)%64, int64(64)
	for num != 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	switch {
	case num == 0:
		return fmt.Sprintf("%s%d", sign, whole)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", sign, num, den)
	}
	return fmt.Sprintf("%s%d %d/%d", sign, whole, num, den)
}

// fixed formats v with the given places, and no minus zero.
func fixed(v float64, places int) string {
	s := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return s
}

// decimals formats v with at most the given places, no trailing zeros and no minus zero.
func decimals(v float64, places int) string {
	s := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
