// Package jig plans the board on which a rib is built: where its blocks stand, where its relief holes are
// drilled, and how large it is.
//
// Lengths are millimetres in rib axes (x aft from the leading edge, y up). A block is a rectangle. One of its
// long edges, or where that is shorter an end, lies along the edge of the wood that it bears on, at
// the jig's clearance. On a straight edge it bears along its whole length; on a cap that bulges toward it, at one
// point, and its edge lies along the cap's chord there; in a hollow, at its two corners. No block overlaps wood.
//
// # What a block keeps clear of
//
// Wood that it does not bear on, and other blocks: by the clearance. Plates and spar openings: by the jig's room
// where the block stands inside the rib; outside, the cap lies between, and a block may stand at a plate's back.
// Relief holes: altogether, since a block is screwed down.
//
// # Where blocks stand, and how few
//
//  1. Caps. At every joint a block on each side of the cap, as near to the joint as it can stand; a
//     block that is no more than its own length further away than the nearest place serves too, so that one may serve two
//     joints. A block on each side, nearest to the sharpest bend of the cap between the blocks of
//     wood; and one in front of the leading edge, where both caps bend most. Along the outside of a cap, from its end in the tail on, no
//     stretch without a block is longer than the jig's spacing, and over none does the cap turn by more than 45°; so it is inside,
//     between the foremost and the last one. Where the nose
//     or tail block fills the inner side, it serves there.
//  2. All members. A member is laid after those before it: the caps with the nose and tail blocks that hold them apart, then the sticks
//     in cutting order. Its contacts are those with the jig's blocks and those with what was laid before it. They must
//     hold it: no small motion in the plane may be free of them (first-order form closure: the contacts' unit
//     forces and moments span the three degrees of freedom with positive shares), and they must do so with
//     leverage. The measure is the play: how far an end of the member can move in any direction, where every
//     contact gives way by one clearance (but the nose and tail block, which are pressed home between the caps). It must be PlayLimit clearances at most. That form closure is that no motion
//     is free, and that play is then bounded, follow from Farkas' lemma: see Play. A stick that lies so flat that no blocks do
//     that well has the fewest that do it nearly as well as blocks all along it, and a finding says how far it slides.
//  3. Of the arrangements that hold a stick the one with fewest blocks is taken, found by trying all among a few places on
//     either edge, and of equals the one with least play. A block that touches two members counts for both.
//     Where the rib file wants blocks on both sides, each side of a stick that has a place for one has one.
//  4. Last, every block is taken out that can be missed.
//
// Where a full-size block finds no place, one of half the length is tried, then one of half the length and width.
// Where none does, a finding says so. A member whose free edges all lie under plates is held by
// those: see Hold.
//
// # Relief holes and board
//
// Under every joint a hole keeps squeeze-out from bonding the rib to the board. Its centre is where the joint's glue line is: on the
// inner edge of the cap, on the normal through the panel point, where sticks and blocks end. The board is the box
// around rib and blocks, wider by the margin.
//
// The package draws nothing and opens no files.
package jig

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// PlayLimit is how far an end of a member may move, in clearances. A stick between two pairs of blocks near its ends has a play of two,
// one between three blocks of three to four.
const PlayLimit = 5

// Jig is the plan of a board. The zero value is no board.
type Jig struct {
	Blocks []Block // J1, J2 … nose to tail
	Holes  []Hole  // by joint
	Board  geom.Box
	Height float64 // of the blocks, up from the board
	Holds  []Hold  // caps, nose and tail block, sticks
	// Spacers are the loose pieces that hold the posts of a spar apart.
	Spacers []Spacer
}

// Block is one block on the board.
type Block struct {
	ID            string
	Outline       geom.Ring // counter-clockwise
	At            geom.Pt   // the middle of the edge that bears
	Angle         float64   // of that edge, radians
	Length, Width float64   // along that edge, and away from it
	Contacts      []Contact

	face *face   // on which it bears
	s    float64 // where, along it
	body boxed
}

// Members returns the names of what the block holds.
func (b Block) Members() []string {
	var out []string
	for _, c := range b.Contacts {
		if !slices.Contains(out, c.Member) {
			out = append(out, c.Member)
		}
	}
	return out
}

// touches reports whether a member rests against the block.
func (b *Block) touches(member string) bool {
	return slices.ContainsFunc(b.Contacts, func(c Contact) bool { return c.Member == member })
}

// Contact is where a member rests against something.
type Contact struct {
	Member string  // what rests
	At     geom.Pt // on its edge
	Normal geom.Pt // unit, into it
	Tight  bool    // pressed home: it gives way by nothing
	Block  bool    // with a block of the jig
}

// Hole is a relief hole.
type Hole struct {
	Joint    string
	At       geom.Pt
	Diameter float64
}

// Spacer is a loose piece of wood, or of the spar's own stock, that lies between the two posts of a spar while the rib is built, and
// is taken out with it. It lies along the middle half of them.
type Spacer struct {
	Spar          string
	Width, Length float64
}

// Hold says how a member is held.
type Hold struct {
	Member string
	Blocks []string // of the jig that touch it
	Play   float64  // in clearances; 0 where nothing holds it
	Held   bool     // with PlayLimit at most
	// Covered is true of a member whose free edges lie under plates, so that no block can stand there: it is laid
	// against its neighbours by hand, and its plates hold it.
	Covered bool
}

// Plan plans the board of a rib. Where the file wants no blocks it is empty. Findings carry keys, and are warnings: a
// rib can be built, and drawn, without any block.
func Plan(r *rib.Rib, doc *ribfile.Doc) (Jig, []finding.Finding) {
	if doc.Jig.Blocks == "none" || len(r.Contour.Inner) == 0 {
		return Jig{}, nil
	}
	p := newPlanner(r, doc)
	p.checkHeight()
	p.plan()
	return p.finish(), together(p.found)
}

