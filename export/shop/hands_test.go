package shop

import (
	"os"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/geom/batch"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
	"ribwright/geom/wing"
)

// kindOf lays out one kind of the demo wing's ribs, its file changed by pairs of words.
func kindOf(t *testing.T, name string, change ...string) job {
	t.Helper()
	data, err := os.ReadFile("../../cmd/ribwright/demo/water-rail.toml")
	if err != nil {
		t.Fatal(err)
	}
	doc, found := ribfile.Read("water-rail.toml", []byte(strings.NewReplacer(change...).Replace(string(data))))
	plan, more := wing.Of(doc)
	if found = append(found, more...); finding.HasError(found) {
		t.Fatal(found)
	}
	for _, k := range plan.Kinds {
		if k.Name != name {
			continue
		}
		sec, _ := plan.Section(k, nil)
		r, found := rib.Build(k.Doc, sec)
		r.Title, r.Hands = k.Ribs(), plan.HandWords(k)
		return job{name, r, k.Doc, found}
	}
	t.Fatalf("there is no rib %s", name)
	return job{}
}

// travellerFor makes a rib's traveller, looks at its pages, and returns its words.
func travellerFor(t *testing.T, j job, p Page, most int) string {
	t.Helper()
	set, take := rib.Set{{Name: j.name, Doc: j.doc, Rib: j.rib}}, takeoff.Of(j.rib, j.doc)
	d := Traveller(set, 0, take, batch.Of(set, []takeoff.TakeOff{take}), p)
	if len(d.Sheets) > most {
		t.Errorf("%s: %d pages", j.name, len(d.Sheets))
	}
	var all []string
	for _, s := range d.Sheets {
		texts, _ := looked(t, j.name, s, p.Margin)
		for _, x := range texts {
			all = append(all, x.S)
		}
	}
	return strings.Join(all, " ")
}

// words joins what is written on a drawing.
func words(d export.Drawing) string {
	var out []string
	for _, s := range d.Sheets {
		for _, it := range all(s) {
			if it.Text != nil {
				out = append(out, it.Text.S)
			}
		}
	}
	return strings.Join(out, " ")
}

// TestTravellerDoubled: the strips of a compression rib's doubled sticks are glued days before, as the first step; nobody ticks
// left or right where that is alike.
func TestTravellerDoubled(t *testing.T) {
	j := kindOf(t, "strut")
	if j.rib.StickPlies != 2 || len(j.rib.Hands) > 0 {
		t.Fatalf("%d strips, %q", j.rib.StickPlies, j.rib.Hands)
	}
	for _, p := range []Page{{W: 210, H: 297, Margin: 10}, {W: 215.9, H: 279.4, Margin: 10}} {
		all := travellerFor(t, j, p, 1)
		for _, w := range []string{"Traveller of rib strut", "of 2", "15 sticks, 40 plates", "1 Days before: glue the 2 strips of each stick along their length", "2 Lay in dry", "Second face"} {
			if !strings.Contains(all, w) {
				t.Errorf("no %q in %s", w, all)
			}
		}
		if strings.Contains(all, "left") || strings.Contains(all, "right") {
			t.Errorf("left and right are told apart: %s", all)
		}
	}
}

// TestHands: a drawing that serves left and right ribs says which it shows and how the others come from the same jig, where plates or
// a web lie on one face; so do its tiles, its traveller, its lists and the cut file.
func TestHands(t *testing.T) {
	for _, c := range []struct {
		name, rib string
		change    []string
		jig       []string
		cut, list string
		work      []string // on the traveller
	}{
		{"plates", "R2", []string{`thickness = "1/16"`, "thickness = \"1/16\"\nfaces = 1"},
			[]string{"a right one has its plates on the other face", "glue its joints there", "plate on the near face of a left rib; the far face has none"}, "left ×7, right (turned over) ×7", "on the near face only of left ribs, on the other face of right ones",
			[]string{"4 Left rib: plates of the first face", "Right rib: plates of the second face, nose to tail: wet plate", "left: first face", "oz left, "}},
		{"far plates", "R2", []string{`thickness = "1/16"`, "thickness = \"1/16\"\nfaces = 1\nface = \"far\""},
			[]string{"the plates go on in the jig", "plate on the far face of a left rib; the near face has none"}, "left ×7, right (turned over) ×7", "on the far face only of left ribs",
			[]string{"4 Right rib: plates of the first face", "Left rib: plates of the second face", "left: second face"}},
		{"web", "root", []string{`kind = "root"`, `web = { faces = "far" }`},
			[]string{"web and plates on the other faces", "web on the far face of a left rib"}, "left ×1, right (turned over) ×1", "on the far face of left ribs, on the other face of right ones",
			[]string{"Left rib: plates of the first face", "Right rib: web of the first face", "Left rib: web of the second face", "Right rib: plates of the second face"}},
	} {
		j := kindOf(t, c.rib, c.change...)
		checkJig(t, j)
		paper := j.doc.Paper
		tiles, err := Tiles(NewField(j.rib, j.doc, BoardOf(j.rib, j.doc), nil), paper)
		if err != nil {
			t.Fatal(err)
		}
		jig := words(Jig(j.drawn()))
		traveller := travellerFor(t, j, Page{W: 210, H: 297, Margin: 10}, 2)
		for _, w := range c.jig {
			if !strings.Contains(jig, w) {
				t.Errorf("%s: no %q in the jig drawing: %s", c.name, w, jig)
			}
		}
		for where, all := range map[string]string{"jig": jig, "tiles": words(tiles), "traveller": traveller} {
			if !strings.Contains(all, "The drawing shows a left rib") {
				t.Errorf("%s: the %s does not say which rib it shows: %s", c.name, where, all)
			}
		}
		for _, w := range append(c.work, "Rib number right left", "Second face") {
			if !strings.Contains(traveller, w) {
				t.Errorf("%s: no %q on the traveller: %s", c.name, w, traveller)
			}
		}
		if many := howMany(j.rib, []int{0}); many != c.cut {
			t.Errorf("%s: the cut file says %q, want %q", c.name, many, c.cut)
		}
		notes := ""
		for _, table := range Tables(j.rib, j.doc, BoardOf(j.rib, j.doc), takeoff.Of(j.rib, j.doc)) {
			if table.ID == "plates" {
				notes = strings.Join(table.Notes, " ")
			}
		}
		if !strings.Contains(notes, c.list) {
			t.Errorf("%s: no %q in %s", c.name, c.list, notes)
		}
	}
}
