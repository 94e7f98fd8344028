package riblog

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// The codes of what the summary finds.
const (
	CodeAgain        = "log-again"         // said twice, and not the same
	CodeKind         = "log-kind"          // a rib of no kind that is planned
	CodeMore         = "log-more"          // more ribs than planned
	CodeNoBatch      = "log-no-batch"      // adhesive of no batch
	CodeWhose        = "log-whose-coupon"  // a sample joint that may be of either batch
	CodeRatio        = "log-ratio"         // parts A and B out of their ratio
	CodeCoupon       = "log-coupon"        // a batch without a sample joint
	CodeCouponFailed = "log-coupon-failed" // less wood on the broken face than there must be
	CodeCouponLoad   = "log-coupon-load"   // broken in the wood, but early
)

// Plan is what the rib file asks for.
type Plan struct {
	Kinds          []Kind
	RatioA, RatioB float64 // parts by weight
	RatioTolerance float64 // share
	CouponG        float64 // adhesive mixed for a sample joint
	CouponN        float64 // load that it should carry
	WoodPct        float64 // least wood on its broken face
}

// Kind is a kind of rib: what it is called (empty where there is one), what else its ribs are called, how many there are, what one weighs, and the
// adhesive to mix for its first and second side, g; 0 for a second side without plates.
type Kind struct {
	Name   string
	Also   []string
	Count  int
	MassG  float64
	SidesG [2]float64
}

// Rib is what the log says of a rib.
type Rib struct {
	Name  string
	Kind  int    // in Plan.Kinds; −1: none of them
	Line  int    // the first about it
	Batch [2]Ref // of its first and its second side
	MassG Value
	Score float64 // modified z-score of its mass over the planned one; see Scores
	Odd   bool    // its mass stands out from the others
}

// Ref is a name with the line it stands on.
type Ref struct {
	Name string
	Line int
}

// Batch is what the log says of a batch of adhesive.
type Batch struct {
	Name           string
	Line           int
	Sides          int // that were glued from it
	AG, BG         Value
	TemperatureC   Value
	HumidityPct    Value
	CouponN        Value
	WoodPct        Value
	RatioOff       float64 // A over B against the ratio, as a share; 0 where one is missing
	Broken, Failed bool    // its sample joint
}

// Holds reports whether a side was glued from the batch.
func (b Batch) Holds(ref Ref) bool { return ref.Name != "" && same(ref.Name) == same(b.Name) }

// Summary is what a log tells.
type Summary struct {
	Plan    Plan
	Ribs    []Rib // in the order in which the log first names them
	Batches []Batch
	Found   []finding.Finding

	Masses []Spread // of each kind of the plan, without ribs that stand out
	All    []Spread // the same with them

	file  string
	units ribfile.Units // of messages
}

// Sum sums up a log against a plan.
func Sum(l Log, p Plan) Summary {
	s := Summary{Plan: p, file: l.File, units: l.units}
	for i := range l.Entries {
		s.take(&l.Entries[i])
	}
	s.checkRibs()
	s.checkBatches()
	s.spreads()
	s.Found = finding.Sort(s.Found)
	return s
}

func (s *Summary) tell(sev finding.Severity, line, column int, code, message, fix string) {
	s.Found = append(s.Found, finding.Finding{Severity: sev, Code: code, Message: message, Fix: fix, File: s.file, Line: line, Column: max(column, 1)})
}

