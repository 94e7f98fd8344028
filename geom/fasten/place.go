package fasten

import (
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// The grid, mm, on which places are tried along a member and across it.
const step, stepAcross = 0.5, 0.25

// site is a plate on which fasteners find their places.
type site struct {
	set     ribfile.Fastener
	outline func(geom.Pt) float64 // how far a place is from the plate's outline
	ring    geom.Ring             // the same, arcs as chords that stand off it far less than a leg does
	box     geom.Box
	centre  geom.Pt
	open    float64 // so near to the centre the outline is in no leg's way; below 0: nowhere
	pilot   float64 // radius of the hole in the plate's centre; 0: none
	all     []place // room for those of one member
}

func newSite(g rib.Gusset, doc *ribfile.Doc) site {
	s := site{set: doc.Fastener, outline: g.Outline.Measure(), ring: g.Outline.Flatten(doc.Fastener.Edge / 4), centre: g.Centre}
	if doc.Fastener.Kind == "nail" {
		s.set.Crown = 0
	}
	if doc.Saw.Plates == "hole-saw" && g.Shape == rib.Round {
		s.pilot = doc.Saw.Pilot / 2
	}
	s.box, s.open = s.ring.Box(), -1
	s.all = make([]place, 0, int((s.box.W()+s.box.H())/step)+1)
	if s.ring.Holds(s.centre) {
		s.open = s.outline(s.centre) - s.set.Edge - geom.Coincident
	}
	return s
}

// place returns as many fasteners as find room in a member, at the spacing or wider, in the middle of the room there
// is. taken are legs from the other face that those of this one must not meet.
func (s *site) place(m member, taken []geom.Pt) []Fastener {
	m.ring = s.near(m.ring)
	if len(m.ring) < 3 {
		return nil
	}
	m.ends = slices.DeleteFunc(slices.Clone(m.ends), func(e [2]geom.Pt) bool { return !geom.NewBox(e[0], e[1]).Grow(s.set.End).Meets(s.box) })
	spine, half := m.spine, m.half
	if len(spine) == 0 { // a block
		b := m.ring.Box()
		lo, hi := max(b.Min.Y, s.box.Min.Y), min(b.Max.Y, s.box.Max.Y)
		y := (lo + hi) / 2
		spine, half = []geom.Pt{{X: s.box.Min.X, Y: y}, {X: s.box.Max.X, Y: y}}, (hi-lo)/2
	}
	s.all = walk(s.all[:0], spine, s.centre, s.box)
	h := &hunt{site: s, m: m, taken: taken}
	for _, further := range turns {
		r := row{hunt: h, all: s.all, half: half, lean: (s.set.Angle + further) * math.Pi / 180}
		if m.lower {
			r.lean = -r.lean
		}
		if out := r.choose(); len(out) > 0 || s.set.Crown == 0 {
			return out
		}
		for i := range s.all {
			s.all[i].tried = false
		}
	}
	return nil
}

// turns are how much further a crown is turned to the grain, degrees, until it finds room.
var turns = []float64{0, 45, 90}

// near returns a member's part about the plate. What is cut off lies so far from the plate that no leg minds the cut.
func (s *site) near(ring geom.Ring) geom.Ring {
	b := s.box.Grow(s.set.Edge + s.set.Crown + 1)
	for _, h := range []geom.Half{geom.After(b.Min.X), geom.Before(b.Max.X), {N: geom.Pt{Y: 1}, D: b.Max.Y}, {N: geom.Pt{Y: -1}, D: -b.Min.Y}} {
		ring = ring.Within(h)
	}
	return ring
}

// walk goes along a chain in steps, counted from where it is nearest to the centre, and adds the places that lie in the box to out.
func walk(out []place, chain []geom.Pt, centre geom.Pt, box geom.Box) []place {
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
		if !box.Meets(geom.NewBox(chain[i-1], chain[i])) {
			k = max(k, int(math.Floor((sum+l)/step))+1)
		}
		for ; float64(k)*step <= sum+l; k++ {
			if p := chain[i-1].Along(u, float64(float64(k)*step)-sum); box.Holds(p) {
				out = append(out, place{s: float64(k) * step, mid: p, grain: u})
			}
		}
		sum += l
	}
	return out
}
