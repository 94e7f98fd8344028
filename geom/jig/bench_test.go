package jig

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

// BenchmarkPlan plans the demo ribs, thirty random ones, and those of a wing.
func BenchmarkPlan(b *testing.B) {
	for _, one := range demos(b) {
		b.Run(one.name, func(b *testing.B) {
			for b.Loop() {
				Plan(one.r, one.doc)
			}
		})
	}
	for _, set := range []struct {
		name string
		ribs []planned
	}{{"30 ribs", randoms(b, 30)}, {"wing", tapered(b, 30)}} {
		b.Run(set.name, func(b *testing.B) {
			for b.Loop() {
				for _, one := range set.ribs {
					Plan(one.r, one.doc)
				}
			}
		})
	}
}

// tapered returns n ribs of the demo's kind, chords 1,400 to 900 mm.
func tapered(b *testing.B, n int) []planned {
	data, err := os.ReadFile("../../cmd/ribwright/demo/marsh-wren.toml")
	if err != nil {
		b.Fatal(err)
	}
	var out []planned
	for i := range n {
		chord := fmt.Sprintf("chord = %.3f ", 1400-500*float64(i)/float64(n-1))
		text := strings.Replace(string(data), "chord = 1400", chord, 1)
		if one, ok := plannedOnce(b, "tapered "+chord, func() string { return text }); ok {
			out = append(out, one)
		}
	}
	return out
}
