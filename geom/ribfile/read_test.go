package ribfile

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"

	"ribwright/geom/finding"
)

const small = "units = \"mm\"\n[section]\nnaca = \"4412\"\n[rib]\nchord = 1400\n"

// brief lists findings as "code line:column".
func brief(fs []finding.Finding) string {
	var out []string
	for _, f := range fs {
		out = append(out, fmt.Sprintf("%s %d:%d", f.Code, f.Line, f.Column))
	}
	return strings.Join(out, ", ")
}

func TestReadText(t *testing.T) {
	utf16le := "\xff\xfe"
	for _, u := range utf16.Encode([]rune(small)) {
		utf16le += string([]byte{byte(u), byte(u >> 8)})
	}
	tests := []struct{ name, in, want string }{
		{"plain", small, ""},
		{"byte-order mark", "\xef\xbb\xbf" + small, ""},
		{"byte-order mark and mistake", "\xef\xbb\xbfunit = \"mm\"\n" + small, "key-unknown 1:1"},
		{"CRLF", strings.ReplaceAll(small+"[cap]\ndept = 6\n", "\n", "\r\n"), "key-unknown 7:1"},
		{"CRLF and broken line", strings.ReplaceAll(small+"[cap]\ndepth = 1 1/4\nwidth = 0\n", "\n", "\r\n"), "toml-syntax 7:11, size-impossible 8:9"},
		{"no newline at the end", strings.TrimSuffix(small, "\n"), ""},
		{"no newline after a broken line", small + "[cap]\ndepth = 1 1/4", "toml-syntax 7:11"},
		{"UTF-16", utf16le, "text-encoding 1:1"},
		{"Latin-1 in a remark", "# Fl\xfcgel\n" + small + "[cap]\ndept = 6\n", "text-encoding 1:5, key-unknown 8:1"},
		{"Latin-1 in a text", "title = \"\xc4\xd6\"\nunits = 5\n", "section-source 1:1, value-missing 1:1, text-encoding 1:10, type-wrong 2:9"},
		{"too large", strings.Repeat("#\n", maxFile/2+1), "file-large 1:1"},
		{"only remarks", "# nothing\n", "section-source 1:1, value-missing 1:1"},
		{"date bare", "date = 2026-11-25\n" + small, ""},
		{"list over lines with remarks", small + "[adhesive]\nratio = [ # a to b\n  1, # a\n  1,\n]\n", ""},
		{"quoted keys", "'units' = \"mm\"\n[\"section\"]\n\"naca\" = '4412'\n[ rib ]\n\"chord\" = 1_400.0\n", ""},
		{"hexadecimal", small + "count = 0x1A\n", ""},
		{"deep", small + "x = " + strings.Repeat("[", 500) + strings.Repeat("]", 500) + "\n", "key-unknown 6:1"},
		{"too deep", small + "x = " + strings.Repeat("[", 20000), "toml-syntax 6:10005"},
		{"key beside a list of tables", small + "[[spar]]\nname = \"a\"\nat = 100\nwidth = 10\n[spar.b]\nc = 1\n", "key-unknown 10:7"},
		{"header of a value", small + "[rib.chord]\n", "key-doubled 6:1"},
		{"inline table opened again", "cap = { depth = 6 }\ncap.width = 12\n" + small, "key-doubled 2:1"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			doc, fs := Read("x.toml", []byte(tt.in))
			if got := brief(fs); doc == nil || got != tt.want {
				t.Errorf("got %q, want %q\n%s", got, tt.want, text(fs))
			}
		})
	}
}

func TestTooMany(t *testing.T) {
	var b strings.Builder
	b.WriteString(small)
	for range 201 {
		b.WriteString("[[line]]\nfrom = \"lower 10%\"\nto = \"upper 20%\"\n")
	}
	doc, fs := Read("", []byte(b.String()))
	if got, want := brief(fs), "too-many 606:1"; got != want || len(doc.Lines) != 200 {
		t.Errorf("got %q and %d lines, want %q and 200", got, len(doc.Lines), want)
	}
}

// Inches and millimetres, tables and inline tables give the same Doc.
func TestSameRibInAnyForm(t *testing.T) {
	forms := []string{
		"[section]\nnaca = \"4412\"\n[rib]\nchord = \"55 in\"\n[cap]\ndepth = \"1/4 in\"\nwidth = \"1/2 in\"\n[[spar]]\nname = \"front\"\nat = \"20%\"\nwidth = \"3/4 in\"\n",
		"section.naca = \"4412\"\nrib.chord = \"1397 mm\"\ncap = { depth = \"6.35 mm\", width = \"1.27 cm\" }\nspar = [{ name = \"front\", at = \"11 in\", width = \"19.05 mm\" }]\n",
		"[[spar]]\nwidth = \"0.75 in\"\nat = \"279.4 mm\"\nname = \"front\"\n[rib]\nchord = \"4 ft 7 in\"\n[cap]\nwidth = '1/2\"'\ndepth = '¼\"'\n[section]\nnaca = \"4412\"\n",
	}
	var first *Doc
	for _, form := range forms {
		doc, fs := Read("", []byte(form))
		doc.places = nil
		if len(fs) > 0 {
			t.Errorf("%s\n%s", form, text(fs))
		}
		if first == nil {
			first = doc
		}
		if !reflect.DeepEqual(doc, first) {
			t.Errorf("%s\ngot  %+v\nwant %+v", form, doc, first)
		}
	}
}

