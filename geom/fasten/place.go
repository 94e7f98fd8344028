package fasten

import (
	"math"

	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// The grid, mm, on which places are tried along a member and across it.
const step, stepAcross = 0.5, 0.25

// site is a plate on which fasteners find their places.
type site struct {
	set    ribfile.Fastener
	plate  rib.Gusset
	ring   geom.Ring // the outline, arcs as chords that stand off it far less than a leg does
	box    geom.Box
	centre geom.Pt
	pilot  float64 // radius of the hole in the plate's centre; 0: none
}

func newSite(g rib.Gusset, doc *ribfile.Doc) site {
	s := site{set: doc.Fastener, plate: g, ring: g.Outline.Flatten(doc.Fastener.Edge / 4), centre: g.Centre}
	if doc.Fastener.Kind == "nail" {
		s.set.Crown = 0
	}
	if doc.Saw.Plates == "hole-saw" && g.Shape == rib.Round {
		s.pilot = doc.Saw.Pilot / 2
	}
	s.box = s.ring.Box()
	return s
}

// spot is a place that a fastener may have: s along the member from the plate's middle.
type spot struct {
	s    float64
	at   geom.Pt
	legs []geom.Pt
}

// place returns as many fasteners as find room in a member, at the spacing or wider, in the middle of the room there
// is. taken are legs from the other face that those of this one must not meet.
func (s site) place(m member, taken []geom.Pt) []Fastener {
	m.ring = s.near(m.ring)
	if len(m.ring) < 3 {
		return nil
	}
	for _, further := range turns {
		var out []Fastener
		for _, c := range s.choose(s.spots(m, s.set.Angle+further, taken)) {
			out = append(out, Fastener{At: c.at, Legs: c.legs})
		}
		if len(out) > 0 || s.set.Crown == 0 {
			return out
		}
	}
	return nil
}

// turns are how much further a crown is turned to the grain, degrees, until it finds room.
var turns = []float64{0, 45, 90}

// near returns a member's part about the plate. What is cut off lies so far from the plate that no leg minds the cut.
func (s site) near(ring geom.Ring) geom.Ring {
	b := s.box.Grow(s.set.Edge + s.set.Crown + 1)
	for _, h := range []geom.Half{geom.After(b.Min.X), geom.Before(b.Max.X), {N: geom.Pt{Y: 1}, D: b.Max.Y}, {N: geom.Pt{Y: -1}, D: -b.Min.Y}} {
		ring = ring.Within(h)
	}
	return ring
}

// spots returns where fasteners may stand with their crowns at an angle to the grain, along the member: of the
// places side by side the one nearest to its middle.
func (s site) spots(m member, angle float64, taken []geom.Pt) []spot {
	spine, half := m.spine, m.half
	if len(spine) == 0 { // a block
		b := m.ring.Box()
		lo, hi := max(b.Min.Y, s.box.Min.Y), min(b.Max.Y, s.box.Max.Y)
		y := (lo + hi) / 2
		spine, half = []geom.Pt{{X: s.box.Min.X, Y: y}, {X: s.box.Max.X, Y: y}}, (hi-lo)/2
	}
	lean := angle * math.Pi / 180
	if m.lower {
		lean = -lean
	}
	var out []spot
	walk(spine, s.centre, s.box, func(along float64, p, grain geom.Pt) {
		crown := geom.Polar(grain.Angle() + lean).Mul(s.set.Crown / 2)
		for k := 0; float64(k)*stepAcross <= half; k++ {
			for _, side := range []float64{1, -1}[:min(k+1, 2)] {
				at := p.Along(grain.Left(), float64(side*float64(k)*stepAcross))
				if legs, ok := s.fits(m, at, crown, taken); ok {
					out = append(out, spot{along, at, legs})
					return
				}
			}
		}
	})
	return out
}

// walk goes along a chain in steps, counted from where it is nearest to the centre, and calls visit for every place
// that lies in the box, with its direction.
func walk(chain []geom.Pt, centre geom.Pt, box geom.Box, visit func(along float64, p, dir geom.Pt)) {
	best, zero, sum := math.Inf(1), 0.0, 0.0
	for i := 1; i < len(chain); i++ {
		u, l := chain[i].Sub(chain[i-1]).Unit(), chain[i].Dist(chain[i-1])
		t := min(max(centre.Sub(chain[i-1]).Dot(u), 0), l)
		if d := chain[i-1].Along(u, t).Dist(centre); d < best {
			best, zero = d, sum+t
		}
		sum += l
	}
	sum = -zero
	k := int(math.Ceil(sum / step))
	for i := 1; i < len(chain); i++ {
		u, l := chain[i].Sub(chain[i-1]).Unit(), chain[i].Dist(chain[i-1])
		for ; float64(k)*step <= sum+l; k++ {
			if p := chain[i-1].Along(u, float64(float64(k)*step)-sum); inBox(box, p) {
				visit(float64(k)*step, p, u)
			}
		}
		sum += l
	}
}

func inBox(b geom.Box, p geom.Pt) bool {
	return p.X >= b.Min.X && p.X <= b.Max.X && p.Y >= b.Min.Y && p.Y <= b.Max.Y
}

// fits reports whether a fastener may stand at a place, and gives its legs; crown is half its crown.
func (s site) fits(m member, at, crown geom.Pt, taken []geom.Pt) ([]geom.Pt, bool) {
	legs := []geom.Pt{at}
	if s.set.Crown > 0 {
		legs = []geom.Pt{at.Sub(crown), at.Add(crown)}
	}
	for _, p := range legs {
		if !inBox(s.box, p) || !m.ring.Holds(p) || !s.ring.Holds(p) {
			return nil, false
		}
	}
	last := legs[len(legs)-1]
	if s.pilot > 0 && geom.Distance(s.centre, legs, false) < s.pilot+s.set.Edge {
		return nil, false
	}
	for _, p := range legs {
		if s.plate.Outline.Distance(p) < s.set.Edge || geom.Distance(p, m.ring, true) < s.set.Edge {
			return nil, false
		}
		for _, e := range m.ends {
			if geom.Distance(p, e[:], false) < s.set.End {
				return nil, false
			}
		}
		for _, q := range taken {
			if p.Dist(q) < s.set.Edge {
				return nil, false
			}
		}
	}
	if len(legs) > 1 && !clear(m.ring, legs[0], last, s.set.Edge) {
		return nil, false
	}
	return legs, true
}

// clear reports whether a crown lies in the member over its whole length, no corner of which comes near it.
func clear(ring geom.Ring, a, b geom.Pt, room float64) bool {
	for _, v := range ring {
		if geom.Distance(v, []geom.Pt{a, b}, false) < room {
			return false
		}
	}
	return len(ring.Stretches(a, b)) == 1
}

// choose returns the most spots that keep the spacing. Packed to either end they bound where each may stand; each
// takes the spot nearest to the middle between.
func (s site) choose(all []spot) []spot {
	left := s.pack(len(all), func(i int) spot { return all[i] })
	right := s.pack(len(all), func(i int) spot { return all[len(all)-1-i] })
	n := len(left)
	if n == 0 || len(right) != n {
		return left
	}
	var out []spot
	for i, l := range left {
		r := right[n-1-i]
		best, off := spot{}, math.Inf(1)
		for _, c := range all {
			if c.s < l.s || c.s > r.s || i > 0 && c.at.Dist(out[i-1].at) < s.set.Spacing {
				continue
			}
			d := math.Abs(c.s - float64((l.s+r.s)/2))
			if d < off-geom.Coincident || d < off+geom.Coincident && math.Abs(c.s) < math.Abs(best.s) { // of two, the inner one
				best, off = c, d
			}
		}
		if math.IsInf(off, 1) {
			return left
		}
		out = append(out, best)
	}
	return out
}

// pack takes the first of the spots, and each further one that keeps the spacing from the one before.
func (s site) pack(n int, at func(int) spot) []spot {
	var out []spot
	for i := range n {
		if c := at(i); len(out) == 0 || c.at.Dist(out[len(out)-1].at) >= s.set.Spacing {
			out = append(out, c)
		}
	}
	return out
}
