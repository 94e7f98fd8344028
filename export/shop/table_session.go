package shop

import (
	"cmp"
	"fmt"
	"strings"

	"ribwright/export"
	"ribwright/geom/batch"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/session"
)

// Sessions is the sessions at the bench in order of work: which sides each does, and from which batches.
func Sessions(set rib.Set, p session.Plan, b batch.Plan) export.Table {
	of := map[session.Side]int{}
	for _, k := range b.Batches {
		for _, s := range k.Sides {
			of[session.Side{Entry: s.Entry, Rib: s.Rib, Face: s.Face}] = k.Number
		}
	}
	t := export.Table{ID: "sessions", Title: "Sessions at the bench",
		Columns: []export.Column{number("session", "session", ""), text("first_sides", "first sides of ribs"), text("second_sides", "second sides of ribs"),
			number("sides", "sides", ""), text("batches", "batches"), number("work_min", "the work takes", "")},
		Notes: sessionNotes(p)}
	if len(p.Sessions) > 0 {
		t.Notes = append(t.Notes, rightRibs(set)...)
	}
	for _, s := range p.Sessions {
		var from []string
		last := 0
		for _, side := range s.Sides {
			if n := of[side]; n > last {
				from, last = append(from, fmt.Sprint(n)), n
			}
		}
		names := func(face int) export.Cell { return export.Str(cmp.Or(session.Names(set, s.On(face)), "-")) }
		t.Rows = append(t.Rows, []export.Cell{count(s.Number), names(0), names(1), count(len(s.Sides)),
			export.Str(cmp.Or(strings.Join(from, ", "), "-")), export.Num(s.WorkMin, ribfile.Duration(s.WorkMin))})
	}
	return t
}

// sessionNotes say by what the sessions were planned.
func sessionNotes(p session.Plan) []string {
	if len(p.Sessions) == 0 {
		return []string{"No sessions are planned: time under [session], how long one may be, is left out, or too short for a side."}
	}
	out := []string{p.Words() + ".",
		fmt.Sprintf("A session is %s at most; a first side takes %s, a second one %s.", ribfile.Duration(p.Spec.Time), ribfile.Duration(p.FaceMin[0]), ribfile.Duration(p.FaceMin[1]))}
	if p.Waits() {
		jigs := "the jig"
		if p.Spec.Jigs > 1 {
			jigs = fmt.Sprintf("%d jigs", p.Spec.Jigs)
		}
		out = append(out, fmt.Sprintf("Ribs wait in %s, one in each; leave %s at least from one session to the next (cure under [session]: the maker's figure counts).", jigs, ribfile.Duration(p.Spec.Cure)))
	} else {
		out = append(out, "Staples or nails hold the plates: a rib comes out of the jig at once, is turned over, and its second side may follow in the same session. Lay it flat to cure.")
	}
	return append(out, "Number, temperature, humidity and weighed masses go onto each rib's traveller.", glueCautions[0], glueCautions[1])
}
