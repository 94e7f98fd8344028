package cut

import (
	"cmp"
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/bend"
	"ribwright/geom/rib"
)

// Scarf is where two parts of a cap are glued on a slope. Its length is ten times the cap's depth unless the rib file
// says otherwise: FAA AC 43.13-1B, chapter 1.
type Scarf struct {
	Entry    int     // index in the set
	Part     string  // the cap's name in the set
	From, To float64 // stations
	Length   float64 // along the cap
	At       geom.Pt // its middle, on the contour
	Foul     float64 // how much of it lies on plates, in spar openings, or where the caps meet
}

// What a millimetre of a scarf on a plate or a spar counts for, and one ahead of where the cap bends dry or over another
// cap's scarf, beside a millimetre nearer to a plate: the first two are yielded only where nothing else is left.
const (
	scarfFoul = 1e6
	scarfBent = 1e3
)

// scarfed parts a cap so that no part is longer than usable; it returns their lengths, nose to tail, each with the whole
// of its scarfs, and half the allowance at either end of the cap. There are as few parts as can be, and one more where only
// that keeps all scarfs clear of joints. The rule for their places (common practice, no source): clear of the plates on
// the cap, of spar openings and of where the caps fill the rib; then where the cap bends dry, and not over a scarf of the other cap;
// then as far from all of these as can be, up to a scarf's length. It returns nothing where the bars are shorter than two scarfs.
func scarfed(e rib.Entry, c rib.Cap, usable float64, others []Scarf) (parts []float64, out []Scarf) {
	length := float64(e.Doc.Stock.Scarf * e.Rib.CapDepth)
	if usable < 2*length+1 {
		return nil, nil
	}
	edge := newArc(c.Edge)
	half := float64(e.Doc.Stock.Allowance / 2)
	first, last := -half, edge.length()+half
	n := max(2, int(math.Ceil((last-first-length)/(usable-length)-1e-9)))
	places := newScarfPlaces(e, c, edge, length, others)
	at := places.choose(first, last, usable, n)
	if more := places.choose(first, last, usable, n+1); !places.clear(at) && places.clear(more) {
		at = more
	}
	if at == nil {
		return nil, nil
	}
	begin := first
	for _, t := range at {
		parts = append(parts, t+length-begin)
		begin = t
		from, to := edge.at(t), edge.at(t+length)
		out = append(out, Scarf{Part: e.Part(c.ID), From: from.X, To: to.X, Length: length, At: edge.at(t + float64(length/2)), Foul: places.foul(t)})
	}
	return append(parts, last-begin), out
}

// scarfPlaces says how good a place along a cap is for a scarf.
type scarfPlaces struct {
	length float64
	room   float64      // of the cap, where a scarf may lie
	taken  [][2]float64 // along the cap: plates, spars, where the caps fill the rib
	bent   [][2]float64 // where it bends not dry, and scarfs of the other cap
}

func newScarfPlaces(e rib.Entry, c rib.Cap, edge arc, length float64, others []Scarf) scarfPlaces {
	r := e.Rib
	p := scarfPlaces{length: length, room: edge.length() - length}
	take := func(from, to float64) { p.taken = append(p.taken, [2]float64{edge.to(from), edge.to(to)}) }
	for _, j := range r.Joints {
		if j.Side == c.Side {
			take(j.Station-r.CapDepth, j.Station+r.CapDepth)
		}
	}
	for _, g := range r.Gussets {
		if len(g.Outline.Segs) > 0 && slices.ContainsFunc(r.Joints, func(j rib.Joint) bool { return j.Side == c.Side && slices.Contains(g.Joints, j.ID) }) {
			box := g.Outline.Box()
			take(box.Min.X, box.Max.X)
		}
	}
	for _, s := range r.Spars {
		take(s.Fore, s.Aft)
	}
	if in := r.Contour.Inner.Box(); len(r.Contour.Inner) > 0 {
		p.taken = append(p.taken, [2]float64{0, edge.to(in.Min.X)}, [2]float64{edge.to(in.Max.X), edge.length()})
	}
	p.taken = merged(p.taken)
	dry := bend.Of(bend.Strip{ID: c.ID, Depth: r.CapDepth, Edge: c.Edge, Radius: c.RadiusMin, RadiusAt: c.RadiusMinAt}, e.Doc.Bend).DryFrom
	p.bent = append(p.bent, [2]float64{0, edge.to(dry)})
	for _, o := range others {
		p.bent = append(p.bent, [2]float64{edge.to(o.From), edge.to(o.To)})
	}
	return p
}

