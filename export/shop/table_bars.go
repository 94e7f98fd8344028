package shop

import (
	"fmt"
	"math"
	"strings"

	"ribwright/export"
	"ribwright/geom/cut"
	"ribwright/geom/ribfile"
)

// BarTables returns the lists of the bars: what is sawn from each, every cut, and the scarfs of caps that are longer
// than the bars.
func BarTables(doc *ribfile.Doc, b cut.Bars) []export.Table {
	w := barLister{lister{doc: doc, inch: doc.Units == ribfile.Inch}, b}
	out := []export.Table{w.bars(), w.cuts()}
	if len(b.Scarfs) > 0 {
		out = append(out, w.scarfs())
	}
	return out
}

// BarsToBuy returns the bars that the plan takes.
func BarsToBuy(doc *ribfile.Doc, b cut.Bars) []BuyRow {
	var out []BuyRow
	for _, j := range b.Jobs {
		for i, n := range j.Plan.Buy {
			if k := j.Kinds[i]; n > 0 {
				out = append(out, BuyRow{What: "bars, " + j.Wood(doc), Size: k.Name, Count: n, Have: k.Count, Price: k.Price})
			}
		}
	}
	return out
}

// barLister makes the tables of the bars.
type barLister struct {
	lister
	b cut.Bars
}

// bars lists each different bar.
func (w barLister) bars() export.Table {
	t := export.Table{ID: "bars", Title: "Sticks and caps from bars",
		Columns: []export.Column{text("bar", "bar"), number("count", "to saw", ""), text("wood", "wood"), w.lengthColumn("length", "length"), number("pieces", "pieces in it", ""),
			text("cuts", "pieces in order"), w.lengthColumn("left", "left over"), text("offcut", "the rest is")},
		Notes: w.notes()}
	for i, u := range w.b.Uses() {
		j := w.b.Jobs[u.Job]
		t.Rows = append(t.Rows, []export.Cell{export.Num(float64(i+1), fmt.Sprint(i+1)), count(u.Count), export.Str(j.Wood(w.doc)), w.length(j.Kinds[u.Stock].Length),
			count(len(u.Cuts)), export.Str(order(j, u)), w.fine(u.Left), export.Str(rest(u))})
	}
	return t
}

// order lists the pieces of a bar, those that share cuts with a / between them, and how often the same follow each
// other: "S3, 2 × S4 / S4".
func order(j cut.BarJob, u cut.BarUse) string {
	var rows []string // of pieces that share all their cuts
	for _, c := range u.Cuts {
		if name := j.Pieces[c.Piece].Name(); c.Shared {
			rows[len(rows)-1] += " / " + name
		} else {
			rows = append(rows, name)
		}
	}
	var out []string
	for i := 0; i < len(rows); {
		n := 1
		for i+n < len(rows) && rows[i+n] == rows[i] {
			n++
		}
		if s := rows[i]; n == 1 {
			out = append(out, s)
		} else {
			out = append(out, fmt.Sprintf("%d × %s", n, s))
		}
		i += n
	}
	return strings.Join(out, ", ")
}

func rest(u cut.BarUse) string {
	switch {
	case u.Keep:
		return "kept"
	case u.Left > 0:
		return "waste"
	}
	return "-"
}

// notes say how the bars are sawn, how many there are and how few there could be.
func (w barLister) notes() []string {
	out := []string{barRules(w.doc), "Part the pieces by square cuts at their long points, then saw their ends to the angles. A / between two: they lie on one slope, and one slanting cut parts them.",
		"Where nothing is left over, what is trimmed off the bar's far end is the reserve for a saw that wanders."}
	for _, j := range w.b.Jobs {
		out = append(out, barBound(w.doc, j))
	}
	if w.assumed() {
		out = append(out, "The rib file names no bars for some of this: a customary length is taken, as many as needed (common practice, no source). Name yours under [[stock.bar]].")
	}
	pooled := false
	for _, j := range w.b.Jobs {
		for _, p := range j.Pieces {
			if len(p.IDs) > 1 {
				pooled = true
				out = append(out, "Alike, and sawn as one: "+strings.Join(p.IDs, ", ")+".")
			}
		}
	}
	if pooled {
		out = append(out, "A name with … stands for all that are alike: mark them as the cut list says.")
	}
	out = append(out, "Caps are longer by "+w.doc.Length(w.b.Stock.Allowance)+", half at either end, to be trimmed in the jig. Blocks are not in this plan: saw them from what is at hand.", grainNote)
	return append(out, cautions...)
}

// grainNote is the limit for spruce of FAA AC 43.13-1B, Table 1-1.
const grainNote = "Look at every bar before sawing: the slope of its grain, on both faces, may be 1 in 15 at most in spruce (FAA AC 43.13-1B, Table 1-1). Lay knots and steep grain into the offcuts."

