package main

import (
	"bytes"
	"io"
	"strings"
	"testing"
)

// alikeWing is a wing of three ribs, the first one apart; what its second and its third change may differ.
func alikeWing(t *testing.T, second, third string) *project {
	t.Helper()
	wing := "\n[wing]\nsemi_span = 1000\nspacing = 500\nrib = [{ ribs = \"1\", cap = { depth = 7 } }, { ribs = \"2\", " + second + " }, { ribs = \"3\", " + third + " }]\n"
	p, err := load(wingFile(t, wing), nil)
	if err != nil || !p.whole {
		t.Fatal(err, p.found)
	}
	return p
}

// drawn is everything that is written of a kind of rib by itself.
func drawn(t *testing.T, j *job) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, f := range outputs(t, j, ofRib) {
		var b bytes.Buffer
		if err := f.write(&b); err != nil {
			t.Fatal(err)
		}
		out[f.name] = b.String()
	}
	return out
}

// TestAlike: keys that change nothing of a rib part it from no other, whatever they are: the files drawn with them and without
// are the same, byte for byte. Keys that change something do.
func TestAlike(t *testing.T) {
	const nose, cut, tail = `rib = { trailing_edge = "front fore" }`, `rib = { trailing_edge = "rear fore" }`, `rib = { leading_edge = "rear aft" }`
	for _, c := range []struct {
		base, more string
		alike      bool
	}{
		{nose, `tail = { block_from = "90%" }`, true},
		{nose, `bay = [{ from = "nose", to = "front", pattern = "warren", panels = 1 }]`, true},
		{nose, `spar = [{ name = "rear", posts = false }]`, true},
		{nose, `line = [{ from = "upper 70%", to = "lower 72%" }]`, true},
		{nose + `, bay = []`, `stick = { depth = 9, meet = "mitre" }`, false}, // the post closes it
		{cut, `tail = { block_from = "90%", material = "white-ash" }`, true},
		{cut, `name = "cut"`, true},
		{tail, `nose = { block_to = "6%" }`, true},
		{tail, `bay = [{ from = "rear", to = "85%", pattern = "warren", panels = 2, start = "lower" }]`, true},
		{`web = { faces = "both" }`, `gusset = { diameter = 44, grain = "45" }`, true},
		{`gusset = { grain = "cap" }`, `gusset = { length = 70 }`, true},
		{cut, `gusset = { at = [{ joints = ["U1"], grain = "any" }] }`, false},
		{`kind = "full"`, `cap = { material = "douglas-fir" }`, false},
		{`kind = "full"`, `stick = { material = "douglas-fir" }`, false},
		{`kind = "full"`, `jig = { block_length = 60 }`, false},
		{`kind = "full"`, `mass = { weighed = { caps = 100 } }`, false},
		{`web = { faces = "both" }`, `web = { grain = "45" }`, false},
		{`kind = "full"`, `gusset = { thickness = 2 }`, false},
	} {
		more := c.base + ", " + c.more
		if table, _, _ := strings.Cut(c.more, " "); strings.HasPrefix(c.base, table+" ") {
			more = c.more
		}
		p := alikeWing(t, c.base, more)
		if got := len(p.jobs) == 2; got != c.alike {
			t.Errorf("%s: %d kinds", more, len(p.jobs))
			continue
		}
		if !c.alike || strings.HasPrefix(c.more, "name") { // names are drawn
			continue
		}
		j := p.jobs[1]
		if j.rib.Count != 4 || j.take.Count != 4 || j.doc.Rib.Count != 4 || p.set().Ribs() != 6 || j.index != 1 {
			t.Errorf("%s: %d ribs of the kind, %d in all", more, j.rib.Count, p.set().Ribs())
		}
		without, with := drawn(t, alikeWing(t, c.base, c.base).jobs[1]), drawn(t, alikeWing(t, more, more).jobs[1])
		for name, data := range without {
			if data != with[name] {
				t.Errorf("%s: %s differs", more, name)
			}
		}
	}
}

// TestAlikeNames: ribs of two names that are the same rib are found under either, and under their numbers; what the drawing
// is for stands on it.
func TestAlikeNames(t *testing.T) {
	p := alikeWing(t, `name = "inner"`, `name = "outer", gusset = { length = 70 }`)
	for _, name := range []string{"R2", "inner", "Outer", "r3"} {
		if j, err := p.named(name); err != nil || j.index != 1 || j.kind.Name != "R2" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if got := p.jobs[1].rib.Title; got != "R2, R3; left and right; R2 also called inner; R3 also called outer" {
		t.Error(got)
	}
	if d := drawn(t, p.jobs[1]); !strings.Contains(d["jig.svg"], "also called inner") {
		t.Error("the drawing does not tell the names")
	}
}

// outputs makes the files of a folder without writing them.
func outputs(tb testing.TB, j *job, which part) []file {
	tb.Helper()
	var out []file
	for _, g := range j.groups(which, &options{}) {
		files, err := g(&app{out: io.Discard, err: io.Discard})
		if err != nil {
			tb.Fatal(err)
		}
		out = append(out, files...)
	}
	return out
}