// few is how many findings of one kind are told one by one; more are told together.
const few = 3

// together makes one finding of many of one code: they all have the same remedy.
func together(fs []finding.Finding) []finding.Finding {
	var out []finding.Finding
	for _, f := range fs {
		same := slices.DeleteFunc(slices.Clone(fs), func(o finding.Finding) bool { return o.Code != f.Code })
		if len(same) <= few {
			out = append(out, f)
			continue
		}
		if slices.ContainsFunc(out, func(o finding.Finding) bool { return o.Code == f.Code }) {
			continue
		}
		var parts []string
		var at []geom.Pt
		for _, o := range same {
			if at = append(at, o.At...); !slices.Contains(parts, o.Part) {
				parts = append(parts, o.Part)
			}
		}
		f.Part, f.At = strings.Join(parts, ", "), at
		f.Message += fmt.Sprintf(" It is the same with %d parts: %s.", len(parts), f.Part)
		out = append(out, f)
	}
	return out
}

// plan places the blocks.
func (p *planner) plan() {
	p.caps()
	p.wood()
	p.sticks()
	p.thin()
}

// planner carries a board while it is planned.
type planner struct {
	r     *rib.Rib
	doc   *ribfile.Doc
	set   ribfile.Jig
	room  *room
	outer face    // the contour, from the tail over the upper side and the nose
	inner face    // the inner edge of the caps, likewise
	nose  float64 // where the inner edge comes nearest to the leading edge
	// blocks are those taken so far.
	blocks   []Block
	needs    []*need
	searched map[search]found
	members  []member
	found    []finding.Finding
}

func newPlanner(r *rib.Rib, doc *ribfile.Doc) *planner {
	p := &planner{r: r, doc: doc, set: doc.Jig, searched: map[search]found{}}
	upper := slices.Clone(r.Contour.Upper)
	slices.Reverse(upper)
	p.outer = newFace(append(upper, r.Contour.Lower[1:]...), false, bothCaps...)
	p.inner = newFace(innerChain(r.Contour.Inner), true)
	p.nose = p.inner.nearest(r.Contour.Upper[0])
	p.room = newRoom(r, p.set, p.holes())
	p.members = members(r)
	for i := range p.members {
		if m := &p.members[i]; m.wood {
			m.covered = p.covered(m)
		}
	}
	p.seatCaps()
	for i := range p.members {
		p.members[i].limit = PlayLimit
		if m := &p.members[i]; !m.wood && i > 1 {
			m.limit = m.playLimit()
		}
	}
	return p
}

// holes returns the relief holes, one under each joint.
func (p *planner) holes() []Hole {
	if p.set.Relief == 0 {
		return nil
	}
	var out []Hole
	for _, j := range p.r.Joints {
		out = append(out, Hole{j.ID, j.At.Along(j.Normal, p.r.CapDepth/2), p.set.Relief})
	}
	return out
}

// finish numbers the blocks and measures the board.
func (p *planner) finish() Jig {
	slices.SortStableFunc(p.blocks, func(a, b Block) int {
		return cmp.Or(cmp.Compare(a.At.X, b.At.X), cmp.Compare(b.At.Y, a.At.Y))
	})
	j := Jig{Blocks: slices.Clone(p.blocks), Holes: p.holes(), Height: p.set.BlockHeight}
	box := p.r.Contour.Outline.Box()
	for i := range j.Blocks {
		j.Blocks[i].ID = fmt.Sprintf("J%d", i+1)
		j.Blocks[i].face = nil // it would keep the planner
		box = box.Union(j.Blocks[i].Outline.Box())
	}
	for _, h := range j.Holes {
		box = box.Union(geom.NewBox(h.At).Grow(float64(h.Diameter / 2)))
	}
	j.Board = box.Grow(p.set.Margin)
	for _, m := range p.members {
		if m.spacer.Width > 0 && m.spacer.first {
			j.Spacers = append(j.Spacers, m.spacer.Spacer)
		}
		h := Hold{Member: m.id, Covered: m.covered}
		for i := range j.Blocks {
			if b := &j.Blocks[i]; b.touches(m.id) {
				h.Blocks = append(h.Blocks, b.ID)
			}
		}
		if play, ok := Play(m.ends, p.contactsOf(m)); ok && !m.covered {
			h.Play, h.Held = play, play <= PlayLimit
		}
		j.Holds = append(j.Holds, h)
	}
	return j
}

func (p *planner) find(f finding.Finding) { p.found = append(p.found, f) }

func (p *planner) len(mm float64) string { return p.doc.Length(mm) }

// checkHeight finds blocks that reach up to the plates.
func (p *planner) checkHeight() {
	thick, what := p.r.CapWidth, "The rib is"
	if d := p.r.StickWidth - thick; len(p.r.Sticks) > 0 && d < -geom.Flat {
		thick, what = p.r.StickWidth, "The sticks are"
	}
	if p.set.BlockHeight < thick-geom.Coincident {
		return
	}
	p.find(finding.Finding{Severity: finding.Warning, Code: "jig-block-high", Key: "jig.block_height",
		Message: fmt.Sprintf("The jig's blocks stand %s high. %s %s thick, so that a plate laid on it may meet the blocks.",
			p.len(p.set.BlockHeight), what, p.len(thick)),
		Fix: "Make the blocks lower than that: three quarters of it is usual.",
		Got: p.set.BlockHeight, Limit: thick, Unit: "mm"})
}
