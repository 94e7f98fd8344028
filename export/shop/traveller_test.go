package shop

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/batch"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// travellerOf lays a demo out, with lines added to its rib file, and makes its traveller.
func travellerOf(t testing.TB, file, more string, p Page) (export.Drawing, *rib.Rib, takeoff.TakeOff) {
	t.Helper()
	path := filepath.Join("../../cmd/ribwright/demo", file+".toml")
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	doc, fs := ribfile.Read(path, append(data, more...))
	sec, found := rib.Section(doc, nil)
	if len(fs)+len(found) > 0 {
		t.Fatal(fs, found)
	}
	r, _ := rib.Build(doc, sec)
	set, take := rib.One(r, doc), takeoff.Of(r, doc)
	return Traveller(set, 0, take, batch.Of(set, []takeoff.TakeOff{take}), p), r, take
}

// itemsOf lists what stands on a page.
func itemsOf(s export.Sheet) []export.Item {
	var out []export.Item
	for _, p := range s.Parts {
		out = append(out, p.All()...)
	}
	return out
}

// looked holds that nothing of a page leaves its margins, that no two texts meet, that no text crosses a box or a blank, and that no
// lettering is smaller than the least; it returns the texts and counts the boxes.
func looked(t *testing.T, name string, s export.Sheet, margin float64) (texts []export.Text, boxes int) {
	t.Helper()
	room := geom.NewBox(geom.Pt{X: margin, Y: margin}, geom.Pt{X: s.W - margin, Y: s.H - margin}).Grow(0.3)
	var squares []geom.Box
	for _, it := range itemsOf(s) {
		b := bounds([]export.Item{it})
		if room.Union(b) != room {
			t.Errorf("%s: %s %+v leaves the margins: %v", name, it.Layer, it.Text, b)
		}
		if it.Layer == layerMark && it.Text == nil && it.Path.Closed && geom.Distance(geom.Pt{X: b.W(), Y: b.H()}, []geom.Pt{{X: tickBox, Y: tickBox}}, false) < 1e-6 {
			boxes++
			squares = append(squares, b)
		}
		if it.Text == nil {
			continue
		}
		if it.Text.Height < small {
			t.Errorf("%s: %q is %g mm high", name, it.Text.S, it.Text.Height)
		}
		for _, o := range texts {
			if textQuad(*it.Text, 0).meets(textQuad(o, 0)) {
				t.Errorf("%s: %q stands on %q", name, it.Text.S, o.S)
			}
		}
		texts = append(texts, *it.Text)
	}
	for _, text := range texts {
		q := textQuad(text, 0).box()
		for _, b := range squares {
			if q.Min.X < b.Max.X && b.Min.X < q.Max.X && q.Min.Y < b.Max.Y && b.Min.Y < q.Max.Y {
				t.Errorf("%s: %q stands on a box", name, text.S)
			}
		}
	}
	return texts, boxes
}

// TestTraveller looks at the traveller of every demo on the usual papers: one page, every joint named in the picture and in the
// table, a box for everything that there is to tick, and the words that a builder looks for.
func TestTraveller(t *testing.T) {
	const fixed = 3 // trimmed, varnish, sample joint
	for file, want := range map[string][]string{
		"marsh-wren":   {"of 26", "°C, planned 20 °C", "g, planned 5.6 g", "g, planned 269.7 g", "N, should carry 1200 N (123 kg)", "posts S1 S2 S3 S4", "A to 16.8 g, then B to 33.7 g", "held by its staples"},
		"reed-bunting": {"of 22", "°F, planned 68 °F", "oz, planned 7.89 oz", "lbf, should carry", "uprights S5", "1 day at least", "clamp it"},
	} {
		for name, p := range map[string]Page{"A4": {W: 210, H: 297, Margin: 10}, "Letter": {W: 215.9, H: 279.4, Margin: 10}} {
			d, r, take := travellerOf(t, file, "", p)
			name = file + " on " + name
			if len(d.Sheets) != 1 || d.Sheets[0].W != p.W || d.Sheets[0].H != p.H {
				t.Errorf("%s: %d sheets", name, len(d.Sheets))
			}
			texts, boxes := looked(t, name, d.Sheets[0], p.Margin)
			all, count := "", map[string]int{}
			for _, text := range texts {
				all += text.S + "\n"
				for _, id := range strings.Split(text.S, "+") {
					count[id]++
				}
			}
			for _, j := range r.Joints {
				if count[j.ID] != 2 {
					t.Errorf("%s: %s is named %d times, want in the picture and in the table", name, j.ID, count[j.ID])
				}
			}
			steps := strings.Count(all, "Lay in dry") + strings.Count(all, "Mix the batch") + strings.Count(all, "Plates of the first face") + strings.Count(all, "Out of the jig")
			ticks := fixed + steps
			for i, g := range r.Gussets {
				for _, face := range g.On() {
					ticks += 3
					if take.Fasteners.Count(i, face) > 0 {
						ticks++
					}
				}
			}
			if boxes != ticks || steps != 5 {
				t.Errorf("%s: %d boxes to tick and %d steps, want %d and 5", name, boxes, steps, ticks)
			}
			for _, w := range append(want, "maker's figures", "fail in the wood", "approved plans", "Humidity", "Batch", "Signed", "Varnish kept off", "Trimmed", "squeeze-out seen", "wetted on both sides", "75 % at least") {
				if !strings.Contains(all, w) {
					t.Errorf("%s: no %q in\n%s", name, w, all)
				}
			}
		}
	}
}

