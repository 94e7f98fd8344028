package pdf_test

import (
	"bytes"
	"errors"
	"fmt"
	"html"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"ribwright/export"
	"ribwright/export/internal/sample"
	"ribwright/export/pdf"
	"ribwright/geom"
	"ribwright/geom/outside"
)

func written(t testing.TB, d export.Drawing) []byte {
	t.Helper()
	var b, again bytes.Buffer
	for _, w := range []*bytes.Buffer{&b, &again} {
		if err := pdf.Write(w, d); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(b.Bytes(), again.Bytes()) {
		t.Error("two runs differ")
	}
	return b.Bytes()
}

func one(items ...export.Item) export.Drawing {
	for i := range items {
		items[i].Layer = "cut"
	}
	return export.Drawing{Title: "t", Layers: []export.Layer{{ID: "cut", Pen: export.Pen{Width: 0.1}}},
		Sheets: []export.Sheet{{W: 300, H: 300, Parts: []export.Part{{Items: items}}}}}
}

func TestQPDF(t *testing.T) {
	qpdf := outside.Need(t, "qpdf")
	for _, d := range []export.Drawing{sample.Drawing(), sample.Job(), one()} {
		out := outside.Run(t, qpdf, "--check", outside.File(t, "s.pdf", written(t, d)))
		if !strings.Contains(out, "No syntax or stream encoding errors") || strings.Contains(out, "WARNING") {
			t.Errorf("%s: %s", d.Title, out)
		}
	}
}

// TestPages reads the page boxes: right to 0.01 mm, which is 0.028 points.
func TestPages(t *testing.T) {
	d := sample.Drawing()
	d.Sheets = append(d.Sheets, export.Sheet{Name: "roll", W: pdf.MaxSide, H: 914.4}, export.Sheet{W: 215.9, H: 279.4})
	out := outside.Run(t, outside.Need(t, "pdfinfo"), "-box", "-l", "9", outside.File(t, "s.pdf", written(t, d)))
	got := regexp.MustCompile(`MediaBox: +0\.00 +0\.00 +([\d.]+) +([\d.]+)`).FindAllStringSubmatch(out, -1)
	if len(got) != len(d.Sheets) {
		t.Fatalf("%d pages, want %d:\n%s", len(got), len(d.Sheets), out)
	}
	for i, s := range d.Sheets {
		for k, mm := range []float64{s.W, s.H} {
			v, _ := strconv.ParseFloat(got[i][k+1], 64)
			if math.Abs(v*25.4/72-mm) > 0.01 {
				t.Errorf("page %d: side %d is %v mm, want %v", i+1, k+1, v*25.4/72, mm)
			}
		}
	}
	if !strings.Contains(out, "Title:           Sample: “Märsh Wren” rib\n") || strings.Contains(out, "Date") {
		t.Errorf("title wrong, or a date:\n%s", out)
	}
}

// TestTextIsFound looks for the lettering as a reader searches it.
func TestTextIsFound(t *testing.T) {
	out := outside.Run(t, outside.Need(t, "pdftotext"), "-raw", outside.File(t, "s.pdf", written(t, sample.Drawing())), "-")
	out = strings.Join(strings.Fields(out), " ") // slanting words come one a line
	for _, want := range []string{"centred × 38 mm", "left on the base line", "right, Ø38 Ø38 ½ é", `a < b & "c" (d) \`, "gypsum at 30°", "upright", "U4 × 2"} {
		if !strings.Contains(out, want) {
			t.Errorf("%q not found in\n%s", want, out)
		}
	}
}

// TestLetters compares the lengths of lines of lettering with poppler's: each character stands twenty times on
// a line, and the line must be found as long as its lettering is. There are more characters than one font holds.
func TestLetters(t *testing.T) {
	pdftotext := outside.Need(t, "pdftotext")
	var chars []rune
	for r := rune('!'); r <= 'ӹ'; r++ {
		if (export.Text{S: string(r)}).Letters() == string(r) && r > 0x20 && (r < 0x7f || r > 0xa1 && r != 0xad) && unicode.IsPrint(r) {
			chars = append(chars, r)
		}
	}
	if len(chars) < 300 {
		t.Fatalf("only %d characters: one font holds them", len(chars))
	}
	d := one()
	d.Sheets[0].H = 5000
	var texts []export.Text
	for i, r := range chars {
		tx := export.Text{S: strings.Repeat(string(r), 20), At: geom.Pt{X: 10, Y: 4990 - 8*float64(i)}, Height: 2}
		texts = append(texts, tx)
		d.Sheets[0].Parts[0].Items = append(d.Sheets[0].Parts[0].Items, export.Item{Layer: "cut", Text: &tx})
	}
	out := outside.Run(t, pdftotext, "-bbox", outside.File(t, "s.pdf", written(t, d)), "-")
	words := regexp.MustCompile(`xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*)</word>`).FindAllStringSubmatch(out, -1)
	left, right, found := map[int]float64{}, map[int]float64{}, map[int]string{}
	for _, m := range words {
		var v [4]float64
		for k := range v {
			v[k], _ = strconv.ParseFloat(m[k+1], 64)
			v[k] *= 25.4 / 72
		}
		row := int(math.Round(((v[1]+v[3])/2 - 9) / 8))
		if _, ok := left[row]; !ok {
			left[row], right[row] = v[0], v[2]
		}
		left[row], right[row], found[row] = math.Min(left[row], v[0]), math.Max(right[row], v[2]), found[row]+html.UnescapeString(m[5])
	}
	for i, tx := range texts {
		if got, want := right[i]-left[i], tx.Width(); math.Abs(got-want) > 0.002*want {
			t.Errorf("%q is found %.4f mm long, want %.4f", string(chars[i]), got, want)
		}
		if !strings.HasPrefix(found[i], string(chars[i])) {
			t.Errorf("%q is found as %.8q", string(chars[i]), found[i])
		}
	}
}

// TestReadBack writes paths at random and measures what stands in the page, arcs and all. A number of four places
// moves an edge by half a step at most.
func TestReadBack(t *testing.T) {
	for seed := range uint64(300) {
		p := sample.Path(seed, seed%3 != 0)
		got := read(t, contents(t, written(t, one(export.Item{Path: p})))[0])
		if len(got) != 1 || got[0].closed != p.Closed {
			t.Fatalf("seed %d: %d contours, want 1", seed, len(got))
		}
		l, a := sample.Measure(p)
		gl, ga := got[0].measure()
		if math.Abs(gl-l) > 1e-6*l || math.Abs(ga-a) > geom.Step*l {
			t.Errorf("seed %d: length %v area %v, want %v and %v", seed, gl, ga, l, a)
		}
	}
}

// TestArcsAreRound holds the curves to 1e-4 mm of their circles, from a pin's to that of a large wing.
func TestArcsAreRound(t *testing.T) {
	for _, r := range []float64{0.5, 3, 14.2875, 100, 500, 2000} {
		c := geom.Pt{X: 120, Y: 150}
		got := read(t, contents(t, written(t, one(export.Item{Path: geom.Circle(c, r)})))[0])
		if d := got[0].stray(c, r); d > geom.Step {
			t.Errorf("radius %v: the curve strays by %v mm", r, d)
		}
		if n := len(got[0].steps); n < 8 || n > 40 {
			t.Errorf("radius %v: %d curves", r, n)
		}
	}
}

// TestSquare lets mupdf trace the check square of 100 mm.
func TestSquare(t *testing.T) {
	mutool := outside.Optional(t, "mutool")
	out := outside.Run(t, mutool, "draw", "-F", "trace", outside.File(t, "s.pdf", written(t, sample.Drawing())), "1")
	m := regexp.MustCompile(`(?s)<stroke_path linewidth="\.35"[^>]* transform="([\d.]+) [^>]*>\s*<moveto x="([\d.]+)" y="([\d.]+)"/>\s*<lineto x="([\d.]+)"[^>]*>\s*<lineto x="[\d.]+" y="([\d.]+)"/>\s*<lineto [^>]*>\s*<closepath/>`).FindStringSubmatch(out)
	if m == nil {
		t.Fatalf("no square in\n%.2000s", out)
	}
	var v [5]float64
	for i := range v {
		v[i], _ = strconv.ParseFloat(m[i+1], 64)
	}
	for _, side := range []float64{v[3] - v[1], v[4] - v[2]} {
		if mm := side * v[0] * 25.4 / 72; math.Abs(mm-100) > 1e-5 {
			t.Errorf("the check square measures %v mm, want 100", mm)
		}
	}
}

// TestSquareByPoppler measures it once more. The reader is told not to shrink: it else fits a page of
// 595.28 points into one of 595.
func TestSquareByPoppler(t *testing.T) {
	pdftocairo := outside.Need(t, "pdftocairo")
	out := outside.Run(t, pdftocairo, "-svg", "-noshrink", "-f", "1", "-l", "1", outside.File(t, "s.pdf", written(t, sample.Drawing())), "-")
	m := regexp.MustCompile(`d="M ([\d.]+) ([\d.]+) L ([\d.]+) [\d.]+ L [\d.]+ ([\d.]+) L [\d.]+ [\d.]+ Z[^"]*" transform="matrix\(([\d.]+)`).FindStringSubmatch(out)
	if m == nil {
		t.Fatalf("no square in\n%.2000s", out)
	}
	var v [5]float64
	for i := range v {
		v[i], _ = strconv.ParseFloat(m[i+1], 64)
	}
	for _, side := range []float64{v[2] - v[0], v[3] - v[1]} {
		if mm := side * v[4] * 25.4 / 72; math.Abs(mm-100) > 0.01 {
			t.Errorf("the check square measures %v mm, want 100", mm)
		}
	}
}

func TestSizeError(t *testing.T) {
	d := one()
	d.Sheets[0].Name, d.Sheets[0].W = "Jig", 5080.5
	var b bytes.Buffer
	err := pdf.Write(&b, d)
	var size *pdf.SizeError
	if !errors.As(err, &size) || size.Sheet != 1 || b.Len() > 0 {
		t.Fatalf("got %v and %d bytes, want a SizeError and nothing", err, b.Len())
	}
	for _, want := range []string{"Jig", "5080 mm", "14,400 points", "tiles"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q lacks %q", err, want)
		}
	}
	d.Sheets[0].W = 5080
	if err := pdf.Write(&b, d); err != nil {
		t.Errorf("5080 mm: %v", err)
	}
}

