package cut

import (
	"fmt"
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/pack"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// Bars is how the caps and the sticks of a set are sawn from bars. Blocks are left to the builder: they come from
// what is at hand.
type Bars struct {
	Stock  ribfile.Stock
	Jobs   []BarJob // one for each section of wood
	Scarfs []Scarf  // where caps are longer than the bars
}

// BarJob is the pieces of one section of wood, the bars they are sawn from, and the plan.
type BarJob struct {
	Of           string // "caps", "sticks" or "both"
	Depth, Width float64
	Material     string
	Pieces       []BarPiece
	Kinds        []BarKind
	Plan         pack.BarPlan // as of Pieces and Kinds; empty until Planned
	Err          error        // why there is no plan
}

// BarKind is a kind of bar.
type BarKind struct {
	Name    string // "2400 mm"
	Length  float64
	Count   int     // 0: as many as needed
	Price   float64 // of one; 0: not given
	Assumed bool    // the rib file names none for these pieces
	bar     int     // index in Stock.Bars; −1 where it is assumed
}

// BarPiece is pieces of wood that are alike: sticks of any of the ribs, or a cap, or a part of a scarfed one.
type BarPiece struct {
	IDs    []string // as on the drawings
	Cap    bool
	Count  int
	Length float64      // over everything: of sticks the long point, of caps with what is trimmed and the scarfs
	Cuts   [2][]float64 // the saw cuts at either end, radians from square; none: square, or a scarf's to be planed
	// Outline is a stick as it lies along x, from the corner of its box on; empty: a cap's strip.
	Outline geom.Ring
}

// Name is what the piece is called in a list or on a diagram.
func (p BarPiece) Name() string {
	if len(p.IDs) > 1 {
		return p.IDs[0] + "…"
	}
	return p.IDs[0]
}

// ends returns the angles by which pieces may share a cut. An end of several cuts, or one flatter than a saw is set to,
// is no single straight cut.
func (p BarPiece) ends() [2]float64 {
	const flattest = 80 * math.Pi / 180
	var out [2]float64
	for i, c := range p.Cuts {
		if len(c) == 1 && math.Abs(c[0]) < flattest {
			out[i] = c[0]
		}
	}
	return out
}

// customaryBar is the bar where the rib file names none: as many as needed (common practice, no source).
func customaryBar(doc *ribfile.Doc) ribfile.Bar {
	if doc.Units == ribfile.Inch {
		return ribfile.Bar{Length: 96 * ribfile.MMPerInch}
	}
	return ribfile.Bar{Length: 2400}
}

// NewBars gathers the pieces of a set and the bars for them, and scarfs the caps that are longer than these. It plans no
// cuts yet.
func NewBars(set rib.Set) Bars {
	doc := set.Shared()
	b := Bars{Stock: doc.Stock}
	apart := slices.ContainsFunc(doc.Stock.Bars, func(k ribfile.Bar) bool { return k.Of != "both" })
	for _, e := range set {
		b.job(doc, apart, section{"caps", e.Rib.CapDepth, e.Rib.CapWidth, e.Doc.Cap.Material})
		if len(e.Rib.Sticks) > 0 {
			b.job(doc, apart, section{"sticks", e.Rib.PlyDepth(), e.Rib.StickWidth, e.Doc.Stick.Material})
		}
	}
	for i := range b.Jobs {
		j := &b.Jobs[i]
		if j.Of != "sticks" {
			b.caps(set, j)
		}
		if j.Of != "caps" {
			j.sticks(set)
		}
	}
	return b
}

// section is what a bar must be to serve.
type section struct {
	of           string
	depth, width float64
	material     string
}

// job adds a job for a section of wood, unless there is one. Caps and sticks of one section are sawn together, but where bars
// are named for one of them alone.
func (b *Bars) job(doc *ribfile.Doc, apart bool, s section) {
	for i := range b.Jobs {
		j := &b.Jobs[i]
		if j.isOf(s.depth, s.width, s.material) && (j.Of == s.of || !apart) {
			if j.Of != s.of {
				j.Of = "both"
			}
			return
		}
	}
	j := BarJob{Of: s.of, Depth: s.depth, Width: s.width, Material: s.material}
	add := func(i int, k ribfile.Bar) {
		j.Kinds = append(j.Kinds, BarKind{Name: doc.Length(k.Length), Length: k.Length, Count: k.Count, Price: k.Price, Assumed: i < 0, bar: i})
	}
	for i, k := range doc.Stock.Bars {
		if k.Of == "both" || k.Of == s.of {
			add(i, k)
		}
	}
	if len(j.Kinds) == 0 {
		add(-1, customaryBar(doc))
	}
	b.Jobs = append(b.Jobs, j)
}

// isOf reports whether the job's bars are of a section of wood.
func (j *BarJob) isOf(depth, width float64, material string) bool {
	return math.Abs(j.Depth-depth) < geom.Step && math.Abs(j.Width-width) < geom.Step && j.Material == material
}

func (j *BarJob) holdsCaps(e rib.Entry) bool {
	return j.Of != "sticks" && j.isOf(e.Rib.CapDepth, e.Rib.CapWidth, e.Doc.Cap.Material)
}

func (j *BarJob) holdsSticks(e rib.Entry) bool {
	return j.Of != "caps" && j.isOf(e.Rib.PlyDepth(), e.Rib.StickWidth, e.Doc.Stick.Material)
}

// sticks adds the sticks of all ribs, alike ones of any rib together; of doubled sticks each strip.
func (j *BarJob) sticks(set rib.Set) {
	var all []rib.Stick
	var of []int // the entry of each
	for i, e := range set {
		if j.holdsSticks(e) {
			for _, s := range e.Rib.Pieces() {
				all, of = append(all, s), append(of, i)
			}
		}
	}
	for _, alike := range rib.Alike(all) {
		first := all[alike[0]]
		p := BarPiece{Length: first.LongPoint, Outline: first.OnBench()}
		for i, e := range first.Ends {
			for _, c := range e.Cuts {
				p.Cuts[i] = append(p.Cuts[i], c.Angle)
			}
		}
		for _, k := range alike {
			e := set[of[k]]
			p.IDs = append(p.IDs, e.Part(all[k].ID))
			p.Count += e.Rib.Count
		}
		j.Pieces = append(j.Pieces, p)
	}
}

// caps adds the caps of all ribs, each with its allowance, in parts where it is longer than the bars.
func (b *Bars) caps(set rib.Set, j *BarJob) {
	n := 0
	for _, e := range set {
		if j.holdsCaps(e) {
			n += len(e.Rib.Caps) * e.Rib.Count
		}
	}
	for i, e := range set {
		if !j.holdsCaps(e) {
			continue
		}
		var made []Scarf // of this rib
		for _, c := range e.Rib.Caps {
			whole := c.Length + b.Stock.Allowance
			p := BarPiece{IDs: []string{e.Part(c.ID)}, Cap: true, Count: e.Rib.Count, Length: whole}
			usable := b.reach(j, whole, n)
			if whole <= usable {
				j.Pieces = append(j.Pieces, p)
				continue
			}
			parts, scarfs := scarfed(e, c, usable, made)
			if parts == nil {
				j.Pieces = append(j.Pieces, p) // no bar holds it: the plan tells
				continue
			}
			for k, l := range parts {
				j.Pieces = append(j.Pieces, BarPiece{IDs: []string{fmt.Sprintf("%s-%d", p.IDs[0], k+1)}, Cap: true, Count: p.Count, Length: l})
			}
			for _, s := range scarfs {
				s.Entry = i
				made = append(made, s)
			}
		}
		b.Scarfs = append(b.Scarfs, made...)
	}
}

// reach returns the length that a cap's parts may have: that of the longest bar, between its trimmed ends, where enough of
// such bars are there for n caps of the length given; else that of the longest of which there are as many as needed.
func (b *Bars) reach(j *BarJob, length float64, n int) float64 {
	longest, endless, room := 0.0, 0.0, 0
	for _, k := range j.Kinds {
		usable := b.usable(k)
		longest = math.Max(longest, usable)
		if k.Count == 0 {
			endless = math.Max(endless, usable)
		} else if usable >= length {
			room += k.Count * int((usable+b.Stock.Kerf)/(length+b.Stock.Kerf))
		}
	}
	if room >= n || endless == 0 {
		return longest
	}
	return endless
}

// usable is a bar's length between its trimmed ends.
func (b *Bars) usable(k BarKind) float64 { return k.Length - float64(2*b.Stock.Trim) }

// Planned returns the bars with a plan for each job: the fewest bars, or the least cost where bars have prices.
func (b Bars) Planned() Bars {
	b.Jobs = slices.Clone(b.Jobs)
	for i := range b.Jobs {
		j := &b.Jobs[i]
		b.rest(i)
		job := pack.BarJob{Kerf: b.Stock.Kerf, Trim: b.Stock.Trim, Offcut: b.Stock.Offcut}
		for _, p := range j.Pieces {
			job.Pieces = append(job.Pieces, pack.BarPiece{ID: p.IDs[0], Length: p.Length, Count: p.Count, Ends: p.ends(), Depth: j.Depth})
		}
		for _, k := range j.Kinds {
			job.Stock = append(job.Stock, pack.BarStock{Length: k.Length, Count: k.Count, Price: k.Price})
		}
		j.Plan, j.Err = cutBars(job)
	}
	return b
}

// rest takes what earlier jobs of the same section use off the bars that are counted and serve both.
func (b Bars) rest(i int) {
	j := &b.Jobs[i]
	j.Kinds = slices.Clone(j.Kinds)
	for _, o := range b.Jobs[:i] {
		if !o.isOf(j.Depth, j.Width, j.Material) || o.Err != nil {
			continue
		}
		for k, kind := range o.Kinds {
			m := slices.IndexFunc(j.Kinds, func(other BarKind) bool { return other.bar == kind.bar && kind.Count > 0 })
			if m < 0 {
				continue
			}
			if j.Kinds[m].Count -= o.Plan.Buy[k]; j.Kinds[m].Count == 0 {
				j.Kinds = slices.Delete(j.Kinds, m, m+1)
			}
		}
	}
}

// Missing returns how many of each piece are in no bar: the bars are too short, or too few.
func (j BarJob) Missing() []int {
	out := make([]int, len(j.Pieces))
	if j.Err != nil {
		for i, p := range j.Pieces {
			out[i] = p.Count
		}
		return out
	}
	copy(out, j.Plan.Missing)
	for _, i := range j.Plan.TooLong {
		out[i] = j.Pieces[i].Count
	}
	return out
}

// Angles returns the saw's angles at the left and the right end of a piece as it lies in its bar, radians from square,
// counter-clockwise; ok is false for an end of several cuts.
func (j BarJob) Angles(c pack.BarCut) (angle [2]float64, ok [2]bool) {
	cuts := j.Pieces[c.Piece].Cuts
	if c.Turned {
		cuts[0], cuts[1] = cuts[1], cuts[0]
	}
	for i, k := range cuts {
		ok[i] = len(k) < 2
		if len(k) == 1 {
			angle[i] = k[0]
			if c.Over {
				angle[i] = -angle[i]
			}
		}
	}
	return angle, ok
}

// Lies returns the outline of a piece as it lies in its bar, in axes along the bar and across it from its corner.
func (j BarJob) Lies(c pack.BarCut) geom.Ring {
	p := j.Pieces[c.Piece]
	out := p.Outline
	if len(out) == 0 {
		out = geom.Ring{{}, {X: p.Length}, {X: p.Length, Y: j.Depth}, {Y: j.Depth}}
	}
	box := out.Box()
	turn := geom.Move(geom.Pt{})
	if c.Turned {
		turn = turn.Then(geom.Zoom(-1, -1)).Then(geom.Move(geom.Pt{X: box.W(), Y: box.H()}))
	}
	if c.Over {
		turn = turn.Then(geom.Zoom(1, -1)).Then(geom.Move(geom.Pt{Y: box.H()}))
	}
	return turn.Then(geom.Move(geom.Pt{X: c.From})).Pts(out)
}

// BarUse is a different bar of the plan: all that are sawn alike.
type BarUse struct {
	Job int // index in Jobs
	pack.BarPattern
}

// Uses returns the different bars, job by job, in the order in which they are numbered from 1.
func (b Bars) Uses() []BarUse {
	var out []BarUse
	for i, j := range b.Jobs {
		for _, p := range j.Plan.Patterns {
			out = append(out, BarUse{i, p})
		}
	}
	return out
}

// Wood names the section of a job's bars: "6 × 12 mm sitka-spruce".
func (j BarJob) Wood(doc *ribfile.Doc) string {
	return doc.Number(j.Depth) + " × " + doc.Length(j.Width) + " " + j.Material
}
