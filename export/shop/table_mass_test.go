package shop

import (
	"math"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/cut"
	"ribwright/geom/fasten"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

func table(t *testing.T, all []export.Table, id string) export.Table {
	t.Helper()
	for _, one := range all {
		if one.ID == id {
			return one
		}
	}
	t.Fatalf("there is no list %s", id)
	return export.Table{}
}

// counted is a demo rib with its take-off.
type counted struct {
	job
	t takeoff.TakeOff
}

func demo(t *testing.T, name string) counted {
	t.Helper()
	for _, j := range demos(t) {
		if j.name == name {
			return counted{j, takeoff.Of(j.rib, j.doc)}
		}
	}
	t.Fatalf("there is no demo %s", name)
	return counted{}
}

// row returns a row's cells by the keys of their columns.
func row(t *testing.T, of export.Table, first string) map[string]export.Cell {
	t.Helper()
	out := map[string]export.Cell{}
	for _, r := range of.Rows {
		if r[0].Text == first {
			for i, c := range of.Columns {
				out[c.Key] = r[i]
			}
			return out
		}
	}
	t.Fatalf("%s has no row %q", of.ID, first)
	return nil
}

// TestMassTable holds the list of masses against the take-off, and its deviations from what was weighed by hand.
func TestMassTable(t *testing.T) {
	j := demo(t, "marsh-wren")
	j.doc.Mass.WeighedG = map[string]float64{"rib": 250, "caps": 90}
	of := table(t, Tables(j.rib, j.doc, BoardOf(j.rib, j.doc), j.t), "mass")
	m := j.t.Mass
	total := row(t, of, "total")
	if d := total["off_g"].Num; math.Abs(d-(250-m.TotalG)) > 1e-9 || math.Abs(total["off_pct"].Num-100*d/m.TotalG) > 1e-9 || total["weighed_g"].Num != 250 {
		t.Errorf("total: %+v, the take-off has %g g", total, m.TotalG)
	}
	if total["set_g"].Num != m.TotalG*float64(j.t.Count) || total["cg_aft_mm"].Num != m.At.X {
		t.Errorf("total: %+v", total)
	}
	if c := row(t, of, "sticks"); c["weighed_g"].Text != "" || c["weighed_g"].IsNum {
		t.Errorf("what nobody weighed is not blank: %+v", c["weighed_g"])
	}
	share := 0.0
	for _, name := range []string{"caps", "sticks", "blocks", "plates", "adhesive in the joints", "fasteners that stay", "varnish"} {
		share += row(t, of, name)["share_pct"].Num
	}
	if math.Abs(share-100) > 1e-9 {
		t.Errorf("the kinds are %g %% of the rib", share)
	}
	if bare := row(t, of, "without varnish"); math.Abs(bare["rib_g"].Num+m.VarnishG-m.TotalG) > 1e-9 {
		t.Errorf("without varnish: %+v", bare)
	}
	if notes := strings.Join(of.Notes, "\n"); !strings.Contains(notes, "leave bond faces bare") {
		t.Errorf("no caution about varnish on bond faces:\n%s", notes)
	}
	parts := table(t, Tables(j.rib, j.doc, BoardOf(j.rib, j.doc), j.t), "part-masses")
	sum := 0.0
	for _, r := range parts.Rows {
		sum += r[5].Num * r[6].Num
	}
	if want := m.CapsG + m.SticksG + m.BlocksG + m.GussetsG; math.Abs(sum-want) > 1e-9 {
		t.Errorf("the parts weigh %g g, want %g", sum, want)
	}
	if d := row(t, parts, "cap-upper")["density_kg_m3"].Num; math.Abs(d-440.3) > 0.1 {
		t.Errorf("Sitka spruce: %g kg/m³", d)
	}
}

// TestFastenerTable holds the counts against the pattern, and the boxes.
func TestFastenerTable(t *testing.T) {
	j := demo(t, "marsh-wren")
	of := table(t, Tables(j.rib, j.doc, BoardOf(j.rib, j.doc), j.t), "fasteners")
	total := row(t, of, "rib")
	if n := float64(len(j.t.Fasteners.All)); n < 100 || total["per_rib"].Num != n || total["per_set"].Num != n*float64(j.t.Count) || math.Abs(total["mass_g"].Num-j.t.Mass.FastenersG) > 1e-9 {
		t.Errorf("total: %+v, want %g", total, n)
	}
	if notes := strings.Join(of.Notes, "\n"); !strings.Contains(notes, "Nothing in these lists counts them as strength") || !strings.Contains(notes, "% of the mass") {
		t.Errorf("notes:\n%s", notes)
	}
	doc := &ribfile.Doc{Units: ribfile.Inch, Fastener: ribfile.Fastener{Kind: "nail", Leg: 12.7, Wire: 1.27, Material: "brass", Box: 500, Price: 4}}
	for pieces, boxes := range map[int]int{1: 1, 500: 1, 501: 2} {
		set, takes := rib.One(&rib.Rib{Count: 1}, doc), []takeoff.TakeOff{{Fasteners: fasten.Pattern{All: make([]fasten.Fastener, pieces)}}}
		rows := FastenersToBuy(set, takes)
		if len(rows) != 1 || rows[0].Count != boxes || rows[0].Price != 4 || !strings.HasPrefix(rows[0].What, "nails, brass, 1/2 in long") {
			t.Errorf("%d pieces: %+v, want %d boxes", pieces, rows, boxes)
		}
	}
	staples := *doc
	staples.Fastener.Kind = "staple"
	set := append(append(rib.One(&rib.Rib{Count: 2}, doc), rib.One(&rib.Rib{Count: 3}, &staples)...), rib.One(&rib.Rib{Count: 1}, doc)...)
	of200 := takeoff.TakeOff{Fasteners: fasten.Pattern{All: make([]fasten.Fastener, 200)}}
	if rows := FastenersToBuy(set, []takeoff.TakeOff{of200, of200, of200}); len(rows) != 2 || rows[0].Count != 2 || rows[1].Count != 2 || rows[0].Size != "box of 500 (600 needed)" {
		t.Errorf("nails and staples: %+v", rows)
	}
	if FastenersToBuy(rib.One(&rib.Rib{Count: 9}, doc), []takeoff.TakeOff{{}}) != nil {
		t.Error("nothing to buy, and something is bought")
	}
	j = demo(t, "starter")
	if of := table(t, Tables(j.rib, j.doc, BoardOf(j.rib, j.doc), j.t), "fasteners"); len(of.Rows) != 0 || len(of.Notes) != 1 {
		t.Errorf("no fasteners: %+v", of)
	}
}

// TestSetMassPounds: in inches all masses of a set stand in pounds where it weighs 3 lb or more, and in ounces below; one
// rib stands in ounces always.
func TestSetMassPounds(t *testing.T) {
	j := demo(t, "reed-bunting")
	one := j.t.Mass.TotalG
	for _, c := range []struct {
		ribs int
		key  string
		unit float64
	}{{5, "set_oz", ribfile.GramsPerOunce}, {7, "set_lb", ribfile.GramsPerPound}} {
		if heavy := one*float64(c.ribs) >= 3*ribfile.GramsPerPound; heavy != (c.key == "set_lb") {
			t.Fatalf("%d ribs of %g g", c.ribs, one)
		}
		j.t.Count = c.ribs
		of := table(t, Tables(j.rib, j.doc, BoardOf(j.rib, j.doc), j.t), "mass")
		total, caps := row(t, of, "total"), row(t, of, "caps")
		if got, want := total[c.key].Num, one*float64(c.ribs)/c.unit; math.Abs(got-want) > 1e-9 {
			t.Errorf("%d ribs: %s is %g, want %g", c.ribs, c.key, got, want)
		}
		if got, want := caps[c.key].Num, caps["rib_oz"].Num*float64(c.ribs)*ribfile.GramsPerOunce/c.unit; math.Abs(got-want) > 1e-9 {
			t.Errorf("%d ribs: %s of the caps is %g, want %g", c.ribs, c.key, got, want)
		}
		if got := total["rib_oz"].Num * ribfile.GramsPerOunce; math.Abs(got-one) > 1e-9 {
			t.Errorf("%d ribs: one weighs %g g, want %g", c.ribs, got, one)
		}
		few := *j.rib
		few.Count = 1
		second := *j.rib
		second.Count = c.ribs - 1
		set := rib.Set{{Name: "R1", Doc: j.doc, Rib: &few}, {Name: "R2", Doc: j.doc, Rib: &second}}
		mass := table(t, SetTables(set, []takeoff.TakeOff{j.t, j.t}), "mass")
		for name, n := range map[string]int{"R1": 1, "R2": c.ribs - 1, "the set": c.ribs} {
			if got, want := row(t, mass, name)[c.key].Num, one*float64(n)/c.unit; math.Abs(got-want) > 1e-9 {
				t.Errorf("%s of %d ribs: %s is %g, want %g", name, c.ribs, c.key, got, want)
			}
		}
	}
}

// TestSetMass holds the lists of a set of two kinds: what they weigh and take together, and that every row has a cell
// under each heading.
func TestSetMass(t *testing.T) {
	a, b := demo(t, "marsh-wren"), demo(t, "marsh-wren")
	b.rib.Count = 4
	b.doc.Mass.WeighedG = map[string]float64{"rib": 260}
	set := rib.Set{{Name: "R1", Doc: a.doc, Rib: a.rib}, {Name: "R2", Doc: b.doc, Rib: b.rib}}
	takes := []takeoff.TakeOff{a.t, b.t}
	all := SetTables(set, takes)
	for _, of := range all {
		for _, r := range of.Rows {
			if len(r) != len(of.Columns) {
				t.Errorf("%s: %d cells under %d headings", of.ID, len(r), len(of.Columns))
				break
			}
		}
	}
	mass := table(t, all, "mass")
	if got, want := row(t, mass, "the set")["set_g"].Num, a.t.Mass.TotalG*30; math.Abs(got-want) > 1e-6 {
		t.Errorf("the set weighs %g g, want %g", got, want)
	}
	if r := row(t, mass, "R2"); r["weighed_g"].Num != 260 || row(t, mass, "R1")["weighed_g"].IsNum {
		t.Errorf("R2: %+v", r)
	}
	if got, want := row(t, table(t, all, "fasteners"), "the set")["per_set"].Num, float64(30*len(a.t.Fasteners.All)); got != want {
		t.Errorf("the set takes %g fasteners, want %g", got, want)
	}
	for _, after := range []struct{ a, b, want string }{
		{"left", "left", ""}, {"pulled", "pulled", "Fasteners are pulled"}, {"left", "pulled", "Fasteners of R2 are pulled"}, {"pulled", "left", "Fasteners of R1 are pulled"},
	} {
		a.doc.Fastener.After, b.doc.Fastener.After = after.a, after.b
		notes := strings.Join(table(t, SetTables(set, takes), "mass").Notes, "\n")
		if after.want == "" && strings.Contains(notes, "pulled") || !strings.Contains(notes, after.want) {
			t.Errorf("%s and %s:\n%s", after.a, after.b, notes)
		}
	}
}

// TestClampsOnPlates holds that the plates' file and the sheets show every fastener of a face, inside its plate.
func TestClampsOnPlates(t *testing.T) {
	j := demo(t, "marsh-wren")
	n := 0
	for _, it := range all(Plates(j.rib, j.doc, fasten.Of(j.rib, j.doc)).Sheets[0]) {
		if it.Layer == layerClamp {
			n++
		}
	}
	first := 0
	for _, f := range j.t.Fasteners.All {
		first += 1 - f.Face
	}
	if n != 3*first { // a crown and a tick across either leg
		t.Errorf("%d lines on the plates for %d staples", n, first)
	}
	for _, p := range cut.Plates(rib.One(j.rib, j.doc), nil) {
		ring := geom.Ring(p.Outline.Flatten(geom.Flat))
		if len(p.Clamps) != 3*j.t.Fasteners.Count(p.Gusset, p.Face) {
			t.Errorf("%s: %d lines", p.ID, len(p.Clamps))
		}
		for _, l := range p.Clamps {
			if !ring.Holds(l[0]) || !ring.Holds(l[1]) {
				t.Errorf("%s: a fastener beside the plate", p.ID)
			}
		}
	}
}
