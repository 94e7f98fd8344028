// Package pdf writes a drawing as PDF 1.6: one page for each sheet, true to size.
//
// Lengths are millimetres, y up; a matrix at the head of each page turns them into points of 1/72 in, so
// that the numbers in the file are the drawing's own. The page box is the sheet, and what lies outside it
// is cut off. Lines and arcs are drawn in the order of the items; arcs become Bézier curves that leave
// the circle by less than 1e-4 mm. Lettering is text in fonts whose letters are drawn in the file, so that it
// looks the same everywhere and can be searched and copied. Viewers are asked to print at 100 %. The file holds no date and no random number: the same drawing gives the same bytes.
//
// Operators and objects are those of ISO 32000-1; the version is 1.6 for the key PrintScaling. The
// package embeds no font files or pictures, splits no sheet into tiles, and knows no ribs.
package pdf

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"hash"
	"io"
	"iter"
	"runtime"
	"strconv"
	"unicode/utf16"

	"ribwright/export"
)

// MaxSide is the longest side of a page, mm: 14,400 points (ISO 32000-1, annex C).
const MaxSide = 5080

// A SizeError says that a sheet is longer than a page of PDF can be.
type SizeError struct {
	Sheet int    // from 1
	Name  string // the sheet's
	W, H  float64
}

// Error names the limit and the way out.
func (e *SizeError) Error() string {
	return fmt.Sprintf("sheet %d (%s) is %.0f × %.0f mm; a PDF page takes at most %d mm (14,400 points) a side: print it in tiles",
		e.Sheet, e.Name, e.W, e.H, MaxSide)
}

// The numbers of the objects that every file has; pages, contents and bookmarks follow.
const (
	catalog = 1 + iota
	pages
	info
	outlines
	first
)

// Write writes every sheet of the drawing as a page. A sheet above MaxSide is a *SizeError.
func Write(w io.Writer, d export.Drawing) error {
	if err := d.Check(); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	if len(d.Sheets) == 0 {
		return fmt.Errorf("pdf: the drawing %q has no sheets", d.Title)
	}
	for i, s := range d.Sheets {
		if s.W > MaxSide || s.H > MaxSide {
			return &SizeError{i + 1, s.Name, s.W, s.H}
		}
	}
	hash := sha256.New() // takes everything
	if err := export.WriteFlow(io.MultiWriter(hash, w), func(f *export.Flow, b []byte) []byte { return write(f, b, d, hash) }); err != nil {
		return fmt.Errorf("writing PDF: %w", err)
	}
	return nil
}

func write(flow *export.Flow, b []byte, d export.Drawing, hash hash.Hash) []byte {
	f := &file{flow: flow, b: append(b, "%PDF-1.6\n%\xe2\xe3\xcf\xd3\n"...)} // the second line marks the file as binary
	f.head(d)
	faces := newTypefaces(d)
	for i, packed := range packedPages(d, faces) {
		f.page(d, d.Sheets[i], i, packed)
	}
	f.resources(d, faces)
	f.trailer(hash)
	return f.b
}

// file gathers the bytes and the places of the objects.
type file struct {
	flow *export.Flow
	b    []byte // what is not handed on yet
	at   []int  // offset of object i+1
}

// begin begins the next object; it must be the one numbered n.
func (f *file) begin(n int) {
	if n != len(f.at)+1 {
		panic("pdf: objects out of order")
	}
	f.at = append(f.at, f.flow.Sent()+len(f.b))
	f.b = append(strconv.AppendInt(f.b, int64(n), 10), " 0 obj\n"...)
}

func (f *file) end() { f.b = f.flow.Pass(append(f.b, "\nendobj\n"...)) }

func (f *file) object(n int, format string, args ...any) {
	f.begin(n)
	f.b = fmt.Appendf(f.b, format, args...)
	f.end()
}

// stream writes a packed stream as an object.
func (f *file) stream(n int, packed []byte) {
	f.begin(n)
	f.b = strconv.AppendInt(append(f.b, "<< /Length "...), int64(len(packed)), 10)
	f.b = append(f.b, " /Filter /FlateDecode >>\nstream\n"...)
	f.b = append(append(f.b, packed...), "\nendstream"...)
	f.end()
}

// Each sheet has three objects: the page, its content, its bookmark.
func pageObject(i int) int     { return first + 3*i }
func contentObject(i int) int  { return first + 3*i + 1 }
func bookmarkObject(i int) int { return first + 3*i + 2 }

