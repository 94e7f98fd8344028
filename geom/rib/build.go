// Package rib lays out one wooden truss rib: from a rib file and a section to every part's outline.
//
// Lengths are millimetres in rib axes (origin at the leading edge of the chord line, x aft, y up),
// angles radians, areas mm². Outlines run counter-clockwise. The package makes no drawing, no list and
// no sum: it says where every piece of wood is, how it is cut, where the plates sit and what lies under them.
// Mistakes are findings; the best partial rib is returned together with them.
package rib

import (
	"fmt"
	"slices"
	"strings"

	"ribwright/airfoils"
	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// Build lays out the rib that the file describes on its section. The rib is never nil; where a finding
// is an error, parts may be missing. Findings carry keys: Doc.Locate gives them their place in the file.
func Build(doc *ribfile.Doc, sec airfoils.Section) (*Rib, []finding.Finding) {
	b := &builder{doc: doc, Rib: &Rib{
		Title: doc.Title, Count: doc.Rib.Count, Mirrored: doc.Rib.Mirrored, Chord: doc.Rib.Chord,
		CapWidth: doc.Cap.Width, StickWidth: doc.Stick.Width, CapDepth: doc.Cap.Depth, StickDepth: doc.Stick.Depth,
		GussetThickness: doc.Gusset.Thickness, StickPlies: max(1, doc.Stick.Plies),
	}}
	b.StickDepth = float64(doc.Stick.Depth * float64(b.StickPlies))
	b.cutoffs()
	b.contour(sec)
	if len(b.Contour.Inner) == 0 {
		return b.Rib, b.found
	}
	b.caps()
	b.blocks()
	b.spars()
	b.plan()
	b.joints()
	b.sticks()
	b.butts()
	b.gussets()
	b.web()
	b.checkWidths()
	b.Spars = slices.DeleteFunc(b.Spars, b.outside)
	return b.Rib, together(b.found)
}

// few is how many findings of one kind about one key are told one by one; more are told together.
const few = 3

// together makes one finding of many that differ in nothing but the part.
func together(fs []finding.Finding) []finding.Finding {
	type kind struct {
		severity  finding.Severity
		code, key string
	}
	count, first := map[kind]int{}, map[kind]int{}
	parts := map[kind][]string{}
	for _, f := range fs {
		k := kind{f.Severity, f.Code, f.Key}
		if count[k]++; !slices.Contains(parts[k], f.Part) {
			parts[k] = append(parts[k], f.Part)
		}
	}
	var out []finding.Finding
	for _, f := range fs {
		k := kind{f.Severity, f.Code, f.Key}
		if count[k] <= few {
			out = append(out, f)
			continue
		}
		i, told := first[k]
		if !told {
			f.Part = strings.Join(parts[k], ", ")
			if len(parts[k]) > 1 {
				f.Message += fmt.Sprintf(" It is the same with %d parts: %s.", len(parts[k]), f.Part)
			}
			f.At = slices.Clone(f.At)
			first[k], out = len(out), append(out, f)
		} else {
			out[i].At = append(out[i].At, f.At...)
		}
	}
	return out
}

// builder carries a rib while it is laid out.
type builder struct {
	*Rib
	doc   *ribfile.Doc
	found []finding.Finding

	upper, lower           side      // the contour's sides, for stations
	innerUpper, innerLower []geom.Pt // the inner edge's sides, nose to tail
	noseTip, tailTip       geom.Pt   // where they meet; tailTip is meaningless where the inner edge is open
	open                   bool      // the inner edge reaches the cut at the tail
	ahead, behind          cutoff    // where the rib is cut off besides its trailing edge's station
	plans                  []plan
	inset                  map[float64]*insetContour
}

// side is one side of the contour, nose to tail, from its foremost point on, with a tangent at every point.
type side struct {
	side    Side
	pts     []geom.Pt
	tangent []geom.Pt
}

func (b *builder) side(s Side) *side {
	if s == Upper {
		return &b.upper
	}
	return &b.lower
}

// find adds a finding.
func (b *builder) find(f finding.Finding) { b.found = append(b.found, f) }

// len formats a length for a message.
func (b *builder) len(mm float64) string { return b.doc.Length(mm) }

// station formats a station for a message.
func (b *builder) station(x float64) string {
	return fmt.Sprintf("%s (%.1f %% of the chord)", b.len(x), 100*x/b.Chord)
}

// checkWidths notes where sticks and caps differ in width, so that plates on both faces would not lie flat.
func (b *builder) checkWidths() {
	d := b.StickWidth - b.CapWidth
	if len(b.Sticks) == 0 || len(b.Gussets) == 0 && len(b.Web.Outline) == 0 || (d < geom.Flat && d > -geom.Flat) {
		return
	}
	b.find(finding.Finding{Severity: finding.Warning, Code: "width-differs", Key: "stick.width",
		Message: fmt.Sprintf("Sticks are %s wide and caps %s: a plate glued on both does not lie flat.", b.len(b.StickWidth), b.len(b.CapWidth)),
		Fix:     "Give sticks and caps the same width.",
		Got:     b.StickWidth, Limit: b.CapWidth, Unit: "mm"})
}
