package session

import (
	"fmt"
	"math"
	"strings"

	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// Findings tells where nothing fits into a session, and what does not go together.
func (p Plan) Findings(doc *ribfile.Doc) []finding.Finding {
	var out []finding.Finding
	s, whole := p.Spec, p.FaceMin[0]+p.FaceMin[1]
	switch {
	case s.Time == 0:
	case len(p.Sessions) == 0:
		out = append(out, finding.Finding{Severity: finding.Warning, Code: "session-short", Key: "session.time", Got: s.Time, Limit: p.FaceMin[0], Unit: "min",
			Message: fmt.Sprintf("A session of %s is too short for one side of a rib, which takes %s: no sessions can be planned.", ribfile.Duration(s.Time), ribfile.Duration(p.FaceMin[0])),
			Fix:     "Take longer sessions (time under [session]), or work with a helper (pace under [batch], lay under [session])."})
	case !p.Waits() && whole > s.Time*(1+hair):
		out = append(out, finding.Finding{Severity: finding.Note, Code: "session-half", Key: "session.time", Got: s.Time, Limit: whole, Unit: "min",
			Message: fmt.Sprintf("A session of %s is too short for both sides of a rib, which take %s: ribs lie with one side glued from one session to the next.", ribfile.Duration(s.Time), ribfile.Duration(whole)),
			Fix:     fmt.Sprintf("Keep them flat and clamped meanwhile, or take sessions of %s at least.", ribfile.Duration(math.Ceil(whole)))})
	}
	if !p.Waits() && len(p.Unheld) > 0 {
		of := "their plates"
		if doc.Fastener.Kind != "none" {
			of = "the plates of " + strings.Join(p.Unheld, ", ")
		}
		out = append(out, finding.Finding{Severity: finding.Warning, Code: "session-unheld", Key: "session.in_jig",
			Message: "Ribs are to come out of the jig before the adhesive has cured, but neither staples nor nails hold " + of + ".",
			Fix:     `Let them cure in the jig (in_jig = "cure"), or say under [fastener] what holds the plates.`})
	}
	return out
}

// Begun returns the least and the most ribs that a session begins; of sessions that begin ribs, the last one not
// counted, which may be left with fewer.
func (p Plan) Begun() (least, most int) {
	var all []int
	for _, s := range p.Sessions {
		if n := len(s.On(0)); n > 0 {
			all = append(all, n)
		}
	}
	for i, n := range all {
		if i == 0 || i < len(all)-1 {
			if i == 0 {
				least = n
			}
			least = min(least, n)
		}
		most = max(most, n)
	}
	return least, most
}

// Words says the plan in a line: "26 ribs, 9 sessions of 3 ribs".
func (p Plan) Words() string {
	if len(p.Sessions) == 0 {
		return ""
	}
	count := func(n int, one string) string {
		if n == 1 {
			return fmt.Sprintf("%d %s", n, one)
		}
		return fmt.Sprintf("%d %ss", n, one)
	}
	least, most := p.Begun()
	each := count(most, "rib")
	if least < most {
		each = fmt.Sprintf("%d to %s", least, each)
	}
	s := fmt.Sprintf("%s, %s of %s", count(p.Ribs, "rib"), count(len(p.Sessions), "session"), each)
	if p.Waits() {
		s += ", second sides in the session after"
	}
	return s
}

// Report is a session as report.json holds it.
type Report struct {
	Number  int     `json:"number"`
	First   string  `json:"first_sides"` // of these ribs; empty: none
	Second  string  `json:"second_sides"`
	Sides   int     `json:"sides"`
	WorkMin float64 `json:"work_min"`
}

// Report returns the plan for report.json.
func (p Plan) Report(set rib.Set) []Report {
	var out []Report
	for _, s := range p.Sessions {
		out = append(out, Report{s.Number, Names(set, s.On(0)), Names(set, s.On(1)), len(s.Sides), math.Round(s.WorkMin*1e6) / 1e6})
	}
	return out
}
