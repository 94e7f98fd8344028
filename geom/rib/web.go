package rib

import (
	"fmt"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// leastRim is what must be left of a web between a spar's opening and its edge, mm, for it to be cut in one piece.
const leastRim = 1

// webFaces returns on how many faces the rib file has a web.
func webFaces(doc *ribfile.Doc) int {
	return map[string]int{"near": 1, "far": 1, "both": 2}[doc.Web.Faces]
}

// On lists the faces that the web is on: 0 is the near one, 1 the far one.
func (w Web) On() []int {
	var out []int
	if w.Near {
		out = append(out, 0)
	}
	if w.Far {
		out = append(out, 1)
	}
	return out
}

// Faces returns how many of them there are in a rib.
func (w Web) Faces() int { return len(w.On()) }

// Region returns the web as it is cut.
func (w Web) Region() geom.Region {
	out := geom.Region{Outer: w.Outline.Path()}
	for _, h := range w.Holes {
		out.Holes = append(out.Holes, h.Ring.Path())
	}
	return out
}

// web lays the sheet over the rib's face: the contour less the inset, and the spars' openings between the caps.
func (b *builder) web() {
	d := b.doc.Web
	if webFaces(b.doc) == 0 {
		return
	}
	w := Web{Outline: b.insetBy(d.Inset).ring, Thickness: d.Thickness, Near: d.Faces != "far", Far: d.Faces != "near", GlueMM2: map[string]float64{}}
	for _, s := range b.Spars {
		if len(s.Opening) > 0 {
			w.Holes = append(w.Holes, Opening{s.Name, s.Opening.Reverse()})
			b.checkRim(w.Outline, s)
		}
	}
	w.AreaMM2 = w.Region().Area()
	for _, k := range b.Caps {
		b.underWeb(&w, k.ID, k.Outline)
	}
	for _, k := range b.Blocks {
		b.underWeb(&w, k.ID, k.Outline)
	}
	for _, s := range b.Sticks {
		b.underWeb(&w, s.ID, s.Outline)
	}
	w.Marks = b.webMarks(w)
	b.Web = w
}

// checkRim finds an opening that the web does not hold all around: where a rib is cut off at the face of an opening
// that has no post, or close behind it.
func (b *builder) checkRim(outline geom.Ring, s Spar) {
	for _, p := range s.Opening {
		if d := geom.Distance(p, outline, true); d < leastRim || !outline.Holds(p) {
			b.find(finding.Finding{Severity: finding.Error, Code: "web-open", Key: "web.faces", Part: "spar " + s.Name, At: []geom.Pt{p},
				Message: fmt.Sprintf("The opening of spar %q runs out of the web's edge: nothing of the web is left beside it.", s.Name),
				Fix:     "Cut the rib off along the spar's face, by its name, or farther from it; or give the web a smaller inset."})
			return
		}
	}
}

// underWeb adds the area that the web and a member have in common, one face.
func (b *builder) underWeb(w *Web, id string, ring geom.Ring) {
	if len(ring) == 0 {
		return
	}
	a := ring.Area() // members lie in the contour, and not in the openings
	if b.doc.Web.Inset > 0 {
		a = geom.CommonArea(ring, w.Outline)
	}
	if a > geom.Coincident {
		w.GlueMM2[id] = a
	}
}

// webMarks returns the lines that show, once the web lies on the rib, what is under it: every stick's centre line, and
// the spars' on either side of their openings.
func (b *builder) webMarks(w Web) []Mark {
	var out []Mark
	for _, s := range b.Sticks {
		if p, q, ok := inside(s.Outline, s.Axis[0], s.Axis[1]); ok {
			if p, q, ok = inside(w.Outline, p, q); ok {
				out = append(out, Mark{"stick", p, q})
			}
		}
	}
	for _, s := range b.Spars {
		if len(s.Opening) == 0 {
			continue
		}
		foot := geom.Pt{X: s.At}
		reach := extent(w.Outline, s.Up())
		for _, l := range w.Outline.Stretches(foot.Along(s.Up(), -reach), foot.Along(s.Up(), reach)) {
			if o := s.Opening.Stretches(l[0], l[1]); len(o) > 0 {
				out = append(out, Mark{"spar", l[0], o[0][0]}, Mark{"spar", o[len(o)-1][1], l[1]})
			}
		}
	}
	return out
}
