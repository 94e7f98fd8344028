package pdf_test

import (
	"bytes"
	"compress/zlib"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"ribwright/geom"
)

// A small reader of the files that Write makes: it finds the pages' contents and their paths.

// contents returns the operators of every page.
func contents(t testing.TB, b []byte) []string {
	t.Helper()
	var out []string
	for _, m := range regexp.MustCompile(`/Length (\d+) /Filter /FlateDecode >>\nstream\n`).FindAllSubmatchIndex(b, -1) {
		n, _ := strconv.Atoi(string(b[m[2]:m[3]]))
		if !bytes.HasPrefix(b[m[1]+n:], []byte("\nendstream")) {
			t.Fatal("the length of a stream is wrong")
		}
		r, err := zlib.NewReader(bytes.NewReader(b[m[1] : m[1]+n]))
		if err != nil {
			t.Fatal(err)
		}
		s, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, string(s))
	}
	return out
}

// step is a line or a cubic curve.
type step struct {
	c1, c2, end geom.Pt
	curve       bool
}

// outline is one contour as it stands in a page.
type outline struct {
	start  geom.Pt
	steps  []step
	closed bool
}

// read returns the contours of a page that holds lines and areas, no text and no clip.
func read(t testing.TB, content string) []outline {
	t.Helper()
	var out []outline
	for _, l := range strings.Split(strings.TrimSpace(content), "\n") {
		f := strings.Fields(l)
		var v []float64
		for _, s := range f[:len(f)-1] {
			if x, err := strconv.ParseFloat(s, 64); err == nil {
				v = append(v, x)
			}
		}
		k := len(out) - 1
		switch f[len(f)-1] {
		case "m":
			out = append(out, outline{start: geom.Pt{X: v[0], Y: v[1]}})
		case "l":
			out[k].steps = append(out[k].steps, step{end: geom.Pt{X: v[0], Y: v[1]}})
		case "c":
			out[k].steps = append(out[k].steps, step{geom.Pt{X: v[0], Y: v[1]}, geom.Pt{X: v[2], Y: v[3]}, geom.Pt{X: v[4], Y: v[5]}, true})
		case "h":
			out[k].closed = true
		case "cm", "w", "j", "G", "g", "d", "S", "f*":
		default:
			t.Fatalf("operator %q", l)
		}
	}
	return out
}

// at returns the point of a curve from a at the share u.
func (s step) at(a geom.Pt, u float64) geom.Pt {
	v := 1 - u
	return a.Mul(v*v*v).Along(s.c1, 3*u*v*v).Along(s.c2, 3*u*u*v).Along(s.end, u*u*u)
}

// measure returns length and area. The area of a cubic curve is exact; the length is summed over chords
// of pieces of 45° at most, each twice, and bettered by Richardson's rule.
func (o outline) measure() (length, area float64) {
	at := o.start
	for _, s := range o.steps {
		if !s.curve {
			length += at.Dist(s.end)
			area += at.Cross(s.end) / 2
			at = s.end
			continue
		}
		chords := func(n int) float64 {
			l, p := 0.0, at
			for i := range n {
				q := s.at(at, float64(i+1)/float64(n))
				l += p.Dist(q)
				p = q
			}
			return l
		}
		l1, l2 := chords(16), chords(32)
		length += l2 + (l2-l1)/3
		area += (6*at.Cross(s.c1) + 3*at.Cross(s.c2) + at.Cross(s.end) + 3*s.c1.Cross(s.c2) + 3*s.c1.Cross(s.end) + 6*s.c2.Cross(s.end)) / 20
		at = s.end
	}
	if o.closed {
		length += at.Dist(o.start)
	}
	return length, area + at.Cross(o.start)/2
}

// stray returns how far the curves of a circle leave it.
func (o outline) stray(c geom.Pt, r float64) float64 {
	worst, at := 0.0, o.start
	for _, s := range o.steps {
		for i := range 65 {
			worst = math.Max(worst, math.Abs(s.at(at, float64(i)/64).Dist(c)-r))
		}
		at = s.end
	}
	return worst
}
