package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"ribwright/export"
	"ribwright/export/pdf"
	"ribwright/export/shop"
	"ribwright/geom/cut"
	"ribwright/geom/finding"
	"ribwright/geom/jig"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// sheet is one of the drawings: what draw --sheet calls it, and the files that build makes of it.
type sheet struct {
	name    string
	about   string
	file    string   // of build's files, without the ending; left out: the name
	formats []string // that draw writes, the usual one first
	build   []string // that build writes
	paged   bool     // it is laid out for the paper, and corrected for the printer
	proof   bool     // draw --proof draws it of a rib with errors too
	set     bool     // a set of several kinds of rib has it once, not each kind
	turn    int      // when build makes it: −1 first, as it takes long, or last, 1, as it waits for one of those
	make    func(*job, *options) (export.Drawing, error)
	pages   func(*job, shop.Page) export.Drawing // the same over pages, for PDF; left out: PDF holds one sheet
	anyWay  bool                                 // its pages are the same whichever way round the paper lies
	there   func(*job) bool                      // whether the rib has any; left out: every rib does
}

// sheets are the drawings, in the order of the work. A drawing more is one entry more.
func sheets() []sheet {
	return []sheet{
		{name: "wing", about: "the wing in plan, and its ribs one over the other", formats: []string{"pdf", "svg", "dxf"}, build: []string{"pdf", "svg"}, set: true,
			make: func(j *job, _ *options) (export.Drawing, error) {
				return shop.WingDrawing(j.project.doc, j.plan, j.set()), nil
			},
			there: func(j *job) bool { return j.plan.SemiSpan > 0 }},
		{name: "jig", about: "one sheet, full size", formats: []string{"pdf", "svg", "dxf"}, build: []string{"pdf", "svg", "dxf"}, proof: true,
			make: func(j *job, _ *options) (export.Drawing, error) {
				return shop.Jig(j.drawn()), nil
			}},
		{name: "tiles", about: "the jig over pages", file: "jig-tiles", formats: []string{"pdf"}, build: []string{"pdf"}, proof: true, paged: true, turn: -1, make: tiles},
		{name: "plates", about: "the cut file", formats: []string{"svg", "dxf", "pdf"}, build: []string{"svg", "dxf"},
			make: func(j *job, _ *options) (export.Drawing, error) {
				return shop.Plates(j.rib, j.doc, j.take.Fasteners), nil
			},
			there: func(j *job) bool { return len(j.rib.Gussets)+len(j.rib.Web.Outline) > 0 }},
		{name: "sheets", about: "the plates on sheets of plywood", set: true, anyWay: true, turn: -1, formats: []string{"pdf", "svg", "dxf"}, build: []string{"pdf", "svg", "dxf"}, there: hasPlates,
			make: func(j *job, _ *options) (export.Drawing, error) {
				return shop.SheetFile(j.cut()), nil
			},
			pages: func(j *job, _ shop.Page) export.Drawing { return shop.Sheets(j.cut()) }},
		{name: "holes", about: "pilot holes for the hole saw", set: true, anyWay: true, turn: 1, formats: []string{"pdf", "svg", "dxf"}, build: []string{"pdf", "dxf"}, there: hasHoles,
			make:  func(j *job, _ *options) (export.Drawing, error) { return shop.HoleFile(j.project.doc, j.layout()), nil },
			pages: func(j *job, p shop.Page) export.Drawing { return shop.HolePages(j.project.doc, j.layout(), p) }},
		barSheet(),
		templates("sticks", "a template for each stick", shop.Sticks, shop.StickPages, func(j *job) bool { return len(j.rib.Sticks) > 0 }),
		templates("templates", "to mark and drill round plates", shop.PlateTemplates, shop.PlateTemplatePages, func(j *job) bool { return shop.HasRoundPlates(j.rib) }),
		templates("former", "the forms to bend cap strips on", shop.Former, shop.FormerPages, func(j *job) bool { return shop.NeedsFormer(j.take) }),
		{name: "traveller", about: "goes with each rib through the shop: boxes to tick, blanks for the log", formats: []string{"pdf"}, build: []string{"pdf"}, paged: true, make: traveller},
		ofSet(templates("coupon", "the sample joint of each batch", shop.Coupon, shop.CouponPages, nil)),
	}
}

// ofSet makes a sheet one that a set has once.
func ofSet(s sheet) sheet {
	s.set = true
	return s
}

// templates is a sheet of templates: over pages in PDF, on one sheet in other formats.
func templates(name, about string, one func(*rib.Rib, *ribfile.Doc, takeoff.TakeOff) export.Drawing,
	pages func(*rib.Rib, *ribfile.Doc, takeoff.TakeOff, shop.Page) export.Drawing, there func(*job) bool) sheet {
	all := []string{"pdf", "svg", "dxf"}
	return sheet{name: name, about: about, formats: all, build: all, there: there,
		make:  func(j *job, _ *options) (export.Drawing, error) { return one(j.rib, j.doc, j.take), nil },
		pages: func(j *job, p shop.Page) export.Drawing { return pages(j.rib, j.doc, j.take, p) }}
}

// draw makes the sheet's drawing for a format, its layers named and coloured as the rib file says. What goes to
// a printer is corrected for how true that prints; files for other programs stay true.
func (s sheet) draw(j *job, o *options, format string) (export.Drawing, error) {
	doc := s.doc(j)
	paper, err := o.paperOf(doc)
	if err != nil {
		return export.Drawing{}, err
	}
	if s.pages != nil && format == "pdf" {
		return shop.Dressed(s.onPages(j, paper), doc), nil
	}
	d, err := s.make(j, o)
	if format == "pdf" && !s.paged {
		d = shop.Corrected(d, paper.Printed, doc.Units)
	}
	return shop.Dressed(d, doc), err
}

