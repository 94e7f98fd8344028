package bend

import (
	"fmt"
	"math"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// FindSkins tells which plywood skins are bent round the nose more than FAA AC 43.13-1B Table 1-2 recommends. upper
// and lower are the rib's contour, nose to tail, with the skins taken off: it is what the sheet lies on, as on the
// table's mandrel.
func FindSkins(upper, lower []geom.Pt, doc *ribfile.Doc) []finding.Finding {
	var out []finding.Finding
	t := teller{doc}
	for i, k := range doc.Section.Skins {
		if k.From > geom.Flat || k.Grain == "none" {
			continue
		}
		edge := edgeUnder(upper, lower, k)
		radius, place := leastRadius(edge)
		if math.IsInf(radius, 1) {
			continue
		}
		s := Sheet{Thickness: k.Thickness, Plies: k.Plies, Along: k.Grain != "chord", Wet: k.Bend == "soaked"}
		if f, told := t.skin(s, radius, place); told {
			f.Key, f.Part = fmt.Sprintf("section.skin[%d].%s", i, f.Key), "skin"
			out = append(out, f)
		}
	}
	return out
}

// skin tells of one sheet on a radius, with the key within the skin's table.
func (t teller) skin(s Sheet, radius float64, place geom.Pt) (finding.Finding, bool) {
	f := finding.Finding{Severity: finding.Note, Code: "skin-bend", Key: "thickness", At: []geom.Pt{place}}
	least, from, to, ok := s.LeastRadius()
	how := fmt.Sprintf("plywood of %s and %d plies", t.len(s.Thickness), s.plies())
	if !ok && s.Thickness < from && radius >= s.thinnest() {
		return f, false // thinner sheet bends more easily
	}
	if !ok {
		f.Message = fmt.Sprintf("The skin bends to a radius of %s at %s; FAA AC 43.13-1B, Table 1-2 does not say whether %s does that.",
			t.len(radius), t.station(place.X), how)
		f.Fix = "Bend a piece of the sheet over a form of that radius before you rely on it."
		if to > 0 {
			f.Message += fmt.Sprintf(" With these plies it holds for %s to %s.", t.len(from), t.len(to))
		}
		f.Got, f.Limit, f.Unit = s.Thickness, from, "mm"
		if s.Thickness > to {
			f.Limit = to
		}
		return f, true
	}
	if radius >= least {
		return f, false
	}
	f.Severity, f.Key = finding.Warning, "bend"
	f.Message = fmt.Sprintf("The skin bends to a radius of %s at %s. For %s, %s, FAA AC 43.13-1B, Table 1-2 recommends no less than %s%s.",
		t.len(radius), t.station(place.X), how, s.manner(), t.len(least), s.between())
	f.Fix = t.otherSheet(s, radius)
	f.Got, f.Limit, f.Unit = radius, least, "mm"
	return f, true
}

// thinnest returns the table's radius for the thinnest sheet of the plies.
func (s Sheet) thinnest() float64 {
	for _, p := range plywoods {
		if p.plies == s.plies() {
			return s.radius(p)
		}
	}
	return math.Inf(1)
}

// manner says how the sheet is bent.
func (s Sheet) manner() string {
	out := "bent dry"
	if s.Wet {
		out = "soaked in hot water"
	}
	if s.Along {
		return out + ", its face grain along the span or up to 45° from it"
	}
	return out + ", its face grain along the chord"
}

// between says that the radius stands between two of the table's.
func (s Sheet) between() string {
	for _, p := range plywoods {
		if p.plies == s.plies() && math.Abs(p.thickness-s.Thickness) <= slack {
			return ""
		}
	}
	return " (between two of its thicknesses)"
}

// otherSheet says which way of bending, or which thickness of the table, follows the radius.
func (t teller) otherSheet(s Sheet, radius float64) string {
	for _, try := range []struct {
		s    Sheet
		says string
	}{
		{Sheet{s.Thickness, s.Plies, true, s.Wet}, "Lay the sheet with its face grain along the span (grain = \"span\")"},
		{Sheet{s.Thickness, s.Plies, s.Along, true}, "Soak the sheet in hot water (bend = \"soaked\"), and let it dry on a form"},
		{Sheet{s.Thickness, s.Plies, true, true}, "Lay the sheet with its face grain along the span, soak it in hot water, and let it dry on a form"},
	} {
		if try.s == s {
			continue
		}
		if least, _, _, ok := try.s.LeastRadius(); ok && radius >= least {
			return fmt.Sprintf("%s: then it follows %s.", try.says, t.len(least))
		}
	}
	thin := 0.0
	for _, p := range plywoods {
		if (Sheet{Along: true, Wet: true}).radius(p) <= radius && p.thickness < s.Thickness {
			thin = math.Max(thin, p.thickness)
		}
	}
	if thin == 0 {
		return "No plywood of the table follows this radius: make the nose of a shaped block or strip, and let the skin begin behind it."
	}
	return fmt.Sprintf("Take thinner sheet: %s, its face grain along the span and soaked in hot water, follows this radius. Or lay two thin sheets, one glued over the other.", t.len(thin))
}

// edgeUnder returns the contour under a skin, in one chain round the nose where it lies on both sides.
func edgeUnder(upper, lower []geom.Pt, k ribfile.Skin) []geom.Pt {
	side := func(pts []geom.Pt) []geom.Pt {
		for i, p := range pts {
			if p.X > k.To && i > 1 {
				return pts[:i]
			}
		}
		return pts
	}
	switch k.Side {
	case "upper":
		return side(upper)
	case "lower":
		return side(lower)
	}
	var out []geom.Pt
	up := side(upper)
	for i := len(up) - 1; i >= 0; i-- {
		out = append(out, up[i])
	}
	for _, p := range side(lower) {
		if len(out) == 0 || p.Dist(out[len(out)-1]) > geom.Coincident {
			out = append(out, p)
		}
	}
	return out
}

// onChord is the turn, radians, below which a point was only set on the chord between its neighbours, such as the one
// on which the sides part.
const onChord = 1e-6

// leastRadius returns the least radius of a curve and its place: of the circle through three neighbours. Corners do
// not count.
func leastRadius(all []geom.Pt) (r float64, place geom.Pt) {
	var pts []geom.Pt
	for i, p := range all {
		if i == 0 || i == len(all)-1 || math.Abs(turn(p.Sub(all[i-1]), all[i+1].Sub(p))) > onChord {
			pts = append(pts, p)
		}
	}
	r = math.Inf(1)
	for i := 1; i+1 < len(pts); i++ {
		u, v := pts[i].Sub(pts[i-1]), pts[i+1].Sub(pts[i])
		cross := math.Abs(u.Cross(v))
		if cross == 0 || math.Abs(turn(u, v)) > corner {
			continue
		}
		if q := u.Len() * v.Len() * u.Add(v).Len() / (2 * cross); q < r {
			r, place = q, pts[i]
		}
	}
	return r, place
}
