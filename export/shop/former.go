package shop

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/bend"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// Former returns the forms on which the cap strips are bent, full size on one sheet: for each cap the inner edge of
// the strip, from the leading edge to where it bends dry, bent further by what the strip springs back.
func Former(r *rib.Rib, doc *ribfile.Doc, t takeoff.TakeOff) export.Drawing {
	return formerTemplate(r, doc, t).sheet()
}

// FormerPages returns them over pages.
func FormerPages(r *rib.Rib, doc *ribfile.Doc, t takeoff.TakeOff, p Page) export.Drawing {
	return formerTemplate(r, doc, t).pages(p)
}

// NeedsFormer reports whether a cap of the rib does not simply bend dry.
func NeedsFormer(t takeoff.TakeOff) bool {
	for _, b := range t.Bends {
		if b.Tier != bend.Dry {
			return true
		}
	}
	return false
}

func formerTemplate(r *rib.Rib, doc *ribfile.Doc, t takeoff.TakeOff) template {
	share := doc.Bend.SpringBack
	spring := "No spring-back is allowed for (spring_back = 0 under [bend])."
	if share > 0 {
		spring = fmt.Sprintf("Spring-back: the form's radius is %s %% less than the rib's (spring_back under [bend]).", decimal(100*share, 0))
	}
	return template{name: "Former for the cap strips", doc: doc, facts: []string{spring},
		words: templateCautions("Glue the sheet to a board at least "+doc.Length(2*r.CapWidth)+" thick or to several, saw along the thick line and bore the holes for clamps.",
			"Bend a trial strip first, let it dry on the form, and hold it against the jig drawing: mend spring_back under [bend] by what you find."),
		blocks: onceDrawn(func() []block {
			var out []block
			for i, s := range takeoff.Strips(r) {
				if t.Bends[i].Tier != bend.Dry {
					lower := r.Caps[i].Side == rib.Lower
					if f := newForm(s, lower, doc.Bend); len(f.edge) > 0 {
						out = append(out, f.draw(doc, t.Bends[i]))
					}
				}
			}
			return out
		})}
}

// onceDrawn is for blocks that are the same on any page.
func onceDrawn(draw func() []block) func(float64) []block {
	once := sync.OnceValue(draw)
	return func(float64) []block { return once() }
}

// Sizes of a form, mm.
const (
	formStraight = 40.0 // the straight piece behind the bend
	formAhead    = 25.0 // and the one beyond the leading edge
	formFoot     = 15.0 // the board's depth below the lowest place of the edge
	formHigh     = 75.0 // the least height of the board
	formShare    = 0.4  // of the cap's length, if it bends dry nowhere
	formPoints   = 3    // the fewest of an edge that bends; a cap that wants a form only at its very end has no more
)

// form is a form for one strip, laid so that the straight piece behind the bend runs along x with the board below it.
// An upper cap's nose points left, a lower cap's right: nothing is mirrored.
type form struct {
	strip    bend.Strip
	edge     []geom.Pt // what the strip lies on, aft to nose
	normal   []geom.Pt // outward, at each of its points
	stations []float64 // of the rib, there
}

// newForm bends the inner edge of a strip. Where the contour is rounder than the strip is deep there is no inner
// edge; the form begins behind that.
func newForm(s bend.Strip, lower bool, rules ribfile.Bend) form {
	f := form{strip: s}
	way := 1.0 // outward lies to the left of the way from nose to tail
	if lower {
		way = -1
	}
	least, _ := s.Behind(1.05 * s.Depth)
	most, _ := s.Behind(float64((rules.Dry + 0.5) * s.Depth))
	length := 0.0
	for i := 1; i < len(s.Edge); i++ {
		length += s.Edge[i].Dist(s.Edge[i-1])
	}
	most = math.Min(most, float64(formShare*length))
	arc, tangent := 0.0, bend.Tangents(s.Edge)
	for i, p := range s.Edge {
		if i > 0 {
			arc += p.Dist(s.Edge[i-1])
		}
		if arc >= least {
			f.edge = append(f.edge, p.Along(tangent[i].Left(), float64(-way*s.Depth)))
			f.stations = append(f.stations, p.X)
		}
		if arc > most && len(f.edge) >= formPoints {
			break
		}
	}
	slices.Reverse(f.edge)
	slices.Reverse(f.stations)
	if len(f.edge) < formPoints {
		return form{strip: s}
	}
	f.edge = bend.Overbend(f.edge, rules.SpringBack)
	turn := -bend.Tangents(f.edge)[0].Angle()
	if !lower {
		turn += math.Pi
	}
	f.edge = geom.Turn(geom.Pt{}, turn).Pts(f.edge)
	for _, u := range bend.Tangents(f.edge) { // the way goes from tail to nose now
		f.normal = append(f.normal, u.Left().Mul(-way))
	}
	return f
}

// ends returns the ends of the straight pieces, behind the bend and beyond the leading edge.
func (f form) ends() (aft, nose geom.Pt) {
	u, n := bend.Tangents(f.edge), len(f.edge)-1
	return f.edge[0].Along(u[0], -formStraight), f.edge[n].Along(u[n], formAhead)
}

// board returns the board's outline to saw: the edge with its straight pieces, and the foot below.
func (f form) board() geom.Ring {
	aft, nose := f.ends()
	r := append(append(geom.Ring{aft}, f.edge...), nose)
	box := r.Box()
	foot := math.Min(box.Min.Y-formFoot, box.Max.Y-formHigh)
	r = append(r, geom.Pt{X: nose.X, Y: foot}, geom.Pt{X: aft.X, Y: foot})
	if r.Area() < 0 {
		r = r.Reverse()
	}
	return r
}

// face returns the strip's outer face as it lies on the form, with the straight pieces.
func (f form) face() []geom.Pt {
	aft, nose := f.ends()
	n := len(f.edge) - 1
	out := []geom.Pt{aft.Along(f.normal[0], f.strip.Depth)}
	for i, p := range f.edge {
		out = append(out, p.Along(f.normal[i], f.strip.Depth))
	}
	return append(out, nose.Along(f.normal[n], f.strip.Depth))
}
