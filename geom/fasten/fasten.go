// Package fasten places the staples or nails that clamp a rib's plates while the glue sets: on each plate, in every
// member under it, the legs clear of edges, sawn ends, gaps and the pilot hole.
//
// Lengths are millimetres in rib axes, masses g. The pattern of the second face is given as seen through the rib from
// the first, and is the same but where legs from both faces would meet in the wood. Fasteners clamp; nothing
// here, and nothing above, counts them as strength.
package fasten

import (
	"slices"

	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// Fastener is a staple or a nail.
type Fastener struct {
	Gusset int    // index in the rib's Gussets
	Face   int    // 0 or 1
	Member string // that its legs stand in
	At     geom.Pt
	Legs   []geom.Pt // a staple's two, a nail's one
}

// Pattern is where the fasteners of a rib stand: plate by plate, the first face before the second.
type Pattern struct {
	Spec ribfile.Fastener
	All  []Fastener
	Bare []Bare
}

// Bare is a member under a plate in which no fastener finds room.
type Bare struct {
	Gusset, Face int
	Member       string
}

// Of places the fasteners of a rib.
func Of(r *rib.Rib, doc *ribfile.Doc) Pattern {
	p := Pattern{Spec: doc.Fastener}
	if p.Spec.Kind == "none" {
		return p
	}
	members := membersOf(r)
	for g, plate := range r.Gussets {
		if len(plate.Outline.Segs) == 0 {
			continue
		}
		s := newSite(plate, doc)
		for n, face := range plate.On() {
			for _, m := range members {
				if plate.GlueMM2[m.id] == 0 {
					continue
				}
				found := p.in(g, 0, m.id)
				if n == 0 {
					found = s.place(m, nil)
				} else if Meet(doc, m.width) {
					found = s.place(m, legs(found))
				}
				for _, f := range found {
					f.Gusset, f.Face, f.Member = g, face, m.id
					p.All = append(p.All, f)
				}
				if len(found) == 0 {
					p.Bare = append(p.Bare, Bare{g, face, m.id})
				}
			}
		}
	}
	return p
}

// in returns the fasteners of one member under a plate, from one face.
func (p Pattern) in(gusset, face int, member string) []Fastener {
	var out []Fastener
	for _, f := range p.All {
		if f.Gusset == gusset && f.Face == face && f.Member == member {
			out = append(out, f)
		}
	}
	return out
}

func legs(fs []Fastener) []geom.Pt {
	var out []geom.Pt
	for _, f := range fs {
		out = append(out, f.Legs...)
	}
	return out
}

// Count returns how many fasteners a plate has on a face.
func (p Pattern) Count(gusset, face int) int {
	n := 0
	for _, f := range p.All {
		if f.Gusset == gusset && f.Face == face {
			n++
		}
	}
	return n
}

// Deep is how far a leg goes into the wood.
func Deep(doc *ribfile.Doc) float64 { return doc.Fastener.Leg - doc.Gusset.Thickness }

// Meet reports whether legs from both faces reach each other in wood of the width given.
func Meet(doc *ribfile.Doc, width float64) bool { return 2*Deep(doc) > width }

// member is a piece of wood that fasteners may stand in.
type member struct {
	id    string
	ring  geom.Ring
	ends  [][2]geom.Pt // sawn ends
	spine []geom.Pt    // along the grain, through its middle; empty of a block, whose grain runs along x
	half  float64      // from the spine to its sides
	width float64      // across the rib
	lower bool         // of the lower cap: crowns lean the other way
}

func membersOf(r *rib.Rib) []member {
	var out []member
	for _, c := range r.Caps {
		m := member{id: c.ID, ring: c.Outline, spine: capSpine(c, r.CapDepth/2), half: r.CapDepth / 2, width: r.CapWidth, lower: c.Side == rib.Lower}
		m.ends = acrossGrain(m.ring, m.spine)
		out = append(out, m)
	}
	for _, k := range r.Blocks {
		out = append(out, member{id: k.ID, ring: k.Outline, ends: acrossGrain(k.Outline, nil), width: r.CapWidth})
	}
	for _, s := range r.Sticks {
		if len(s.Outline) == 0 {
			continue
		}
		m := member{id: s.ID, ring: s.Outline, spine: stickSpine(s), half: r.StickDepth / 2, width: r.StickWidth}
		for _, e := range s.Ends {
			for _, c := range e.Cuts {
				m.ends = append(m.ends, [2]geom.Pt{c.A, c.B})
			}
		}
		out = append(out, m)
	}
	return out
}

// stickSpine returns a stick's centre line over its whole length.
func stickSpine(s rib.Stick) []geom.Pt {
	u := s.Axis[1].Sub(s.Axis[0]).Unit()
	var along []float64
	for _, p := range s.Outline {
		along = append(along, p.Sub(s.Axis[0]).Dot(u))
	}
	return []geom.Pt{s.Axis[0].Along(u, slices.Min(along)), s.Axis[0].Along(u, slices.Max(along))}
}

// capSpine returns a cap's centre line: its outer edge, moved inward along the normals.
func capSpine(c rib.Cap, in float64) []geom.Pt {
	var out []geom.Pt
	n := len(c.Edge)
	for i, p := range c.Edge {
		across := c.Edge[min(i+1, n-1)].Sub(c.Edge[max(i-1, 0)]).Unit().Left()
		if c.Side == rib.Upper { // nose to tail the wood lies to the right of the upper edge
			across = across.Mul(-1)
		}
		out = append(out, p.Along(across, in))
	}
	return out
}

// steep is the sine of the angle to the grain from which on an edge of a cap or a block counts as a sawn end: 45°
// (common practice, no source).
const steep = 0.7071

// acrossGrain returns the edges of a ring that cross the grain, which runs along the spine, or along x where there is none.
func acrossGrain(ring geom.Ring, spine []geom.Pt) [][2]geom.Pt {
	var out [][2]geom.Pt
	gone, at := lengths(spine), 0
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		grain := geom.Pt{X: 1}
		if n := len(spine); n > 1 {
			at = nearest(spine, gone, at, a.Lerp(b, 0.5))
			grain = spine[min(at+1, n-1)].Sub(spine[max(at-1, 0)]).Unit()
		}
		if s := grain.Cross(b.Sub(a).Unit()); s >= steep || s <= -steep {
			out = append(out, [2]geom.Pt{a, b})
		}
	}
	return out
}

// lengths returns the way along a chain to each of its points.
func lengths(chain []geom.Pt) []float64 {
	out := make([]float64, len(chain))
	for i := 1; i < len(chain); i++ {
		out[i] = out[i-1] + chain[i].Dist(chain[i-1])
	}
	return out
}

// nearest returns which point of a chain is nearest to p, of two the first one. gone are the chain's lengths, and at is a guess:
// points are passed over to which the way is shorter than what the nearest one so far is nearer.
func nearest(chain []geom.Pt, gone []float64, at int, p geom.Pt) int {
	best := chain[at].Dist(p)
	for i := 0; i < len(chain); {
		d := chain[i].Dist(p)
		if d < best || d == best && i < at {
			best, at = d, i
		}
		next := gone[i] + d - best - geom.Coincident
		for i++; i < len(chain) && gone[i] < next; i++ {
		}
	}
	return at
}
