package shop

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"sync"
	"testing"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/cut"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// nesting is a demo's plates laid out for one tool.
type nesting struct {
	what string
	j    job
	l    cut.Layout
}

// nestings are worked out once for all tests.
var nestings struct {
	once sync.Once
	all  []nesting
}

// nested does something with the demos laid out for several tools.
func nested(t *testing.T, do func(what string, j job, l cut.Layout)) {
	t.Helper()
	nestings.once.Do(func() {
		for _, j := range demos(t) {
			for _, tool := range []string{"laser", "hole-saw", "router", "line"} {
				if tool != "hole-saw" && (j.name == "starter" || j.name == "marsh-wren" && tool != "laser") {
					continue
				}
				doc := *j.doc
				doc.Saw.Plates = tool
				k := j
				k.doc = &doc
				nestings.all = append(nestings.all, nesting{j.name + ", " + tool, k, cut.Nest(rib.One(j.rib, &doc), nil, nil)})
			}
		}
	})
	for _, n := range nestings.all {
		do(n.what, n.j, n.l)
	}
}

// TestSheets holds the pages of sheets and holes: whole, with a square to measure, lettering clear of lettering and lines, and
// the machine's file with nothing but lines.
func TestSheets(t *testing.T) {
	nested(t, func(what string, j job, l cut.Layout) {
		all4 := map[string]export.Drawing{"sheets": Sheets(NewCutting(j.doc, l)), "sheet file": SheetFile(NewCutting(j.doc, l))}
		if HasHoles(l) {
			all4["holes"], all4["hole file"] = Holes(j.doc, l), HoleFile(j.doc, l)
		}
		for name, d := range all4 {
			if err := d.Check(); err != nil {
				t.Errorf("%s, %s: %v", what, name, err)
			}
			for _, s := range d.Sheets {
				for _, p := range s.Parts { // made later: on the layers that it says, and the same again
					made := p.All()
					if i := slices.IndexFunc(made, func(it export.Item) bool { return !p.May(it.Layer) }); i >= 0 {
						t.Errorf("%s, %s, %s: a part made later is on %s, not only on %v", what, name, s.Name, made[i].Layer, p.On)
					}
					if !reflect.DeepEqual(made, p.All()) {
						t.Errorf("%s, %s, %s: a part made later on %v is another one the second time", what, name, s.Name, p.On)
					}
				}
				items := all(s)
				want := check{"check-100mm", "100 mm", 100}
				if j.doc.Units == ribfile.Inch && (name == "sheets" || name == "holes") { // what a person measures
					want = check{"check-4in", "4 in", 101.6}
				}
				checkSquareItem(t, what+", "+name+", "+s.Name, items, want.id, want.side)
				if words := want.size + " × " + want.size; (name == "sheets" || name == "holes") && !lettered(items, words) {
					t.Errorf("%s, %s, %s: the square is not lettered %s", what, name, s.Name, words)
				}
				if b := bounds(items); b.Min.X < -1e-6 || b.Min.Y < -1e-6 || b.Max.X > s.W+1e-6 || b.Max.Y > s.H+1e-6 {
					t.Errorf("%s, %s, %s: %v reaches over %g × %g", what, name, s.Name, b, s.W, s.H)
				}
				for _, o := range overlaps(items, map[string]bool{layerSheet: true, layerCut: true, layerCheck: true}) {
					t.Errorf("%s, %s, %s: %s", what, name, s.Name, o)
				}
				if name == "sheet file" || name == "hole file" {
					for _, it := range items {
						if it.Text != nil || it.Fill {
							t.Errorf("%s, %s: %v is no line", what, name, it)
						}
					}
				}
			}
		}
		if n := len(all4["sheets"].Sheets); n != len(l.Sheets) {
			t.Errorf("%s: %d pages for %d sheets", what, n, len(l.Sheets))
		}
	})
}

