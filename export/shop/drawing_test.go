package shop

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// job is a rib with the rib file it comes from.
type job struct {
	name  string
	rib   *rib.Rib
	doc   *ribfile.Doc
	found []finding.Finding
}

// drawn is the rib as the jig drawing shows it.
func (j job) drawn() Field { return NewField(j.rib, j.doc, BoardOf(j.rib, j.doc), j.found) }

// build makes a rib from the text of a rib file; a partial rib is a rib too.
func build(t testing.TB, name, text string) job {
	t.Helper()
	doc, found := ribfile.Read(name, []byte(text))
	if finding.HasError(found) {
		t.Fatalf("%s cannot be read: %v\n%s", name, found, text)
	}
	sec, more := rib.Section(doc, os.ReadFile)
	if finding.HasError(more) {
		t.Fatalf("%s has no section: %v", name, more)
	}
	r, found := rib.Build(doc, sec)
	return job{name, r, doc, found}
}

// demos are the program's example rib files, in both unit systems.
func demos(t testing.TB) []job {
	t.Helper()
	names, err := filepath.Glob("../../cmd/ribwright/demo/*.toml")
	if err != nil || len(names) == 0 {
		t.Fatalf("no demo rib files: %v", err)
	}
	var out []job
	for _, n := range names {
		data, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, build(t, strings.TrimSuffix(filepath.Base(n), ".toml"), string(data)))
	}
	return out
}

// unknown makes a rib nobody drew before: chords from 300 to 2500 mm, thin and thick, full and bare.
func unknown(t testing.TB, seed uint64) job {
	t.Helper()
	r := rand.New(rand.NewPCG(seed, 11))
	chord := math.Round(300 * math.Pow(2500.0/300, r.Float64()))
	camber, place, thick := r.IntN(6), 2+r.IntN(4), 9+r.IntN(13)
	if camber == 0 {
		place = 0
	}
	depth := math.Max(3, math.Round(chord/float64(100+r.IntN(200))))
	var b strings.Builder
	p := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	p("title = %q", []string{"Rib", "Große Rippe Nr. 7", "A long name for a rib that is to stand in two lines of the title, or in three"}[r.IntN(3)])
	if r.IntN(2) == 0 {
		p("units = \"mm\"")
	} else { // the same lengths, printed in inches
		p("units = \"in\"")
	}
	p("[section]\nnaca = \"%d%d%02d\"\n[rib]\nchord = \"%g mm\"\ncount = %d", camber, place, thick, chord, 1+r.IntN(40))
	p("[cap]\ndepth = \"%g mm\"\nwidth = \"12 mm\"\n[stick]\ndepth = \"%g mm\"\nwidth = \"12 mm\"", depth, depth)
	if r.IntN(4) > 0 {
		p("[nose]\nblock_to = \"6%%\"")
	}
	if r.IntN(4) > 0 {
		p("[tail]\nblock_from = \"92%%\"")
	}
	spars := r.IntN(3)
	for i := range spars {
		p("[[spar]]\nname = %q\nat = \"%d%%\"\nwidth = \"%g mm\"\nclearance = \"%g mm\"\nposts = %v",
			[]string{"front", "rear"}[i], []int{18, 62}[i], math.Round(chord/80), 0.4*float64(r.IntN(4)), r.IntN(3) > 0)
	}
	if spars == 2 && r.IntN(5) > 0 {
		p("[[bay]]\nfrom = \"front\"\nto = \"rear\"\npattern = %q\npanels = %d", []string{"warren", "pratt", "uprights"}[r.IntN(3)], 1+r.IntN(12))
	}
	if r.IntN(2) == 0 {
		p("[[line]]\nfrom = \"upper 75%%\"\nto = \"lower 85%%\"")
	}
	p("[gusset]\nshape = %q\ndiameter = \"%g mm\"\nlength = \"%g mm\"\nheight = \"%g mm\"\nthickness = \"1.5 mm\"",
		[]string{"round", "rectangle", "none"}[r.IntN(3)], math.Round(5*depth), math.Round(6*depth), math.Round(4*depth))
	return build(t, fmt.Sprintf("rib %d (chord %g)", seed, chord), b.String())
}

