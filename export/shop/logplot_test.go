package shop_test

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/pdf"
	"ribwright/export/shop"
	"ribwright/geom"
	"ribwright/geom/outside"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/riblog"
	"ribwright/geom/takeoff"
)

// logOf is a log of n ribs about a mass, g; rib 5 is heavy.
func logOf(n int, massG float64) string {
	var b strings.Builder
	b.Write(riblog.Header(ribfile.MM))
	for i := range n {
		m := massG * (1 + 0.01*math.Sin(float64(3*i*i)))
		if i == 4 {
			m *= 1.1
		}
		fmt.Fprintf(&b, "%d,,,%d,5.8,5.8,%d,3.2,3.2,21,50,%.1f,,,,\n", i+1, 2*i+1, 2*i+2, m)
	}
	return b.String()
}

// TestLogPlot draws logs of no, one, few and many ribs, in mm and inches, of one kind and of several: no lettering lies on
// other lettering or off the sheet, what stands out is named, and the figures are the summary's.
func TestLogPlot(t *testing.T) {
	for _, file := range []string{"marsh-wren", "starter"} {
		r, doc := layOut(t, "cmd/ribwright/demo/"+file+".toml")
		take := takeoff.Of(r, doc)
		for _, n := range []int{0, 1, 2, 8, 26, 100} {
			for _, several := range []bool{false, true} {
				set, takes := rib.One(r, doc), []takeoff.TakeOff{take}
				text := logOf(n, take.Mass.TotalG)
				if several {
					set, takes = rib.Set{{Name: "R1", Doc: doc, Rib: r}, {Name: "R2", Doc: doc, Rib: r}}, []takeoff.TakeOff{take, take}
					lines := strings.Split(text, "\n")
					for i := range lines[1:] {
						lines[i+1] = strings.Replace(lines[i+1], ",,", fmt.Sprintf(",R%d,", i%2+1), 1)
					}
					text = strings.Join(lines, "\n")
				}
				l, found := riblog.Read("log.csv", []byte(text), doc.Units)
				if len(found) > 0 {
					t.Fatal(found)
				}
				s := riblog.Sum(l, shop.LogPlan(set, takes))
				name := fmt.Sprintf("%s, %d ribs, several kinds %v", file, n, several)
				checkPlot(t, name, shop.LogPlot(s, doc), n >= 8)
				for _, table := range shop.LogTables(s, doc) {
					if err := table.Check(); err != nil {
						t.Errorf("%s: %v", name, err)
					}
				}
			}
		}
	}
}

func checkPlot(t *testing.T, name string, d export.Drawing, odd bool) {
	t.Helper()
	sheet := d.Sheets[0]
	page := geom.NewBox(geom.Pt{}, geom.Pt{X: sheet.W, Y: sheet.H})
	var words []geom.Box
	var texts []string
	ringed := false
	for _, it := range sheet.Parts[0].Items {
		if it.Text == nil {
			if page.Union(it.Path.Box()) != page {
				t.Errorf("%s: a line lies off the sheet", name)
			}
			ringed = ringed || it.ID == "stands-out-5"
			continue
		}
		c := it.Text.Corners()
		b := geom.NewBox(c[:]...)
		if page.Union(b) != page {
			t.Errorf("%s: %q lies off the sheet", name, it.Text.S)
		}
		if i := slices.IndexFunc(words, b.Meets); i >= 0 {
			t.Errorf("%s: %q lies on %q", name, it.Text.S, texts[i])
		}
		words, texts = append(words, b), append(texts, it.Text.S)
	}
	if ringed != odd || odd != slices.ContainsFunc(texts, func(s string) bool { return strings.HasPrefix(s, "rib 5, ") }) {
		t.Errorf("%s: what stands out is ringed: %v, want %v", name, ringed, odd)
	}
}

// TestLogPlotRead reads the plot back: its words say the mean and what was computed.
func TestLogPlotRead(t *testing.T) {
	r, doc := layOut(t, "cmd/ribwright/demo/marsh-wren.toml")
	take := takeoff.Of(r, doc)
	l, _ := riblog.Read("log.csv", []byte(logOf(12, 250)), doc.Units)
	s := riblog.Sum(l, shop.LogPlan(rib.One(r, doc), []takeoff.TakeOff{take}))
	var b bytes.Buffer
	if err := pdf.Write(&b, shop.LogPlot(s, doc)); err != nil {
		t.Fatal(err)
	}
	text := outside.Run(t, outside.Need(t, "pdftotext"), "-layout", outside.File(t, "log.pdf", b.Bytes()), "-")
	for _, w := range []string{fmt.Sprintf("mean %.1f g", s.Masses[0].Mean), fmt.Sprintf("mean + 2 s: %.1f g", s.Masses[0].Mean+2*s.Masses[0].SD), fmt.Sprintf("computed %.1f g", take.Mass.TotalG), "rib 5, "} {
		if !strings.Contains(text, w) {
			t.Errorf("%q is not in\n%s", w, text)
		}
	}
}