// TestCutOrder: layers come marks, holes, outlines; on each the way from part to part is shorter than in the layout's order.
func TestCutOrder(t *testing.T) {
	nested(t, func(what string, j job, l cut.Layout) {
		d := SheetFile(NewCutting(j.doc, l))
		var order []string
		for _, y := range d.Layers {
			order = append(order, y.ID)
		}
		if m, h, c := slices.Index(order, layerMark), slices.Index(order, layerHole), slices.Index(order, layerCut); !(m < h && h < c && c == len(order)-1) {
			t.Errorf("%s: layers %v: want marks before holes before cuts", what, order)
		}
		c := NewCutting(j.doc, l)
		for k, s := range l.Sheets {
			var cuts, given []geom.Pt
			for _, p := range c.draw(k) {
				for _, it := range p.All() {
					if it.Layer == layerCut {
						cuts = append(cuts, it.Path.Start)
					}
				}
			}
			for _, p := range s.Placed {
				given = append(given, p.Transform().Pt(c.cutter.cuts(p.Plate)[0].Start))
			}
			if len(cuts) != len(given) {
				t.Fatalf("%s, sheet %d: %d cuts for %d plates", what, k+1, len(cuts), len(given))
			}
			n := make([]int, len(cuts))
			for i := range n {
				n[i] = i
			}
			short, long := cut.TourLength(geom.Pt{}, cuts, n), cut.TourLength(geom.Pt{}, given, n)
			if short > long {
				t.Errorf("%s, sheet %d: way %g mm, unordered %g", what, k+1, short, long)
			}
			if k == 0 {
				t.Logf("%s, sheet 1: %.0f mm between cuts, %.0f as laid out", what, short, long)
			}
		}
	})
}

// TestKerfOnSheets: a plate cut along its line comes out as the rib has it: the line encloses its area and half a
// kerf along its edge (Steiner), and a circle stays one.
func TestKerfOnSheets(t *testing.T) {
	nested(t, func(what string, j job, l cut.Layout) {
		c := &cutter{doc: j.doc, l: l}
		for i, p := range l.Plates {
			for _, m := range c.holes(i) {
				if _, r, ok := m.IsCircle(); !ok || r != l.Tool.Pilot/2 {
					t.Errorf("%s: %s: hole %v", what, p.ID, m)
				}
			}
			line := c.cuts(i)[0]
			if p.Blank > 0 {
				if _, r, ok := line.IsCircle(); !ok || math.Abs(2*r-p.Blank-l.Tool.Kerf) > 1e-9 {
					t.Errorf("%s: %s: the saw's circle is %g for a plate of %g", what, p.ID, 2*r, p.Blank)
				}
				continue
			}
			k := l.Tool.Kerf
			if l.Tool.Name == "hole-saw" {
				k = l.Tool.Line
			}
			want := p.Outline.Area() + p.Outline.Length()*k/2 + math.Pi*k*k/4
			if got := line.Area(); math.Abs(got-want) > 0.02*k*k+1e-4*k*p.Outline.Length() {
				t.Errorf("%s: %s: the line encloses %.4f mm², want %.4f", what, p.ID, got, want)
			}
			_, _, was := p.Outline.IsCircle()
			if _, _, is := line.IsCircle(); is != was {
				t.Errorf("%s: %s: a circle %v, cut as one %v", what, p.ID, was, is)
			}
		}
	})
}

// TestEngraveOnSheets: lettering on a plate crosses neither its marks, its hole nor its edge, and nearly every plate has it.
func TestEngraveOnSheets(t *testing.T) {
	nested(t, func(what string, j job, l cut.Layout) {
		c := NewCutting(j.doc, l)
		bare, least := 0, math.Inf(1)
		for i, p := range l.Plates {
			marks := c.marks(i)
			n := len(export.Text{S: p.ID, Height: 1}.Strokes())
			all := len(marks)
			var lines [][2]geom.Pt
			for _, m := range p.Marks {
				lines = append(lines, [2]geom.Pt{m.A, m.B})
			}
			own := len(markLines(p.Outline, lines))
			if p.Blank > 0 {
				own += len(trims(p.Outline))
			}
			if all == own {
				bare++
				continue
			}
			if all-own != n {
				t.Errorf("%s: %s: %d strokes, want %d", what, p.ID, all-own, n)
			}
			for _, s := range marks[own:] {
				for _, q := range s.Flatten(0.01) {
					least = math.Min(least, p.Outline.Distance(q))
					for _, m := range append(slices.Clone(marks[:own]), c.cutter.holes(i)...) {
						least = math.Min(least, m.Distance(q))
					}
				}
			}
		}
		if least < engraveClear-0.11 { // a hole stands as chords
			t.Errorf("%s: lettering stands %.3f mm from a line", what, least)
		}
		if bare*10 > len(l.Plates) {
			t.Errorf("%s: %d of %d plates have no name", what, bare, len(l.Plates))
		}
	})
}

