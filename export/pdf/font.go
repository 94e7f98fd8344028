package pdf

import (
	"bytes"
	"fmt"
	"slices"
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
	place   map[rune]int // in letters
	object  int          // the number of the first font's first object
}

// newTypefaces gathers the letters that a drawing uses.
func newTypefaces(d export.Drawing) [2]*typeface {
	out := [2]*typeface{{}, {bold: true}}
	used := [2]map[rune]bool{{}, {}}
	for _, s := range d.Sheets {
		for _, p := range s.Parts {
			for _, it := range p.Items {
				if it.Text != nil {
					k := 0
					if it.Text.Bold {
						k = 1
					}
					for _, r := range it.Text.Letters() {
						used[k][r] = true
					}
				}
			}
		}
	}
	for k, f := range out {
		for r := range used[k] {
			f.letters = append(f.letters, r)
		}
		slices.Sort(f.letters)
		f.place = make(map[rune]int, len(f.letters))
		for i, r := range f.letters {
			f.place[r] = i
		}
	}
	return out
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
		var procs, widths, differences bytes.Buffer
		var box geom.Box
		var streams [][]byte
		for i, r := range letters {
			t := export.Text{S: string(r), Height: capital, Bold: f.bold}
			s, b := letter(t)
			streams, box = append(streams, s), box.Union(b)
			fmt.Fprintf(&procs, " /%s %d 0 R", glyphName(r), n+2+i)
			fmt.Fprintf(&differences, " /%s", glyphName(r))
			widths.WriteByte(' ')
			widths.Write(export.AppendNum(nil, t.Width(), 3))
		}
		corners := (&page{}).nums(box.Min.X, box.Min.Y, box.Max.X, box.Max.Y).b
		out.object(n, "<< /Type /Font /Subtype /Type3 /FontBBox [%s] /FontMatrix [0.001 0 0 0.001 0 0] /FirstChar 1 /LastChar %d /Widths [%s ] "+
			"/Encoding << /Type /Encoding /Differences [1%s] >> /CharProcs <<%s >> /Resources << >> /ToUnicode %d 0 R >>",
			bytes.TrimSpace(corners), len(letters), widths.Bytes(), differences.Bytes(), procs.Bytes(), n+1)
		out.stream(n+1, toUnicode(letters))
		for i, s := range streams {
			out.stream(n+2+i, s)
		}
	}
}

// glyphName returns a letter's name in the manner of the Adobe glyph list: readers that look for words by
// the size of letters find it by the names of plain ones.
func glyphName(r rune) string {
	if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' {
		return string(r)
	}
	return fmt.Sprintf("u%04X", r)
}

// letter returns the operators that draw one letter, and its box. Curves are quadratic in the font and
// cubic in the file, their control points two thirds of the way to the quadratic's.
func letter(t export.Text) ([]byte, geom.Box) {
	var box geom.Box
	p := &page{}
	outlines := t.Outlines()
	for _, c := range outlines {
		box = box.Add(c.Start)
		p.pts(c.Start).op("m")
		at := c.Start
		for _, s := range c.Segs {
			box = box.Add(s.End)
			if s.Line {
				p.pts(s.End).op("l")
			} else {
				box = box.Add(s.Ctrl)
				p.pts(at.Lerp(s.Ctrl, 2.0/3), s.End.Lerp(s.Ctrl, 2.0/3), s.End).op("c")
			}
			at = s.End
		}
		p.op("h")
	}
	if len(outlines) > 0 {
		p.op("f")
	}
	head := &page{}
	head.nums(t.Width(), 0, box.Min.X, box.Min.Y, box.Max.X, box.Max.Y).op("d1")
	return append(head.b, p.b...), box
}

// toUnicode returns the table by which a reader finds the letters (ISO 32000-1, 9.10.3).
func toUnicode(letters []rune) []byte {
	var b bytes.Buffer
	b.WriteString("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n/CMapName /Letters def\n/CMapType 2 def\n" +
		"1 begincodespacerange\n<01> <FF>\nendcodespacerange\n")
	const most = 100 // entries in a block
	for from := 0; from < len(letters); from += most {
		block := letters[from:min(from+most, len(letters))]
		fmt.Fprintf(&b, "%d beginbfchar\n", len(block))
		for i, r := range block {
			fmt.Fprintf(&b, "<%02X> <", from+i+1)
			for _, u := range utf16.Encode([]rune{r}) {
				fmt.Fprintf(&b, "%04X", u)
			}
			b.WriteString(">\n")
		}
		b.WriteString("endbfchar\n")
	}
	b.WriteString("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n")
	return b.Bytes()
}
