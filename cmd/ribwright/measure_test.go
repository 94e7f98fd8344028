package main

import (
	"encoding/csv"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// measured writes what a builder measured on a piece of the rib: its own list of ordinates, scaled, each wrong
// by noise, and one upper reading, where odd is none of -1, by 9 mm. The noise is mm.
func measured(t *testing.T, rib string, scale, noise float64, odd int) string {
	t.Helper()
	code, out, msg := call("list", rib, "--table", "ordinates", "--format", "csv")
	if code != exitOK {
		t.Fatal(msg)
	}
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	if err != nil || rows[0][1] != "station_mm" {
		t.Fatalf("the list of ordinates cannot be read: %v %v", rows[0], err)
	}
	rnd := rand.New(rand.NewPCG(7, 11))
	text := "station_mm,upper_mm,lower_mm\n"
	for i, r := range rows[1:] {
		var v [3]float64
		for k := range v {
			x, err := strconv.ParseFloat(r[k+1], 64)
			if err != nil {
				t.Fatal(err)
			}
			v[k] = x * scale
			if k > 0 {
				v[k] += noise * rnd.NormFloat64()
			}
		}
		if i == odd {
			v[1] += 9
		}
		text += fmt.Sprintf("%.2f,%.2f,%.2f\n", v[0], v[1], v[2])
	}
	path := filepath.Join(t.TempDir(), "measured.csv")
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

// TestMeasure holds the exit status and the words for a true rib, a small print and one wrong reading, and that
// the picture is written twice with the same bytes.
func TestMeasure(t *testing.T) {
	rib := demoFile(t, "marsh-wren.toml")
	for _, c := range []struct {
		name  string
		scale float64
		odd   int
		args  []string
		code  int
		want  []string
	}{
		{"true", 1, -1, nil, exitOK, []string{"0 of 36 readings are over the tolerance of 0.79 mm", "It is full size"}},
		{"small print", 0.987, -1, nil, exitFound, []string{"it fits best at 98.7 %", "After the fit 0 of 36"}},
		{"small print, axes", 0.987, -1, []string{"--axes"}, exitFound, []string{"% along the chord and 98.7 % across it"}},
		{"one wrong", 1, 6, nil, exitFound, []string{"1 of 36 readings are over", "It is full size", "line 8 upper. Measure there again"}},
		{"one wrong, let pass", 1, 6, []string{"--tolerance", "10 mm"}, exitOK, []string{"0 of 36 readings are over the tolerance of 10 mm"}},
		{"CSV", 1, -1, []string{"--format", "csv"}, exitOK, []string{"line,of,station_mm,measured_mm,contour_mm,deviation_mm,fitted_mm,remark"}},
	} {
		readings := measured(t, rib, c.scale, 0.1, c.odd)
		var first string
		for _, ext := range []string{"a.svg", "b.svg", "a.pdf", "a.dxf", "a.png"} {
			picture := filepath.Join(t.TempDir(), ext)
			code, out, msg := call(append([]string{"measure", rib, readings, "-o", picture}, c.args...)...)
			if code != c.code || msg != "" {
				t.Fatalf("%s: exit status %d, want %d; %s", c.name, code, c.code, msg)
			}
			for _, w := range c.want {
				if !strings.Contains(out, w) {
					t.Errorf("%s: the output lacks %q:\n%s", c.name, w, out)
				}
			}
			data, err := os.ReadFile(picture)
			switch {
			case err != nil || len(data) == 0:
				t.Errorf("%s: no picture: %v", c.name, err)
			case ext == "a.svg":
				first = string(data)
			case ext == "b.svg" && string(data) != first:
				t.Errorf("%s: the second picture has other bytes", c.name)
			}
		}
	}
}

// TestMeasureFew compares without a fit where there are too few readings for one, in inches and fractions.
func TestMeasureFew(t *testing.T) {
	rib := demoFile(t, "marsh-wren.toml")
	path := filepath.Join(t.TempDir(), "few.csv")
	if err := os.WriteFile(path, []byte("station in; depth in\n10 1/2;6 1/4\n20;6-5/16\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	picture := filepath.Join(t.TempDir(), "few.pdf")
	code, out, msg := call("measure", rib, path, "-o", picture)
	if code != exitFound || msg != "" || !strings.Contains(out, "too few readings") || !strings.Contains(out, "| depth |") {
		t.Errorf("exit status %d, %s\n%s", code, msg, out)
	}
}

// TestMeasureRefuses holds the exit status for wrong calls and wrong files, with the place of the mistake, and
// that nothing is written then.
func TestMeasureRefuses(t *testing.T) {
	rib, dir := demoFile(t, "marsh-wren.toml"), t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		return path
	}
	good, bad := write("good.csv", "station,depth\n420,150\n"), write("bad.csv", "station,upper,lower\n420,13O,-30\n")
	broken, blank := write("broken.toml", "units = 3\n"), write("blank.csv", "")
	picture := filepath.Join(dir, "picture.pdf")
	for _, c := range []struct {
		args []string
		code int
		want string
	}{
		{[]string{rib, bad}, exitFound, "bad.csv:2:5: error"},
		{[]string{rib, blank}, exitFound, "blank.csv:1:1: error"},
		{[]string{broken, good}, exitFound, "broken.toml:1:"},
		{[]string{rib, filepath.Join(dir, "none.csv")}, exitUsage, "cannot be read"},
		{[]string{rib}, exitUsage, "measure takes FILE MEASURED.csv"},
		{[]string{rib, good, "--tolerance", "much"}, exitUsage, "--tolerance"},
		{[]string{rib, good, "--tolerance", "-1 mm"}, exitUsage, "--tolerance"},
		{[]string{rib, good, "--format", "gif"}, exitUsage, "gif"},
	} {
		code, out, msg := call(append([]string{"measure", "-o", picture}, c.args...)...)
		if code != c.code || !strings.Contains(msg, c.want) || out != "" {
			t.Errorf("%v: exit status %d, message %q, output %q; want %d and %q", c.args, code, msg, out, c.code, c.want)
		}
		if _, err := os.Stat(picture); err == nil {
			t.Fatalf("%v: a picture was written", c.args)
		}
	}
	if code, _, msg := call("measure", rib, good, "-o", filepath.Join(dir, "picture.gif")); code != exitUsage || !strings.Contains(msg, ".gif") {
		t.Errorf("a picture.gif: exit status %d, %s", code, msg)
	}
}

// TestSections lists and prints sections of every kind.
func TestSections(t *testing.T) {
	table := filepath.Join(t.TempDir(), "wren.txt")
	if err := os.WriteFile(table, []byte("Wren\n0 0 0\n10 6 -2\n20 8 -2\n40 9 -2\n60 7 -1\n80 4 -0.5\n100 0 0\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		want string
	}{
		{nil, "| clark-y "},
		{[]string{"--format", "csv"}, "clark-y,Clark Y,11.7"},
		{[]string{"--format", "json"}, `"thickness_percent": 11.7`},
		{[]string{"clark-y"}, "11.700 "},
		{[]string{"Clark Y", "--at", "30%", "--chord", "100in"}, "30.000 |     11.700 |      0.000"},
		{[]string{"naca4412", "--at", "0,1.25,2.5%,100mm", "--chord", "1 m", "--format", "csv"}, "10,6.598443,-2.863932,100,65.984428,-28.63932"},
		{[]string{"2412"}, "NACA 2412"},
		{[]string{table, "--at", "20"}, "8.000"},
	} {
		code, out, msg := call(append([]string{"sections"}, c.args...)...)
		if code != exitOK || !strings.Contains(out, c.want) {
			t.Errorf("%v: exit status %d, %s, output lacks %q:\n%s", c.args, code, msg, c.want, out)
		}
	}
	for _, ext := range []string{".svg", ".pdf", ".dxf", ".png"} {
		picture, plot := filepath.Join(t.TempDir(), "section"+ext), filepath.Join(t.TempDir(), "curvature"+strings.Replace(ext, ".dxf", ".svg", 1))
		if code, _, msg := call("sections", "clark-y", "--draw", picture, "--curvature", plot, "--chord", "48in"); code != exitOK {
			t.Errorf("%s: exit status %d, %s", ext, code, msg)
		}
		for _, name := range []string{picture, plot} {
			if data, err := os.ReadFile(name); err != nil || len(data) == 0 {
				t.Errorf("%s: nothing drawn: %v", name, err)
			}
		}
	}
}

// TestSectionsRefuses holds the exit status and a clear word for wrong calls, and that nothing is written then.
func TestSectionsRefuses(t *testing.T) {
	table := filepath.Join(t.TempDir(), "bad.txt")
	if err := os.WriteFile(table, []byte("Wren\n0 0 0\n10 6 -2\n20 8 -2\n40 9 -2\n60 7 -1\n80 4 O\n100 0 0\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	picture := filepath.Join(t.TempDir(), "section.svg")
	for _, c := range []struct {
		args []string
		code int
		want string
	}{
		{[]string{"no-such-section"}, exitUsage, "clark-y"},
		{[]string{"clark-y", "--chord", "48"}, exitUsage, "48in"},
		{[]string{"clark-y", "--chord", "-4in"}, exitUsage, "--chord"},
		{[]string{"clark-y", "--chord", "9 m"}, exitUsage, "--chord"},
		{[]string{"clark-y", "--at", "10in"}, exitUsage, "--chord"},
		{[]string{"clark-y", "--at", "101"}, exitUsage, "lies off"},
		{[]string{"clark-y", "--at", "ten"}, exitUsage, "“ten”"},
		{[]string{"clark-y", "--format", "gif"}, exitUsage, "gif"},
		{[]string{"9900"}, exitFound, "9900"},
		{[]string{table}, exitFound, "bad.txt:7:6: error"},
		{[]string{"clark-y", "--curvature", "k.dxf"}, exitUsage, ".dxf"},
		{nil, exitUsage, "name a section"},
	} {
		code, out, msg := call(append([]string{"sections", "--draw", picture}, c.args...)...)
		if code != c.code || !strings.Contains(msg, c.want) || out != "" {
			t.Errorf("%v: exit status %d, message %q, output %q; want %d and %q", c.args, code, msg, out, c.code, c.want)
		}
		if _, err := os.Stat(picture); err == nil {
			t.Fatalf("%v: a picture was written", c.args)
		}
	}
}

// TestMeasuredDown measures lower ordinates down, without a minus: they are taken so, and told; and the true ones are left.
func TestMeasuredDown(t *testing.T) {
	rib := demoFile(t, "marsh-wren.toml")
	for _, scale := range []float64{1, 0.98} {
		path := measured(t, rib, scale, 0.1, -1)
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		_, want, msg := call("measure", rib, path)
		if strings.Contains(msg, "measured-down") {
			t.Errorf("with signs: %s", msg)
		}
		lines := strings.Split(string(data), "\n")
		for i, l := range lines {
			if f := strings.Split(l, ","); i > 0 && len(f) == 3 {
				lines[i] = f[0] + "," + f[1] + "," + strings.TrimPrefix(f[2], "-")
			}
		}
		if err := os.WriteFile(path, []byte(strings.Join(lines, "\n")), 0o666); err != nil {
			t.Fatal(err)
		}
		_, got, msg := call("measure", rib, path)
		if got != want || !strings.Contains(msg, "measured down from the chord line") {
			t.Errorf("measured down at %g: got %s\n%s\nwant %s", scale, msg, got, want)
		}
	}
}
