package rib

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// hair is the length below which an edge of a trimmed stick is no saw cut: far below a saw's kerf.
const hair = 0.05

// measure fills in the stick's length and the cuts at its ends.
func (b *builder) measure(s *Stick, sh geom.Shape, ends []curved) {
	if len(sh.Ring) == 0 {
		return
	}
	u := s.Axis[1].Sub(s.Axis[0]).Unit()
	n := u.Left()
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range sh.Ring {
		lo, hi = math.Min(lo, u.Dot(p)), math.Max(hi, u.Dot(p))
	}
	s.LongPoint = hi - lo
	for i, p := range sh.Ring {
		q := sh.Ring[(i+1)%len(sh.Ring)]
		if sh.Tags[i] == tagSide || p.Dist(q) < hair {
			continue
		}
		m, e := p.Lerp(q, 0.5), 0
		if u.Dot(m) > (lo+hi)/2 {
			e = 1
		}
		d := q.Sub(p)
		if d.Dot(n) < 0 {
			d = d.Mul(-1)
		}
		c := Cut{Angle: math.Atan2(n.Cross(d), n.Dot(d)), A: p, B: q, Against: b.tagName(sh.Tags[i])}
		s.Ends[e].Cuts = append(s.Ends[e].Cuts, c)
		s.Ends[e].Gap = math.Max(s.Ends[e].Gap, gap(c, sh.Tags[i], ends))
	}
	for e := range s.Ends {
		slices.SortStableFunc(s.Ends[e].Cuts, func(a, c Cut) int {
			return cmp.Compare(n.Dot(a.A.Add(a.B)), n.Dot(c.A.Add(c.B)))
		})
	}
}

// gap returns the largest opening between a straight cut and the curve it stands against, along the cut.
func gap(c Cut, tag int, ends []curved) float64 {
	worst := 0.0
	for _, e := range ends {
		if e.tag != tag || math.Abs(e.cut.Off(c.A)) > geom.Step {
			continue
		}
		d, l := c.B.Sub(c.A).Unit(), c.A.Dist(c.B)
		for i := 1; i < len(e.curve); i++ {
			p, q := e.curve[i-1], e.curve[i]
			u, v := p.Sub(c.A).Dot(d), q.Sub(c.A).Dot(d)
			for _, t := range []float64{0, l} { // the cut's own ends
				if (u-t)*(v-t) < 0 {
					worst = math.Max(worst, e.cut.Off(p.Lerp(q, (t-u)/(v-u))))
				}
			}
			if u >= 0 && u <= l {
				worst = math.Max(worst, e.cut.Off(p))
			}
			if v >= 0 && v <= l {
				worst = math.Max(worst, e.cut.Off(q))
			}
		}
	}
	return worst
}

func (b *builder) tagName(tag int) string {
	switch {
	case tag >= tagSticks:
		return fmt.Sprintf("S%d", tag-tagSticks+1)
	case tag >= tagSpars:
		return "spar " + b.Spars[tag-tagSpars].Name
	}
	switch tag {
	case tagUpper:
		return CapUpper
	case tagLower:
		return CapLower
	case tagNose:
		if !b.hasBlock(BlockNose) {
			return "leading edge"
		}
		return BlockNose
	case tagTail:
		if b.hasBlock(BlockTail) {
			return BlockTail
		}
	}
	return "trailing edge"
}

// checkStick notes sticks that are hard to build: very short ones, ends that never reach their joint, and
// cuts that leave a feather.
func (b *builder) checkStick(s *Stick, key string) {
	if len(s.Outline) == 0 {
		return
	}
	f := finding.Finding{Severity: finding.Warning, Key: key, Part: s.ID, At: s.Axis[:], Unit: "mm"}
	if s.LongPoint < 2*b.StickDepth {
		f.Code, f.Got, f.Limit = "stick-short", s.LongPoint, 2*b.StickDepth
		f.Message = fmt.Sprintf("Stick %s is only %s long, for a depth of %s.", s.ID, b.len(s.LongPoint), b.len(b.StickDepth))
		f.Fix = "Leave it out, or use fewer panels."
		b.find(f)
	}
	if w := extent(s.Outline, s.Axis[1].Sub(s.Axis[0]).Unit().Left()); s.Kind == Post && w < b.StickDepth-hair {
		b.find(finding.Finding{Severity: finding.Error, Code: "post-no-room", Key: key, Part: s.ID, At: s.Axis[:], Got: w, Limit: b.StickDepth, Unit: "mm",
			Message: fmt.Sprintf("Post %s has only %s of room beside the spar, and is %s deep.", s.ID, b.len(w), b.len(b.StickDepth)),
			Fix:     "Move the spar or the block, or give the spar posts = false."})
	}
	short := 0
	for e, id := range []string{s.From, s.To} {
		f.At = []geom.Pt{s.Axis[e]}
		if s.Ends[e].Gap > gapMost {
			f.Code, f.Got, f.Limit, f.Unit = "gap-wide", s.Ends[e].Gap, gapMost, "mm"
			f.Message = fmt.Sprintf("A straight cut of stick %s at %s leaves a gap of %s against the curved cap.", s.ID, id, b.len(s.Ends[e].Gap))
			f.Fix = "Sand the end to the cap's curve, or move the joint to where the cap is straighter."
			b.find(f)
		}
		if len(s.Ends[e].Cuts) == 0 {
			b.find(finding.Finding{Severity: finding.Error, Code: "stick-no-end", Key: key, Part: s.ID, At: f.At,
				Message: fmt.Sprintf("Stick %s has no end that could be sawn at %s: the rib is too shallow for it there.", s.ID, id),
				Fix:     "Leave it out, or let it end where the caps stand further apart."})
			continue
		}
		far := math.Inf(1)
		for _, c := range s.Ends[e].Cuts {
			far = math.Min(far, geom.Distance(s.Axis[e], []geom.Pt{c.A, c.B}, false))
			if a := math.Abs(c.Angle); a > feather {
				f.Code, f.Got, f.Limit, f.Unit = "cut-feather", a*180/math.Pi, feather*180/math.Pi, "deg"
				f.Message = fmt.Sprintf("The cut of stick %s at %s is %.0f degrees from square: it leaves a feather edge.", s.ID, id, f.Got)
				f.Fix = "Move the stick's other end, so that it stands steeper."
				if strings.HasPrefix(c.Against, "S") {
					f.Fix = "Use fewer panels, or move the ends, so that it meets " + c.Against + " at a wider angle."
				}
				b.find(f)
			}
		}
		if far > 4*b.StickDepth {
			f.Code, f.Got, f.Limit, f.Unit = "stick-cut-short", far, 4*b.StickDepth, "mm"
			f.Message = fmt.Sprintf("Stick %s ends %s before joint %s: another stick or a spar is in its way.", s.ID, b.len(far), id)
			f.Fix = "Move one of its ends, or leave it out."
			b.find(f)
			short++
		}
	}
	if short == 2 {
		b.find(finding.Finding{Severity: finding.Error, Code: "stick-adrift", Key: key, Part: s.ID, At: s.Axis[:],
			Message: fmt.Sprintf("Stick %s reaches neither of its joints, %s and %s: the sticks it crosses leave only a piece between them.", s.ID, s.From, s.To),
			Fix:     "Let it end where it meets another stick, or leave it out."})
	}
}

// feather is the angle from square above which a cut is called out, radians (75 degrees; common practice, no source).
const feather = 75 * math.Pi / 180

// gapMost is the widest gap of a butt joint that is passed over: 0.015 in (common practice, no source).
const gapMost = 0.015 * ribfile.MMPerInch
