// Package session plans how many sessions at the bench a set of ribs takes, and which sides of which ribs each does. It
// knows no calendar: a session is the time between two waits for the adhesive.
//
// Times are minutes. A first side takes the laying of its sticks and the pace of a side, a second side the pace; the
// builder does one after the other. Where staples or nails hold a rib, it comes out of the jig at once, and its
// second side may follow in the same session. Where it waits in the jig, a jig does one rib in a session, and the
// second side follows in the next session at the earliest, the cure between them. So it is with a rib that has no plates on its first
// side, such as a right one whose plates lie on its far face: nothing holds its joints but the jig. The plan lays no ribs out and draws nothing.
package session

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// Side is one side of one rib.
type Side struct {
	Entry int // of the set
	Rib   int // of its kind, from 1
	Face  int // 0: the first side, with the stick ends; 1: the second
}

// Session is one time at the bench: first sides, then second ones.
type Session struct {
	Number  int // from 1
	Sides   []Side
	WorkMin float64 // that they take
}

// On returns the sides of a face.
func (s Session) On(face int) []Side {
	var out []Side
	for _, one := range s.Sides {
		if one.Face == face {
			out = append(out, one)
		}
	}
	return out
}

// Plan is the sessions in order of work. It has none where the rib file says no time, or one in which no side can be done.
type Plan struct {
	Spec     ribfile.Session
	Ribs     int
	FaceMin  [2]float64 // that a first and a second side take
	Sessions []Session
	Unheld   []string // kinds of rib whose plates neither staples nor nails hold; "" is that of a set of one
}

// Waits reports whether ribs wait in the jig, so that no second side is glued in the session of its first.
func (p Plan) Waits() bool { return p.Spec.InJig == "cure" }

// hair forgives what rounding does to a limit that is just kept.
const hair = 1e-9

// Of returns the plan for a set of ribs: the fewest sessions; of those, the ones between which fewest ribs lie about with
// one side glued; and of those, sessions as even as can be, larger ones first.
func Of(set rib.Set) Plan {
	doc := set.Shared()
	p := Plan{Spec: doc.Session, Ribs: set.Ribs(), FaceMin: [2]float64{doc.Session.Lay + doc.Batch.Pace, doc.Batch.Pace}}
	for _, e := range set {
		if e.Doc.Fastener.Kind == "none" && e.Doc.Session.InJig != "cure" {
			p.Unheld = append(p.Unheld, e.Name)
		}
	}
	if p.Spec.Time == 0 || p.FaceMin[0] > p.Spec.Time*(1+hair) {
		return p
	}
	firsts, seconds, bare := sidesOf(set)
	b := newBench(p, firsts, seconds, bare)
	for f, s := 0, 0; f < len(firsts) || s < len(seconds); {
		x, y := b.next(f, b.ready[f]-s)
		one := Session{Number: len(p.Sessions) + 1, WorkMin: b.minutes(x, y)}
		one.Sides = append(append(one.Sides, firsts[f:f+x]...), seconds[s:s+y]...)
		p.Sessions = append(p.Sessions, one)
		f, s = f+x, s+y
	}
	return p
}

// sidesOf lists the first sides of all ribs, in their order, and the second sides of those that have plates or a web there. bare are
// the places among firsts of those that wait in the jig in any case: they have none, or no fasteners of their own hold them.
func sidesOf(set rib.Set) (firsts, seconds []Side, bare []int) {
	for i, e := range set {
		covered := [2]bool{e.Rib.Covered(0), e.Rib.Covered(1)} // of left ribs
		for n := range e.Rib.Count {
			on := covered
			if e.Rib.Right(n + 1) {
				on[0], on[1] = on[1], on[0]
			}
			if !on[0] || e.Doc.Session.InJig == "cure" {
				bare = append(bare, len(firsts))
			}
			firsts = append(firsts, Side{Entry: i, Rib: n + 1})
			if on[1] {
				seconds = append(seconds, Side{Entry: i, Rib: n + 1, Face: 1})
			}
		}
	}
	return firsts, seconds, bare
}

// rest is what the best plan still takes from a state on.
type rest struct {
	sessions int
	lying    int // ribs with one side glued, added up over the ends of sessions
	squares  int // of the sides of each session: their least sum makes sessions even
	firsts   int // of the session that comes next
}

func (a rest) compare(b rest) int {
	return cmp.Or(cmp.Compare(a.sessions, b.sessions), cmp.Compare(a.lying, b.lying), cmp.Compare(a.squares, b.squares))
}

