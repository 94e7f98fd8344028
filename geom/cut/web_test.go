package cut_test

import (
	"math"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/cut"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// webbed is a rib with a web on both faces and nothing else to cut.
func webbed(t *testing.T, more string) (*rib.Rib, *ribfile.Doc) {
	t.Helper()
	doc, fs := ribfile.Read("rib.toml", []byte(`units = "mm"
section = { naca = "2412" }
rib = { chord = 900, count = 3 }
cap = { depth = 6, width = 12 }
spar = [{ name = "front", at = "20%", width = 16 }, { name = "rear", at = "65%", width = 12 }]
bay = [{ from = "front", to = "rear", panels = 4 }]
`+more))
	sec, fs2 := rib.Section(doc, nil)
	r, fs3 := rib.Build(doc, sec)
	if all := append(append(fs, fs2...), fs3...); finding.HasError(all) {
		t.Fatal(all)
	}
	return r, doc
}

const large = "[[sheet.stock]]\nlength = 1000\nwidth = 400\n"

// A web lies on a sheet that takes it, as its grain must lie; on none it is told, once, and no error. One of other plywood
// than the plates stays out of their sheets.
func TestWebsOnSheets(t *testing.T) {
	for _, c := range []struct {
		name, more, code string
		placed           int
	}{
		{"fits", "[web]\nfaces = \"both\"\n" + large, "", 6},
		{"one face", "gusset = { shape = \"none\" }\n[web]\nfaces = \"far\"\n" + large, "", 3},
		{"customary sheet", "[web]\nfaces = \"both\"\n", "web-too-large", 0},
		{"grain across", "[web]\nfaces = \"both\"\ngrain = \"upright\"\n" + large, "web-too-large", 0},
		{"grain of the sheet across", "[web]\nfaces = \"both\"\ngrain = \"upright\"\n[sheet]\ngrain = \"width\"\n" + large, "", 6},
		{"any grain", "[web]\nfaces = \"both\"\ngrain = \"any\"\n[[sheet.stock]]\nlength = 400\nwidth = 1000\n", "", 6},
	} {
		r, doc := webbed(t, c.more)
		doc.Sheet.Effort = 0 // whether there is a place, not how good a one
		set := rib.One(r, doc)
		l := cut.Nest(set, nil, nil)
		codes := ""
		for _, f := range append(cut.FindWebs(set), l.Findings(doc)...) {
			codes += f.Code
			if f.Severity != finding.Note {
				t.Errorf("%s: %v, want no more than a note", c.name, f)
			}
		}
		if codes != c.code || l.Pieces() != c.placed {
			t.Errorf("%s: %d webs placed, want %d; told %q, want %q", c.name, l.Pieces(), c.placed, codes, c.code)
		}
	}
	// beside plates of 1.6 mm on the other face a thinner web is of other plywood
	r, doc := webbed(t, "gusset = { diameter = 25 }\nweb = { faces = \"near\", thickness = 0.8 }\n"+large)
	doc.Sheet.Effort = 0
	set := rib.One(r, doc)
	if fs := cut.FindWebs(set); len(fs) != 1 || fs[0].Code != "web-plywood" || fs[0].Key != "web.thickness" {
		t.Errorf("a web of other plywood: %v", fs)
	}
	l := cut.Nest(set, nil, nil)
	for _, s := range l.Sheets {
		for _, p := range s.Placed {
			if id := l.Plates[p.Plate].ID; strings.HasPrefix(id, "web") {
				t.Errorf("%s lies among plates of other plywood", id)
			}
		}
	}
}

// A cut takes its kerf outside the web and inside its openings, which run clockwise on either face; the second face's web
// is the mirror image of the first's.
func TestWebKerf(t *testing.T) {
	r, doc := webbed(t, "web = { faces = \"both\" }\nsaw = { plates = \"laser\", laser_kerf = 0.4 }\n")
	plates, tool := cut.Plates(rib.One(r, doc), nil), cut.ToolOf(doc)
	if len(plates) != 2 || plates[0].ID != "web" || plates[1].ID != "web/2" {
		t.Fatalf("%d plates", len(plates))
	}
	for _, p := range plates {
		area := p.Outline.Area()
		for i, h := range p.Holes {
			area += h.Area()
			way := tool.HolePath(h)
			if h.Area() >= 0 || len(way) != 1 {
				t.Fatalf("%s: hole %d runs counter-clockwise, or is cut in %d ways", p.ID, i, len(way))
			}
			for _, q := range way[0].Flatten(geom.Flat) {
				if d := h.Distance(q); math.Abs(d-0.2) > geom.Flat || !geom.Ring(h.Flatten(geom.Flat)).Holds(q) {
					t.Errorf("%s: the cut in hole %d runs %.4f mm from its edge, want 0.2 inside", p.ID, i, d)
				}
			}
		}
		if len(p.Holes) != 2 || math.Abs(area-r.Web.AreaMM2) > 1e-6 {
			t.Errorf("%s: %d holes, %.6f mm² left, want %.6f", p.ID, len(p.Holes), area, r.Web.AreaMM2)
		}
		for _, q := range tool.Path(p.Outline)[0].Flatten(geom.Flat) {
			if d := p.Outline.Distance(q); math.Abs(d-0.2) > 2*geom.Flat {
				t.Errorf("%s: the cut about it runs %.4f mm from its edge, want 0.2", p.ID, d)
				break
			}
		}
	}
	near, far := plates[0].Outline.Box(), plates[1].Outline.Box()
	if math.Abs(near.Min.X+far.Max.X) > 1e-9 || math.Abs(near.Min.Y-far.Min.Y) > 1e-9 {
		t.Errorf("the web of the second face is no mirror image: %v and %v", near, far)
	}
}

// A router leaves the corners of the openings round by its bit: r(√2 − 1) in a square one.
func TestWebRouter(t *testing.T) {
	r, doc := webbed(t, "web = { faces = \"near\" }\ngusset = { shape = \"none\" }\nsaw = { plates = \"router\", router_bit = 3 }\n")
	fs := cut.Check(r, doc)
	if len(fs) != 1 || fs[0].Code != "router-corner" || fs[0].Part != "web" {
		t.Fatalf("got %v", fs)
	}
	if want := float64(1.5 * (math.Sqrt2 - 1)); math.Abs(fs[0].Got-want) > 0.15 {
		t.Errorf("%.3f mm are left in a corner, want about %.3f", fs[0].Got, want)
	}
}
