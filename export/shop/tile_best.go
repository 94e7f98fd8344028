package shop

import (
	"cmp"
	"math"
	"slices"

	"ribwright/geom"
)

// draft is the pages of a plan without what stands on them beside the drawing.
type draft struct {
	tiling
	least float64 // its score is not better
}

// best returns the best arrangement of some plans; of equally good ones the first. It is not ok if there is none with room for all that must
// stand on its pages.
func (t *tiling) best(plans []plan) (tiling, bool) {
	var drafts []draft
	for _, p := range plans {
		d := draft{tiling: *t}
		d.arrange(p)
		if d.least = d.bound(); !math.IsInf(d.least, 1) {
			drafts = append(drafts, d)
		}
	}
	order := make([]int, len(drafts)) // what promises most is looked at first
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(drafts[a].least, drafts[b].least) })
	best, score, rounding := -1, math.Inf(1), 0.0
	if t.paper.H == 0 { // only a roll's scores are no multiples of a half
		rounding = geom.Coincident
	}
	for _, i := range order {
		d := &drafts[i]
		better := func(s float64) bool { return s < score || s == score && i < best }
		if may := func(s float64) bool { return better(s - rounding) }; !may(d.least) || !d.furnishAll(may) {
			continue
		}
		if s := d.score(); better(s) {
			best, score = i, s
		}
	}
	if best < 0 {
		return tiling{}, false
	}
	return drafts[best].tiling, true
}

// arrange makes the pages of a plan.
func (t *tiling) arrange(p plan) {
	slots := p.cover.slots(p.shift, p.share)
	t.lay, t.rows = p.lay, p.cover.flip
	sx, sy := t.paper.Printed.Correction()
	t.overview = geom.Box{}
	for _, s := range slots {
		if p.lay.roll {
			s = t.trim(s)
		}
		t.overview = t.overview.Union(s.core)
		w := t.lay.w
		if p.lay.roll {
			need := math.Max(s.window.W()+t.lay.more, t.lay.panel.W())
			w = need + (t.lay.w - t.lay.sheet.W())
			if t.lay.up {
				w += rulerWide
			}
		}
		at := t.lay.window.Min
		window := geom.NewBox(at, at.Add(geom.Pt{X: s.window.W(), Y: s.window.H()}))
		offset := at.Sub(s.window.Min)
		ink := window
		if s.core.Min.X > s.window.Min.X {
			ink.Min.X = s.core.Min.X + offset.X - bleed
		}
		if s.core.Max.Y < s.window.Max.Y {
			ink.Max.Y = s.core.Max.Y + offset.Y + bleed
		}
		t.tiles = append(t.tiles, Tile{W: w, H: t.lay.h, Offset: offset, Window: window, Scale: geom.Pt{X: sx, Y: sy},
			ink: ink, core: s.core, row: s.index, column: s.strip})
	}
	t.name()
}

// furnishAll finds room for all that must stand on the pages. It gives up where there is none, and where a score that is not
// better than the one reached will not do.
func (d *draft) furnishAll(may func(least float64) bool) bool {
	sum := d.least
	for k := range d.tiles {
		f, ok := d.furnish(k)
		if !ok {
			return false
		}
		sum -= d.pageBound(k)
		d.tiles[k].furniture = f
		if sum += d.pageScore(k); !may(sum) {
			return false
		}
	}
	return true
}

// bound returns what the score is at least; ∞ where some page surely has no room for its words.
func (t *tiling) bound() float64 {
	sum := t.parted()
	for k := range t.tiles {
		sum += t.pageBound(k)
	}
	return sum
}

// pageBound is what a page adds to the score at least.
func (t *tiling) pageBound(k int) float64 {
	p := &t.tiles[k]
	if t.lay.roll {
		return p.W / rollScore
	}
	b := t.blank(p)
	free := func(w, h, within float64) float64 { // within the rib a place may be odd by so much, or out of the question
		switch {
		case t.room.mayFit(b, w, h, true):
			return 0
		case t.room.mayFit(b, w, h, false):
			return within
		}
		return math.Inf(1)
	}
	words := 0.0
	if t.lay.panel.Empty() {
		words = math.Inf(1)
		for _, w := range slices.Backward(t.panelWidths(b)) { // widths of a page's own come last
			if words = min(words, free(w, t.wording(w).h, oddInside)); words == 0 {
				break
			}
		}
	}
	square := free(t.squareSide(), t.squareSide(), oddInside)
	if words == math.Inf(1) || square == 0 {
		return words
	}
	ruler := func(w, h float64, up bool) float64 {
		if !t.cutOff(p, up).Empty() {
			return min(free(w, h, oddCutOff), oddCutOff)
		}
		return free(w, h, oddInside)
	}
	rulers := noSquare(k)
	if !t.lay.across {
		rulers += ruler(t.rulerLong(), rulerWide, false)
	}
	if !t.lay.up {
		rulers += ruler(rulerWide, t.rulerLong(), true)
	}
	return words + min(square, rulers)
}

// What spoils a score: a page without a square, above all the first one. Paper is what a roll costs, mm.
const rollScore = 20.0

func noSquare(k int) float64 {
	if k == 0 {
		return 9
	}
	return 3
}

// score says how good an arrangement is: the less the better.
func (t *tiling) score() float64 {
	sum := t.parted()
	for k := range t.tiles {
		sum += t.pageScore(k)
	}
	return sum
}

// parted counts the labels that no page shows whole.
func (t *tiling) parted() float64 {
	n := 0
	for i := range t.labels {
		n++
		for k := range t.tiles {
			if c, b := &t.tiles[k].core, &t.labels[i]; c.Holds(b.Min) && c.Holds(b.Max) {
				n--
				break
			}
		}
	}
	return float64(n)
}

// pageScore is what one page adds to the score.
func (t *tiling) pageScore(k int) float64 {
	p := &t.tiles[k]
	sum := p.furniture.odd
	if p.furniture.square.Empty() {
		sum += noSquare(k)
	}
	if t.lay.roll {
		sum += p.W / rollScore
	}
	return sum
}
