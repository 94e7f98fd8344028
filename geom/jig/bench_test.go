package jig

import "testing"

// BenchmarkPlan plans the demo ribs, and thirty random ones.
func BenchmarkPlan(b *testing.B) {
	for _, one := range demos(b) {
		b.Run(one.name, func(b *testing.B) {
			for b.Loop() {
				Plan(one.r, one.doc)
			}
		})
	}
	b.Run("30 ribs", func(b *testing.B) {
		ribs := randoms(b, 30)
		for b.Loop() {
			for _, one := range ribs {
				Plan(one.r, one.doc)
			}
		}
	})
}
