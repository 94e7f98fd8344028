package bend

import (
	"fmt"
	"math"
	"strings"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// Find tells which cap strips do not simply bend dry: a note where they bend with care, a warning where they must be
// soaked or more. Strips of one tier are told together, by the one that is bent most.
func Find(bends []Bend, doc *ribfile.Doc) []finding.Finding {
	var out []finding.Finding
	for _, tier := range []Tier{Steam, Soak, Care} {
		var worst Bend
		var parts []string
		var at []geom.Pt
		for _, b := range bends {
			if b.Tier != tier {
				continue
			}
			if len(parts) == 0 || b.Ratio < worst.Ratio {
				w := b
				w.DryFrom, w.CareFrom, w.SoakFrom = worst.DryFrom, worst.CareFrom, worst.SoakFrom
				worst = w
			}
			worst.DryFrom, worst.CareFrom, worst.SoakFrom = math.Max(worst.DryFrom, b.DryFrom), math.Max(worst.CareFrom, b.CareFrom), math.Max(worst.SoakFrom, b.SoakFrom)
			parts, at = append(parts, b.ID), append(at, b.Place)
		}
		if len(parts) > 0 {
			out = append(out, teller{doc}.strips(worst, strings.Join(parts, ", "), at))
		}
	}
	return out
}

// teller writes findings in a file's units.
type teller struct{ doc *ribfile.Doc }

func (t teller) len(mm float64) string { return t.doc.Length(mm) }

// station writes a computed station; a quarter of a percent of the chord from the nose is the leading edge.
func (t teller) station(x float64) string {
	share := x / t.doc.Rib.Chord
	if math.Abs(share) < 0.0025 {
		return "the leading edge"
	}
	return fmt.Sprintf("%s %s (%.1f %%)", t.doc.Decimal(x), t.doc.Units, 100*share)
}

// strips tells of strips of one tier; b is the one that is bent most, with the stations of all of them.
func (t teller) strips(b Bend, parts string, at []geom.Pt) finding.Finding {
	rules := t.doc.Bend
	f := finding.Finding{Severity: finding.Warning, Code: "cap-bend", Key: "cap.depth", Part: parts, At: at,
		Got: b.Radius, Limit: float64(rules.Dry * b.Depth), Unit: "mm"}
	what := fmt.Sprintf("A cap strip %s deep bends to a radius of %s at %s, %.1f times its depth", t.len(b.Depth), t.len(b.Radius), t.station(b.At), b.Ratio)
	if b.Radius == 0 {
		what = fmt.Sprintf("At %s the contour is rounder than half the depth of a cap strip %s deep", t.station(b.At), t.len(b.Depth))
	} else {
		what += fmt.Sprintf(", which stretches its fibres by %.1f %%", 100*b.Strain)
	}
	switch b.Tier {
	case Care:
		f.Severity = finding.Note
		f.Message = what + fmt.Sprintf(": it bends dry with care, and easily behind %s.", t.station(b.DryFrom))
		f.Fix = "Take strips with straight grain, try one of them, and bend them slowly over a former: draw --sheet former."
	case Soak:
		f.Message = what + fmt.Sprintf(": soak it there. Behind %s it bends dry with care, behind %s easily.", t.station(b.CareFrom), t.station(b.DryFrom))
		f.Fix = "Soak the strip's end, and let it dry on a former: draw --sheet former. Or " + t.laminate(b) + "."
	default:
		f.Message = what + fmt.Sprintf(": no strip does that but steamed or laminated. Behind %s it bends soaked, behind %s dry with care, behind %s easily.",
			t.station(b.SoakFrom), t.station(b.CareFrom), t.station(b.DryFrom))
		f.Fix = t.aroundNose(b)
	}
	return f
}

// leastLamina is the thinnest strip that a shop makes and glues, mm: common practice, no source.
const leastLamina = 0.8

// laminate says of how many strips the cap can be made that bend by themselves.
func (t teller) laminate(b Bend) string {
	radius := b.Radius + float64(b.Depth/2)
	for _, way := range []struct {
		word  string
		ratio float64
	}{{"dry", t.doc.Bend.Dry}, {"dry with care", t.doc.Bend.Care}, {"soaked", t.doc.Bend.Soak}} {
		if n := Laminations(radius, b.Depth, way.ratio); n > 0 && b.Depth/float64(n) >= leastLamina {
			return fmt.Sprintf("laminate it of %d strips of %s, which bend %s", n, t.len(b.Depth/float64(n)), way.word)
		}
	}
	return ""
}

// aroundNose says what to do with a strip that does not go round the nose.
func (t teller) aroundNose(b Bend) string {
	end := ""
	switch nose := t.doc.Nose; {
	case !nose.Present:
		end = fmt.Sprintf("give the rib a nose block to %s or further, and let the caps begin on it (from under [cap])", t.station(b.SoakFrom))
	case nose.Station > b.SoakFrom:
		end = fmt.Sprintf("let the caps begin on the nose block, at %s or behind it (from under [cap])", t.station(b.SoakFrom))
	default:
		end = fmt.Sprintf("let the nose block reach behind %s, and the caps begin there on it (from under [cap])", t.station(b.SoakFrom))
	}
	fix := strings.ToUpper(end[:1]) + end[1:] + "."
	if l := t.laminate(b); l != "" {
		return fix + " Or " + l + "."
	}
	return fix + fmt.Sprintf(" Strips thin enough to be laminated round it would be under %s.", t.len(leastLamina))
}
