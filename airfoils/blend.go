package airfoils

import (
	"math"
	"slices"

	"ribwright/geom"
)

// mix is a section between two others.
type mix struct {
	a, b  Section
	share float64
}

// Blend returns the section that lies the given share of the way from a to b: a at 0 and less, b at 1 and
// more. Points at the same station of both are joined by straight lines, as the wood of a straight wing
// joins its ribs: depth, mean line and chord line go over in proportion. Stations run from the foremost point
// of each section to its tail; sections from equations are joined point by point of their mean lines. The
// result is empty where a or b is.
func Blend(a, b Section, share float64) Section {
	switch {
	case len(a.Upper) < 2 || len(b.Upper) < 2:
		return Section{}
	case !(share > 0):
		return a
	case share >= 1:
		return b
	}
	s := Section{Name: a.Name + " to " + b.Name + ", " + plain(math.Round(share*1e4)/100) + " %", mix: &mix{a, b, share}}
	s.Source = a.Source
	if b.Source != a.Source {
		s.Source += "; " + b.Source
	}
	s.Upper, s.Lower = s.customaryPoints()
	return s
}

// sides returns the blend's sides over u = √x, from 0 at the nose to 1 at the tail.
func (m *mix) sides(chord float64) (upper, lower side, ok bool) {
	ua, la, okA := m.a.rootSides()
	ub, lb, okB := m.b.rootSides()
	if !okA || !okB {
		return side{}, side{}, false
	}
	return between(ua, ub, m.share, chord), between(la, lb, m.share, chord), true
}

// between returns the side between two that run over the same u.
func between(a, b side, share, chord float64) side {
	d := side{curve: func(u float64) geom.Pt { return a.curve(u).Lerp(b.curve(u), share).Mul(chord) }}
	d.breaks = append(slices.Clone(a.breaks), b.breaks...)
	slices.Sort(d.breaks)
	d.breaks = slices.CompactFunc(d.breaks, func(x, y float64) bool { return math.Abs(y-x) < 1e-9 })
	d.breaks[len(d.breaks)-1] = 1
	if a.blunt != nil || b.blunt != nil {
		p := a.nose().Lerp(b.nose(), share).Mul(chord)
		d.blunt = &p
	}
	return d
}

// nose returns the point where the side begins.
func (d side) nose() geom.Pt {
	if d.blunt != nil {
		return *d.blunt
	}
	return d.curve(d.breaks[0])
}

// rootSides returns the sides at chord 1 over u: x grows with u², from the foremost point at 0 to the tail at 1.
func (s Section) rootSides() (upper, lower side, ok bool) {
	upper, lower, ok = s.sides(1)
	if !ok || s.eq.t > 0 || s.mix != nil {
		return upper, lower, ok // they run so
	}
	if upper.blunt != nil {
		return rooted(upper, upper.breaks[0], nil), rooted(lower, lower.breaks[0], nil), true
	}
	// A spline through a table may reach a hair ahead of the leading edge, on one side: the part between
	// the leading edge and the foremost point then goes over to the other side.
	fu, fl := foremostOf(upper), foremostOf(lower)
	if upper.curve(fu).X <= lower.curve(fl).X {
		return rooted(upper, fu, nil), rooted(lower, lower.breaks[0], &crossing{upper, fu}), true
	}
	return rooted(upper, upper.breaks[0], &crossing{lower, fl}), rooted(lower, fl, nil), true
}

// crossing is the stretch of the other side, from its nose to its parameter to, that this side begins with.
type crossing struct {
	other side
	to    float64
}

// rooted returns the side over u. It begins at its parameter from, or with the stretch ahead of it.
func rooted(d side, from float64, ahead *crossing) side {
	span := 0.0
	curve := func(t float64) geom.Pt { return d.curve(t) } // t counts from from; below it lies the stretch ahead
	if ahead != nil {
		start := ahead.other.breaks[0]
		span = ahead.to - start
		curve = func(t float64) geom.Pt {
			if t < from {
				return ahead.other.curve(start + (from - t))
			}
			return d.curve(t)
		}
	}
	lo, hi := from-span, d.breaks[len(d.breaks)-1]
	x0, x1 := curve(lo).X, curve(hi).X
	out := side{blunt: d.blunt, curve: func(u float64) geom.Pt {
		switch {
		case u <= 0:
			return curve(lo)
		case u >= 1:
			return curve(hi)
		}
		return curve(atRoot(func(t float64) float64 { return math.Sqrt(math.Max(0, curve(t).X-x0)) }, lo, hi, float64(u*math.Sqrt(x1-x0))))
	}}
	out.breaks = []float64{0}
	for _, t := range d.breaks {
		if u := math.Sqrt(math.Max(0, (curve(t).X-x0)/(x1-x0))); t >= from && u > out.breaks[len(out.breaks)-1] && u < 1 {
			out.breaks = append(out.breaks, u)
		}
	}
	out.breaks = append(out.breaks, 1)
	return out
}

// foremostOf returns the parameter of a side's foremost point.
func foremostOf(d side) float64 {
	best, at := d.curve(d.breaks[0]).X, d.breaks[0]
	const steps = 64
	for i := 1; i < len(d.breaks) && d.curve(d.breaks[i-1]).X < noseZone; i++ {
		a, h := d.breaks[i-1], (d.breaks[i]-d.breaks[i-1])/steps
		for k := 1; k <= steps; k++ {
			t := a + float64(h*float64(k))
			if x := d.curve(t).X; x < best {
				best, at = x, t
			}
		}
	}
	if at == d.breaks[0] && d.curve(at+float64(1e-7*(d.breaks[1]-at))).X >= best {
		return at
	}
	h := float64((d.breaks[1] - d.breaks[0]) / steps)
	a, b := math.Max(d.breaks[0], at-h), at+h
	for range 200 { // thirds: the side has one foremost point there
		p, q := a+float64((b-a)/3), b-float64((b-a)/3)
		if d.curve(p).X <= d.curve(q).X {
			b = q
		} else {
			a = p
		}
	}
	return (a + b) / 2
}

// atRoot returns where f, which rises from a to b, has the value w: by false position, with the end that stays
// weighed down (the Illinois rule).
func atRoot(f func(float64) float64, a, b, w float64) float64 {
	ga, gb := f(a)-w, f(b)-w
	best, at := math.Abs(ga), a
	if gb < best {
		best, at = gb, b
	}
	kept := 0 // −1: a stayed last time, 1: b did
	for range 80 {
		if ga >= 0 || gb <= 0 || b-a <= 1e-14 {
			break
		}
		t := a + float64((b-a)*(ga/(ga-gb)))
		if !(t > a && t < b) {
			break
		}
		g := f(t) - w
		if math.Abs(g) < best {
			best, at = math.Abs(g), t
		}
		switch {
		case g < 0:
			a, ga = t, g
			if kept == 1 {
				gb /= 2
			}
			kept = 1
		default:
			b, gb = t, g
			if kept == -1 {
				ga /= 2
			}
			kept = -1
		}
	}
	return at
}
