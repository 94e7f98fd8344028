package ribfile

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"ribwright/geom/finding"
)

var (
	nacaDigits = regexp.MustCompile(`^[0-9]{4,5}(-[0-9]{2})?$`)
	sources    = []string{"naca", "builtin", "file", "ordinates"}
)

// mostFair is the largest limit of fairing, mm: what moves further is another section.
const mostFair = 10

func (r *reader) section(t tab) {
	s := &r.doc.Section
	r.oneSource(t)
	if v := t.get("naca"); v != nil && (v.kind == wholeKind || v.kind == decimalKind) {
		t.wrongType(v, "text in quotation marks", "naca = "+quote(v.raw))
	} else if text, ok := t.text("naca", "", `naca = "4412"`); ok && v != nil {
		if !nacaDigits.MatchString(text) {
			r.tell(CodeNACAUnreadable, v.key, v.at, quote(text)+" is not the number of a NACA section.", `Write its digits only, such as "4412", "23012" or "0012-64".`)
		} else {
			s.NACA = text
		}
	}
	s.Builtin, _ = t.text("builtin", "", `builtin = "clark-y"`)
	if text, ok := t.text("file", "", `file = "section.dat"`); ok && text != "" {
		v := t.get("file")
		if strings.HasPrefix(text, "/") || strings.Contains(text, `\`) || strings.Contains(text, ":") || strings.Contains("/"+text+"/", "/../") {
			r.tell(CodeFileName, v.key, v.at, "The section's table "+quote(text)+" does not lie beside the rib file.", `Put it in the rib file's folder and write its name alone, such as "section.dat".`)
		} else {
			s.File = text
		}
	}
	s.OrdinateUnit = t.choice("ordinate_unit", defaultOrdinate, "percent", "length")
	r.ordinates(t)
	r.shape(t)
	s.Fair, _ = t.length("fair", 0, limit{min: 0, above: true, max: mostFair})
	if t.v != nil {
		for _, skin := range r.tableList("section.skin", "skin", t.v) {
			s.Skins = append(s.Skins, r.skin(skin))
		}
	}
}

func (r *reader) oneSource(t tab) {
	var given []*value
	for _, key := range sources {
		if t.has(key) {
			given = append(given, t.v.fields[key])
		}
	}
	const one = "Give exactly one of naca, builtin, file and ordinates under [section]."
	switch {
	case len(given) == 0 && t.v != nil:
		r.tell(CodeSectionSource, "section", t.v.at, "[section] does not say where the section comes from.", one+` For instance naca = "4412".`)
	case len(given) == 0 && (tab{r, r.root, ""}).get("section") == nil:
		r.tell(CodeSectionSource, "section", 0, "The file does not say what section the rib has.", one+` For instance naca = "4412".`)
	case len(given) > 1:
		// The one that stands later in the file is told of: it is the likelier slip.
		for i := range given {
			if given[i].at > given[0].at {
				given[0], given[i] = given[i], given[0]
			}
		}
		v := given[0]
		r.tell(CodeSectionSource, v.key, v.at, "[section] names more than one source of the section.", one)
	}
}

// ordinates reads the rows of station, upper, lower.
func (r *reader) ordinates(t tab) {
	v := t.get("ordinates")
	if v == nil {
		return
	}
	if v.kind != listKind {
		t.wrongType(v, "a list of rows", "ordinates = [[0, 0, 0], [1.25, 2.44, -1.43], …]")
		return
	}
	items := v.items
	if len(items) > 2000 {
		f := r.tell(CodeTooMany, v.key, items[2000].at, fmt.Sprintf("The table has %d rows; at most 2000 are read.", len(items)), "Leave rows out.")
		f.Got, f.Limit, f.Unit = float64(len(items)), 2000, "rows"
		items = items[:2000]
	}
	if len(items) < 5 {
		f := r.tell(CodeOrdinatesFew, v.key, v.at, fmt.Sprintf("The table has %d rows; a section needs at least 5.", len(items)), "Write every row of the plans' table, leading edge to trailing edge.")
		f.Got, f.Limit, f.Unit = float64(len(items)), 5, "rows"
	}
	before, seen, told := 0.0, false, len(r.fs)
	for _, item := range items {
		row, ok := r.row(t, item)
		if !ok {
			continue
		}
		name := say(item.key)
		if seen && row[0] <= before {
			r.tell(CodeOrdinatesOrder, item.key, item.at, name+" does not stand aft of the row before it.", "Write the stations in growing order, each once.")
		}
		if row[1] < row[2] {
			r.tell(CodeOrdinatesCrossed, item.key, item.at, name+" has the upper surface below the lower one.", "Write station, upper, lower; a lower ordinate below the chord line has a minus sign.")
		}
		before, seen = row[0], true
		r.doc.Section.Ordinates = append(r.doc.Section.Ordinates, row)
	}
	r.wrongUnit(v, told)
}

