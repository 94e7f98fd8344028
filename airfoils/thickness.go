package airfoils

import "math"

// thickness is half the depth of a section from equations, for the thickness 0.20 on which the reports
// base them; the equation scales it.
type thickness struct {
	x4 float64 // coefficient of x⁴ in the four- and five-digit sections
	// place is the station of the greatest thickness in the modified sections, whose two parts join there;
	// 0 in all others.
	place     float64
	fore, aft [4]float64 // a0 √x + a1 x + a2 x² + a3 x³, and d0 + d1 (1−x) + d2 (1−x)² + d3 (1−x)³
	closed    bool
}

// The coefficient of x⁴: as Report 460 prints it, with an open tail of 0.0021 t on each side, and the one
// that closes the tail (0.2969 − 0.1260 − 0.3516 + 0.2843 = 0.1036).
const (
	openX4   = 0.1015
	closedX4 = 0.1036
)

// fourDigit returns the thickness of the four- and five-digit sections.
func fourDigit(closed bool) thickness {
	if closed {
		return thickness{x4: closedX4, closed: true}
	}
	return thickness{x4: openX4}
}

// tailSlopes are d1, the slope at the trailing edge for a thickness of 0.20, by the station of the greatest
// thickness in tenths: NACA Report 492. From memory; the one at 0.3 is the slope of the four-digit sections,
// 0.2339, as it should be.
var tailSlopes = map[int]float64{2: 0.200, 3: 0.234, 4: 0.315, 5: 0.465, 6: 0.700}

// modified returns the thickness of the modified sections, NACA Report 492: index is 1 to 9 for the nose,
// tenths the station of the greatest thickness.
//
// The report's conditions, for a thickness of 0.20 (from memory): radius at the nose 1.1019 t² (index/6)²,
// and three times 1.1019 t² at index 9; at the station m of the greatest thickness the ordinate is 0.1, the
// slope 0, and the curvature of both parts one; at the tail the ordinate is 0.002 and the slope −d1. With
// r = 1 − m, h = 0.1 − d0 and S = a0 √m they give
//
//	d2 = (3h − 2 r d1)/r², d3 = (r d1 − 2h)/r³, and at m the bend K = 2 d2 + 6 r d3,
//	a3 m³ = K m²/2 + 0.1 − 3S/8, a2 m² = S/2 − 0.1 − 2 a3 m³, a1 m = 0.1 − S − a2 m² − a3 m³.
func modified(index, tenths int, closed bool) thickness {
	m, d0, d1 := float64(tenths)/10, 0.002, tailSlopes[tenths]
	if closed {
		d0 = 0
	}
	a0 := 0.2969 * float64(index) / 6
	if index == 9 {
		a0 = 0.2969 * math.Sqrt(3)
	}
	r, h := 1-m, 0.1-d0
	d2 := (float64(3*h) - float64(2*r*d1)) / (r * r)
	d3 := (float64(r*d1) - float64(2*h)) / (r * r * r)
	bend := float64(2*d2) + float64(6*r*d3)
	s := float64(a0 * math.Sqrt(m))
	c3 := float64(float64(bend*m*m)/2) + 0.1 - float64(0.375*s)
	c2 := float64(s/2) - 0.1 - float64(2*c3)
	c1 := 0.1 - s - c2 - c3
	return thickness{place: m, closed: closed,
		fore: [4]float64{a0, c1 / m, c2 / (m * m), c3 / (m * m * m)},
		aft:  [4]float64{d0, d1, d2, d3}}
}

// half returns half the thickness at station x = u², laid off square to the mean line, for a section whose
// thickness is t:
// 5t(0.2969√x − 0.1260x − 0.3516x² + 0.2843x³ − 0.1015x⁴), NACA Report 460, which gives it for t = 0.20.
func (k *thickness) half(u, t float64) float64 {
	x := float64(u * u)
	switch {
	case k.closed && x >= 1:
		return 0
	case k.place == 0:
		y := float64(x * (-0.1260 + float64(x*(-0.3516+float64(x*(0.2843-float64(k.x4*x)))))))
		return float64(float64(5*t) * (float64(0.2969*u) + y))
	case x < k.place:
		a := &k.fore
		return float64(float64(5*t) * (float64(a[0]*u) + float64(x*(a[1]+float64(x*(a[2]+float64(x*a[3])))))))
	}
	d, z := &k.aft, 1-x
	return float64(float64(5*t) * (d[0] + float64(z*(d[1]+float64(z*(d[2]+float64(z*d[3])))))))
}
