package pack

import (
	"slices"

	"ribwright/geom"
)

// shelve puts a part into the first free place for its box, row by row.
func shelve(l *Layout, job NestJob, part, cp int) bool {
	p := job.Parts[part]
	angles := p.Angles
	if len(angles) == 0 {
		angles = []float64{0}
	}
	for u := 0; u <= len(l.Uses); u++ {
		for s, sheet := range job.Sheets {
			if u < len(l.Uses) && l.Uses[u].Sheet != s {
				continue
			}
			if u == len(l.Uses) && sheet.Count > 0 && sheet.Count <= countUses(l.Uses, s) {
				continue
			}
			for _, a := range angles {
				box := turn(a).Path(p.Outline).Box()
				at, ok := freeBox(*l, job, u, s, box)
				if !ok {
					continue
				}
				if u == len(l.Uses) {
					l.Uses = append(l.Uses, Use{Sheet: s, SheetAreaMM2: geom.Region{Outer: sheet.Outline.Path(), Holes: paths(sheet.Holes)}.Area()})
				}
				l.Uses[u].Parts++
				l.Uses[u].PartsAreaMM2 += max(p.Outline.Area(), -p.Outline.Area())
				l.Placed = append(l.Placed, Placed{part, cp, s, u, a, at})
				return true
			}
		}
	}
	return false
}

func countUses(uses []Use, sheet int) int {
	n := 0
	for _, u := range uses {
		if u.Sheet == sheet {
			n++
		}
	}
	return n
}

func paths(rings []geom.Ring) []geom.Path {
	var out []geom.Path
	for _, r := range rings {
		out = append(out, r.Path())
	}
	return out
}

// freeBox looks for a place where the part's box meets no other box and no edge of the sheet.
func freeBox(l Layout, job NestJob, use, s int, box geom.Box) (geom.Pt, bool) {
	sheet := job.Sheets[s]
	edge := sheet.Outline.Box()
	var taken []geom.Box
	xs, ys := []float64{edge.Min.X + job.Margin}, []float64{edge.Min.Y + job.Margin}
	for _, q := range l.Placed {
		if q.Use == use {
			b := q.Transform().Path(job.Parts[q.Part].Outline).Box()
			taken = append(taken, b)
			xs, ys = append(xs, b.Max.X+job.Gap), append(ys, b.Max.Y+job.Gap)
		}
	}
	slices.Sort(xs)
	slices.Sort(ys)
	for _, y := range slices.Compact(ys) {
		for _, x := range slices.Compact(xs) {
			at := geom.Pt{X: x, Y: y}.Sub(box.Min)
			b := box.Move(at)
			if boxOnSheet(sheet, b.Grow(job.Margin)) && !slices.ContainsFunc(taken, func(t geom.Box) bool {
				return t.Grow(job.Gap - geom.Coincident).Meets(b)
			}) {
				return at, true
			}
		}
	}
	return geom.Pt{}, false
}

// boxOnSheet reports whether no edge of the sheet goes through the box, and the box is on the sheet.
func boxOnSheet(sheet Sheet, b geom.Box) bool {
	b = b.Grow(-geom.Coincident)
	corners := geom.Ring{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}
	for _, r := range append([]geom.Ring{sheet.Outline}, sheet.Holes...) {
		for i, p := range r {
			if len(corners.Stretches(p, r[(i+1)%len(r)])) > 0 {
				return false
			}
		}
	}
	for _, h := range sheet.Holes {
		if h.Holds(b.Centre()) {
			return false
		}
	}
	return sheet.Outline.Holds(b.Centre())
}
