package pack

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"ribwright/geom"
)

func rect(w, h float64) geom.Ring { return geom.Ring{{}, {X: w}, {X: w, Y: h}, {Y: h}} }

// readLines returns the lines of a file in testdata/packing that are not comments.
func readLines(t testing.TB, name string) []string {
	t.Helper()
	f, err := os.Open("../../testdata/packing/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var out []string
	for s := bufio.NewScanner(f); s.Scan(); {
		if !strings.HasPrefix(s.Text(), "#") && s.Text() != "" {
			out = append(out, s.Text())
		}
	}
	return out
}

func number(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// plates200 is the set of 200 plates of nest200.txt, each ring one plate, equal ones counted; a quarter of a turn is allowed.
func plates200(t testing.TB) NestJob {
	var job NestJob
	known := map[string]int{}
	for _, line := range readLines(t, "nest200.txt") {
		if k, ok := known[line]; ok {
			job.Parts[k].Count++
			continue
		}
		var r geom.Ring
		for _, f := range strings.Fields(line) {
			x, y, _ := strings.Cut(f, ",")
			r = append(r, geom.Pt{X: number(t, x), Y: number(t, y)})
		}
		known[line] = len(job.Parts)
		job.Parts = append(job.Parts, Part{ID: fmt.Sprint(len(job.Parts)), Outline: r.Path(), Count: 1,
			Angles: []float64{0, math.Pi / 2, math.Pi, 3 * math.Pi / 2}})
	}
	job.Sheets = []Sheet{{Outline: rect(600, 300)}}
	job.Gap = 2
	return job
}

// stripSet reads a set of the ESICUP collection: parts, and the width of the strip.
func stripSet(t testing.TB, name string) (NestJob, float64) {
	var job NestJob
	var width float64
	var ring geom.Ring
	flush := func() {
		if len(ring) > 0 {
			job.Parts[len(job.Parts)-1].Outline = ring.Path()
		}
		ring = nil
	}
	for _, line := range readLines(t, "esicup_"+name+".txt") {
		f := strings.Fields(line)
		switch f[0] {
		case "board":
			width = number(t, f[3])
		case "total_area":
		case "piece":
			flush()
			p := Part{ID: f[1], Count: int(number(t, f[3]))}
			for _, a := range strings.Split(f[5], ",") {
				p.Angles = append(p.Angles, number(t, a)*math.Pi/180)
			}
			job.Parts = append(job.Parts, p)
		default:
			ring = append(ring, geom.Pt{X: number(t, f[0]), Y: number(t, f[1])})
		}
	}
	flush()
	return job, width
}

// ribSet is what a set of 26 ribs needs: 44 plates a rib, two thirds of them discs of 38 mm, others trimmed to the
// contour and to a spar, some rectangles; 15 shapes in all.
func ribSet() NestJob {
	job := NestJob{Gap: 3, Margin: 3, Sheets: []Sheet{{Outline: rect(600, 300)}}}
	all := []float64{0, math.Pi / 2, math.Pi, 3 * math.Pi / 2}
	add := func(o geom.Path, n int) {
		job.Parts = append(job.Parts, Part{ID: fmt.Sprint(len(job.Parts)), Outline: o, Count: n, Angles: all})
	}
	add(geom.Circle(geom.Pt{}, 19), 28*26)
	for k := 0; k < 10; k++ { // trimmed by one or by two straight cuts
		cut := geom.LeftOf(geom.Pt{X: -19, Y: -15 + float64(k)}, geom.Pt{X: 19, Y: -15 + float64(k) + 0.6*float64(k%4)})
		ring := geom.Ring{{X: -20, Y: -20}, {X: 20, Y: -20}, {X: 20, Y: 20}, {X: -20, Y: 20}}.Within(cut)
		if k%2 == 1 {
			ring = ring.Within(geom.Before(12 + float64(k)/2))
		}
		add(geom.DiscClip(geom.Pt{}, 19, ring)[0], 26)
	}
	for _, s := range [][2]float64{{60, 20}, {45, 35}, {50, 30}, {38, 25}} {
		add(rect(s[0], s[1]).Path(), 39)
	}
	job.Parts[len(job.Parts)-1].Count += 1200 - 28*26 - 260 - 4*39
	return job
}

// taperedSet is what a tapered wing needs: every rib's trimmed plates differ a little from the next one's, 300 shapes in all.
func taperedSet() NestJob {
	job := NestJob{Gap: 3, Margin: 3, Sheets: []Sheet{{Outline: rect(600, 300)}}}
	job.Parts = append(job.Parts, Part{Outline: geom.Circle(geom.Pt{}, 19), Count: 600})
	for k := 0; k < 300; k++ {
		y, slope := -18+float64(k%100)/8, 0.02*float64(k%11)
		ring := geom.Ring{{X: -20, Y: -20}, {X: 20, Y: -20}, {X: 20, Y: 20}, {X: -20, Y: 20}}.
			Within(geom.LeftOf(geom.Pt{X: -19, Y: y}, geom.Pt{X: 19, Y: y + 38*slope})).Within(geom.Before(19 - float64(k%7)))
		job.Parts = append(job.Parts, Part{ID: fmt.Sprint(k), Outline: geom.DiscClip(geom.Pt{}, 19, ring)[0], Count: 2,
			Angles: []float64{0, math.Pi / 2, math.Pi, 3 * math.Pi / 2}})
	}
	return job
}

func discs200() NestJob {
	return NestJob{Parts: []Part{{Outline: geom.Circle(geom.Pt{}, 19), Count: 200}}, Sheets: []Sheet{{Outline: rect(600, 300)}}, Gap: 3}
}

func report(l Layout) string {
	s := fmt.Sprintf("%d sheets, density %.4f, steps %d:", len(l.Uses), l.Density(), l.Steps)
	for _, u := range l.Uses {
		s += fmt.Sprintf(" %d(%.1f%%)", u.Parts, 100*u.Density())
	}
	return s
}

func BenchmarkNest200(b *testing.B) {
	job := plates200(b)
	for b.Loop() {
		l := Nest(job)
		b.Log(report(l))
	}
}

func BenchmarkRibSet(b *testing.B) {
	job := ribSet()
	for b.Loop() {
		l := Nest(job)
		b.Log(report(l))
	}
}

func BenchmarkTaperedSet(b *testing.B) {
	job := taperedSet()
	for b.Loop() {
		l := Nest(job)
		b.Log(report(l))
	}
}

func BenchmarkDiscs200(b *testing.B) {
	job := discs200()
	for b.Loop() {
		l := Nest(job)
		b.Log(report(l))
	}
}
