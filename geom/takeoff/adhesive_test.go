package takeoff_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// adhesiveOf reads [adhesive] with these lines.
func adhesiveOf(t *testing.T, units, table string) ribfile.Adhesive {
	t.Helper()
	doc, fs := ribfile.Read("rib.toml", []byte("units = \""+units+"\"\nsection = { naca = \"0015\" }\nrib = { chord = \"1200 mm\" }\n[adhesive]\n"+table))
	if len(fs) > 0 {
		t.Fatal(fs)
	}
	return doc.Adhesive
}

// TestSpread works masses out by hand for a square metre of glue area, of which a fifth is end grain.
//
//   - A film: thickness × density; 0.001 in at 1.15 g/cm³ is 25.4 µm × 1.15 g/cm³ = 29.21 g/m².
//   - 1 lb/MSGL, a pound on a thousand square feet of single glue line, is 453.59237 g on 92.90304 m² = 4.88243 g/m².
func TestSpread(t *testing.T) {
	const msgl = 453.59237 / 92.90304
	if math.Abs(msgl-4.88243) > 5e-6 {
		t.Fatalf("1 lb/MSGL: %.6f g/m²", msgl)
	}
	for _, c := range []struct {
		name, units, table string
		onG, inG, lost     float64 // put on, stays in the joint, in the cup
	}{
		{"defaults", "in", "", 2 * 292.1, 175.26, 0.2 * 584.2},
		{"a film of 0.001 in on one surface", "in", "spread = 0.001\nglue_line = 0.001\ncoat = \"one\"\ncup_loss = 0", 29.21, 29.21, 0},
		{"1 lb/MSGL", "mm", "rate = \"1 lb/MSGL\"\nglue_line = 0.001\ncup_loss = 0", msgl, 1.15, 0},
		{"a bare rate in inches", "in", "rate = 60\ncup_loss = 0.5", 60 * msgl, 175.26, 30 * msgl},
		{"of a joint, both surfaces together", "mm", "rate = \"300 g/m2\"\ncoat = \"both\"\nglue_line = 0.1", 300, 115, 60},
		{"on each surface", "mm", "rate = 150\nrate_of = \"surface\"\nglue_line = 0.1", 300, 115, 60},
		{"on one surface", "mm", "rate = 150\nrate_of = \"surface\"\ncoat = \"one\"\nglue_line = 0.1\ncup_loss = 0", 150, 115, 0},
		{"by squeeze-out", "mm", "squeeze_out = 0.5\nglue_line = 0.1\ncup_loss = 0.1", 172.5, 115, 17.25},
		{"end grain twice", "mm", "end_grain = 2\nspread = 0.2\nglue_line = 0.1\ncup_loss = 0", 1.2 * 460, 1.2 * 115, 0},
		{"end grain not at all", "mm", "end_grain = 0\nspread = 0.2\nglue_line = 0.1\ncup_loss = 0", 0.8 * 460, 0.8 * 115, 0},
	} {
		a := takeoff.Spread(adhesiveOf(t, c.units, c.table), 0.8e6, 0.2e6)
		for what, pair := range map[string][2]float64{
			"mixed": {a.MixedG, c.onG + c.lost}, "in the joint": {a.InJointG, c.inG}, "squeezed out": {a.SqueezeOutG, c.onG - c.inG}, "in the cup": {a.CupLossG, c.lost},
		} {
			if math.Abs(pair[0]-pair[1]) > 1e-9*math.Max(1, pair[1]) {
				t.Errorf("%s: %s: got %.6f g, want %.6f g", c.name, what, pair[0], pair[1])
			}
		}
	}
}

// TestPartsByVolume works 2:1 by volume by hand: 90 g mixed of A at 1.2 and B at 0.9 g/cm³ are 2 × 1.2 to 0.9 by
// weight: 65.45 g = 54.55 cm³ of A and 24.55 g = 27.27 cm³ of B, half of that.
func TestPartsByVolume(t *testing.T) {
	a := takeoff.Spread(adhesiveOf(t, "mm", "ratio = [2, 1]\nby = \"volume\"\ndensity_a = 1.2\ndensity_b = 0.9\nrate = 75\nglue_line = 0.01"), 1e6, 0)
	for i, pair := range [][2]float64{{a.MixedG, 90}, {a.PartAG, 65.4545}, {a.PartBG, 24.5455}, {a.PartAML, 54.5455}, {a.PartBML, 27.2727}} {
		if math.Abs(pair[0]-pair[1]) > 1e-4 {
			t.Errorf("%d: got %.4f, want %.4f", i, pair[0], pair[1])
		}
	}
	same := takeoff.Spread(adhesiveOf(t, "mm", ""), 1e6, 0)
	if math.Abs(same.PartAG-same.PartBG) > 1e-9 || math.Abs(same.PartAML-same.PartAG/1.15) > 1e-9 {
		t.Errorf("1:1 by weight: %+v", same)
	}
}

// TestSpots holds that the joints' adhesive is the rib's: each plate on each face, each stick end once.
func TestSpots(t *testing.T) {
	r, doc := layOut(t, strings.Replace(warren, "thickness = 1.5", "thickness = 1.5, at = [{ joints = [\"U2\"], shape = \"none\" }]", 1)+
		"nose = { block_to = \"5%\" }\nadhesive = { end_grain = 2 }\n")
	q := takeoff.Of(r, doc)
	var sides [2]takeoff.Adhesive
	var plates, ends, caps float64
	var ids []string
	for _, s := range q.Spots {
		sides[s.Side] = sides[s.Side].Plus(s.Adhesive)
		plates, ends, caps = plates+s.PlateMM2, ends+s.EndMM2, caps+s.CapsMM2
		if s.Side == 0 {
			ids = append(ids, s.ID)
		}
	}
	for i := range sides {
		if math.Abs(sides[i].MixedG-q.Sides[i].MixedG) > 1e-9 || math.Abs(sides[i].InJointG-q.Sides[i].InJointG) > 1e-9 {
			t.Errorf("side %d: the joints take %.4f g, the side %.4f g", i+1, sides[i].MixedG, q.Sides[i].MixedG)
		}
	}
	if g := q.Glue; math.Abs(plates-g.GussetMM2)+math.Abs(ends-g.ButtMM2)+math.Abs(caps-g.CapsMM2) > 1e-6 {
		t.Errorf("areas: %.3f %.3f %.3f, want those of %+v", plates, ends, caps, g)
	}
	if !slices.Contains(ids, "U2") || !slices.Contains(ids, "caps") || len(ids) != len(r.Gussets)+2 {
		t.Errorf("joints: %v", ids)
	}
	if both := q.Sides[0].Plus(q.Sides[1]).Times(3); math.Abs(both.MixedG-3*q.Adhesive.MixedG) > 1e-9 || math.Abs(both.PartBML-3*q.Adhesive.PartBML) > 1e-9 {
		t.Errorf("three ribs: %+v, want three times %+v", both, q.Adhesive)
	}
}
