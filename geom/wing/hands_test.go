package wing_test

import (
	"strings"
	"testing"
)

// What lies on one face is told with how right ribs come from the same jig, and for a bevel which face stands higher: in a wing
// that gets smaller toward the tip the far face of a left rib, which is drawn seen from the tip.
func TestHandWords(t *testing.T) {
	const taper = "wing = { semi_span = 4000, tip_chord = 600, spacing = 1000 }"
	one := func(face string) string {
		return strings.Replace(plain, "diameter = 38", "faces = 1, face = \""+face+"\", diameter = 38", 1)
	}
	for _, c := range []struct {
		name, text string
		want       []string // of each sentence, in order
	}{
		{"alike", plain + "wing = { semi_span = 4000, spacing = 1000 }", nil},
		{"one wing", one("near") + "wing = { semi_span = 4000, spacing = 1000, wings = 1 }", nil},
		{"near plates", one("near") + "wing = { semi_span = 4000, spacing = 1000 }", []string{"a right one has its plates on the other face", "glue its joints there, turn it over when they have cured, and glue the plates on"}},
		{"far plates", one("far") + "wing = { semi_span = 4000, spacing = 1000 }", []string{"its plates on the other face", "the plates go on in the jig"}},
		{"near web", plain + "web = { faces = \"near\" }\nwing = { semi_span = 4000, spacing = 1000 }", []string{"web and plates on the other faces", "the plates go on in the jig, the web when it is turned over"}},
		{"far web", plain + "web = { faces = \"far\" }\nwing = { semi_span = 4000, spacing = 1000 }", []string{"web and plates on the other faces", "the web goes on in the jig, the plates when"}},
		{"web alone", strings.Replace(plain, "diameter = 38", `shape = "none"`, 1) + "web = { faces = \"far\" }\nwing = { semi_span = 4000, spacing = 1000 }", []string{"its web on the other face", "the web goes on in the jig."}},
		{"bevel", plain + taper, []string{"the middle of a left rib", "a left rib's far face stands higher, a right rib's near one"}},
		{"both", one("near") + taper, []string{"its plates on the other face", "glue its joints there", "a left rib's far face stands higher"}},
		{"growing", plain + strings.Replace(taper, "600", "1900", 1), []string{"the middle of a left rib", "a left rib's near face stands higher, a right rib's far one"}},
	} {
		p := plan(t, c.text)
		section(t, p, p.Kinds[0])
		got := p.HandWords(p.Kinds[0])
		if len(got) != len(c.want) {
			t.Errorf("%s: %q", c.name, got)
			continue
		}
		for i, s := range got {
			if !strings.Contains(s, c.want[i]) {
				t.Errorf("%s: %q, want %q", c.name, s, c.want[i])
			}
		}
		if handed := p.Handed(p.Kinds[0]); (len(handed) > 0) != (len(got) > 0) {
			t.Errorf("%s: they differ in %q, and the drawing says %q", c.name, handed, got)
		}
	}
}
