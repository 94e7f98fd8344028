package rib

import (
	"slices"

	"ribwright/airfoils"
	"ribwright/geom"
)

// Rib is one rib, laid out: every part with its outline in rib axes.
type Rib struct {
	Title string
	Count int // how many of this rib
	// Mirrored is how many of them are built as mirror images, for the right wing: plates and webs of one face lie on the other.
	// These are built last.
	Mirrored int
	// Hands says in words how left and right ribs that are built by this drawing differ; empty where they do not. Where Mirrored is
	// not 0 the first two sentences are about it.
	Hands   []string
	Chord   float64 // mm
	Contour Contour
	Spars   []Spar
	Caps    []Cap   // the upper one first
	Blocks  []Block // nose, tail; either may be absent
	Sticks  []Stick // S1, S2 … in cutting order
	Joints  []Joint // U1, U2 …, then L1, L2 …, nose to tail
	Gussets []Gusset
	Web     Web
	// Thickness across the rib's plane, mm: what stands under a butt joint's length, and behind every outline.
	CapWidth, StickWidth, CapDepth, StickDepth float64
	GussetThickness                            float64
	StickPlies                                 int // strips that make up a stick's depth, side by side in the plane of the rib
	// CapsMeetMM2 is the area in which the two caps are glued to each other at nose and tail.
	CapsMeetMM2 float64
}

// Right reports whether rib n, from 1 in order of building, is one of the mirror images.
func (r *Rib) Right(n int) bool { return n > r.Count-r.Mirrored }

// Covered reports whether any plate or web is on a face: 0 is the near one, 1 the far one.
func (r *Rib) Covered(face int) bool {
	return slices.Contains(r.Web.On(), face) || slices.ContainsFunc(r.Gussets, func(g Gusset) bool { return slices.Contains(g.On(), face) })
}

// Contour is the rib's outer line: the section scaled to the chord, less the skin, cut at the trailing edge.
type Contour struct {
	Outline    geom.Ring // counter-clockwise: tail, over the upper side, nose, back along the lower side
	Upper      []geom.Pt // the same line's upper side, nose to tail
	Lower      []geom.Pt // and its lower side, nose to tail
	Inner      geom.Ring // the inner edge of the caps, counter-clockwise; empty where the caps fill the rib
	AreaMM2    float64
	Length     float64   // girth, mm, without the cut at the tail
	DepthMax   float64   // greatest depth, along y
	DepthMaxAt float64   // its station
	Stations   []float64 // mm: the stations of the table the section came from, or the customary ones
}

// Side is a side of the section, and the cap that lies on it.
type Side = airfoils.Side

// The sides.
const (
	Upper = airfoils.UpperSide
	Lower = airfoils.LowerSide
)

// Spar is a spar's opening and the largest spar that passes through it.
type Spar struct {
	Name                  string
	At, Width, Clearance  float64
	Tilt, Sweep           float64 // radians; see ribfile.Spar
	Fore, Aft             float64 // where the opening's faces cross the chord line; without tilt and sweep At ∓ (Width/2 + Clearance)
	DepthFront, DepthRear float64 // of the largest spar, along its own front and rear face
	BevelTop, BevelBottom float64 // radians; slope of its top and bottom against a line square to its faces, positive where they rise aft
	Opening               geom.Ring
	Top, Bottom           [2]geom.Pt // the largest spar's top and bottom edge, front to rear
}

// Cap is a cap strip.
type Cap struct {
	ID          string // "cap-upper", "cap-lower"
	Side        Side
	From        float64   // station where it begins, on the nose block; 0: at the leading edge
	Edge        []geom.Pt // the contour along it, nose to tail
	Length      float64   // along the contour, mm: what to cut from stock, before trimming
	RadiusMin   float64   // least radius of the contour along the cap
	RadiusMinAt float64   // its station
	Outline     geom.Ring
}

// Block is a solid block between the caps.
type Block struct {
	ID      string // "block-nose", "block-tail"
	Outline geom.Ring
	AreaMM2 float64
}

// Kind is what a stick is.
type Kind string

