package main

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"sync"

	"ribwright/export"
	"ribwright/export/list"
	"ribwright/export/shop"
)

// ribLists holds the lists for reading.
const ribLists = "lists.md"

// group makes files that belong together.
type group func(a *app) ([]file, error)

// groups returns what makes the files of a folder: a group for each drawing, those that take long first, and the lists.
func (j *job) groups(which part, o *options) []group {
	all := slices.DeleteFunc(sheets(), func(s sheet) bool { return which&s.part() == 0 })
	slices.SortStableFunc(all, func(a, b sheet) int { return cmp.Compare(a.turn, b.turn) })
	one := *j
	one.field, one.cutting = sync.OnceValue(j.drawn), sync.OnceValue(j.cut)
	var out []group
	for _, s := range all {
		paper, err := o.paperOf(s.doc(j))
		if err != nil {
			return []group{func(*app) ([]file, error) { return nil, err }}
		}
		for _, formats := range s.versions(paper.Printed.Off()) {
			out = append(out, func(a *app) ([]file, error) { return s.files(a, &one, o, formats) })
		}
	}
	out = append(out, func(*app) ([]file, error) { return j.listFiles(which), nil })
	if which&inSet != 0 {
		out = append(out, func(*app) ([]file, error) { return j.drillFiles(), nil })
	}
	if which == inSet|ofRib { // that of a set is written when its ribs are drawn
		out = append(out, func(*app) ([]file, error) { return []file{{"report.json", j.project.report().Write}}, nil })
	}
	return out
}

// listFiles returns the lists of a folder.
func (j *job) listFiles(which part) []file {
	tables := j.tables(which, true)
	files := []file{{ribLists, func(w io.Writer) error { return list.Markdown(w, shop.Book(j.title(which), tables)...) }}}
	if which&inSet == 0 {
		return files
	}
	listed := tables
	if which == inSet|ofRib { // lists.md of a wing of one kind is that of its rib
		listed = slices.Concat(tables, j.wingTables())
	}
	for _, t := range listed {
		files = append(files, file{t.ID + ".csv", func(w io.Writer) error { return list.CSV(w, t) }})
	}
	return append(files, file{"lists.json", func(w io.Writer) error { return list.JSON(w, tables...) }})
}

// drillFiles returns how the holes of each sheet are drilled.
func (j *job) drillFiles() []file {
	if !hasHoles(j) {
		return nil
	}
	var files []file
	for k := range j.layout().Sheets {
		files = append(files, file{fmt.Sprintf("drill-%d.ngc", k+1), shop.Drilling(j.project.doc, j.layout(), k).Write})
	}
	return files
}

// title is what the lists of a folder are headed with: the kind of rib where it has a folder of its own.
func (j *job) title(which part) string {
	if which&inSet == 0 {
		return "Rib " + j.kind.Name
	}
	return j.project.doc.Title
}

// tables returns the lists of a kind of rib, of the set, or of both, in the order of the work; those of the sheets of plywood, and of what to buy,
// only where they are asked for.
func (j *job) tables(which part, withSheets bool) []export.Table {
	if which&inSet == 0 {
		return shop.Tables(j.rib, j.doc, j.board(), j.take)
	}
	return j.project.tables(which, withSheets)
}

// tables returns the lists of the set, and of its only rib where that is asked for too.
func (p *project) tables(which part, withSheets bool) []export.Table {
	j := p.first()
	var out []export.Table
	if which&ofRib != 0 {
		out = shop.Tables(j.rib, j.doc, j.board(), j.take)
	} else {
		out = append(shop.SetTables(p.set(), p.takes()), p.wingTables()...)
	}
	out = append(out, shop.Sessions(p.set(), p.sessions, p.batches), shop.Batches(p.set(), p.batches))
	out = append(out, shop.BarTables(p.doc, p.bars())...)
	if !withSheets {
		return shop.InOrder(out)
	}
	buy := shop.BarsToBuy(p.doc, p.bars())
	if hasPlates(j) {
		out = append(out, shop.CutTables(p.doc, p.layout())...)
		buy = append(buy, shop.PlywoodToBuy(p.doc, p.layout())...)
	}
	buy = append(buy, shop.ApartToBuy(p.set(), p.layout())...)
	buy = append(buy, shop.FastenersToBuy(p.set(), p.takes())...)
	buy = append(buy, shop.AdhesiveToBuy(p.doc, p.batches)...)
	return shop.InOrder(append(out, shop.Buy(buy)))
}

// wingTables returns the lists of where ribs and spars stand, if there is a wing.
func (p *project) wingTables() []export.Table {
	if p.plan.SemiSpan == 0 {
		return nil
	}
	return []export.Table{shop.Wing(p.doc, p.plan), shop.WingSpars(p.doc, p.plan, p.set())}
}
