package shop_test

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/pdf"
	"ribwright/export/shop"
	"ribwright/geom"
	"ribwright/geom/outside"
	"ribwright/geom/ribfile"
)

// strokes reads the stroked paths of every page of a PDF with MuPDF, in mm; curves count by their end point.
func strokes(t *testing.T, d export.Drawing) [][][]geom.Pt {
	t.Helper()
	const mm = 25.4 / 72
	mutool := outside.Need(t, "mutool")
	var b bytes.Buffer
	if err := pdf.Write(&b, d); err != nil {
		t.Fatal(err)
	}
	trace := outside.Run(t, mutool, "draw", "-q", "-F", "trace", "-o", "-", outside.File(t, "d.pdf", b.Bytes()))
	var out [][][]geom.Pt
	m := geom.Identity
	step := regexp.MustCompile(`<(moveto|lineto|curveto|stroke_path|page)\b([^>]*)>`)
	number := regexp.MustCompile(`(x3|y3|x|y)="([-\d.e]+)"`)
	matrix := regexp.MustCompile(`transform="([^"]*)"`)
	for _, f := range step.FindAllStringSubmatch(trace, -1) {
		switch f[1] {
		case "page":
			out = append(out, nil)
			continue
		case "stroke_path":
			var v [6]float64
			for i, w := range strings.Fields(matrix.FindStringSubmatch(f[2])[1]) {
				v[i], _ = strconv.ParseFloat(w, 64)
			}
			m = geom.Transform{A: v[0], B: v[1], C: v[2], D: v[3], E: v[4], F: v[5]}
			continue
		}
		var p geom.Pt
		for _, n := range number.FindAllStringSubmatch(f[2], -1) {
			v, _ := strconv.ParseFloat(n[2], 64)
			if n[1][0] == 'x' {
				p.X = v
			} else {
				p.Y = v
			}
		}
		page := &out[len(out)-1]
		if f[1] == "moveto" || len(*page) == 0 {
			*page = append(*page, nil)
		}
		k := len(*page) - 1
		(*page)[k] = append((*page)[k], m.Pt(p).Mul(mm))
	}
	return out
}

// measures returns how long on a page the sides of a square are that is nearest to a size.
func measures(page [][]geom.Pt, size float64) (across, up float64) {
	best := math.Inf(1)
	for _, p := range page {
		if b := geom.NewBox(p...); len(p) >= 4 && len(p) <= 5 && math.Abs(b.W()-size)+math.Abs(b.H()-size) < best {
			best, across, up = math.Abs(b.W()-size)+math.Abs(b.H()-size), b.W(), b.H()
		}
	}
	return across, up
}

// TestPrintedTrue prints corrected pages on a printer that is off as was said: what is to be measured is 100 mm
// to 0.02 mm in both directions on every page, on every paper, upright and turned; the page is the paper's size; and
// neighbours' crosses stand at the same places of the rib.
func TestPrintedTrue(t *testing.T) {
	sizes := []string{"A5", "A4", "A3", "A2", "A1", "A0", "Letter", "Legal", "Tabloid", "ANSI A", "ANSI B", "ANSI C", "ANSI D", "ANSI E",
		"Arch A", "Arch B", "Arch C", "Arch D", "Arch E", "13x19in", "roll 610", "roll 36in", "roll 200"}
	if testing.Short() {
		sizes = []string{"A4", "ANSI C", "roll 610"}
	}
	for i, size := range sizes {
		r, doc := layOut(t, ribFiles[i%2])
		for _, turn := range []string{"portrait", "landscape"} {
			for _, measured := range []string{"100x100", "99.2x101.5"} {
				if measured == "100x100" && size != "A4" {
					continue // TestPDFPages has these
				}
				p, err := ribfile.ParsePaper(size, ribfile.MM)
				if err != nil {
					t.Fatal(err)
				}
				if p.Turn = turn; p.H == 0 {
					p.Turn = "auto"
				}
				if p.Printed, err = ribfile.ParsePrinted(measured); err != nil {
					t.Fatal(err)
				}
				where := fmt.Sprintf("%s on %s, %s, printed %s", doc.Title, size, turn, measured)
				d, err := shop.Tiles(r, doc, nil, p)
				if err != nil {
					t.Fatal(where, err)
				}
				plan, err := shop.TilePlan(r, doc, nil, p)
				if err != nil {
					t.Fatal(where, err)
				}
				checkPrinted(t, where, d, plan, p)
			}
		}
	}
}

