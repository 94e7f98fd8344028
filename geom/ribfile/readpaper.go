package ribfile

import (
	"fmt"

	"ribwright/geom/finding"
)

func (r *reader) paper(t tab) {
	p := &r.doc.Paper
	size, ok := t.text("size", defaultPaper, `size = "A4"`)
	*p, _ = ParsePaper(defaultPaper, MM)
	if ok {
		got, err := ParsePaper(size, r.bareUnits())
		if err != nil {
			t.unfit("size", CodePaperUnfit, err)
		} else {
			*p = got
		}
	}
	p.Turn = t.choice("turn", defaultTurn, "auto", "portrait", "landscape")
	if err := p.TurnFault(); err != nil {
		t.unfit("turn", CodePaperUnfit, err)
	}
	r.margins(t)
	p.Overlap, _ = t.length("overlap", defaultOverlap, limit{min: leastOverlap, max: mostOverlap})
	r.printed(t)
}

// bareUnits is the unit of numbers without one inside a text.
func (r *reader) bareUnits() Units {
	if r.doc.Units == Inch {
		return Inch
	}
	return MM
}

// unfit tells what is wrong with a key's text.
func (t tab) unfit(key, code string, err error) *finding.Finding {
	v, q := t.get(key), err.(*QuantityError)
	return t.r.tell(code, v.key, v.at, say(v.key)+": "+q.Message, q.Fix)
}

// margins reads one length for all edges, or a list of four.
func (r *reader) margins(t tab) {
	v, m := t.get("margin"), &r.doc.Paper.Margin
	lim := limit{min: 0, max: mostMargin}
	if v == nil || v.kind != listKind {
		all, _ := t.length("margin", defaultPaperMargin, lim)
		*m = Margins{all, all, all, all}
		return
	}
	if len(v.items) != 4 {
		r.tell(CodeTypeWrong, v.key, v.at, fmt.Sprintf("%s must be one length or four, not %d.", v.key, len(v.items)),
			`Write margin = "10 mm", or left, right, top and bottom: margin = ["5 mm", "5 mm", "12 mm", "12 mm"].`)
		return
	}
	for i, into := range [4]*float64{&m.Left, &m.Right, &m.Top, &m.Bottom} {
		if mm, ok := t.quantity(v.items[i]); ok && t.within(v.items[i], mm, lim) {
			*into = mm
		}
	}
}

// printed reads the printer's measures. It is told where they are hardly those of a printer, or need no correction.
func (r *reader) printed(t tab) {
	text, ok := t.text("printed", "", `printed = "99.2x101.5"`)
	if !ok || text == "" {
		return
	}
	p, err := ParsePrinted(text)
	if err != nil {
		t.unfit("printed", CodePrintedUnfit, err)
		return
	}
	r.doc.Paper.Printed = p
	v := t.get("printed")
	if message, fix := p.Doubt(); message != "" {
		f := r.tell(CodePrintedDoubt, v.key, v.at, say(v.key)+": "+message, fix)
		if f.Severity = finding.Warning; !p.Off() {
			f.Severity = finding.Note
		}
	}
}
