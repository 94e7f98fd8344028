package wing_test

import (
	"math"
	"math/rand"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/wing"
)

// v is a point of space in the wing's axes: x aft, y up, z along the span.
type v struct{ x, y, z float64 }

// faces returns the corners of a spar's opening on its fore and its aft face, in space. The corners are found on the
// opening's outline alone: the two longest straight edges of a polygon whose other sides follow the caps in short steps.
func faces(s rib.Spar, at wing.Place) (fore, aft [2]v) {
	type edge struct{ a, b geom.Pt }
	var long []edge
	for i, p := range s.Opening {
		q := s.Opening[(i+1)%len(s.Opening)]
		if math.Abs(q.Y-p.Y) > 20 {
			long = append(long, edge{p, q})
		}
	}
	if len(long) != 2 {
		return fore, aft
	}
	if long[0].a.X > long[1].a.X {
		long[0], long[1] = long[1], long[0]
	}
	space := func(p geom.Pt) v { w := at.InWing(p); return v{w.X, w.Y, at.Span} }
	return [2]v{space(long[0].a), space(long[0].b)}, [2]v{space(long[1].a), space(long[1].b)}
}

func sub(a, b v) v              { return v{a.x - b.x, a.y - b.y, a.z - b.z} }
func dot(a, b v) float64        { return a.x*b.x + a.y*b.y + a.z*b.z }
func cross(a, b v) v            { return v{a.y*b.z - a.z*b.y, a.z*b.x - a.x*b.z, a.x*b.y - a.y*b.x} }
func unit(a v) v                { n := math.Sqrt(dot(a, a)); return v{a.x / n, a.y / n, a.z / n} }
func along(a, d v, t float64) v { return v{a.x + t*d.x, a.y + t*d.y, a.z + t*d.z} }

// A straight spar passes through all ribs of random wings: the openings' faces lie on planes to a hundredth of a millimetre,
// and a spar laid on the middle between them keeps its clearance on both sides, over the whole thickness of every
// rib. Nothing here knows how the openings were laid out: they are taken from the outlines of the ribs.
func TestStraightSparsPass(t *testing.T) {
	rnd := rand.New(rand.NewSource(2))
	for n := range 12 {
		text := randomWing(rnd)
		if n%3 == 0 { // a spar that leans in every rib
			text = strings.Replace(text, "width = 19", "width = 19, tilt = 3.5", 1)
		}
		p := plan(t, text)
		opened := map[int][][2][2]v{}
		thick := 0.0
		for _, k := range p.Kinds {
			r, found := rib.Build(k.Doc, section(t, p, k))
			for _, f := range found {
				if f.Severity == finding.Error && f.Code == "spar-no-room" {
					t.Fatalf("%s: %v\n%s", k.Name, f, text)
				}
			}
			thick = k.Doc.Cap.Width + 2*k.Doc.Gusset.Thickness
			for i, s := range r.Spars {
				fore, aft := faces(s, k.Places[0])
				if fore == aft {
					t.Fatalf("%s: no two faces on the opening of spar %d: %v", k.Name, i, s.Opening)
				}
				opened[i] = append(opened[i], [2][2]v{fore, aft})
			}
		}
		for i, all := range opened {
			spar := p.Kinds[0].Doc.Spars[i]
			first, last := all[0], all[len(all)-1]
			// The middle plane through both ends of the wing.
			a, b := along(first[0][0], sub(first[1][0], first[0][0]), 0.5), along(last[0][0], sub(last[1][0], last[0][0]), 0.5)
			up := unit(sub(first[0][1], first[0][0]))
			normal := unit(cross(up, sub(b, a)))
			if normal.x < 0 {
				normal = v{-normal.x, -normal.y, -normal.z}
			}
			for f := range 2 {
				worst := 0.0
				for _, o := range all {
					for _, q := range o[f] {
						worst = math.Max(worst, math.Abs(dot(normal, sub(q, first[f][0]))))
					}
				}
				if worst > 0.01 {
					t.Errorf("wing %d: face %d of spar %d is %.4f mm off its plane\n%s", n, f, i, worst, text)
				}
			}
			for _, o := range all {
				for f, sign := range []float64{-1, 1} {
					// The opening runs square through the rib; the spar comes nearest at one of the rib's faces.
					for _, q := range o[f] {
						for _, dz := range []float64{-thick / 2, thick / 2} {
							q.z += dz
							gap := sign*dot(normal, sub(q, a)) - spar.Width/2
							q.z -= dz
							if gap < spar.Clearance*math.Abs(normal.x)-0.01 {
								t.Errorf("wing %d: spar %d has %.4f mm of clearance, want %.3f\n%s", n, i, gap, spar.Clearance, text)
							}
						}
					}
				}
			}
		}
	}
}
