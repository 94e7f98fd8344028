package fasten

import "ribwright/geom"

// cross is half the arm, mm, of the cross that stands for a nail, and of the ticks that stand for a staple's legs.
const cross = 0.75

// Marks returns the lines that show the fasteners of a plate on a face, in rib axes: each crown with a tick across either
// leg, or a small cross for a nail.
func (p Pattern) Marks(gusset, face int) [][2]geom.Pt {
	var out [][2]geom.Pt
	for _, f := range p.All {
		if f.Gusset != gusset || f.Face != face {
			continue
		}
		along := geom.Pt{X: cross}
		if len(f.Legs) > 1 {
			along = f.Legs[1].Sub(f.Legs[0]).Unit().Mul(cross)
			out = append(out, [2]geom.Pt{f.Legs[0], f.Legs[1]})
		} else {
			out = append(out, [2]geom.Pt{f.At.Sub(along), f.At.Add(along)})
		}
		across := along.Left()
		for _, leg := range f.Legs {
			out = append(out, [2]geom.Pt{leg.Sub(across), leg.Add(across)})
		}
	}
	return out
}
