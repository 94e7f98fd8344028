package pdf

import (
	"bytes"
	"compress/zlib"
	"sync"
)

// packer is what packing takes, kept for the next stream.
type packer struct {
	plain  []byte
	packed bytes.Buffer
	z      *zlib.Writer
}

var packers = sync.Pool{New: func() any {
	p := &packer{}
	// Pages are digits, with few long matches: to look for them takes twice as long. The level is a valid one.
	p.z, _ = zlib.NewWriterLevel(&p.packed, zlib.HuffmanOnly)
	return p
}}

// pack returns what draw appends to an empty slice, packed.
func pack(draw func(b []byte) []byte) []byte {
	p := packers.Get().(*packer)
	defer packers.Put(p)
	p.plain = draw(p.plain[:0])
	p.packed.Reset()
	p.z.Reset(&p.packed)
	_, _ = p.z.Write(p.plain) // a bytes.Buffer takes everything
	_ = p.z.Close()
	return bytes.Clone(p.packed.Bytes())
}
