package export

import (
	"io"
	"sync"
)

// memory is what files were made in and the next ones may be.
var memory = sync.Pool{New: func() any { return new([]byte) }}

// WriteWhole hands what fill appends to b, which is empty, to w by one Write. The memory is lent: nobody may keep any of it.
func WriteWhole(w io.Writer, fill func(b []byte) []byte) error {
	lent := memory.Get().(*[]byte)
	defer memory.Put(lent)
	*lent = fill((*lent)[:0])
	_, err := w.Write(*lent)
	return err
}