// take adds a line to what is known.
func (s *Summary) take(e *Entry) {
	if e.Rib == "" && e.First.Batch == "" && e.Second.Batch == "" {
		return
	}
	if e.Rib != "" {
		r := s.rib(e)
		for side, g := range []Glued{e.First, e.Second} {
			if g.Batch == "" {
				continue
			}
			if was := r.Batch[side]; was.Name != "" && same(was.Name) != same(g.Batch) {
				s.tell(finding.Warning, e.Line, 1, CodeAgain, fmt.Sprintf("Rib %s: its %s side is of batch %s here, and of batch %s on line %d; the later line holds.",
					r.Name, [2]string{"first", "second"}[side], g.Batch, was.Name, was.Line), "Strike the wrong one out of the log.")
			}
			r.Batch[side] = Ref{g.Batch, e.Line}
		}
		s.put(&r.MassG, e.MassG, "Rib "+r.Name+": its mass", s.units.Mass, "If it is another rib, give it another number.")
	}
	whose := s.batchOf(e)
	for side, g := range []Glued{e.First, e.Second} {
		if g.Batch == "" && !g.AG.OK && !g.BG.OK {
			continue
		}
		b := s.batch(g, e.Line)
		const fix = "A batch is one cup. If this is another cup, give it another number."
		s.put(&b.AG, g.AG, "Batch "+b.Name+": part A", s.units.Mass, fix)
		s.put(&b.BG, g.BG, "Batch "+b.Name+": part B", s.units.Mass, fix)
		b.TemperatureC, b.HumidityPct = later(b.TemperatureC, e.TemperatureC), later(b.HumidityPct, e.HumidityPct)
		if side == whose {
			const fix = "Keep the figure of the sample joint that was broken first: a second one does not mend it."
			s.put(&b.CouponN, e.CouponN, "Batch "+b.Name+": the load of its sample joint", s.units.Force, fix)
			s.put(&b.WoodPct, e.WoodPct, "Batch "+b.Name+": the wood on its sample joint", func(v float64) string { return figure(v) + " %" }, fix)
		}
	}
}

// batchOf returns which side's batch a sample joint on this line is of, or −1.
func (s *Summary) batchOf(e *Entry) int {
	switch {
	case !e.CouponN.OK && !e.WoodPct.OK:
		return -1
	case e.First.Batch == "" && e.Second.Batch != "":
		return 1
	case e.First.Batch != "" && e.Second.Batch != "" && same(e.First.Batch) != same(e.Second.Batch):
		s.tell(finding.Warning, e.Line, 1, CodeWhose, fmt.Sprintf("This line has a sample joint, and batches %s and %s: of which one it is cannot be known.", e.First.Batch, e.Second.Batch),
			"Write the sample joint on a line of its own, with its batch and without a rib.")
		return -1
	}
	return 0
}

func later(was, is Value) Value {
	if is.OK {
		return is
	}
	return was
}

// put keeps a figure; one that was said before, and otherwise, is told.
func (s *Summary) put(to *Value, v Value, what string, written func(float64) string, fix string) {
	if !v.OK {
		return
	}
	if to.OK && math.Abs(to.V-v.V) > 1e-6*math.Abs(v.V) {
		s.tell(finding.Warning, v.Line, v.Column, CodeAgain, fmt.Sprintf("%s is %s here, and %s on line %d; the later line holds.", what, written(v.V), written(to.V), to.Line), fix)
	}
	*to = v
}

// figure writes a number for messages.
func figure(v float64) string { return strconv.FormatFloat(math.Round(v*1e3)/1e3+0, 'f', -1, 64) }

// rib returns the rib that a line is about.
func (s *Summary) rib(e *Entry) *Rib {
	kind := s.kindOf(e)
	for i := range s.Ribs {
		if r := &s.Ribs[i]; same(r.Name) == same(e.Rib) && r.Kind == kind {
			return r
		}
	}
	s.Ribs = append(s.Ribs, Rib{Name: e.Rib, Kind: kind, Line: e.Line})
	if kind < 0 {
		s.tell(finding.Warning, e.Line, 1, CodeKind, "Rib "+e.Rib+" is of no kind that the rib file has: it is held against no plan.",
			"Write one of these under kind: "+strings.Join(s.kindNames(), ", ")+".")
	}
	return &s.Ribs[len(s.Ribs)-1]
}

// kindOf finds the kind of a line's rib: by its kind, or by the first word of its name, taken for the name of a kind before those of
// single ribs; where there is one kind, it is that.
func (s *Summary) kindOf(e *Entry) int {
	if len(s.Plan.Kinds) == 1 {
		return 0
	}
	first, _, _ := strings.Cut(e.Rib, " ")
	for _, name := range []string{e.Kind, e.Rib, first} {
		if i := slices.IndexFunc(s.Plan.Kinds, func(k Kind) bool { return name != "" && same(k.Name) == same(name) }); i >= 0 {
			return i
		}
	}
	for _, name := range []string{e.Kind, e.Rib, first} {
		called := func(n string) bool { return name != "" && same(n) == same(name) }
		if i := slices.IndexFunc(s.Plan.Kinds, func(k Kind) bool { return slices.ContainsFunc(k.Also, called) }); i >= 0 {
			return i
		}
	}
	return -1
}

