package airfoils

import (
	"math"
	"strings"

	"ribwright/geom"
	"ribwright/geom/finding"
)

// report460 is where the four-digit equations stand.
const report460 = "NACA Report 460 (1933), The Characteristics of 78 Related Airfoil Sections"

// NACA returns a section from its four-digit number: "4412", "NACA 4412". The tail is left open as the
// equation has it, and the points are laid off square to the mean line.
func NACA(code string) (Section, []finding.Finding) {
	digits := strings.ToUpper(strings.Join(strings.Fields(code), ""))
	digits = strings.TrimLeft(strings.TrimPrefix(digits, "NACA"), "-")
	if f, bad := checkNACA(code, digits); bad {
		return Section{}, []finding.Finding{f}
	}
	d := func(i int) float64 { return float64(digits[i] - '0') }
	eq := naca4{m: d(0) / 100, p: d(1) / 10, t: (float64(10*d(2)) + d(3)) / 100}
	if eq.folds() {
		return Section{}, []finding.Finding{nacaFinding("the lower side of NACA "+digits+" folds over itself: it is too thick for a camber so far forward",
			"Take a thinner section, or one with its camber further aft.")}
	}
	s := Section{Name: "NACA " + digits, Source: report460, eq: eq}
	for _, c := range customary {
		u, l, _ := s.At(c / 100)
		s.Upper = append(s.Upper, geom.Pt{X: c / 100, Y: u})
		s.Lower = append(s.Lower, geom.Pt{X: c / 100, Y: l})
	}
	return s, nil
}

// checkNACA says what is wrong with a number.
func checkNACA(code, digits string) (finding.Finding, bool) {
	shown := strings.TrimSpace(code)
	if len([]rune(shown)) > 40 {
		shown = string([]rune(shown)[:40]) + "…"
	}
	const four = `Give a four-digit number, such as naca = "4412": camber 4 % of the chord, at 40 %, thickness 12 %.`
	const table = "Only the four-digit sections are computed. For this one give its printed table: file = \"section.dat\", or ordinates = [[0, 0, 0], …]."
	allDigits := digits != "" && strings.Trim(digits, "0123456789") == ""
	switch {
	case digits == "":
		return nacaFinding("the number of the NACA section is missing", four), true
	case allDigits && len(digits) == 5:
		return nacaFinding("NACA "+digits+" is a five-digit section, which has other equations", table), true
	case strings.Trim(digits, "0123456789") != "" && strings.ContainsAny(digits[:1], "1678") && len(digits) > 4:
		return nacaFinding("“"+shown+"” is not a four-digit section; the sections of the 1, 6, 7 and 8 series have no such equations", table), true
	case !allDigits || len(digits) != 4:
		return nacaFinding("“"+shown+"” is not the number of a four-digit NACA section", four), true
	case digits[2:] == "00":
		return nacaFinding("NACA "+digits+" has no thickness", "The last two digits are the thickness in percent of the chord, such as 12."), true
	case digits[0] != '0' && digits[1] == '0':
		return nacaFinding("NACA "+digits+" has a camber of "+digits[:1]+" %, but at the leading edge, where there can be none",
			"The second digit is the camber's place in tenths of the chord: 1 to 9; a section without camber begins with 00."), true
	case digits[0] == '0' && digits[1] != '0':
		return nacaFinding("NACA "+digits+" gives a place for its camber, but no camber",
			"Write 00"+digits[2:]+" for the section without camber, or a first digit from 1 to 9."), true
	}
	return finding.Finding{}, false
}

func nacaFinding(message, fix string) finding.Finding {
	return finding.Finding{Code: "section-naca", Key: "section.naca", Message: sentence(message), Fix: fix}
}

// naca4 holds the numbers of a four-digit section, in shares of the chord.
type naca4 struct {
	m, p float64 // camber, and its station
	t    float64 // thickness
}

// half returns half the thickness at station x = u², laid off square to the mean line:
// 5t(0.2969√x − 0.1260x − 0.3516x² + 0.2843x³ − 0.1015x⁴), NACA Report 460, which gives it for t = 0.20.
func (n naca4) half(u float64) float64 {
	x := float64(u * u)
	y := float64(x * (-0.1260 + float64(x*(-0.3516+float64(x*(0.2843-float64(0.1015*x)))))))
	return float64(5*n.t) * (float64(0.2969*u) + y)
}

// mean returns the mean line's ordinate, slope and second derivative at station x.
func (n naca4) mean(x float64) (y, slope, bend float64) {
	switch {
	case n.m == 0:
		return 0, 0, 0
	case x < n.p:
		k := n.m / float64(n.p*n.p)
		return float64(k * (float64(2*n.p*x) - float64(x*x))), float64(2 * k * (n.p - x)), -2 * k
	}
	k := n.m / float64((1-n.p)*(1-n.p))
	return float64(k * (1 - float64(2*n.p) + float64(2*n.p*x) - float64(x*x))), float64(2 * k * (n.p - x)), -2 * k
}

// point returns the contour's point at u: u² is the station along the chord, u > 0 the upper side and
// u < 0 the lower one. In u the curve runs smoothly round the nose.
func (n naca4) point(u float64) geom.Pt {
	x := float64(u * u)
	h := math.Copysign(n.half(math.Abs(u)), u)
	y, slope, _ := n.mean(x)
	l := math.Sqrt(1 + float64(slope*slope))
	return geom.Pt{X: x - float64(h*slope)/l, Y: y + h/l}
}

// sides returns the two sides for a chord in mm. The mean line changes its bend at p: a break stands there.
func (n naca4) sides(chord float64) (upper, lower side) {
	breaks := []float64{0, 1}
	if n.m > 0 {
		breaks = []float64{0, math.Sqrt(n.p), 1}
	}
	upper = side{curve: func(u float64) geom.Pt { return n.point(u).Mul(chord) }, breaks: breaks}
	lower = side{curve: func(u float64) geom.Pt { return n.point(-u).Mul(chord) }, breaks: breaks}
	return upper, lower
}

// folds reports whether half the thickness passes the mean line's radius anywhere: then the points laid
// off on its hollow side turn back.
func (n naca4) folds() bool {
	const steps = 400
	for i := 1; i <= steps; i++ {
		u := float64(i) / steps
		_, slope, bend := n.mean(float64(u * u))
		l := math.Sqrt(1 + float64(slope*slope))
		if n.half(u)*-bend >= float64(l*l*l) {
			return true
		}
	}
	return false
}