// TestTravellerFlows holds that a traveller keeps in order where the paper is small, lies on its side, or the rib has many joints,
// and that of a wing each kind of rib has its own name.
func TestTravellerFlows(t *testing.T) {
	for i, p := range []Page{{W: 148, H: 210, Margin: 8}, {W: 297, H: 210, Margin: 10}, {W: 279.4, H: 215.9, Margin: 6}, {W: 420, H: 297, Margin: 10}} {
		d, r, _ := travellerOf(t, "marsh-wren", "", p)
		rows := map[string]int{}
		for k, s := range d.Sheets {
			texts, _ := looked(t, fmt.Sprintf("page %d on %v", k+1, p), s, p.Margin)
			for _, text := range texts {
				rows[text.S]++
			}
		}
		if len(d.Sheets) > 4-i {
			t.Errorf("%v: %d pages", p, len(d.Sheets))
		}
		for _, g := range r.Gussets {
			if want := 2 - strings.Count(g.ID, "+"); rows[g.ID] != want {
				t.Errorf("%v: %s stands %d times, want %d", p, g.ID, rows[g.ID], want)
			}
		}
	}
}

// TestTravellerNames holds that names stay in their order, clear of each other, and on the sheet, however close the joints stand.
func TestTravellerNames(t *testing.T) {
	for _, n := range []int{1, 12, 24, 40} {
		r := &rib.Rib{Contour: rib.Contour{Outline: geom.Rect(geom.NewBox(geom.Pt{}, geom.Pt{X: 1000, Y: 100})).Flatten(1)}}
		for i := range n {
			x := 300 + 500*float64(i)/float64(n)
			r.Joints = append(r.Joints, rib.Joint{ID: fmt.Sprintf("U%d", i+1), Side: rib.Upper, Station: x, At: geom.Pt{X: x, Y: 97}})
		}
		doc, _ := ribfile.Read("", nil)
		w := &travellerSheet{lister: lister{r: r, doc: doc}, wide: 190}
		var before []export.Text
		for _, it := range w.picture().items {
			if it.Text == nil {
				continue
			}
			b := textQuad(*it.Text, 0).box()
			if b.Min.X < -0.1 || b.Max.X > 190.1 {
				t.Errorf("%d names: %s lies at %v", n, it.Text.S, b)
			}
			for _, o := range before {
				if textQuad(*it.Text, 0).meets(textQuad(o, 0)) || o.At.X >= it.Text.At.X {
					t.Errorf("%d names: %s meets %s", n, it.Text.S, o.S)
				}
			}
			before = append(before, *it.Text)
		}
		if len(before) != n {
			t.Errorf("%d of %d names", len(before), n)
		}
	}
}

// TestTravellerWeb: a web has its step and its row of boxes on each face that it covers, and doubled sticks are glued first.
func TestTravellerWeb(t *testing.T) {
	for _, c := range []struct {
		faces        string
		first, other bool // a web is on the face
	}{{"near", true, false}, {"far", false, true}, {"both", true, true}} {
		for _, page := range []Page{{W: 210, H: 297, Margin: 10}, {W: 215.9, H: 279.4, Margin: 10}} {
			d, r, _ := travellerOf(t, "reed-bunting", "\n[web]\nfaces = \""+c.faces+"\"\n", page)
			if len(r.Web.On()) == 0 || len(d.Sheets) != 1 {
				t.Fatalf("%s: %d pages", c.faces, len(d.Sheets))
			}
			texts, _ := looked(t, c.faces, d.Sheets[0], page.Margin)
			var all string
			for _, x := range texts {
				all += x.S + " "
			}
			if strings.Contains(all, "Web of the first face") != c.first || strings.Contains(all, "Web of the second face") != c.other || !strings.Contains(all, " web ") {
				t.Errorf("%s: %s", c.faces, all)
			}
			if strings.Contains(all, "Plates of the first face") == c.first {
				t.Errorf("%s: plates where the web is, or none where they are", c.faces)
			}
		}
	}
}
