package jig

import (
	"strings"
	"testing"

	"ribwright/geom/finding"
)

// TestUnderAWeb: a tail block between thin caps finds no room for jig blocks. Under plates it is said to be laid by hand; a root rib
// has none there, and is told, with what holds it from when on: on the board nothing does, and the wedge would slide forward.
func TestUnderAWeb(t *testing.T) {
	const text = `
units = "in"
section = { builtin = "clark-y" }
rib = { chord = 54 }
cap = { depth = "5/16", width = "1/2" }
nose = { block_to = "5%" }
tail = { block_from = "93%" }
spar = [{ name = "front", at = "15%", width = "3/4" }, { name = "rear", at = "62%", width = "5/8" }]
bay = [{ from = "front", to = "rear", panels = 8 }]
gusset = { diameter = "1 3/8", thickness = "1/16" }
`
	for _, c := range []struct {
		web     string
		covered bool
		until   bool
	}{{"", true, false}, {`web = { faces = "far" }`, true, false}, {`web = { faces = "both" }`, false, true}} {
		j, found := layOutJig(t, text+c.web)
		told, fix := false, ""
		for _, f := range found {
			if f.Code == "jig-loose" && f.Part == "block-tail" {
				told, fix = f.Severity == finding.Warning, f.Fix
			}
		}
		for _, h := range j.Holds {
			if h.Member == "block-tail" && (h.Covered != c.covered || h.Held || told == c.covered || strings.Contains(fix, "until the web is glued on") != c.until) {
				t.Errorf("%s: %+v, told: %v, %q", c.web, h, told, fix)
			}
		}
	}
}
