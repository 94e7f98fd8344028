package shop

import (
	"iter"
	"math"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/jig"
)

// Layers of the board that the rib is built on.
const (
	layerJigBlock = "jig-block"
	layerRelief   = "jig-relief" // holes that keep squeeze-out off the board; dashed, since they lie under the wood
	layerBoard    = "jig-board"
)

// boardLayers are the layers of the board; its lines are narrow, so that the wood's stay foremost.
func boardLayers() []export.Layer {
	thin := export.Pen{Width: narrow}
	return []export.Layer{{ID: layerRelief, Pen: export.Pen{Width: narrow, Dash: dashed}}, {ID: layerJigBlock, Pen: thin}, {ID: layerBoard, Pen: thin}}
}

// jigBlocks draws the board's blocks and relief holes, where the plan has any. A block is told from the
// wood by a diagonal, the sign for a flat face in ISO 128-3, and by its narrow line.
func (f *field) jigBlocks(plan jig.Jig) {
	for _, h := range plan.Holes {
		p := geom.Circle(h.At, h.Diameter/2)
		f.part(layerRelief, "relief-"+h.Joint, p)
		f.places.lines.add(p, true)
	}
	for _, b := range plan.Blocks {
		f.solid(layerJigBlock, "jig-"+b.ID, b.Outline.Path())
		f.line(layerJigBlock, b.Outline[0], b.Outline[2])
		f.places.lines.addLine(b.Outline[0], b.Outline[2], true)
	}
	f.board, f.blocks = plan.Board, plan.Blocks
}

// blockNumbers letters a block's number into it, beside its diagonal, or near it where it has no room.
func (f *field) blockNumbers() {
	for _, b := range f.blocks {
		a, c := b.Outline[0], b.Outline[2]
		turns := [2]float64{readable(b.Angle), readable(b.Angle + math.Pi/2)}
		inside := func(high, cost float64) iter.Seq[candidate] {
			return func(yield func(candidate) bool) {
				for _, corner := range [2]geom.Pt{b.Outline[1], b.Outline[3]} {
					for k := range 8 { // from a third of the way to the corner on
						at := a.Lerp(c, 0.5).Lerp(corner, 0.3+float64(k)/25)
						for _, turn := range turns {
							if !yield(candidate{texts: []export.Text{centred(b.ID, at, high, turn, false)}, tight: true, cost: cost}) {
								return
							}
						}
					}
				}
			}
		}
		f.name(layerJigBlock, either(inside(medium, 0), inside(small, 1), f.places.around(single(b.ID, medium, false), 0, []geom.Pt{a.Lerp(c, 0.5)}, up, 8, 10)))
	}
}

// boardMarks draws the corners of the board, whose size stands with the line types. They stand on the roll alone: far from the rib, on
// pages they would cost sheets of paper with nothing else on them.
func (f *field) boardMarks() {
	const arm = 8.0
	b := f.board
	if b.Empty() {
		return
	}
	for _, c := range [4]geom.Pt{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}} {
		d := geom.Pt{X: arm, Y: arm}
		if c.X == b.Max.X {
			d.X = -arm
		}
		if c.Y == b.Max.Y {
			d.Y = -arm
		}
		for _, to := range [2]geom.Pt{{X: d.X}, {Y: d.Y}} {
			for _, l := range f.places.gaps(c, c.Add(to)) {
				f.line(layerBoard, l[0], l[1])
			}
		}
	}
}
