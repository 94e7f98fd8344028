// Package takeoff counts: the cut list, glue areas, adhesive and masses of a rib and of the set, and the
// report that holds them with the outlines.
//
// Lengths are millimetres, areas mm², masses g, densities kg/m³ (wood) and g/cm³ (adhesive), angles
// radians inside and degrees in the report. It lays nothing out and prints nothing.
package takeoff

import (
	"cmp"
	"slices"
	"strings"

	"ribwright/geom/bend"
	"ribwright/geom/fasten"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// TakeOff is the quantities of one rib; lists of the set multiply them by Count.
type TakeOff struct {
	Count     int // ribs in the set
	Sticks    []StickGroup
	Plates    []PlateGroup
	Glue      Glue
	Adhesive  Adhesive
	Sides     [2]Adhesive // for the first side (its plates or its web, all butts, the caps on each other and the strips of doubled sticks) and the second
	Right     [2]Adhesive // Sides of ribs that are built as mirror images, with plates and web on the other faces
	Spots     []Spot      // the same by joint and side
	Fasteners fasten.Pattern
	Mass      Mass
	Bends     []bend.Bend // of the caps, the upper one first
	Coupon    Coupon      // of each batch of adhesive, which is in none of the sums above
}

// Of returns the quantities of a rib.
func Of(r *rib.Rib, doc *ribfile.Doc) TakeOff {
	t := TakeOff{Count: r.Count, Sticks: groupSticks(r), Plates: groupPlates(r), Glue: glue(r)}
	t.Adhesive = Spread(doc.Adhesive, t.Glue.TotalMM2-t.Glue.ButtMM2, t.Glue.ButtMM2)
	t.Sides, t.Right = sides(doc, t.Glue, 0), sides(doc, t.Glue, 1)
	t.Spots = spots(r, doc.Adhesive, t.Glue)
	t.Fasteners = fasten.Of(r, doc)
	t.Mass = mass(r, doc, t)
	t.Coupon = CouponOf(doc)
	for _, s := range Strips(r) {
		t.Bends = append(t.Bends, bend.Of(s, doc.Bend))
	}
	return t
}

// sides returns what the first and the second side take, where a face is up in the jig.
func sides(doc *ribfile.Doc, g Glue, up int) [2]Adhesive {
	return [2]Adhesive{Spread(doc.Adhesive, g.FaceMM2[up]+g.WebMM2[up]+g.CapsMM2+g.PliesMM2, g.ButtMM2), Spread(doc.Adhesive, g.FaceMM2[1-up]+g.WebMM2[1-up], 0)}
}

// Side returns what a side of a left or a right rib takes: 0 is the first one.
func (t TakeOff) Side(right bool, side int) Adhesive {
	if right {
		return t.Right[side]
	}
	return t.Sides[side]
}

// Strips returns the caps as strips to be bent, the upper one first.
func Strips(r *rib.Rib) []bend.Strip {
	var out []bend.Strip
	for _, c := range r.Caps {
		out = append(out, bend.Strip{ID: c.ID, Depth: r.CapDepth, Edge: c.Edge, Radius: c.RadiusMin, RadiusAt: c.RadiusMinAt})
	}
	return out
}

// Glue is the areas to be glued, mm².
type Glue struct {
	FaceMM2   [2]float64 // plates on the first and on the second face
	GussetMM2 float64    // plates, every face
	WebMM2    [2]float64 // the web on the first and on the second face
	ButtMM2   float64    // stick ends and blocks
	CapsMM2   float64    // the caps on each other, at nose and tail
	PliesMM2  float64    // the strips of doubled sticks on each other
	TotalMM2  float64
}

func glue(r *rib.Rib) Glue {
	var g Glue
	for _, p := range r.Gussets {
		for _, k := range SortedKeys(p.GlueMM2) {
			for _, f := range p.On() {
				g.FaceMM2[f] += p.GlueMM2[k]
			}
		}
	}
	for _, f := range r.Web.On() {
		g.WebMM2[f] = Sum(r.Web.GlueMM2)
	}
	for _, j := range r.Joints {
		for _, k := range SortedKeys(j.ButtMM2) {
			g.ButtMM2 += j.ButtMM2[k]
		}
	}
	g.GussetMM2 = g.FaceMM2[0] + g.FaceMM2[1]
	g.CapsMM2 = r.CapsMeetMM2
	for _, s := range r.Sticks {
		g.PliesMM2 += s.PliesMM2
	}
	g.TotalMM2 = g.GussetMM2 + g.WebMM2[0] + g.WebMM2[1] + g.ButtMM2 + g.CapsMM2 + g.PliesMM2
	return g
}

// Sum adds areas by member, in their order.
func Sum(m map[string]float64) float64 {
	sum := 0.0
	for _, k := range SortedKeys(m) {
		sum += m[k]
	}
	return sum
}

// SortedKeys returns a map's keys: blocks, caps, then sticks, S2 before S10.
func SortedKeys(m map[string]float64) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, func(a, b string) int {
		p, i := splitNumber(a)
		q, j := splitNumber(b)
		return cmp.Or(cmp.Compare(strings.ToLower(p), strings.ToLower(q)), cmp.Compare(i, j), cmp.Compare(a, b))
	})
	return keys
}

// splitNumber parts a name such as S12 into its letters and its number.
func splitNumber(s string) (string, int) {
	i, n := len(s), 0
	for i > 0 && s[i-1] >= '0' && s[i-1] <= '9' {
		i--
	}
	for _, c := range s[i:] {
		n = 10*n + int(c-'0')
	}
	return s[:i], n
}
