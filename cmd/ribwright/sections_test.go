package main

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ribwright/airfoils"
)

// TestSectionsReadBack writes the ordinates of every built-in section, and of one from equations, as the command does,
// and reads them as a section's table: the same ordinates to the last place written.
func TestSectionsReadBack(t *testing.T) {
	for _, name := range append(airfoils.BuiltinNames(), "2412") {
		want, _, err := sectionNamed(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, chord := range []string{"", "48in", "1400mm"} {
			for _, format := range []string{"csv", "md"} {
				args := []string{"sections", name, "--format", format}
				if chord != "" {
					args = append(args, "--chord", chord)
				}
				code, out, msg := call(args...)
				if code != exitOK {
					t.Fatal(msg)
				}
				got, found := airfoils.Read("s."+format, []byte(out))
				if len(got.Upper) == 0 {
					t.Errorf("%v: %v", args, found)
					continue
				}
				for _, x := range want.Stations() {
					u, l, _ := want.At(x)
					gu, gl, ok := got.At(x)
					if !ok || math.Abs(u-gu) > 1e-5 || math.Abs(l-gl) > 1e-5 {
						t.Errorf("%v, station %v: got %v and %v (%v), want %v and %v", args, x, gu, gl, ok, u, l)
						break
					}
				}
			}
		}
	}
}

// TestSectionsNear holds that a slip in a name is met with the right one.
func TestSectionsNear(t *testing.T) {
	for name, want := range map[string]string{"CLARKY": "clark-y?", "Clarky.dat": "clark-y?", "m-6": "m6?", "usa35": "usa-35b?", "goe": "goe-387?", "Clark YH": "name one of", "x": "name one of"} {
		if code, _, msg := call("sections", name); code != exitUsage || !strings.Contains(msg, want) {
			t.Errorf("%s: exit status %d, %q, want %q", name, code, msg, want)
		}
	}
	path := filepath.Join(t.TempDir(), "clarky")
	if err := os.WriteFile(path, []byte("nothing"), 0o666); err != nil {
		t.Fatal(err)
	}
	if code, _, msg := call("sections", path); code != exitFound {
		t.Errorf("a file of that name: exit status %d, %s", code, msg)
	}
}
