package fasten

import (
	"fmt"
	"strings"

	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// Find tells where the fasteners do not suit the wood.
func Find(p Pattern, r *rib.Rib, doc *ribfile.Doc) []finding.Finding {
	if p.Spec.Kind == "none" || len(r.Gussets) == 0 {
		return nil
	}
	return append(append(through(r, doc), rust(doc)...), p.bare(r, doc)...)
}

// through tells of legs that come out of the wood on the other face.
func through(r *rib.Rib, doc *ribfile.Doc) []finding.Finding {
	thin := min(r.CapWidth, r.StickWidth)
	if Deep(doc) <= thin {
		return nil
	}
	return []finding.Finding{{Severity: finding.Warning, Code: "fastener-through", Key: "fastener.leg", Got: Deep(doc), Limit: thin, Unit: "mm",
		Message: fmt.Sprintf("Legs of %s come through: under a plate of %s they go %s into wood that is %s thick.",
			doc.Length(doc.Fastener.Leg), doc.Length(doc.Gusset.Thickness), doc.Length(Deep(doc)), doc.Length(thin)),
		Fix: fmt.Sprintf("Take fasteners of less than %s.", doc.Length(thin+doc.Gusset.Thickness))}}
}

// rust tells of plain steel that stays in the rib.
func rust(doc *ribfile.Doc) []finding.Finding {
	if !Stays(doc.Fastener) || doc.Fastener.Material != "steel" {
		return nil
	}
	return []finding.Finding{{Severity: finding.Note, Code: "fastener-rust", Key: "fastener.material",
		Message: "Fasteners of plain steel stay in the rib: they rust, and stain and weaken the wood around them.",
		Fix:     `Pull them when the glue has cured (after = "pulled"), or take stainless ones (common practice).`}}
}

// bare tells of members in which no fastener finds room, all in one.
func (p Pattern) bare(r *rib.Rib, doc *ribfile.Doc) []finding.Finding {
	if len(p.Bare) == 0 {
		return nil
	}
	// No places: on the drawing a mark for each would say less than the list.
	f := finding.Finding{Severity: finding.Note, Code: "fastener-no-room", Key: "fastener", Part: r.Gussets[p.Bare[0].Gusset].ID}
	var places []string
	second := true // only legs of the first face stand in the way
	for _, b := range p.Bare {
		g := r.Gussets[b.Gusset]
		both := b.Face == 1 && g.Faces == 2
		if both && p.bareOnFirst(b) {
			continue
		}
		place := b.Member + " at " + g.ID
		if both {
			place += " (second face)"
		}
		second = second && both
		places = append(places, place)
	}
	f.Message = fmt.Sprintf("Under the plates there is no room for a %s in %s.", p.Spec.Kind, strings.Join(places, ", "))
	f.Fix = "Clamp these otherwise, or take a smaller crown, edge or end distance."
	if p.Spec.Kind == "nail" {
		f.Fix = "Clamp these otherwise, or take a smaller edge or end distance."
	}
	if second {
		f.Message += fmt.Sprintf(" Legs from both faces reach each other in the wood, %s deep, and must not meet.", doc.Length(Deep(doc)))
		f.Fix = "Clamp these otherwise, or take shorter legs."
	}
	return []finding.Finding{f}
}

// bareOnFirst reports whether the member is bare on the first face, too.
func (p Pattern) bareOnFirst(b Bare) bool {
	for _, o := range p.Bare {
		if o.Gusset == b.Gusset && o.Member == b.Member && o.Face == 0 {
			return true
		}
	}
	return false
}
