package pack

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"ribwright/geom"
)

// checkLayout holds a layout against its job: every copy is placed once or named as missing, keeps the gap to all others and the
// margin to the sheet's edge, and lies on the sheet. It knows nothing of how the layout was made: outlines are flattened
// to 0.0005 mm and measured edge by edge.
func checkLayout(t testing.TB, name string, job NestJob, l Layout) {
	t.Helper()
	const fine = 0.0005
	const tol = geom.Coincident + 2*fine // arcs stand up to fine outside their chords
	got := make([]int, len(job.Parts))
	rings := make([][]geom.Pt, len(l.Placed))
	area := make([]float64, len(l.Uses))
	parts := make([]int, len(l.Uses))
	for i, p := range l.Placed {
		part := job.Parts[p.Part]
		if p.Copy != got[p.Part] {
			t.Errorf("%s: placed %d is copy %d, want %d", name, i, p.Copy, got[p.Part])
		}
		got[p.Part]++
		rings[i] = p.Transform().Path(part.Outline).Flatten(fine)
		area[p.Use] += math.Abs(part.Outline.Area())
		parts[p.Use]++
		ok := len(part.Angles) == 0 && p.Angle == 0
		for _, a := range part.Angles {
			ok = ok || a == p.Angle
		}
		if !ok {
			t.Errorf("%s: part %d lies at %g, allowed are %v", name, p.Part, p.Angle, part.Angles)
		}
		if l.Uses[p.Use].Sheet != p.Sheet {
			t.Errorf("%s: placed %d says sheet %d, its use says %d", name, i, p.Sheet, l.Uses[p.Use].Sheet)
		}
		sheet := job.Sheets[p.Sheet]
		for k, edge := range append([]geom.Ring{sheet.Outline}, sheet.Holes...) {
			if d := apartBrute(rings[i], edge, job.Margin+1); d < job.Margin-tol {
				t.Errorf("%s: part %d stands %.6f from the edge of sheet %d, want %g", name, p.Part, d, p.Sheet, job.Margin)
			}
			if in := edge.Holds(insideOf(rings[i])); in != (k == 0) {
				t.Errorf("%s: part %d at %v: inside edge %d of the sheet is %v", name, p.Part, p.At, k, in)
			}
			if k > 0 && geom.Ring(rings[i]).Holds(insideOf(edge)) {
				t.Errorf("%s: part %d at %v lies over hole %d", name, p.Part, p.At, k-1)
			}
		}
		for j := 0; j < i; j++ {
			if l.Placed[j].Use != p.Use || !geom.NewBox(rings[i]...).Grow(job.Gap).Meets(geom.NewBox(rings[j]...)) {
				continue
			}
			if d := apartBrute(rings[i], rings[j], job.Gap+1); d < job.Gap-tol {
				t.Errorf("%s: parts %d and %d stand %.6f apart, want %g", name, l.Placed[j].Part, p.Part, d, job.Gap)
			}
			if geom.Ring(rings[i]).Holds(insideOf(rings[j])) || geom.Ring(rings[j]).Holds(insideOf(rings[i])) {
				t.Errorf("%s: parts %d and %d lie on one another", name, l.Placed[j].Part, p.Part)
			}
		}
	}
	for _, u := range l.Unplaced {
		got[u.Part] += u.Count
		if u.Why == NoReason || u.Why.String() == "" {
			t.Errorf("%s: part %d is missing for no reason", name, u.Part)
		}
	}
	for i, p := range job.Parts {
		if got[i] != max(p.Count, 0) {
			t.Errorf("%s: part %d: %d copies placed or missing, want %d", name, i, got[i], p.Count)
		}
	}
	used := map[int]int{}
	for i, u := range l.Uses {
		used[u.Sheet]++
		if n := job.Sheets[u.Sheet].Count; n > 0 && used[u.Sheet] > n {
			t.Errorf("%s: sheet %d is used %d times, there are %d", name, u.Sheet, used[u.Sheet], n)
		}
		if parts[i] != u.Parts || parts[i] == 0 || math.Abs(area[i]-u.PartsAreaMM2) > 1e-6*area[i] || u.Density() > 1 {
			t.Errorf("%s: use %d: %d parts of %g mm², want %d of %g mm²", name, i, u.Parts, u.PartsAreaMM2, parts[i], area[i])
		}
	}
}

// apartBrute returns the least distance between two closed chains, −1 times how far they cross; distances above most are not told apart.
func apartBrute(a, b []geom.Pt, most float64) float64 {
	box := geom.NewBox(b...).Grow(most)
	best := most
	for i, p := range a {
		q := a[(i+1)%len(a)]
		if !geom.NewBox(p, q).Meets(box) {
			continue
		}
		for j, u := range b {
			v := b[(j+1)%len(b)]
			if !geom.NewBox(p, q).Grow(best).Meets(geom.NewBox(u, v)) && best >= 0 {
				continue
			}
			d := math.Min(math.Min(toSeg(p, u, v), toSeg(q, u, v)), math.Min(toSeg(u, p, q), toSeg(v, p, q)))
			if d1, d2 := side(p, q, u), side(p, q, v); d1*d2 < 0 {
				if d3, d4 := side(u, v, p), side(u, v, q); d3*d4 < 0 {
					d = -math.Min(math.Min(math.Abs(d1), math.Abs(d2)), math.Min(math.Abs(d3), math.Abs(d4)))
				}
			}
			best = math.Min(best, d)
		}
	}
	return best
}

