package shop

import (
	"cmp"
	"fmt"
	"slices"

	"ribwright/export"
)

// task is a list's place in the work: what one is about when it is wanted, and what it tells.
type task struct{ list, work, tells string }

// tasks are the lists in the order of the work: what one must have before one begins, the jig, the pieces, the gluing, the
// scale; last what one looks up only when in doubt.
var tasks = []task{
	{"ribs", "look over the set", "the kinds of rib, how many of each, sticks, plates and mass"},
	{"wing", "look over the set", "where each rib stands in the wing, and by which drawing it is built"},
	{"wing-spars", "look over the set", "where the spars pass each rib, and how deep they may be"},
	{"buy", "buy", "bars, plywood, fasteners and adhesive for all ribs, with the prices that you gave"},
	{"ordinates", "make the jig", "the contour, to check the printed drawing by"},
	{"spars", "make the jig", "the openings, and the largest spar that passes"},
	{"jig-blocks", "make the jig", "blocks and board: sizes, how many, what holds which part"},
	{"bars", "saw caps and sticks", "what is sawn from each bar"},
	{"bar-cuts", "saw caps and sticks", "where each piece begins along its bar, and how it is parted"},
	{"scarfs", "saw caps and sticks", "where caps that are longer than the bars are joined"},
	{"cut-list", "saw caps and sticks", "each stick's length and the angles of its ends"},
	{"caps-and-blocks", "saw caps and sticks", "sizes of the caps, and of the nose and tail block"},
	{"bends", "saw caps and sticks", "where the caps bend dry, and where they must be soaked or steamed"},
	{"plates", "cut the plates", "sizes of the plates, and how many of each"},
	{"sheets", "cut the plates", "how the plates lie on the sheets of plywood"},
	{"holes", "cut the plates", "where the pilot holes are drilled"},
	{"adhesive", "glue", "how much of A and B a side, a rib and the whole set take"},
	{"sessions", "glue", "which sides you glue each time at the bench, and from which batches"},
	{"batches", "glue", "what to weigh for each batch, and for which ribs it is"},
	{"coupons", "glue", "the sample joint that you break of each batch"},
	{"fasteners", "glue", "how many staples or nails go where"},
	{"mass", "weigh", "what a rib should weigh, and where it balances"},
	{"part-masses", "look up", "the mass of every part"},
	{"glue-areas", "look up", "the glue area of every plate on every part under it"},
	{"butt-areas", "look up", "the glue area where sticks and blocks end"},
	{"adhesive-joints", "look up", "how much adhesive each joint takes"},
}

// place returns where a list stands in the work; one that is not known comes last.
func place(t export.Table) int {
	if i := slices.IndexFunc(tasks, func(k task) bool { return k.list == t.ID }); i >= 0 {
		return i
	}
	return len(tasks)
}

// InOrder returns the lists in the order of the work.
func InOrder(tables []export.Table) []export.Table {
	out := slices.Clone(tables)
	slices.SortStableFunc(out, func(a, b export.Table) int { return cmp.Compare(place(a), place(b)) })
	return out
}

// Book returns the lists as one reads them: in the order of the work, numbered, a table of contents ahead of them, and the
// cautions that many of them share said there, once.
func Book(title string, tables []export.Table) []export.Table {
	shared := slices.Concat(cautions, glueCautions)
	head := export.Table{ID: "contents", Title: title + ": the lists, in the order of the work",
		Columns: []export.Column{text("to", "to"), text("list", "list"), text("tells", "what it tells")}, Notes: shared}
	book, last := []export.Table{head}, ""
	for i, t := range InOrder(tables) {
		t.Title = fmt.Sprintf("%d. %s", i+1, t.Title)
		t.Notes = slices.DeleteFunc(slices.Clone(t.Notes), func(n string) bool { return slices.Contains(shared, n) })
		var k task
		if at := place(t); at < len(tasks) {
			k = tasks[at]
		}
		to := k.work
		if to == last {
			to = ""
		}
		last = k.work
		book[0].Rows = append(book[0].Rows, []export.Cell{export.Str(to), export.Str(t.Title), export.Str(k.tells)})
		book = append(book, t)
	}
	return book
}
