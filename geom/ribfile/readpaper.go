package ribfile

// Paper is [paper]: what the printer takes, and how true it prints.
type Paper struct {
	Size    string // as written: "A4", "24x36in", "roll 36in"
	Turn    string // "auto", "portrait", "landscape"
	Margin  float64
	Overlap float64
	Printed string // what the square of 100 mm measured on a print, across and up: "99.2x101.5"; empty: not measured
}

// Defaults of the paper.
const (
	defaultPaper       = "A4"
	defaultTurn        = "auto"
	defaultPaperMargin = 10
	defaultOverlap     = 12
)

func (r *reader) paper(t tab) {
	p := &r.doc.Paper
	p.Size, _ = t.text("size", defaultPaper, `size = "A4"`)
	p.Turn = t.choice("turn", defaultTurn, "auto", "portrait", "landscape")
	p.Margin, _ = t.length("margin", defaultPaperMargin, limit{min: 0, max: 100})
	p.Overlap, _ = t.length("overlap", defaultOverlap, limit{min: 8, max: 40})
	p.Printed, _ = t.text("printed", "", `printed = "99.2x101.5"`)
}