// wrongUnit makes one finding of many figures that cannot be what the table's unit says: the unit is wrong, not they.
// The findings on the table begin at told.
func (r *reader) wrongUnit(v *value, told int) {
	const many = 3
	ofFigure := func(f finding.Finding) bool {
		return strings.Count(f.Key, "[") == 2 && (f.Code == CodeSizeImpossible || f.Code == CodeOrdinateRow)
	}
	var n int
	var first finding.Finding
	for _, f := range r.fs[told:] {
		if ofFigure(f) {
			if n++; n == 1 {
				first = f
			}
		}
	}
	if n < many {
		return
	}
	r.fs = append(r.fs[:told], slices.DeleteFunc(slices.Clone(r.fs[told:]), ofFigure)...)
	message, fix := fmt.Sprintf("%d figures of the ordinates are no percents of the chord.", n), `For a table of lengths or fractions write ordinate_unit = "length" under [section].`
	if r.doc.Section.OrdinateUnit == "length" {
		message = fmt.Sprintf("%d figures of the ordinates are no lengths of a wing rib.", n)
		fix = fmt.Sprintf(`Mind the unit: bare numbers are in %q, as units says. For percents of the chord leave ordinate_unit out.`, r.doc.Units)
	}
	f := r.tell(first.Code, v.key, v.at, message+" The first: "+first.Message, fix)
	f.Got, f.Limit, f.Unit = first.Got, first.Limit, first.Unit
}

func (r *reader) row(t tab, item *value) (row [3]float64, ok bool) {
	const form = "Write three numbers: station, upper, lower."
	if item.kind != listKind || len(item.items) != 3 {
		r.tell(CodeOrdinateRow, item.key, item.at, say(item.key)+" must be three numbers.", form)
		return row, false
	}
	ok = true
	for i, cell := range item.items {
		n, good := r.cell(t, cell, i == 0)
		row[i], ok = n, ok && good
	}
	return row, ok
}

// cell reads one figure of a row: percent of the chord, or a length.
func (r *reader) cell(t tab, v *value, isStation bool) (float64, bool) {
	isNumber := v.kind == wholeKind || v.kind == decimalKind
	least, most := -5000.0, 5000.0 // mm: half of the longest chord
	if r.doc.Section.OrdinateUnit == "length" {
		if !isNumber && v.kind != textKind {
			r.tell(CodeOrdinateRow, v.key, v.at, say(v.key)+" must be a length, not "+v.what()+".", `Write a number, or text such as "1 7/16".`)
			return 0, false
		}
		if isStation {
			least, most = 0, 10000
		}
		n, ok := t.quantity(v)
		return n, ok && t.within(v, n, limit{min: least, max: most})
	}
	if !isNumber {
		r.tell(CodeOrdinateRow, v.key, v.at, say(v.key)+" must be a number in percent of the chord, not "+v.what()+".",
			`Write a number; for fractions and lengths say ordinate_unit = "length" under [section].`)
		return 0, false
	}
	n, ok := t.bare(v)
	if !ok {
		return 0, false
	}
	least, most = -50, 50
	if isStation {
		least, most = 0, 100
	}
	if n < least || n > most {
		f := r.tell(CodeSizeImpossible, v.key, v.at,
			fmt.Sprintf("%s is %s%%; it must be from %s%% to %s%% of the chord.", say(v.key), decimals(n, 4), decimals(least, 0), decimals(most, 0)),
			`Mend the figure; for a table of lengths say ordinate_unit = "length" under [section].`)
		f.Got, f.Limit, f.Unit = n, most, "%"
		if n < least {
			f.Limit = least
		}
		return 0, false
	}
	return n, true
}

func (r *reader) skin(t tab) Skin {
	t.missing("thickness", `thickness = "1/32 in"`)
	from, to := t.station("from", 0, r.chord), t.station("to", r.chord, r.chord)
	s := Skin{From: from.mm, To: to.mm, Side: t.choice("side", defaultSkinSide, "upper", "lower", "both")}
	s.Thickness, _ = t.length("thickness", 0, limit{min: 0, above: true, max: 25})
	s.Grain = t.choice("grain", defaultSkinGrain, "span", "diagonal", "chord", "none")
	s.Bend = t.choice("bend", defaultSkinBend, "dry", "soaked")
	s.Plies = t.whole("plies", 0, 3, 5, "plies")
	if from.ok && to.ok && from.mm >= to.mm {
		r.tell(CodeSkinBackwards, t.key, t.v.at, "The skin's from ("+r.far(from.mm)+") does not stand before its to ("+r.far(to.mm)+").", "Write from before to, both measured from the leading edge.")
	}
	return s
}
