package ribfile

// Session is [session]: an evening at the bench, and what becomes of a rib between its two sides. Times are minutes.
// How long a side takes is Batch.Pace.
type Session struct {
	Time  float64 // how long a session may be; 0: sessions are not planned
	Lay   float64 // to lay the sticks of a rib in the jig, before adhesive is mixed
	InJig string  // "remove": the rib comes out at once and is turned over; "cure": it waits there for the next session
	Cure  float64 // that lies between two sessions at least, where ribs wait in the jig
	Jigs  int     // how many there are
}

// Defaults of sessions (common practice, no source; the adhesive maker's figure counts).
const (
	defaultCure = 24 * 60.0
	defaultJigs = 1
)

func (r *reader) session(t tab) {
	s := &r.doc.Session
	s.Time, _ = t.duration("time", 0, limit{min: 10, max: 16 * 60})
	s.Lay, _ = t.duration("lay", 0, limit{max: 8 * 60})
	inJig := "cure"
	if r.doc.Fastener.Kind != "none" { // staples and nails hold the plates
		inJig = "remove"
	}
	s.InJig = t.choice("in_jig", inJig, "remove", "cure")
	s.Cure, _ = t.duration("cure", defaultCure, limit{min: 10, max: 30 * 24 * 60})
	s.Jigs = t.whole("jigs", defaultJigs, 1, 50, "jigs")
}
