package shop

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// SetTables returns the lists of a set of several kinds of rib: what is cut and mixed for all of them together. What
// belongs to one kind stands in its own lists, see Tables. takes are the kinds' quantities.
func SetTables(set rib.Set, takes []takeoff.TakeOff) []export.Table {
	s := setLister{set: set, takes: takes}
	s.lister = s.of(0)
	s.lister.doc = set.Shared()
	return []export.Table{s.kinds(), s.sticks(), s.stack(lister.strips), s.stack(lister.bends), s.spars(), s.setPlates(), s.setAdhesive(), s.coupons(), s.setFasteners(), s.setMass()}
}

// setLister makes the tables of a set. Its lister writes in the units of the file.
type setLister struct {
	lister
	set   rib.Set
	takes []takeoff.TakeOff
}

// of makes the tables of one kind of rib.
func (s setLister) of(i int) lister {
	e := s.set[i]
	return lister{r: e.Rib, doc: e.Doc, t: s.takes[i], inch: e.Doc.Units == ribfile.Inch}
}

// stack puts the rows of every kind's table one below the other, the rib's name before the part's.
func (s setLister) stack(table func(lister) export.Table) export.Table {
	var out export.Table
	for i, e := range s.set {
		t := table(s.of(i))
		if i == 0 {
			out = t
			out.Rows = nil
		}
		for _, row := range t.Rows {
			row = slices.Clone(row)
			row[0].Text = e.Part(row[0].Text)
			out.Rows = append(out.Rows, row)
		}
	}
	return out
}

// spars is the openings in every kind of rib; where spars lean or run aslant in one of them, with how far in all.
func (s setLister) spars() export.Table {
	lean := slices.ContainsFunc(s.set, func(e rib.Entry) bool { return aslant(e.Rib) })
	return s.stack(func(w lister) export.Table { return w.sparOpenings(lean) })
}

// kinds is the ribs, root to tip.
func (s setLister) kinds() export.Table {
	t := export.Table{ID: "ribs", Title: "Ribs",
		Columns: []export.Column{text("rib", "rib"), number("count", "count", ""), s.lengthColumn("chord", "chord"), s.lengthColumn("depth", "greatest depth"),
			number("sticks", "sticks in one", ""), number("plates", "plates in one", ""), s.massColumn("mass", "mass of one"), text("made_for", "made for")},
		Notes: []string{"Drawings, templates and lists of a rib stand in the folder with its name."}}
	for i, e := range s.set {
		plates := 0
		for _, g := range e.Rib.Gussets {
			plates += g.Faces
		}
		t.Rows = append(t.Rows, []export.Cell{export.Str(e.Name), count(e.Rib.Count), s.length(e.Rib.Chord), s.fine(e.Rib.Contour.DepthMax),
			count(len(e.Rib.Sticks)), count(plates), s.mass1(s.takes[i].Mass.TotalG), export.Str(e.Rib.Title)})
	}
	return t
}

// sticks is the cut list of the set: pieces alike together, whichever ribs they are for.
func (s setLister) sticks() export.Table {
	t := s.cutTable()
	t.Notes = slices.Insert(t.Notes, 0, append(s.doubled(), "Sticks of different ribs that are the same to 0.1 mm stand in one row.")...)
	for _, g := range takeoff.Sticks(s.set) {
		many := len(g.IDs) > 1
		t.Rows = append(t.Rows, []export.Cell{
			export.Str(strings.Join(g.IDs, ", ")), export.Str(string(g.First.Kind)), count(g.Count),
			export.Str(s.section(g.Depth, g.Width)), s.computed(g.First.LongPoint),
			export.Str(cuts(g.First.Ends[0], many)), export.Str(cuts(g.First.Ends[1], many)), s.fine(math.Max(g.First.Ends[0].Gap, g.First.Ends[1].Gap)),
		})
	}
	return t
}

// doubled says which ribs' sticks are strips glued side by side.
func (s setLister) doubled() []string {
	ribs := map[int][]string{} // by how many strips
	var plies []int
	for _, e := range s.set {
		n := e.Rib.StickPlies
		if n < 2 {
			continue
		}
		if ribs[n] == nil {
			plies = append(plies, n)
		}
		ribs[n] = append(ribs[n], e.Name)
	}
	var out []string
	for _, n := range plies {
		out = append(out, fmt.Sprintf("Each stick of %s is %d %s", strings.Join(ribs[n], ", "), n, stripWords))
	}
	return out
}

