package takeoff

import (
	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// area is an area in mm², below zero where it is taken off, and where it lies.
type area struct {
	mm2 float64
	at  geom.Pt
}

// coated lists what is varnished: both faces and all edges of every part, less what is glued, which lies on two
// surfaces each time, and less the caps' outer edges where a skin is glued on.
func coated(r *rib.Rib, doc *ribfile.Doc) []area {
	var out []area
	add := func(outline geom.Ring, faceMM2, girth, thickness float64, count int, middle geom.Pt) {
		n := float64(count)
		out = append(out, area{float64(2 * n * faceMM2), middle}, area{float64(n * girth * thickness), outline.Middle()})
	}
	for _, c := range r.Caps {
		add(c.Outline, c.Outline.Area(), c.Outline.Girth(), r.CapWidth, 1, c.Outline.Centroid())
	}
	for _, b := range r.Blocks {
		add(b.Outline, b.AreaMM2, b.Outline.Girth(), r.CapWidth, 1, b.Outline.Centroid())
	}
	for _, s := range r.Sticks {
		add(s.Outline, s.Outline.Area(), s.Outline.Girth(), r.StickWidth, 1, s.Outline.Centroid())
	}
	for _, g := range r.Gussets {
		add(g.Outline.Flatten(geom.Flat), g.AreaMM2, g.Outline.Length(), r.GussetThickness, g.Faces, g.Outline.Centroid())
		for _, k := range SortedKeys(g.GlueMM2) {
			out = append(out, area{-float64(2 * g.GlueMM2[k] * float64(g.Faces)), g.Outline.Centroid()})
		}
	}
	if w := r.Web; len(w.Outline) > 0 {
		n, at, rims := float64(w.Faces()), webCentre(w), w.Outline.Girth()
		for _, h := range w.Holes {
			rims += h.Ring.Girth()
		}
		add(w.Outline, w.AreaMM2, rims, w.Thickness, w.Faces(), at)
		out = append(out, area{-float64(2 * n * Sum(w.GlueMM2)), at})
	}
	for _, j := range r.Joints {
		for _, k := range SortedKeys(j.ButtMM2) {
			out = append(out, area{-2 * j.ButtMM2[k], j.At})
		}
	}
	at, _ := capsMeet(r)
	out = append(out, area{-2 * r.CapsMeetMM2, at})
	return append(out, skinned(r, doc)...)
}

// skinned lists what of the caps' outer edges a skin covers, as areas taken off.
func skinned(r *rib.Rib, doc *ribfile.Doc) []area {
	var out []area
	for _, c := range r.Caps {
		side := map[rib.Side]string{rib.Upper: "upper", rib.Lower: "lower"}[c.Side]
		for i := 1; i < len(c.Edge); i++ {
			p, q := c.Edge[i-1], c.Edge[i]
			m := p.Lerp(q, 0.5)
			for _, s := range doc.Section.Skins {
				if (s.Side == "both" || s.Side == side) && m.X >= s.From && m.X <= s.To {
					out = append(out, area{-float64(p.Dist(q) * r.CapWidth), m})
					break
				}
			}
		}
	}
	return out
}
