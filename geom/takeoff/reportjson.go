package takeoff

import (
	"bytes"
	"encoding/json"
	"io"
	"slices"
)

// noRibs stands in an indented report in place of the ribs. No title can hold it: in JSON text a line break is escaped.
const noRibs = "\n \"ribs\":[]"

// MarshalJSON leaves the ribs to Report.Write.
func (RibReports) MarshalJSON() ([]byte, error) { return []byte("[]"), nil }

// Write writes the report as JSON: a line for each key, and lists of numbers on one line.
func (r Report) Write(w io.Writer) error {
	all, err := compact(r)
	if err != nil {
		return err
	}
	all = indent(all, 0)
	before, after, _ := bytes.Cut(all, []byte(noRibs))
	if r.Ribs == nil {
		_, err := w.Write(all)
		return err
	}
	if _, err := w.Write(append(before, "\n \"ribs\":["...)); err != nil {
		return err
	}
	end := ""
	for one, err := range r.Ribs {
		if err != nil {
			return err
		}
		if _, err := io.WriteString(w, end+"\n  "); err != nil {
			return err
		}
		if _, err := w.Write(one); err != nil {
			return err
		}
		end = ","
	}
	if end != "" {
		after = append([]byte("\n ]"), after...)
	} else {
		after = append([]byte("]"), after...)
	}
	_, err = w.Write(after)
	return err
}

// Text is the rib as it stands in report.json.
func (r RibReport) Text() ([]byte, error) {
	one, err := compact(r)
	return indent(bytes.TrimSpace(one), 2), err
}

func compact(v any) ([]byte, error) {
	var buf bytes.Buffer
	e := json.NewEncoder(&buf)
	e.SetEscapeHTML(false)
	err := e.Encode(v)
	return buf.Bytes(), err
}

// indent breaks compact JSON into lines at objects and at lists that hold objects. depth is in how many brackets it will
// stand.
func indent(src []byte, depth int) []byte {
	out := make([]byte, 0, len(src)+len(src)/4)
	broken := slices.Repeat([]bool{true}, depth) // of each open bracket: its items stand on lines of their own
	newline := func() {
		out = append(out, '\n')
		for range broken {
			out = append(out, ' ')
		}
	}
	quoted, begun := false, 0 // what is not yet taken over begins there
	for i, c := range src {
		if c == '"' && !escaped(src, i) {
			quoted = !quoted
		}
		if quoted || c > ',' && c < '[' { // digits and their like
			continue
		}
		switch c {
		case '{', '[':
			out, begun = append(out, src[begun:i+1]...), i+1
			lines := holdsObject(src[i+1:])
			if c == '{' {
				lines = len(broken) <= 3 && src[i+1] != '}' // not small objects, such as areas by member
			}
			broken = append(broken, lines)
			if lines {
				newline()
			}
		case '}', ']':
			out, begun = append(out, src[begun:i]...), i
			lines := broken[len(broken)-1]
			broken = broken[:len(broken)-1]
			if lines {
				newline()
			}
		case ',':
			if broken[len(broken)-1] {
				out, begun = append(out, src[begun:i+1]...), i+1
				newline()
			}
		}
	}
	return append(out, src[begun:]...)
}

// holdsObject reports whether an object begins in what follows an open bracket before anything ends.
func holdsObject(src []byte) bool {
	for _, c := range src {
		switch c {
		case '{':
			return true
		case '}', ']':
			return false
		}
	}
	return false
}

// escaped reports whether the quote at i follows an odd number of backslashes.
func escaped(src []byte, i int) bool {
	n := 0
	for i-n-1 >= 0 && src[i-n-1] == '\\' {
		n++
	}
	return n%2 == 1
}
