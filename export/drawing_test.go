package export

import "testing"

// TestKept: items made later are made once, and the drawing it was made from goes on making them.
func TestKept(t *testing.T) {
	made := 0
	later := func() []Item { made++; return []Item{{Layer: "cut"}} }
	d := Drawing{Sheets: []Sheet{{Parts: []Part{{Items: []Item{{Layer: "mark"}}}, {On: []string{"cut"}, Later: later}}}}}
	kept := d.Kept()
	for range 3 {
		if all := kept.Sheets[0].Parts[1].All(); len(all) != 1 || all[0].Layer != "cut" || made != 1 {
			t.Errorf("%+v, made %d times", all, made)
		}
	}
	if kept.Sheets[0].Parts[0].Items[0].Layer != "mark" || !kept.Sheets[0].Parts[1].May("cut") || kept.Sheets[0].Parts[1].May("mark") {
		t.Errorf("kept: %+v", kept)
	}
	if d.Sheets[0].Parts[1].All(); made != 2 {
		t.Errorf("made %d times", made)
	}
}
