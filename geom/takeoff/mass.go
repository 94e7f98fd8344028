package takeoff

import (
	"cmp"

	"ribwright/geom"
	"ribwright/geom/fasten"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// Mass is the mass of one rib's parts, g, and where it balances.
type Mass struct {
	CapsG, SticksG, BlocksG, GussetsG, AdhesiveG float64
	FastenersG                                   float64 // those that stay in the rib
	VarnishG                                     float64
	TotalG                                       float64

	At      geom.Pt // the rib's centre of gravity
	Bare    geom.Pt // without varnish
	Parts   []Part  // of wood
	ByKind  []Kind  // caps, sticks, blocks, plates, adhesive, fasteners, varnish
	CoatMM2 float64 // what is varnished
}

// Part is a piece of wood, the plates of one joint, or the web.
type Part struct {
	ID, Kind, Material string
	VolumeMM3          float64 // of one
	Density            float64 // kg/m³
	Count              int     // in a rib: a plate or a web on each face
	MassG              float64 // of one
	At                 geom.Pt // its centre of gravity
}

// Kind is all parts of a kind.
type Kind struct {
	Name      string // as ribfile.Weighable has it, and "adhesive", "fasteners", "varnish"
	VolumeMM3 float64
	MassG     float64
	At        geom.Pt
}

// The kinds.
const (
	kindCaps, kindSticks, kindBlocks, kindPlates = "caps", "sticks", "blocks", "plates"
	kindAdhesive, kindFasteners, kindVarnish     = "adhesive", "fasteners", "varnish"
)

var kindNames = []string{kindCaps, kindSticks, kindBlocks, kindPlates, kindAdhesive, kindFasteners, kindVarnish}

// mass weighs a rib: of every part area × thickness × density. A block is as wide as the caps.
func mass(r *rib.Rib, doc *ribfile.Doc, t TakeOff) Mass {
	m := Mass{Parts: parts(r, doc)}
	kinds := map[string]*weighed{}
	for _, name := range kindNames {
		kinds[name] = &weighed{}
	}
	for _, p := range m.Parts {
		kinds[p.Kind].add(float64(float64(p.Count)*p.MassG), p.At)
		kinds[p.Kind].volume += float64(float64(p.Count) * p.VolumeMM3)
	}
	for _, s := range t.Spots {
		kinds[kindAdhesive].add(s.Adhesive.InJointG, spotAt(r, s.ID))
	}
	kinds[kindAdhesive].volume = kinds[kindAdhesive].g / (doc.Adhesive.Density * 1e-3)
	if fasten.Stays(doc.Fastener) {
		for _, f := range t.Fasteners.All {
			kinds[kindFasteners].add(fasten.MassG(doc.Fastener), f.At)
		}
	}
	if doc.Varnish.Coats > 0 {
		for _, c := range coated(r, doc) {
			m.CoatMM2 += c.mm2
			kinds[kindVarnish].add(float64(c.mm2*1e-6*doc.Varnish.RateGM2*float64(doc.Varnish.Coats)), c.at)
		}
	}
	var bare weighed
	for _, name := range kindNames {
		k := kinds[name]
		m.ByKind = append(m.ByKind, Kind{name, k.volume, k.g, k.centre()})
		if name == kindVarnish {
			m.Bare = bare.centre()
		}
		bare.add(k.g, k.centre())
	}
	m.At, m.TotalG = bare.centre(), bare.g
	m.CapsG, m.SticksG, m.BlocksG, m.GussetsG = kinds[kindCaps].g, kinds[kindSticks].g, kinds[kindBlocks].g, kinds[kindPlates].g
	m.AdhesiveG, m.FastenersG, m.VarnishG = kinds[kindAdhesive].g, kinds[kindFasteners].g, kinds[kindVarnish].g
	return m
}

// weighed sums masses, or areas, and their moments.
type weighed struct {
	g, volume float64
	moment    geom.Pt
}

func (w *weighed) add(g float64, at geom.Pt) {
	w.g, w.moment = w.g+g, w.moment.Along(at, g)
}

func (w *weighed) centre() geom.Pt {
	if w.g == 0 {
		return geom.Pt{}
	}
	return geom.Pt{X: w.moment.X / w.g, Y: w.moment.Y / w.g}
}

// parts lists the pieces of wood and plywood.
func parts(r *rib.Rib, doc *ribfile.Doc) []Part {
	var out []Part
	add := func(id, kind, material string, volume float64, count int, at geom.Pt) {
		d := Density(material, doc.Mass)
		out = append(out, Part{id, kind, material, volume, d, count, float64(volume * d * 1e-6), at})
	}
	for _, c := range r.Caps {
		add(c.ID, kindCaps, doc.Cap.Material, c.Outline.Area()*r.CapWidth, 1, c.Outline.Centroid())
	}
	for _, b := range r.Blocks {
		material := doc.Nose.Material
		if b.ID == rib.BlockTail {
			material = doc.Tail.Material
		}
		add(b.ID, kindBlocks, cmp.Or(material, doc.Cap.Material), b.AreaMM2*r.CapWidth, 1, b.Outline.Centroid())
	}
	for _, s := range r.Sticks {
		if len(s.Outline) > 0 {
			add(s.ID, kindSticks, doc.Stick.Material, s.Outline.Area()*r.StickWidth, 1, s.Outline.Centroid())
		}
	}
	for _, g := range r.Gussets {
		if len(g.Outline.Segs) > 0 {
			add(g.ID, kindPlates, doc.Gusset.Material, g.AreaMM2*r.GussetThickness, g.Faces, g.Outline.Centroid())
		}
	}
	if w := r.Web; len(w.Outline) > 0 {
		add(WebID, kindPlates, doc.Web.Material, w.AreaMM2*w.Thickness, w.Faces(), webCentre(w))
	}
	return out
}

// webCentre returns a web's centre of gravity.
func webCentre(w rib.Web) geom.Pt {
	var sum weighed
	sum.add(w.Outline.Area(), w.Outline.Centroid())
	for _, h := range w.Holes { // clockwise: below zero
		sum.add(h.Ring.Area(), h.Ring.Centroid())
	}
	return sum.centre()
}

// spotAt returns where a joint's adhesive lies: at its plate's middle, in the web's, at its panel point, between the strips of
// doubled sticks, or where the caps meet.
func spotAt(r *rib.Rib, id string) geom.Pt {
	if id == WebID {
		return webCentre(r.Web)
	}
	for _, g := range r.Gussets {
		if g.ID == id {
			return g.Outline.Centroid()
		}
	}
	for _, j := range r.Joints {
		if j.ID == id {
			return j.At
		}
	}
	if id == "strips" {
		var w weighed
		for _, s := range r.Sticks {
			w.add(s.PliesMM2, s.Outline.Centroid())
		}
		return w.centre()
	}
	at, _ := capsMeet(r)
	return at
}

// capsMeet returns the middle and the length of the line on which the caps lie on each other.
func capsMeet(r *rib.Rib) (geom.Pt, float64) {
	if len(r.Caps) < 2 {
		return geom.Pt{}, 0
	}
	shared := map[geom.Pt]bool{}
	for _, p := range r.Caps[1].Outline {
		shared[p] = true
	}
	var w weighed
	upper := r.Caps[0].Outline
	for i, p := range upper {
		if q := upper[(i+1)%len(upper)]; shared[p] && shared[q] {
			w.add(p.Dist(q), p.Lerp(q, 0.5))
		}
	}
	return w.centre(), w.g
}
