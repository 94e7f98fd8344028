package airfoils

import (
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/finding"
)

// Options change a section from equations. The zero value leaves it as its number says.
type Options struct {
	ClosedTail  bool    // the tail ends in a point: −0.1036 x⁴ in place of −0.1015 x⁴
	Thickness   float64 // share of the chord; 0: as the number says
	CamberScale float64 // what the mean line's ordinates are multiplied by; 0: not at all
}

// NACA returns a section from its number: four digits ("4412", "NACA 4412"), five ("23012", and "23112"
// with the reflexed mean line), or either with the nose and the place of the greatest thickness changed
// ("0012-64", "2412-34"). The tail is left open as the equation has it, and the points are laid off square
// to the mean line.
func NACA(code string) (Section, []finding.Finding) { return NACAWith(code, Options{}) }

// NACAWith is NACA with changes. Limits are 0.01 to 0.4 for the thickness and 3 for the camber's scale.
func NACAWith(code string, o Options) (Section, []finding.Finding) {
	digits := plainNumber(code)
	if f, bad := checkNACA(code, digits); bad {
		return Section{}, []finding.Finding{f}
	}
	if f, bad := o.check(); bad {
		return Section{}, []finding.Finding{f}
	}
	eq, source := parseNACA(digits, o.ClosedTail)
	name := "NACA " + digits
	if o.Thickness > 0 && o.Thickness != eq.t {
		eq.t = o.Thickness
		name += ", " + plain(math.Round(1e6*o.Thickness)/1e4) + " % thick"
	}
	if o.CamberScale > 0 && o.CamberScale != 1 && eq.line.place > 0 {
		eq.line = eq.line.scaled(o.CamberScale)
		name += ", camber × " + plain(o.CamberScale)
	}
	if o.ClosedTail {
		name += ", closed tail"
	}
	if eq.folds() {
		return Section{}, []finding.Finding{nacaFinding("a side of "+name+" folds over itself: it is too thick for a camber so far forward",
			"Take a thinner section, or one with its camber further aft.")}
	}
	s := Section{Name: name, Source: source, eq: eq}
	s.Upper, s.Lower = s.customaryPoints()
	return s, nil
}

// check says what is wrong with the changes.
func (o Options) check() (finding.Finding, bool) {
	f := finding.Finding{Code: "section-naca"}
	switch {
	case o.Thickness != 0 && !(o.Thickness >= 0.01 && o.Thickness <= 0.4):
		f.Key, f.Message = "section.thickness", "The thickness is not from 1 % to 40 % of the chord."
		f.Fix = `Give it as a share of the chord, such as thickness = "13%".`
	case o.CamberScale != 0 && !(o.CamberScale > 0 && o.CamberScale <= 3):
		f.Key, f.Message = "section.camber", "The camber's scale is not more than 0 and at most 3."
		f.Fix = "1 leaves the camber as the number says, 1.1 gives a tenth more; a section without camber begins with 00."
	}
	return f, f.Key != ""
}

// customaryPoints returns the contour's points at the customary stations.
func (s Section) customaryPoints() (upper, lower []geom.Pt) {
	for _, c := range customary {
		u, l, _ := s.At(c / 100)
		upper = append(upper, geom.Pt{X: c / 100, Y: u})
		lower = append(lower, geom.Pt{X: c / 100, Y: l})
	}
	return upper, lower
}

// equation is a section from equations: half its thickness laid off square to a mean line, to both sides.
type equation struct {
	line  meanLine
	shape thickness
	t     float64 // thickness, share of the chord; 0: the section is not one from equations
}

// half returns half the thickness at station x = u².
func (n *equation) half(u float64) float64 { return n.shape.half(u, n.t) }

// point returns the contour's point at u: u² is the station along the chord, u > 0 the upper side and
// u < 0 the lower one. In u the curve runs smoothly round the nose.
func (n *equation) point(u float64) geom.Pt {
	x := float64(u * u)
	h := math.Copysign(n.half(math.Abs(u)), u)
	y, slope, _ := n.line.at(x)
	l := math.Sqrt(1 + float64(slope*slope))
	return geom.Pt{X: x - float64(h*slope)/l, Y: y + h/l}
}

// sides returns the two sides for a chord in mm. Breaks stand where the mean line or the thickness
// change from one formula to the next.
func (n equation) sides(chord float64) (upper, lower side) {
	breaks := []float64{0, 1}
	for _, x := range []float64{n.line.place, n.shape.place} {
		if x > 0 {
			breaks = append(breaks, math.Sqrt(x))
		}
	}
	slices.Sort(breaks)
	breaks = slices.Compact(breaks)
	upper = side{curve: func(u float64) geom.Pt { return n.point(u).Mul(chord) }, breaks: breaks}
	lower = side{curve: func(u float64) geom.Pt { return n.point(-u).Mul(chord) }, breaks: breaks}
	return upper, lower
}

// folds reports whether half the thickness passes the mean line's radius anywhere: then the points laid
// off on its hollow side turn back.
func (n *equation) folds() bool {
	const steps = 400
	for i := 1; i <= steps; i++ {
		u := float64(i) / steps
		_, slope, bend := n.line.at(float64(u * u))
		l := math.Sqrt(1 + float64(slope*slope))
		if n.half(u)*math.Abs(bend) >= float64(l*l*l) {
			return true
		}
	}
	return false
}