func TestInheritance(t *testing.T) {
	doc, fs := Read("", []byte(small+`
		[cap]
		depth = 7
		material = "white-ash"
		[nose]
		block_to = 70
		[stick]
		width = 9
		[gusset]
		shape = "rectangle"
		length = 40
		height = 20
		thickness = 2
		faces = 1
		inset = 0.5
		[[gusset.at]]
		joints = ["U1", "L1"]
		length = 60
		[[gusset.at]]
		joints = ["U2"]
		shape = "none"`))
	if len(fs) > 0 {
		t.Fatal(text(fs))
	}
	if want := (Stick{Depth: 7, Width: 9, Material: "white-ash", Meet: "butt", Plies: 1}); doc.Stick != want {
		t.Errorf("stick %+v, want %+v", doc.Stick, want)
	}
	if want := (Block{Present: true, Station: 70, Material: "white-ash"}); doc.Nose != want {
		t.Errorf("nose %+v, want %+v", doc.Nose, want)
	}
	long, none := doc.Gusset, doc.Gusset
	long.Length, none.Shape = 60, "none"
	want := []PlateAt{{[]string{"U1", "L1"}, long}, {[]string{"U2"}, none}}
	if !reflect.DeepEqual(doc.Gussets, want) || doc.Gusset.Diameter != defaultDiameter {
		t.Errorf("plates %+v, want %+v", doc.Gussets, want)
	}
}

func TestLayers(t *testing.T) {
	doc, fs := Read("", []byte(`[section]
		naca = "2412"
		[rib]
		chord = "1 m"
		[layers]
		cut = { name = "Cut 1", color = "Red" }
		mark = { color = "#FF8000" }
		contour = "cap"
		cap = "caps"
		name = {}`))
	if len(fs) > 0 {
		t.Fatal(text(fs))
	}
	want := map[string]Layer{"cut": {"Cut 1", "red"}, "mark": {"", "#ff8000"}, "contour": {Name: "cap"}, "cap": {Name: "caps"}}
	if !reflect.DeepEqual(doc.Layers, want) {
		t.Errorf("got %v, want %v", doc.Layers, want)
	}
}

// Every key of the schema is read: a time of day is of no key's type.
func TestEveryKeyIsRead(t *testing.T) {
	for table, keys := range schema {
		for _, key := range keys {
			in, line := header(table)+"\n"+key+" = 07:32:00\n", 2
			switch table {
			case "":
				in, line = key+" = 07:32:00\n", 1
			case "layers.*":
				in = "[layers]\ncut = { " + key + " = 07:32:00 }\n"
			case "section.skin", "gusset.at":
				in = "[" + strings.Split(table, ".")[0] + "]\n" + strings.Split(table, ".")[1] + " = [{ " + key + " = 07:32:00 }]\n"
			}
			_, fs := Read("", []byte(in))
			told := slices.ContainsFunc(fs, func(f finding.Finding) bool {
				return f.Line == line && (f.Code == CodeTypeWrong || f.Code == CodeRatioUnreadable)
			})
			if !told {
				t.Errorf("%sgot %q, want type-wrong in line %d", in, brief(fs), line)
			}
		}
	}
}

func TestLocate(t *testing.T) {
	doc, fs := Read("wren.toml", []byte(`units = "mm"
[section]
ordinates = [[0, 0, 0], [10, 5, -3],
  [50, 7, -3], [90, 2, -1], [100, 0, 0]]
[rib]
chord = 1400
[[spar]]
name = "front"
at = "14%"
  width = 19
[[gusset.at]]
joints = ["U1"]
length = 30
[[line]]
from = "lower 20%"
to = "upper 30%"
`))
	if len(fs) > 0 {
		t.Fatal(text(fs))
	}
	tests := []struct {
		key          string
		line, column int
		isDefault    bool
	}{
		{"spar[0].width", 10, 11, false}, {"spar[0]", 7, 1, false}, {"spar[0].clearance", 7, 1, true}, {"gusset.diameter", 11, 3, true},
		{"gusset.at[0].length", 13, 10, false}, {"gusset.at[0].height", 11, 1, true}, {"line[0].from", 15, 8, false}, {"line[3].from", 14, 1, true},
		{"section.ordinates[2]", 4, 3, false}, {"section.ordinates[1][2]", 3, 33, false}, {"section.naca", 2, 1, true}, {"adhesive.ratio", 1, 1, true},
		{"tail", 1, 1, false}, {"no.such[7].key", 1, 1, false},
	}
	for _, tt := range tests {
		in := []finding.Finding{{Key: tt.key, Fix: "Mend it."}}
		got := doc.Locate(in)[0]
		if got.File != "wren.toml" || got.Line != tt.line || got.Column != tt.column || strings.Contains(got.Fix, "default") != tt.isDefault {
			t.Errorf("%s: %d:%d %q, want %d:%d, default %v", tt.key, got.Line, got.Column, got.Fix, tt.line, tt.column, tt.isDefault)
		}
		if in[0].Line != 0 {
			t.Error("Locate changed the slice it was handed")
		}
	}
	placed := finding.Finding{Key: "rib.chord", File: "other.toml", Line: 3, Column: 4}
	if got := doc.Locate([]finding.Finding{placed, {Part: "U1"}}); got[0].Line != 3 || got[1].Line != 0 {
		t.Errorf("findings with a place or without a key were changed: %+v", got)
	}
}
