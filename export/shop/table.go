package shop

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"ribwright/export"
	"ribwright/geom/jig"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// Tables returns every list of a rib, in the order of the work.
func Tables(r *rib.Rib, doc *ribfile.Doc, board jig.Jig, t takeoff.TakeOff) []export.Table {
	w := lister{r: r, doc: doc, board: board, t: t, inch: doc.Units == ribfile.Inch}
	return InOrder([]export.Table{w.ordinates(), w.spars(), w.jigBlocks(), w.cutList(), w.strips(), w.bends(), w.plates(), w.adhesive(), w.coupons(), w.fasteners(),
		w.mass(), w.partMasses(), w.glue(), w.butts(), w.spots()})
}

// lister makes the tables of one rib, in the units of its rib file.
type lister struct {
	r     *rib.Rib
	doc   *ribfile.Doc
	board jig.Jig
	t     takeoff.TakeOff
	inch  bool
}

// cautions stand below every list that one cuts or glues by.
var cautions = []string{
	"Follow the approved plans. A list is no approval: the builder's inspector, the authority and licensed practice decide.",
	"Cut one of each and try it in the jig before cutting the rest.",
}

// glueCautions stand below the lists of areas and adhesive.
var glueCautions = []string{
	"Follow the adhesive maker's figures for ratio, spread, pot life and temperature.",
	"Break a sample joint of each batch: it must fail in the wood.",
}

// length makes a column of lengths, in the file's units.
func (w lister) lengthColumn(key, head string) export.Column {
	if w.inch {
		return export.Column{Key: key + "_in", Head: head, Unit: "in", Right: true}
	}
	return export.Column{Key: key + "_mm", Head: head, Unit: "mm", Right: true}
}

func (w lister) length(mm float64) export.Cell {
	if math.IsInf(mm, 0) {
		return export.Str("straight")
	}
	v := mm
	if w.inch {
		v /= ribfile.MMPerInch
	}
	return export.Num(v, w.doc.Number(mm))
}

// computed is a length that came out of the layout: in inches a decimal with the nearest 64th beside it, so
// that a column reads alike; without the 64th where the rib file wants decimals.
func (w lister) computed(mm float64) export.Cell {
	if !w.inch || w.doc.Drawing.Inches == "decimals" {
		return w.fine(mm)
	}
	in := mm / ribfile.MMPerInch
	ruler := w.doc.Number(math.Round(in*64) / 64 * ribfile.MMPerInch)
	return export.Num(in, fmt.Sprintf("%s (%s)", w.doc.Decimal(mm), ruler))
}

// fine is a small or far-off computed length, which no ruler measures.
func (w lister) fine(mm float64) export.Cell {
	c := w.length(mm)
	if c.IsNum {
		c.Text = w.doc.Decimal(mm)
	}
	return c
}

func (w lister) areaColumn(key, head string) export.Column {
	if w.inch {
		return export.Column{Key: key + "_in2", Head: head, Unit: "in²", Right: true}
	}
	return export.Column{Key: key + "_mm2", Head: head, Unit: "mm²", Right: true}
}

func (w lister) area(mm2 float64) export.Cell {
	if w.inch {
		v := mm2 / (ribfile.MMPerInch * ribfile.MMPerInch)
		return export.Num(v, fmt.Sprintf("%.3f", v))
	}
	return export.Num(mm2, fmt.Sprintf("%.1f", mm2))
}

// mass columns are grams for programs; people who think in inches read ounces.
func (w lister) massColumn(key, head string) export.Column {
	unit := "g"
	if w.inch {
		unit = "oz"
	}
	return export.Column{Key: key + "_" + unit, Head: head, Unit: unit, Right: true}
}

func (w lister) mass1(g float64) export.Cell {
	if !w.inch {
		return export.Num(g, bench(g))
	}
	oz := g / ribfile.GramsPerOunce
	return export.Num(oz, fmt.Sprintf("%.3f (%s g)", oz, bench(g)))
}

// setMassColumn is a column of what many ribs weigh together, mostG at most: from 3 lb on, people who think in inches
// read it in pounds, all of the column alike.
func (w lister) setMassColumn(key, head string, mostG float64) export.Column {
	if w.pounds(mostG) {
		return number(key+"_lb", head, "lb")
	}
	return w.massColumn(key, head)
}

// setMass1 writes a mass of such a column.
func (w lister) setMass1(g, mostG float64) export.Cell {
	if !w.pounds(mostG) {
		return w.mass1(g)
	}
	lb := g / ribfile.GramsPerPound
	return export.Num(lb, fmt.Sprintf("%.3f (%s g)", lb, bench(g)))
}

