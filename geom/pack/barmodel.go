package pack

import (
	"cmp"
	"math"
	"slices"
)

// Lengths are worked in whole millionths of a millimetre, geom.Coincident: sums of them are exact. A piece is taken
// to the unit below, so that three thirds of a bar still fill it.
const barUnit = 1e6

// Two slopes are parallel where the saw's scale shows one angle for both. At 45° and a depth of 10 mm the two then
// part by 0.035 mm at the most.
const barAngleStep = 0.1 * math.Pi / 180

// barPrice is the step of prices: a ten-thousandth.
const barPrice = 1e4

// barType is pieces that are alike for the saw.
type barType struct {
	full  int64  // length and a kerf
	least int64  // the same, less half of what a shared cut saves at either end: never more than its share of a bar
	ends  [2]int // slopes, indices in barModel.save
	need  int
	ids   []int // in BarJob.Pieces
}

// barSlope is an end that can share its cut: its angle in steps, and the depth of the bar it runs through.
type barSlope struct {
	angle int
	depth float64
}

// barKind is a kind of bar. A bar of n pieces takes their lengths and n−1 kerfs; with a kerf counted to every
// piece its room is a kerf longer than it is.
type barKind struct {
	room  int64
	cost  int64
	have  int // none: 0, any number: barAny
	stock int // in BarJob.Stock; −1: bars that are missing
}

const barAny = math.MaxInt32

// barEntry is n pieces of a type.
type barEntry struct{ t, n int }

// barPat is what one bar holds: its types in ascending order.
type barPat struct {
	kind int
	n    []barEntry
}

// barModel is a job in whole numbers.
type barModel struct {
	job    BarJob
	types  []barType // the longest first
	kinds  []barKind
	save   []int64 // what a shared cut saves, by slope; 0, the square end, saves nothing
	slopes []barSlope
	ends   [][2]int // slopes of the job's pieces, at their first and other end
	step   int64    // all costs are multiples of it
	priced bool
	sloped bool // some cut can be shared
	// For the reckoning of a bar, by slope: how many ends there are, which slopes hang together and, of those, whether
	// one is odd in number, and the least saving. met are the slopes there are.
	deg, root, met []int
	odd            []bool
	cheap          []int64
}

func newBarModel(job BarJob) (*barModel, []int) {
	m := &barModel{job: job, save: []int64{0}, slopes: make([]barSlope, 1), step: 1, ends: make([][2]int, len(job.Pieces))}
	m.priced = slices.ContainsFunc(job.Stock, func(b BarStock) bool { return b.Price > 0 })
	longest := int64(-1)
	for i, b := range job.Stock {
		k := barKind{room: int64(math.Round((b.Length - float64(2*job.Trim) + job.Kerf) * barUnit)), cost: 1, have: b.Count, stock: i}
		if m.priced {
			k.cost = int64(math.Round(b.Price * barPrice))
		}
		if k.have == 0 {
			k.have = barAny
		}
		longest = max(longest, k.room)
		m.kinds = append(m.kinds, k)
	}
	var tooLong []int
	for i, p := range job.Pieces {
		if p.Count == 0 {
			continue
		}
		t := barType{full: int64(math.Floor(float64((p.Length+job.Kerf)*barUnit) + 1e-3)), need: p.Count, ids: []int{i}}
		if t.full > longest {
			tooLong = append(tooLong, i)
			continue
		}
		m.slope(p, &t)
		m.ends[i] = t.ends
		if t.ends[0] > t.ends[1] {
			t.ends[0], t.ends[1] = t.ends[1], t.ends[0]
		}
		m.add(t)
	}
	slices.SortStableFunc(m.types, func(a, b barType) int {
		return cmp.Or(-cmp.Compare(a.full, b.full), cmp.Compare(a.ends[0], b.ends[0]), cmp.Compare(a.ends[1], b.ends[1]))
	})
	m.deg, m.root, m.odd, m.cheap = make([]int, len(m.save)), make([]int, len(m.save)), make([]bool, len(m.save)), make([]int64, len(m.save))
	m.costs(longest)
	return m, tooLong
}

