package cut

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// A web is cut as one plate with holes in it: the holes first. Most are longer than the sheets that plates are cut from,
// or of other plywood; those lie on no sheet of the layout.

// Apart says why a plate is not nested with the others.
type Apart int

// The reasons.
const (
	Together Apart = iota
	OtherPly       // it is of other plywood than most plates
	TooLarge       // no sheet in stock takes it
)

// websOf returns a rib's webs. Their own axes have x along the chord line and the origin in the middle of their box.
func websOf(entry int, e rib.Entry, shared *ribfile.Doc, main Ply) []Plate {
	w, tool := e.Rib.Web, ToolOf(e.Doc)
	if len(w.Outline) == 0 {
		return nil
	}
	middle := w.Outline.Box().Centre()
	var out []Plate
	for _, l := range laid(w.On(), e.Rib) {
		face := l.face
		p := Plate{ID: e.Part("web") + l.suffix, Entry: entry, Gusset: -1, Face: face, Count: l.count, of: l.of}
		own := geom.Move(middle.Mul(-1))
		if face == 1 {
			own = own.Then(geom.Zoom(-1, 1))
		}
		region := w.Region()
		p.Outline = own.Path(region.Outer)
		for _, h := range region.Holes {
			p.Holes = append(p.Holes, own.Path(h))
		}
		if face == 1 { // the mirror image runs the other way round
			p.Outline = p.Outline.Reverse()
			for i, h := range p.Holes {
				p.Holes[i] = h.Reverse()
			}
		}
		for _, m := range w.Marks {
			p.Marks = append(p.Marks, rib.Mark{Kind: m.Kind, A: own.Pt(m.A), B: own.Pt(m.B)})
		}
		p.Grain = webGrain(e.Doc.Web.Grain)
		p.Swath = grown(p.Outline, tool.Sawn())
		switch {
		case Ply{e.Doc.Web.Thickness, e.Doc.Web.Material} != main:
			p.Apart = OtherPly
		case !slices.ContainsFunc(stock(shared), func(s Stock) bool { return mayTake(s, p, shared) }):
			p.Apart = TooLarge
		}
		out = append(out, p)
	}
	return out
}

// webGrain returns the ways in which a web's face grain may run.
func webGrain(word string) []float64 {
	switch word {
	case "chord":
		return []float64{0}
	case "upright":
		return []float64{math.Pi / 2}
	case "45":
		return []float64{math.Pi / 4, -math.Pi / 4}
	}
	return nil
}

// mayTake reports whether a plate fits into a sheet's box, less the margins, at one of its angles. Whether it fits into
// an odd offcut, the nesting tells.
func mayTake(s Stock, p Plate, doc *ribfile.Doc) bool {
	b, edge := s.Outline.Box(), float64(2*doc.Sheet.Margin)
	return slices.ContainsFunc(p.turns(doc.Sheet.Grain == "width"), func(a float64) bool {
		q := geom.Turn(geom.Pt{}, a).Path(p.Swath).Box()
		return q.W() <= b.W()-edge+geom.Step && q.H() <= b.H()-edge+geom.Step
	})
}

// FindWebs tells of webs that are not among the plates on the sheets.
func FindWebs(set rib.Set) []finding.Finding {
	var out []finding.Finding
	main := MainPly(set)
	for i, e := range set {
		webs := websOf(i, e, set.Shared(), main)
		if len(webs) == 0 || webs[0].Apart == Together {
			continue
		}
		doc, b := e.Doc, webs[0].Outline.Box()
		f := finding.Finding{Severity: finding.Note, Code: "web-too-large", Key: "sheet.stock", Part: e.Part("web"), Got: b.W(), Unit: "mm",
			Message: fmt.Sprintf("The web, %s × %s, is larger than every sheet in stock, as its grain must lie: it lies on none.", doc.Decimal(b.W()), doc.Decimal(b.H())+" "+string(doc.Units)),
			Fix:     "Scarf sheets together for it, as the plans say; or name a sheet that takes it under [[sheet.stock]], or let its grain run otherwise (grain under [web])."}
		if webs[0].Apart == OtherPly {
			f.Code, f.Key, f.Got, f.Unit = "web-plywood", "web.thickness", doc.Web.Thickness, "mm"
			f.Limit = main.Thickness
			f.Message = fmt.Sprintf("The web is of %s, %s thick, and the sheets in stock are for the plates, of %s: it lies on none.", doc.Web.Material, doc.Length(doc.Web.Thickness), doc.Length(f.Limit))
			f.Fix = "Cut it by the file of the plates from a sheet of its own; the list of what to buy has its size."
		}
		out = append(out, f)
	}
	return out
}

// checkHoles tells what a router leaves in the corners of a web's openings, and which of them it does not go into.
func checkHoles(r *rib.Rib, doc *ribfile.Doc, t Tool) []finding.Finding {
	worst, at := 0.0, geom.Pt{}
	var spars []string
	var out []finding.Finding
	for _, h := range r.Web.Holes {
		left := t.HolePath(h.Ring.Path())
		if len(left) == 0 {
			out = append(out, finding.Finding{Severity: finding.Error, Code: "router-hole", Key: "saw.router_bit", Part: "web", At: []geom.Pt{h.Ring[0]}, Got: t.Kerf, Unit: "mm",
				Message: fmt.Sprintf("A bit of %s does not go into the web's opening for spar %q.", length(doc, t.Kerf), h.Spar),
				Fix:     "Take a smaller bit (router_bit under [saw])."})
			continue
		}
		cut := left[0].Grow(t.Kerf / 2)[0]
		deep := 0.0
		for _, p := range h.Ring {
			if d := cut.Distance(p); d > deep {
				deep = d
				if d > worst {
					worst, at = d, p
				}
			}
		}
		if deep > cornerLeft {
			spars = append(spars, h.Spar)
		}
	}
	if len(spars) == 0 {
		return out
	}
	return append(out, finding.Finding{Severity: finding.Warning, Code: "router-corner", Key: "saw.router_bit", Part: "web", At: []geom.Pt{at}, Got: worst, Limit: cornerLeft, Unit: "mm",
		Message: fmt.Sprintf("A bit of %s leaves up to %s of wood in the corners of the web's openings (%s): the spar does not pass.", length(doc, t.Kerf), length(doc, worst), strings.Join(spars, ", ")),
		Fix:     "File the corners out."})
}