func (w lister) pounds(mostG float64) bool { return w.inch && mostG >= 3*ribfile.GramsPerPound }

// bench formats grams as fine as a ratio needs: small amounts to a hundredth.
func bench(g float64) string {
	if g < 10 {
		return fmt.Sprintf("%.2f", g)
	}
	return fmt.Sprintf("%.1f", g)
}

func count(n int) export.Cell { return export.Num(float64(n), fmt.Sprint(n)) }

func text(key, head string) export.Column { return export.Column{Key: key, Head: head} }

func number(key, head, unit string) export.Column {
	return export.Column{Key: key, Head: head, Unit: unit, Right: true}
}

// cutTable is a cut list of a set, without rows.
func (w lister) cutTable() export.Table {
	return export.Table{ID: "cut-list", Title: "Cut list: sticks",
		Columns: []export.Column{text("sticks", "sticks"), text("kind", "kind"), number("per_set", "per set", ""),
			text("section", "depth × width"), w.lengthColumn("long_point", "long point"),
			text("end_from", "cuts at the first end, degrees from square"), text("end_to", "cuts at the other end"), w.lengthColumn("gap", "largest gap")},
		Notes: append([]string{
			"Long point: the length of the stick over everything. Degrees from square: what the mitre saw is set to; positive where the cut is turned counter-clockwise from square, seen as on the drawing; the same sign at both ends means parallel cuts.",
			"Several cuts at an end stand from the stick's right edge to its left edge, seen from its first end; \"at\" says what each meets.",
			"Gap: what a straight cut leaves open against a curved cap.",
		}, cautions...)}
}

// cutList is the sticks, alike ones together.
func (w lister) cutList() export.Table {
	t := w.cutTable()
	t.Columns = slices.Insert(t.Columns, 2, number("per_rib", "per rib", ""))
	if w.r.StickPlies > 1 {
		t.Notes = slices.Insert(t.Notes, 0, fmt.Sprintf("Each stick is %d %s", w.r.StickPlies, stripWords))
	}
	for _, g := range w.t.Sticks {
		s := g.First
		t.Rows = append(t.Rows, []export.Cell{
			export.Str(strings.Join(g.IDs, " ")), export.Str(string(s.Kind)), count(len(g.IDs)), count(len(g.IDs) * w.t.Count),
			export.Str(w.section(w.r.PlyDepth(), w.r.StickWidth)), w.computed(s.LongPoint),
			export.Str(cuts(s.Ends[0], len(g.IDs) > 1)), export.Str(cuts(s.Ends[1], len(g.IDs) > 1)), w.fine(math.Max(s.Ends[0].Gap, s.Ends[1].Gap)),
		})
	}
	return t
}

// stripWords say of doubled sticks what their strips are called, and when they are glued.
const stripWords = "strips glued side by side: a, b … from its right edge to its left, seen from its first end. Glue them together, straight and flat, before they are laid in the jig; or cut the ends when they are glued."

func (w lister) section(depth, width float64) string {
	return w.doc.Number(depth) + " × " + w.doc.Length(width)
}

// cuts describes an end: each cut's angle and what it meets. In a group the sticks that are met differ.
func cuts(e rib.End, group bool) string {
	var parts []string
	for _, c := range e.Cuts {
		against := c.Against
		if group && strings.HasPrefix(against, "S") {
			against = "a stick"
		}
		parts = append(parts, degrees(c.Angle)+" at "+against)
	}
	return cmp.Or(strings.Join(parts, ", "), "none")
}

// degrees formats an angle to a tenth, which is as fine as a saw is set, without a minus zero.
func degrees(a float64) string { return fmt.Sprintf("%.1f°", math.Round(a*1800/math.Pi)/10+0) }

// strips is the caps and the blocks: what to take from stock.
func (w lister) strips() export.Table {
	t := export.Table{ID: "caps-and-blocks", Title: "Cap strips and blocks",
		Columns: []export.Column{text("part", "part"), text("material", "material"), number("per_rib", "per rib", ""), number("per_set", "per set", ""),
			w.lengthColumn("length", "length"), w.lengthColumn("depth", "depth"), w.lengthColumn("width", "width"),
			w.lengthColumn("radius_min", "least radius"), w.lengthColumn("radius_min_at", "at station")},
		Notes: append([]string{"Cap strips: length along the contour; cut them longer and trim in the jig. Blocks: the least rectangle they are cut from."}, cautions...)}
	for _, c := range w.r.Caps {
		t.Rows = append(t.Rows, []export.Cell{export.Str(c.ID), export.Str(w.doc.Cap.Material), count(1), count(w.t.Count),
			w.computed(c.Length), w.length(w.r.CapDepth), w.length(w.r.CapWidth), w.fine(c.RadiusMin), w.fine(c.RadiusMinAt)})
	}
	for _, k := range w.r.Blocks {
		material := w.doc.Nose.Material
		if k.ID == rib.BlockTail {
			material = w.doc.Tail.Material
		}
		box := k.Outline.Box()
		t.Rows = append(t.Rows, []export.Cell{export.Str(k.ID), export.Str(cmp.Or(material, w.doc.Cap.Material)), count(1), count(w.t.Count),
			w.computed(box.W()), w.computed(box.H()), w.length(w.r.CapWidth), export.Str("-"), export.Str("-")})
	}
	return t
}

