package shop

import (
	"math"
	"math/bits"

	"ribwright/geom"
)

// strata tells where columns of small squares have ink: a bit each, row by row upward. The level k holds for every
// column what it and those to its right have, 2^k in all.
type strata struct {
	min        geom.Pt
	side       float64 // of a square
	cols, rows int
	words      int // of a column
	levels     [][]uint64
}

// mostWords is of how many words a column may be.
const mostWords = 32

func newStrata(lines []inkLine, box geom.Box) strata {
	side := math.Max(strataSide, math.Max(box.W(), box.H())/(64*mostWords-2))
	s := strata{min: box.Min, side: side, cols: int(box.W()/side) + 1, rows: int(box.H()/side) + 1}
	s.words = (s.rows + 63) / 64
	level := make([]uint64, s.cols*s.words)
	for i := range lines {
		lines[i].squares(s.min, s.side, func(x, y0, y1 int) {
			if x < 0 || x >= s.cols {
				return
			}
			for y := max(0, y0); y <= min(s.rows-1, y1); y++ {
				level[x*s.words+y>>6] |= 1 << (y & 63)
			}
		})
	}
	s.build(level)
	return s
}

// flip returns the strata with x and y exchanged.
func (s *strata) flip() strata {
	f := strata{min: geom.Pt{X: s.min.Y, Y: s.min.X}, side: s.side, cols: s.rows, rows: s.cols, words: (s.cols + 63) / 64}
	level := make([]uint64, f.cols*f.words)
	for x := range s.cols {
		for w, word := range s.levels[0][x*s.words : (x+1)*s.words] {
			for ; word != 0; word &= word - 1 {
				y := w<<6 + bits.TrailingZeros64(word)
				level[y*f.words+x>>6] |= 1 << (x & 63)
			}
		}
	}
	f.build(level)
	return f
}

// build makes the levels from the first.
func (s *strata) build(level []uint64) {
	s.levels = [][]uint64{level}
	for wide := 1; 2*wide <= s.cols; wide *= 2 {
		next := make([]uint64, (s.cols-2*wide+1)*s.words)
		for i := range next {
			next[i] = level[i] | level[i+wide*s.words]
		}
		s.levels, level = append(s.levels, next), next
	}
}

// between puts together what columns have, from the first to the last.
func (s *strata) between(first, last int, into *[mostWords]uint64) {
	first, last = max(0, first), min(s.cols-1, last)
	if first > last {
		clear(into[:s.words])
		return
	}
	k := bits.Len(uint(last-first+1)) - 1
	a, b := s.levels[k][first*s.words:], s.levels[k][(last+1-1<<k)*s.words:]
	for i := range s.words {
		into[i] = a[i] | b[i]
	}
}

// top returns the highest row with ink below a row; −1 where there is none.
func (s *strata) top(of *[mostWords]uint64, below int) int {
	for w := min(below-1, s.rows-1) >> 6; w >= 0; w-- {
		word := of[w]
		if part := below - w<<6; part < 64 {
			word &= 1<<part - 1
		}
		if word != 0 {
			return w<<6 + bits.Len64(word) - 1
		}
	}
	return -1
}

// nearly is how exactly the place of ink in a square is known, mm.
const nearly = 4 * fuzz

// windows returns how many windows of a height, which overlap where ink goes on, a slab needs at least, and whether they
// surely suffice. Where the edges of windows lie is known to some squares; a slab is not sure if ink may or may not end
// before an edge.
func (s *strata) windows(lo, hi, h, overlap float64) (n int, sure bool) {
	var may, must [mostWords]uint64 // have ink: squares that the slab meets, and those within it
	lo, hi = (lo-s.min.X)/s.side, (hi-s.min.X)/s.side
	s.between(int(math.Floor(lo-nearly)), int(math.Floor(hi+nearly)), &may)
	s.between(int(math.Ceil(lo+nearly)), int(math.Floor(hi-nearly))-1, &must)
	low, high := float64(s.rows+1), float64(s.rows+1) // the ink below a height between these is not covered yet; in squares
	for {
		up := min(s.rows, int(math.Ceil(high+nearly)))
		most := s.top(&may, up)
		if most < 0 {
			return n, true
		}
		least := s.top(&must, min(s.rows, int(math.Floor(low-nearly))))
		if least < 0 {
			return n, false
		}
		top := [2]float64{float64(least) - nearly + lineEdge/s.side, math.Min(float64(most+1)+nearly, high) + lineEdge/s.side}
		if n > 0 {
			bottom := [2]float64{low - lineEdge/s.side, high - lineEdge/s.side}
			join := [2]float64{bottom[0] + overlap/s.side, bottom[1] + overlap/s.side}
			switch {
			case top[0] >= bottom[1]:
				top = join
			case top[1] >= bottom[0]: // they may join
				top = [2]float64{math.Min(top[0], join[0]), math.Max(top[1], join[1])}
			}
		}
		n++
		low, high = top[0]+(lineEdge-h)/s.side, top[1]+(lineEdge-h)/s.side
	}
}
