package cut_test

import (
	"fmt"
	"math"
	"math/rand"
	"os"
	"slices"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/cut"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// layOut reads a rib file of the repository, with text put behind it, and lays the rib out.
func layOut(t testing.TB, name, more string) (*rib.Rib, *ribfile.Doc) {
	t.Helper()
	data, err := os.ReadFile("../../" + name)
	if err != nil {
		t.Fatal(err)
	}
	doc, fs := ribfile.Read(name, append(data, more...))
	sec, fs2 := rib.Section(doc, func(string) ([]byte, error) { return nil, os.ErrNotExist })
	if finding.HasError(append(fs, fs2...)) {
		t.Fatal(fs, fs2)
	}
	r, _ := rib.Build(doc, sec)
	return r, doc
}

const (
	wren    = "cmd/ribwright/demo/marsh-wren.toml"
	bunting = "cmd/ribwright/demo/reed-bunting.toml"
	starter = "cmd/ribwright/demo/starter.toml"
)

// bare is a rib file without the tables that say how plates are cut.
func bare(t testing.TB, name string, saw ribfile.Saw, sheet ribfile.Sheet) (*rib.Rib, *ribfile.Doc) {
	r, doc := layOut(t, name, "")
	plain, _ := ribfile.Read("", []byte("units = \"mm\"\n"))
	doc.Saw, doc.Sheet = plain.Saw, plain.Sheet
	if saw.Plates != "" {
		k := saw
		k.LaserKerf, k.BandKerf, k.RouterBit, k.Pilot = max(k.LaserKerf, 0.2), max(k.BandKerf, 0.8), max(k.RouterBit, 3.175), max(k.Pilot, 6)
		k.HoleSawKerf = max(k.HoleSawKerf, 2)
		doc.Saw = k
	}
	doc.Sheet.Effort = sheet.Effort
	if sheet.Grain != "" {
		doc.Sheet.Grain = sheet.Grain
	}
	doc.Sheet.Stock = sheet.Stock
	return r, doc
}

// TestNest holds every layout of the demos, with every tool: each plate of the set is there exactly once, on a sheet
// that is there, its grain as it must run, and no saw cuts into another's plate.
func TestNest(t *testing.T) {
	for _, c := range []struct{ name, tool, rule, sheet string }{
		{wren, "line", "cap", "length"}, {wren, "hole-saw", "stick", "width"}, {wren, "laser", "45", "length"},
		{bunting, "laser", "cap", "width"}, {bunting, "router", "stick", "length"}, {bunting, "hole-saw", "45", "width"}, {bunting, "line", "any", "length"},
		{starter, "band-saw", "any", "length"},
	} {
		r, doc := bare(t, c.name, ribfile.Saw{Plates: c.tool}, ribfile.Sheet{Grain: c.sheet})
		doc.Gusset.Grain = c.rule
		l := cut.Nest(rib.One(r, doc), nil, nil)
		what := fmt.Sprintf("%s, %s, grain %s, %s", c.name, c.tool, c.rule, c.sheet)
		checkOnce(t, what, r, l)
		checkGrain(t, what, doc, l)
		if fs := l.Findings(doc); len(fs) > 0 {
			t.Errorf("%s: %v", what, fs)
		}
	}
}

func checkOnce(t *testing.T, what string, r *rib.Rib, l cut.Layout) {
	t.Helper()
	want := map[string]int{}
	for _, g := range r.Gussets {
		want[g.ID] = r.Count
		if g.Faces == 2 {
			want[g.ID+"/2"] = r.Count
		}
	}
	for _, s := range l.Sheets {
		for _, p := range s.Placed {
			want[l.Plates[p.Plate].ID] -= s.Count
		}
		if s.Count < 1 || l.Fill(s) <= 0 || l.Fill(s) >= 1 {
			t.Errorf("%s: a sheet cut %d times, %.2f full", what, s.Count, l.Fill(s))
		}
		box := l.Stock[s.Stock].Outline.Box()
		for _, p := range s.Placed {
			if b := p.Transform().Path(l.Plates[p.Plate].Swath).Box(); !box.Grow(1e-6).Holds(b.Min) || !box.Grow(1e-6).Holds(b.Max) {
				t.Errorf("%s: %s lies over the edge: %v", what, l.Plates[p.Plate].ID, b)
			}
		}
	}
	for id, n := range want {
		if n != 0 {
			t.Errorf("%s: %d of %s missing", what, n, id)
		}
	}
}

func checkGrain(t *testing.T, what string, doc *ribfile.Doc, l cut.Layout) {
	t.Helper()
	axis := geom.Pt{X: 1}
	if doc.Sheet.Grain == "width" {
		axis = geom.Pt{Y: 1}
	}
	for _, s := range l.Sheets {
		for _, p := range s.Placed {
			plate := l.Plates[p.Plate]
			ok := len(plate.Grain) == 0
			for _, g := range plate.Grain {
				ok = ok || math.Abs(geom.Polar(g+p.Angle).Cross(axis)) < 1e-9
			}
			if !ok {
				t.Fatalf("%s: %s, grain %v, lies at %v", what, plate.ID, plate.Grain, p.Angle)
			}
		}
	}
}

// TestPlates: both faces, the second the mirror image, and its own axes along the cap.
func TestPlates(t *testing.T) {
	r, doc := bare(t, wren, ribfile.Saw{}, ribfile.Sheet{})
	all := cut.Plates(rib.One(r, doc), nil)
	if len(all) != 2*len(r.Gussets) {
		t.Fatalf("%d kinds for %d plates on two faces", len(all), len(r.Gussets))
	}
	for i := 0; i < len(all); i += 2 {
		a, b := all[i], all[i+1]
		if a.ID+"/2" != b.ID || math.Abs(a.Outline.Area()-b.Outline.Area()) > 1e-9 || a.Outline.Area() < 0 || b.Outline.Area() < 0 {
			t.Errorf("%s and %s: areas %g and %g", a.ID, b.ID, a.Outline.Area(), b.Outline.Area())
		}
		for k, m := range a.Marks {
			if n := b.Marks[k]; m.A.X != -n.A.X || m.A.Y != n.A.Y || m.B.X != -n.B.X {
				t.Errorf("%s: mark %v is %v on the second face", a.ID, m, n)
			}
			if m.Kind == "cap" && r.Gussets[a.Gusset].Shape == rib.Round && math.Abs(m.A.Y-m.B.Y) > 1e-6 {
				t.Errorf("%s: the cap's line %v does not lie along x", a.ID, m)
			}
		}
	}
}

// TestTool: what each tool takes, and the plate that a hole saw gives.
func TestTool(t *testing.T) {
	const in = 25.4
	saw := cut.Tool{Name: "hole-saw", Saw: 1.25 * in, Kerf: in / 16, Pilot: in / 4}
	if got := saw.Gives(); math.Abs(got-1.125*in) > 1e-9 {
		t.Errorf("a saw of 1 1/4 in with teeth of 1/16 in gives %g in, want 1 1/8", got/in)
	}
	laser := cut.Tool{Name: "laser", Kerf: 0.2}
	if _, r, ok := laser.Path(geom.Circle(geom.Pt{}, 19))[0].IsCircle(); !ok || r != 19.1 {
		t.Errorf("a plate of 38 mm by a laser of 0.2 mm: path of %g mm, want 38.2", 2*r)
	}
	ell := geom.Ring{{}, {X: 30}, {X: 30, Y: 10}, {X: 10, Y: 10}, {X: 10, Y: 30}, {Y: 30}}.Path()
	left, deepest := cut.Tool{Name: "router", Kerf: 6}.Left(ell)
	if want := 3 * (math.Sqrt2 - 1); math.Abs(deepest-want) > 0.01 || math.Abs(left.Area()-ell.Area()-9*(1-math.Pi/4)) > 1e-6 {
		t.Errorf("a bit of 6 mm in a square corner leaves %g mm, want %g; area %g more", deepest, want, left.Area()-ell.Area())
	}
	if _, d := (cut.Tool{}).Left(ell); d != 0 {
		t.Errorf("no tool leaves %g", d)
	}
}

func codes(fs []finding.Finding) string {
	var out []string
	for _, f := range fs {
		out = append(out, fmt.Sprintf("%s %s %s", f.Severity, f.Code, f.Key))
	}
	return strings.Join(out, "; ")
}

func TestFindings(t *testing.T) {
	offcut := ribfile.SheetStock{Outline: [][2]float64{{0, 0}, {300, 0}, {0, 300}}, Count: 1}
	for _, c := range []struct {
		name  string
		saw   ribfile.Saw
		stock []ribfile.SheetStock
		want  string
		text  string
	}{
		{wren, ribfile.Saw{Plates: "line"}, nil, "", ""},
		{wren, ribfile.Saw{Plates: "hole-saw"}, nil, "", ""},
		{wren, ribfile.Saw{Plates: "hole-saw", HoleSaw: 42}, nil, "", ""},
		{wren, ribfile.Saw{Plates: "hole-saw", HoleSaw: 38}, nil, "warning saw-plate-size gusset.diameter; note pilot-hole saw.pilot", "gives plates of 34 mm"},
		{wren, ribfile.Saw{Plates: "hole-saw", HoleSaw: 42, Pilot: 8}, nil, "note pilot-hole saw.pilot", "4.4 %"},
		{wren, ribfile.Saw{Plates: "laser", HoleSaw: 10}, nil, "", ""},
		{bunting, ribfile.Saw{Plates: "router"}, nil, "", ""},
		{wren, ribfile.Saw{Plates: "line"}, []ribfile.SheetStock{{Length: 300, Width: 200, Count: 2}}, "warning sheet-short sheet.stock", "of 1144 plates find no place"},
		{wren, ribfile.Saw{Plates: "line"}, []ribfile.SheetStock{{Length: 44, Width: 600}}, "warning sheet-small sheet.stock", "larger than every sheet"},
		{wren, ribfile.Saw{Plates: "line"}, []ribfile.SheetStock{offcut, {Length: 600, Width: 300}}, "", ""},
	} {
		r, doc := bare(t, c.name, c.saw, ribfile.Sheet{Stock: c.stock})
		l := cut.Nest(rib.One(r, doc), nil, nil)
		found := append(cut.Check(r, doc), l.Findings(doc)...)
		seen := map[string]bool{}
		found = slices.DeleteFunc(found, func(f finding.Finding) bool { twice := seen[f.Code]; seen[f.Code] = true; return twice })
		if got := codes(found); got != c.want {
			t.Errorf("%s, %+v, %v: got %q, want %q", c.name, c.saw, c.stock, got, c.want)
		}
		if c.text != "" && !strings.Contains(fmt.Sprint(found), c.text) {
			t.Errorf("%s, %+v: %v lacks %q", c.name, c.saw, found, c.text)
		}
		if len(l.Left) > 0 && !cut.MayFail(rib.One(r, doc)) {
			t.Errorf("%s, %v: plates are left, and it was not thought possible", c.name, c.stock)
		}
		placed, all := l.Pieces(), 0
		for _, p := range l.Plates {
			all += p.Count
		}
		for _, k := range l.Left {
			placed += k.Count
		}
		if placed != all {
			t.Errorf("%s, %v: %d plates placed or left, of %d", c.name, c.stock, placed, all)
		}
	}
	r, doc := bare(t, wren, ribfile.Saw{}, ribfile.Sheet{})
	if cut.MayFail(rib.One(r, doc)) {
		t.Error("sheets without end, plates that fit: nothing can fail")
	}
}

// TestRouterCorner: a plate with an inside corner is told.
func TestRouterCorner(t *testing.T) {
	r, doc := bare(t, wren, ribfile.Saw{Plates: "router", RouterBit: 6}, ribfile.Sheet{})
	r.Gussets[0].Outline = geom.Ring{{}, {X: 30}, {X: 30, Y: 10}, {X: 10, Y: 10}, {X: 10, Y: 30}, {Y: 30}}.Path()
	if got := codes(cut.Check(r, doc)); got != "warning router-corner saw.router_bit" {
		t.Errorf("got %q", got)
	}
}

// TestTour holds orders of points: each once, never longer than as given or than nearest-next alone, and for few
// points on the average within a fiftieth of the best of all orders.
func TestTour(t *testing.T) {
	r := rand.New(rand.NewSource(41))
	over, cases := 0.0, 0.0
	for k := range 60 {
		pts := make([]geom.Pt, 1+k%7)
		if k%3 == 0 {
			pts = make([]geom.Pt, 50+k)
		}
		for i := range pts {
			pts[i] = geom.Pt{X: 600 * r.Float64(), Y: 300 * r.Float64()}
		}
		order := cut.Tour(geom.Pt{}, pts)
		given := make([]int, len(pts))
		for i := range given {
			given[i] = i
		}
		sorted := slices.Clone(order)
		slices.Sort(sorted)
		if !slices.Equal(sorted, given) {
			t.Fatalf("case %d: %v is no order of %d points", k, order, len(pts))
		}
		got, plain := cut.TourLength(geom.Pt{}, pts, order), cut.TourLength(geom.Pt{}, pts, given)
		if got > plain+1e-9 {
			t.Errorf("case %d: %g mm, unordered %g", k, got, plain)
		}
		if len(pts) > 7 {
			continue
		}
		best := math.Inf(1)
		permute(given, 0, func(o []int) { best = math.Min(best, cut.TourLength(geom.Pt{}, pts, o)) })
		over, cases = over+got/best-1, cases+1
	}
	if over/cases > 0.02 {
		t.Errorf("few points: ways are %.1f %% longer than the best", 100*over/cases)
	}
	if cut.Tour(geom.Pt{}, nil) == nil && len(cut.Tour(geom.Pt{}, nil)) != 0 {
		t.Error("no points")
	}
}

func permute(o []int, k int, f func([]int)) {
	if k == len(o) {
		f(o)
		return
	}
	for i := k; i < len(o); i++ {
		o[k], o[i] = o[i], o[k]
		permute(o, k+1, f)
		o[k], o[i] = o[i], o[k]
	}
}

// TestHoles: one for every round plate, in an order shorter than by rows.
func TestHoles(t *testing.T) {
	r, doc := bare(t, wren, ribfile.Saw{Plates: "hole-saw", HoleSaw: 42}, ribfile.Sheet{})
	l := cut.Nest(rib.One(r, doc), nil, nil)
	for k, s := range l.Sheets {
		n := 0
		for _, p := range s.Placed {
			if r.Gussets[l.Plates[p.Plate].Gusset].Shape == rib.Round {
				n++
			}
		}
		holes := l.Holes(k)
		if len(holes) != n {
			t.Errorf("sheet %d: %d holes for %d round plates", k+1, len(holes), n)
		}
		var placed, drilled []geom.Pt
		var order []int
		for i, h := range holes {
			drilled, order = append(drilled, h.At), append(order, i)
		}
		for _, p := range s.Placed {
			if l.Plates[p.Plate].Blank > 0 {
				placed = append(placed, p.At)
			}
		}
		for i, a := range drilled {
			for _, b := range drilled[:i] {
				if a.Dist(b) < 42+doc.Sheet.Gap-1e-6 {
					t.Errorf("sheet %d: holes %v and %v are %g apart", k+1, a, b, a.Dist(b))
				}
			}
		}
		short, long := cut.TourLength(geom.Pt{}, drilled, order), cut.TourLength(geom.Pt{}, placed, order)
		t.Logf("sheet %d: %.0f mm in the order of drilling, %.0f mm by rows", k+1, short, long)
		if short > long {
			t.Errorf("sheet %d: ordered %g mm, by rows %g mm", k+1, short, long)
		}
	}
}

func BenchmarkNest(b *testing.B) {
	for _, name := range []string{wren, bunting} {
		r, doc := bare(b, name, ribfile.Saw{}, ribfile.Sheet{})
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				l := cut.Nest(rib.One(r, doc), nil, nil)
				b.ReportMetric(float64(len(l.Sheets)), "sheets")
			}
		})
	}
}