// TestCutTables: lists pass, and the G-code drills where the list says.
func TestCutTables(t *testing.T) {
	nested(t, func(what string, j job, l cut.Layout) {
		ts := CutTables(j.doc, l)
		for _, x := range ts {
			if err := x.Check(); err != nil {
				t.Errorf("%s: %v", what, err)
			}
		}
		if !HasHoles(l) {
			return
		}
		row := 0
		unit := 1.0
		if j.doc.Units == ribfile.Inch {
			unit = ribfile.MMPerInch
		}
		for k := range l.Sheets {
			p := Drilling(j.doc, l, k)
			if p.Depth != j.doc.Gusset.Thickness+j.doc.Saw.Breakthrough || p.Safe != j.doc.Saw.SafeHeight || p.Inch != (unit > 1) {
				t.Errorf("%s: %+v", what, p)
			}
			for i, h := range p.Holes {
				c := ts[1].Rows[row]
				if at := (geom.Pt{X: c[2].Num * unit, Y: c[3].Num * unit}); c[0].Num != float64(k+1) || c[1].Num != float64(i+1) || at.Dist(h.At) > 1e-9 || c[4].Text != h.Name {
					t.Errorf("%s: row %d, %v: drilled %v %s", what, row+1, c, h.At, h.Name)
				}
				row++
			}
		}
		if row != len(ts[1].Rows) {
			t.Errorf("%s: %d holes drilled, %d listed", what, row, len(ts[1].Rows))
		}
	})
}

// TestHolePages lays pages of paper on each other: every hole stands whole on one of them at least, where the crosses say.
func TestHolePages(t *testing.T) {
	nested(t, func(what string, j job, l cut.Layout) {
		if !HasHoles(l) {
			return
		}
		for _, p := range []Page{{W: 210, H: 297, Margin: 10}, {W: 279.4, H: 215.9, Margin: 12}, {W: 594, H: 420, Margin: 10}, {W: 1189, H: 841, Margin: 10}} {
			d := HolePages(j.doc, l, p)
			if err := d.Check(); err != nil {
				t.Errorf("%s: %v", what, err)
			}
			want, got := map[string]bool{}, map[string]bool{}
			c := newDriller(j.doc, l)
			for k := range l.Sheets {
				if c.alike[k] == k {
					for i := range l.Holes(k) {
						want[fmt.Sprintf("hole-%d-%d", k+1, i+1)] = true
					}
				}
			}
			for _, s := range d.Sheets {
				if math.Max(s.W, s.H) > math.Max(p.W, p.H) || math.Min(s.W, s.H) > math.Min(p.W, p.H) {
					t.Errorf("%s: a page of %g × %g on paper of %g × %g", what, s.W, s.H, p.W, p.H)
				}
				for _, part := range s.Parts {
					for _, it := range part.All() {
						b := it.Path.Box()
						if want[it.ID] && (part.Clip.Empty() || part.Clip.Holds(b.Min) && part.Clip.Holds(b.Max)) {
							got[it.ID] = true
						}
					}
				}
				want := checkIn(j.doc.Units)
				if it, ok := byID(all(s), want.id); !ok || math.Abs(it.Path.Box().W()-want.side) > 1e-9 || math.Abs(it.Path.Box().H()-want.side) > 1e-9 {
					t.Errorf("%s, page %s: no square of %s", what, s.Name, want.size)
				}
			}
			if len(got) != len(want) {
				t.Errorf("%s on %g × %g: %d of %d holes stand whole on a page", what, p.W, p.H, len(got), len(want))
			}
		}
	})
}

// TestSheetsNone: a layout without sheets is still a drawing.
func TestSheetsNone(t *testing.T) {
	doc := &ribfile.Doc{Units: ribfile.MM}
	for _, d := range []export.Drawing{Sheets(NewCutting(doc, cut.Layout{})), SheetFile(NewCutting(doc, cut.Layout{}))} {
		if err := d.Check(); err != nil {
			t.Error(err)
		}
	}
}
