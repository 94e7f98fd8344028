package shop

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/dxf"
	"ribwright/export/svg"
	"ribwright/geom"
	"ribwright/geom/fasten"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

func TestPlates(t *testing.T) {
	jobs := demos(t)
	for seed := range uint64(20) {
		jobs = append(jobs, unknown(t, seed))
	}
	for _, j := range jobs {
		d := Plates(j.rib, j.doc, fasten.Of(j.rib, j.doc))
		if err := d.Check(); err != nil {
			t.Fatalf("%s: %v", j.name, err)
		}
		items := all(d.Sheets[0])
		checkSquareItem(t, j.name, items, "check-100mm", 100)
		var boxes []geom.Box
		n := 0
		for _, it := range items {
			b := itemBox(it)
			if b.Min.X < sheetMargin-1e-6 || b.Min.Y < sheetMargin-1e-6 || b.Max.X > d.Sheets[0].W-sheetMargin+1e-6 || b.Max.Y > d.Sheets[0].H-sheetMargin+1e-6 {
				t.Errorf("%s: %s lies in the margin: %v", j.name, it.ID, b)
			}
			if it.Layer != layerCut && it.ID != "check-100mm" {
				continue
			}
			if it.Layer == layerCut {
				n++
			}
			for _, o := range boxes {
				if o.Grow(plateGap - 0.01).Meets(b) {
					t.Errorf("%s: %s stands nearer than %g mm to another part", j.name, it.ID, plateGap)
				}
			}
			boxes = append(boxes, b)
		}
		want := 0
		for _, g := range j.rib.Gussets {
			if len(g.Outline.Segs) == 0 {
				continue
			}
			want++
			checkPlate(t, j, g, items)
		}
		if n != want {
			t.Errorf("%s: %d plates, want %d", j.name, n, want)
		}
		for _, it := range items {
			if it.Text != nil {
				t.Errorf("%s: %q is text: a cut file holds lines alone", j.name, it.Text.S)
			}
		}
	}
}

// checkPlate compares a plate with the rib's: moved, and nothing else.
func checkPlate(t *testing.T, j job, g rib.Gusset, items []export.Item) {
	t.Helper()
	id := "plate-" + strings.ReplaceAll(g.ID, "+", "-")
	it, ok := byID(items, id)
	if !ok || !it.Path.Closed {
		t.Errorf("%s: no closed outline %s", j.name, id)
		return
	}
	if a, b := it.Path.Area(), g.Outline.Area(); math.Abs(a-b) > 1e-6 {
		t.Errorf("%s: %s has %.9f mm², want %.9f", j.name, id, a, b)
	}
	_, _, was := g.Outline.IsCircle()
	if _, _, is := it.Path.IsCircle(); is != was {
		t.Errorf("%s: %s is a circle: %v, on the rib: %v", j.name, id, is, was)
	}
	v := it.Path.Start.Sub(g.Outline.Start)
	for i, s := range it.Path.Segs {
		if s.End.Dist(g.Outline.Segs[i].End.Add(v)) > 1e-9 || s.Bulge != g.Outline.Segs[i].Bulge {
			t.Errorf("%s: %s is changed at step %d", j.name, id, i)
		}
	}
	checkEngraved(t, j, g, items, v)
	// Marks on the plate are the rib's, moved by the same.
	for _, m := range g.Marks {
		if l := geom.Ring(g.Outline.Flatten(geom.Flat)).Stretches(m.A, m.B); len(l) == 1 && m.A.Dist(l[0][0]) < 1e-9 && m.B.Dist(l[0][1]) < 1e-9 {
			found := false
			for _, o := range items {
				found = found || o.Layer == layerMark && o.Path.Start.Dist(m.A.Add(v)) < 1e-6 && o.Path.Segs[0].End.Dist(m.B.Add(v)) < 1e-6
			}
			if !found {
				t.Errorf("%s: the mark %v of %s is missing", j.name, m, id)
			}
		}
	}
}

// checkEngraved holds the lettering of a plate: its name engraved on it, clear of its marks and its edge, and below how
// many there are to make.
func checkEngraved(t *testing.T, j job, g rib.Gusset, items []export.Item, v geom.Pt) {
	t.Helper()
	var on []geom.Path // on the plate, but for its marks
	outline := geom.Move(v).Path(g.Outline)
	ring := geom.Ring(outline.Flatten(geom.Flat))
	for _, it := range items {
		if it.Layer != layerMark || !ring.Holds(it.Path.Start) {
			continue
		}
		isMark := false
		for _, m := range g.Marks {
			l := geom.Line(m.A.Add(v), m.B.Add(v))
			isMark = isMark || len(it.Path.Segs) == 1 && l.Distance(it.Path.Start) < 1e-6 && l.Distance(it.Path.Segs[0].End) < 1e-6
		}
		if !isMark {
			on = append(on, it.Path)
		}
	}
	want := len(export.Text{S: g.ID, Height: 1}.Strokes())
	if b := g.Outline.Box(); len(on) == 0 && len(g.Joints) == 2 || b.W() < 15 {
		return // no room
	}
	if len(on) != want {
		t.Errorf("%s: %s: %d strokes on the plate, want %d", j.name, g.ID, len(on), want)
	}
	least := math.Inf(1)
	for _, p := range on {
		for _, q := range p.Flatten(0.01) {
			least = math.Min(least, outline.Distance(q))
			for _, m := range g.Marks {
				for _, l := range ring.Stretches(m.A.Add(v), m.B.Add(v)) {
					least = math.Min(least, geom.Line(l[0], l[1]).Distance(q))
				}
			}
		}
	}
	if least < engraveClear-1e-6 {
		t.Errorf("%s: %s: lettering stands %.3f mm from a line", j.name, g.ID, least)
	}
}

func TestPlatesNone(t *testing.T) {
	d := Plates(&rib.Rib{}, &ribfile.Doc{}, fasten.Pattern{})
	if err := d.Check(); err != nil || len(all(d.Sheets[0])) == 0 {
		t.Errorf("a rib without plates: %v", err)
	}
}

func TestPlatesWriters(t *testing.T) {
	j := demos(t)[0]
	d := Plates(j.rib, j.doc, fasten.Of(j.rib, j.doc))
	var s, x bytes.Buffer
	if err := svg.Write(&s, d, 0); err != nil {
		t.Error(err)
	}
	if err := dxf.Write(&x, d, 0); err != nil {
		t.Error(err)
	}
	circles := 0
	for _, g := range j.rib.Gussets {
		if _, _, ok := g.Outline.IsCircle(); ok {
			circles++
		}
	}
	if got := strings.Count(x.String(), "\nCIRCLE\n"); got != circles {
		t.Errorf("the DXF has %d circles, the rib %d round plates", got, circles)
	}
	if got := strings.Count(s.String(), "<circle"); got != circles {
		t.Errorf("the SVG has %d circles, the rib %d round plates", got, circles)
	}
}
