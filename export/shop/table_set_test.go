package shop

import (
	"bytes"
	"strings"
	"testing"

	"ribwright/export/list"
	"ribwright/geom/rib"
	"ribwright/geom/takeoff"
)

// TestSetOfKinds: the lists of a set hold together where its kinds differ in what their lists show, whichever kind comes
// first; what is said of one kind's sticks names it.
func TestSetOfKinds(t *testing.T) {
	all := append(kinds(t), demo(t, "marsh-wren").job)
	for range all {
		all = append(all[1:], all[0])
		var set rib.Set
		var takes []takeoff.TakeOff
		for _, j := range all {
			set, takes = append(set, rib.Entry{Name: strings.ReplaceAll(j.name, " ", "-"), Doc: j.doc, Rib: j.rib}), append(takes, takeoff.Of(j.rib, j.doc))
		}
		tables := SetTables(set, takes)
		var b bytes.Buffer
		if err := list.Markdown(&b, tables...); err != nil {
			t.Fatalf("%s first: %v", all[0].name, err)
		}
		for _, want := range []string{"Each stick of compression-rib is 2 strips", "| leaning-spars front ", "sweep (degrees)"} {
			if n := strings.Count(b.String(), want); n != 1 {
				t.Errorf("%s first: %q %d times, want 1", all[0].name, want, n)
			}
		}
	}
}