// setPlates is the gussets of the set: those that are the same piece together, whichever ribs they are for.
func (s setLister) setPlates() export.Table {
	t := export.Table{ID: "plates", Title: "Gusset plates",
		Columns: []export.Column{text("joints", "joints"), text("shape", "shape"), text("size", "size"), text("material", "material"), number("per_set", "per set", ""),
			s.areaColumn("area", "area of one"), text("trimmed", "trimmed")},
		Notes: append([]string{"Plates of different ribs that are the same to 0.1 mm stand in one row.", turnedOver}, cautions...)}
	for _, g := range takeoff.Plates(s.set) {
		size, trimmed := s.plateSize(g.First)
		t.Rows = append(t.Rows, []export.Cell{export.Str(strings.Join(g.IDs, ", ")), export.Str(string(g.First.Shape)), export.Str(size),
			export.Str(g.Material + ", " + s.doc.Length(g.Thickness)), count(g.Count), s.area(g.First.AreaMM2), export.Str(trimmed)})
	}
	for i, e := range s.set {
		w := e.Rib.Web
		if len(w.Outline) == 0 {
			continue
		}
		if t.Title != webTitle {
			t.Title = webTitle
			t.Notes = append(s.of(i).webNotes(w)[1:], t.Notes...)
		}
		t.Rows = append(t.Rows, []export.Cell{export.Str(e.Part(webID)), export.Str(webID), export.Str(s.webSize(w)),
			export.Str(e.Doc.Web.Material + ", " + s.doc.Length(w.Thickness)), count(w.Faces() * e.Rib.Count), s.area(w.AreaMM2), export.Str("-")})
	}
	return t
}

// plateSize writes a plate's size, and whether it is trimmed.
func (w lister) plateSize(g rib.Gusset) (size, trimmed string) {
	trimmed = "yes"
	if g.Shape == rib.Round {
		if _, _, whole := g.Outline.IsCircle(); whole {
			trimmed = "no"
		}
		return "⌀ " + w.doc.Length(g.Size[0]), trimmed
	}
	if math.Abs(g.AreaMM2-float64(g.Size[0]*g.Size[1])) < geom.Step {
		trimmed = "no"
	}
	return w.section(g.Size[0], g.Size[1]), trimmed
}

// setAdhesive is what to mix, by rib and for the set.
func (s setLister) setAdhesive() export.Table {
	t := s.adhesive()
	t.Rows = nil
	t.Columns = slices.Insert(slices.Clone(t.Columns), 1, number("count", "count", ""))
	row := func(name string, n int, area float64, a takeoff.Adhesive) {
		t.Rows = append(t.Rows, append([]export.Cell{export.Str(name), count(n)}, s.adhesiveCells(area, a)...))
	}
	var sum takeoff.Adhesive
	area := 0.0
	for i, e := range s.set {
		q := s.takes[i]
		row("one "+e.Name, e.Rib.Count, q.Glue.TotalMM2, q.Adhesive)
		sum = sum.Plus(q.Adhesive.Times(float64(e.Rib.Count)))
		area += float64(float64(e.Rib.Count) * q.Glue.TotalMM2)
	}
	row(fmt.Sprintf("the set: %d ribs", s.set.Ribs()), s.set.Ribs(), area, sum)
	t.Notes = append(t.Notes, s.otherwise("[adhesive]", func(d *ribfile.Doc) bool { return d.Adhesive == s.doc.Adhesive })...)
	return t
}

// otherwise says which ribs a table of the rib file is not the same for, and so not the notes made of it.
func (s setLister) otherwise(table string, same func(d *ribfile.Doc) bool) []string {
	var own []string
	for _, e := range s.set {
		if !same(e.Doc) {
			own = append(own, e.Name)
		}
	}
	if len(own) == 0 {
		return nil
	}
	return []string{"Otherwise " + strings.Join(own, ", ") + ", by " + table + " under [[wing.rib]]: see the lists in the folder of the rib."}
}
