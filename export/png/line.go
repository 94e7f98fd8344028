package png

import (
	"math"

	"ribwright/export"
	"ribwright/geom"
)

// chord is how far, in dots, a chord may stand off the arc it is drawn for.
const chord = 0.05

// flat returns a path's points in dots, arcs as chords.
func (p *painter) flat(path geom.Path) []geom.Pt {
	if len(path.Segs) == 0 {
		return nil
	}
	at := path.Start
	out := []geom.Pt{p.dot(at)}
	for _, s := range path.Segs {
		if s.Bulge == 0 || s.End == at {
			out = append(out, p.dot(s.End))
		} else {
			_, r, _, _ := geom.Arc(at, s.End, s.Bulge)
			for _, q := range export.SplitArc(at, s, finest(r*p.k)) {
				out = append(out, p.dot(q.End))
			}
		}
		at = s.End
	}
	if path.Closed && at != path.Start {
		out = append(out, out[0])
	}
	return out
}

// finest is the sweep whose chord stands that far off an arc of radius r, dots.
func finest(r float64) float64 {
	if r <= chord {
		return math.Pi / 2
	}
	return math.Max(2*math.Acos(1-chord/r), 1e-3)
}

// letter returns a letter's outline in dots.
func (p *painter) letter(c export.Contour) []geom.Pt {
	const pieces = 8
	at := p.dot(c.Start)
	out := []geom.Pt{at}
	for _, s := range c.Segs {
		end := p.dot(s.End)
		if !s.Line {
			ctrl := p.dot(s.Ctrl)
			for i := 1; i < pieces; i++ {
				t := float64(i) / pieces
				out = append(out, at.Lerp(ctrl, t).Lerp(ctrl.Lerp(end, t), t))
			}
		}
		out = append(out, end)
		at = end
	}
	return out
}

// dashed cuts a line into its dashes; dash holds lengths of dashes and gaps in mm, k dots each.
func dashed(line []geom.Pt, dash []float64, k float64) [][]geom.Pt {
	if len(line) < 2 {
		return nil
	}
	sum := 0.0
	for _, v := range dash {
		sum += float64(v * k)
	}
	if !(sum > 0.5) { // finer than the picture
		return [][]geom.Pt{line}
	}
	var out [][]geom.Pt
	n, left := 0, dash[0]*k
	now := []geom.Pt{line[0]}
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		for l := a.Dist(b); l > left; l = a.Dist(b) {
			a = a.Lerp(b, left/l)
			if n%2 == 0 {
				out = append(out, append(now, a))
			}
			n++
			now, left = []geom.Pt{a}, math.Max(dash[n%len(dash)]*k, 1e-3)
		}
		left -= a.Dist(b)
		now = append(now, b)
	}
	if n%2 == 0 {
		out = append(out, now)
	}
	return out
}

// smooth is the cosine of the turn up to which two steps are joined on their bisector; where a line turns
// more sharply, and at its ends, stands a disc.
const smooth = 0.8

// stroke notes a line of half the width given as strips and discs that all turn the same way, so that
// together they are filled once. Strips of a curve share their corners: dots at its edge count once.
func (p *painter) stroke(line []geom.Pt, half float64) {
	line = apart(line)
	n := len(line)
	if n < 2 {
		return
	}
	closed := n > 2 && line[0] == line[n-1]
	for i := 1; i < n; i++ {
		var before, after *geom.Pt
		switch {
		case i > 1:
			before = &line[i-2]
		case closed:
			before = &line[n-2]
		}
		switch {
		case i < n-1:
			after = &line[i+1]
		case closed:
			after = &line[1]
		}
		a, b := line[i-1], line[i]
		u, sharpA := corner(before, a, b, half)
		v, sharpB := corner(&a, b, b.Add(b.Sub(a)), half)
		if after != nil {
			v, sharpB = corner(&a, b, *after, half)
		}
		straight := b.Sub(a).Left().Mul(half / a.Dist(b))
		if sharpA {
			u = straight
		}
		if sharpB {
			v = straight
		}
		p.add([]geom.Pt{a.Sub(u), b.Sub(v), b.Add(v), a.Add(u)})
		if half > 0.6 && (before == nil || sharpA) {
			p.add(disc(a, half))
		}
		if half > 0.6 && after == nil {
			p.add(disc(b, half))
		}
	}
}

// corner returns the way from b to the left edge of a line that runs a–b–c, and whether it turns there too
// sharply for an edge without a disc.
func corner(a *geom.Pt, b, c geom.Pt, half float64) (to geom.Pt, sharp bool) {
	out := c.Sub(b).Mul(1 / b.Dist(c)).Left()
	if a == nil {
		return out.Mul(half), false
	}
	in := b.Sub(*a).Mul(1 / a.Dist(b)).Left()
	turn := in.Dot(out)
	return in.Add(out).Mul(half / (1 + turn)), turn < smooth
}

// apart returns the line without steps of no length.
func apart(line []geom.Pt) []geom.Pt {
	var out []geom.Pt
	for _, q := range line {
		if len(out) == 0 || out[len(out)-1].Dist(q) > 1e-6 {
			out = append(out, q)
		}
	}
	return out
}

// disc returns a circle as a polygon that turns as stroke's strips do.
func disc(c geom.Pt, r float64) []geom.Pt {
	n := max(8, int(math.Ceil(2*math.Pi/finest(r))))
	out := make([]geom.Pt, n)
	for i := range out {
		out[i] = c.Along(geom.Polar(2*math.Pi*float64(i)/float64(n)), r)
	}
	return out
}