// wild makes a rib file of what nobody should build but somebody may write: very small and very large chords,
// many panels, mitres, cut trailing edges, skins, up to three spars, plates too large for their joints.
func wild(t testing.TB, seed uint64) job {
	t.Helper()
	r := rand.New(rand.NewPCG(seed, 23))
	chord := math.Round(150 * math.Pow(3000.0/150, r.Float64()))
	depth := math.Max(2, math.Round(chord/float64(60+r.IntN(240))))
	var b strings.Builder
	p := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	p("title = %q\nunits = %q", fmt.Sprintf("Wild rib %d", seed), []string{"mm", "in"}[r.IntN(2)])
	p("[section]\nnaca = %q", []string{"4412", "0012", "23015", "2421", "6409", "0009"}[r.IntN(6)])
	if r.IntN(4) == 0 {
		p("skin = [{ from = \"0%%\", to = \"%d%%\", thickness = \"%g mm\" }]", 10+r.IntN(60), 0.5+r.Float64())
	}
	cut := 100
	if r.IntN(3) == 0 {
		cut = 70 + r.IntN(25)
	}
	p("[rib]\nchord = \"%g mm\"\ncount = %d\ntrailing_edge = \"%d%%\"", chord, 1+r.IntN(99), cut)
	p("[cap]\ndepth = \"%g mm\"\nwidth = \"10 mm\"\n[stick]\ndepth = \"%g mm\"\nwidth = \"10 mm\"\nmeet = %q",
		depth, math.Max(2, depth-float64(r.IntN(3))), []string{"butt", "mitre"}[r.IntN(2)])
	if r.IntN(3) > 0 {
		p("[nose]\nblock_to = \"%d%%\"", 3+r.IntN(6))
	}
	if r.IntN(2) > 0 && cut == 100 {
		p("[tail]\nblock_from = \"%d%%\"", 88+r.IntN(8))
	}
	names := []string{"f", "main", "a-rather-long-name-for-a-spar", "rear"}
	stations := []int{14, 38, 64}
	spars := r.IntN(4)
	for i := range spars {
		p("[[spar]]\nname = %q\nat = \"%d%%\"\nwidth = \"%g mm\"\nclearance = \"%g mm\"\nposts = %v",
			names[(i+int(seed))%4], stations[i], math.Round(chord*(0.006+float64(0.02*r.Float64()))), 0.5*float64(r.IntN(3)), r.IntN(3) > 0)
	}
	for i := range spars - 1 {
		p("[[bay]]\nfrom = %q\nto = %q\npattern = %q\npanels = %d", names[(i+int(seed))%4], names[(i+1+int(seed))%4],
			[]string{"warren", "pratt", "uprights"}[r.IntN(3)], 1+r.IntN(20))
	}
	if spars == 0 {
		p("[[bay]]\nfrom = \"20%%\"\nto = \"65%%\"\npattern = %q\npanels = %d", []string{"warren", "pratt"}[r.IntN(2)], 1+r.IntN(40))
	}
	p("[gusset]\nshape = %q\ndiameter = \"%g mm\"\nlength = \"%g mm\"\nheight = \"%g mm\"\nthickness = \"1 mm\"\nfaces = %d",
		[]string{"round", "rectangle", "none"}[r.IntN(3)], math.Round(float64(4+r.IntN(6))*depth), math.Round(8*depth), math.Round(5*depth), 1+r.IntN(2))
	p("[drawing]\ninches = %q\nowner = \"Somebody\"", []string{"fractions", "decimals"}[r.IntN(2)])
	return build(t, fmt.Sprintf("wild rib %d (chord %g)", seed, chord), b.String())
}

// outlines are the layers of lines that are cut: no lettering may stand on them.
var outlines = map[string]bool{layerContour: true, layerCap: true, layerBlock: true, layerStick: true, layerSpar: true, layerPlate: true, layerCut: true, layerJigBlock: true}

// ruled are the layers of lines among which lettering stands, and which it must not touch either.
var ruled = map[string]bool{layerFrame: true, layerTable: true, layerCheck: true, layerStation: true, layerFinding: true, layerBoard: true}

func ring(t export.Text) geom.Ring {
	c := t.Corners()
	return c[:]
}

