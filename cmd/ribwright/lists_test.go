package main

import (
	"fmt"
	"io"
	"slices"
	"testing"

	"ribwright/export"
	"ribwright/export/shop"
)

// TestListsInOrder holds that every list of a rib, of a wing and of one of its kinds has its place in the work, that the lists for
// reading are numbered as their table of contents says, and that what many of them caution of is said once.
func TestListsInOrder(t *testing.T) {
	rib := demoFile(t, "marsh-wren.toml")
	rewrite(t, rib, "count = 26 ", "count = 1 ")
	rewrite(t, rib, "length = 2400", "length = 1000") // so that caps are scarfed
	for _, path := range []string{rib, wingFile(t, "\n[wing]\nsemi_span = 3000\ntip_chord = 1100\nspacing = 3000\n")} {
		p, err := (&app{out: io.Discard, err: io.Discard}).ready(path)
		if err != nil {
			t.Fatal(err)
		}
		j := p.first()
		which := []part{inSet | ofRib}
		if len(p.jobs) > 1 {
			which = []part{inSet, ofRib}
		}
		for _, w := range which {
			tables := j.tables(w, true)
			book := shop.Book(j.title(w), tables)
			if len(book) != len(tables)+1 {
				t.Fatalf("%s: %d lists, with the contents %d", path, len(tables), len(book))
			}
			for i, row := range book[0].Rows {
				of := tables[i]
				if want := fmt.Sprintf("%d. %s", i+1, of.Title); row[1].Text != want || book[i+1].Title != want || book[i+1].ID != of.ID {
					t.Errorf("%s: the contents say %q, then comes %q; want %q", path, row[1].Text, book[i+1].Title, want)
				}
				if row[2].Text == "" {
					t.Errorf("%s: the list %q has no place among the tasks", path, of.ID)
				}
			}
			if row := book[0].Rows[0]; row[0].Text == "" {
				t.Errorf("%s: the first list is for nothing", path)
			}
			onceSaid(t, book)
		}
	}
}

// onceSaid holds that no caution of the contents stands below a list again.
func onceSaid(t *testing.T, book []export.Table) {
	t.Helper()
	if len(book[0].Notes) < 4 {
		t.Errorf("the contents caution of %d things", len(book[0].Notes))
	}
	for _, tab := range book[1:] {
		for _, n := range tab.Notes {
			if slices.Contains(book[0].Notes, n) {
				t.Errorf("%q stands below %q again", n, tab.ID)
			}
		}
	}
}
