package pdf

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"sync"
	"unicode/utf16"

	"ribwright/export"
	"ribwright/geom"
)

// capital is the height of a capital letter in the units of the glyphs: a text of size h is h mm high.
const capital = 1000

// perFont is how many letters one font holds: a letter's code is one byte, and 0 stays free.
const perFont = 255

// typeface is one of the two faces as the file holds it: the letters that the drawing uses, drawn as Type 3
// fonts (ISO 32000-1, 9.6.5) of perFont letters each, so that text is text and looks the same everywhere.
type typeface struct {
	bold    bool
	letters []rune
	latin   [0x100]int   // of the first runes the place in letters, counted from 1; 0: not used
	others  map[rune]int // of the others the same
	object  int          // the number of the first font's first object
}

// newTypefaces gathers the letters that a drawing uses.
func newTypefaces(d export.Drawing) [2]*typeface {
	out := [2]*typeface{{others: map[rune]int{}}, {others: map[rune]int{}, bold: true}}
	for _, s := range d.Sheets {
		for _, p := range s.Parts {
			for _, it := range p.All() {
				switch {
				case it.Text == nil:
				case it.Text.Bold:
					out[1].use(it.Text.Letters())
				default:
					out[0].use(it.Text.Letters())
				}
			}
		}
	}
	for _, f := range out {
		slices.Sort(f.letters)
		for i, r := range f.letters {
			f.set(r, i)
		}
	}
	return out
}

// use takes letters in.
func (f *typeface) use(s string) {
	for _, r := range s {
		if f.place(r) < 0 {
			f.letters = append(f.letters, r)
			f.set(r, 0)
		}
	}
}

// place returns where a letter stands among letters, counted from 0; below that where it is not used.
func (f *typeface) place(r rune) int {
	if uint32(r) < uint32(len(f.latin)) {
		return f.latin[r] - 1
	}
	return f.others[r] - 1
}

func (f *typeface) set(r rune, place int) {
	if uint32(r) < uint32(len(f.latin)) {
		f.latin[r] = place + 1
	} else {
		f.others[r] = place + 1
	}
}

// fonts returns how many fonts the face takes.
func (f *typeface) fonts() int { return (len(f.letters) + perFont - 1) / perFont }

// objects returns how many objects the face takes: for each font its dictionary and its table of
// characters, and one for each letter.
func (f *typeface) objects() int { return 2*f.fonts() + len(f.letters) }

// name is the resource name of a font.
func (f *typeface) name(font int) string {
	if f.bold {
		return fmt.Sprintf("B%d", font)
	}
	return fmt.Sprintf("R%d", font)
}

// dictionary returns the number of a font's dictionary.
func (f *typeface) dictionary(font int) int { return f.object + font*(perFont+2) }

// write writes the face's objects, which begin at f.object.
func (f *typeface) write(out *file) {
	for k := range f.fonts() {
		n := f.dictionary(k)
		letters := f.letters[k*perFont : min((k+1)*perFont, len(f.letters))]
		var procs, widths, differences []byte
		var box geom.Box
		glyphs := make([]*glyph, len(letters))
		for i, r := range letters {
			g := glyphOf(r, f.bold)
			glyphs[i], box = g, box.Union(g.box)
			procs = append(append(append(procs, " /"...), g.name...), ' ')
			procs = append(strconv.AppendInt(procs, int64(n+2+i), 10), " 0 R"...)
			differences = append(append(differences, " /"...), g.name...)
			widths = export.AppendNum(append(widths, ' '), g.width, glyphPlaces)
		}
		corners := (&page{}).nums(glyphPlaces, box.Min.X, box.Min.Y, box.Max.X, box.Max.Y).b
		out.object(n, "<< /Type /Font /Subtype /Type3 /FontBBox [%s] /FontMatrix [0.001 0 0 0.001 0 0] /FirstChar 1 /LastChar %d /Widths [%s ] "+
			"/Encoding << /Type /Encoding /Differences [1%s] >> /CharProcs <<%s >> /Resources << >> /ToUnicode %d 0 R >>",
			bytes.TrimSpace(corners), len(letters), widths, differences, procs, n+1)
		out.stream(n+1, pack(func(b []byte) []byte { return toUnicode(b, letters) }))
		for i, g := range glyphs {
			out.stream(n+2+i, g.packed)
		}
	}
}

