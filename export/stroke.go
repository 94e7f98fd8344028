package export

import (
	"cmp"
	"strings"
	"sync"
	"unicode"

	"ribwright/geom"
)

// Single-stroke lettering, for machines that follow a line: open paths instead of outlines. It has capitals, digits
// and the signs that names and sizes need; small letters are drawn as capitals, and what is missing as Spell writes it.

// strokeUnits is the height of a capital on the grid the letters are drawn on.
const strokeUnits = 12

const (
	strokeGap   = 4 // between two letters
	strokeBlank = 6 // a space, with its gap
)

// strokeLetters are the letters on their grid, each as strokes parted by commas: a point is its x and its y, one
// digit each to base 16; l behind it is a quarter turn to the left from the point before, r one to the right.
var strokeLetters = map[rune]string{
	'0': "04 08 4cr 88r 84 40r 04r", '1': "09 3c 30", '2': "08 4cr 88r 87 00 80", '3': "0c 8c 48 84r 40r 20 02r",
	'4': "60 6c 04 84", '5': "8c 0c 08 48 84r 40r 20 02r", '6': "6c 4c 08l 04 40l 84l 48l 04l", '7': "0c 8c 20",
	'8': "36 56 83r 50r 30 03r 36r,19 4cr 79r 46r 19r", '9': "20 40 84l 88 4cl 08l 44l 88l",
	'A': "00 4c 80,13 73", 'B': "00 0c 5c 89r 56r 06,56 83r 50r 00", 'C': "8a 6cl 4c 08l 04 40l 60 82l", 'D': "00 0c 4c 88r 84 40r 00",
	'E': "8c 0c 00 80,06 66", 'F': "8c 0c 00,06 66", 'G': "8a 6cl 4c 08l 04 40l 80 86 56", 'H': "00 0c,80 8c,06 86",
	'I': "00 40,20 2c,0c 4c", 'J': "8c 84 40r 04r", 'K': "00 0c,8c 06 80", 'L': "0c 00 70", 'M': "00 0c 56 ac a0", 'N': "00 0c 80 8c",
	'O': "04 08 4cr 6c a8r a4 60r 40 04r", 'P': "00 0c 5c 89r 56r 06", 'Q': "04 08 4cr 6c a8r a4 60r 40 04r,73 a0",
	'R': "00 0c 5c 89r 56r 06,46 80", 'S': "8a 6cl 3c 09l 36l 56 83r 50r 20 02r", 'T': "0c 8c,4c 40", 'U': "0c 04 40l 84l 8c",
	'V': "0c 40 8c", 'W': "0c 30 6a 90 cc", 'X': "00 8c,0c 80", 'Y': "0c 46 8c,46 40", 'Z': "0c 8c 00 80",
	'+': "06 86,42 4a", '-': "06 66", '.': "00 01", ',': "12 00", ':': "02 03,07 08", '/': "00 6c", '=': "04 84,08 88",
	'°': "0a 2cr 4ar 28r 0ar", '×': "02 68,08 62", '(': "3c 09l 03 30l", ')': "0c 39r 33 00r", '\'': "0c 09", '"': "0c 09,3c 39",
	'?': "09 3cr 69r 36r 34,30 31", 'Ø': "04 08 4cr 6c a8r a4 60r 40 04r,00 ac",
}

// strokeLetter is a letter in grid units.
type strokeLetter struct {
	strokes []geom.Path
	width   float64
}

// strokeGlyphs are the letters as lines and arcs, made once; those of printable ASCII at their places, small letters as
// capitals and what is missing as '?'.
var strokeGlyphs = sync.OnceValue(func() (g struct {
	ascii [0x7f]*strokeLetter
	all   map[rune]*strokeLetter
}) {
	g.all = map[rune]*strokeLetter{' ': {nil, strokeBlank - strokeGap}}
	for r, code := range strokeLetters {
		g.all[r] = newStrokeLetter(code)
	}
	for r := ' '; r < 0x7f; r++ {
		g.ascii[r] = cmp.Or(g.all[unicode.ToUpper(r)], g.all['?'])
	}
	return g
})

// strokeText returns the letters that draw s.
func strokeText(s string) []*strokeLetter {
	g := strokeGlyphs()
	out := make([]*strokeLetter, 0, len(s))
	for i := range len(s) {
		if s[i] < ' ' || s[i] >= 0x7f {
			return strokeSpelled(s, g.all)
		}
		out = append(out, g.ascii[s[i]])
	}
	return out
}

// strokeSpelled is strokeText where some letters are not of printable ASCII.
func strokeSpelled(s string, all map[rune]*strokeLetter) []*strokeLetter {
	s = Spell(strings.ToUpper(s), func(r rune) bool {
		_, ok := strokeLetters[r]
		return ok || r >= ' ' && r < 0x7f // Spell must find all of ASCII
	})
	var out []*strokeLetter
	for _, r := range strings.ToUpper(s) {
		out = append(out, cmp.Or(all[r], all['?']))
	}
	return out
}

func newStrokeLetter(code string) *strokeLetter {
	const quarter = 0.41421356237309503 // tan(90°/4)
	unit := func(b byte) float64 { return float64(strings.IndexByte("0123456789abcdef", b)) }
	l := &strokeLetter{}
	for _, stroke := range strings.Split(code, ",") {
		var p geom.Path
		for i, w := range strings.Fields(stroke) {
			q := geom.Pt{X: unit(w[0]), Y: unit(w[1])}
			l.width = max(l.width, q.X)
			if i == 0 {
				p.Start = q
				continue
			}
			s := geom.Seg{End: q}
			switch {
			case strings.HasSuffix(w, "l"):
				s.Bulge = quarter
			case strings.HasSuffix(w, "r"):
				s.Bulge = -quarter
			}
			p.Segs = append(p.Segs, s)
		}
		l.strokes = append(l.strokes, p)
	}
	return l
}

// StrokeWidth returns the length of the lettering that Strokes draws.
func (t Text) StrokeWidth() float64 { return t.strokeWidth(strokeText(t.S)) }

func (t Text) strokeWidth(letters []*strokeLetter) float64 {
	w := 0.0
	for i, l := range letters {
		if i > 0 {
			w += strokeGap
		}
		w += l.width
	}
	return w * t.Height / strokeUnits
}

// Strokes returns the text in single-stroke lettering: open paths of lines and arcs.
func (t Text) Strokes() []geom.Path {
	k := t.Height / strokeUnits
	letters := strokeText(t.S)
	o := t.origin(geom.Polar(t.Angle), t.strokeWidth(letters))
	place := geom.Zoom(k, k).Then(geom.Turn(geom.Pt{}, t.Angle)).Then(geom.Move(o))
	var out []geom.Path
	x := 0.0
	for _, l := range letters {
		at := geom.Move(geom.Pt{X: x}).Then(place)
		for _, p := range l.strokes {
			out = append(out, at.Path(p))
		}
		x += l.width + strokeGap
	}
	return out
}
