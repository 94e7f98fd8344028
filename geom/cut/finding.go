package cut

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/pack"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// What is told (common practice, no source).
const (
	sizeOff    = 0.25 // mm: how far a saw's plate may be from the one laid out
	cornerLeft = 0.1  // mm: wood that a router leaves in an inside corner
	pilotShare = 0.03 // of the plate that the pilot hole takes
)

// Check tells where the tool does not give the plates that the rib was laid out with.
func Check(r *rib.Rib, doc *ribfile.Doc) []finding.Finding {
	t := ToolOf(doc)
	switch t.Name {
	case "hole-saw":
		return append(checkSaw(r, doc, t), checkPilot(r, doc, t)...)
	case "router":
		return append(checkRouter(r, doc, t), checkHoles(r, doc, t)...)
	}
	return nil
}

// plateKey is the key of a joint's plate: "gusset" or "gusset.at[1]".
func plateKey(doc *ribfile.Doc, g rib.Gusset) string {
	for k, at := range doc.Gussets {
		for _, j := range at.Joints {
			if j == g.Joints[0] {
				return fmt.Sprintf("gusset.at[%d]", k)
			}
		}
	}
	return "gusset"
}

func checkSaw(r *rib.Rib, doc *ribfile.Doc, t Tool) []finding.Finding {
	var out []finding.Finding
	if t.Saw == 0 {
		return nil
	}
	told := map[string]bool{}
	for _, g := range r.Gussets {
		if g.Shape != rib.Round || math.Abs(g.Size[0]-t.Gives()) <= sizeOff {
			continue
		}
		key := plateKey(doc, g)
		if told[key] {
			continue
		}
		told[key] = true
		out = append(out, finding.Finding{Severity: finding.Warning, Code: "saw-plate-size", Key: key + ".diameter", Part: g.ID,
			Got: t.Gives(), Limit: g.Size[0], Unit: "mm",
			Message: fmt.Sprintf("A hole saw of %s gives plates of %s: its teeth take %s on each side. The rib is laid out with plates of %s.",
				length(doc, t.Saw), length(doc, t.Gives()), length(doc, t.Kerf), doc.Length(g.Size[0])),
			Fix: fmt.Sprintf("Write diameter = %q, and look whether the plates still suffice; or take a saw of %s outer diameter.",
				length(doc, t.Gives()), length(doc, g.Size[0]+2*t.Kerf))})
	}
	return out
}

// length writes the size of a tool or of what it leaves: a fraction where it is one, else thousandths of an inch or
// hundredths of a millimetre.
func length(doc *ribfile.Doc, mm float64) string {
	if doc.Units == ribfile.Inch {
		return doc.Length(mm)
	}
	return strconv.FormatFloat(math.Round(mm*100)/100, 'f', -1, 64) + " mm"
}

func checkPilot(r *rib.Rib, doc *ribfile.Doc, t Tool) []finding.Finding {
	for _, g := range r.Gussets {
		if g.Shape != rib.Round {
			continue
		}
		blank, _ := t.Disc(g.Size[0])
		if share := (t.Pilot / blank) * (t.Pilot / blank); share > pilotShare {
			return []finding.Finding{{Severity: finding.Note, Code: "pilot-hole", Key: "saw.pilot", Part: g.ID, Got: 100 * share, Limit: 100 * pilotShare, Unit: "%",
				Message: fmt.Sprintf("The pilot drill of %s takes %.1f %% of a plate of %s, which is no glue area.", length(doc, t.Pilot), 100*share, length(doc, blank)),
				Fix:     "Take a smaller pilot drill, or plug the hole."}}
		}
	}
	return nil
}

func checkRouter(r *rib.Rib, doc *ribfile.Doc, t Tool) []finding.Finding {
	var out []finding.Finding
	for _, g := range r.Gussets {
		if len(g.Outline.Segs) == 0 {
			continue
		}
		left, deepest := t.Left(g.Outline)
		if deepest <= cornerLeft {
			continue
		}
		out = append(out, finding.Finding{Severity: finding.Warning, Code: "router-corner", Key: "saw.router_bit", Part: g.ID, At: []geom.Pt{g.Centre},
			Got: deepest, Limit: cornerLeft, Unit: "mm",
			Message: fmt.Sprintf("A bit of %s leaves up to %s of wood in an inside corner of the plate at %s: %s more than drawn.",
				length(doc, t.Kerf), length(doc, deepest), g.ID, doc.Area(left.Area()-g.Outline.Area())),
			Fix: "Take a smaller bit, or file the corner out."})
	}
	return out
}

// Findings tells what found no place on the sheets.
func (l Layout) Findings(doc *ribfile.Doc) []finding.Finding {
	var out []finding.Finding
	all := 0
	for _, p := range l.Plates {
		if p.Apart == Together {
			all += p.Count
		}
	}
	for _, k := range l.Left {
		f := finding.Finding{Severity: finding.Warning, Code: "sheet-short", Key: "sheet.stock", Part: k.IDs[0], Got: float64(all - k.Count), Limit: float64(all), Unit: "plates",
			Message: fmt.Sprintf("The plywood in stock is too little: %d of %d plates find no place (of %s).", k.Count, all, names(k.IDs)),
			Fix:     "Add a sheet under [[sheet.stock]], or leave out its count: then as many are taken as are needed."}
		if k.Why == pack.TooLarge {
			f.Code = "sheet-small"
			f.Message = fmt.Sprintf("The plates %s are larger than every sheet in stock, as their grain must lie.", names(k.IDs))
			f.Fix = "Name a larger sheet under [[sheet.stock]], or let the grain run otherwise (grain under [gusset])."
		} else if k.Why != pack.SheetsUsed {
			f.Message = fmt.Sprintf("%d plates are on no sheet (%s): %s.", k.Count, names(k.IDs), k.Why)
		}
		out = append(out, f)
	}
	return out
}

// names lists some names, the first few of many.
func names(ids []string) string {
	const few = 8
	if len(ids) > few {
		return strings.Join(ids[:few], ", ") + " …"
	}
	return strings.Join(ids, ", ")
}

// MayFail reports whether plates may find no place, so that only nesting tells: where sheets are counted, or a plate is
// longer than a sheet is wide.
func MayFail(set rib.Set) bool {
	doc := set.Shared()
	short := math.Inf(1)
	for _, s := range stock(doc) {
		if s.Count > 0 {
			return true
		}
		b := s.Outline.Box()
		short = min(short, min(b.W(), b.H())-float64(2*doc.Sheet.Margin))
		if s.AreaMM2 < float64(b.W()*b.H())-1 {
			return true // an odd offcut
		}
	}
	for _, p := range bare(set) {
		if p.Apart != Together {
			continue
		}
		if b := p.Swath.Box(); math.Hypot(b.W(), b.H()) > short {
			return true
		}
	}
	return false
}
