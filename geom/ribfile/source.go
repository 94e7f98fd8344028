package ribfile

import (
	"bytes"
	"sort"
	"unicode/utf8"

	"ribwright/geom/finding"
)

// maxFile is far above any rib file; it keeps a wrong file from filling the memory.
const maxFile = 1 << 20

// source is the text of a rib file, with the starts of its lines.
type source struct {
	file  string
	data  []byte
	lines []int // byte offset of each line's start
}

// newSource strips a byte-order mark and puts a replacement sign for every byte that is not UTF-8,
// so that the rest of the file can be read in the same run and columns stay true.
func newSource(file string, data []byte) (*source, []finding.Finding) {
	s := &source{file: file}
	tell := func(code, message, fix string) []finding.Finding {
		return []finding.Finding{{Code: code, Message: message, Fix: fix, File: file, Line: 1, Column: 1}}
	}
	if len(data) > maxFile {
		s.lines = []int{0}
		return s, tell(CodeFileLarge, "The file is larger than a rib file can be (1 MB).", "Name the rib file itself; a section's table stands in a file of its own.")
	}
	if bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) || bytes.IndexByte(data, 0) >= 0 {
		s.lines = []int{0}
		return s, tell(CodeEncoding, "The file is not plain text in UTF-8.", "Save it from the editor as plain text, encoding UTF-8.")
	}
	s.data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if bytes.IndexByte(s.data, '\r') >= 0 && bytes.IndexByte(s.data, '\n') < 0 {
		s.data, s.lines = nil, []int{0}
		return s, tell(CodeEncoding, "The lines end in a way that only very old computers know: the file is one long line.",
			"Save it from the editor with the line ends of Unix or Windows.")
	}
	var fs []finding.Finding
	if !utf8.Valid(s.data) {
		var at int
		s.data, at = replaceInvalid(s.data)
		s.index()
		p := s.place(at)
		fs = tell(CodeEncoding, "There is a sign here that is not UTF-8 text.", "Save the file from the editor with the encoding UTF-8, and look at this sign.")
		fs[0].Line, fs[0].Column = p.line, p.column
	}
	s.index()
	return s, fs
}

func (s *source) index() {
	s.lines = []int{0}
	for i, b := range s.data {
		if b == '\n' {
			s.lines = append(s.lines, i+1)
		}
	}
}

// replaceInvalid returns the text with U+FFFD for each stray byte, and the first one's offset.
func replaceInvalid(data []byte) (out []byte, first int) {
	first = -1
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && n == 1 && first < 0 {
			first = len(out)
		}
		out = utf8.AppendRune(out, r)
		i += n
	}
	return out, first
}

// line returns the index of the line that holds the offset, from 0.
func (s *source) line(offset int) int {
	return sort.SearchInts(s.lines, offset+1) - 1
}

// place turns a byte offset into a line and a column in characters, both from 1.
func (s *source) place(offset int) place {
	for offset < len(s.data) && !utf8.RuneStart(s.data[offset]) {
		offset--
	}
	n := s.line(offset)
	return place{line: n + 1, column: utf8.RuneCount(s.data[s.lines[n]:offset]) + 1}
}

// lineEnd returns the offset of the end of the line that holds the offset, before its newline.
func (s *source) lineEnd(offset int) int {
	if i := bytes.IndexByte(s.data[offset:], '\n'); i >= 0 {
		return offset + i
	}
	return len(s.data)
}

// skip returns the first offset from here on that is no blank, newline, comma or comment: what may
// stand between the elements of a list.
func (s *source) skip(offset int) int {
	for offset < len(s.data) {
		switch s.data[offset] {
		case ' ', '\t', '\r', '\n', ',':
			offset++
		case '#':
			offset = s.lineEnd(offset)
		default:
			return offset
		}
	}
	return offset
}
