package ribfile

import (
	"regexp"
	"slices"
	"strings"
	"testing"
)

// TestStarterShowsKeys: the starter shows every key of every table, live or behind the sign of a remark; but for the
// layers of drawings that are made without a rib file.
func TestStarterShowsKeys(t *testing.T) {
	header := regexp.MustCompile(`^(?:# )?\[\[?([a-z_.]+)\]`)
	withoutFile := []string{"mean-line", "curvature", "suspect", "grid"}
	shown, table := map[string]string{}, ""
	for _, line := range strings.Split(string(mustRead(t, demoFolder+"starter.toml")), "\n") {
		if m := header.FindStringSubmatch(line); m != nil {
			table = m[1]
		}
		shown[table] += line + "\n"
	}
	shown["section.skin"] = shown["section"]
	shown["gusset.at"] += shown["gusset"] // "what it leaves out is as under [gusset]"
	shown["mass.weighed"], shown["layers.*"] = shown["mass"], shown["layers"]
	for _, name := range append(slices.Clone(tables), listTables...) {
		if shown[name] == "" && name != "section.skin" {
			t.Errorf("the starter has no %s", name)
		}
	}
	for name, keys := range schema {
		if name == "mass.density" { // the materials, which stand at their keys
			name, keys = "cap", Woods
		}
		for _, key := range keys {
			if shown[name+"."+key] != "" || name == "layers" && slices.Contains(withoutFile, key) {
				continue
			}
			word := regexp.MustCompile(`\b` + regexp.QuoteMeta(key) + ` = `)
			switch name {
			case "cap", "layers", "mass.weighed": // listed in a remark
				word = regexp.MustCompile(`\b` + regexp.QuoteMeta(key) + `\b`)
			}
			if !word.MatchString(shown[name]) {
				t.Errorf("the starter does not show %q of %s", key, name)
			}
		}
	}
}
