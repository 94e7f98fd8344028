package pack

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// BarPiece is a kind of piece to be sawn from bars.
type BarPiece struct {
	ID     string
	Length float64 // over everything: long point to long point
	Count  int     // 0: none

	// Ends are the saw's angles at the first and the other end: radians from square, counter-clockwise as the
	// piece lies along x with its first end to the left, so that equal ends are parallel cuts. An end that is no
	// single straight cut is 0: its wedge then belongs to the piece.
	Ends [2]float64
	// Depth is the bar's, in the plane of the angled cuts. 0: no piece is laid into the slope of another.
	Depth float64
}

// BarStock is a kind of bar.
type BarStock struct {
	Length float64
	Count  int     // how many there are; 0: as many as needed
	Price  float64 // of one; 0: none. Among priced bars those without a price cost nothing: they are in hand
}

// BarJob is what to saw, and from what.
type BarJob struct {
	Pieces []BarPiece
	Stock  []BarStock
	Kerf   float64 // of the saw
	Trim   float64 // what goes off each end of a bar first, the saw's cut included
	Offcut float64 // shortest that is worth keeping

	// Effort is how long to look for fewer bars and for the proof that there are none, in steps: a step is about
	// one piece tried in one bar. Steps are counted, not timed, so that a job gives the same plan everywhere.
	// 0: DefaultBarEffort.
	Effort int
}

// DefaultBarEffort is the effort where a job states none: some seconds at the most.
const DefaultBarEffort = 40_000_000

// BarCut is one piece in its place in a bar.
type BarCut struct {
	Piece  int     // index in BarJob.Pieces
	From   float64 // from the end of the untrimmed bar to the piece's first point
	Turned bool    // end for end: its second end comes first
	Over   bool    // turned over about its length: its slopes lean the other way
	Shared bool    // the cut before it is the last piece's too: both lie in one slope
}

// BarPattern is how one bar, or several alike, are sawn.
type BarPattern struct {
	Stock int      // index in BarJob.Stock
	Count int      // bars sawn so
	Cuts  []BarCut // in order along the bar
	Used  float64  // from the first piece's first point to the last one's last
	Kerfs int      // saw cuts in one bar: one between two pieces, one before an offcut
	Left  float64  // the offcut of one bar, clear of trim and kerf
	Keep  bool     // the offcut is worth keeping
}

// BarPlan is the answer.
type BarPlan struct {
	Patterns []BarPattern
	Bars     int     // how many are sawn
	Cost     float64 // of those that have a price
	Buy      []int   // bars of each BarJob.Stock

	// Bound is what no plan can be below: bars, or where there are prices, cost. Least says that the plan is proved to
	// need no more than any other. Both count shared slopes in full: the bound is of bars laid in their best order.
	Bound float64
	Least bool

	// TooLong are the pieces that no bar holds. Short is the number of bars of the longest kind by which the stock
	// falls short; Missing says which pieces then have no place, by piece.
	TooLong []int
	Short   int
	Missing []int
	Steps   int // effort spent
}

// CutBars plans the cutting: the fewest bars, or the least cost where any bar has a price. Plans that are alike in
// that take the shorter bars, and leave their waste in as few bars as can be.
func CutBars(job BarJob) (BarPlan, error) {
	if err := job.check(); err != nil {
		return BarPlan{}, err
	}
	m, tooLong := newBarModel(job)
	s := &barSearch{m: m, effort: job.Effort}
	if s.effort == 0 {
		s.effort = DefaultBarEffort
	}
	s.run()
	p := m.plan(s)
	p.TooLong = tooLong
	return p, nil
}

// MostBarPieces is how many pieces a job may have: it keeps sums of steps and costs within what an int64 holds.
const MostBarPieces = 20_000

func (job BarJob) check() error {
	size := func(what string, v, least, most float64) error {
		if !(v >= least && v <= most) {
			return fmt.Errorf("%s is %g, not from %g to %g", what, v, least, most)
		}
		return nil
	}
	var errs []error
	total := 0
	for _, p := range job.Pieces {
		errs = append(errs, size("length of "+p.ID, p.Length, 0.01, 1e6), size("depth of "+p.ID, p.Depth, 0, 1e5))
		for _, a := range p.Ends {
			errs = append(errs, size("an end's angle of "+p.ID, math.Abs(a), 0, 89*math.Pi/180))
		}
		errs = append(errs, size("count of "+p.ID, float64(p.Count), 0, MostBarPieces))
		total += max(0, min(p.Count, MostBarPieces))
	}
	for _, b := range job.Stock {
		errs = append(errs, size("a bar's length", b.Length, 0.01, 1e6), size("a bar's price", b.Price, 0, 1e6),
			size("a bar's count", float64(b.Count), 0, MostBarPieces))
	}
	errs = append(errs, size("count of pieces", float64(total), 0, MostBarPieces), size("kerf", job.Kerf, 0, 1e4),
		size("trim", job.Trim, 0, 1e5), size("offcut", job.Offcut, 0, 1e6))
	errs = slices.DeleteFunc(errs, func(e error) bool { return e == nil })
	return errors.Join(errs...)
}