// spars is the openings and the largest spars that pass.
func (w lister) spars() export.Table { return w.sparOpenings(aslant(w.r)) }

// aslant reports whether a spar of the rib stands otherwise than square to the chord line and to the rib.
func aslant(r *rib.Rib) bool {
	return slices.ContainsFunc(r.Spars, func(s rib.Spar) bool { return s.Tilt != 0 || s.Sweep != 0 })
}

// sparOpenings is spars, with tilt and sweep or without.
func (w lister) sparOpenings(lean bool) export.Table {
	t := export.Table{ID: "spars", Title: "Spar openings",
		Columns: []export.Column{text("spar", "spar"), w.lengthColumn("at", "centre at station"), w.lengthColumn("width", "spar width"), w.lengthColumn("opening", "opening"),
			w.lengthColumn("depth_front", "largest depth, front face"), w.lengthColumn("depth_rear", "rear face"),
			number("bevel_top_deg", "bevel of the top", "degrees"), number("bevel_bottom_deg", "of the bottom", "degrees")},
		Notes: []string{"The depths are those of the largest spar that passes between the caps, without clearance above and below: take off what varnish and fit need.",
			"Bevel: positive where the face rises going aft."}}
	if lean {
		t.Columns = append(t.Columns, number("tilt_deg", "tilt", "degrees"), number("sweep_deg", "sweep", "degrees"))
		t.Notes = append(t.Notes, "A spar with tilt: its centre is at the station on the chord line; opening, depths and bevels are along its faces and square to them.",
			"A spar with sweep: the opening is cut square to the rib, and lets the spar pass aslant through the rib and its plates. Plane the bevels across the spar itself, at the angle given.")
	}
	for _, s := range w.r.Spars {
		row := []export.Cell{export.Str(s.Name), w.fine(s.At), w.length(s.Width), w.length(s.Gap()),
			w.computed(s.DepthFront), w.computed(s.DepthRear), angle(s.BevelTop), angle(s.BevelBottom)}
		if lean {
			row = append(row, angle(s.Tilt), angle(s.Sweep))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func angle(a float64) export.Cell { return export.Num(a*180/math.Pi, degrees(a)) }

// onFaces says on which faces plates are.
func onFaces(p ribfile.Plate) string {
	if p.Faces == 1 && p.Face == "far" {
		return "the far face only"
	}
	if p.Faces == 1 {
		return "the near face only"
	}
	return fmt.Sprintf("%d faces", p.Faces)
}

// turnedOver says how plates of the second face are marked.
const turnedOver = "The counts are for all faces. A plate for the other face is the same plate turned over: mark it on its other side."

// plates is the gussets, those that are the same together.
func (w lister) plates() export.Table {
	t := export.Table{ID: "plates", Title: "Gusset plates",
		Columns: []export.Column{text("joints", "joints"), text("shape", "shape"), text("size", "size"), number("per_rib", "per rib", ""), number("per_set", "per set", ""),
			w.areaColumn("area", "area of one"), w.lengthColumn("mark", "cap's line from the centre"), text("trimmed", "trimmed")},
		Notes: append([]string{"Cap's line: on the plate, how far from its centre the inner edge of the cap runs. One marking template with that distance serves all plates of a size.",
			fmt.Sprintf("Plates are %s, %s thick, on %s.", w.doc.Gusset.Material, w.doc.Length(w.r.GussetThickness), onFaces(w.doc.Gusset)+w.otherFace(w.doc.Gusset.Faces == 1))}, cautions...)}
	switch {
	case len(w.r.Gussets) == 0:
		t.Notes = cautions
	case w.doc.Gusset.Faces == 2:
		t.Notes = slices.Insert(t.Notes, len(t.Notes)-len(cautions), turnedOver)
	}
	for _, g := range w.t.Plates {
		f := g.First
		size, trimmed := w.plateSize(f)
		mark := w.length(f.MarkDistance)
		if f.Shape == rib.FullDepth {
			mark = export.Str("see drawing")
		}
		t.Rows = append(t.Rows, []export.Cell{export.Str(strings.Join(g.IDs, " ")), export.Str(string(f.Shape)), export.Str(size),
			count(g.Faces), count(g.Faces * w.t.Count), w.area(f.AreaMM2), mark, export.Str(trimmed)})
	}
	if web := w.r.Web; len(web.Outline) > 0 {
		t.Title = webTitle
		t.Notes = append(w.webNotes(web), t.Notes...)
		t.Rows = append(t.Rows, []export.Cell{export.Str(webID), export.Str(webID), export.Str(w.webSize(web)), count(web.Faces()), count(web.Faces() * w.t.Count),
			w.area(web.AreaMM2), export.Str("-"), export.Str("-")})
	}
	return t
}

// glue is the glue area of every plate with every member, one face and all faces.
func (w lister) glue() export.Table {
	t := export.Table{ID: "glue-areas", Title: "Glue areas under the plates",
		Columns: []export.Column{text("plate", "plate"), text("member", "member"), w.areaColumn("one_face", "one face"), number("faces", "faces", ""), w.areaColumn("all_faces", "all faces")},
		Notes:   glueCautions}
	for _, g := range w.r.Gussets {
		w.glueRows(&t, g.ID, g.GlueMM2, g.Faces)
	}
	if web := w.r.Web; len(web.Outline) > 0 {
		t.Title = "Glue areas under plates and web"
		w.glueRows(&t, webID, web.GlueMM2, web.Faces())
	}
	g := w.t.Glue
	t.Rows = append(t.Rows, []export.Cell{export.Str("rib"), export.Str("total"), w.area(g.FaceMM2[0] + g.WebMM2[0]), export.Str(""), w.area(g.GussetMM2 + g.WebMM2[0] + g.WebMM2[1])})
	return t
}

// glueRows adds the rows of a plate or a web.
func (w lister) glueRows(t *export.Table, id string, areas map[string]float64, faces int) {
	for _, m := range takeoff.SortedKeys(areas) {
		t.Rows = append(t.Rows, []export.Cell{export.Str(id), export.Str(m), w.area(areas[m]), count(faces), w.area(areas[m] * float64(faces))})
	}
	sum := takeoff.Sum(areas)
	t.Rows = append(t.Rows, []export.Cell{export.Str(id), export.Str("total"), w.area(sum), count(faces), w.area(sum * float64(faces))})
}

// butts is the glue areas where sticks and blocks end.
func (w lister) butts() export.Table {
	t := export.Table{ID: "butt-areas", Title: "Glue areas of stick ends and blocks",
		Columns: []export.Column{text("joint", "joint"), text("member", "member"), w.areaColumn("contact", "contact")},
		Notes:   append([]string{"Contact length times width. End grain carries little: the plates make the joint."}, glueCautions...)}
	for _, j := range w.r.Joints {
		for _, m := range takeoff.SortedKeys(j.ButtMM2) {
			t.Rows = append(t.Rows, []export.Cell{export.Str(j.ID), export.Str(m), w.area(j.ButtMM2[m])})
		}
	}
	t.Rows = append(t.Rows,
		[]export.Cell{export.Str("nose and tail"), export.Str("cap on cap"), w.area(w.t.Glue.CapsMM2)},
		[]export.Cell{export.Str("rib"), export.Str("total"), w.area(w.t.Glue.ButtMM2 + w.t.Glue.CapsMM2 + w.t.Glue.PliesMM2)})
	if w.t.Glue.PliesMM2 > 0 {
		t.Rows = slices.Insert(t.Rows, len(t.Rows)-1, []export.Cell{export.Str("sticks"), export.Str("strip on strip"), w.area(w.t.Glue.PliesMM2)})
	}
	return t
}

// ordinates is the contour at its table's stations, as the rib is cut: skin taken off.
func (w lister) ordinates() export.Table {
	t := export.Table{ID: "ordinates", Title: "Ordinates of the rib",
		Columns: []export.Column{number("station_percent", "station", "% chord"), w.lengthColumn("station", "station"), w.lengthColumn("upper", "upper"), w.lengthColumn("lower", "lower")},
		Notes:   []string{"Measured from the leading edge of the chord line and from the chord line, on the rib's contour."}}
	if len(w.doc.Section.Skins) > 0 {
		t.Notes[0] += " The skin is taken off."
	}
	for _, x := range w.r.Contour.Stations {
		up, lo, ok := w.r.Contour.At(x)
		if !ok {
			continue
		}
		pc := 100 * x / w.r.Chord
		t.Rows = append(t.Rows, []export.Cell{export.Num(pc, fmt.Sprintf("%.4g", pc)), w.fine(x), w.fine(up), w.fine(lo)})
	}
	return t
}
