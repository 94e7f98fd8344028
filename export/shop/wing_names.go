package shop

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/wing"
)

// A name stands upright in a lane of its own: its letters, the tails of its letters, and room to the next.
const nameLane = 3.5

// tag is words that stand in line with a place, with a line to it where they had to move aside.
type tag struct {
	at     geom.Pt
	s      string
	number int // of its rib or kind, counted from the root, from 1
}

// tags letters words upright in their order, above their places or below. Where places are nearer to each other than words
// are high the words move apart, each as little as can be, to a line of their own beyond far; of more than have room on the
// picture only every so many are lettered, as everyNth says, and it returns that number.
func (w *wingPicture) tags(all []tag, far float64, above bool) int {
	all, nth := everyNth(all)
	var want []float64
	for _, t := range all {
		want = append(want, t.at.X)
	}
	lanes, moved := spread(want, nameLane), 0.0
	for i, x := range lanes {
		moved = max(moved, math.Abs(x-want[i]))
	}
	up, anchor := 1.0, export.Left
	if !above {
		up, anchor = -1, export.Right
	}
	for i, t := range all {
		to := t.at.Add(geom.Pt{Y: 2})
		switch {
		case moved > 0.1: // the further words go aside, the higher the lines that part
			bend := geom.Pt{X: want[i], Y: far + float64(3*up)}
			to = geom.Pt{X: lanes[i], Y: bend.Y + float64(up*max(2, moved/2))}
			w.path(layerMap, geom.Path{Start: t.at.Add(geom.Pt{Y: float64(0.7 * up)}), Segs: []geom.Seg{{End: bend}, {End: to}}})
			to.Y += float64(0.8 * up)
		case !above:
			to = geom.Pt{X: want[i], Y: far - 2}
			w.line(layerMap, t.at, to)
			to.Y -= 0.8
		}
		w.text(layerName, export.Text{S: t.s, At: geom.Pt{X: to.X + small/2, Y: to.Y}, Height: small, Angle: math.Pi / 2, Anchor: anchor})
	}
	return nth
}

// everyNth leaves tags out where there are more than have room side by side on the picture: the first and the last stay, and
// between them those whose number is a multiple of 5, or else of 10, 20, 50 …, so that those that stay have room where
// their places are, or on a part of the picture where these are close together. It returns that number, 1 where all stay.
func everyNth(all []tag) (some []tag, nth int) {
	lanes := func(n int) float64 { return float64(nameLane * float64(n)) }
	if lanes(len(all)) <= pictureWide {
		return all, 1
	}
	first, last := all[0], all[len(all)-1]
	room := nameLane + max(last.at.X-first.at.X, pictureWide/4)
	for decade := 1; ; decade *= 10 {
		for _, step := range [3]int{5, 10, 20} {
			nth = step * decade
			near := func(a, b tag) bool { return 4*max(a.number-b.number, b.number-a.number) < 3*nth } // so that R1 and R5 stay, and not R300 beside R301
			some = slices.DeleteFunc(slices.Clone(all[1:len(all)-1]), func(t tag) bool { return t.number%nth != 0 || near(t, first) || near(t, last) })
			if some = slices.Concat([]tag{first}, some, []tag{last}); lanes(len(some)) <= room {
				return some, nth
			}
		}
	}
}

// ribTags letters the ribs' names above the wing and their span stations below it. edges are the ribs' places on the leading edge.
func (w *wingPicture) ribTags(ribs []wing.Stand, edges []geom.Pt, foot float64) {
	var names, marks []tag
	top := math.Inf(-1)
	for i, p := range ribs {
		names = append(names, tag{edges[i], ribWords(p), i + 1})
		marks = append(marks, tag{geom.Pt{X: edges[i].X, Y: foot}, w.doc.Number(p.Span), i + 1})
		top = max(top, edges[i].Y)
	}
	if nth := w.tags(names, top, true); nth > 1 {
		w.left = fmt.Sprintf("Of the %d ribs the first, every %dth and the last are named here; the list of the ribs has all names.", len(ribs), nth)
	}
	w.tags(marks, foot, false)
}

// ribWords names a rib: "R6 strut, compression".
func ribWords(p wing.Stand) string {
	out := p.Rib
	if p.Called != "" {
		out += " " + p.Called
	}
	k := p.Kind.Kind
	switch {
	case k == "full" || k == p.Called:
		return out
	case p.Called != "":
		return out + ", " + k
	}
	return out + " " + k
}

// leads draws a line in the wing from its leading edge to where a tail rib begins, so that its name is not taken for another's.
func (w *wingPicture) leads(from, to geom.Pt) {
	if from.Dist(to) > 1 {
		w.line(layerAxis, from, to)
	}
}

// kindTags letters the kinds' names below the picture of the ribs, in line with their tails.
func (w *wingPicture) kindTags() {
	var tails []tag
	for i, k := range w.plan.Kinds {
		end := k.Places[0].InWing(geom.Pt{X: w.set[i].Rib.Contour.Outline.Box().Max.X})
		end.X -= w.inLine(k.Places[0])
		tails = append(tails, tag{end.Mul(w.scale), k.Name, i + 1})
	}
	slices.SortStableFunc(tails, func(a, b tag) int { return cmp.Compare(a.at.X, b.at.X) })
	w.tags(tails, bounds(w.items).Min.Y, false)
}
