package fasten

import (
	"math"

	"ribwright/geom"
)

// place is a place along a member: s from the plate's middle.
type place struct {
	s          float64
	mid, grain geom.Pt // on the spine, and its direction

	tried bool
	at    geom.Pt   // beside mid
	legs  []geom.Pt // none: no fastener finds room
}

// row is the places along a member under a plate, for crowns that lean to the grain by an angle. They are tried as they are asked for, most of them never.
type row struct {
	*hunt
	all  []place
	half float64 // from the spine to the member's sides
	lean float64 // radians

	grain, crown geom.Pt // of the last place: half a crown
}

// at returns a place, with the fastener that stands there as near to the middle of the member as it may.
func (r *row) at(i int) *place {
	c := &r.all[i]
	if c.tried {
		return c
	}
	c.tried = true
	if c.grain != r.grain {
		r.grain, r.crown = c.grain, geom.Polar(c.grain.Angle()+r.lean).Mul(r.set.Crown/2)
	}
	var from [2]float64 // on either side: nearer to the middle none stands
	for k := 0; float64(k)*stepAcross <= r.half; k = max(k+1, int(min(from[0], from[1])/stepAcross)) {
		off := float64(float64(k) * stepAcross)
		for n, side := range [2]float64{1, -1} {
			if off < from[n] || off == 0 && n == 1 {
				continue
			}
			c.at = c.mid.Along(c.grain.Left(), float64(side*off))
			far := 0.0
			if c.legs, far = r.fits(c.at, r.crown); c.legs != nil {
				return c
			}
			from[n], from[1-n] = off+far, max(from[1-n], far-off)
		}
	}
	return c
}

// choose returns the most fasteners that keep the spacing. Packed to either end they bound where each may stand; each
// takes the place nearest to the middle between.
func (r *row) choose() []Fastener {
	left, right := r.pack(0, 1), r.pack(len(r.all)-1, -1)
	var out []Fastener
	if n := len(left); len(right) == n {
		for i, l := range left {
			c := r.between(l, right[n-1-i], out)
			if c == nil {
				out = nil
				break
			}
			out = append(out, Fastener{At: c.at, Legs: c.legs})
		}
	}
	if out == nil {
		for _, l := range left {
			out = append(out, Fastener{At: r.all[l].at, Legs: r.all[l].legs})
		}
	}
	return out
}

// pack takes the first place in one direction, and each further one that keeps the spacing from the one before.
func (r *row) pack(i, by int) []int {
	var out []int
	var last *place
	for ; i >= 0 && i < len(r.all); i += by {
		if last != nil && r.all[i].mid.Dist(last.at)+r.half < r.set.Spacing {
			continue
		}
		if c := r.at(i); c.legs != nil && (last == nil || c.at.Dist(last.at) >= r.set.Spacing) {
			out, last = append(out, i), c
		}
	}
	return out
}

// between returns the place nearest to the middle between two others that keeps the spacing from the last one taken; of two, the inner one.
func (r *row) between(l, h int, taken []Fastener) *place {
	mid := float64((r.all[l].s + r.all[h].s) / 2)
	up := l
	for up <= h && r.all[up].s < mid {
		up++
	}
	for down := up - 1; down >= l || up <= h; {
		i := up
		if up > h || down >= l && r.inner(down, up, mid) {
			i = down
			down--
		} else {
			up++
		}
		if c := r.at(i); c.legs != nil && (len(taken) == 0 || c.at.Dist(taken[len(taken)-1].At) >= r.set.Spacing) {
			return c
		}
	}
	return nil
}

// inner reports whether the lower one of two places is nearer to s, or as near and no further from the plate's middle.
func (r *row) inner(down, up int, s float64) bool {
	a, b := s-r.all[down].s, r.all[up].s-s
	return a < b || a == b && math.Abs(r.all[down].s) <= math.Abs(r.all[up].s)
}
