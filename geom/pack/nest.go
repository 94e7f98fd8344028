package pack

import (
	"math"
	"slices"

	"ribwright/geom"
)

// Part is a kind of plate to be nested: its outline and how many are wanted.
type Part struct {
	ID      string
	Outline geom.Path // closed, does not cross itself; lines and arcs, so that a circle stays a circle
	Count   int       // copies; 0: none
	Angles  []float64 // turns allowed, radians, counter-clockwise; empty: only as drawn
}

// Sheet is a kind of sheet, whole or an offcut.
type Sheet struct {
	ID      string
	Outline geom.Ring   // any polygon that does not cross itself, in either direction
	Holes   []geom.Ring // what is missing from it: knots, cut-outs
	Count   int         // how many there are; 0: as many as needed
	Price   float64     // of one; where no sheet has a price its area stands for it. Sheets of price 0 among priced ones are taken first
}

// NestJob is what to nest.
type NestJob struct {
	Parts  []Part
	Sheets []Sheet
	Gap    float64 // least distance between two parts
	Margin float64 // least distance from a part to the edge of a sheet or of its hole

	// Effort is how long to look for a better layout, in steps: a step is one position of a part, held
	// against its neighbours. Steps are counted, not timed, so that the same job gives the same layout.
	// 0: DefaultEffort. A layout that is complete comes whatever the effort.
	Effort int
	// Stop, where it is set, is asked now and then; once it says true the best layout so far is returned.
	// A layout that was stopped depends on the processor's speed.
	Stop func() bool
	// Progress, where it is set, is told now and then how many steps of all are done.
	Progress func(done, all int)
}

// MostCopies is how many copies a job may have of all parts together.
const MostCopies = 100_000

// DefaultEffort is the effort where a job states none.
const DefaultEffort = 2_000_000

// Placed is one part in its place: its outline is turned by Angle about the part's own origin (the point 0, 0 of
// its outline), and then moved by At, in the axes of the sheet's outline.
type Placed struct {
	Part  int     // index in NestJob.Parts
	Copy  int     // from 0, in the order of the layout
	Sheet int     // index in NestJob.Sheets
	Use   int     // index in Layout.Uses
	Angle float64 // one of the part's angles
	At    geom.Pt
}

// Transform returns the map from the part's own axes to those of the sheet.
func (p Placed) Transform() geom.Transform {
	return turn(p.Angle).Then(geom.Move(p.At))
}

// Use is one sheet that is cut.
type Use struct {
	Sheet        int     // index in NestJob.Sheets
	Parts        int     // parts on it
	PartsAreaMM2 float64 // their areas
	SheetAreaMM2 float64 // its area, holes taken off
}

// Density returns the share of the sheet that the parts cover.
func (u Use) Density() float64 {
	if u.SheetAreaMM2 == 0 {
		return 0
	}
	return u.PartsAreaMM2 / u.SheetAreaMM2
}

// Reason says why copies of a part were not placed.
type Reason int

// The reasons.
const (
	NoReason    Reason = iota
	BadOutline         // the outline is open, has no area, crosses itself or holds what is not a number
	BadJob             // gap or margin is negative or not a number
	NoSheet            // the job has no sheet that can be cut
	TooLarge           // larger than every sheet, at every angle allowed
	SheetsUsed         // it fits, but all sheets are used up
	TooWide            // (Strip) wider than the strip at every angle allowed
	TooMany            // more copies, of all parts together, than MostCopies
	reasonCount        // how many there are
)

var reasonTexts = [reasonCount]string{
	"", "its outline cannot be cut", "gap or margin cannot be kept", "there is no sheet",
	"larger than every sheet", "no sheets are left", "wider than the strip", "more copies than can be laid at once",
}

// String returns the reason in plain words.
func (r Reason) String() string {
	if r < 0 || r >= reasonCount {
		return ""
	}
	return reasonTexts[r]
}

// Unplaced is a part of which copies are missing from the layout.
type Unplaced struct {
	Part  int // index in NestJob.Parts
	Count int // copies missing
	Why   Reason
}

// Layout is where everything lies.
type Layout struct {
	Placed   []Placed // sheet by sheet
	Uses     []Use    // the sheets cut, in the order of filling
	Unplaced []Unplaced
	// BadSheets are those that were left out (indices in NestJob.Sheets): the outline or a hole crosses itself, has no area or
	// holds what is not a number, or nothing is left within the margin.
	BadSheets []int
	Steps     int // spent
}

// Density returns the share of all the sheets cut that the parts cover.
func (l Layout) Density() float64 {
	var parts, sheets float64
	for _, u := range l.Uses {
		parts += u.PartsAreaMM2
		sheets += u.SheetAreaMM2
	}
	if sheets == 0 {
		return 0
	}
	return parts / sheets
}

// Nest lays the parts out on the sheets. What cannot be placed is in Layout.Unplaced, with the reason.
// Parts keep the gap and the margin to within geom.Coincident.
func Nest(job NestJob) Layout {
	b, why := newBench(job)
	l := Layout{BadSheets: b.badSheets}
	if seq := b.sequence(why, &l); len(seq) > 0 {
		b.search(seq).write(b, &l)
	}
	l.Steps = b.steps
	return l
}

// sequence returns the index of the part of every copy that is to be laid, and notes the others as missing.
func (b *bench) sequence(why []Reason, l *Layout) []int {
	var seq []int
	for i, p := range b.job.Parts {
		if p.Count > 0 && why[i] == NoReason && p.Count > MostCopies-len(seq) {
			why[i] = TooMany
		}
		switch {
		case p.Count <= 0:
		case why[i] != NoReason:
			l.Unplaced = append(l.Unplaced, Unplaced{i, p.Count, why[i]})
		default:
			seq = append(seq, slices.Repeat([]int{i}, p.Count)...)
		}
	}
	return seq
}

// turn returns the turn about the origin; quarter turns are exact.
func turn(a float64) geom.Transform {
	t := geom.Turn(geom.Pt{}, a)
	for _, v := range []*float64{&t.A, &t.B, &t.C, &t.D} {
		if r := math.Round(*v); math.Abs(*v-r) < 1e-12 {
			*v = r + 0 // no −0
		}
	}
	return t
}
