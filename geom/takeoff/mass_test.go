package takeoff

import (
	"math"
	"testing"

	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol }

// TestDensity holds densities against Wood Handbook, FPL-GTR-190 (figures from memory): Table 5-3 gives the specific
// gravity at 12 % by which a cubic metre weighs 1120 times as many kilograms, measured on other trees than the basic one; and
// Sitka spruce is known as about 440 kg/m³. Dry wood, and wood at fibre saturation, by hand.
func TestDensity(t *testing.T) {
	at := func(moisture float64) ribfile.Mass { return ribfile.Mass{Moisture: moisture} }
	if got := Density("sitka-spruce", at(12)); !near(got, 440, 1) {
		t.Errorf("sitka-spruce: got %.1f kg/m³, want about 440", got)
	}
	for name, g12 := range map[string]float64{"sitka-spruce": 0.40, "white-spruce": 0.36, "douglas-fir": 0.48, "yellow-birch": 0.62, "paper-birch": 0.55, "white-ash": 0.60} {
		if got := Density(name, at(12)); !near(got, 1120*g12, 1120*0.035) {
			t.Errorf("%s: got %.1f kg/m³, the table's gravity gives %.1f", name, got, 1120*g12)
		}
	}
	for _, c := range []struct {
		name     string
		moisture float64
		want     float64
	}{
		{"sitka-spruce", 0, 1000 * 0.37 / (1 - 0.265*0.37)},          // 410.2
		{"sitka-spruce", 15, 1150 * 0.37 / (1 - 0.265*0.5*0.37)},     // 447.4
		{"sitka-spruce", 30, 1300 * 0.37},                            // 481.0, swollen no further
		{"white-ash", 8, 1080 * 0.55 / (1 - 0.265*22.0/30.0*0.55)},   // 665.0
		{"birch-plywood", 12, 680}, {"birch-plywood", 0, 680 / 1.12}, // its water left out
		{"unobtainium", 12, 0},
	} {
		if got := Density(c.name, at(c.moisture)); !near(got, c.want, 1e-9) {
			t.Errorf("%s at %g %%: got %.2f kg/m³, want %.2f", c.name, c.moisture, got, c.want)
		}
	}
	// ANC-18 (1951), Table 2-6 (at second hand): spruce 28 lb/ft³ at 15 %.
	if got := Density("sitka-spruce", at(15)) * PoundsPerFoot3; !near(got, 28, 0.1) {
		t.Errorf("sitka-spruce at 15 %%: got %.2f lb/ft³, want 28", got)
	}
	own := ribfile.Mass{Moisture: 8, Density: map[string]float64{"sitka-spruce": 0.395}}
	if got := Density("sitka-spruce", own); got != 395 {
		t.Errorf("weighed stock: got %g kg/m³, want 395", got)
	}
}

func square(x0, y0, x1, y1 float64) geom.Ring {
	return geom.Ring{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

// handRib is two straight caps of 100 × 6, an upright between them and a plate of 30 × 20 over its upper joint, on both
// faces, with everything that is glued written down.
func handRib() *rib.Rib {
	return &rib.Rib{Count: 3, CapWidth: 12, StickWidth: 12, GussetThickness: 1.5,
		Caps: []rib.Cap{
			{ID: rib.CapUpper, Side: rib.Upper, Outline: square(0, 44, 100, 50), Edge: []geom.Pt{{X: 0, Y: 50}, {X: 50, Y: 50}, {X: 100, Y: 50}}},
			{ID: rib.CapLower, Side: rib.Lower, Outline: square(0, 0, 100, 6), Edge: []geom.Pt{{X: 0, Y: 0}, {X: 50, Y: 0}, {X: 100, Y: 0}}},
		},
		Sticks: []rib.Stick{{ID: "S1", Outline: square(47, 6, 53, 44)}},
		Joints: []rib.Joint{
			{ID: "U1", At: geom.Pt{X: 50, Y: 47}, ButtMM2: map[string]float64{"S1": 72}},
			{ID: "L1", At: geom.Pt{X: 50, Y: 3}, ButtMM2: map[string]float64{"S1": 72}},
		},
		Gussets: []rib.Gusset{{ID: "U1", Joints: []string{"U1"}, Shape: rib.Rectangle, Outline: square(35, 30, 65, 50).Path(), AreaMM2: 600, Faces: 2,
			Centre: geom.Pt{X: 50, Y: 40}, GlueMM2: map[string]float64{rib.CapUpper: 180, "S1": 84}}},
	}
}

// TestByHand adds a rib up by hand: volumes, masses, varnished area and where it balances.
func TestByHand(t *testing.T) {
	doc, _ := ribfile.Read("hand", nil)
	doc.Mass.Density = map[string]float64{"sitka-spruce": 0.4, "birch-plywood": 0.7}
	doc.Adhesive.GlueLine, doc.Adhesive.Density, doc.Adhesive.EndGrain = 0.15, 1.2, 1
	doc.Varnish = ribfile.Varnish{Coats: 2, RateGM2: 50}
	r := handRib()
	m := Of(r, doc).Mass
	caps, stick, plates := 2*100*6*12*0.4e-3, 6*38*12*0.4e-3, 2*30*20*1.5*0.7e-3 // 5.76, 1.0944, 1.26 g
	under := 264 * 0.15 * 1.2e-3                                                 // g of adhesive under one plate
	ends := 72 * 0.15 * 1.2e-3
	// Faces and edges, less two surfaces of all that is glued: the caps 7488, the stick 1512, the plates 2700,
	// the plates' joints 1056, the stick's ends 288.
	coat := 2*(2*600+212*12) + (2*228 + 88*12) + 2*(2*600+100*1.5) - 2*2*264 - 2*144.0
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"caps", m.CapsG, caps}, {"sticks", m.SticksG, stick}, {"blocks", m.BlocksG, 0}, {"plates", m.GussetsG, plates},
		{"adhesive", m.AdhesiveG, 2*under + 2*ends}, {"fasteners", m.FastenersG, 0},
		{"varnished area", m.CoatMM2, 10356}, {"varnished area, the other way", m.CoatMM2, coat}, {"varnish", m.VarnishG, coat * 1e-6 * 100},
		{"total", m.TotalG, caps + stick + plates + 2*under + 2*ends + coat*1e-4},
		{"without varnish, station", m.Bare.X, 50},
		{"without varnish, height", m.Bare.Y, ((caps+stick)*25 + plates*40 + (2*under+ends)*40 + ends*3) / (caps + stick + plates + 2*under + 2*ends)},
		{"with varnish, station", m.At.X, 50},
	} {
		if !near(c.got, c.want, 1e-9) {
			t.Errorf("%s: got %.9f, want %.9f", c.name, c.got, c.want)
		}
	}
	coatY := (2*3744*25 + 1512*25 + 2*1350*40 - 4*264*40 - 2*72*47 - 2*72*3) / 10356.0
	if want := (m.Bare.Y*(m.TotalG-m.VarnishG) + coatY*m.VarnishG) / m.TotalG; !near(m.At.Y, want, 1e-9) {
		t.Errorf("with varnish it balances at height %.9f, want %.9f", m.At.Y, want)
	}
	doc.Section.Skins = []ribfile.Skin{{From: 0, To: 50, Side: "upper"}, {From: 0, To: 100, Side: "lower"}}
	if got := Of(r, doc).Mass.CoatMM2; !near(got, 10356-150*12, 1e-9) {
		t.Errorf("under a skin: %g mm² are varnished, want %g", got, 10356-150*12.0)
	}
}

