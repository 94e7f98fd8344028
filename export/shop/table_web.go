package shop

import (
	"fmt"

	"ribwright/geom/cut"
	"ribwright/geom/rib"
	"ribwright/geom/takeoff"
)

// webID is what lists and files call the web.
const webID = takeoff.WebID

const webTitle = "Gusset plates and webs"

// webFaces says on which faces a web is.
func webFaces(w rib.Web) string {
	switch {
	case w.Near && w.Far:
		return "near and the far face"
	case w.Far:
		return "far face"
	}
	return "near face"
}

// leftOnly says of a face that it is that of left ribs; nothing where right ones are built alike.
func leftOnly(r *rib.Rib) string {
	if r.Mirrored == 0 {
		return ""
	}
	return " of a left rib"
}

// otherFace says of what is on one face only that it lies on the other one of ribs that are built as mirror images.
func (w lister) otherFace(one bool) string {
	if !one || w.r == nil || w.r.Mirrored == 0 {
		return ""
	}
	return " of left ribs, on the other face of right ones"
}

// webNotes say what the web is, how it is held while its glue sets, and what it takes the place of.
func (w lister) webNotes(web rib.Web) []string {
	return []string{
		fmt.Sprintf("The web is %s, %s thick, on the %s%s.", w.doc.Web.Material, w.doc.Length(web.Thickness), webFaces(web), w.otherFace(web.Near != web.Far)),
		"A web is one sheet over a whole face, with the spars' openings cut out; that face has no plates. Its size is of the rectangle about it, its area without the openings.",
		"No fasteners are counted for a web: weight it down, or clamp it between flat boards, all over its members.",
	}
}

// webSize writes the rectangle about a web.
func (w lister) webSize(web rib.Web) string {
	b := web.Outline.Box()
	return w.doc.Decimal(b.W()) + " × " + w.doc.Decimal(b.H()) + " " + string(w.doc.Units)
}

// ApartToBuy returns the plywood of webs and plates that lie on no sheet of the layout.
func ApartToBuy(set rib.Set, l cut.Layout) []BuyRow {
	var out []BuyRow
	entry, area := -1, 0.0 // of the row of plates that is being summed up
	for _, p := range l.Plates {
		if p.Apart == cut.Together {
			continue
		}
		e := set[p.Entry]
		w := lister{doc: e.Doc}
		if p.Gusset >= 0 {
			if p.Entry != entry {
				entry, area = p.Entry, 0
				out = append(out, BuyRow{What: e.Doc.Gusset.Material + ", " + e.Doc.Length(e.Doc.Gusset.Thickness) + ", for the plates of " + e.Name})
			}
			row := &out[len(out)-1]
			area += float64(p.Outline.Area() * float64(p.Count))
			row.Count += p.Count
			row.Size = e.Doc.Area(area) + " in all"
			continue
		}
		what := e.Doc.Web.Material + ", " + e.Doc.Length(e.Doc.Web.Thickness) + ", for " + e.Part(webID)
		if n := len(out); n > 0 && out[n-1].What == what { // the one of the other face
			out[n-1].Count += p.Count
			continue
		}
		out = append(out, BuyRow{What: what, Size: w.webSize(e.Rib.Web) + ", " + e.Doc.Area(e.Rib.Web.Outline.Area()), Count: p.Count})
	}
	return out
}
