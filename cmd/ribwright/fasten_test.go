package main

import (
	"bytes"
	"strings"
	"testing"
)

// TestFasteners holds the staples of the demo: what is told of them once, what is listed and bought, and that legs that
// come through are told and stop nothing.
func TestFasteners(t *testing.T) {
	path := demoFile(t, "marsh-wren.toml")
	var out, msg bytes.Buffer
	if code := run([]string{"check", path}, &out, &msg); code != exitOK {
		t.Errorf("exit status %d", code)
	}
	if got := msg.String(); strings.Count(got, "[fastener-no-room]") != 1 || !strings.Contains(got, "no room for a staple in S17 at U10.") {
		t.Errorf("got %s", got)
	}
	_, list, _ := call("list", path, "--table", "fasteners", "--format", "csv")
	if !strings.Contains(list, "U4,\"cap-upper, S7, S8\",3,the same,3,6,156,") || !strings.Contains(list, "rib,total,") {
		t.Errorf("fasteners:\n%s", list)
	}
	_, list, _ = call("list", path, "--table", "buy", "--format", "csv")
	if !strings.Contains(list, "staples, stainless, crown 5 mm, leg 6 mm, wire 1.2 × 0.5 mm") {
		t.Errorf("to buy:\n%s", list)
	}
	j := layOut("long.toml", []byte("units = \"mm\"\nsection = { naca = \"0012\" }\nrib = { chord = 1000 }\nbay = [{ from = \"30%\", to = \"60%\", pattern = \"warren\", panels = 2 }]\n"+
		"gusset = { thickness = 1.5 }\nfastener = { kind = \"nail\", leg = 15, material = \"steel\" }\n"), nil, nil)
	var codes []string
	for _, f := range j.found {
		codes = append(codes, f.Severity.String()+" "+f.Code)
	}
	if got := strings.Join(codes, ", "); !strings.Contains(got, "warning fastener-through") || !strings.Contains(got, "note fastener-rust") || strings.Contains(got, "error") {
		t.Errorf("long nails: got %s", got)
	}
}