// side is the distance of r from the line pq, positive to the left.
func side(p, q, r geom.Pt) float64 {
	l := math.Hypot(q.X-p.X, q.Y-p.Y)
	if l == 0 {
		return 0
	}
	return ((q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X)) / l
}

func toSeg(r, p, q geom.Pt) float64 {
	dx, dy := q.X-p.X, q.Y-p.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = math.Max(0, math.Min(1, ((r.X-p.X)*dx+(r.Y-p.Y)*dy)/l))
	}
	return math.Hypot(r.X-p.X-t*dx, r.Y-p.Y-t*dy)
}

// insideOf returns a point well inside the chain: the middle of the widest stretch of a line across it.
func insideOf(r []geom.Pt) geom.Pt {
	box := geom.NewBox(r...)
	best, at := -1.0, geom.Pt{}
	for _, share := range []float64{0.5, 0.37, 0.61, 0.23, 0.79} {
		y := box.Min.Y + share*box.H()
		for _, s := range geom.Ring(r).Stretches(geom.Pt{X: box.Min.X - 1, Y: y}, geom.Pt{X: box.Max.X + 1, Y: y}) {
			if w := s[0].Dist(s[1]); w > best {
				best, at = w, s[0].Lerp(s[1], 0.5)
			}
		}
	}
	return at
}

// randomJob returns a job with discs, trimmed discs, rectangles, hollow shapes, odd sheets and holes.
func randomJob(r *rand.Rand) NestJob {
	job := NestJob{Gap: []float64{0, 0.001, 2, 3, 5}[r.Intn(5)], Margin: []float64{0, 0, 4}[r.Intn(3)], Effort: 3000}
	for k := 0; k < 2+r.Intn(4); k++ {
		s := 15 + 40*r.Float64()
		var o geom.Path
		switch r.Intn(6) {
		case 0:
			o = geom.Circle(geom.Pt{X: s, Y: -s}, s/2)
		case 1:
			w, h := s, s*(0.3+r.Float64())
			o = geom.Ring{{}, {X: w}, {X: w, Y: h}, {Y: h}}.Path()
		case 2: // a disc with one or two straight cuts
			ring := geom.Ring{{X: -s, Y: -0.3 * s}, {X: s, Y: -0.3 * s * r.Float64()}, {X: s, Y: s}, {X: -s, Y: s}}
			o = geom.DiscClip(geom.Pt{}, s/2, ring)[0]
		case 3: // an L or a U
			o = geom.Ring{{}, {X: s}, {X: s, Y: s}, {X: 0.7 * s, Y: s}, {X: 0.7 * s, Y: 0.4 * s}, {X: 0.3 * s, Y: 0.4 * s}, {X: 0.3 * s, Y: s * r.Float64()}, {X: 0, Y: 0.9 * s}}.Path()
		case 4: // an arc that bulges inward
			o = geom.Path{Segs: []geom.Seg{{End: geom.Pt{X: s}}, {End: geom.Pt{X: s, Y: s / 2}, Bulge: -0.3 * r.Float64()}, {End: geom.Pt{Y: s / 2}, Bulge: 0.4 * (r.Float64() - 0.5)}}, Closed: true}
		default: // a star
			var ring geom.Ring
			n := 5 + r.Intn(9)
			for i := 0; i < n; i++ {
				ring = append(ring, geom.Polar(2*math.Pi*float64(i)/float64(n)).Mul(s*(0.3+0.5*r.Float64())))
			}
			o = ring.Path()
		}
		p := Part{ID: fmt.Sprint(k), Outline: o, Count: r.Intn(9)}
		for _, a := range []float64{0, math.Pi / 2, math.Pi, -math.Pi / 2, 0.3, math.Pi / 3} {
			if r.Intn(3) == 0 {
				p.Angles = append(p.Angles, a)
			}
		}
		if r.Intn(2) == 0 {
			p.Outline = p.Outline.Reverse()
		}
		job.Parts = append(job.Parts, p)
	}
	for k := 0; k < 1+r.Intn(2); k++ {
		w, h := 120+150*r.Float64(), 100+100*r.Float64()
		s := Sheet{Outline: geom.Ring{{}, {X: w}, {X: w, Y: h}, {Y: h}}, Count: r.Intn(3), Price: float64(r.Intn(3))}
		switch r.Intn(3) {
		case 0: // an offcut
			s.Outline = geom.Ring{{X: 10, Y: 5}, {X: w, Y: 20}, {X: 0.8 * w, Y: h}, {X: 0.5 * w, Y: h}, {X: 0.5 * w, Y: 0.6 * h}, {X: 0, Y: 0.7 * h}}
		case 1:
			s.Holes = []geom.Ring{{{X: 0.4 * w, Y: 0.4 * h}, {X: 0.5 * w, Y: 0.4 * h}, {X: 0.45 * w, Y: 0.55 * h}}}
		}
		job.Sheets = append(job.Sheets, s)
	}
	return job
}

func TestRandomJobs(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	for k := 0; k < 200; k++ {
		job := randomJob(r)
		checkLayout(t, fmt.Sprintf("job %d", k), job, Nest(job))
		if t.Failed() {
			t.Fatalf("%+v", job)
		}
	}
}
