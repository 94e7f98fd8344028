package pdf

import (
	"encoding/binary"
	"hash/adler32"
	"math/bits"
	"slices"
)

// Packing in the format of zlib (RFC 1950 and 1951). With compress/flate it was most of the work of writing a file: pages are
// digits, in which short matches cost as much as what they stand for. Each block of up to blockSize bytes has codes of
// its own, and looks for matches in itself alone, each at the last place where minMatch bytes had the same hash.

const (
	blockSize = 1 << 16
	hashBits  = 14
	endSymbol = 256 // of a block
	symbols   = 286 // literals, the end, lengths
	distances = 30
	minMatch  = 7
	maxMatch  = 258
	farthest  = 1 << 15
)

// deflater is what packing takes.
type deflater struct {
	last    [1 << hashBits]uint16 // by hash: the last place in the block
	matches []match
	symbols code
	dists   code
	lengths code // of the lengths of the other two
	bits    bitWriter
}

// match is a row of literals and the copy behind it, in symbols with their extra bits; the last one of a block has none.
type match struct {
	literals, length  uint32
	lengths, distance symbol
}

type symbol struct {
	symbol, bits uint16
	extra        uint32
}

// deflate appends src, packed.
func (d *deflater) deflate(b, src []byte) []byte {
	d.bits = bitWriter{b: append(b, 0x78, 0x01)}
	for rest := src; ; {
		n := min(len(rest), blockSize)
		d.find(rest[:n])
		d.block(rest[:n], n == len(rest))
		if rest = rest[n:]; len(rest) == 0 {
			break
		}
	}
	d.bits.end()
	return binary.BigEndian.AppendUint32(d.bits.b, adler32.Checksum(src))
}

// find fills d.matches, and counts what they hold.
func (d *deflater) find(src []byte) {
	d.symbols.reset(symbols)
	d.dists.reset(distances)
	d.symbols.count[endSymbol] = 1
	d.dists.count[0] = 1 // there must be one
	clear(d.last[:])
	d.matches = d.matches[:0]
	done := 0 // up to here it stands in matches
	for at := 1; at+8 <= len(src); {
		key := binary.LittleEndian.Uint64(src[at:]) << (64 - 8*minMatch)
		h := key * 0x9E3779B97F4A7C15 >> (64 - hashBits)
		from := int(d.last[h])
		d.last[h] = uint16(at)
		if binary.LittleEndian.Uint64(src[from:])<<(64-8*minMatch) != key || from >= at || at-from > farthest {
			at += 1 + (at-done)>>6 // faster where nothing is found
			continue
		}
		n := minMatch + common(src[from+minMatch:], src[at+minMatch:])
		n = min(n, maxMatch)
		m := match{uint32(at - done), uint32(n), lengthSymbol(uint32(n)), distanceSymbol(uint32(at - from))}
		d.symbols.count[m.lengths.symbol]++
		d.dists.count[m.distance.symbol]++
		d.matches = append(d.matches, m)
		at += n
		done = at
	}
	d.matches = append(d.matches, match{literals: uint32(len(src) - done)})
	count := (*[256]uint32)(d.symbols.count)
	at := 0
	for _, m := range d.matches {
		for _, c := range src[at : at+int(m.literals)] {
			count[c]++
		}
		at += int(m.literals + m.length)
	}
}

// common returns how many bytes at the beginning of b stand in a too; b is no longer than a.
func common(a, b []byte) int {
	n := 0
	for ; n+8 <= len(b); n += 8 {
		if x := binary.LittleEndian.Uint64(a[n:]) ^ binary.LittleEndian.Uint64(b[n:]); x != 0 {
			return n + bits.TrailingZeros64(x)/8
		}
	}
	for n < len(b) && a[n] == b[n] {
		n++
	}
	return n
}

// block writes a block with codes made for it (RFC 1951, 3.2.7).
func (d *deflater) block(src []byte, last bool) {
	d.symbols.make(15)
	d.dists.make(15)
	w := &d.bits
	kind := uint32(0b100) // codes made for it
	if last {
		kind |= 1
	}
	w.put(kind, 3)
	d.head()
	at := 0
	for _, m := range d.matches {
		w.text(src[at:at+int(m.literals)], (*[256]uint32)(d.symbols.words))
		at += int(m.literals + m.length)
		if m.length > 0 {
			w.symbol(&d.symbols, m.lengths)
			w.symbol(&d.dists, m.distance)
		}
	}
	w.word(d.symbols.words[endSymbol])
}

// head writes the lengths of both codes' words, rows of zeros as their counts.
func (d *deflater) head() {
	all := append(slices.Clone(d.symbols.lengths), d.dists.lengths...)
	order := [...]int{16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15}
	d.lengths.reset(len(order))
	var row []uint32 // symbols, and behind 17 and 18 what their extra bits hold
	for i := 0; i < len(all); {
		zeros := 0
		for i+zeros < len(all) && all[i+zeros] == 0 && zeros < 138 {
			zeros++
		}
		switch {
		case zeros < 3:
			row = append(row, uint32(all[i]))
			zeros = 1
		case zeros < 11:
			row = append(row, 17, uint32(zeros-3))
		default:
			row = append(row, 18, uint32(zeros-11))
		}
		i += zeros
	}
	for i := 0; i < len(row); i++ {
		d.lengths.count[row[i]]++
		if row[i] > 16 {
			i++
		}
	}
	d.lengths.make(7)
	w := &d.bits
	w.put(symbols-257, 5)
	w.put(distances-1, 5)
	w.put(uint32(len(order))-4, 4)
	for _, s := range order {
		w.put(uint32(d.lengths.lengths[s]), 3)
	}
	for i := 0; i < len(row); i++ {
		s := row[i]
		w.word(d.lengths.words[s])
		if s > 16 {
			i++
			w.put(row[i], 3+4*uint(s-17))
		}
	}
}

// lengthSymbol returns the symbol of a match's length (RFC 1951, 3.2.5).
func lengthSymbol(length uint32) symbol {
	switch l := length - 3; {
	case length == maxMatch:
		return symbol{285, 0, 0}
	case l < 4:
		return symbol{uint16(257 + l), 0, 0}
	default:
		n := uint16(bits.Len32(l)) - 3
		return symbol{257 + 4*(n+1) + uint16(l>>n&3), n, l & (1<<n - 1)}
	}
}

// distanceSymbol does the same for its distance.
func distanceSymbol(distance uint32) symbol {
	d := distance - 1
	if d < 2 {
		return symbol{uint16(d), 0, 0}
	}
	n := uint16(bits.Len32(d)) - 2
	return symbol{2*(n+1) + uint16(d>>n&1), n, d & (1<<n - 1)}
}
