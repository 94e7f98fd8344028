package pdf

import (
	"encoding/binary"
	"math/bits"
	"slices"
)

// code is a prefix code: for each symbol a word of bits, the shorter the oftener it comes.
type code struct {
	count   []uint32
	lengths []uint8
	words   []uint32 // the bits as they are written, the length 16 places above

	used []uint32 // symbols, rarest first
	tree []uint32
}

// reset begins a code of n symbols.
func (c *code) reset(n int) {
	c.count, c.lengths, c.words = slices.Grow(c.count[:0], n)[:n], slices.Grow(c.lengths[:0], n)[:n], slices.Grow(c.words[:0], n)[:n]
	clear(c.count)
}

// make makes the words from the counts, none longer than most bits. Of codes whose words would be longer the counts are
// made more even first.
func (c *code) make(most uint8) {
	for {
		c.used = c.used[:0]
		for s, n := range c.count {
			if n > 0 {
				c.used = append(c.used, n<<9|uint32(s))
			}
		}
		slices.Sort(c.used)
		c.tree = c.tree[:0]
		for _, u := range c.used {
			c.tree = append(c.tree, u>>9)
		}
		depths(c.tree)
		if len(c.tree) == 0 || c.tree[0] <= uint32(most) {
			break
		}
		for s, n := range c.count {
			c.count[s] = (n + 1) / 2
		}
	}
	clear(c.lengths)
	var next [17]uint32
	for i, u := range c.used {
		c.lengths[u&511] = uint8(c.tree[i])
		next[c.tree[i]+1]++
	}
	first := uint32(0) // words of one length follow each other (RFC 1951, 3.2.2)
	for l := 1; l < len(next); l++ {
		first = (first + next[l]) << 1
		next[l] = first
	}
	for s, l := range c.lengths {
		if l > 0 {
			c.words[s] = bits.Reverse32(next[l])>>(32-l) | uint32(l)<<16
			next[l]++
		}
	}
}

// depths puts in place of counts, least first, the lengths of the words of a best code, by Moffat and Katajainen: In-place
// calculation of minimum-redundancy codes, 1995. The first half of the passes pairs the rarest, with indices of parents in
// place of what is paired; the second turns parents into depths.
func depths(a []uint32) {
	n := len(a)
	if n < 2 {
		for i := range a {
			a[i] = 1
		}
		return
	}
	root, leaf := 0, 0
	take := func(next int) uint32 {
		if leaf >= n || root < next && a[root] < a[leaf] {
			v := a[root]
			a[root] = uint32(next)
			root++
			return v
		}
		leaf++
		return a[leaf-1]
	}
	for next := range n - 1 {
		first := take(next)
		a[next] = first + take(next)
	}
	a[n-2] = 0
	for i := n - 3; i >= 0; i-- {
		a[i] = a[a[i]] + 1
	}
	free, depth, inner, at := 1, uint32(0), n-2, n-1
	for free > 0 {
		used := 0
		for ; inner >= 0 && a[inner] == depth; inner-- {
			used++
		}
		for ; free > used; free-- {
			a[at] = depth
			at--
		}
		free, depth = 2*used, depth+1
	}
}

// bitWriter appends bits, the lowest first. At most 31 wait for a whole word of 32.
type bitWriter struct {
	b   []byte
	acc uint64
	n   uint
}

// put writes the n lowest bits of v, 16 at most; those above must be 0.
func (w *bitWriter) put(v uint32, n uint) {
	w.acc |= uint64(v) << w.n
	if w.n += n; w.n >= 32 {
		w.b = binary.LittleEndian.AppendUint32(w.b, uint32(w.acc))
		w.acc >>= 32
		w.n -= 32
	}
}

// word writes a word of a code.
func (w *bitWriter) word(v uint32) { w.put(v&0xffff, uint(v>>16)) }

// symbol writes a symbol's word and its extra bits.
func (w *bitWriter) symbol(c *code, s symbol) {
	v := c.words[s.symbol]
	w.acc |= uint64(v&0xffff|s.extra<<(v>>16)) << w.n
	if w.n += uint(v>>16) + uint(s.bits); w.n >= 32 {
		w.b = binary.LittleEndian.AppendUint32(w.b, uint32(w.acc))
		w.acc >>= 32
		w.n -= 32
	}
}

// text writes the words of letters.
func (w *bitWriter) text(s []byte, words *[256]uint32) {
	b, acc, n := w.b, w.acc, w.n
	for _, c := range s {
		v := words[c]
		acc |= uint64(v&0xffff) << n
		if n += uint(v >> 16); n >= 32 {
			b = binary.LittleEndian.AppendUint32(b, uint32(acc))
			acc >>= 32
			n -= 32
		}
	}
	w.b, w.acc, w.n = b, acc, n
}

// end fills up the last byte.
func (w *bitWriter) end() {
	for ; w.n > 0; w.n -= min(w.n, 8) {
		w.b = append(w.b, byte(w.acc))
		w.acc >>= 8
	}
}
