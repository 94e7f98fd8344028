package shop

import (
	"fmt"

	"ribwright/export"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// adhesiveColumns are those of every list of adhesive: where it goes, and its parts by weight and volume.
func (w lister) adhesiveColumns() []export.Column {
	return []export.Column{w.areaColumn("area", "glue area"), w.massColumn("in_joint", "stays in the joint"), w.massColumn("squeeze_out", "squeezed out"),
		w.massColumn("cup_loss", "stays in the cup"), w.massColumn("mixed", "mix"), w.massColumn("part_a", "part A"), w.massColumn("part_b", "part B"),
		w.volumeColumn("part_a", "part A"), w.volumeColumn("part_b", "part B")}
}

func (w lister) adhesiveCells(areaMM2 float64, a takeoff.Adhesive) []export.Cell {
	return []export.Cell{w.area(areaMM2), w.mass1(a.InJointG), w.mass1(a.SqueezeOutG), w.mass1(a.CupLossG), w.mass1(a.MixedG),
		w.mass1(a.PartAG), w.mass1(a.PartBG), w.volume(a.PartAML), w.volume(a.PartBML)}
}

// mlPerFluidOunce is the US fluid ounce, a 128th of 231 in³.
const mlPerFluidOunce = 231 * 16.387064 / 128

// volume columns are millilitres; people who think in inches read fluid ounces.
func (w lister) volumeColumn(key, head string) export.Column {
	if w.inch {
		return export.Column{Key: key + "_fl_oz", Head: head, Unit: "fl oz", Right: true}
	}
	return export.Column{Key: key + "_ml", Head: head, Unit: "ml", Right: true}
}

func (w lister) volume(ml float64) export.Cell {
	if !w.inch {
		return export.Num(ml, bench(ml))
	}
	return export.Num(ml/mlPerFluidOunce, fmt.Sprintf("%.2f (%s ml)", ml/mlPerFluidOunce, bench(ml)))
}

// adhesive is what to mix, by side, rib and set.
func (w lister) adhesive() export.Table {
	t := export.Table{ID: "adhesive", Title: "Adhesive", Columns: append([]export.Column{text("for", "for")}, w.adhesiveColumns()...), Notes: w.adhesiveNotes()}
	row := func(name string, area float64, a takeoff.Adhesive) {
		t.Rows = append(t.Rows, append([]export.Cell{export.Str(name)}, w.adhesiveCells(area, a)...))
	}
	g, n := w.t.Glue, float64(w.t.Count)
	if second := g.FaceMM2[1] + g.WebMM2[1]; second > 0 {
		row("first side of a rib, with all stick ends and blocks", g.FaceMM2[0]+g.WebMM2[0]+g.ButtMM2+g.CapsMM2+g.PliesMM2, w.t.Sides[0])
		row("second side of a rib", second, w.t.Sides[1])
	}
	if w.r.Mirrored > 0 {
		row("first side of a right rib, with all stick ends and blocks", g.FaceMM2[1]+g.WebMM2[1]+g.ButtMM2+g.CapsMM2+g.PliesMM2, w.t.Right[0])
		if second := g.FaceMM2[0] + g.WebMM2[0]; second > 0 {
			row("second side of a right rib", second, w.t.Right[1])
		}
	}
	row("one rib", g.TotalMM2, w.t.Adhesive)
	row("the set: "+fmt.Sprint(w.t.Count)+" × one rib", n*g.TotalMM2, w.t.Adhesive.Times(n))
	return t
}

// adhesiveNotes say by which figures adhesive is counted.
func (w lister) adhesiveNotes() []string {
	a := w.doc.Adhesive
	on := fmt.Sprintf("%s of wet film on %s", w.doc.Length(a.Spread), map[string]string{"both": "both surfaces", "one": "one surface"}[a.Coat])
	switch {
	case a.Amount == ribfile.ByRate && a.RateOf == "surface" && a.Coat == "both":
		on = w.doc.Units.Rate(a.Rate) + " on each of both surfaces"
	case a.Amount == ribfile.ByRate:
		on = w.doc.Units.Rate(a.Rate) + " of glue line"
		if a.Coat == "both" {
			on += ", half on each surface"
		}
	case a.Amount == ribfile.BySqueezeOut:
		on = fmt.Sprintf("%.4g %% more put on than stays in the joint", 100*a.SqueezeOut)
	}
	film := w.doc.Length(takeoff.PutOn(a) / (1e3 * a.Density))
	out := []string{fmt.Sprintf("Ratio %g : %g by %s; %s (%s, a film of %s in all), %s cured; %g g/cm³; %.0f %% of what is put on stays in cup and brush besides.",
		a.RatioA, a.RatioB, a.By, on, w.doc.Units.Rate(takeoff.PutOn(a)), film, w.doc.Length(a.GlueLine), a.Density, 100*a.CupLoss)}
	if a.EndGrain != 1 {
		out = append(out, fmt.Sprintf("End grain (stick ends and blocks) counts %g times its area: it soaks adhesive up.", a.EndGrain))
	}
	if a.DensityA == 0 || a.DensityB == 0 {
		out = append(out, "Volumes are by the density of the mixed adhesive: the parts' own (density_a, density_b) are not given.")
	}
	return append(out, glueCautions...)
}

// spots is what each joint takes, on each side of a rib.
func (w lister) spots() export.Table {
	t := export.Table{ID: "adhesive-joints", Title: "Adhesive of each joint",
		Columns: []export.Column{number("side", "side", ""), text("joint", "joint"), w.areaColumn("plate", "under the plate"), w.areaColumn("end_grain", "end grain"),
			w.areaColumn("caps", "cap on cap"), w.massColumn("mixed", "mix")},
		Notes: append([]string{"Side 1 is glued in the jig, with the ends of all sticks and blocks; their end grain stands with the plate over it. What stays in cup and brush is counted."}, glueCautions...)}
	for _, s := range w.t.Spots {
		t.Rows = append(t.Rows, []export.Cell{count(s.Side + 1), export.Str(s.ID), w.area(s.PlateMM2), w.area(s.EndMM2), w.area(s.CapsMM2), w.mass1(s.Adhesive.MixedG)})
	}
	for side, a := range w.t.Sides {
		if g := w.t.Glue; a.MixedG > 0 {
			ends, caps := g.ButtMM2, g.CapsMM2+g.PliesMM2
			if side == 1 {
				ends, caps = 0, 0
			}
			t.Rows = append(t.Rows, []export.Cell{count(side + 1), export.Str("all"), w.area(g.FaceMM2[side] + g.WebMM2[side]), w.area(ends), w.area(caps), w.mass1(a.MixedG)})
		}
	}
	return t
}
