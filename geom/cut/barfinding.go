package cut

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// Find tells what is to be known before anything is planned: caps that are scarfed, pieces that are longer than every
// bar, and pieces for which no bars are named.
func (b Bars) Find(doc *ribfile.Doc) []finding.Finding {
	key := barKey(doc)
	out := b.findScarfs(doc, b.Scarfs)
	for _, j := range b.Jobs {
		var which []string
		var longest BarPiece
		for _, p := range j.Pieces {
			if p.Length > b.longest(j)+geom.Step {
				which = append(which, p.Name())
				if p.Length > longest.Length {
					longest = p
				}
			}
		}
		if len(which) > 0 {
			out = append(out, finding.Finding{Severity: finding.Warning, Code: "stock-bar-short", Key: key, Part: names(which), Got: longest.Length, Limit: b.longest(j), Unit: "mm",
				Message: fmt.Sprintf("No bar holds %s of %s: it needs %s, and the longest bar has %s between its trimmed ends.", names(which), j.Wood(doc), doc.Length(up(longest.Length)), doc.Length(b.longest(j))),
				Fix:     fmt.Sprintf("Name a bar of %s or longer under [[stock.bar]].", doc.Length(up(longest.Length+float64(2*b.Stock.Trim))))})
		}
		if len(j.Kinds) == 1 && j.Kinds[0].Assumed && len(doc.Stock.Bars) > 0 {
			out = append(out, finding.Finding{Severity: finding.Note, Code: "stock-bar-assumed", Key: key, Part: j.Of,
				Message: fmt.Sprintf("No bar is named for the %s: bars of %s are reckoned with, as many as needed.", j.Of, j.Kinds[0].Name),
				Fix:     fmt.Sprintf("Name one under [[stock.bar]] with of = %q, or let another serve both.", j.Of)})
		}
	}
	return out
}

// FindScarfs tells of the scarfs of one entry of the set, with their places on its rib.
func (b Bars) FindScarfs(doc *ribfile.Doc, entry int) []finding.Finding {
	return b.findScarfs(doc, slices.DeleteFunc(slices.Clone(b.Scarfs), func(s Scarf) bool { return s.Entry != entry }))
}

// barKey is the key that findings about bars are about.
func barKey(doc *ribfile.Doc) string {
	if len(doc.Stock.Bars) == 0 {
		return "stock"
	}
	return "stock.bar"
}

// up rounds a length up to a whole millimetre.
func up(mm float64) float64 { return math.Ceil(mm - geom.Step) }

// longest is the longest that a job's bars hold.
func (b Bars) longest(j BarJob) float64 {
	l := 0.0
	for _, k := range j.Kinds {
		l = math.Max(l, b.usable(k))
	}
	return l
}

// findScarfs tells of scarfs: all that are clear of joints together, and those that are not.
func (b Bars) findScarfs(doc *ribfile.Doc, all []Scarf) []finding.Finding {
	var out []finding.Finding
	for _, fouls := range []bool{false, true} {
		var places, parts []string
		var at []geom.Pt
		worst, length := 0.0, 0.0
		for _, s := range all {
			if (s.Foul > geom.Step) != fouls {
				continue
			}
			place := doc.Decimal(s.From) + " to " + doc.Decimal(s.To)
			if n := len(parts); n > 0 && parts[n-1] == s.Part {
				places[n-1] += ", " + place
			} else {
				places, parts = append(places, s.Part+" from station "+place), append(parts, s.Part)
			}
			at = append(at, s.At)
			worst, length = math.Max(worst, s.Foul), s.Length
		}
		if len(parts) == 0 {
			continue
		}
		f := finding.Finding{Severity: finding.Warning, Code: "cap-scarf", Key: barKey(doc), Part: names(parts), At: at,
			Message: fmt.Sprintf("Caps are longer than the bars, and are scarfed over %s, %g times their depth: %s (%s).", doc.Length(length), doc.Stock.Scarf, strings.Join(few(places), "; "), doc.Units),
			Fix:     "Let the plans or the inspector allow the scarfs and their places, or name bars that hold the caps whole under [[stock.bar]]."}
		if fouls {
			f.Code, f.Got, f.Limit, f.Unit = "cap-scarf-joint", worst, 0, "mm"
			f.Message = fmt.Sprintf("No place clear of plates and spars is left for scarfs of %s: %s (%s); up to %s of one lies there.", doc.Length(length), strings.Join(few(places), "; "), doc.Units, doc.Length(worst))
			f.Fix = "Name longer bars under [[stock.bar]], so that the scarfs can lie between the joints; or smaller plates."
		}
		out = append(out, f)
	}
	return out
}

// few keeps the first of many places.
func few(places []string) []string {
	const most = 6
	if len(places) > most {
		return append(places[:most:most], "…")
	}
	return places
}

// Counted reports whether bars are counted, so that only the plan tells whether they suffice.
func (b Bars) Counted() bool {
	for _, j := range b.Jobs {
		for _, k := range j.Kinds {
			if k.Count > 0 {
				return true
			}
		}
	}
	return false
}

// FindShort tells of bars that do not suffice, once they are planned.
func (b Bars) FindShort(doc *ribfile.Doc) []finding.Finding {
	var out []finding.Finding
	for _, j := range b.Jobs {
		if j.Err != nil {
			out = append(out, finding.Finding{Severity: finding.Warning, Code: "stock-no-plan", Key: "rib.count", Part: j.Of,
				Message: fmt.Sprintf("No plan is made for the bars of %s: %v.", j.Wood(doc), j.Err), Fix: "Plan a smaller set at a time."})
			continue
		}
		n, all := 0, 0
		var ids []string
		for i, m := range j.Plan.Missing {
			all += j.Pieces[i].Count
			if m > 0 {
				n += m
				ids = append(ids, j.Pieces[i].Name())
			}
		}
		if n == 0 {
			continue
		}
		out = append(out, finding.Finding{Severity: finding.Warning, Code: "stock-short", Key: "stock.bar", Part: ids[0], Got: float64(all - n), Limit: float64(all), Unit: "pieces",
			Message: fmt.Sprintf("The bars in stock are too few: %d of %d pieces of %s find no place (of %s).", n, all, j.Wood(doc), names(ids)),
			Fix:     fmt.Sprintf("%d more of the longest would do; or leave out a bar's count: then as many are taken as are needed.", j.Plan.Short)})
	}
	return out
}
