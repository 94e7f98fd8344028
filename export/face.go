package export

import (
	"fmt"
	"sync"
	"sync/atomic"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"ribwright/geom"
)

// glyph is one letter in font units, y up. A glyph is never changed once it is made.
type glyph struct {
	advance  float64
	contours []Contour
}

// face is one of the two Go fonts, which are compiled into the program: an error in reading them is
// impossible. Its glyphs are made when first asked for and kept; it may be used from several goroutines
// at once.
type face struct {
	font             *sfnt.Font
	em               fixed.Int26_6 // pixels per em such that sfnt's lengths are font units
	capital, descent float64       // height of H, depth of descenders, font units
	latin            [0x100]atomic.Pointer[glyph]
	others           sync.Map // rune → *glyph
}

// lacking stands for letters that a font does not have.
var lacking = &glyph{}

var (
	regular = sync.OnceValue(func() *face { return newFace(goregular.TTF) })
	bold    = sync.OnceValue(func() *face { return newFace(gobold.TTF) })
)

func newFace(ttf []byte) *face {
	parsed := must(sfnt.Parse(ttf))
	f := &face{font: parsed, em: fixed.Int26_6(parsed.UnitsPerEm())}
	m := must(parsed.Metrics(nil, f.em, font.HintingNone))
	f.capital, f.descent = float64(m.CapHeight), float64(m.Descent)
	return f
}

// glyph returns the letter for a rune, nil where the font has none.
func (f *face) glyph(r rune) *glyph {
	g := f.kept(r)
	if g == lacking {
		return nil
	}
	return g
}

func (f *face) kept(r rune) *glyph {
	if uint32(r) < uint32(len(f.latin)) {
		g := f.latin[r].Load()
		if g == nil {
			g = f.load(r)
			f.latin[r].Store(g) // of two goroutines both may: their letters are the same
		}
		return g
	}
	if g, ok := f.others.Load(r); ok {
		return g.(*glyph)
	}
	g, _ := f.others.LoadOrStore(r, f.load(r))
	return g.(*glyph)
}

// load reads a letter from the font; one that it does not have is lacking. Its buffer is its own: sfnt's
// fonts may be shared between goroutines, its buffers may not.
func (f *face) load(r rune) *glyph {
	var b sfnt.Buffer
	i := must(f.font.GlyphIndex(&b, r))
	if i == 0 {
		return lacking
	}
	return &glyph{
		advance:  float64(must(f.font.GlyphAdvance(&b, i, f.em, font.HintingNone))),
		contours: contours(must(f.font.LoadGlyph(&b, i, f.em, nil))),
	}
}

// contours copies a letter's outlines out of sfnt's buffer and turns them y up. sfnt closes every outline
// with a step to its start, and rounds the points that the font leaves out, half-way between two control
// points, to whole units: at most half a unit off, 1/2960 of a capital's height.
func contours(segs sfnt.Segments) []Contour {
	at := func(p fixed.Point26_6) geom.Pt { return geom.Pt{X: float64(p.X), Y: float64(-p.Y)} }
	var out []Contour
	for _, s := range segs {
		if s.Op == sfnt.SegmentOpMoveTo {
			out = append(out, Contour{Start: at(s.Args[0])})
			continue
		}
		c := &out[len(out)-1]
		switch s.Op {
		case sfnt.SegmentOpLineTo:
			c.Segs = append(c.Segs, Curve{End: at(s.Args[0]), Line: true})
		case sfnt.SegmentOpQuadTo:
			c.Segs = append(c.Segs, Curve{Ctrl: at(s.Args[0]), End: at(s.Args[1])})
		default:
			panic("export: the built-in font has cubic curves")
		}
	}
	return out
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(fmt.Sprintf("export: the built-in font cannot be read: %v", err))
	}
	return v
}
