// Package wing makes the ribs of a whole wing out of one rib file: where each stands, how the spars pass it, which ribs
// are one and the same, and the section between the root's and the tip's.
//
// The wing's axes belong to the rib at the root: origin at its leading edge, x aft along its chord line, y up and square
// to it, span stations from the root to the tip. All lengths are millimetres, angles radians. Ribs stand in planes square
// to the span, and a rib's place is that of its middle, half its width from either face.
//
// The wing is ruled: straight lines from the root to the tip carry its leading edge, its trailing edge and every point of
// its sections, as straight spars and a straight leading edge do. So the chord grows in proportion to the span station,
// and what a point of the tip weighs at a rib between is the tip's part of that rib's chord (Kind.Share): with taper
// that is less than the part of the span. The spars' faces are planes, square to the root's chord line in side view;
// washout leans their openings in the turned ribs. Dihedral and the root's own incidence are no matter of the ribs.
//
// The package lays out no rib (geom/rib does) and draws nothing. A Plan is made once and does not change.
package wing

import (
	"cmp"
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// Plan is a wing: its kinds of rib, root to tip. A rib file without [wing] gives one kind, without a name and with the
// file's own Doc.
type Plan struct {
	Kinds    []Kind
	Spars    []SparLine
	SemiSpan float64 // 0 where the file has no [wing]
	Wings    int     // 2: left and right

	*layout
	sections *sections
}

// SparLine is a spar's centre plane.
type SparLine struct {
	Name      string
	Root, Tip float64 // x of the plane at y = 0, in the wing's axes
	Tilt      float64 // radians that it leans aft at the top, at the root
	Sweep     float64 // radians against the span, seen along its faces; positive: aft at the tip
}

// Kind is a rib that is laid out and drawn once, and made as often as it has places.
type Kind struct {
	Name   string       // the name that the builder gave all its ribs, or "R3" after the first of them; empty where all ribs are one kind
	Also   []string     // what else its ribs are called: their numbers, and names that the builder gave them
	Doc    *ribfile.Doc // the file as it holds for this rib, with its count
	Kind   string       // "full", …
	Places []Place      // root to tip, left before right; none where the file has no [wing]
	Share  float64      // what the tip's section weighs in this rib's, 0 to 1

	index int
	own   bool // the section is this rib's alone
}

// Hand is the side of the aircraft, seen from the pilot's seat.
type Hand string

// The hands.
const (
	Left  Hand = "left"
	Right Hand = "right"
)

// Place is where one rib stands.
type Place struct {
	Rib       string // "R5": the rib's number from the root
	Called    string // the name that the builder gave it; may be empty
	Hand      Hand
	Span      float64 // from the root
	Nose      geom.Pt // the leading edge of its chord line in the wing's axes
	Incidence float64 // against the root's chord line; negative: nose down
}

// Mark is what is written on the rib that stands here: "R5 left".
func (p Place) Mark() string { return p.Rib + " " + string(p.Hand) }

// InWing turns a point of the rib's own axes into the wing's.
func (p Place) InWing(q geom.Pt) geom.Pt {
	s, c := math.Sincos(p.Incidence)
	// The rib's x axis runs aft: nose up, it points down.
	return geom.Pt{X: p.Nose.X + float64(q.X*c) + float64(q.Y*s), Y: p.Nose.Y - float64(q.X*s) + float64(q.Y*c)}
}

// InRib turns a point of the wing's axes into the rib's own.
func (p Place) InRib(q geom.Pt) geom.Pt {
	s, c := math.Sincos(p.Incidence)
	d := q.Sub(p.Nose)
	return geom.Pt{X: float64(d.X*c) - float64(d.Y*s), Y: float64(d.X*s) + float64(d.Y*c)}
}

// Stand is a rib in its place.
type Stand struct {
	Place
	Kind  Kind
	Entry int // which of the plan's kinds that is
}

// Stands returns every rib of the wing, root to tip, the left one before the right one.
func (p Plan) Stands() []Stand {
	var out []Stand
	for i, k := range p.Kinds {
		for _, at := range k.Places {
			out = append(out, Stand{at, k, i})
		}
	}
	slices.SortStableFunc(out, func(a, b Stand) int { return cmp.Compare(a.Span, b.Span) })
	return out
}

// Chords says how long the chord is: "chord 1400 mm", or "chord 1400 mm at the root, 900 mm at the tip".
func (p Plan) Chords() string {
	root, tip := p.doc.Length(p.doc.Rib.Chord), p.doc.Length(p.wing.TipChord)
	if tip == root {
		return "chord " + root
	}
	return "chord " + root + " at the root, " + tip + " at the tip"
}

// Of plans the ribs of a rib file that Read found no error in. The findings are what is wrong with single ribs, with
// their places in the file.
func Of(doc *ribfile.Doc) (Plan, []finding.Finding) {
	if doc.Wing == nil {
		return Plan{Kinds: []Kind{{Doc: doc, Kind: "full"}}}, nil
	}
	l := &layout{doc: doc, wing: doc.Wing}
	if doc.Wing.TipGiven {
		l.tip, l.found = doc.Tip()
	}
	l.blends = l.blend()
	l.tipPlace = l.place(1)
	for i := range doc.Spars {
		l.spars = append(l.spars, l.sparLine(i))
	}
	l.number()
	l.group()
	p := Plan{Kinds: l.kinds, Spars: l.spars, SemiSpan: doc.Wing.SemiSpan, Wings: doc.Wing.Wings, layout: l, sections: &sections{}}
	return p, l.found
}