// doc is what the sheet is printed by: what a set has once by the file, not by what one of its ribs has of its own.
func (s sheet) doc(j *job) *ribfile.Doc {
	if s.set {
		return j.project.doc
	}
	return j.doc
}

// onPages makes the sheet over pages, corrected for the printer. The pages are laid out as large as the
// correction wants them; which way round they lie, the layout decides, so both are tried where the correction tells them apart.
func (s sheet) onPages(j *job, paper ribfile.Paper) export.Drawing {
	h := paper.H
	if h == 0 { // of a roll, pages as long as a sheet of its width
		h = math.Round(paper.W * math.Sqrt2)
	}
	x, y := paper.Printed.Correction()
	m := paper.Margin
	var d export.Drawing
	for _, page := range [2]shop.Page{{W: paper.W / x, H: h / y}, {W: h / x, H: paper.W / y}} {
		page.Margin = max(m.Left, m.Right, m.Top, m.Bottom) / min(x, y)
		d = s.pages(j, page)
		if s.anyWay || x == y || !slices.ContainsFunc(d.Sheets, func(s export.Sheet) bool { return s.W != page.W || s.H != page.H }) {
			break
		}
	}
	return shop.Corrected(d, paper.Printed, j.doc.Units)
}

// versions returns the formats that build writes, those together that hold the same drawing. off says that the printer is off: pages are
// corrected for it.
func (s sheet) versions(off bool) [][]string {
	var out [][]string
	var same []string
	for _, format := range s.build {
		if format == "pdf" && (s.pages != nil || off) {
			out = append(out, []string{format})
		} else {
			same = append(same, format)
		}
	}
	if len(same) > 0 {
		out = append(out, same)
	}
	return out
}

// board returns the plan of the board. Of a rib with errors, which is drawn as a proof, it is made here.
func (j *job) board() jig.Jig {
	if !finding.HasError(j.found) {
		return j.jig
	}
	board, _ := jig.Plan(j.rib, j.doc)
	return board
}

// drawn returns what the roll and the pages of the jig drawing have in common.
func (j *job) drawn() shop.Field {
	if j.field != nil {
		return j.field()
	}
	return shop.NewField(j.rib, j.doc, j.board(), j.found)
}

// cut returns what the drawings of the sheets of plywood have in common.
func (j *job) cut() shop.Cutting {
	if j.cutting != nil {
		return j.cutting()
	}
	return shop.NewCutting(j.project.doc, j.layout())
}

// hasPlates and hasHoles say whether the set has plates, and whether a hole saw cuts any of them.
func hasPlates(j *job) bool {
	return slices.ContainsFunc(j.layout().Plates, func(p cut.Plate) bool { return p.Apart == cut.Together })
}

func hasHoles(j *job) bool {
	return j.project.doc.Saw.Plates == "hole-saw" && hasPlates(j) && shop.HasHoles(j.layout())
}

func tiles(j *job, o *options) (export.Drawing, error) {
	paper, err := o.paperOf(j.doc)
	if err != nil {
		return export.Drawing{}, err
	}
	d, err := shop.Tiles(j.drawn(), paper)
	if err != nil {
		return d, usageError{err.Error()}
	}
	return d, nil
}

// part says whether a set has the sheet once, or every kind of rib.
func (s sheet) part() part {
	if s.set {
		return inSet
	}
	return ofRib
}

func (s sheet) base() string { return cmp.Or(s.file, s.name) }

func findSheet(name string) (sheet, error) {
	all := sheets()
	i := slices.IndexFunc(all, func(s sheet) bool { return s.name == name })
	if i < 0 {
		return sheet{}, usage("there is no sheet %q: choose %s", name, sheetNames())
	}
	return all[i], nil
}

// sheetNames lists the sheets' names: "jig, tiles or plates".
func sheetNames() string {
	out := ""
	for i, s := range sheets() {
		switch {
		case i == 0:
		case i == len(sheets())-1:
			out += " or "
		default:
			out += ", "
		}
		out += s.name
	}
	return out
}

// files makes the sheet's files in formats that hold the same drawing, none where the rib has no such sheet. A sheet that a format
// cannot hold is left out of it, with a note. Pictures are of the format that build writes last.
func (s sheet) files(a *app, j *job, o *options, formats []string) ([]file, error) {
	if s.there != nil && !s.there(j) {
		return nil, nil
	}
	d, err := s.draw(j, o, formats[0])
	if err != nil {
		return nil, err
	}
	if len(j.project.jobs) <= mostFull {
		d = d.Kept()
	}
	var files []file
	for _, format := range formats {
		name := s.base() + "." + format
		if long := longestSide(d); format == "pdf" && long > pdf.MaxSide {
			fmt.Fprintf(a.err, "note: no %s: at %.0f mm the sheet is longer than a PDF page may be (%.0f mm); print the tiles, or take %s.svg or %s.dxf\n", name, long, float64(pdf.MaxSide), s.base(), s.base())
			continue
		}
		files = append(files, file{name, drawing(d, format, j.doc.Drawing.DXFUnits)})
	}
	if o.png > 0 && slices.Contains(formats, s.build[len(s.build)-1]) {
		files = append(files, a.pictures(s.base(), d, o.png)...)
	}
	return files, nil
}

func longestSide(d export.Drawing) float64 {
	long := 0.0
	for _, s := range d.Sheets {
		long = max(long, s.W, s.H)
	}
	return long
}
