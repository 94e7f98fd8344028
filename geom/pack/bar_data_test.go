package pack

import (
	"bufio"
	"fmt"
	"os"
	"strings"
	"testing"
)

// binSet is one problem of a set: sizes for bins of one capacity, and the best known number of bins.
type binSet struct {
	name string
	job  BarJob
	best int
}

// readBins reads problems in the manner of the OR-Library: lines of a remark begin with #; a count; then for each its
// name, "capacity n best", and n sizes.
func readBins(t testing.TB, file string) []binSet {
	t.Helper()
	f, err := os.Open("../../testdata/packing/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var text strings.Builder
	for sc := bufio.NewScanner(f); sc.Scan(); {
		if !strings.HasPrefix(sc.Text(), "#") {
			fmt.Fprintln(&text, sc.Text())
		}
	}
	in := strings.NewReader(text.String())
	var n int
	fmt.Fscan(in, &n)
	out := make([]binSet, n)
	for i := range out {
		var capacity float64
		var count int
		b := &out[i]
		if _, err := fmt.Fscan(in, &b.name, &capacity, &count, &b.best); err != nil {
			t.Fatalf("%s, problem %d: %v", file, i, err)
		}
		b.job.Stock = []BarStock{{Length: capacity}}
		for j := range count {
			var size float64
			if _, err := fmt.Fscan(in, &size); err != nil {
				t.Fatalf("%s, %s, size %d: %v", file, b.name, j, err)
			}
			b.job.Pieces = append(b.job.Pieces, BarPiece{ID: fmt.Sprint(j), Length: size, Count: 1})
		}
	}
	return out
}
