// Package outside runs other programs in tests: readers that did not grow up with the writers they check.
//
// A test that needs a program skips, with a word why, where the program is missing; with CI=true in the
// environment it fails instead, so that no check is lost unseen. The package is for tests alone and
// takes no part in the program.
package outside

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// Need returns the path of a program, and skips or fails the test where there is none.
func Need(t testing.TB, program string) string {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		missing(t, program+" is not installed")
	}
	return path
}

// Optional returns the path of a program, and skips the test where there is none, in CI too.
func Optional(t testing.TB, program string) string {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		t.Skip(program + " is not installed; this check is optional")
	}
	return path
}

// NeedFile skips or fails the test where a file, such as a document type definition, is missing.
func NeedFile(t testing.TB, path string) string {
	t.Helper()
	if _, err := os.Stat(path); err != nil {
		missing(t, path+" is not there")
	}
	return path
}

// Python returns Debian's Python, and skips or fails the test where it lacks the module.
func Python(t testing.TB, module string) string {
	t.Helper()
	const python = "/usr/bin/python3" // another may come first on the PATH, without Debian's packages
	if err := exec.Command(python, "-c", "import "+module).Run(); err != nil {
		missing(t, "python3 with "+module+" is not installed")
	}
	return python
}

func missing(t testing.TB, what string) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatal(what)
	}
	t.Skip(what)
}

// File writes data into a file of its own for the length of the test, and returns its path.
func File(t testing.TB, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// Run runs a program and returns what it prints; the test fails where the program does.
func Run(t testing.TB, program string, args ...string) string {
	t.Helper()
	out, err := exec.Command(program, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s %q: %v\n%s", program, args, err, out)
	}
	return string(out)
}