// barRules says what is sawn away.
func barRules(doc *ribfile.Doc) string {
	s := doc.Stock
	return fmt.Sprintf("A saw cut takes %s; %s goes off each end of a bar first; offcuts of %s and longer are kept.", exact(doc, s.Kerf), doc.Length(s.Trim), doc.Length(s.Offcut))
}

// barBound says how many bars a job takes, and how few any plan could.
func barBound(doc *ribfile.Doc, j cut.BarJob) string {
	p := j.Plan
	if j.Err != nil {
		return j.Wood(doc) + ": no plan is made (" + j.Err.Error() + ")."
	}
	s := fmt.Sprintf("%s: %d bars", j.Wood(doc), p.Bars)
	if p.Bars == 1 {
		s = j.Wood(doc) + ": one bar"
	}
	priced := false
	for _, k := range j.Kinds {
		priced = priced || k.Price > 0
	}
	switch {
	case p.Short > 0:
		s += fmt.Sprintf(", and %d more of the longest are missing", p.Short)
	case priced && p.Least:
		s += fmt.Sprintf(" for %.2f; no plan costs less", p.Cost)
	case priced:
		s += fmt.Sprintf(" for %.2f; no plan costs less than %.2f", p.Cost, p.Bound)
	case p.Least:
		s += "; no plan needs fewer"
	default:
		s += fmt.Sprintf("; no plan needs fewer than %.0f", p.Bound)
	}
	if lost := total(j.Missing()); lost > 0 {
		s += fmt.Sprintf("; %d pieces are in none of them", lost)
	}
	kept := 0
	for _, u := range p.Patterns {
		if u.Keep {
			kept += u.Count
		}
	}
	if kept > 0 {
		s += fmt.Sprintf("; offcuts to keep: %d", kept)
	}
	return s + "."
}

func total(all []int) int {
	n := 0
	for _, v := range all {
		n += v
	}
	return n
}

func (w barLister) assumed() bool {
	for _, j := range w.b.Jobs {
		for _, k := range j.Kinds {
			if k.Assumed {
				return true
			}
		}
	}
	return false
}

// cuts lists every piece of each different bar, in order along it.
func (w barLister) cuts() export.Table {
	t := export.Table{ID: "bar-cuts", Title: "Cuts along the bars",
		Columns: []export.Column{text("bar", "bar"), number("order", "order", ""), text("piece", "piece"), w.lengthColumn("from", "from the bar's end"), w.lengthColumn("length", "long point"),
			text("left", "left end"), text("right", "right end"), text("parted", "parted from the last one by")},
		Notes: append([]string{
			"Measured from the untrimmed end at the left to the piece's first point. Degrees from square, as the piece lies in the bar; positive: the cut leans to the left on the far side.",
			"An end that takes several cuts is parted square: the cut list has its angles."}, cautions...)}
	for i, u := range w.b.Uses() {
		j := w.b.Jobs[u.Job]
		for k, c := range u.Cuts {
			p := j.Pieces[c.Piece]
			angles, one := j.Angles(c)
			end := func(side int) export.Cell {
				switch {
				case !one[side]:
					return export.Str("several cuts")
				case angles[side] == 0:
					return export.Str("square")
				}
				return export.Str(degrees(angles[side]))
			}
			parted := "a square cut"
			switch {
			case k == 0:
				parted = "-"
			case c.Shared:
				parted = "one cut of " + degrees(math.Abs(angles[0]))
			}
			t.Rows = append(t.Rows, []export.Cell{export.Num(float64(i+1), fmt.Sprint(i+1)), count(k + 1), export.Str(p.Name()), w.fine(c.From), w.computed(p.Length), end(0), end(1), export.Str(parted)})
		}
	}
	return t
}

// scarfs lists where caps are scarfed.
func (w barLister) scarfs() export.Table {
	t := export.Table{ID: "scarfs", Title: "Scarfs of the caps",
		Columns: []export.Column{text("cap", "cap"), w.lengthColumn("from", "from station"), w.lengthColumn("to", "to station"), w.lengthColumn("length", "along the cap"), text("clear", "clear of plates and spars")},
		Notes: append([]string{
			fmt.Sprintf("A scarf is %g times as long as the cap is deep (FAA AC 43.13-1B, chapter 1, has 10). Parts are named -1, -2 … from the nose; each is sawn as long as its scarfs reach.", w.b.Stock.Scarf),
			"Scarfs lie between the plates, where the cap bends dry, and not over a scarf of the other cap, where that can be (common practice, no source). In all ribs of a kind they lie alike; the plans may want them otherwise.",
			"Plane both slopes together, glue them before the cap is bent, and let them cure (common practice, no source). Break a sample scarf of each batch: it must fail in the wood."}, cautions[0])}
	for _, s := range w.b.Scarfs {
		clear := "yes"
		if s.Foul > 0 {
			clear = "no"
		}
		t.Rows = append(t.Rows, []export.Cell{export.Str(s.Part), w.fine(s.From), w.fine(s.To), w.length(s.Length), export.Str(clear)})
	}
	return t
}
