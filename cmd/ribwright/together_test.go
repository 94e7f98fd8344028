package main

import (
	"os"
	"path/filepath"
	"runtime"
	"sync/atomic"
	"testing"
)

// TestTogether: everything is done once, what is done together may do things together itself, and hardly more is at work at a time
// than there are processors.
func TestTogether(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	for _, procs := range []int{1, 2, 5} {
		runtime.GOMAXPROCS(procs)
		var at, most atomic.Int32
		var done [40][30]atomic.Int32
		together(len(done), func(i int) {
			together(len(done[i]), func(k int) {
				for n := at.Add(1); n > most.Load(); {
					most.Store(n)
				}
				runtime.Gosched()
				done[i][k].Add(1)
				at.Add(-1)
			})
		})
		for i := range done {
			for k := range done[i] {
				if n := done[i][k].Load(); n != 1 {
					t.Fatalf("%d, %d is done %d times", i, k, n)
				}
			}
		}
		if n := int(most.Load()); n > 2*procs || busy.Load() != 0 {
			t.Errorf("%d at work on %d processors, %d left", n, procs, busy.Load())
		}
	}
}

// TestFailedBuildLeavesNothing: paper that takes no page is found when pages are drawn, and nothing is written then, not even
// a folder.
func TestFailedBuildLeavesNothing(t *testing.T) {
	for name, path := range map[string]string{"one": demoFile(t, "marsh-wren.toml"), "several": wingFile(t, "\n[wing]\nsemi_span = 1000\nspacing = 500\ntip_chord = 900\n")} {
		dir := filepath.Join(t.TempDir(), "out", "here")
		if code, _, msg := call("build", path, "--paper", "60x60", "-o", dir); code != exitUsage {
			t.Errorf("%s: exit status %d, %s", name, code, msg)
		}
		if _, err := os.Stat(filepath.Dir(dir)); err == nil {
			t.Errorf("%s: a folder is left", name)
		}
	}
}
