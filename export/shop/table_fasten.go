package shop

import (
	"fmt"
	"slices"
	"strings"

	"ribwright/export"
	"ribwright/geom/fasten"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// fasteners is how many staples or nails each plate takes, and in which member they stand.
func (w lister) fasteners() export.Table {
	t := export.Table{ID: "fasteners", Title: "Staples and nails",
		Columns: []export.Column{text("plate", "plate"), text("first_in", "first face, in"), number("first", "first face", ""), text("second_in", "second face, in"), number("second", "second face", ""),
			number("per_rib", "per rib", ""), number("per_set", "per set", ""), w.massColumn("mass", "mass per rib")}}
	p, each := w.t.Fasteners, fasten.MassG(w.doc.Fastener)
	if w.doc.Fastener.Kind == "none" {
		t.Notes = []string{"The rib file wants no fasteners ([fastener]): the plates are clamped otherwise."}
		return t
	}
	var sum [2]int
	for i, g := range w.r.Gussets {
		first, second := p.Count(i, 0), p.Count(i, 1)
		sum[0], sum[1] = sum[0]+first, sum[1]+second
		in := [2]string{members(p, i, 0), members(p, i, 1)}
		if in[1] == in[0] {
			in[1] = "the same"
		}
		if g.Faces < 2 {
			in[1-g.On()[0]] = "-"
		}
		t.Rows = append(t.Rows, []export.Cell{export.Str(g.ID), export.Str(in[0]), count(first), export.Str(in[1]), count(second),
			count(first + second), count((first + second) * w.t.Count), w.mass1(float64(first+second) * each)})
	}
	n := sum[0] + sum[1]
	t.Rows = append(t.Rows, []export.Cell{export.Str("rib"), export.Str("total"), count(sum[0]), export.Str(""), count(sum[1]), count(n), count(n * w.t.Count), w.mass1(float64(n) * each)})
	t.Notes = w.fastenerNotes(float64(n) * each)
	return t
}

// members lists the members in which a plate's fasteners stand, with how many where there are several.
func members(p fasten.Pattern, gusset, face int) string {
	var names []string
	n := map[string]int{}
	for _, f := range p.All {
		if f.Gusset != gusset || f.Face != face {
			continue
		}
		if n[f.Member] == 0 {
			names = append(names, f.Member)
		}
		n[f.Member]++
	}
	for i, m := range names {
		if n[m] > 1 {
			names[i] = fmt.Sprintf("%s × %d", m, n[m])
		}
	}
	return strings.Join(names, ", ")
}

func (w lister) fastenerNotes(massG float64) []string {
	f, u := w.doc.Fastener, w.doc
	what := fmt.Sprintf("%s, of which %s go into the wood; %.2f g each.", fastenerName(u), u.Length(fasten.Deep(u)), fasten.MassG(f))
	notes := []string{strings.ToUpper(what[:1]) + what[1:],
		"They clamp the plates while the glue sets. Nothing in these lists counts them as strength: the glue carries.",
		fmt.Sprintf("At least %s from leg to edge, %s to a sawn end, %s between two in one member.", u.Length(f.Edge), u.Length(f.End), u.Length(f.Spacing))}
	if fasten.Meet(u, min(w.r.CapWidth, w.r.StickWidth)) {
		notes = append(notes, "Legs from both faces reach each other in the wood: those of the second face stand beside those of the first.")
	}
	return append(notes, w.fate(massG, w.t.Mass.TotalG))
}

// fate says what becomes of the fasteners; ofG is the mass they are a share of.
func (w lister) fate(massG, ofG float64) string {
	f := w.doc.Fastener
	share := fmt.Sprintf("They stay, %.1f %% of the mass.", 100*massG/ofG)
	switch {
	case f.After == "pulled":
		return "Pull them when the glue has cured; they are in no mass."
	case f.Material == "steel":
		return share + " Plain steel rusts, and stains the wood: pull it, or take stainless (common practice)."
	}
	return share
}

// fastenerName says what to ask for: "staples, stainless, crown 3/16 in, leg 1/4 in, wire 0.050 × 0.020 in".
func fastenerName(doc *ribfile.Doc) string {
	f := doc.Fastener
	wire := "wire " + thin(doc, f.Wire)
	if f.Flat > 0 {
		wire += " × " + thin(doc, f.Flat)
	}
	wire += " " + string(doc.Units)
	if f.Kind == "nail" {
		return fmt.Sprintf("nails, %s, %s long, %s", f.Material, doc.Length(f.Leg), wire)
	}
	return fmt.Sprintf("staples, %s, crown %s, leg %s, %s", f.Material, doc.Length(f.Crown), doc.Length(f.Leg), wire)
}

// thin writes the thickness of a wire, which is sold by decimals: no fraction is near enough.
func thin(doc *ribfile.Doc, mm float64) string {
	if doc.Units == ribfile.Inch {
		return doc.Decimal(mm)
	}
	return strings.TrimSuffix(exact(doc, mm), " mm")
}

// setFasteners is how many staples or nails the ribs of a set take.
func (s setLister) setFasteners() export.Table {
	t := s.fasteners()
	t.Columns = []export.Column{text("rib", "rib"), number("count", "count", ""), number("first", "first face", ""), number("second", "second face", ""),
		number("per_rib", "per rib", ""), number("per_set", "all of it", ""), s.massColumn("mass", "mass per rib")}
	t.Rows = nil
	type sort struct {
		of    lister // a rib that has them
		massG float64
		ribs  []string
	}
	var sorts []sort
	sum := 0
	for i, e := range s.set {
		if e.Doc.Fastener.Kind == "none" {
			continue
		}
		all := s.takes[i].Fasteners.All
		n, first := len(all), 0
		for _, f := range all {
			first += 1 - f.Face
		}
		g := float64(float64(n) * fasten.MassG(e.Doc.Fastener))
		sum += n * e.Rib.Count
		t.Rows = append(t.Rows, []export.Cell{export.Str(e.Name), count(e.Rib.Count), count(first), count(n - first), count(n), count(n * e.Rib.Count), s.mass1(g)})
		if n == 0 {
			continue
		}
		k := slices.IndexFunc(sorts, func(o sort) bool { return o.of.doc.Fastener == e.Doc.Fastener })
		if k < 0 {
			k = len(sorts)
			sorts = append(sorts, sort{of: s.of(i)})
		}
		sorts[k].massG += float64(g * float64(e.Rib.Count))
		sorts[k].ribs = append(sorts[k].ribs, e.Name)
	}
	if len(t.Rows) == 0 {
		return t
	}
	none := export.Str("")
	t.Rows = append(t.Rows, []export.Cell{export.Str("the set"), count(s.set.Ribs()), none, none, none, count(sum), none})
	for i, o := range sorts {
		if i == 0 {
			t.Notes = nil
		}
		notes := o.of.fastenerNotes(o.massG)
		notes[len(notes)-1] = o.of.fate(o.massG, s.setG())
		if len(sorts) > 1 {
			notes[0] = "Of " + strings.Join(o.ribs, ", ") + ": " + notes[0]
		}
		t.Notes = append(t.Notes, notes...)
	}
	return t
}

// setG is what all ribs weigh.
func (s setLister) setG() float64 {
	sum := 0.0
	for i, e := range s.set {
		sum += float64(s.takes[i].Mass.TotalG * float64(e.Rib.Count))
	}
	return sum
}

// FastenersToBuy returns the boxes for all ribs, a row for each size of fastener.
func FastenersToBuy(set rib.Set, takes []takeoff.TakeOff) []BuyRow {
	type box struct {
		what  string
		holds int
		price float64
	}
	var boxes []box
	pieces := map[box]int{} // looked up only
	for i, e := range set {
		n := e.Rib.Count * len(takes[i].Fasteners.All)
		if n == 0 {
			continue
		}
		b := box{fastenerName(e.Doc), e.Doc.Fastener.Box, e.Doc.Fastener.Price}
		if pieces[b] == 0 {
			boxes = append(boxes, b)
		}
		pieces[b] += n
	}
	var out []BuyRow
	for _, b := range boxes {
		n := pieces[b]
		out = append(out, BuyRow{What: b.what, Size: fmt.Sprintf("box of %d (%d needed)", b.holds, n), Count: (n + b.holds - 1) / b.holds, Price: b.price})
	}
	return out
}
