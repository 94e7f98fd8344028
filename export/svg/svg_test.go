package svg_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image"
	"image/png"
	"io"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/internal/sample"
	"ribwright/export/svg"
	"ribwright/geom"
	"ribwright/geom/outside"
)

func written(t testing.TB, d export.Drawing, sheet int) []byte {
	t.Helper()
	var b, again bytes.Buffer
	for _, w := range []*bytes.Buffer{&b, &again} {
		if err := svg.Write(w, d, sheet); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(b.Bytes(), again.Bytes()) {
		t.Error("two runs differ")
	}
	return b.Bytes()
}

// one returns a drawing of one sheet, 300 × 300 mm, with the items on the layer "cut".
func one(items ...export.Item) export.Drawing {
	for i := range items {
		items[i].Layer = "cut"
	}
	return export.Drawing{Title: "t", Layers: []export.Layer{{ID: "cut", Pen: export.Pen{Width: 0.1}}, {ID: "empty"}},
		Sheets: []export.Sheet{{W: 300, H: 300, Parts: []export.Part{{Items: items}}}}}
}

func TestForm(t *testing.T) {
	xmllint := outside.Need(t, "xmllint")
	for i := range 2 {
		outside.Run(t, xmllint, "--noout", "--nonet", outside.File(t, "s.svg", written(t, sample.Drawing(), i)))
	}
}

// TestValid checks against the W3C's document type definition of SVG 1.1, Second Edition.
func TestValid(t *testing.T) {
	xmllint := outside.Need(t, "xmllint")
	dtd := outside.NeedFile(t, "/usr/share/xml/w3c-sgml-lib/schema/dtd/REC-SVG11-20110816/svg11.dtd")
	for i := range 2 {
		outside.Run(t, xmllint, "--noout", "--nonet", "--dtdvalid", dtd, outside.File(t, "s.svg", written(t, sample.Drawing(), i)))
	}
}

// TestClips: a layer's items stand in their order, those of a clipped part in a group of their own.
func TestClips(t *testing.T) {
	dot := func(layer, id string) export.Item {
		return export.Item{Layer: layer, ID: id, Path: geom.Line(geom.Pt{}, geom.Pt{X: 1})}
	}
	d := one()
	d.Layers = []export.Layer{{ID: "cut"}, {ID: "none"}, {ID: "mark"}}
	clip := geom.NewBox(geom.Pt{}, geom.Pt{X: 9, Y: 9})
	d.Sheets[0].Parts = []export.Part{
		{Clip: clip, Items: []export.Item{dot("cut", "a"), dot("mark", "b"), dot("cut", "c")}},
		{Clip: clip, Items: []export.Item{dot("cut", "d")}},
		{Items: []export.Item{dot("mark", "e"), dot("cut", "f")}},
	}
	var got []string
	for _, m := range regexp.MustCompile(`<(/?)(?:g|path)\b(?: id="([^"]*)")?(?: clip-path="url\(#([^)]*))?`).FindAllStringSubmatch(string(written(t, d, 0)), -1) {
		got = append(got, m[1]+m[2]+m[3])
	}
	want := "cut _clip1 a c / _clip2 d / f / mark _clip1 b / e /"
	if strings.Join(got, " ") != want {
		t.Errorf("got  %s\nwant %s", strings.Join(got, " "), want)
	}
}

// TestNumbers holds every number to the form that simple cutters read: plain, four places at most, no
// "-0", no zeros at the end, blanks around it.
func TestNumbers(t *testing.T) {
	good := regexp.MustCompile(`^(0|-?[1-9]\d*|-?(0|[1-9]\d*)\.\d{0,3}[1-9])$`)
	for _, m := range regexp.MustCompile(` d="([^"]*)"`).FindAllStringSubmatch(string(written(t, sample.Drawing(), 0)), -1) {
		for _, f := range strings.Fields(m[1]) {
			if !good.MatchString(f) && !strings.Contains("MLAZhvlq", f) {
				t.Fatalf("%q in a path", f)
			}
		}
	}
}

// element is what these tests look at in a file.
type element struct {
	XMLName  xml.Name
	Attrs    []xml.Attr `xml:",any,attr"`
	Children []element  `xml:",any"`
	Text     string     `xml:",chardata"`
}

func (e element) attr(name string) string {
	for _, a := range e.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func parse(t *testing.T, b []byte) element {
	t.Helper()
	var e element
	if err := xml.Unmarshal(b, &e); err != nil {
		t.Fatal(err)
	}
	return e
}

func TestStructure(t *testing.T) {
	root := parse(t, written(t, sample.Drawing(), 0))
	if got := []string{root.attr("width"), root.attr("height"), root.attr("viewBox"), root.Children[0].Text}; strings.Join(got, "; ") !=
		"210mm; 297mm; 0 0 210 297; Sample: “Märsh Wren” rib – page é" {
		t.Errorf("head: got %q", got)
	}
	var ids []string
	for _, g := range root.Children[2:] {
		ids = append(ids, g.attr("id"))
	}
	if got := strings.Join(ids, " "); got != "contour axis area text" {
		t.Errorf("groups: got %q", got)
	}
	axis, area, text := root.Children[3], root.Children[4], root.Children[5]
	if got := axis.attr("stroke") + " " + axis.attr("stroke-width") + " " + axis.attr("stroke-dasharray"); got != "#666666 0.18 6 1.5 1 1.5" {
		t.Errorf("pen of the axis: got %q", got)
	}
	if w := area.Children[0]; w.attr("id") != "washer" || w.attr("fill-rule") != "evenodd" || strings.Count(w.attr("d"), "Z") != 2 {
		t.Errorf("the washer: got %v", w.Attrs)
	}
	if c := area.Children[1]; c.attr("clip-path") != "url(#_clip2)" || root.Children[1].Children[0].attr("id") != "_clip2" {
		t.Errorf("the clip: got %v", c.Attrs)
	}
	if s := text.Children[6].Children[0].Text; s != `a < b & "c" (d) \` {
		t.Errorf("title of a text: got %q", s)
	}
	job := parse(t, written(t, one(export.Item{Path: geom.Circle(geom.Pt{X: 10, Y: 20}, 5)}), 0))
	if len(job.Children) != 2 || len(job.Children[1].Children) != 1 || job.Children[1].Children[0].XMLName.Local != "circle" {
		t.Errorf("one circle: got %+v, want a title and a group with a circle", job.Children)
	}
}

// read is a small reader of the path data that Write makes: it turns y back up and arcs into bulges.
func read(t *testing.T, d string, h float64) []geom.Path {
	t.Helper()
	var out []geom.Path
	f := strings.Fields(d)
	num := func(i int) float64 {
		v, err := strconv.ParseFloat(f[i], 64)
		if err != nil {
			t.Fatalf("%q: %v", f[i], err)
		}
		return v
	}
	var at geom.Pt
	for i := 0; i < len(f); i++ {
		p := len(out) - 1
		switch f[i] {
		case "M":
			at = geom.Pt{X: num(i + 1), Y: h - num(i+2)}
			out = append(out, geom.Path{Start: at})
			i += 2
		case "L":
			at = geom.Pt{X: num(i + 1), Y: h - num(i+2)}
			out[p].Segs = append(out[p].Segs, geom.Seg{End: at})
			i += 2
		case "A":
			end := geom.Pt{X: num(i + 6), Y: h - num(i+7)}
			half := math.Asin(math.Min(1, at.Dist(end)/2/num(i+1))) // half the sweep, below a quarter turn
			b := math.Tan(half / 2)
			if num(i+5) == 1 {
				b = -b
			}
			if num(i+1) != num(i+2) || num(i+3) != 0 || num(i+4) != 0 {
				t.Fatalf("arc %q", f[i:i+8])
			}
			out[p].Segs = append(out[p].Segs, geom.Seg{End: end, Bulge: b})
			at = end
			i += 7
		case "Z":
			out[p].Closed = true
		default:
			t.Fatalf("operator %q in %q", f[i], d)
		}
	}
	return out
}

// TestReadBack writes paths at random and reads them: a number of four places moves an edge by half a
// step at most, so length and area may differ by that and no more.
func TestReadBack(t *testing.T) {
	for seed := range uint64(300) {
		p := sample.Path(seed, seed%3 != 0)
		root := parse(t, written(t, one(export.Item{Path: p}), 0))
		got := read(t, root.Children[1].Children[0].attr("d"), 300)
		if len(got) != 1 || got[0].Closed != p.Closed {
			t.Fatalf("seed %d: got %d contours", seed, len(got))
		}
		l, a := sample.Measure(p)
		gl, ga := sample.Measure(got[0])
		if math.Abs(l-gl) > 1e-6*l || math.Abs(a-ga) > geom.Step*l {
			t.Errorf("seed %d: length %v area %v, want %v and %v", seed, gl, ga, l, a)
		}
	}
}

// readLetters reads the outlines of lettering, y turned back up: a closing line that is left out is put in.
func readLetters(t *testing.T, d string, h float64) []export.Contour {
	t.Helper()
	var out []export.Contour
	f := strings.Fields(d)
	var at geom.Pt
	take := func(n int) []float64 {
		v := make([]float64, n)
		for i := range v {
			var err error
			if v[i], err = strconv.ParseFloat(f[i], 64); err != nil {
				t.Fatalf("%q: %v", f[i], err)
			}
		}
		f = f[n:]
		return v
	}
	for len(f) > 0 {
		op := f[0]
		f = f[1:]
		k := len(out) - 1
		from := at
		step := export.Curve{Line: true}
		switch op {
		case "M":
			v := take(2)
			at = geom.Pt{X: v[0], Y: h - v[1]}
			out = append(out, export.Contour{Start: at})
			continue
		case "h":
			at.X += take(1)[0]
		case "v":
			at.Y -= take(1)[0]
		case "l":
			v := take(2)
			at = from.Add(geom.Pt{X: v[0], Y: -v[1]})
		case "q":
			v := take(4)
			step = export.Curve{Ctrl: from.Add(geom.Pt{X: v[0], Y: -v[1]})}
			at = from.Add(geom.Pt{X: v[2], Y: -v[3]})
		case "Z":
			if start := out[k].Start; at.Dist(start) > 1e-9 {
				out[k].Segs = append(out[k].Segs, export.Curve{End: start, Line: true})
			}
			continue
		default:
			t.Fatalf("operator %q", op)
		}
		step.End = at
		out[k].Segs = append(out[k].Segs, step)
	}
	return out
}

// TestLetters reads every letter back. Its points stand within half of the last of two places, and that of
// the start's four: however long an outline is, nothing adds up. Steps that were rounded to nothing are left out by both.
func TestLetters(t *testing.T) {
	const words = "The quick brown fox jumps over the lazy dog: 0123456789 × 38 ⌀ ½ é – @ § &"
	for _, tx := range []export.Text{
		{S: words, At: geom.Pt{X: 3, Y: 20}, Height: 2.5},
		{S: words, At: geom.Pt{X: 3.33333, Y: 40}, Height: 3.5, Bold: true},
		{S: words, At: geom.Pt{X: 60, Y: 60}, Height: 2, Angle: 0.4},
		{S: words, At: geom.Pt{X: 60, Y: 60}, Height: 10, Angle: math.Pi / 2},
		{S: words, At: geom.Pt{X: 260, Y: 160}, Height: 1, Angle: math.Pi, Anchor: export.Middle},
	} {
		d := parse(t, written(t, one(export.Item{Text: &tx}), 0)).Children[1].Children[0].Children[1].attr("d")
		got, want := readLetters(t, d, 300), tx.Outlines()
		if len(got) != len(want) {
			t.Fatalf("height %v: %d outlines, want %d", tx.Height, len(got), len(want))
		}
		near := func(a, b geom.Pt) bool { return math.Max(math.Abs(a.X-b.X), math.Abs(a.Y-b.Y)) < 0.00506 }
		for i, c := range want {
			var left []export.Curve
			hundredths := func(p geom.Pt) geom.Pt {
				return geom.Pt{X: math.Round(100 * (p.X - c.Start.X)), Y: math.Round(100 * (c.Start.Y - p.Y))}
			}
			at := geom.Pt{}
			for _, s := range c.Segs {
				if hundredths(s.End) != at || !s.Line {
					left = append(left, s)
				}
				at = hundredths(s.End)
			}
			g := got[i].Segs
			if len(g) != len(left) || !near(got[i].Start, c.Start) {
				t.Fatalf("height %v, outline %d: %d steps from %v, want %d from %v", tx.Height, i, len(g), got[i].Start, len(left), c.Start)
			}
			for k, s := range left {
				if g[k].Line != s.Line || !near(g[k].End, s.End) || !s.Line && !near(g[k].Ctrl, s.Ctrl) {
					t.Errorf("height %v, outline %d, step %d: got %v, want %v", tx.Height, i, k, g[k], s)
				}
			}
		}
	}
}

// TestRender lets librsvg draw a filled square of 40 mm with a hole of 20 mm at one pixel a millimetre.
func TestRender(t *testing.T) {
	rsvg := outside.Need(t, "rsvg-convert")
	at := geom.Pt{X: 30, Y: 50}
	d := one(export.Item{Fill: true, Path: geom.Rect(geom.NewBox(at, at.Add(geom.Pt{X: 40, Y: 40}))),
		Holes: []geom.Path{geom.Rect(geom.NewBox(at.Add(geom.Pt{X: 10, Y: 10}), at.Add(geom.Pt{X: 30, Y: 30})))}},
		export.Item{Fill: true, Path: geom.Circle(geom.Pt{X: 200, Y: 100}, 50)})
	out := outside.File(t, "s.png", nil)
	outside.Run(t, rsvg, "-f", "png", "--background-color", "white", "--dpi-x", "25.4", "--dpi-y", "25.4",
		"-o", out, outside.File(t, "s.svg", written(t, d, 0)))
	file, err := os.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	img, err := png.Decode(file)
	if err != nil {
		t.Fatal(err)
	}
	if img.Bounds().Size() != image.Pt(300, 300) {
		t.Errorf("the picture is %v, want 300 × 300", img.Bounds().Size())
	}
	left, right := 0.0, 0.0
	for y := range 300 {
		for x := range 300 {
			g, _, _, _ := img.At(x, y).RGBA()
			ink := 1 - float64(g)/0xFFFF
			if x < 100 {
				left += ink
			} else {
				right += ink
			}
			inside := x >= 30 && x < 70 && y >= 210 && y < 250 && (x < 40 || x >= 60 || y < 220 || y >= 240)
			if x < 100 && inside != (ink > 0.5) {
				t.Fatalf("pixel %d, %d: ink %v", x, y, ink)
			}
		}
	}
	if left != 1200 || math.Abs(right-math.Pi*2500) > 0.002*math.Pi*2500 { // softened edges
		t.Errorf("areas: got %v and %v, want 1200 and %v", left, right, math.Pi*2500)
	}
}

func TestRefused(t *testing.T) {
	bad := one(export.Item{Path: geom.Line(geom.Pt{}, geom.Pt{X: math.NaN()})})
	var b bytes.Buffer
	if err := svg.Write(&b, bad, 0); err == nil || b.Len() > 0 {
		t.Errorf("NaN: got %v and %d bytes, want an error and nothing", err, b.Len())
	}
	if err := svg.Write(&b, sample.Drawing(), 2); err == nil {
		t.Error("sheet 3 of 2: got no error")
	}
	if err := svg.Write(fullDisk{}, sample.Drawing(), 0); !errors.Is(err, errFull) {
		t.Errorf("got %v, want %v", err, errFull)
	}
}

type fullDisk struct{}

var errFull = errors.New("disk full")

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }

func BenchmarkWrite(b *testing.B) {
	d := sample.Job()
	for b.Loop() {
		if err := svg.Write(io.Discard, d, 0); err != nil {
			b.Fatal(err)
		}
	}
}
