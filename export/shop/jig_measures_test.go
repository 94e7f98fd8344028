package shop

import (
	"math"
	"slices"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// onLayer returns a sheet's lettering on some layers, in rib axes.
func onLayer(t *testing.T, j job, items []export.Item, layers ...string) []export.Text {
	t.Helper()
	outline, ok := byID(items, "outline")
	if !ok {
		t.Fatalf("%s: no outline", j.name)
	}
	base := outline.Path.Start.Sub(j.rib.Contour.Outline[0])
	var out []export.Text
	for _, it := range items {
		if it.Text != nil && slices.Contains(layers, it.Layer) {
			u := *it.Text
			u.At = u.At.Sub(base)
			out = append(out, u)
		}
	}
	return out
}

// checkNames holds that every part's name stands on the rib once, in letters of 3.5 mm; those of
// the jig's blocks, which are small, of 2.5 mm where they must.
func checkNames(t *testing.T, j job, items []export.Item) {
	t.Helper()
	if len(j.rib.Contour.Outline) == 0 {
		return
	}
	var want []string
	for _, k := range j.rib.Joints {
		want = append(want, k.ID)
	}
	for _, s := range j.rib.Sticks {
		if len(s.Outline) > 0 {
			want = append(want, s.ID)
		}
	}
	for _, s := range j.rib.Spars {
		if len(s.Opening) > 0 {
			want = append(want, s.Name)
		}
	}
	for _, b := range j.rib.Blocks {
		want = append(want, map[string]string{rib.BlockNose: "nose block", rib.BlockTail: "tail block"}[b.ID])
	}
	for _, it := range items {
		if it.Layer == layerJigBlock && it.ID != "" {
			want = append(want, strings.TrimPrefix(it.ID, "jig-"))
		}
	}
	names := onLayer(t, j, items, layerName, layerJigBlock)
	for _, w := range want {
		n, low := 0, 3.5
		if strings.HasPrefix(w, "J") {
			low = 2.5
		}
		for _, u := range names {
			if u.S == w {
				n++
			}
			if u.S == w && u.Height < low {
				t.Errorf("%s: %q is lettered %g mm high, want %g", j.name, w, u.Height, low)
			}
		}
		if n != 1 {
			t.Errorf("%s: %q stands %d times on the rib, want once", j.name, w, n)
		}
	}
}

// sideAt returns the height of a side at a station, straight between the outline's points: another way than the drawing's.
func sideAt(pts []geom.Pt, x float64) float64 {
	y := math.NaN()
	for i := 1; i < len(pts); i++ {
		if a, b := pts[i-1], pts[i]; a.X <= x && x < b.X {
			y = a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
		}
	}
	return y
}

// checkMeasures reads the figures back: each says a size of the rib, each size that is dimensioned has an arrowhead
// with its tip where the size ends, and no figure is left over.
func checkMeasures(t *testing.T, j job, items []export.Item) (figures int) {
	t.Helper()
	r := j.rib
	if len(r.Contour.Upper) == 0 {
		return 0
	}
	var stations, depths, leans []float64
	zero := 0.0
	if r.Contour.CutAhead() {
		zero = r.Contour.Upper[0].X
	}
	for _, b := range r.Blocks {
		if b.ID == rib.BlockNose {
			stations = append(stations, b.Outline.Box().Max.X)
		} else {
			stations = append(stations, b.Outline.Box().Min.X)
		}
	}
	for _, s := range r.Spars {
		if len(s.Opening) == 0 {
			continue
		}
		up := s.Up()
		within := func(ring geom.Ring, x float64) [2]geom.Pt { // along the spar, from below
			p := geom.Pt{X: x}.Along(up, -5000)
			st := ring.Stretches(p, p.Along(up, 10000))
			return [2]geom.Pt{st[0][0], st[len(st)-1][1]}
		}
		if s.Tilt == 0 && s.Sweep == 0 {
			half := s.Width/2 + s.Clearance
			stations = append(stations, s.At-half, s.At+half)
			depths = append(depths, sideAt(r.Contour.Upper, s.At)-sideAt(r.Contour.Lower, s.At))
		} else { // the faces are dimensioned where they meet the upper contour
			for _, x := range []float64{s.Fore, s.Aft} {
				p := within(r.Contour.Outline, x+1e-9*(s.At-x))
				stations = append(stations, p[1].X)
			}
			c := within(r.Contour.Outline, s.At)
			depths = append(depths, c[0].Dist(c[1]))
		}
		c := within(s.Opening, s.At)
		depths = append(depths, c[0].Dist(c[1]))
		leans = append(leans, math.Pi/2-s.Tilt)
	}
	stations = append(stations, r.Contour.Outline.Box().Max.X)
	outline, _ := byID(items, "outline")
	base := outline.Path.Start.Sub(r.Contour.Outline[0])
	tip := func(x float64) bool {
		return slices.ContainsFunc(items, func(it export.Item) bool {
			return it.Fill && it.Layer == layerMeasure && math.Abs(it.Path.Start.X-base.X-x) < 1e-6
		})
	}
	tol := 0.0501
	if j.doc.Units == ribfile.Inch {
		tol = 25.4/128 + 1e-6
		if j.doc.Drawing.Inches == "decimals" {
			tol = 0.000501 * 25.4
		}
	}
	seen := make([]int, len(stations))
	for _, u := range onLayer(t, j, items, layerMeasure) {
		if strings.HasSuffix(u.S, "°") {
			continue
		}
		figures++
		s := strings.TrimPrefix(strings.TrimPrefix(u.S, "chord "), "≈ ")
		v, _, err := ribfile.ParseLength(s)
		if err != nil {
			t.Errorf("%s: the dimension %q cannot be read: %v", j.name, u.S, err)
			continue
		}
		if j.doc.Units == ribfile.Inch {
			v *= 25.4
		}
		is := func(w float64) bool { return math.Abs(v-w) <= tol }
		if u.Height != medium {
			t.Errorf("%s: the dimension %q is %g mm high", j.name, u.S, u.Height)
		}
		upright := math.Abs(u.Angle-math.Pi/2) < 1e-9 || slices.ContainsFunc(leans, func(a float64) bool { return math.Abs(u.Angle-a) < 1e-9 })
		if upright && u.Anchor == export.Middle && slices.ContainsFunc(depths, is) {
			continue
		} else if !upright && u.Angle != 0 {
			t.Errorf("%s: the dimension %q stands at %g°: it is to be read from below or from the right", j.name, u.S, u.Angle*180/math.Pi)
		}
		k := -1
		for i, w := range stations {
			if is(w-zero) && seen[i] == 0 && (k < 0 || math.Abs(u.At.X-w) < math.Abs(u.At.X-stations[k])) {
				k = i
			}
		}
		if k < 0 || !tip(stations[k]) {
			t.Errorf("%s: the dimension %q at %v is no size of the rib, or has no arrowhead there: stations %v, depths %v", j.name, u.S, u.At, stations, depths)
			continue
		}
		seen[k]++
	}
	for i, x := range stations {
		if n := seen[i]; n != 1 && x > zero+0.01 && !slices.ContainsFunc(stations[:i], func(y float64) bool { return math.Abs(x-y) < 0.01 }) && !slices.ContainsFunc(stations[i+1:], func(y float64) bool { return math.Abs(x-y) < 0.01 }) {
			t.Errorf("%s: the station %.2f is dimensioned %d times, want once", j.name, x, n)
		}
	}
	return figures
}

// checkAngles holds that the table has every stick's cuts, and that the angles in the sticks are theirs.
func checkAngles(t *testing.T, j job, items []export.Item) (lettered int) {
	t.Helper()
	table := map[string]int{}
	for _, u := range onLayer(t, j, items, layerTable) {
		table[u.S]++
	}
	words := map[string]bool{}
	for _, s := range j.rib.Sticks {
		if len(s.Outline) == 0 {
			continue
		}
		if table[s.ID] != 1 {
			t.Errorf("%s: the table of sticks has %s %d times", j.name, s.ID, table[s.ID])
		}
		for _, e := range s.Ends {
			for _, w := range strings.Fields(cuts(e, false)) { // the cut list's words: "-23.3° at cap-upper, 42.1° at S1"
				words[w] = true
			}
			if table[angles(e)] == 0 {
				t.Errorf("%s: the table of sticks lacks %s of %s", j.name, angles(e), s.ID)
			}
		}
	}
	for _, u := range onLayer(t, j, items, layerMeasure) {
		if !strings.HasSuffix(u.S, "°") {
			continue
		}
		lettered++
		for _, w := range strings.Fields(u.S) {
			if !words[w] {
				t.Errorf("%s: the angle %s is none of the cut list's", j.name, w)
			}
		}
	}
	return lettered
}

// TestAngleSign holds what the words about angles say: square turned counter-clockwise by the angle is the cut, as the rib is drawn.
func TestAngleSign(t *testing.T) {
	for _, j := range demos(t) {
		for _, s := range j.rib.Sticks {
			square := s.Axis[1].Sub(s.Axis[0]).Unit().Left()
			for _, e := range s.Ends {
				for _, c := range e.Cuts {
					sin, cos := math.Sincos(c.Angle)
					turned := geom.Pt{X: square.X*cos - square.Y*sin, Y: square.X*sin + square.Y*cos} // the matrix of a turn to the left
					if off := math.Abs(turned.Cross(c.B.Sub(c.A).Unit())); off > 1e-9 {
						t.Errorf("%s: %s at %s is cut at %g°, which is %g off", j.name, s.ID, c.Against, c.Angle*180/math.Pi, off)
					}
				}
			}
		}
	}
}

// The demos show what the text promises: figures at every spar and block, and most sticks with their angles.
func TestJigMeasuresDemos(t *testing.T) {
	for _, j := range demos(t) {
		items := all(Jig(j.drawn()).Sheets[0])
		if n := checkMeasures(t, j, items); n < 11 {
			t.Errorf("%s: %d dimensions, want 7 stations and 4 depths", j.name, n)
		}
		if n, most := checkAngles(t, j, items), 2*len(j.rib.Sticks); n < most/2 {
			t.Errorf("%s: %d of %d stick ends have their angles beside them", j.name, n, most)
		}
	}
}

// Line widths are two to one, what is cut is wide, and every layer is dark enough to copy (ISO 128-2: line group 0.5,
// dashes 12 d, long dashes 24 d, gaps 3 d, dots at most half a d).
func TestJigLines(t *testing.T) {
	wood := []string{layerContour, layerCap, layerStick, layerBlock, layerSpar, layerFrame}
	for _, l := range jigLayers() {
		want := 0.25
		if slices.Contains(wood, l.ID) {
			want = 0.5
		}
		if l.Pen.Width != want || l.Pen.Gray > 0.5 || l.Pen.Color != "" {
			t.Errorf("layer %s: %+v, want a black or grey line of %g mm", l.ID, l.Pen, want)
		}
		pattern := map[string][]float64{layerPlateFar: {12, 3}, layerRelief: {12, 3}, layerAxis: {24, 3, 0.5, 3}, layerAdjoin: {24, 3, 0.5, 3, 0.5, 3},
			layerWeb: {24, 3, 0.5, 3, 0.5, 3, 0.5, 3}}[l.ID]
		if len(pattern) != len(l.Pen.Dash) {
			t.Errorf("layer %s: dashes %v, want %v times the line's width", l.ID, l.Pen.Dash, pattern)
			continue
		}
		for i, d := range l.Pen.Dash {
			if math.Abs(d-pattern[i]*l.Pen.Width) > 1e-12 {
				t.Errorf("layer %s: dash %d is %g mm, want %g d", l.ID, i, d, pattern[i])
			}
		}
	}
}

// Plates on both faces are on both layers; on one face, on the near one's alone; and the legend says which.
func TestJigFaces(t *testing.T) {
	for _, faces := range []int{1, 2} {
		j := demos(t)[0]
		for i := range j.rib.Gussets {
			j.rib.Gussets[i].Faces = faces
		}
		items := all(Jig(NewField(j.rib, j.doc, BoardOf(j.rib, j.doc), nil)).Sheets[0])
		near, far := 0, 0
		for _, it := range items {
			switch it.Layer {
			case layerPlate:
				near++
			case layerPlateFar:
				far++
			}
		}
		if n := len(j.rib.Gussets); near != n || far != (faces-1)*n {
			t.Errorf("%d faces: %d plates on the near face, %d on the far one, of %d", faces, near, far, n)
		}
		if lettered(items, "plate on the near face; the far face has none") != (faces == 1) {
			t.Errorf("%d faces: the legend does not say so", faces)
		}
	}
}

// The title has the fields that ISO 7200 asks for, filled from the rib file or left to be written.
// Long entries stand in the title whole, in as many lines as they take, and nothing touches.
func TestJigTitleLong(t *testing.T) {
	j := demos(t)[1]
	doc := *j.doc
	long := strings.Repeat("WIDE-NUMBER-0123 ", 6)[:100]
	doc.Title, doc.Date = long, long
	doc.Drawing.Owner, doc.Drawing.Number, doc.Drawing.Revision, doc.Drawing.DrawnBy, doc.Drawing.ApprovedBy = long, strings.ReplaceAll(long, " ", "-"), "B-12", long, long
	j.doc = &doc
	checkJig(t, j)
	said := ""
	for _, it := range all(Jig(NewField(j.rib, j.doc, BoardOf(j.rib, j.doc), nil)).Sheets[0]) {
		if it.Text != nil && (it.Layer == layerTable || it.Layer == layerFrame) {
			said += strings.ReplaceAll(it.Text.S, " ", "")
		}
	}
	squeezed := strings.ReplaceAll(long, " ", "")
	if n := strings.Count(said, squeezed); n != 5 || !strings.Contains(said, doc.Drawing.Number) {
		t.Errorf("the title has %d of 5 long entries whole, the number: %v", n, strings.Contains(said, doc.Drawing.Number))
	}
}

func TestJigTitle(t *testing.T) {
	heads := []string{"legal owner", "identification number", "date of issue", "sheet", "approved by", "created by", "document type", "revision", "language"}
	j := demos(t)[0]
	for _, full := range []bool{false, true} {
		doc := *j.doc
		if doc.Date = ""; full {
			doc.Date = "2026-11-25"
			doc.Drawing = ribfile.Drawing{Owner: "Flying Club of the Marsh", Number: "MW-12", Revision: "C", DrawnBy: "A. Builder", ApprovedBy: "B. Inspector"}
		}
		items := all(Jig(NewField(j.rib, &doc, BoardOf(j.rib, &doc), nil)).Sheets[0])
		for _, h := range append(heads, j.doc.Title, "jig drawing", "1 / 1") {
			if !lettered(items, h) {
				t.Errorf("the title lacks %q", h)
			}
		}
		for _, s := range []string{"2026-11-25", "Flying Club of the Marsh", "MW-12", "C", "A. Builder", "B. Inspector"} {
			if lettered(items, s) != full {
				t.Errorf("%q is on the sheet: %v, want %v", s, !full, full)
			}
		}
	}
}