func checkPrinted(t *testing.T, where string, d export.Drawing, plan []shop.Tile, p ribfile.Paper) {
	t.Helper()
	const ruler, hair = 0.02, 0.01 // mm
	pages := strokes(t, d)
	if len(pages) != len(plan) {
		t.Fatalf("%s: %d pages, want %d", where, len(pages), len(plan))
	}
	seen := map[[2]int]int{}
	for k, page := range pages {
		s := d.Sheets[k]
		for _, path := range page { // what the printer makes of it; MuPDF counts from above
			for i, q := range path {
				path[i] = geom.Pt{X: q.X * p.Printed.Across, Y: (s.H - q.Y) * p.Printed.Up}
			}
		}
		if a, u := measures(page, 100); math.Abs(a-100) > ruler || math.Abs(u-100) > ruler {
			t.Errorf("%s, sheet %s: the square is printed %.3f × %.3f mm", where, s.Name, a, u)
		}
		for i := 1; i < len(page); i++ { // the two lines of a cross follow each other
			a, b := geom.NewBox(page[i-1]...), geom.NewBox(page[i]...)
			if len(page[i]) != 2 || len(page[i-1]) != 2 || math.Abs(a.W()+a.H()-8) > ruler || math.Abs(b.W()+b.H()-8) > ruler || a.Centre().Dist(b.Centre()) > hair {
				continue
			}
			q := a.Centre().Sub(plan[k].Offset)
			at := [2]int{int(math.Round(q.X / hair / 2)), int(math.Round(q.Y / hair / 2))}
			found := false
			for x := -1; x <= 1; x++ {
				for y := -1; y <= 1; y++ {
					if near := [2]int{at[0] + x, at[1] + y}; seen[near] == 1 && !found {
						seen[near], found = 2, true
					}
				}
			}
			if !found {
				seen[at] = 1
			}
		}
	}
	for at, n := range seen {
		if n != 2 {
			t.Errorf("%s: the cross at %v stands on one page", where, at)
		}
	}
	if len(pages) > 1 && len(seen) < len(pages)-1 {
		t.Errorf("%s: %d crosses on %d pages", where, len(seen), len(pages))
	}
}

// TestCorrected prints the jig drawing and templates on a printer that is off: the squares are true, and the sheets say
// that they are corrected.
func TestCorrected(t *testing.T) {
	for _, name := range ribFiles[:2] {
		r, doc := layOut(t, name)
		p, err := ribfile.ParsePrinted("98.4x100.7")
		if err != nil {
			t.Fatal(err)
		}
		plain := shop.Jig(r, doc, nil)
		d := shop.Corrected(plain, p, doc.Units)
		if err := d.Check(); err != nil {
			t.Fatal(err)
		}
		page := strokes(t, d)[0]
		for _, path := range page {
			for i, q := range path {
				path[i] = geom.Pt{X: q.X * p.Across, Y: q.Y * p.Up}
			}
		}
		for _, size := range []float64{100, 101.6} {
			if a, u := measures(page, size); math.Abs(a-size) > 0.02 || math.Abs(u-size) > 0.02 {
				t.Errorf("%s: the square of %g mm is printed %.3f × %.3f mm", name, size, a, u)
			}
		}
		said := 0
		for _, part := range d.Sheets[0].Parts {
			for _, it := range part.Items {
				if it.Text != nil && strings.HasPrefix(it.Text.S, "Corrected for a printer that prints ") {
					said++
				}
			}
		}
		if said != 1 {
			t.Errorf("%s: the sheet says %d times that it is corrected", name, said)
		}
		if same := shop.Corrected(plain, ribfile.Printed{}, doc.Units); same.Sheets[0].W != plain.Sheets[0].W || len(same.Sheets[0].Parts) != len(plain.Sheets[0].Parts) {
			t.Errorf("%s: corrected without a measure", name)
		}
	}
}
