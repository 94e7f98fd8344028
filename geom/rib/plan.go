package rib

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// ref is a panel point: a station on a cap.
type ref struct {
	side    Side
	station float64
}

// plan is a stick before it is cut.
type plan struct {
	kind     Kind
	from, to ref
	key      string    // of the rib file
	line     geom.Half // of a post: its edge is the post's centre line
}

// plan lists the sticks in cutting order: posts first, then uprights, then diagonals, each nose to tail.
func (b *builder) plan() {
	b.planPosts()
	for i, bay := range b.doc.Bays {
		b.planBay(bay, fmt.Sprintf("bay[%d]", i))
	}
	for i, l := range b.doc.Lines {
		if b.gone(l.From) && b.gone(l.To) {
			continue
		}
		key := fmt.Sprintf("line[%d]", i)
		from, ok := b.point(l.From, key+".from")
		to, ok2 := b.point(l.To, key+".to")
		switch {
		case !ok || !ok2:
		case math.Abs(from.station-to.station) < b.StickDepth/2:
			b.plans = append(b.plans, plan{kind: Upright, from: from, to: to, key: key})
		default:
			b.plans = append(b.plans, plan{kind: Diagonal, from: from, to: to, key: key})
		}
	}
	slices.SortStableFunc(b.plans, func(p, q plan) int {
		return cmp.Or(cmp.Compare(order(p.kind), order(q.kind)), cmp.Compare(p.from.station+p.to.station, q.from.station+q.to.station))
	})
	b.dropDoubled()
}

func order(k Kind) int { return slices.Index([]Kind{Post, Upright, Diagonal}, k) }

// dropDoubled leaves out a stick that runs between the same panel points as one before it. An upright that
// closes two neighbouring bays is one stick, and nothing to tell.
func (b *builder) dropDoubled() {
	var out []plan
	for _, p := range b.plans {
		i := slices.IndexFunc(out, func(q plan) bool {
			return same(p.from, q.from) && same(p.to, q.to) || same(p.from, q.to) && same(p.to, q.from)
		})
		if i < 0 {
			out = append(out, p)
			continue
		}
		if shared := p.kind == Upright && strings.HasPrefix(p.key, "bay") && strings.HasPrefix(out[i].key, "bay"); !shared {
			b.find(finding.Finding{Severity: finding.Warning, Code: "stick-doubled", Key: p.key,
				Message: fmt.Sprintf("A stick stands there already, from %s to %s; it is made once.", b.refName(p.from), b.refName(p.to)),
				Fix:     "Take one of the two out of the rib file."})
		}
	}
	b.plans = out
}

// same reports whether two panel points are one.
func same(p, q ref) bool { return p.side == q.side && math.Abs(p.station-q.station) < samePoint }

// samePoint is the distance in stations, mm, below which two panel points are one: a builder marks no finer.
const samePoint = 0.05

func (b *builder) refName(r ref) string {
	return fmt.Sprintf("the %s cap at %s", r.side, b.station(r.station))
}

// planPosts puts a stick on either face of each spar that has posts.
func (b *builder) planPosts() {
	for i, s := range b.doc.Spars {
		if !s.Posts {
			continue
		}
		for _, aft := range []bool{false, true} {
			if !b.stands(i, aft) {
				continue
			}
			x, key := b.face(i, aft), fmt.Sprintf("spar[%d].posts", i)
			if !b.checkStations(x, key) {
				continue
			}
			b.plans = append(b.plans, plan{Post, ref{Lower, x[Lower]}, ref{Upper, x[Upper]}, key, b.postLine(i, aft)})
		}
	}
}

// postLine returns what lies ahead of the line on which the panel points at a face of a spar stand: its post's
// centre line, or the opening's face where the spar has no posts.
func (b *builder) postLine(spar int, aft bool) geom.Half {
	s, out := b.Spars[spar], 0.0
	if b.doc.Spars[spar].Posts {
		out = b.StickDepth / 2
	}
	h := s.Ahead()
	if aft {
		h = s.Behind().Flip()
		h.D += out
		return h
	}
	h.D -= out
	return h
}

// face returns the stations of the panel points at a face of a spar, on either cap.
func (b *builder) face(spar int, aft bool) (x [2]float64) {
	h := b.postLine(spar, aft)
	return [2]float64{Upper: b.upper.meets(h), Lower: b.lower.meets(h)}
}

// point returns the panel point that a line's end names.
func (b *builder) point(p ribfile.Point, key string) (ref, bool) {
	r := ref{side: Upper, station: p.Station}
	if p.Side == "lower" {
		r.side = Lower
	}
	if p.Spar >= 0 {
		r.station = b.face(p.Spar, p.Aft)[r.side]
	}
	return r, b.checkStation(r, key)
}

// checkStations holds the panel points on both caps; where they stand above each other one finding tells of both.
func (b *builder) checkStations(x [2]float64, key string) bool {
	ok := b.checkStation(ref{Upper, x[Upper]}, key)
	if x[Lower] != x[Upper] {
		ok = b.checkStation(ref{Lower, x[Lower]}, key) && ok
	}
	return ok
}

