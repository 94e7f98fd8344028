package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// floors is the floor plan of DEVELOPERS.md: a package imports from lower floors only. Test helpers stand
// in the cellar and are imported by tests.
var floors = map[string]int{
	"geom":                   0,
	"geom/curve":             1,
	"geom/finding":           1,
	"geom/csvtable":          1,
	"geom/pack":              1,
	"geom/mix":               1,
	"geom/frame":             1,
	"export":                 1,
	"airfoils":               2,
	"geom/ribfile":           2,
	"export/svg":             2,
	"export/png":             2,
	"export/pdf":             2,
	"export/dxf":             2,
	"export/gcode":           2,
	"export/list":            2,
	"geom/riblog":            3,
	"geom/bend":              3,
	"geom/rib":               3,
	"geom/jig":               4,
	"geom/wing":              4,
	"geom/fasten":            4,
	"geom/session":           4,
	"geom/cut":               5,
	"geom/takeoff":           5,
	"geom/batch":             6,
	"geom/strength":          6,
	"export/shop":            7,
	"cmd/ribwright":          8,
	"export/internal/sample": 3,
	"geom/outside":           0,
}

// longest is the length of a Go file, in lines, that one still reads in one sitting.
const longest = 500

// TestFloorPlan holds the house's rules: imports go downward, every package says what it is for, no file is
// too long, and the top level holds what it should.
func TestFloorPlan(t *testing.T) {
	const root = "../.."
	docs := map[string]bool{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") {
			return err
		}
		src, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if n := strings.Count(string(src), "\n"); n > longest {
			t.Errorf("%s has %d lines, want %d at most: part it", path, n, longest)
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, src, parser.ParseComments|parser.ImportsOnly)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, filepath.Dir(path))
		if err != nil {
			return err
		}
		pkg := filepath.ToSlash(rel)
		if strings.HasSuffix(path, "_test.go") {
			return nil
		}
		docs[pkg] = docs[pkg] || f.Doc != nil
		checkImports(t, path, pkg, f)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for pkg, ok := range docs {
		if !ok {
			t.Errorf("package %s has no package comment", pkg)
		}
	}
	entries, err := os.ReadDir(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		switch n := e.Name(); n {
		case "cmd", "geom", "export", "airfoils", "testdata", "go.mod", "go.sum", "README.md", "DEVELOPERS.md", "LICENSE", "ribwright-out":
		default: // a builder's own rib files may lie there
			if !strings.HasPrefix(n, ".") && (e.IsDir() || strings.HasSuffix(n, ".go") || strings.HasSuffix(n, ".md")) {
				t.Errorf("the top level holds %s, which is not in the plan", n)
			}
		}
	}
}

func checkImports(t *testing.T, path, pkg string, f *ast.File) {
	floor, ok := floors[pkg]
	if !ok {
		t.Errorf("package %s is not in the floor plan", pkg)
	}
	for _, i := range f.Imports {
		other, ours := strings.CutPrefix(strings.Trim(i.Path.Value, `"`), "ribwright/")
		if !ours {
			continue
		}
		if below, ok := floors[other]; !ok || below >= floor {
			t.Errorf("%s, on floor %d, imports %s, on floor %d", path, floor, other, below)
		}
	}
}

// inProgram reports whether a package is there and no helper of tests.
func inProgram(pkg string) bool {
	_, err := os.Stat(filepath.Join("../..", pkg))
	return err == nil && pkg != "geom/outside" && pkg != "export/internal/sample"
}

// TestExamples holds that every package shows its use in an example whose output is checked.
func TestExamples(t *testing.T) {
	shown := regexp.MustCompile(`(?s)\nfunc Example.*// Output:`)
	for pkg := range floors {
		if !inProgram(pkg) || pkg == "cmd/ribwright" {
			continue
		}
		files, err := filepath.Glob(filepath.Join("../..", pkg, "*_test.go"))
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(files, func(f string) bool {
			src, err := os.ReadFile(f)
			return err == nil && shown.Match(src)
		}) {
			t.Errorf("package %s has no example with its output", pkg)
		}
	}
}

// TestFloorTable holds DEVELOPERS.md to the floor plan: each package stands there once, on its floor.
func TestFloorTable(t *testing.T) {
	text, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	written := map[string]int{}
	for _, row := range regexp.MustCompile("(?m)^\\| (\\d) \\| (`[^|]*) \\|").FindAllStringSubmatch(string(text), -1) {
		floor, err := strconv.Atoi(row[1])
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range strings.Split(row[2], ", ") {
			written[strings.Trim(name, "`")] = floor
		}
	}
	for pkg, floor := range floors {
		if !inProgram(pkg) {
			continue
		}
		if got, ok := written[pkg]; !ok || got != floor {
			t.Errorf("DEVELOPERS.md: %s on floor %d (%t), want %d", pkg, got, ok, floor)
		}
	}
}
