package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestNamesAmiss holds that a name that leads nowhere, or to a folder, is told with a remedy before any work is done, and
// that nothing is touched.
func TestNamesAmiss(t *testing.T) {
	rib, dir := demoFile(t, "marsh-wren.toml"), t.TempDir()
	plain := filepath.Join(dir, "plain")
	if err := os.WriteFile(plain, []byte("mine"), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		want []string
	}{
		{[]string{"build", filepath.Join(dir, "wing.toml")}, []string{"there is no wing.toml in " + dir, "look at its name"}},
		{[]string{"check", strings.TrimSuffix(rib, ".toml")}, []string{"but a " + rib, "whole name"}},
		{[]string{"check", dir}, []string{dir + " is a folder"}},
		{[]string{"measure", rib, dir}, []string{"the measurements cannot be read", dir + " is a folder"}},
		{[]string{"log", rib, filepath.Join(dir, "log.csv")}, []string{"the log cannot be read", "there is no log.csv in " + dir}},
		{[]string{"log", "add", dir, "--rib", "1"}, []string{"no line is added", "is a folder"}},
		{[]string{"sections", dir}, []string{"the section's table cannot be read", "is a folder"}},
		{[]string{"new", filepath.Join(dir, "none", "rib.toml")}, []string{"cannot be written", "there is no folder " + filepath.Join(dir, "none")}},
		{[]string{"new", dir}, []string{dir + " is a folder"}},
		{[]string{"build", rib, "-o", plain}, []string{plain + " is a file", "-o"}},
		{[]string{"build", rib, "-o", filepath.Join(plain, "under", "it")}, []string{plain + " is a file", "-o"}},
	} {
		code, out, msg := call(c.args...)
		if code != exitUsage || out != "" {
			t.Errorf("%q: exit status %d, %s", c.args, code, out)
		}
		for _, want := range c.want {
			if !strings.Contains(msg, want) {
				t.Errorf("%q: no %q in %s", c.args, want, msg)
			}
		}
		if strings.Contains(msg, "[cap-bend]") {
			t.Errorf("%q: the rib was worked out first: %s", c.args, msg)
		}
	}
	if all := files(t, dir); len(all) != 1 || all["plain"] != "mine" {
		t.Errorf("in the folder is now %v", all)
	}
}
