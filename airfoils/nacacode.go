package airfoils

import (
	"regexp"
	"strings"

	"ribwright/geom/finding"
)

// Where the equations stand.
const (
	report460 = "NACA Report 460 (1933), The Characteristics of 78 Related Airfoil Sections"
	report537 = "NACA Report 537 (1935), Tests in the Variable-Density Wind Tunnel of Related Airfoils Having the Maximum Camber Unusually Far Forward"
	report610 = "NACA Report 610 (1937), Tests of Related Forward-Camber Airfoils in the Variable-Density Wind Tunnel"
	report492 = "NACA Report 492 (1934), Tests of 16 Related Airfoils at High Speeds"
)

// plainNumber takes the word, blanks and hyphens ahead of a section's number off.
func plainNumber(code string) string {
	digits := strings.ToUpper(strings.Join(strings.Fields(code), ""))
	return strings.TrimLeft(strings.TrimPrefix(digits, "NACA"), "-")
}

// parseNACA returns the equation for a number that checkNACA let pass, and where it is published.
func parseNACA(digits string, closed bool) (equation, string) {
	digits, suffix, hasSuffix := strings.Cut(digits, "-")
	d := func(i int) int { return int(digits[i] - '0') }
	n := len(digits)
	eq := equation{t: (float64(10*d(n-2)) + float64(d(n-1))) / 100, shape: fourDigit(closed)}
	source := report460
	switch {
	case n == 4 && d(0) > 0:
		eq.line = meanLine{camber: float64(d(0)) / 100, place: float64(d(1)) / 10}
	case n == 5 && d(2) == 1:
		row := reflexed[d(1)]
		eq.line, source = meanLine{place: row[0], k1: row[1], ratio: row[2]}, report537
	case n == 5: // the first digit is the design lift in units of 0.15; k1 is printed for 0.3
		row := fiveDigit[d(1)]
		eq.line, source = meanLine{place: row[0], k1: row[1] * float64(d(0)) / 2}, report537
		if d(0) != 2 {
			source = report610
		}
	}
	if hasSuffix {
		eq.shape = modified(int(suffix[0]-'0'), int(suffix[1]-'0'), closed)
		if source == report460 {
			return eq, report492
		}
		source += "; thickness: " + report492
	}
	return eq, source
}

const (
	fourFix = `Give a four-digit number, such as naca = "4412": camber 4 % of the chord, at 40 %, thickness 12 %. ` +
		`Five digits ("23012") and numbers such as "0012-64" are computed, too.`
	fiveFix = "The first digit is the design lift, 2 for 0.3; the second the camber's place, 1 to 5 twentieths of the chord; the third 0, " +
		"or 1 for the reflexed lines 221, 231, 241 and 251; the last two the thickness in percent."
	tableFix = "Only four-digit and five-digit sections are computed. For this one give its printed table: file = \"section.dat\", or ordinates = [[0, 0, 0], …]."
)

var (
	digitsOnly   = regexp.MustCompile(`^[0-9]+$`)
	withModified = regexp.MustCompile(`^[0-9]{4,5}-[0-9]{2}$`)
)

// checkNACA says what is wrong with a number.
func checkNACA(code, digits string) (finding.Finding, bool) {
	shown := strings.TrimSpace(code)
	if len([]rune(shown)) > 40 {
		shown = string([]rune(shown)[:40]) + "…"
	}
	base, suffix := digits, ""
	if withModified.MatchString(digits) {
		base, suffix, _ = strings.Cut(digits, "-")
	}
	number := digitsOnly.MatchString(base)
	fault, fix := "", ""
	switch {
	case digits == "":
		fault, fix = "the number of the NACA section is missing", fourFix
	case !number && strings.ContainsAny(digits[:1], "1678") && len(digits) > 4:
		fault, fix = "“"+shown+"” is not a four-digit section; the sections of the 1, 6, 7 and 8 series have no such equations", tableFix
	case !number || len(base) != 4 && len(base) != 5:
		fault, fix = "“"+shown+"” is not the number of a four-digit NACA section, nor of a five-digit one", fourFix
	case base[len(base)-2:] == "00":
		fault, fix = "NACA "+digits+" has no thickness", "The last two digits are the thickness in percent of the chord, such as 12."
	case suffix != "" && (suffix[0] == '0' || suffix[1] < '2' || suffix[1] > '6'):
		fault = "NACA " + digits + " is not a modified section: after the hyphen stands “" + suffix + "”"
		fix = "The first figure after the hyphen is for the nose, 1 to 9, with 6 for the radius of the plain section; the second is the place of the greatest thickness, 2 to 6 tenths of the chord."
	case len(base) == 4:
		fault, fix = checkFour(base)
	default:
		fault, fix = checkFive(base)
	}
	return nacaFinding(fault, fix), fault != ""
}

func checkFour(digits string) (fault, fix string) {
	switch {
	case digits[0] != '0' && digits[1] == '0':
		return "NACA " + digits + " has a camber of " + digits[:1] + " %, but at the leading edge, where there can be none",
			"The second digit is the camber's place in tenths of the chord: 1 to 9; a section without camber begins with 00."
	case digits[0] == '0' && digits[1] != '0':
		return "NACA " + digits + " gives a place for its camber, but no camber",
			"Write 00" + digits[2:] + " for the section without camber, or a first digit from 1 to 9."
	}
	return "", ""
}

func checkFive(digits string) (fault, fix string) {
	const family = " is not a five-digit section of NACA Reports 537 and 610"
	switch {
	case digits[0] == '0':
		return "NACA " + digits + family + ": it has no design lift", fiveFix
	case digits[1] < '1' || digits[1] > '5':
		return "NACA " + digits + family + ": there is no mean line with the second digit " + digits[1:2], fiveFix
	case digits[2] > '1':
		return "NACA " + digits + family + ": its third digit is neither 0 nor 1", fiveFix
	case digits[2] == '1' && (digits[0] != '2' || digits[1] == '1'):
		return "NACA " + digits + family + ": of reflexed mean lines, with the third digit 1, there are only 221, 231, 241 and 251", fiveFix
	}
	return "", ""
}

func nacaFinding(message, fix string) finding.Finding {
	return finding.Finding{Code: "section-naca", Key: "section.naca", Message: sentence(message), Fix: fix}
}