func (s *Summary) kindNames() []string {
	var out []string
	for _, k := range s.Plan.Kinds {
		out = append(out, k.Name)
	}
	return out
}

// batch returns the batch that a side was glued from. Adhesive of no batch is one by itself.
func (s *Summary) batch(g Glued, line int) *Batch {
	name := g.Batch
	if name == "" {
		name = fmt.Sprintf("of line %d", line)
		s.tell(finding.Warning, line, 1, CodeNoBatch, "This line has adhesive of no batch: it is counted as a batch of its own.", "Give the batch a number, and write it on its cup and on its sample joint.")
	}
	for i := range s.Batches {
		if same(s.Batches[i].Name) == same(name) {
			return &s.Batches[i]
		}
	}
	s.Batches = append(s.Batches, Batch{Name: name, Line: line})
	return &s.Batches[len(s.Batches)-1]
}

// checkRibs counts the sides of each batch, and the ribs.
func (s *Summary) checkRibs() {
	count := make([]int, len(s.Plan.Kinds))
	for _, r := range s.Ribs {
		for _, ref := range r.Batch {
			for i := range s.Batches {
				if s.Batches[i].Holds(ref) {
					s.Batches[i].Sides++
				}
			}
		}
		if r.Kind < 0 {
			continue
		}
		if count[r.Kind]++; count[r.Kind] == s.Plan.Kinds[r.Kind].Count+1 {
			k := s.Plan.Kinds[r.Kind]
			s.tell(finding.Note, r.Line, 1, CodeMore, strings.TrimSpace("Rib "+r.Name+" is one more than the "+strconv.Itoa(k.Count)+" of the rib file. "+k.Name), "Look for a rib that stands under two numbers, or mend count under [rib].")
		}
	}
}

// checkBatches tells what is wrong with batches: each that failed by itself, of the rest all together.
func (s *Summary) checkBatches() {
	var off, none, early []*Batch
	for i := range s.Batches {
		b := &s.Batches[i]
		b.Broken, b.Failed = b.WoodPct.OK, b.WoodPct.OK && b.WoodPct.V < s.Plan.WoodPct-1e-9
		if b.AG.OK && b.BG.OK {
			b.RatioOff = math.Inf(1)
			if b.BG.V > 0 && s.Plan.RatioB > 0 {
				b.RatioOff = b.AG.V/b.BG.V/(s.Plan.RatioA/s.Plan.RatioB) - 1
			}
			if math.Abs(b.RatioOff) > s.Plan.RatioTolerance+1e-9 {
				off = append(off, b)
			}
		}
		switch {
		case !b.Broken:
			none = append(none, b)
		case b.Failed:
			s.tell(finding.Error, b.WoodPct.Line, b.WoodPct.Column, CodeCouponFailed, fmt.Sprintf("Batch %s: its sample joint failed in the wood on %s %% of its face, and must on %s %%. Glued from it: %s.",
				b.Name, figure(b.WoodPct.V), figure(s.Plan.WoodPct), s.ribsOf(b)), "Set these ribs aside, and ask your inspector and the adhesive's maker what becomes of them.")
		case b.CouponN.OK && b.CouponN.V < s.Plan.CouponN:
			early = append(early, b)
		}
	}
	s.tellRatio(off)
	if len(none) > 0 {
		s.tell(finding.Warning, none[0].Line, 1, CodeCoupon, batchNames(none)+": no sample joint is in the log that tells how much of the face is wood.",
			"Break it when it has cured, and write the load (coupon_load_n) and the torn wood on its face (wood_failure_percent).")
	}
	if len(early) > 0 {
		s.tell(finding.Note, early[0].CouponN.Line, early[0].CouponN.Column, CodeCouponLoad, fmt.Sprintf("%s: the sample joint failed in the wood, but before %s, the load that it should carry.",
			batchNames(early), s.units.Force(s.Plan.CouponN)), "Look at the grain of its strips, and at how true it was pulled.")
	}
}

