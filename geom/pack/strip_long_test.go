package pack

import (
	"os"
	"strconv"
	"testing"
	"time"
)

// published are the lengths to compare with: the optimum of the two jigsaws, which fill a square of 100, and the best lengths
// published for the others as far as known (from memory; Elkeran, "A new approach for sheet nesting problem using guided cuckoo search and
// pairwise clustering", 2013, and papers since).
var published = []struct {
	name string
	best float64
	most float64 // times the best that is allowed
}{
	{"dighe1", 100, 1 / 0.85}, {"dighe2", 100, 1 / 0.85},
	{"shapes0", 58, 1.12}, {"shirts", 60.2, 1.12}, {"swim", 5600, 1.12}, {"trousers", 239.5, 1.12},
}

// TestStripSets nests the published sets for RIBWRIGHT_STRIP each, a time such as 60s or a number of steps; without it only for a moment.
func TestStripSets(t *testing.T) {
	limit, err := time.ParseDuration(os.Getenv("RIBWRIGHT_STRIP"))
	long := err == nil
	for _, set := range published {
		t.Run(set.name, func(t *testing.T) {
			job, width := stripSet(t, set.name)
			job.Effort = 30_000
			begin := time.Now()
			if steps, err := strconv.Atoi(os.Getenv("RIBWRIGHT_STRIP")); err == nil {
				job.Effort = steps
			}
			if long {
				job.Effort = 1 << 40
				job.Stop = func() bool { return time.Since(begin) > limit }
			}
			l, length := Strip(job, width)
			took := time.Since(begin)
			area := 0.0
			for _, u := range l.Uses {
				area += u.PartsAreaMM2
			}
			t.Logf("%-9s width %g length %.3f density %.2f%% best %.4g = %.2f%% of it, %d steps in %.1f s",
				set.name, width, length, 100*area/(length*width), set.best, 100*set.best/length, l.Steps, took.Seconds())
			job.Sheets = []Sheet{{Outline: rect(length, width)}}
			checkLayout(t, set.name, job, l)
			if long && length > set.best*set.most {
				t.Errorf("length %.2f, want %.2f at most", length, set.best*set.most)
			}
		})
	}
}