func TestRefused(t *testing.T) {
	var b bytes.Buffer
	for name, d := range map[string]export.Drawing{
		"NaN":       one(export.Item{Path: geom.Line(geom.Pt{}, geom.Pt{X: math.NaN()})}),
		"no sheets": {Title: "x"},
	} {
		if err := pdf.Write(&b, d); err == nil || b.Len() > 0 {
			t.Errorf("%s: got %v and %d bytes, want an error and nothing", name, err, b.Len())
		}
	}
	if err := pdf.Write(fullDisk{}, one()); !errors.Is(err, errFull) {
		t.Errorf("got %v, want %v", err, errFull)
	}
}

type fullDisk struct{}

var errFull = errors.New("disk full")

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }

// TestContent shows the operators of a small page: a dashed line, a washer, a clipped line.
func TestContent(t *testing.T) {
	d := one(export.Item{Path: geom.Polyline(geom.Pt{}, geom.Pt{X: 10}, geom.Pt{X: 10, Y: 5})},
		export.Item{Fill: true, Path: geom.Rect(geom.NewBox(geom.Pt{}, geom.Pt{X: 2, Y: 2})), Holes: []geom.Path{geom.Rect(geom.NewBox(geom.Pt{X: 0.5, Y: 0.5}, geom.Pt{X: 1, Y: 1}))}})
	d.Layers[0].Pen = export.Pen{Width: 0.18, Dash: []float64{3, 1.5}, Gray: 0.5}
	d.Sheets[0].Parts = append(d.Sheets[0].Parts, export.Part{Clip: geom.NewBox(geom.Pt{X: 1, Y: 1}, geom.Pt{X: 3, Y: 5}),
		Items: []export.Item{{Layer: "cut", Path: geom.Line(geom.Pt{}, geom.Pt{X: 9, Y: 9})}}})
	want := strings.Join([]string{
		"2.834645669291 0 0 2.834645669291 0 0 cm", "1 j",
		"0.18 w", "0.5 G", "[3 1.5] 0 d", "0 0 m", "10 0 l", "10 5 l", "S",
		"0.5 g", "0 0 m", "2 0 l", "2 2 l", "0 2 l", "h", "0.5 0.5 m", "1 0.5 l", "1 1 l", "0.5 1 l", "h", "f*",
		"q", "1 1 2 4 re W n", "0.18 w", "0.5 G", "[3 1.5] 0 d", "0 0 m", "9 9 l", "S", "Q", ""}, "\n")
	if got := contents(t, written(t, d))[0]; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// A page with a check square, as every printed sheet should carry one.
func ExampleWrite() {
	d := export.Drawing{
		Title:  "Check",
		Layers: []export.Layer{{ID: "check", Pen: export.Pen{Width: 0.18}}},
		Sheets: []export.Sheet{{Name: "page 1", W: 210, H: 297, Parts: []export.Part{{Items: []export.Item{
			{Layer: "check", ID: "check-100mm", Path: geom.Rect(geom.NewBox(geom.Pt{X: 20, Y: 20}, geom.Pt{X: 120, Y: 120}))},
			{Layer: "check", Text: &export.Text{S: "100 mm", At: geom.Pt{X: 70, Y: 15}, Height: 3.5, Anchor: export.Center}},
		}}}}},
	}
	var b bytes.Buffer
	if err := pdf.Write(&b, d); err != nil {
		fmt.Println(err)
	}
	fmt.Println(regexp.MustCompile(`/MediaBox \[[^]]*\]`).FindString(b.String()))

	d.Sheets[0].W = 6000
	fmt.Println(pdf.Write(&b, d))
	// Output:
	// /MediaBox [0 0 595.27559 841.88976]
	// sheet 1 (page 1) is 6000 × 297 mm; a PDF page takes at most 5080 mm (14,400 points) a side: print it in tiles
}

func BenchmarkWrite(b *testing.B) {
	d := sample.Job()
	for b.Loop() {
		if err := pdf.Write(io.Discard, d); err != nil {
			b.Fatal(err)
		}
	}
}
