package ribfile

import (
	"math"
	"strconv"
)

// How lengths are printed is decided here, for drawings, lists and messages alike. Units knows the usual
// manner; a Doc knows what [drawing] inches asks for:
//
//	                      what was given    what was computed   to be laid out by a tape
//	                      Number, Length    Decimal             Ruler
//	mm                    19.1              186.5               186.5
//	inches = "fractions"  3/4               7.341               ≈ 7 11/32
//	inches = "decimals"   0.75              7.341               7.341
//
// A size that was given is a fraction on the plans and on the tape. Computed sizes that stand in a column, such
// as ordinates, read alike only as decimals, and are as fine as a caliper reads. A dimension that is laid out by a
// tape is wanted in its 64ths: the nearest one, with ≈ before it where the true size is more than 0.002 in off.

// Length formats a length for people, with its unit.
func (d *Doc) Length(mm float64) string { return d.Number(mm) + " " + string(d.Units) }

// Number formats a length without the word for its unit.
func (d *Doc) Number(mm float64) string {
	if d.decimalInches() {
		return decimals(mm/MMPerInch, 3)
	}
	return d.Units.Number(mm)
}

// Area formats a small area for people, with its unit.
func (d *Doc) Area(mm2 float64) string {
	if d.Units == Inch {
		return strconv.FormatFloat(mm2/(MMPerInch*MMPerInch), 'f', 3, 64) + " in²"
	}
	places := 0
	if math.Abs(mm2) < 9.95 {
		places = 1
	}
	return decimals(mm2, places) + " mm²"
}

// Decimal formats a length that was computed, without the word for its unit.
func (d *Doc) Decimal(mm float64) string { return d.Units.Decimal(mm) }

// Ruler formats a length that is laid out by a tape or a rule, without the word for its unit.
func (d *Doc) Ruler(mm float64) string {
	switch {
	case d.decimalInches():
		return d.Decimal(mm)
	case d.Units != Inch:
		return d.Number(mm)
	}
	in := mm / MMPerInch
	near := float64(math.Round(in*64) / 64)
	if math.Abs(in-near) <= fractionTol {
		return inches(near)
	}
	return "≈ " + inches(near)
}

func (d *Doc) decimalInches() bool { return d.Units == Inch && d.Drawing.Inches == "decimals" }
