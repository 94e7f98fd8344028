package main

import (
	"os"
	"os/exec"
	"regexp"
	"testing"
)

// TestNoFusedProducts compiles the module for a processor whose compiler fuses a product and a sum into one
// rounding (Go specification, "Floating-point operators"), and finds no such instruction: files come
// out the same everywhere. The compiler's own record of a build that has not changed is quick to read.
func TestNoFusedProducts(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles for arm64")
	}
	cmd := exec.Command("go", "build", "-gcflags=ribwright/...=-S", "./...")
	cmd.Dir = "../.."
	cmd.Env = append(os.Environ(), "GOARCH=arm64", "CGO_ENABLED=0")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("go build for arm64: %v\n%s", err, out)
	}
	if !regexp.MustCompile(`\sFMULD\s`).Match(out) {
		t.Fatal("the listing holds no product at all: it is not what this test reads")
	}
	for _, m := range regexp.MustCompile(`\(\S+\.go:\d+\)\s+FN?M(ADD|SUB)[SD]\s`).FindAll(out, -1) {
		t.Errorf("fused: %s: write float64(a*b)", m)
	}
}
