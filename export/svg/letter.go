package svg

import (
	"math"
	"sync"
	"sync/atomic"

	"ribwright/export"
	"ribwright/geom"
)

// letterPlaces are those of the steps within a letter: five micrometres off are an eighth of a dot at 600 dots an inch.
const letterPlaces = 2

// letter is a letter as it is written at one height and one angle. A letter is never changed once it is made.
type letter []outline

// outline is one of a letter's: where it begins, from the left end of the letter's base line, y up; and the steps
// from there, as they stand in a path.
type outline struct {
	start geom.Pt
	steps string
}

// style is what the letters of a text have in common.
type style struct {
	height, angle float64
	bold          bool
}

// kept holds the letters of the styles that were written, for all files: they are hundreds, in thousands of places.
var kept struct {
	styles sync.Map // style → *alphabet
	n      atomic.Int32
}

// mostKept bounds the styles that are kept, in a program that writes on and on.
const mostKept = 200

// alphabet is the letters of one style, made when they are first asked for.
type alphabet struct {
	style  style
	latin  [0x100]atomic.Pointer[letter]
	others sync.Map // rune → letter
}

// alphabetOf returns the letters of a text's style; nil for slanting lettering, whose angle hardly comes twice.
func alphabetOf(t export.Text) *alphabet {
	if t.Angle != 0 && math.Mod(t.Angle, math.Pi/2) != 0 {
		return nil
	}
	s := style{t.Height, t.Angle, t.Bold}
	if a, ok := kept.styles.Load(s); ok {
		return a.(*alphabet)
	}
	a := &alphabet{style: s}
	if kept.n.Add(1) > mostKept {
		return a
	}
	all, _ := kept.styles.LoadOrStore(s, a)
	return all.(*alphabet)
}

func (a *alphabet) letter(r rune) letter {
	if uint32(r) < uint32(len(a.latin)) {
		if l := a.latin[r].Load(); l != nil {
			return *l
		}
		l := a.style.letter(r)
		a.latin[r].Store(&l) // of two goroutines both may: their letters are the same
		return l
	}
	if l, ok := a.others.Load(r); ok {
		return l.(letter)
	}
	l := a.style.letter(r)
	a.others.Store(r, l)
	return l
}

// letter makes a letter of the style.
func (s style) letter(r rune) letter {
	outlines := export.Text{S: string(r), Height: s.height, Angle: s.angle, Bold: s.bold}.Outlines()
	out := make(letter, len(outlines))
	for i, c := range outlines {
		out[i] = outline{c.Start, string(steps(nil, c))}
	}
	return out
}

// steps appends an outline's steps from its start. Each goes from one rounded place to the next, so that nothing adds
// up. The line that closes it is left out.
func steps(b []byte, c export.Contour) []byte {
	x, y := int64(0), int64(0) // the place reached, in steps of the last place, y down
	unit := math.Pow10(letterPlaces)
	from := func(p geom.Pt) (dx, dy int64) {
		return int64(math.Round((p.X-c.Start.X)*unit)) - x, int64(math.Round((c.Start.Y-p.Y)*unit)) - y
	}
	put := func(op string, vs ...int64) {
		b = append(append(b, ' '), op...)
		for _, v := range vs {
			b = export.AppendSteps(append(b, ' '), v, letterPlaces)
		}
	}
	for i, s := range c.Segs {
		dx, dy := from(s.End)
		switch {
		case !s.Line:
			cx, cy := from(s.Ctrl)
			put("q", cx, cy, dx, dy)
		case i == len(c.Segs)-1 || dx == 0 && dy == 0:
		case dy == 0:
			put("h", dx)
		case dx == 0:
			put("v", dy)
		default:
			put("l", dx, dy)
		}
		x, y = x+dx, y+dy
	}
	return append(b, " Z"...)
}
