package main

import (
	"strings"
	"testing"
)

// TestBarsBuilt builds from bars shorter than the caps and then from long ones: scarfs are told, listed and, with the long
// bars, gone; and the bars stand among what to buy.
func TestBarsBuilt(t *testing.T) {
	path, dir := demoFile(t, "marsh-wren.toml"), t.TempDir()
	rewrite(t, path, "count = 26", "count = 2")
	rewrite(t, path, "length = 2400", "length = 1200")
	code, _, msg := call("build", path, "-o", dir)
	if code != exitOK || !strings.Contains(msg, "[cap-scarf]") {
		t.Fatalf("exit status %d: %s", code, msg)
	}
	got := files(t, dir)
	for name, want := range map[string]string{"scarfs.csv": "cap-upper", "bars.csv": "cap-upper-1", "bar-cuts.csv": "cap-lower-2", "bars.pdf": "%PDF", "bars.svg": "<svg", "buy.csv": "bars, 6 × 12 mm sitka-spruce",
		"report.json": `"scarfs"`} {
		if !strings.Contains(got[name], want) {
			t.Errorf("%s lacks %q: %.300s", name, want, got[name])
		}
	}
	rewrite(t, path, "length = 1200", "length = 2400")
	code, _, msg = call("build", path, "-o", dir)
	if code != exitOK || strings.Contains(msg, "[cap-scarf]") || !strings.Contains(msg, "scarfs.csv") || files(t, dir)["scarfs.csv"] != "" {
		t.Errorf("exit status %d: %s", code, msg)
	}
}
