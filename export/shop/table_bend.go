package shop

import (
	"fmt"
	"math"

	"ribwright/export"
	"ribwright/geom/bend"
)

// tierWords is what each tier asks of the builder.
var tierWords = map[bend.Tier]string{bend.Dry: "dry", bend.Care: "dry with care", bend.Soak: "soaked", bend.Steam: "steamed or laminated"}

// bends is how the cap strips are bent, and where.
func (w lister) bends() export.Table {
	rules := w.doc.Bend
	t := export.Table{ID: "bends", Title: "Bending the cap strips",
		Columns: []export.Column{text("cap", "cap"), w.lengthColumn("radius", "least radius of its middle"), w.lengthColumn("at", "at station"),
			number("ratio", "radius over depth", ""), number("strain_percent", "stretch", "%"), text("tier", "there it bends"),
			w.lengthColumn("soak_from", "soaked behind"), w.lengthColumn("care_from", "dry with care behind"), w.lengthColumn("dry_from", "dry behind")},
		Notes: []string{
			fmt.Sprintf("A strip bends dry at %g times its depth and above, dry with care at %g, soaked at %g, and is steamed or laminated below: common practice, no source.", rules.Dry, rules.Care, rules.Soak),
			"Strips differ: bend a trial piece of each board. The former (draw --sheet former) is the form to bend them on.",
		}}
	for _, b := range w.t.Bends {
		stretch := export.Str("-")
		if !math.IsInf(b.Strain, 0) {
			stretch = export.Num(100*b.Strain, decimal(100*b.Strain, 2))
		}
		t.Rows = append(t.Rows, []export.Cell{export.Str(b.ID), w.fine(b.Radius), w.fine(b.At), export.Num(b.Ratio, decimal(b.Ratio, 1)),
			stretch, export.Str(tierWords[b.Tier]), w.fine(b.SoakFrom), w.fine(b.CareFrom), w.fine(b.DryFrom)})
	}
	return t
}