func (f *file) head(d export.Drawing) {
	last := len(d.Sheets) - 1
	f.object(catalog, "<< /Type /Catalog /Pages %d 0 R /Outlines %d 0 R /ViewerPreferences << /PrintScaling /None >> >>", pages, outlines)
	var kids bytes.Buffer
	for i := range d.Sheets {
		fmt.Fprintf(&kids, " %d 0 R", pageObject(i))
	}
	f.object(pages, "<< /Type /Pages /Count %d /Kids [%s ] >>", len(d.Sheets), kids.Bytes())
	f.object(info, "<< /Title %s /Producer (Ribwright) >>", textString(d.Title))
	f.object(outlines, "<< /Type /Outlines /First %d 0 R /Last %d 0 R /Count %d >>", bookmarkObject(0), bookmarkObject(last), len(d.Sheets))
}

// packedPages draws and packs every sheet's content, about as many at once as there are processors, and gives them in their order.
func packedPages(d export.Drawing, faces [2]*typeface) iter.Seq2[int, []byte] {
	return func(yield func(int, []byte) bool) {
		begun := make(chan chan []byte, runtime.GOMAXPROCS(0)-1)
		go func() {
			defer close(begun)
			for _, s := range d.Sheets {
				page := make(chan []byte, 1)
				begun <- page
				go func() { page <- pack(func(b []byte) []byte { return content(b, d, s, faces) }) }()
			}
		}()
		i := 0
		for page := range begun {
			if !yield(i, <-page) {
				return
			}
			i++
		}
	}
}

func (f *file) page(d export.Drawing, s export.Sheet, i int, packed []byte) {
	const pt = 72 / 25.4
	box := export.AppendNum(nil, s.W*pt, 5)
	box = export.AppendNum(append(box, ' '), s.H*pt, 5)
	f.object(pageObject(i), "<< /Type /Page /Parent %d 0 R /MediaBox [0 0 %s] /Contents %d 0 R /Resources %d 0 R >>",
		pages, box, contentObject(i), pageObject(len(d.Sheets)))
	f.stream(contentObject(i), packed)
	name := s.Name
	if name == "" {
		name = fmt.Sprintf("sheet %d", i+1)
	}
	around := ""
	if i > 0 {
		around += fmt.Sprintf(" /Prev %d 0 R", bookmarkObject(i-1))
	}
	if i < len(d.Sheets)-1 {
		around += fmt.Sprintf(" /Next %d 0 R", bookmarkObject(i+1))
	}
	f.object(bookmarkObject(i), "<< /Title %s /Parent %d 0 R%s /Dest [%d 0 R /Fit] >>", textString(name), outlines, around, pageObject(i))
}

// resources writes what all pages draw with: the fonts, behind the last page.
func (f *file) resources(d export.Drawing, faces [2]*typeface) {
	n := pageObject(len(d.Sheets))
	next := n + 1
	var list bytes.Buffer
	for _, face := range faces {
		face.object = next
		next += face.objects()
		for k := range face.fonts() {
			fmt.Fprintf(&list, " /%s %d 0 R", face.name(k), face.dictionary(k))
		}
	}
	f.object(n, "<< /Font <<%s >> >>", list.Bytes())
	for _, face := range faces {
		face.write(f)
	}
}

// trailer writes the table of places, each entry of exactly 20 bytes, and the file's ID from its content, which hash was handed.
func (f *file) trailer(hash hash.Hash) {
	f.b = f.flow.Empty(f.b)
	start, id := f.flow.Sent(), hash.Sum(nil)
	f.b = fmt.Appendf(f.b, "xref\n0 %d\n0000000000 65535 f \n", len(f.at)+1)
	for _, at := range f.at {
		place := strconv.AppendInt(make([]byte, 0, 20), int64(at), 10)
		f.b = append(append(f.b, "0000000000"[len(place):]...), place...)
		f.b = append(f.b, " 00000 n \n"...)
	}
	f.b = fmt.Appendf(f.b, "trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R /ID [<%x> <%x>] >>\nstartxref\n%d\n%%%%EOF\n",
		len(f.at)+1, catalog, info, id[:16], id[:16], start)
}

// textString writes a string of the document (not of a page): as it is where it is ASCII, else in UTF-16.
func textString(s string) string {
	for _, r := range s {
		if r > 0x7e {
			var b bytes.Buffer
			b.WriteString("<FEFF")
			for _, u := range utf16.Encode([]rune(s)) {
				fmt.Fprintf(&b, "%04X", u)
			}
			return b.String() + ">"
		}
	}
	return string(literal(nil, []byte(s)))
}

// literal appends bytes as a string in brackets.
func literal(b, s []byte) []byte {
	b = append(b, '(')
	for _, c := range s {
		switch {
		case c == '(' || c == ')' || c == '\\':
			b = append(b, '\\', c)
		case c < ' ' || c > '~':
			b = fmt.Appendf(b, "\\%03o", c)
		default:
			b = append(b, c)
		}
	}
	return append(b, ')')
}
