package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestUnits builds a rib in inches and the same in millimetres: the reports' numbers are equal to 1e-6.
func TestUnits(t *testing.T) {
	inches := `title = "Same"
units = "in"
[section]
naca = "2412"
[rib]
chord = 48
count = 3
[cap]
depth = "1/4"
width = "1/2"
[nose]
block_to = "5%"
[[spar]]
name = "front"
at = "15%"
width = "3/4"
clearance = "1/32"
[[spar]]
name = "rear"
at = 30
width = "5/8"
[stick]
depth = "1/4"
width = "1/2"
[[bay]]
from = "front"
to = "rear"
panels = 6
[gusset]
diameter = "1 1/8"
thickness = "1/16"
[scale] # left out, it shows hundredths of an ounce, or tenths of a gram
step = "0.1 g"
[[stock.bar]]
length = "2.4 m"
`
	mm := strings.NewReplacer(`"in"`, `"mm"`, "48", "1219.2", `"1/4"`, "6.35", `"1/2"`, "12.7", `"3/4"`, "19.05", `"1/32"`, "0.79375",
		"at = 30", "at = 762", `"5/8"`, `"1.5875 cm"`, `"1 1/8"`, "28.575", `"1/16"`, "1.5875").Replace(inches)
	var reports [2]any
	for i, text := range []string{inches, mm} {
		path := filepath.Join(t.TempDir(), "rib.toml")
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		code, out, msg := call("check", "--json", path)
		if code != exitOK {
			t.Fatalf("exit status %d: %s%s", code, msg, out)
		}
		if err := json.Unmarshal([]byte(out), &reports[i]); err != nil {
			t.Fatal(err)
		}
		for _, f := range reports[i].(map[string]any)["findings"].([]any) { // words are written in the file's units
			for _, key := range []string{"message", "fix", "file"} {
				delete(f.(map[string]any), key)
			}
		}
	}
	same(t, "report", reports[0], reports[1])
}

// same compares two decoded reports.
func same(t *testing.T, at string, a, b any) {
	switch x := a.(type) {
	case map[string]any:
		y, ok := b.(map[string]any)
		if !ok || len(x) != len(y) {
			t.Errorf("%s differs", at)
			return
		}
		for k := range x {
			same(t, at+"."+k, x[k], y[k])
		}
	case []any:
		y, ok := b.([]any)
		if !ok || len(x) != len(y) {
			t.Errorf("%s differs", at)
			return
		}
		for i := range x {
			same(t, at, x[i], y[i])
		}
	case float64:
		if y, ok := b.(float64); !ok || math.Abs(x-y) > 1.000001e-6 {
			t.Errorf("%s: %v in inches, %v in millimetres", at, a, b)
		}
	default:
		if a != b && at != "report.units" {
			t.Errorf("%s: %v in inches, %v in millimetres", at, a, b)
		}
	}
}