// bench works the plan out from its end. A state is how many first sides are done, and how many of those ribs wait for
// their second side. The more second sides a session does the better, so only the count of its first sides is tried.
type bench struct {
	time, first, second float64
	most                int   // first sides in a session
	waiting, last       []int // by the count of first sides done: the next that waits in the jig, and the last for which there is a jig
	ready               []int // by the count of first sides done: how many second sides belong to them
	window              int   // states with more waiting ribs than this are not looked at
	after               [][]rest
}

const never = math.MaxInt / 4

// newBench takes the sides in the order of work; bare are the places among firsts of those that wait in the jig in any case.
func newBench(p Plan, firsts, seconds []Side, bare []int) *bench {
	b := &bench{time: p.Spec.Time, first: p.FaceMin[0], second: p.FaceMin[1], ready: make([]int, len(firsts)+1)}
	b.most = min(len(firsts), times(b.time, b.first))
	for f := range len(firsts) + 1 {
		k, _ := slices.BinarySearch(bare, f)
		switch {
		case p.Waits():
			b.waiting, b.last = append(b.waiting, f), append(b.last, f+p.Spec.Jigs)
		case k+p.Spec.Jigs <= len(bare):
			b.waiting, b.last = append(b.waiting, bare[k]), append(b.last, bare[k+p.Spec.Jigs-1]+1)
		case k < len(bare):
			b.waiting, b.last = append(b.waiting, bare[k]), append(b.last, len(firsts))
		default:
			b.waiting, b.last = append(b.waiting, len(firsts)), append(b.last, len(firsts))
		}
	}
	for f, side := range firsts {
		n := b.ready[f]
		if n < len(seconds) && seconds[n].Entry == side.Entry && seconds[n].Rib == side.Rib {
			n++
		}
		b.ready[f+1] = n
	}
	// Sessions can always be put in an order in which no more ribs wait than two of them turn out.
	b.window = min(len(seconds), 2*times(b.time, b.second)+2)
	b.after = make([][]rest, len(firsts)+1)
	for f := len(firsts); f >= 0; f-- {
		b.after[f] = make([]rest, b.window+1)
		for waiting := range b.after[f] {
			if f < len(firsts) || waiting > 0 {
				b.after[f][waiting] = b.best(f, waiting)
			}
		}
	}
	return b
}

// times is how often a time goes into another.
func times(all, one float64) int { return int(math.Floor(all/one + hair)) }

func (b *bench) minutes(firsts, seconds int) float64 {
	return float64(float64(firsts)*b.first) + float64(float64(seconds)*b.second)
}

// second sides that a session with so many first sides does: each in its turn, those of ribs that wait in the jig not yet.
func (b *bench) seconds(f, waiting, firsts int) int {
	waiting += b.ready[min(f+firsts, b.waiting[f])] - b.ready[f]
	return min(waiting, times(b.time-float64(float64(firsts)*b.first), b.second))
}

// best returns the best plan from a state on.
func (b *bench) best(f, waiting int) rest {
	out := rest{sessions: never}
	for x := 0; x <= b.most && f+x < len(b.after) && f+x <= b.last[f]; x++ {
		y := b.seconds(f, waiting, x)
		left := waiting + b.ready[f+x] - b.ready[f] - y
		if x+y == 0 || left > b.window {
			continue
		}
		then := b.after[f+x][left]
		one := rest{then.sessions + 1, then.lying + left, then.squares + (x+y)*(x+y), x}
		if then.sessions < never && one.compare(out) <= 0 {
			out = one
		}
	}
	return out
}

// next returns how many first and second sides the session does that comes next.
func (b *bench) next(f, waiting int) (firsts, seconds int) {
	x := b.after[f][waiting].firsts
	return x, b.seconds(f, waiting, x)
}

// Names lists sides for people, runs of ribs together: "1–4", or "R2 5–6, R3 1" where the set has several kinds. Where sides of
// both faces stand together, it says which: "5 (side 1), 4 (side 2)".
func Names(set rib.Set, sides []Side) string {
	both := false
	for _, s := range sides {
		both = both || s.Face != sides[0].Face
	}
	out := ""
	for i := 0; i < len(sides); {
		s, n := sides[i], 1
		for i+n < len(sides) && sides[i+n] == (Side{s.Entry, s.Rib + n, s.Face}) {
			n++
		}
		name := fmt.Sprint(s.Rib)
		if n > 1 {
			name += fmt.Sprintf("–%d", s.Rib+n-1)
		}
		if out != "" {
			out += ", "
		}
		out += set[s.Entry].Part(name)
		if both {
			out += fmt.Sprintf(" (side %d)", s.Face+1)
		}
		i += n
	}
	return out
}