// The kinds of stick.
const (
	Post     Kind = "post"
	Upright  Kind = "upright"
	Diagonal Kind = "diagonal"
)

// Stick is a post, an upright or a diagonal.
type Stick struct {
	ID        string // "S1"
	Kind      Kind
	From, To  string     // its joints, "U3", "L4"
	Axis      [2]geom.Pt // the panel points its centre line runs between
	LongPoint float64    // extent of the trimmed stick along its axis, mm
	Ends      [2]End     // at From, at To
	Outline   geom.Ring
	PliesMM2  float64 // in which its strips are glued to each other, where it has several
}

// End is one end of a stick.
type End struct {
	// Cuts are the saw cuts that shape the end, across the stick from its right edge to its left edge,
	// seen from From to To.
	Cuts []Cut
	Gap  float64 // largest opening that the straight cuts leave against a curved cap, mm
}

// Cut is one straight saw cut.
type Cut struct {
	Angle   float64 // radians from square, counter-clockwise; equal at both ends: parallel cuts
	A, B    geom.Pt // the cut's edge on the stick
	Against string  // what it meets: "cap-upper", "block-nose", "S4", "spar front" (with clearance, not glued)
}

// Joint is where sticks or blocks meet a cap.
type Joint struct {
	ID      string // "U1"
	Side    Side
	Station float64
	Surface geom.Pt // on the contour, at the station
	Normal  geom.Pt // unit, inward
	At      geom.Pt // the panel point, on the cap's centre line
	Members []string
	ButtMM2 map[string]float64 // contact of each member's end with what it meets, one figure a member
}

// Shape is a plate's shape.
type Shape string

// The shapes of plates.
const (
	Round     Shape = "round"
	Rectangle Shape = "rectangle"
	FullDepth Shape = "full-depth" // from contour to contour, where the rib is too shallow for two plates
	NoPlate   Shape = "none"
)

// Gusset is a plate; the same one is glued on every face.
type Gusset struct {
	ID      string   // "U1"; "U9+L8" where one plate serves two joints
	Joints  []string // of the plate's own joints
	Shape   Shape
	Centre  geom.Pt
	Angle   float64   // of the cap at the joint, radians
	Size    []float64 // round: diameter; others: length along the cap, height
	Outline geom.Path // lines and arcs
	AreaMM2 float64
	Faces   int
	Far     bool // the one face that it is on is the far one
	// MarkDistance is from the plate's centre to the line of the cap's inner edge.
	MarkDistance float64
	Marks        []Mark
	GlueMM2      map[string]float64 // common area with each member, one face
}

// OwnAxes returns the map from the rib's axes to the plate's own on a face: its centre at the origin, x along the cap,
// and the second face the mirror image of the first.
func (g Gusset) OwnAxes(face int) geom.Transform {
	own := geom.Move(g.Centre.Mul(-1)).Then(geom.Turn(geom.Pt{}, -g.Angle))
	if face == 1 {
		own = own.Then(geom.Zoom(-1, 1))
	}
	return own
}

// On lists the faces that the plate is on: 0 is the near one, as the drawing shows the rib, 1 the far one.
func (g Gusset) On() []int {
	switch {
	case g.Far:
		return []int{1}
	case g.Faces == 1:
		return []int{0}
	}
	return []int{0, 1}
}

// Web is one sheet of plywood over a whole face of the rib, with the spars' openings cut out of it; the same one is glued
// on every face that has one. A face with a web has no plates.
type Web struct {
	Outline   geom.Ring // the contour, less the inset; empty: no web
	Holes     []Opening
	Thickness float64
	Near, Far bool               // the faces that it is on
	AreaMM2   float64            // less the openings
	Marks     []Mark             // the sticks' centre lines, and the spars' on the caps
	GlueMM2   map[string]float64 // common area with each member, one face
}

// Opening is a spar's opening in a web, clockwise.
type Opening struct {
	Spar string
	Ring geom.Ring
}

// Mark is a line on a plate or a web that places it: part of the centre cross, the cap's inner edge, a stick's centre line, a
// spar's.
type Mark struct {
	Kind string // "centre", "cap", "stick", "spar"
	A, B geom.Pt
}
