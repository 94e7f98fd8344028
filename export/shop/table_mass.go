package shop

import (
	"cmp"
	"fmt"
	"maps"
	"strings"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// kindNames are the kinds of parts as the list of masses calls them.
var kindNames = map[string]string{"adhesive": "adhesive in the joints", "fasteners": "fasteners that stay", "rib": "total"}

// mass is what a rib weighs, where it balances, and what the scale said.
func (w lister) mass() export.Table {
	m, n := w.t.Mass, float64(w.t.Count)
	t := export.Table{ID: "mass", Title: "Mass and balance",
		Columns: []export.Column{text("part", "part"), w.solidColumn("volume", "volume"), w.massColumn("rib", "one rib"), number("share_pct", "of it", "%"),
			w.setMassColumn("set", "the set", m.TotalG*n), w.lengthColumn("cg_aft", "balances at station"), w.lengthColumn("cg_up", "above the chord line"),
			w.massColumn("weighed", "weighed"), w.massColumn("off", "deviation"), number("off_pct", "deviation", "%")},
		Notes: w.massNotes()}
	if w.pulled() {
		t.Notes = append(t.Notes, pulledNote(""))
	}
	t.Notes = append(t.Notes, "Weighed and deviation are of one rib; blank: to write into.")
	row := func(key string, volume export.Cell, g float64, at geom.Pt) {
		cells := []export.Cell{export.Str(cmp.Or(kindNames[key], key)), volume, w.mass1(g), percent(g/m.TotalG, 1), w.setMass1(g*n, m.TotalG*n), w.fine(at.X), w.fine(at.Y)}
		t.Rows = append(t.Rows, append(cells, w.weighed(key, g)...))
	}
	for _, k := range m.ByKind {
		switch {
		case k.MassG == 0 && k.Name != "caps":
		case k.VolumeMM3 > 0:
			row(k.Name, w.solid(k.VolumeMM3), k.MassG, k.At)
		default:
			row(k.Name, export.Str("-"), k.MassG, k.At)
		}
	}
	if m.VarnishG > 0 {
		t.Notes = append(t.Notes, "To be varnished: "+w.coat(m.CoatMM2)+" of one rib.")
		row("without varnish", export.Str("-"), m.TotalG-m.VarnishG, m.Bare)
	}
	row("rib", export.Str("-"), m.TotalG, m.At)
	return t
}

// weighed is what the scale said, and how far it is off what was worked out; blank, to write into, where the rib file
// says nothing.
func (w lister) weighed(key string, g float64) []export.Cell {
	got := w.doc.Mass.WeighedG[key]
	if got == 0 {
		return []export.Cell{export.Str(""), export.Str(""), export.Str("")}
	}
	return []export.Cell{w.mass1(got), w.mass1(got - g), percent((got-g)/g, 1)}
}

func (w lister) massNotes() []string {
	own := ""
	if len(w.doc.Mass.Density) > 0 {
		own = "; those that the rib file gives are as you weighed them"
	}
	notes := []string{fmt.Sprintf("Wood and plywood at %g %% moisture content, handbook densities%s. Weigh your own stock to know better: [mass] of the rib file takes densities and weights.", w.doc.Mass.Moisture, own)}
	v := w.doc.Varnish
	switch {
	case v.Coats == 0:
		notes = append(notes, "Varnish is not counted ([varnish] of the rib file).")
	default:
		coats := "coats"
		if v.Coats == 1 {
			coats = "coat"
		}
		notes = append(notes, fmt.Sprintf("Varnish: %d %s of %s when dry, on both faces and all edges, without what is glued and what a skin covers. Varnish on a face that will be glued spoils the joint: leave bond faces bare, and 1/4 in around them (FAA AC 43.13-1B, chapter 1).",
			v.Coats, coats, w.film(v.RateGM2)))
	}
	return notes
}

// pulled reports whether the fasteners do not stay.
func (w lister) pulled() bool {
	f := w.doc.Fastener
	return f.Kind != "none" && f.After == "pulled"
}

// pulledNote tells that fasteners are in no mass. of names their ribs, where those of others stay.
func pulledNote(of string) string {
	return "Fasteners" + of + " are pulled when the glue has cured, and not counted."
}

// partMasses is the mass of each part, to hold against the scale.
func (w lister) partMasses() export.Table {
	t := export.Table{ID: "part-masses", Title: "Mass of each part",
		Columns: []export.Column{text("part", "part"), text("kind", "kind"), text("material", "material"), w.solidColumn("volume", "volume of one"), w.densityColumn(),
			w.massColumn("mass", "mass of one"), number("per_rib", "per rib", ""), w.lengthColumn("cg_aft", "balances at station"), w.lengthColumn("cg_up", "above the chord line")},
		Notes: w.massNotes()[:1]}
	for _, p := range w.t.Mass.Parts {
		t.Rows = append(t.Rows, []export.Cell{export.Str(p.ID), export.Str(p.Kind), export.Str(p.Material), w.solid(p.VolumeMM3), w.density(p.Density),
			w.mass1(p.MassG), count(p.Count), w.fine(p.At.X), w.fine(p.At.Y)})
	}
	return t
}

// solid columns are the volumes of wood and metal.
func (w lister) solidColumn(key, head string) export.Column {
	if w.inch {
		return number(key+"_in3", head, "in³")
	}
	return number(key+"_cm3", head, "cm³")
}

func (w lister) solid(mm3 float64) export.Cell {
	v, places := mm3*1e-3, 2
	if w.inch {
		v, places = mm3/(ribfile.MMPerInch*ribfile.MMPerInch*ribfile.MMPerInch), 3
	}
	return export.Num(v, fmt.Sprintf("%.*f", places, v))
}

func (w lister) densityColumn() export.Column {
	if w.inch {
		return number("density_lb_ft3", "density", "lb/ft³")
	}
	return number("density_kg_m3", "density", "kg/m³")
}

func (w lister) density(kgM3 float64) export.Cell {
	if w.inch {
		v := kgM3 * takeoff.PoundsPerFoot3
		return export.Num(v, fmt.Sprintf("%.1f", v))
	}
	return export.Num(kgM3, fmt.Sprintf("%.0f", kgM3))
}

// film writes what lies on a surface.
func (w lister) film(gm2 float64) string {
	if w.inch {
		return fmt.Sprintf("%.2f oz/ft²", gm2/(1000*ribfile.GM2PerMSGL/16))
	}
	return w.doc.Units.Rate(gm2)
}

// coat writes an area to be varnished.
func (w lister) coat(mm2 float64) string {
	if w.inch {
		return fmt.Sprintf("%.2f ft²", mm2/(144*ribfile.MMPerInch*ribfile.MMPerInch))
	}
	return fmt.Sprintf("%.3f m²", mm2*1e-6)
}

// setMass is what the ribs of a set weigh, and where each balances.
func (s setLister) setMass() export.Table {
	all, coat := 0.0, 0.0
	var pulled []string
	stay := false
	for i, e := range s.set {
		if s.of(i).pulled() {
			pulled = append(pulled, e.Name)
		} else if e.Doc.Fastener.Kind != "none" {
			stay = true
		}
		m, n := s.takes[i].Mass, float64(e.Rib.Count)
		all, coat = all+float64(m.TotalG*n), coat+float64(m.CoatMM2*n)
	}
	t := export.Table{ID: "mass", Title: "Mass and balance", Notes: s.massNotes(),
		Columns: []export.Column{text("rib", "rib"), number("count", "count", ""), s.massColumn("rib", "one rib"), s.setMassColumn("set", "all of it", all),
			s.lengthColumn("cg_aft", "balances at station"), s.lengthColumn("cg_up", "above the chord line"),
			s.massColumn("weighed", "weighed"), s.massColumn("off", "deviation"), number("off_pct", "deviation", "%")}}
	for i, e := range s.set {
		m := s.takes[i].Mass
		cells := []export.Cell{export.Str(e.Name), count(e.Rib.Count), s.mass1(m.TotalG), s.setMass1(m.TotalG*float64(e.Rib.Count), all), s.fine(m.At.X), s.fine(m.At.Y)}
		t.Rows = append(t.Rows, append(cells, s.of(i).weighed("rib", m.TotalG)...))
	}
	none := export.Str("")
	t.Rows = append(t.Rows, []export.Cell{export.Str("the set"), count(s.set.Ribs()), none, s.setMass1(all, all), none, none, none, none, none})
	switch {
	case len(pulled) > 0 && stay:
		t.Notes = append(t.Notes, pulledNote(" of "+strings.Join(pulled, ", ")))
	case len(pulled) > 0:
		t.Notes = append(t.Notes, pulledNote(""))
	}
	t.Notes = append(t.Notes, "Weighed: what the rib file says of a rib under [[wing.rib]]; blank: to write into. Each balances in its own axes.")
	if coat > 0 {
		t.Notes = append(t.Notes, "To be varnished: "+s.coat(coat)+" of the set.")
	}
	t.Notes = append(t.Notes, s.otherwise("[varnish]", func(d *ribfile.Doc) bool { return d.Varnish == s.doc.Varnish })...)
	t.Notes = append(t.Notes, s.otherwise("[mass]", func(d *ribfile.Doc) bool {
		return d.Mass.Moisture == s.doc.Mass.Moisture && maps.Equal(d.Mass.Density, s.doc.Mass.Density)
	})...)
	return t
}
