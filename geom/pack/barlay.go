package pack

import (
	"math"
	"slices"
)

// barLink is a piece as a line between its two slopes; pieces that follow each other on one slope share the cut.
type barLink struct {
	piece int // −1: a joint of two square cuts, which closes a chain
	ends  [2]int
	used  bool
}

// lay puts the pieces of a bar in order. Slopes are points and pieces lines between them; a row of pieces that
// share all their cuts is a walk over the lines, each once (Euler's). Where more than two slopes are odd in number
// it takes several walks, and between them the saw cuts square.
func (m *barModel) lay(stock int, ids []int) BarPattern {
	links := make([]barLink, 0, len(ids))
	deg := make([]int, len(m.save))
	for c := range deg {
		m.root[c] = c
	}
	for _, id := range ids {
		e := m.ends[id]
		links = append(links, barLink{piece: id, ends: e})
		deg[e[0]]++
		deg[e[1]]++
		m.root[m.top(e[0])] = m.top(e[1])
	}
	var starts []int
	for r := range deg {
		if m.root[r] != r || deg[r] == 0 {
			continue
		}
		start, odd := -1, []int(nil)
		for c, d := range deg {
			if d == 0 || m.top(c) != r {
				continue
			}
			if d%2 == 1 {
				odd = append(odd, c)
			}
			if start < 0 || m.save[c] < m.save[start] {
				start = c
			}
		}
		if len(odd) > 0 {
			start = odd[0]
		}
		for i := 1; i+1 < len(odd); i += 2 {
			links = append(links, barLink{piece: -1, ends: [2]int{odd[i], odd[i+1]}})
		}
		starts = append(starts, start)
	}
	p := BarPattern{Stock: stock}
	for _, c := range starts {
		m.place(&p, links, m.walk(links, c), c)
	}
	m.measure(&p)
	return p
}

// walk goes over all lines that hang together with the start, each once (Hierholzer's way): the links in order.
func (m *barModel) walk(links []barLink, start int) []int {
	type step struct{ at, by int }
	stack, out := []step{{start, -1}}, []int(nil)
	for len(stack) > 0 {
		top := stack[len(stack)-1]
		i := slices.IndexFunc(links, func(l barLink) bool { return !l.used && (l.ends[0] == top.at || l.ends[1] == top.at) })
		if i < 0 {
			if top.by >= 0 {
				out = append(out, top.by)
			}
			stack = stack[:len(stack)-1]
			continue
		}
		links[i].used = true
		next := links[i].ends[1]
		if next == top.at {
			next = links[i].ends[0]
		}
		stack = append(stack, step{next, i})
	}
	slices.Reverse(out)
	return out
}

// place lays a walk behind what is in the bar, each piece turned so that its slope lies on the last one's.
func (m *barModel) place(p *BarPattern, links []barLink, walk []int, at int) {
	share := false // the first piece of a walk meets a square cut
	for _, i := range walk {
		l := links[i]
		in := at
		at = l.ends[1]
		if at == in {
			at = l.ends[0]
		}
		if l.piece < 0 {
			share = false
			continue
		}
		c := BarCut{Piece: l.piece, From: m.job.Trim, Shared: share && m.save[in] > 0}
		if n := len(p.Cuts); n > 0 {
			last := p.Cuts[n-1]
			c.From = last.From + m.job.Pieces[last.Piece].Length + m.job.Kerf
			if c.Shared {
				c.From -= float64(m.save[in]) / barUnit
			}
			m.orient(&c, l.ends, in, m.slopeOf(last, 1), true)
		} else {
			m.orient(&c, l.ends, in, 0, false)
		}
		p.Cuts = append(p.Cuts, c)
		share = true
	}
}

// slopeOf is the angle of a laid piece's left (0) or right (1) end.
func (m *barModel) slopeOf(c BarCut, side int) float64 {
	if c.Turned {
		side = 1 - side
	}
	a := m.job.Pieces[c.Piece].Ends[side]
	if c.Over {
		a = -a
	}
	return a
}

// orient turns a piece so that the slope it shares comes first, and lies as the last piece's does.
func (m *barModel) orient(c *BarCut, ends [2]int, in int, slope float64, follows bool) {
	for _, over := range []bool{false, true} {
		for i, turned := range []bool{false, true} {
			if ends[i] != in {
				continue
			}
			c.Turned, c.Over = turned, over
			if !follows || !c.Shared || m.slopeOf(*c, 0)*slope > 0 {
				return
			}
		}
	}
}

// measure counts the cuts, and what is left of the bar.
func (m *barModel) measure(p *BarPattern) {
	last := p.Cuts[len(p.Cuts)-1]
	p.Used = last.From + m.job.Pieces[last.Piece].Length - m.job.Trim
	spare := m.job.Stock[p.Stock].Length - float64(2*m.job.Trim) - p.Used
	p.Kerfs = len(p.Cuts) - 1
	if spare > 1/barUnit*float64(len(p.Cuts)+1) {
		p.Kerfs++
		p.Left = math.Max(spare-m.job.Kerf, 0)
	}
	p.Keep = p.Left > 0 && p.Left >= m.job.Offcut
}