func laidOut(t *testing.T, more string) (*rib.Rib, *ribfile.Doc) {
	t.Helper()
	doc, _ := ribfile.Read("rib.toml", []byte(`units = "mm"
section = { naca = "0015" }
rib = { chord = 1200, count = 4 }
spar = [{ name = "front", at = "15%", width = 16 }, { name = "rear", at = "65%", width = 12 }]
bay = [{ from = "front", to = "rear", pattern = "uprights", panels = 4 }]
gusset = { shape = "round", diameter = 36, thickness = 1.5 }
nose = { block_to = "5%" }
tail = { block_from = "92%" }
`+more))
	sec, _ := rib.Section(doc, nil)
	r, _ := rib.Build(doc, sec)
	return r, doc
}

// TestBalance holds a rib that is its own mirror image on its chord line, and its station against slices of the wood.
func TestBalance(t *testing.T) {
	r, doc := laidOut(t, "fastener = { kind = \"staple\" }\nvarnish = { coats = 1 }\n")
	q := Of(r, doc)
	m := q.Mass
	if !near(m.At.Y, 0, 1e-3) || !near(m.Bare.Y, 0, 1e-3) {
		t.Errorf("it balances %g mm and %g mm above its chord line", m.At.Y, m.Bare.Y)
	}
	sum, moment := 0.0, 0.0 // mm² of wood, between two planes a millimetre apart
	for x := -1.0; x < 1201; x++ {
		for _, ring := range []geom.Ring{r.Caps[0].Outline, r.Caps[1].Outline} {
			a := ring.Within(geom.After(x)).Within(geom.Before(x + 1)).Area()
			sum, moment = sum+a, moment+a*(x+0.5)
		}
	}
	if k := m.ByKind[0]; k.Name != "caps" || !near(k.At.X, moment/sum, 0.01) || !near(k.VolumeMM3, sum*r.CapWidth, 1e-4) {
		t.Errorf("caps: %+v, want %g mm³ about %g mm", k, sum*r.CapWidth, moment/sum)
	}
	total := 0.0
	for _, k := range m.ByKind {
		total += k.MassG
	}
	if !near(total, m.TotalG, 1e-9) || !near(m.AdhesiveG, q.Adhesive.InJointG, 1e-9) {
		t.Errorf("kinds add up to %g g, the rib to %g; adhesive %g, want %g", total, m.TotalG, m.AdhesiveG, q.Adhesive.InJointG)
	}
	// 1.27 × 0.508 mm of flat wire, a crown of 4.7625 and two legs of 6.35 mm, at 7.9 g/cm³: 0.0890 g.
	if want := float64(len(q.Fasteners.All)) * 0.0890; m.FastenersG == 0 || !near(m.FastenersG, want, 1e-3*want) {
		t.Errorf("%d staples weigh %g g", len(q.Fasteners.All), m.FastenersG)
	}
	r, doc = laidOut(t, "fastener = { kind = \"staple\", after = \"pulled\" }\n")
	if got := Of(r, doc).Mass; got.FastenersG != 0 || got.VarnishG != 0 || got.At != got.Bare {
		t.Errorf("pulled staples weigh %g g, no varnish %g g", got.FastenersG, got.VarnishG)
	}
}

// TestCapsMeet holds the line on which the caps are glued to each other against the area that the rib gives.
func TestCapsMeet(t *testing.T) {
	for _, more := range []string{"", "cap = { from = \"3%\", depth = 5 }\n"} {
		r, _ := laidOut(t, more)
		if at, length := capsMeet(r); !near(length*r.CapWidth, r.CapsMeetMM2, 1e-6) || at.X < 0 || at.X > 1200 {
			t.Errorf("%q: %g mm² about %v, want %g mm²", more, length*r.CapWidth, at, r.CapsMeetMM2)
		}
	}
}