// tellRatio tells of the batches whose parts were not weighed in their ratio, and of the worst.
func (s *Summary) tellRatio(off []*Batch) {
	if len(off) == 0 {
		return
	}
	worst := slices.MaxFunc(off, func(a, b *Batch) int { return cmp.Compare(math.Abs(a.RatioOff), math.Abs(b.RatioOff)) })
	part, by := "A", "without end"
	if worst.RatioOff < 0 {
		part = "B"
	}
	if !math.IsInf(worst.RatioOff, 0) {
		by = "by " + figure(math.Round(1000*math.Abs(worst.RatioOff))/10) + " %"
	}
	which := ""
	if len(off) > 1 {
		which = "; most in batch " + worst.Name
	}
	s.tell(finding.Warning, off[0].AG.Line, off[0].AG.Column, CodeRatio, fmt.Sprintf("%s: A over B is off by more than %s %%%s: %s of A on %s of B has too much %s, %s.",
		batchNames(off), figure(100*s.Plan.RatioTolerance), which, s.units.Mass(worst.AG.V), s.units.Mass(worst.BG.V), part, by),
		"Break the sample joint before anything is built on it, and ask the adhesive's maker what such a ratio costs.")
}

// batchNames lists batches: "Batches 4, 6 and 8".
func batchNames(all []*Batch) string {
	var names []string
	for _, b := range all {
		names = append(names, b.Name)
	}
	if n := len(names); n > 1 {
		return "Batches " + strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return "Batch " + names[0]
}

// ribsOf names the ribs that were glued from a batch.
func (s *Summary) ribsOf(b *Batch) string {
	var out []string
	for _, r := range s.Ribs {
		if slices.ContainsFunc(r.Batch[:], b.Holds) {
			out = append(out, "rib "+r.Name)
		}
	}
	if len(out) == 0 {
		return "no rib that the log names"
	}
	return strings.Join(out, ", ")
}

// Glued returns how many ribs of a kind have their first and second side glued, and how many are weighed. A rib that is
// weighed is glued.
func (s *Summary) Glued(kind int) (first, second, weighed int) {
	for _, r := range s.Ribs {
		if r.Kind != kind {
			continue
		}
		if r.Batch[0].Name != "" || r.Batch[1].Name != "" || r.MassG.OK {
			first++
		}
		if r.Batch[1].Name != "" || r.MassG.OK {
			second++
		}
		if r.MassG.OK {
			weighed++
		}
	}
	return first, second, weighed
}

// Used is the adhesive of the log against the plan, g.
type Used struct {
	AG, BG     float64 // weighed
	PlanG      float64 // to mix, by the plan, for the sides whose batch the log has, and for a sample joint of each batch
	Sides      int     // of these
	Unweighed  int     // batches of which a part is missing
	WholeG     float64 // to mix for every rib planned, without sample joints
	RemainderG float64 // for the sides still to be glued
}

// Adhesive returns what was used.
func (s *Summary) Adhesive() Used {
	var u Used
	for _, b := range s.Batches {
		u.AG, u.BG = u.AG+b.AG.V, u.BG+b.BG.V
		if !b.AG.OK || !b.BG.OK {
			u.Unweighed++
		}
		u.PlanG += s.Plan.CouponG
	}
	for _, r := range s.Ribs {
		for side, ref := range r.Batch {
			if ref.Name != "" && r.Kind >= 0 {
				u.PlanG += s.Plan.Kinds[r.Kind].SidesG[side]
				u.Sides++
			}
		}
	}
	for i, k := range s.Plan.Kinds {
		first, second, _ := s.Glued(i)
		u.WholeG += float64(float64(k.Count) * (k.SidesG[0] + k.SidesG[1]))
		u.RemainderG += float64(float64(max(0, k.Count-first))*k.SidesG[0]) + float64(float64(max(0, k.Count-second))*k.SidesG[1])
	}
	return u
}