// slope finds what the piece's ends save where they share a cut with a parallel one. The depth times the tangent is
// the length in which the two lie beside each other; a slanting kerf takes more of the bar than a square one. A piece
// that is shorter than its two slopes is not laid into others, for a bar would not always be the
// emptier without it.
func (m *barModel) slope(p BarPiece, t *barType) {
	t.least = t.full
	slope := float64(p.Depth * (math.Tan(math.Abs(p.Ends[0])) + math.Tan(math.Abs(p.Ends[1]))))
	if !(p.Length >= slope) {
		return
	}
	for i, a := range p.Ends {
		k := barSlope{int(math.Round(math.Abs(a) / barAngleStep)), p.Depth}
		// The flattest and the steepest that count as this angle: no two of them run into each other.
		flat, steep := (float64(k.angle)-0.5)*barAngleStep, (float64(k.angle)+0.5)*barAngleStep
		saves := float64(p.Depth*math.Tan(flat)) - float64(m.job.Kerf*(1/math.Cos(steep)-1))
		half := int64(math.Floor(saves * barUnit / 2))
		if half <= 0 {
			continue
		}
		c := slices.Index(m.slopes, k)
		if c < 0 {
			c = len(m.slopes)
			m.slopes, m.save = append(m.slopes, k), append(m.save, 2*half)
		}
		t.ends[i] = c
		t.least -= half
		m.sloped = true
	}
}

func (m *barModel) add(t barType) {
	i := slices.IndexFunc(m.types, func(o barType) bool { return o.full == t.full && o.ends == t.ends })
	if i < 0 {
		m.types = append(m.types, t)
		return
	}
	m.types[i].need += t.need
	m.types[i].ids = append(m.types[i].ids, t.ids...)
}

// costs brings the costs to whole multiples of their common divisor, and adds a kind for what is missing
// where the stock may not suffice: as long as the longest, and dearer than all else together.
func (m *barModel) costs(longest int64) {
	var common, dearest int64
	enough := false
	for _, k := range m.kinds {
		common, dearest = gcd(common, k.cost), max(dearest, k.cost)
		enough = enough || k.have == barAny && len(m.types) > 0 && k.room >= m.types[0].full
	}
	m.step = max(common, 1)
	if enough || len(m.types) == 0 {
		return
	}
	n := int64(0)
	for _, t := range m.types {
		n += int64(t.need)
	}
	m.kinds = append(m.kinds, barKind{room: longest, cost: n*dearest + m.step, have: barAny, stock: -1})
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// weight is how much of a bar's room the pieces take, laid in their best order. Every slope finds its
// partner, save one where their number is odd; and where all slopes of pieces that hang together are even in number,
// the pieces would close to a ring, which is opened where it costs least.
func (m *barModel) weight(n []barEntry) int64 {
	var w int64
	sloped := false
	for _, e := range n {
		t := &m.types[e.t]
		w += int64(e.n) * t.full
		sloped = sloped || t.ends[1] != 0
	}
	if !sloped {
		return w
	}
	m.met = m.met[:0]
	for _, e := range n {
		ends := m.types[e.t].ends
		for _, c := range ends {
			if m.deg[c] == 0 {
				m.met = append(m.met, c)
				m.root[c], m.odd[c], m.cheap[c] = c, false, math.MaxInt64
			}
			m.deg[c] += e.n
		}
		m.root[m.top(ends[0])] = m.top(ends[1])
	}
	for _, c := range m.met {
		r := m.top(c)
		w -= int64(m.deg[c]/2) * m.save[c]
		m.odd[r] = m.odd[r] || m.deg[c]%2 == 1
		m.cheap[r] = min(m.cheap[r], m.save[c])
	}
	for _, c := range m.met {
		if m.root[c] == c && !m.odd[c] {
			w += m.cheap[c]
		}
		m.deg[c] = 0
	}
	return w
}

func (m *barModel) top(c int) int {
	for m.root[c] != c {
		c = m.root[c]
	}
	return c
}

// fits reports whether a bar of the kind holds the pieces.
func (m *barModel) fits(kind int, n []barEntry) bool { return m.weight(n) <= m.kinds[kind].room }

// least is the least room the pieces could take if every slope found a partner.
func (m *barModel) least(n []barEntry) int64 {
	var w int64
	for _, e := range n {
		w += int64(e.n) * m.types[e.t].least
	}
	return w
}