// merged joins spans that overlap.
func merged(spans [][2]float64) [][2]float64 {
	slices.SortFunc(spans, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	var out [][2]float64
	for _, s := range spans {
		if n := len(out); n > 0 && s[0] <= out[n-1][1] {
			out[n-1][1] = math.Max(out[n-1][1], s[1])
		} else {
			out = append(out, s)
		}
	}
	return out
}

// clear reports whether there are scarfs from each of the places on, and none lies where none should.
func (p scarfPlaces) clear(at []float64) bool {
	return at != nil && !slices.ContainsFunc(at, func(t float64) bool { return p.foul(t) > geom.Step })
}

// foul is how much of a scarf from t on lies where none should.
func (p scarfPlaces) foul(t float64) float64 { return overlap(p.taken, t, t+p.length) }

func overlap(spans [][2]float64, from, to float64) float64 {
	sum := 0.0
	for _, s := range spans {
		sum += math.Max(0, math.Min(s[1], to)-math.Max(s[0], from))
	}
	return sum
}

// cost is less for a better place.
func (p scarfPlaces) cost(t float64) float64 {
	clear := p.length
	for _, s := range slices.Concat(p.taken, p.bent) {
		clear = math.Min(clear, math.Max(0, math.Max(s[0]-t-p.length, t-s[1])))
	}
	return float64(scarfFoul*p.foul(t)) + float64(scarfBent*overlap(p.bent, t, t+p.length)) - clear
}

// choose returns where the scarfs between n parts begin: of places a four-hundredth of the cap apart, and those that the parts'
// lengths just allow, the cheapest row in which no part is longer than usable.
func (p scarfPlaces) choose(first, last, usable float64, n int) []float64 {
	const steps = 400
	const hair = 1e-6
	var ts []float64
	for i := range steps + 1 {
		ts = append(ts, float64(p.room*float64(i)/steps))
	}
	for k := 1; k < n; k++ { // all parts before, or all behind, as long as they can be
		ts = append(ts, first+float64(float64(k)*(usable-p.length)), last-p.length-float64(float64(n-k)*(usable-p.length)))
	}
	ts = slices.DeleteFunc(ts, func(t float64) bool { return t < 0 || t > p.room })
	slices.Sort(ts)
	cost := make([]float64, len(ts))
	for i, t := range ts {
		cost[i] = p.cost(t)
	}
	best, from := make([][]float64, n-1), make([][]int, n-1)
	for k := range n - 1 {
		best[k], from[k] = make([]float64, len(ts)), make([]int, len(ts))
		for i, t := range ts {
			best[k][i], from[k][i] = math.Inf(1), -1
			if k == 0 && t+p.length-first <= usable+hair {
				best[k][i] = cost[i]
			}
			for j := 0; k > 0 && j < i; j++ {
				if sum := best[k-1][j] + cost[i]; t+p.length-ts[j] <= usable+hair && t-ts[j] >= p.length && sum < best[k][i] {
					best[k][i], from[k][i] = sum, j
				}
			}
		}
	}
	end := -1
	for i, t := range ts {
		if v := best[n-2][i]; last-t <= usable+hair && !math.IsInf(v, 1) && (end < 0 || v < best[n-2][end]-hair) {
			end = i
		}
	}
	if end < 0 {
		return nil
	}
	out := make([]float64, n-1)
	for k, i := n-2, end; k >= 0; k, i = k-1, from[k][i] {
		out[k] = ts[i]
	}
	return out
}

// arc measures along a cap's edge, from its foremost end.
type arc struct {
	pts  []geom.Pt
	sums []float64
}

func newArc(pts []geom.Pt) arc {
	a := arc{pts, make([]float64, len(pts))}
	for i := 1; i < len(pts); i++ {
		a.sums[i] = a.sums[i-1] + pts[i].Dist(pts[i-1])
	}
	return a
}

func (a arc) length() float64 { return a.sums[len(a.sums)-1] }

// at is the point a length along the edge.
func (a arc) at(t float64) geom.Pt {
	for i := 1; i < len(a.pts); i++ {
		if t <= a.sums[i] && a.sums[i] > a.sums[i-1] {
			return a.pts[i-1].Lerp(a.pts[i], math.Max(0, t-a.sums[i-1])/(a.sums[i]-a.sums[i-1]))
		}
	}
	return a.pts[len(a.pts)-1]
}

// to is the length along the edge to a station; 0 ahead of the edge, all of it behind.
func (a arc) to(x float64) float64 {
	for i := len(a.pts) - 1; i > 0; i-- {
		p, q := a.pts[i-1], a.pts[i]
		if q.X <= x {
			return a.sums[i]
		}
		if p.X <= x && p.X < q.X {
			return a.sums[i-1] + float64((x-p.X)/(q.X-p.X)*(a.sums[i]-a.sums[i-1]))
		}
	}
	return 0
}
