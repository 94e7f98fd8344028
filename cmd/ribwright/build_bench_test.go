package main

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// thirty is a rib file of thirty tapered ribs, chords 1,400 to 900 mm: the demo's rib with a wing.
func thirty(tb testing.TB) string {
	tb.Helper()
	data, err := os.ReadFile("demo/marsh-wren.toml")
	if err != nil {
		tb.Fatal(err)
	}
	var kept []string
	for line := range strings.Lines(string(data)) {
		if !strings.HasPrefix(line, "count") {
			kept = append(kept, line)
		}
	}
	path := filepath.Join(tb.TempDir(), "thirty.toml")
	text := strings.Join(kept, "") + "\n[wing]\nsemi_span = 2900\nspacing = 100\ntip_chord = 900\nwings = 1\n"
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		tb.Fatal(err)
	}
	return path
}

// BenchmarkWing is the whole command for thirty different ribs, with every output written to files.
func BenchmarkWing(b *testing.B) {
	tune()
	path := thirty(b)
	for b.Loop() {
		if code := run([]string{"build", path, "-o", b.TempDir()}, io.Discard, io.Discard); code != exitOK {
			b.Fatalf("exit status %d", code)
		}
	}
}

// BenchmarkWingJigs is the way from the rib file to the jig drawings alone of thirty different ribs, as SVG, DXF and PDF in files.
func BenchmarkWingJigs(b *testing.B) {
	tune()
	path := thirty(b)
	sheet, err := findSheet("jig")
	if err != nil {
		b.Fatal(err)
	}
	a := &app{io.Discard, io.Discard}
	for b.Loop() {
		p, err := load(path, nil)
		if err != nil {
			b.Fatal(err)
		}
		dir := b.TempDir()
		errs := make([]error, len(p.jobs))
		together(len(p.jobs), func(i int) {
			files, err := sheet.files(a, p.jobs[i], &options{}, sheet.build)
			d := draft{dir: filepath.Join(dir, p.jobs[i].kind.Name)}
			errs[i] = errors.Join(err, os.Mkdir(d.dir, 0o777), d.write(files), d.keep())
		})
		if err := errors.Join(errs...); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkBuild is the whole way from the rib file to every output in memory.
func BenchmarkBuild(b *testing.B) {
	for b.Loop() {
		j, err := load("", nil)
		if err != nil {
			b.Fatal(err)
		}
		for _, f := range outputs(b, j.first(), inSet|ofRib) {
			if err := f.write(io.Discard); err != nil {
				b.Fatal(err)
			}
		}
	}
}