// checkStation finds a panel point that stands where no stick can: outside the rib, in a block or in a spar.
func (b *builder) checkStation(r ref, key string) bool {
	x := r.station
	f := finding.Finding{Severity: finding.Error, Code: "panel-point", Key: key, Got: x, Unit: "mm"}
	lo, hi := math.Max(b.upper.pts[0].X, b.lower.pts[0].X), b.tailEnd()
	where, limit := "", 0.0
	begin := "at the leading edge, where there is no cap to stand on"
	side := b.Contour.Upper
	if r.side == Lower {
		side = b.Contour.Lower
	}
	if b.ahead.on {
		lo, begin = side[0].X, "ahead of the rib, which begins at "+b.station(side[0].X)
	}
	if b.behind.on {
		hi = side[len(side)-1].X
	}
	switch n, t := b.doc.Nose, b.doc.Tail; {
	case n.Present && x < n.Station-geom.Coincident:
		where, limit = "in the nose block, which ends at "+b.station(n.Station), n.Station
	case t.Present && x > t.Station+geom.Coincident:
		where, limit = "in the tail block, which begins at "+b.station(t.Station), t.Station
	case !b.open && x > b.tailTip.X+geom.Coincident:
		where, limit = "where the caps have met, at "+b.station(b.tailTip.X), b.tailTip.X
	case x <= lo:
		where, limit = begin, lo
	case x >= hi:
		where, limit = "at the end of the rib, "+b.station(hi), hi
	}
	for _, s := range b.Spars {
		fore, aft := b.side(r.side).meets(s.Ahead()), b.side(r.side).meets(s.Behind())
		if x > fore+geom.Coincident && x < aft-geom.Coincident {
			where, limit = fmt.Sprintf("in the opening of spar %q, from %s to %s", s.Name, b.station(fore), b.station(aft)), fore
		}
	}
	if where == "" {
		return true
	}
	f.Limit = limit
	f.Message = fmt.Sprintf("The panel point at %s stands %s.", b.station(x), where)
	f.Fix = "Move it to where the caps are free, or leave the stick out."
	b.find(f)
	return false
}

// planBay lays out the sticks of a bay. Its ends are panel points; its panels are equal in station on either cap, so
// that beside a spar that leans its uprights turn from one end's lean to the other's.
func (b *builder) planBay(bay ribfile.Bay, key string) {
	if bay.Pattern == "none" || b.left(bay, key) {
		return
	}
	x0, ok := b.support(bay.From, true, key+".from")
	x1, ok2 := b.support(bay.To, false, key+".to")
	if !ok || !ok2 {
		return
	}
	short := Upper
	if x1[Lower]-x0[Lower] < x1[Upper]-x0[Upper] {
		short = Lower
	}
	if room := x1[short] - x0[short]; room < b.StickDepth {
		b.find(finding.Finding{Severity: finding.Error, Code: "bay-no-room", Key: key,
			Message: fmt.Sprintf("This bay runs from %s to %s: no room for a stick.", b.station(x0[short]), b.station(x1[short])),
			Fix:     "Take the bay out, or move its ends apart.", Got: room, Limit: b.StickDepth, Unit: "mm"})
		return
	}
	n := bay.Panels
	at := func(s Side, k int) ref { return ref{s, x0[s] + float64(float64(k)*(x1[s]-x0[s]))/float64(n)} }
	start, other := Upper, Lower
	if bay.Start == "lower" {
		start, other = Lower, Upper
	}
	if bay.Pattern != "warren" {
		for k := range n + 1 {
			bare := k == 0 && bay.From.Kind == "station" || k == n && bay.To.Kind == "station"
			if k > 0 && k < n || bare {
				b.plans = append(b.plans, plan{kind: Upright, from: at(Lower, k), to: at(Upper, k), key: key})
			}
		}
	}
	for k := range n {
		from, to := start, other
		switch {
		case bay.Pattern == "uprights":
			continue
		case bay.Pattern == "warren":
			start, other = other, start
		case bay.From.Kind == "spar" && bay.To.Kind == "spar" && 2*k >= n:
			// Between two spars a Pratt truss slopes to the middle from both sides.
			from, to = other, start
		}
		b.plans = append(b.plans, plan{kind: Diagonal, from: at(from, k), to: at(to, k+1), key: key})
	}
}

// support returns the stations of the panel points at a bay's end, on either cap; begin tells which end.
func (b *builder) support(s ribfile.Support, begin bool, key string) ([2]float64, bool) {
	if s.Kind == "spar" {
		if !b.stands(s.Spar, begin) {
			return [2]float64{}, false // said already
		}
		x := b.face(s.Spar, begin)
		return x, b.checkStations(x, key)
	}
	x := s.Station
	switch s.Kind {
	case "nose":
		x = b.doc.Nose.Station
	case "tail":
		x = b.doc.Tail.Station
		if !b.doc.Tail.Present {
			if b.open {
				b.find(finding.Finding{Severity: finding.Error, Code: "support-missing", Key: key,
					Message: "This bay ends at the tail, where the caps neither meet nor hold a block.",
					Fix:     "Give [tail] block_from, or end the bay at a station."})
				return [2]float64{}, false
			}
			x = b.tailTip.X
		}
	}
	both := [2]float64{x, x}
	return both, b.checkStations(both, key)
}
