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
	at geom.Pt
	s  string
}

// tags letters words upright in their order, above their places or below. Where places are nearer to each other than words
// are high the words move apart, each as little as can be, to a line of their own beyond far; of more than have room on the
// picture some are left out, never the first and the last. It returns how many it lettered.
func (w *wingPicture) tags(all []tag, far float64, above bool) int {
	all = roomFor(all)
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
	return len(all)
}

// roomFor leaves tags out where there are more than have room side by side on the picture: from each to the next that stands a lane on.
func roomFor(all []tag) []tag {
	if float64(float64(len(all))*nameLane) <= pictureWide {
		return all
	}
	last := all[len(all)-1]
	out := []tag{all[0]}
	for _, t := range all[1 : len(all)-1] {
		if before := out[len(out)-1].at.X; t.at.X >= before+nameLane && t.at.X <= last.at.X-nameLane {
			out = append(out, t)
		}
	}
	return append(out, last)
}

// ribTags letters the ribs' names above the wing and their span stations below it. edges are the ribs' places on the leading edge.
func (w *wingPicture) ribTags(ribs []wing.Stand, edges []geom.Pt, foot float64) {
	var names, marks []tag
	top := math.Inf(-1)
	for i, p := range ribs {
		names = append(names, tag{edges[i], ribWords(p)})
		marks = append(marks, tag{geom.Pt{X: edges[i].X, Y: foot}, w.doc.Number(p.Span)})
		top = max(top, edges[i].Y)
	}
	if n := w.tags(names, top, true); n < len(ribs) {
		w.left = fmt.Sprintf("%d of the %d ribs are named here; the list of the ribs has all names.", n, len(ribs))
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
		tails = append(tails, tag{end.Mul(w.scale), k.Name})
	}
	slices.SortStableFunc(tails, func(a, b tag) int { return cmp.Compare(a.at.X, b.at.X) })
	w.tags(tails, bounds(w.items).Min.Y, false)
}
