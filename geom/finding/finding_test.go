package finding

import (
	"encoding/json"
	"fmt"
	"math/rand"
	"reflect"
	"testing"

	"ribwright/geom"
)

func TestSort(t *testing.T) {
	want := []Finding{
		{Code: "z"},
		{File: "a", Line: 1, Column: 9, Code: "z"},
		{File: "a", Line: 2, Column: 1, Severity: Error, Code: "b"},
		{File: "a", Line: 2, Column: 1, Severity: Warning, Code: "a", Part: "U1"},
		{File: "a", Line: 2, Column: 1, Severity: Warning, Code: "a", Part: "U2"},
		{File: "a", Line: 2, Column: 1, Severity: Warning, Code: "b", Part: "U1"},
		{File: "a", Line: 2, Column: 3},
		{File: "b", Line: 1},
	}
	r := rand.New(rand.NewSource(1))
	for k := 0; k < 50; k++ {
		in := append([]Finding(nil), want...)
		r.Shuffle(len(in), func(i, j int) { in[i], in[j] = in[j], in[i] })
		before := append([]Finding(nil), in...)
		if got := Sort(in); !reflect.DeepEqual(got, want) {
			t.Fatalf("Sort(%v): got %v, want %v", before, got, want)
		}
		if !reflect.DeepEqual(in, before) {
			t.Fatal("Sort changed what it was handed")
		}
	}
	if got := Sort(nil); len(got) != 0 {
		t.Errorf("of nothing: got %v", got)
	}
}

func TestHasError(t *testing.T) {
	for _, c := range []struct {
		in   []Finding
		want bool
	}{
		{nil, false},
		{[]Finding{{Severity: Warning}, {Severity: Note}}, false},
		{[]Finding{{Severity: Note}, {Severity: Error}}, true},
	} {
		if got := HasError(c.in); got != c.want {
			t.Errorf("HasError(%v): got %v, want %v", c.in, got, c.want)
		}
	}
}

func TestString(t *testing.T) {
	for _, c := range []struct {
		f    Finding
		want string
	}{
		{Finding{Code: "c", Message: "M."}, "error: M.  [c]"},
		{Finding{Severity: Warning, Code: "c", Message: "M.", File: "f.toml"}, "f.toml: warning: M.  [c]"},
		{Finding{Severity: Note, Code: "c", Message: "M.", Fix: "F.", File: "f.toml", Line: 3, Column: 7}, "f.toml:3:7: note: M.\n    F.  [c]"},
	} {
		if got := fmt.Sprint(c.f); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

// TestJSON holds the names that the report promises.
func TestJSON(t *testing.T) {
	f := Finding{Severity: Warning, Code: "c", Message: "m", Fix: "f", Key: "k", File: "a", Line: 1, Column: 2, Part: "U1",
		At: []geom.Pt{{X: 1, Y: 2.5}}, Got: 3, Limit: 4, Unit: "mm"}
	const want = `{"severity":"warning","code":"c","message":"m","fix":"f","key":"k","file":"a","line":1,"column":2,` +
		`"part":"U1","at":[[1,2.5]],"got":3,"limit":4,"unit":"mm"}`
	if got, err := json.Marshal(f); string(got) != want || err != nil {
		t.Errorf("got %s, %v, want %s", got, err, want)
	}
}
