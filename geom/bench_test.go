package geom

import (
	"math"
	"testing"
)

var stickRing = Ring{{0, 0}, {6.35, 0}, {40, 90}, {33.65, 90}}

func BenchmarkDiscRing(b *testing.B) {
	for b.Loop() {
		DiscRing(Pt{5, 10}, 14.3, stickRing)
	}
}

func BenchmarkDiscClip(b *testing.B) {
	ring := Ring(distinct(naca4(0.04, 0.4, 0.12, 1400, -0.1015, 150), true))
	for b.Loop() {
		DiscClip(Pt{700, 60}, 50, ring)
	}
}

func BenchmarkParallelSection(b *testing.B) {
	pts := naca4(0.04, 0.4, 0.12, 1400, -0.1015, 150)
	for b.Loop() {
		Parallel(pts, false, 6.35)
	}
}

func BenchmarkParallelOutward(b *testing.B) {
	pts := distinct(naca4(0.04, 0.4, 0.12, 1400, -0.1015, 150), true)
	for b.Loop() {
		Parallel(pts, true, -6.35)
	}
}

func BenchmarkCut(b *testing.B) {
	ring := Ring(distinct(naca4(0.04, 0.4, 0.12, 1400, -0.1015, 150), true))
	h := Half{Polar(math.Pi / 3), 300}
	for b.Loop() {
		ring.Cut(h)
	}
}

func BenchmarkCommonArea(b *testing.B) {
	ring := Ring(distinct(naca4(0.04, 0.4, 0.12, 1400, -0.1015, 150), true))
	for b.Loop() {
		CommonArea(stickRing, ring)
	}
}
