package airfoils

// meanLine is the mean line of a section from equations, in shares of the chord. Its two parts join at
// place; 0 is a straight line.
type meanLine struct {
	place  float64
	camber float64 // of the four-digit lines
	k1     float64 // of the five-digit lines; 0: the line is a four-digit one
	ratio  float64 // k2/k1 of the reflexed lines; 0: the line is straight aft of place
}

// fiveDigit holds m and k1 for the design lift 0.3: NACA Report 537, by the place of the camber in twentieths.
var fiveDigit = map[int][2]float64{
	1: {0.0580, 361.4}, 2: {0.1260, 51.64}, 3: {0.2025, 15.957}, 4: {0.2900, 6.643}, 5: {0.3910, 3.230},
}

// reflexed holds m, k1 and k2/k1 of the reflexed lines for the design lift 0.3, whose pitching moment is
// none: NACA Reports 537 and 610. k2/k1 = (3(m − p)² − m³)/(1 − m)³, p the camber's place.
var reflexed = map[int][3]float64{
	2: {0.1300, 51.990, 0.000764}, 3: {0.2170, 15.793, 0.00677}, 4: {0.3180, 6.520, 0.0303}, 5: {0.4410, 3.191, 0.1355},
}

// scaled returns the line with all its ordinates multiplied by k.
func (l meanLine) scaled(k float64) meanLine {
	l.camber *= k
	l.k1 *= k
	return l
}

// at returns the mean line's ordinate, slope and second derivative at station x.
func (l *meanLine) at(x float64) (y, slope, bend float64) {
	switch {
	case l.place == 0:
		return 0, 0, 0
	case l.k1 > 0:
		return l.five(x)
	case x < l.place:
		k := l.camber / float64(l.place*l.place)
		return float64(k * (float64(2*l.place*x) - float64(x*x))), float64(2 * k * (l.place - x)), -2 * k
	}
	p := l.place
	k := l.camber / float64((1-p)*(1-p))
	return float64(k * (1 - float64(2*p) + float64(2*p*x) - float64(x*x))), float64(2 * k * (p - x)), -2 * k
}

// five is at for the five-digit lines. Written about m they are, with c = m³ and, where the line is
// reflexed, the term (k2/k1)(1 − m)³ in c's factor of x:
//
//	y = k1/6 [(x − m)³ − c x + m³] forward of m, and the cube times k2/k1 aft of it;
//
// without reflex that is Report 537's k1/6 [x³ − 3mx² + m²(3 − m)x] and k1 m³/6 (1 − x).
func (l *meanLine) five(x float64) (y, slope, bend float64) {
	m, k := l.place, l.k1/6
	cube := float64(m * m * m)
	c := cube + float64(l.ratio*(1-m)*(1-m)*(1-m))
	d, f := x-m, 1.0
	if x >= m {
		f = l.ratio
	}
	return float64(k * (float64(f*d*d*d) - float64(c*x) + cube)), float64(k * (float64(3*f*d*d) - c)), float64(6 * k * f * d)
}

// MeanLine returns the ordinate and the slope of the mean line at station x, in shares of the chord. It is
// ok for sections from equations, between the leading and the trailing edge: a table has no mean line but
// what is taken from it.
func (s Section) MeanLine(x float64) (y, slope float64, ok bool) {
	if s.eq.t == 0 || !(x >= 0 && x <= 1) {
		return 0, 0, false
	}
	y, slope, _ = s.eq.line.at(x)
	return y, slope, true
}