// overlaps lists the lettering that stands on other lettering or on lines of the layers given, or of any. It
// works by common areas and by points along the lines: other ways than the placer's own.
func overlaps(items []export.Item, lines map[string]bool) []string {
	var out []string
	var texts []*export.Text
	var boxes []geom.Box
	for _, it := range items {
		if it.Text == nil {
			continue
		}
		for k, u := range texts {
			if boxes[k].Meets(itemBox(it)) && geom.ConvexRing(ring(*it.Text), ring(*u)) > 1e-3 {
				out = append(out, fmt.Sprintf("%q at %v stands on %q at %v", it.Text.S, it.Text.At, u.S, u.At))
			}
		}
		texts, boxes = append(texts, it.Text), append(boxes, itemBox(it))
	}
	for _, it := range items {
		if it.Text != nil || lines != nil && !lines[it.Layer] {
			continue
		}
		b := it.Path.Box()
		for k, u := range texts {
			if !b.Meets(boxes[k]) || !touches(it.Path, boxes[k], ring(*u)) {
				continue
			}
			out = append(out, fmt.Sprintf("a line on layer %s (%s) runs through %q at %v", it.Layer, it.ID, u.S, u.At))
		}
	}
	return out
}

// touches walks along a path in small steps.
func touches(p geom.Path, box geom.Box, text geom.Ring) bool {
	const step = 0.2
	pts := p.Flatten(0.01)
	if p.Closed {
		pts = append(pts, pts[0])
	}
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		if !geom.NewBox(a, b).Meets(box) {
			continue
		}
		n := int(a.Dist(b)/step) + 1
		for k := range n + 1 {
			if q := a.Lerp(b, float64(k)/float64(n)); box.Holds(q) && text.Holds(q) {
				return true
			}
		}
	}
	return false
}

// all returns the items of a sheet.
func all(s export.Sheet) []export.Item {
	var out []export.Item
	for _, p := range s.Parts {
		out = append(out, p.All()...)
	}
	return out
}

// byID returns the item with an ID.
func byID(items []export.Item, id string) (export.Item, bool) {
	for _, it := range items {
		if it.ID == id {
			return it, true
		}
	}
	return export.Item{}, false
}

func lettered(items []export.Item, s string) bool {
	for _, it := range items {
		if it.Text != nil && it.Text.S == s {
			return true
		}
	}
	return false
}

func TestReadable(t *testing.T) {
	for _, c := range []struct{ in, want float64 }{
		{0, 0}, {90, 90}, {-90, 90}, {180, 0}, {-70, -70}, {110, -70}, {-80, 100}, {100, 100}, {45, 45}, {225, 45}, {-45, -45},
	} {
		if got := readable(c.in*math.Pi/180) * 180 / math.Pi; math.Abs(got-c.want) > 1e-9 {
			t.Errorf("readable(%v°) = %v°, want %v°", c.in, got, c.want)
		}
	}
}

func TestWrap(t *testing.T) {
	for _, s := range []string{"", "one", "a few words that need some lines", "Donaudampfschifffahrtsgesellschaft is one word", "ÄÖÜ–×", "no\xffUTF-8\xfe\xc3", "\xff\xff\xff"} {
		for _, width := range []float64{3, 12, 30, 200} {
			lines := wrap(s, small, width, false)
			for _, l := range lines {
				if w := textWidth(l, small, false); w > width && len([]rune(l)) > 1 {
					t.Errorf("wrap(%q, %g): the line %q is %.1f mm long", s, width, l, w)
				}
			}
			got, want := strings.Join(lines, ""), strings.Join(strings.Fields(s), "")
			if strings.ReplaceAll(got, " ", "") != want {
				t.Errorf("wrap(%q, %g) = %q: letters are lost", s, width, lines)
			}
		}
	}
}

func TestUnique(t *testing.T) {
	c := &canvas{}
	for _, x := range []struct{ in, want string }{
		{"plate-U9+L8", "plate-U9-L8"}, {"spar-höhe 2", "spar-hohe-2"}, {"S1", "S1"}, {"S1", "S1-2"}, {"S1", "S1-3"}, {"S1-2", "S1-2-2"},
	} {
		if got := c.unique(x.in); got != x.want {
			t.Errorf("unique(%q) = %q, want %q", x.in, got, x.want)
		}
	}
}

func TestSpread(t *testing.T) {
	for _, c := range []struct{ in, want []float64 }{
		{nil, nil},
		{[]float64{0, 10, 20}, []float64{0, 10, 20}},
		{[]float64{0, 0}, []float64{-2, 2}},
		{[]float64{0, 1, 2, 30}, []float64{-3, 1, 5, 30}},
		{[]float64{0, 4, 5, 9}, []float64{-1.5, 2.5, 6.5, 10.5}},
	} {
		got := spread(c.in, 4)
		for i := range c.want {
			if len(got) != len(c.want) || math.Abs(got[i]-c.want[i]) > 1e-9 {
				t.Errorf("spread(%v, 4) = %v, want %v", c.in, got, c.want)
				break
			}
		}
	}
}
