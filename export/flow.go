package export

import (
	"io"
	"sync"
)

// piece is the length from which on what was made of a file is handed on.
const piece = 48 << 10

// memory is what pieces were made in and the next ones may be.
var memory = sync.Pool{New: func() any {
	b := make([]byte, 0, piece+piece/3)
	return &b
}}

// Flow hands a file on piece by piece, so that however long it is, it takes little memory.
type Flow struct {
	w    io.Writer
	sent int
	err  error // the first; nothing is handed on after it
}

// WriteFlow hands what fill appends to b, which is empty, to w, and returns the first error of that. Between things that it writes,
// fill lets Pass take what is there. The memory is lent: nobody may keep any of it.
func WriteFlow(w io.Writer, fill func(f *Flow, b []byte) []byte) error {
	lent := memory.Get().(*[]byte)
	defer memory.Put(lent)
	f := &Flow{w: w}
	*lent = f.Empty(fill(f, (*lent)[:0]))
	return f.err
}

// Pass hands b on if it has the length of a piece, and returns what to append to from there.
func (f *Flow) Pass(b []byte) []byte {
	if len(b) < piece {
		return b
	}
	return f.Empty(b)
}

// Empty hands b on, however short it is, and returns it empty.
func (f *Flow) Empty(b []byte) []byte {
	if f.err == nil {
		_, f.err = f.w.Write(b)
	}
	f.sent += len(b)
	return b[:0]
}

// Sent is how many bytes of the file came before those that are there now.
func (f *Flow) Sent() int { return f.sent }
