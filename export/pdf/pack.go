package pdf

import "sync"

// packer is what packing takes, kept for the next stream.
type packer struct {
	plain, packed []byte
	deflater      deflater
}

var packers = sync.Pool{New: func() any { return new(packer) }}

// pack returns what draw appends to an empty slice, packed.
func pack(draw func(b []byte) []byte) []byte {
	p := packers.Get().(*packer)
	defer packers.Put(p)
	p.plain = draw(p.plain[:0])
	p.packed = p.deflater.deflate(p.packed[:0], p.plain)
	return append([]byte(nil), p.packed...)
}
