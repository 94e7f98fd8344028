package ribfile

import (
	"math"
	"os"
	"path/filepath"
	"testing"
	"unicode/utf8"
)

// FuzzRead: no panic, no hang, a Doc in any case, and every finding with a place inside the file. The
// demo files and the bad files are seeds; what the fuzzer found stands under testdata/fuzz.
func FuzzRead(f *testing.F) {
	for _, pattern := range []string{badFiles, demoFolder + "*.toml"} {
		paths, _ := filepath.Glob(pattern)
		for _, path := range paths {
			data, err := os.ReadFile(path)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		doc, fs := Read("x", data)
		if doc == nil {
			t.Fatal("no Doc")
		}
		src, _ := newSource("x", data)
		for _, finding := range fs {
			if finding.Line < 1 || finding.Line > len(src.lines) || finding.Column < 1 || finding.Message == "" || finding.Fix == "" {
				t.Fatalf("a finding without a place or words: %v", finding)
			}
			start := src.lines[finding.Line-1]
			if n := utf8.RuneCount(src.data[start:src.lineEnd(start)]); finding.Column > n+1 {
				t.Fatalf("column %d of a line of %d characters: %v", finding.Column, n, finding)
			}
			if !utf8.ValidString(finding.Message + finding.Fix) {
				t.Fatalf("not UTF-8: %q", finding.Message)
			}
		}
		if len(fs) == 0 && (doc.Rib.Chord < 50 || doc.Rib.Count < 1 || doc.Cap.Depth <= 0) {
			t.Fatalf("an impossible rib without a finding: %+v", doc)
		}
	})
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"1 1/4 in", "2' 3 1/2\"", "½ in", "1,5 mm", "-7/16", "1/0", "1e9 m", "14%"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		v, _, err := ParseLength(s)
		if math.IsNaN(v) || math.IsInf(v, 0) || (err != nil && v != 0) {
			t.Fatalf("ParseLength(%q) = %v, %v", s, v, err)
		}
	})
}

func BenchmarkRead(b *testing.B) {
	for _, name := range []string{"marsh-wren", "reed-bunting", "starter"} {
		data, err := os.ReadFile(demoFolder + name + ".toml")
		if err != nil {
			b.Fatal(err)
		}
		b.Run(name, func(b *testing.B) {
			b.SetBytes(int64(len(data)))
			for b.Loop() {
				Read(name, data)
			}
		})
	}
}