// glyphPlaces are those of a number within a letter: a hundredth of a thousandth of its height.
const glyphPlaces = 2

// glyph is a letter as every file has it, at the height capital. A glyph is never changed once it is made.
type glyph struct {
	name   string
	width  float64
	box    geom.Box
	packed []byte // the operators that draw it
}

type glyphKey struct {
	letter rune
	bold   bool
}

// glyphs keeps the letters that were used in any file.
var glyphs sync.Map // glyphKey → *glyph

func glyphOf(r rune, bold bool) *glyph {
	key := glyphKey{r, bold}
	g, ok := glyphs.Load(key)
	if !ok {
		g, _ = glyphs.LoadOrStore(key, newGlyph(r, bold))
	}
	return g.(*glyph)
}

func newGlyph(r rune, bold bool) *glyph {
	t := export.Text{S: string(r), Height: capital, Bold: bold}
	g := &glyph{name: glyphName(r), width: t.Width()}
	outlines := t.Outlines()
	for _, c := range outlines {
		g.box = g.box.Add(c.Start)
		for _, s := range c.Segs {
			g.box = g.box.Add(s.End)
			if !s.Line {
				g.box = g.box.Add(s.Ctrl)
			}
		}
	}
	g.packed = pack(func(b []byte) []byte { return letter(b, outlines, g.width, g.box) })
	return g
}

// glyphName returns a letter's name in the manner of the Adobe glyph list: readers that look for words by
// the size of letters find it by the names of plain ones.
func glyphName(r rune) string {
	if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' {
		return string(r)
	}
	return fmt.Sprintf("u%04X", r)
}

// letter appends the operators that draw one letter. Curves are quadratic in the font and cubic in the file,
// their control points two thirds of the way to the quadratic's.
func letter(b []byte, outlines []export.Contour, width float64, box geom.Box) []byte {
	p := &page{b: b}
	p.nums(glyphPlaces, width, 0, box.Min.X, box.Min.Y, box.Max.X, box.Max.Y).op("d1")
	pts := func(qs ...geom.Pt) *page {
		for _, q := range qs {
			p.nums(glyphPlaces, q.X, q.Y)
		}
		return p
	}
	for _, c := range outlines {
		pts(c.Start).op("m")
		at := c.Start
		for i, s := range c.Segs {
			switch {
			case !s.Line:
				pts(at.Lerp(s.Ctrl, 2.0/3), s.End.Lerp(s.Ctrl, 2.0/3), s.End).op("c")
			case i < len(c.Segs)-1: // h draws the last
				pts(s.End).op("l")
			}
			at = s.End
		}
		p.op("h")
	}
	if len(outlines) > 0 {
		p.op("f")
	}
	return p.b
}

// toUnicode appends the table by which a reader finds the letters (ISO 32000-1, 9.10.3).
func toUnicode(b []byte, letters []rune) []byte {
	b = append(b, "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n/CMapName /Letters def\n/CMapType 2 def\n"+
		"1 begincodespacerange\n<01> <FF>\nendcodespacerange\n"...)
	const most = 100 // entries in a block
	for from := 0; from < len(letters); from += most {
		block := letters[from:min(from+most, len(letters))]
		b = fmt.Appendf(b, "%d beginbfchar\n", len(block))
		for i, r := range block {
			b = append(appendHex(append(b, '<'), byte(from+i+1)), "> <"...)
			for _, u := range utf16.AppendRune(nil, r) {
				b = appendHex(appendHex(b, byte(u>>8)), byte(u))
			}
			b = append(b, ">\n"...)
		}
		b = append(b, "endbfchar\n"...)
	}
	return append(b, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"...)
}
