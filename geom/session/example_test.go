package session_test

import (
	"fmt"

	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/session"
)

// Evenings of three hours, with ribs that wait in one of two jigs until the adhesive has cured.
func Example() {
	doc, _ := ribfile.Read("rib.toml", []byte(`
units = "mm"
section = { naca = "0015" }
rib = { chord = 1200, count = 5 }
cap = { depth = 6, width = 12 }
spar = [{ name = "front", at = "15%", width = 16 }, { name = "rear", at = "65%", width = 12 }]
bay = [{ from = "front", to = "rear", pattern = "uprights", panels = 3 }]
gusset = { shape = "round", diameter = 36, thickness = 1.5 }
batch = { pace = "20 min" }
session = { time = "3 h", lay = "30 min", jigs = 2, in_jig = "cure" }
`))
	section, _ := rib.Section(doc, nil)
	r, _ := rib.Build(doc, section)
	set := rib.One(r, doc)
	p := session.Of(set)
	fmt.Println(p.Words())
	for _, s := range p.Sessions {
		fmt.Printf("session %d: first sides %q, second sides %q, %.0f min\n", s.Number, session.Names(set, s.On(0)), session.Names(set, s.On(1)), s.WorkMin)
	}
	// Output:
	// 5 ribs, 4 sessions of 1 to 2 ribs, second sides in the session after
	// session 1: first sides "1–2", second sides "", 100 min
	// session 2: first sides "3", second sides "1–2", 90 min
	// session 3: first sides "4–5", second sides "3", 120 min
	// session 4: first sides "", second sides "4–5", 40 min
}
