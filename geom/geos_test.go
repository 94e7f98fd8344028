package geom

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand"
	"strconv"
	"strings"
	"testing"

	"ribwright/geom/outside"
)

// geosCase is one question to testdata/geos.py, with our answer.
type geosCase struct {
	Op   string  `json:"op"`
	A    Ring    `json:"a"`
	B    Ring    `json:"b"`
	C    Pt      `json:"c"`
	R    float64 `json:"r"`
	D    float64 `json:"d"`
	ours float64
	tol  float64
}

// TestAgainstGEOS holds areas against another library, GEOS by way of Debian's python3-shapely.
func TestAgainstGEOS(t *testing.T) {
	r := rand.New(rand.NewSource(21))
	var cases []geosCase
	for k := 0; k < 400; k++ {
		a, b := anyRing(r, 2*(k%9)), anyRing(r, 2*(k%9))
		if k%2 == 1 {
			a = anyRing(r, 2*(k%3)+1)
		}
		c, rad := a[0].Add(Pt{20*r.Float64() - 10, 20*r.Float64() - 10}), 1+15*r.Float64()
		common := CommonArea(a, b)
		cases = append(cases,
			geosCase{Op: "common", A: a, B: b, ours: common, tol: 1e-6 * (1 + common)},
			geosCase{Op: "union", A: a, B: b, ours: a.Area() + b.Area() - common, tol: 1e-6 * (a.Area() + b.Area())})
		// GEOS' disc has 2048 corners: short of a disc by 1 − sin(x)/x, x = 2π/2048
		disc := geosCase{Op: "disc", A: a, C: c, R: rad, ours: DiscRing(c, rad, a), tol: 1.6e-6 * math.Pi * rad * rad}
		clip := disc
		clip.ours = 0
		for _, p := range DiscClip(c, rad, a) {
			clip.ours += p.Area()
		}
		cases = append(cases, disc, clip)

		half := LeftOf(c, c.Add(Polar(7*r.Float64())))
		far := Ring{{-4000, -4000}, {4000, -4000}, {4000, 4000}, {-4000, 4000}}.Within(half)
		cut := geosCase{Op: "common", A: a, B: far, tol: 1e-6 * (1 + a.Area())}
		for _, p := range a.Cut(half) {
			cut.ours += p.Area()
		}
		cases = append(cases, cut)
	}
	for k := 0; k < 120; k++ {
		convex, wavy := hull(star(r, 30, Pt{}, 30, 60)), smooth(r, 80, 60, 0.6)
		d := 20 * r.Float64()
		in, _ := Parallel(convex, true, d)
		cases = append(cases, geosCase{Op: "mitre", A: convex, D: -d, ours: total(in), tol: 1e-6 * convex.Area()})
		if _, _, bad := selfMeeting(wavy, true); bad {
			continue
		}
		for _, d := range []float64{d, -d} {
			got, _ := Parallel(wavy, true, d)
			cases = append(cases, geosCase{Op: "round", A: wavy, D: -d, ours: total(got), tol: roundTol * 8 * math.Pi * math.Abs(d)})
		}
	}
	for k, last := range []float64{-0.1015, -0.1036} {
		pts := Ring(distinct(naca4(0.04, 0.4, 0.12, 1400, last, 100), true))
		got, _ := Parallel(pts, true, 6.35)
		cases = append(cases, geosCase{Op: "mitre", A: pts, D: -6.35, ours: total(got), tol: 1e-6 * total(got) * float64(1+k)})
	}
	var in bytes.Buffer
	enc := json.NewEncoder(&in)
	for _, c := range cases {
		if err := enc.Encode(c); err != nil {
			t.Fatal(err)
		}
	}
	python := outside.Python(t, "shapely")
	out := bufio.NewScanner(strings.NewReader(outside.Run(t, python, "testdata/geos.py", outside.File(t, "cases.json", in.Bytes()))))
	for k, c := range cases {
		if !out.Scan() {
			t.Fatalf("%d areas for %d cases", k, len(cases))
		}
		want, err := strconv.ParseFloat(out.Text(), 64)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("case %d: %s of %v, %v; c %v, r %g, d %g", k, c.Op, c.A, c.B, c.C, c.R, c.D), c.ours, want, c.tol)
	}
}
