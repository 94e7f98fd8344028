package takeoff_test

import (
	"bytes"
	"encoding/json"
	"math"
	"slices"
	"testing"

	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

func layOut(t testing.TB, text string) (*rib.Rib, *ribfile.Doc) {
	t.Helper()
	doc, fs := ribfile.Read("rib.toml", []byte(text))
	sec, more := rib.Section(doc, nil)
	r, found := rib.Build(doc, sec)
	if all := slices.Concat(fs, more, found); len(all) > 0 {
		t.Fatal(all)
	}
	return r, doc
}

const warren = `units = "mm"
title = "Test rib"
section = { naca = "0015" }
rib = { chord = 1200, count = 4 }
cap = { depth = 6, width = 12 }
stick = { depth = 6, width = 12 }
spar = [{ name = "front", at = "15%", width = 16 }, { name = "rear", at = "65%", width = 12 }]
bay = [{ from = "front", to = "rear", pattern = "warren", panels = 6 }]
gusset = { shape = "round", diameter = 36, thickness = 1.5 }
`

// TestAdhesive works the design's formula by hand: area × surfaces × film × density × (1 + loss), and area ×
// cured thickness × density in the joint.
func TestAdhesive(t *testing.T) {
	for _, c := range []struct {
		name, table           string
		inJoint, mixed, share float64 // g for each mm² of glue area; part A's share
	}{
		{"defaults", "", 0.1524e-3 * 1.15, 2 * 0.254e-3 * 1.15 * 1.2, 0.5},
		{"one surface, 2:1", "coat = \"one\"\nratio = [2, 1]\ncup_loss = 0", 0.1524e-3 * 1.15, 0.254e-3 * 1.15, 2.0 / 3},
		{"by volume", "by = \"volume\"\nratio = [1, 1]\ndensity_a = 1.2\ndensity_b = 1.0\nspread = 0.5\nglue_line = 0.1", 0.1e-3 * 1.15, 2 * 0.5e-3 * 1.15 * 1.2, 1.2 / 2.2},
	} {
		r, doc := layOut(t, warren+"[adhesive]\n"+c.table+"\n")
		q := takeoff.Of(r, doc)
		a, area := q.Adhesive, q.Glue.TotalMM2
		if math.Abs(a.InJointG-area*c.inJoint) > 1e-9 || math.Abs(a.MixedG-area*c.mixed) > 1e-9 || math.Abs(a.PartAG-a.MixedG*c.share) > 1e-9 {
			t.Errorf("%s: got %+v for %.1f mm²", c.name, a, area)
		}
		if math.Abs(a.PartAG+a.PartBG-a.MixedG) > 1e-9 || math.Abs(q.Sides[0].MixedG+q.Sides[1].MixedG-a.MixedG) > 1e-9 {
			t.Errorf("%s: parts or sides do not add up: %+v %+v", c.name, a, q.Sides)
		}
	}
}

// TestFilm is the usual figure of a film: 0.001 in at 1.15 g/cm³ is 29.2 g/m² (thickness × density).
func TestFilm(t *testing.T) {
	r, doc := layOut(t, warren+"[adhesive]\nspread = \"0.001 in\"\ncoat = \"one\"\ncup_loss = 0\n")
	q := takeoff.Of(r, doc)
	if got := q.Adhesive.MixedG / (q.Glue.TotalMM2 * 1e-6); math.Abs(got-29.21) > 0.005 {
		t.Errorf("got %.3f g/m², want 29.21", got)
	}
}

// TestGroups holds that mirrored sticks are one kind of piece, and that nothing is lost in grouping.
func TestGroups(t *testing.T) {
	r, doc := layOut(t, warren+"[[line]]\nfrom = \"lower 80%\"\nto = \"upper 85%\"\n")
	mirror, _ := layOut(t, warren+"[[line]]\nfrom = \"upper 80%\"\nto = \"lower 85%\"\n")
	r.Sticks = append(r.Sticks, mirror.Sticks...)
	q := takeoff.Of(r, doc)
	n := 0
	for _, g := range q.Sticks {
		n += len(g.IDs)
		if len(g.IDs)%2 != 0 {
			t.Errorf("%v: a stick and its mirror image are not together", g.IDs)
		}
	}
	if n != len(r.Sticks) {
		t.Errorf("%d sticks in groups, want %d", n, len(r.Sticks))
	}
	plates := 0
	for _, g := range q.Plates {
		plates += g.Faces
	}
	if plates != 2*len(r.Gussets) {
		t.Errorf("%d plates in groups, want %d", plates, 2*len(r.Gussets))
	}
}

// TestReport holds the report's fields against the rib, after a round through JSON.
func TestReport(t *testing.T) {
	r, doc := layOut(t, warren)
	q := takeoff.Of(r, doc)
	var b bytes.Buffer
	if err := report(doc, r, q).Write(&b); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Title, Units string
		Findings     []any
		Ribs         []struct {
			Count   int
			ChordMM float64 `json:"chord_mm"`
			Contour struct {
				AreaMM2 float64   `json:"area_mm2"`
				Points  []geom.Pt `json:"points"`
			}
			Sticks  []struct{ Outline []geom.Pt }
			Gussets []struct {
				ID      string
				AreaMM2 float64 `json:"area_mm2"`
				Outline [][3]float64
				GlueMM2 map[string]float64 `json:"glue_mm2"`
			}
			Glue map[string]float64
		}
		Totals struct {
			Glue map[string]float64
			Mass map[string]float64 `json:"mass_g"`
		}
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	rr := got.Ribs[0]
	if got.Findings == nil || got.Units != "mm" || rr.Count != 4 || rr.ChordMM != 1200 {
		t.Errorf("heading: %+v", got)
	}
	if a := geom.Ring(rr.Contour.Points).Area(); math.Abs(a-rr.Contour.AreaMM2) > 1e-2 {
		t.Errorf("the contour's points enclose %g mm², the report says %g", a, rr.Contour.AreaMM2)
	}
	for i, g := range rr.Gussets {
		p := geom.Path{Start: geom.Pt{X: g.Outline[0][0], Y: g.Outline[0][1]}, Closed: true}
		for k, v := range g.Outline {
			w := g.Outline[(k+1)%len(g.Outline)]
			p.Segs = append(p.Segs, geom.Seg{End: geom.Pt{X: w[0], Y: w[1]}, Bulge: v[2]})
		}
		if a := p.Area(); math.Abs(a-g.AreaMM2) > 1e-3 || g.ID != r.Gussets[i].ID {
			t.Errorf("plate %s: the outline encloses %g mm², the report says %g", g.ID, a, g.AreaMM2)
		}
	}
	for _, k := range []string{"gusset_one_face_mm2", "gusset_mm2", "butt_mm2", "total_mm2"} {
		if math.Abs(got.Totals.Glue[k]-4*rr.Glue[k]) > 1e-5 || rr.Glue[k] <= 0 {
			t.Errorf("%s: rib %g, set of 4 %g", k, rr.Glue[k], got.Totals.Glue[k])
		}
	}
	if math.Abs(got.Totals.Mass["total"]-4*q.Mass.TotalG) > 1e-5 {
		t.Errorf("mass of the set: got %g", got.Totals.Mass["total"])
	}
}

// TestSortedKeys holds the order in which members are listed.
func TestSortedKeys(t *testing.T) {
	got := takeoff.SortedKeys(map[string]float64{"S10": 1, "S2": 1, "cap-upper": 1, "block-nose": 1, "cap-lower": 1})
	if want := []string{"block-nose", "cap-lower", "cap-upper", "S2", "S10"}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func BenchmarkOf(b *testing.B) {
	r, doc := layOut(b, warren)
	for b.Loop() {
		takeoff.Of(r, doc)
	}
}

// TestBends holds how the caps are bent, in the take-off and in the report: the middle of the strip on a NACA 0015's nose of
// 1.1019 t² c (NACA Report 460), to 2 %.
func TestBends(t *testing.T) {
	r, doc := layOut(t, warren)
	q := takeoff.Of(r, doc)
	want := 1.1019*0.15*0.15*r.Chord - r.CapDepth/2
	var b bytes.Buffer
	if err := report(doc, r, q).Write(&b); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Ribs []struct {
			Caps []struct {
				Bend struct {
					RadiusMM  float64 `json:"radius_mm"`
					Ratio     float64
					StrainPct float64 `json:"strain_pct"`
					Tier      string
					DryFrom   float64 `json:"dry_from_mm"`
				}
			}
		}
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	for i, c := range got.Ribs[0].Caps {
		k := c.Bend
		if math.Abs(k.RadiusMM-want) > 0.02*want || math.Abs(k.Ratio-k.RadiusMM/r.CapDepth) > 1e-5 || math.Abs(k.StrainPct-50/k.Ratio) > 1e-4 ||
			k.Tier != "steam" || math.Abs(k.RadiusMM-q.Bends[i].Radius) > 1e-6 || k.DryFrom <= 0 || k.DryFrom > r.Chord/4 {
			t.Errorf("cap %d: %+v, want a radius of %.2f", i, k, want)
		}
	}
}

// report is the report of a file with one rib.
func report(doc *ribfile.Doc, r *rib.Rib, q takeoff.TakeOff) takeoff.Report {
	out := takeoff.NewReport(doc, nil)
	out.Add(r, q)
	out.Ribs = func(yield func([]byte, error) bool) { yield(takeoff.NewRibReport(doc.Title, r, q).Text()) }
	return out
}
