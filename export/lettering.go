package export

import (
	"ribwright/geom"
)

// Contour is one closed outline of a letter, lines and quadratic curves, in mm on the sheet, y up. The
// last step ends at Start. The outlines of a text are filled together by the non-zero rule.
type Contour struct {
	Start geom.Pt
	Segs  []Curve
}

// Curve is one step of a Contour: a line to End, or the quadratic Bézier curve to End with the control
// point Ctrl.
type Curve struct {
	Ctrl, End geom.Pt
	Line      bool
}

// Width returns the length of the line of lettering along its base line, mm: the sum of the letters' advances.
func (t Text) Width() float64 { return t.Length(t.Advance()) }

// Advance returns the sum of the letters' advances in units of the font. They are whole numbers: of words with blanks
// between it is exactly the sum of theirs.
func (t Text) Advance() float64 { return t.face().advance(t.S) }

// Length returns how long lettering of the text's height is whose letters advance so much, mm.
func (t Text) Length(advance float64) float64 { return advance * t.Height / t.face().capital }

// advance returns the sum of the letters' advances, font units.
func (f *face) advance(s string) float64 {
	w := 0.0
	for _, r := range s {
		g := f.glyph(r)
		if g == nil {
			return f.advance(f.spell(s))
		}
		w += g.advance
	}
	return w
}

// Origin returns the left end of the text's base line on the sheet.
func (t Text) Origin() geom.Pt { return t.origin(geom.Polar(t.Angle), t.Width()) }

// origin is Origin of lettering that is so long, along a direction.
func (t Text) origin(along geom.Pt, width float64) geom.Pt {
	switch t.Anchor {
	case Center:
		return t.At.Along(along, -width/2)
	case Right:
		return t.At.Along(along, -width)
	case Middle:
		return t.At.Along(along, -width/2).Along(along.Left(), -t.Height/2)
	}
	return t.At
}

// Corners returns the box of the lettering, turned with it, counter-clockwise from the left end of the
// descenders: as wide as Width, from the descenders to the height of a capital letter, above which b, d
// and f rise by a twelfth of it.
func (t Text) Corners() [4]geom.Pt {
	f := t.face()
	w, along := t.Width(), geom.Polar(t.Angle)
	o, up := t.origin(along, w), along.Left()
	low := o.Along(up, -f.descent*t.Height/f.capital)
	high := o.Along(up, t.Height)
	return [4]geom.Pt{low, low.Along(along, w), high.Along(along, w), high}
}

// Outlines returns the letters as contours to be filled.
//
// A letter that the font lacks is drawn as ASCII writes it, '?' at worst: nothing vanishes unseen.
func (t Text) Outlines() []Contour {
	f := t.face()
	k := t.Height / f.capital
	o, along := t.Origin(), geom.Polar(t.Angle).Mul(k)
	up := along.Left()
	var out []Contour
	x := 0.0
	for _, g := range f.letters(t.S) {
		place := func(p geom.Pt) geom.Pt { return o.Along(along, x+p.X).Along(up, p.Y) }
		for _, c := range g.contours {
			out = append(out, c.apply(place))
		}
		x += g.advance
	}
	return out
}

// EachLetter calls do for each letter that is drawn, with the left end of its base line on the sheet. At one height
// and one angle a letter has the same outlines everywhere, moved there.
func (t Text) EachLetter(do func(r rune, at geom.Pt)) {
	f := t.face()
	k := t.Height / f.capital
	o, along := t.Origin(), geom.Polar(t.Angle).Mul(k)
	x := 0.0
	for _, r := range f.spell(t.S) {
		do(r, o.Along(along, x))
		x += f.glyph(r).advance
	}
}

func (t Text) face() *face {
	if t.Bold {
		return bold()
	}
	return regular()
}

// Letters returns the letters that are drawn: the text, with what the font lacks spelled out.
func (t Text) Letters() string { return t.face().spell(t.S) }

func (f *face) spell(s string) string {
	return Spell(s, func(r rune) bool { return f.glyph(r) != nil })
}

// letters returns the glyphs that draw s.
func (f *face) letters(s string) []*glyph {
	s = f.spell(s)
	out := make([]*glyph, 0, len(s))
	for _, r := range s {
		out = append(out, f.glyph(r))
	}
	return out
}

func (c Contour) apply(place func(geom.Pt) geom.Pt) Contour {
	out := Contour{Start: place(c.Start), Segs: make([]Curve, len(c.Segs))}
	for i, s := range c.Segs {
		out.Segs[i] = Curve{End: place(s.End), Line: s.Line}
		if !s.Line {
			out.Segs[i].Ctrl = place(s.Ctrl)
		}
	}
	return out
}
