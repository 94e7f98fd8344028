package shop

import (
	"os"
	"strings"
	"testing"
)

// kinds are the ribs of a whole wing beside the full one: leaning spars, nose and tail ribs, doubled sticks.
func kinds(t *testing.T) []job {
	t.Helper()
	data, err := os.ReadFile("../../cmd/ribwright/demo/marsh-wren.toml")
	if err != nil {
		t.Fatal(err)
	}
	lean := []string{"width = 19\n", "width = 19\ntilt = 6\nsweep = 4\n", "width = 16\n", "width = 16\ntilt = 6\n"}
	var out []job
	for _, k := range []struct {
		name   string
		change []string
	}{
		{"leaning spars", lean},
		{"nose rib", append([]string{"chord = 1400 ", "trailing_edge = \"front fore\"\nchord = 1400 "}, lean...)},
		{"tail rib", append([]string{"chord = 1400 ", "leading_edge = \"rear aft\"\nchord = 1400 "}, lean...)},
		{"rib cut at the aileron", append([]string{"chord = 1400 ", "trailing_edge = \"rear aft\"\nchord = 1400 "}, lean...)},
		{"root rib", []string{"[fastener]", "[web]\nfaces = \"both\"\n[fastener]"}},
		{"root rib with plates on its near face", append([]string{"[fastener]", "[web]\nfaces = \"far\"\ninset = 2\nthickness = 1\n[fastener]"}, lean...)},
		{"compression rib", []string{"depth = 6\nwidth = 12\nmeet", "depth = 5\nplies = 2\nwidth = 12\nmeet", "panels = 10", "panels = 6", "faces = 2", "faces = 1\nface = \"far\""}},
	} {
		out = append(out, build(t, k.name, strings.NewReplacer(k.change...).Replace(string(data))))
	}
	return out
}

// TestJigKinds holds of every kind of rib what is held of a full one: lettering stands free, and every part is drawn true.
func TestJigKinds(t *testing.T) {
	for _, j := range kinds(t) {
		checkJig(t, j)
	}
}
