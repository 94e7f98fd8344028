package shop_test

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ribwright/export/dxf"
	"ribwright/export/pdf"
	"ribwright/export/png"
	"ribwright/export/shop"
	"ribwright/export/svg"
	"ribwright/geom/fasten"
	"ribwright/geom/outside"
	"ribwright/geom/ribfile"
)

// TestLayerIDs holds that the rib file knows every layer that a drawing of this package has, and no other: the
// constants layerXXX of its sources are ribfile.LayerIDs.
func TestLayerIDs(t *testing.T) {
	entries, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	used := map[string]bool{}
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), ".go") || strings.HasSuffix(e.Name(), "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), e.Name(), nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			spec, ok := n.(*ast.ValueSpec)
			for i := 0; ok && i < len(spec.Names) && i < len(spec.Values); i++ {
				lit, isText := spec.Values[i].(*ast.BasicLit)
				if id := spec.Names[i].Name; !isText || !strings.HasPrefix(id, "layer") {
					continue
				}
				id, err := strconv.Unquote(lit.Value)
				if err != nil {
					t.Fatal(err)
				}
				used[id] = true
				if !slices.Contains(ribfile.LayerIDs, id) {
					t.Errorf("%s: the layer %q is not in ribfile.LayerIDs: add it, and to the starter file", e.Name(), id)
				}
			}
			return true
		})
	}
	for _, id := range ribfile.LayerIDs {
		if !used[id] {
			t.Errorf("no drawing has the layer %q of ribfile.LayerIDs", id)
		}
	}
}

// TestDressed names and colours layers of the plates, and reads them in every kind of file.
func TestDressed(t *testing.T) {
	r, doc := layOut(t, "cmd/ribwright/demo/marsh-wren.toml")
	doc.Layers = map[string]ribfile.Layer{"cut": {Name: "CUT 1", Color: "red"}, "mark": {Name: "plate-U1", Color: "#ff8000"}, "name": {Color: "blue"}, "axis": {Name: "of no plate"}}
	d := shop.Dressed(shop.Plates(r, doc, fasten.Of(r, doc)), doc)
	var s, x, p, pic bytes.Buffer
	for _, err := range []error{svg.Write(&s, d, 0), dxf.Write(&x, d, 0), pdf.Write(&p, d), png.Write(&pic, d, 0, 50)} {
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, want := range []string{`<g id="CUT-1" fill="none" stroke="#ff0000" stroke-width="0.13"`, `<g id="plate-U1-2" fill="none" stroke="#ff8000"`,
		`<g id="name" fill="none" stroke="#0000ff"`, `<g id="check" fill="none" stroke="#000000"`, `id="plate-U1"`} {
		if strings.Count(s.String(), want) != 1 {
			t.Errorf("SVG: got %d times %s, want once", strings.Count(s.String(), want), want)
		}
	}
	ids := map[string]bool{}
	for _, m := range regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(s.String(), -1) {
		if ids[m[1]] {
			t.Errorf("SVG: the ID %s is doubled", m[1])
		}
		ids[m[1]] = true
	}
	layers := readLayers(t, x.Bytes())
	for name, want := range map[string]string{"CUT 1": "1 None 0.13", "plate-U1": "30 ff8000 0.13", "NAME": "5 None 0.13", "CHECK": "7 None 0.13"} {
		if layers[name] != want {
			t.Errorf("DXF layer %s: got %q, want %q", name, layers[name], want)
		}
	}
	bare := shop.Plates(r, doc, fasten.Of(r, doc))
	if bare.Layers[len(bare.Layers)-1].Name != "" || bare.Layers[0].Pen.Color != "" {
		t.Error("dressing a drawing changed another")
	}
	same := shop.Dressed(bare, &ribfile.Doc{})
	for i, l := range same.Layers {
		if l.ID != bare.Layers[i].ID || l.Name != "" || l.Pen.Color != "" {
			t.Errorf("without [layers], layer %s became %+v", l.ID, l)
		}
	}
	seen := colours(t, p.Bytes())
	for _, want := range []string{"255,0,0", "255,128,0", "0,0,255", "0,0,0"} {
		if !seen[want] {
			t.Errorf("PDF: no dot of the colour %s", want)
		}
	}
}

// readLayers reads a DXF file with ezdxf: no error and no repair, and of each layer its number, true colour and width.
func readLayers(t *testing.T, b []byte) map[string]string {
	t.Helper()
	out := outside.Run(t, outside.Python(t, "ezdxf"), "-c", `
import sys
from ezdxf import recover
doc, aud = recover.readfile(sys.argv[1])
print(len(aud.errors) + len(aud.fixes), 'faults')
for l in doc.layers:
    c = l.dxf.get('true_color')
    print(l.dxf.name, l.dxf.color, 'None' if c is None else '%06x' % c, l.dxf.lineweight / 100, sep='\t')
for e in doc.modelspace():
    doc.layers.get(e.dxf.layer)
`, outside.File(t, "d.dxf", b))
	if !strings.HasPrefix(out, "0 faults") {
		t.Errorf("ezdxf: %s", out)
	}
	layers := map[string]string{}
	for _, l := range strings.Split(out, "\n")[1:] {
		if f := strings.Split(l, "\t"); len(f) == 4 {
			layers[f[0]] = strings.Join(f[1:], " ")
		}
	}
	return layers
}

// colours returns the colours of the dots that poppler draws of a PDF's first page.
func colours(t *testing.T, b []byte) map[string]bool {
	t.Helper()
	file := outside.File(t, "d.pdf", b)
	outside.Run(t, outside.Need(t, "pdftoppm"), "-r", "150", "-png", "-aa", "no", "-aaVector", "no", "-f", "1", "-l", "1", "-singlefile", file, file)
	img := picture(t, file+".png")
	out := map[string]bool{}
	for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y++ {
		for x := img.Bounds().Min.X; x < img.Bounds().Max.X; x++ {
			r, g, b, _ := img.At(x, y).RGBA()
			out[strconv.Itoa(int(r>>8))+","+strconv.Itoa(int(g>>8))+","+strconv.Itoa(int(b>>8))] = true
		}
	}
	return out
}
