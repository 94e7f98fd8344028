package wing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"ribwright/airfoils"
	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// Bevel is how far a cap's outer face slopes along the span, where it slopes most. The drawing shows the rib in the
// middle of its width: one edge of the cap stands over the line there by half of Across, the other one stays within it.
type Bevel struct {
	Side    airfoils.Side
	Station float64 // mm, in the rib's axes
	Angle   float64 // radians from square to the rib's face; positive: the rib grows toward the tip
	Across  float64 // mm that the contour moves over the cap's width, without sign
}

// Bevel returns where one of a kind's caps slopes most. The wing's surface is known once Section has been called.
func (p Plan) Bevel(k Kind) Bevel {
	if !p.surfaced() || len(k.Places) == 0 {
		return Bevel{}
	}
	return p.bevel(k)
}

func (p Plan) bevel(k Kind) Bevel {
	var most Bevel
	t := k.Places[0].Span / p.SemiSpan
	from, to := k.capped()
	for _, side := range []airfoils.Side{airfoils.UpperSide, airfoils.LowerSide} {
		lines := p.sections.lines[side]
		for i := 1; i < len(lines)-1; i++ {
			out := lines[i+1].at(t).Sub(lines[i-1].at(t)).Unit().Left()
			if side == airfoils.LowerSide {
				out = out.Mul(-1)
			}
			x := k.Places[0].InRib(lines[i].at(t)).X
			slope := out.Dot(lines[i].tip.Sub(lines[i].root)) / p.SemiSpan
			if x >= from && x <= to && math.Abs(slope) > math.Abs(math.Tan(most.Angle)) {
				most = Bevel{side, x, math.Atan(slope), k.Doc.Cap.Width * math.Abs(slope)}
			}
		}
	}
	return most
}

// capped returns the stations between which a kind's caps stand free of its blocks: to where the rib is cut off, if it is.
func (k Kind) capped() (from, to float64) {
	d := k.Doc
	from, to = max(d.Nose.Station, d.Rib.LeadingEdge), d.Rib.TrailingEdge
	if d.Tail.Present {
		to = min(to, d.Tail.Station)
	}
	if f := d.Rib.LeadingAt; f.Named {
		from = max(from, d.Spars[f.Spar].At)
	}
	if f := d.Rib.TrailingAt; f.Named {
		to = min(to, d.Spars[f.Spar].At)
	}
	return from, to
}

// shaving is the bevel over a cap's width, mm, below which nobody planes it (common practice, no source).
const shaving = 0.1

// Notes returns what there is to say of the wing as a whole. As for Bevel, Section comes first.
func (p Plan) Notes() []finding.Finding {
	if !p.surfaced() {
		return nil
	}
	return append(p.bevelNote(), p.handedNote()...)
}

// handedNote tells how left and right ribs come from one drawing where something lies on one face alone. With its nose on
// the left a rib is seen from the aircraft's left side.
func (p Plan) handedNote() []finding.Finding {
	var names []string
	for _, k := range p.Kinds {
		if p.Wings == 2 && len(faceWords(k.Doc)) > 0 {
			names = append(names, cmp.Or(k.Name, "all"))
		}
	}
	if len(names) == 0 {
		return nil
	}
	which := strings.Join(names[:min(len(names), 12)], ", ")
	if len(names) > 12 {
		which += fmt.Sprintf(" and %d more", len(names)-12)
	}
	return []finding.Finding{{Severity: finding.Note, Code: "wing-handed", Key: "wing",
		Message: "Plates or a web lie on one face of these ribs: " + which + ". Their drawings show left ribs, seen from the tip's side; on right ribs it is the other face.",
		Fix:     "Build the left ribs as drawn; each drawing says how the right ones come from the same jig. Mark each rib left or right."}}
}

// bevelNote tells which rib's caps slope most along the span.
func (p Plan) bevelNote() []finding.Finding {
	var most Bevel
	var on Kind
	for _, k := range p.Kinds {
		if b := p.bevel(k); b.Across > most.Across {
			most, on = b, k
		}
	}
	if most.Across < shaving {
		return nil
	}
	toward := "the root"
	if most.Angle > 0 {
		toward = "the tip"
	}
	return []finding.Finding{{Severity: finding.Note, Code: "wing-bevel", Key: "wing",
		Message: fmt.Sprintf("The caps' outer faces slope along the span, most on rib %s: its %s cap at %s by %.1f°, %s over the rib's width, higher toward %s. Every drawing shows the middle of the rib's width.",
			on.Places[0].Rib, most.Side, on.Doc.Length(most.Station), math.Abs(most.Angle)*180/math.Pi, on.Doc.Length(most.Across), toward),
		Fix: "Make the caps by the drawing, and plane them with the ribs on their spars, to a straight edge laid from rib to rib.",
		Got: most.Across, Limit: shaving, Unit: "mm", Part: on.Places[0].Rib}}
}

// Handed says why the left and the right ribs of a kind are not the same, and is empty where they are. Their outlines in
// the drawing are the same in any case: what differs is on which face something is. As for Bevel, Section comes first.
func (p Plan) Handed(k Kind) []string {
	if p.Wings < 2 {
		return nil
	}
	var why []string
	if p.Bevel(k).Across >= shaving {
		why = append(why, "the caps' bevel")
	}
	if oneFace(k.Doc) {
		why = append(why, "plates on one face")
	}
	if webOnOneFace(k.Doc) {
		why = append(why, "a web on one face")
	}
	return why
}

// oneFace reports whether the rib has plates, and on one face only.
func oneFace(doc *ribfile.Doc) bool {
	plated := doc.Gusset.Shape != "none" || slices.ContainsFunc(doc.Gussets, func(g ribfile.PlateAt) bool { return g.Plate.Shape != "none" })
	return plated && doc.Gusset.Faces == 1
}

// line is a straight line of the wing's surface, from the root to the tip, in the wing's axes.
type line struct{ root, tip geom.Pt }

func (l line) at(t float64) geom.Pt { return l.root.Lerp(l.tip, t) }

// VolumeMM3 returns what the wings hold, root to tip. The area of a ruled wing's sections is a quadratic of the span
// station, so Simpson's rule over three of them is exact. As for Bevel, Section comes first.
func (p Plan) VolumeMM3() float64 {
	if !p.surfaced() {
		return 0
	}
	area := func(t float64) float64 {
		up, lo := p.sections.at(p.share(t)).Contour(p.chord(t), geom.Flat/10)
		slices.Reverse(up)
		return geom.Ring(append(up, lo...)).Area()
	}
	return float64(p.Wings) * p.SemiSpan * (area(0) + float64(4*area(0.5)) + area(1)) / 6
}

// AreaMM2 returns the area of the wings in plan, root to tip, with no washout taken off.
func (p Plan) AreaMM2() float64 {
	if p.layout == nil {
		return 0
	}
	return float64(p.Wings) * p.SemiSpan * (p.doc.Rib.Chord + p.wing.TipChord) / 2
}

// webOnOneFace reports whether the rib has a web on one face alone.
func webOnOneFace(doc *ribfile.Doc) bool {
	return doc.Web.Faces == "near" || doc.Web.Faces == "far"
}
