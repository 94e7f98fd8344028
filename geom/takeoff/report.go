package takeoff

import (
	"iter"
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/bend"
	"ribwright/geom/fasten"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// Report is report.json: lengths mm, areas mm², masses g, angles degrees, six decimals.
type Report struct {
	Title    string            `json:"title"`
	Units    ribfile.Units     `json:"units"`
	Findings []finding.Finding `json:"findings"`
	Ribs     RibReports        `json:"ribs"`
	Totals   Totals            `json:"totals"`
	Wing     any               `json:"wing,omitempty"`     // of geom/wing, put in by the command: which rib stands where
	Sessions any               `json:"sessions,omitempty"` // of geom/session, put in by the command: it knows no take-off
	Batches  any               `json:"batches,omitempty"`  // of geom/batch, put in by the command: it stands above this package
	Bars     any               `json:"bars,omitempty"`     // of geom/cut, put in by the command
}

// RibReports are the kinds of rib, root to tip, each as RibReport.Text makes it. They are asked for one by one while the report is
// written, so that a large set needs no more memory than a small one. Nil: none.
type RibReports iter.Seq2[[]byte, error]

// RibReport is one kind of rib.
type RibReport struct {
	Name      string           `json:"name"`
	Count     int              `json:"count"`
	ChordMM   num              `json:"chord_mm"`
	Contour   contourReport    `json:"contour"`
	Spars     []sparReport     `json:"spars"`
	Caps      []capReport      `json:"caps"`
	Blocks    []blockReport    `json:"blocks"`
	Sticks    []stickReport    `json:"sticks"`
	Joints    []jointReport    `json:"joints"`
	Gussets   []gussetReport   `json:"gussets"`
	Webs      []webReport      `json:"webs,omitempty"`
	Glue      glueReport       `json:"glue"`
	Adhesive  adhesiveReport   `json:"adhesive"`
	Spots     []spotReport     `json:"adhesive_joints"`
	MassG     massReport       `json:"mass_g"`
	CG        pt               `json:"cg_mm"`
	CGBare    pt               `json:"cg_bare_mm"` // without varnish
	Fasteners []fastenerReport `json:"fasteners"`
	Jig       any              `json:"jig,omitempty"` // of geom/jig, put in by the command: it stands beside this package
}

// Totals is the whole set.
type Totals struct {
	Ribs     int            `json:"ribs"`
	Sticks   int            `json:"sticks"`
	Gussets  int            `json:"gussets"`
	Glue     glueReport     `json:"glue"`
	Adhesive adhesiveReport `json:"adhesive"`
	MassG    massReport     `json:"mass_g"`
}

// NewReport gathers what a rib file says and what was found; ribs come to it by Add.
func NewReport(doc *ribfile.Doc, found []finding.Finding) Report {
	out := Report{Title: doc.Title, Units: doc.Units, Findings: []finding.Finding{}}
	for _, f := range found {
		f.Got, f.Limit, f.At = round(f.Got), round(f.Limit), slices.Clone(f.At)
		for i, p := range f.At {
			f.At[i] = geom.Pt{X: round(p.X), Y: round(p.Y)}
		}
		out.Findings = append(out.Findings, f)
	}
	return out
}

// Add counts a kind of rib in the totals.
func (out *Report) Add(r *rib.Rib, t TakeOff) {
	n := float64(r.Count)
	s := &out.Totals
	s.Ribs += r.Count
	s.Sticks += r.Count * len(r.Sticks)
	for _, g := range r.Gussets {
		s.Gussets += r.Count * g.Faces
	}
	s.Glue.add(newGlue(t.Glue, n))
	s.Adhesive.add(newAdhesive(t.Adhesive, n))
	s.MassG.add(newMass(t.Mass, n))
}

// NewRibReport is the report of one kind of rib.
func NewRibReport(name string, r *rib.Rib, t TakeOff) RibReport {
	rr := RibReport{Name: name, Count: r.Count, ChordMM: num(r.Chord),
		Glue: newGlue(t.Glue, 1), Adhesive: newAdhesive(t.Adhesive, 1), MassG: newMass(t.Mass, 1)}
	rr.fill(r, t.Bends)
	rr.Spots = newSpots(t.Spots)
	rr.CG, rr.CGBare, rr.Fasteners = newPt(t.Mass.At), newPt(t.Mass.Bare), newFasteners(r, t.Fasteners)
	return rr
}

func (rr *RibReport) fill(r *rib.Rib, bends []bend.Bend) {
	c := r.Contour
	rr.Contour = contourReport{num(c.AreaMM2), num(c.Length), num(c.DepthMax), num(c.DepthMaxAt), points(c.Outline)}
	rr.Spars, rr.Caps, rr.Blocks = []sparReport{}, []capReport{}, []blockReport{}
	rr.Sticks, rr.Joints, rr.Gussets = []stickReport{}, []jointReport{}, []gussetReport{}
	for _, s := range r.Spars {
		one := sparReport{Name: s.Name, AtMM: num(s.At), WidthMM: num(s.Width), DepthFrontMM: num(s.DepthFront), DepthRearMM: num(s.DepthRear),
			BevelTopDeg: deg(s.BevelTop), BevelBottomDeg: deg(s.BevelBottom), TiltDeg: deg(s.Tilt), SweepDeg: deg(s.Sweep), Opening: points(s.Opening)}
		if s.Tilt != 0 || s.Sweep != 0 {
			one.GapMM = num(s.Gap())
		}
		rr.Spars = append(rr.Spars, one)
	}
	for i, k := range r.Caps {
		b := bends[i]
		rr.Caps = append(rr.Caps, capReport{k.ID, num(k.Length), num(k.RadiusMin), num(k.RadiusMinAt), num(k.Outline.Area()),
			bendReport{num(b.Radius), num(b.At), num(b.Ratio), num(100 * b.Strain), b.Tier, num(b.DryFrom), num(b.CareFrom), num(b.SoakFrom)}, points(k.Outline)})
	}
	for _, k := range r.Blocks {
		rr.Blocks = append(rr.Blocks, blockReport{k.ID, num(k.AreaMM2), points(k.Outline)})
	}
	for _, s := range r.Sticks {
		rr.Sticks = append(rr.Sticks, stickReport{s.ID, s.Kind, s.From, s.To, num(s.LongPoint),
			[2]endReport{newEnd(s.Ends[0]), newEnd(s.Ends[1])}, num(s.Outline.Area()), points(s.Outline)})
	}
	for _, j := range r.Joints {
		rr.Joints = append(rr.Joints, jointReport{j.ID, newPt(j.At), j.Members, newAreas(j.ButtMM2)})
	}
	for _, g := range r.Gussets {
		rr.Gussets = append(rr.Gussets, newGusset(g))
	}
	for _, face := range r.Web.On() {
		rr.Webs = append(rr.Webs, newWeb(r.Web, face))
	}
}

func newGusset(g rib.Gusset) gussetReport {
	out := gussetReport{ID: g.ID, Joints: g.Joints, Shape: g.Shape, Centre: newPt(g.Centre), AngleDeg: deg(g.Angle),
		Outline: outline{}, AreaMM2: num(g.AreaMM2), Faces: g.Faces, MarkMM: num(g.MarkDistance), GlueMM2: newAreas(g.GlueMM2)}
	for _, s := range g.Size {
		out.SizeMM = append(out.SizeMM, num(s))
	}
	from := g.Outline.Start
	for _, s := range g.Outline.Segs { // a bulge belongs to the edge that leaves its point
		out.Outline = append(out.Outline, [3]num{num(from.X), num(from.Y), num(s.Bulge)})
		from = s.End
	}
	if len(g.Outline.Segs) > 0 && from.Dist(g.Outline.Start) > geom.Coincident {
		out.Outline = append(out.Outline, [3]num{num(from.X), num(from.Y), 0})
	}
	return out
}

func newWeb(w rib.Web, face int) webReport {
	out := webReport{face + 1, num(w.Thickness), points(w.Outline), []webOpening{}, num(w.AreaMM2), newAreas(w.GlueMM2)}
	for _, h := range w.Holes {
		out.Holes = append(out.Holes, webOpening{h.Spar, points(h.Ring)})
	}
	return out
}

func newEnd(e rib.End) endReport {
	out := endReport{AnglesDeg: []num{}, Against: []string{}, GapMM: num(e.Gap)}
	for _, c := range e.Cuts {
		out.AnglesDeg, out.Against = append(out.AnglesDeg, deg(c.Angle)), append(out.Against, c.Against)
	}
	return out
}

func newGlue(g Glue, n float64) glueReport {
	return glueReport{num(n * g.FaceMM2[0]), num(n * g.GussetMM2), num(n * g.ButtMM2), num(n * g.CapsMM2), num(n * (g.WebMM2[0] + g.WebMM2[1])), num(n * g.PliesMM2), num(n * g.TotalMM2)}
}

func newAdhesive(a Adhesive, n float64) adhesiveReport {
	a = a.Times(n)
	return adhesiveReport{num(a.InJointG), num(a.SqueezeOutG), num(a.CupLossG), num(a.MixedG), num(a.PartAG), num(a.PartBG), num(a.PartAML), num(a.PartBML)}
}

func newSpots(spots []Spot) []spotReport {
	out := []spotReport{}
	for _, s := range spots {
		out = append(out, spotReport{s.ID, s.Side + 1, num(s.PlateMM2), num(s.EndMM2), num(s.CapsMM2), num(s.Adhesive.MixedG)})
	}
	return out
}

func newFasteners(r *rib.Rib, p fasten.Pattern) []fastenerReport {
	out := []fastenerReport{}
	for _, f := range p.All {
		out = append(out, fastenerReport{r.Gussets[f.Gusset].ID, f.Face + 1, f.Member, points(f.Legs)})
	}
	return out
}

func newMass(m Mass, n float64) massReport {
	return massReport{num(n * m.CapsG), num(n * m.SticksG), num(n * m.BlocksG), num(n * m.GussetsG), num(n * m.AdhesiveG), num(n * m.FastenersG), num(n * m.VarnishG), num(n * m.TotalG)}
}

func newAreas(m map[string]float64) areas {
	out := areas{}
	for k, v := range m {
		out[k] = num(v)
	}
	return out
}

func newPt(p geom.Pt) pt { return pt{num(p.X), num(p.Y)} }

func points(r geom.Ring) line {
	out := make(line, len(r))
	for i, p := range r {
		out[i] = newPt(p)
	}
	return out
}

func deg(a float64) num { return num(a * 180 / math.Pi) }
