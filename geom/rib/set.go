package rib

import (
	"slices"

	"ribwright/geom/ribfile"
)

// Set is the ribs that are cut and glued together, one entry for each kind. A rib file without [wing] has one.
type Set []Entry

// Entry is a kind of rib, the rib file as it holds for it, and in Rib.Count how many of it there are.
type Entry struct {
	Name string   // "R3"; empty where the set has one kind
	Also []string // what else ribs of this kind are called: their numbers, and names that the builder gave them
	Doc  *ribfile.Doc
	Rib  *Rib
}

// One is the set of a single kind of rib.
func One(r *Rib, doc *ribfile.Doc) Set { return Set{{Doc: doc, Rib: r}} }

// Part names a part of the entry's rib within the set: "R3 U4", or "U4" where the set has one kind.
func (e Entry) Part(id string) string {
	if e.Name == "" {
		return id
	}
	return e.Name + " " + id
}

// Ribs returns how many ribs there are.
func (s Set) Ribs() int {
	n := 0
	for _, e := range s {
		n += e.Rib.Count
	}
	return n
}

// Shared returns the rib file for what all ribs share: units, saw, sheets, stock, paper, drawing. It is nil for an empty set.
func (s Set) Shared() *ribfile.Doc {
	if len(s) == 0 {
		return nil
	}
	return s[0].Doc.Whole()
}

// Slim returns a copy of the rib without the lines that only its own drawings need: the contour's sides and the caps'
// outlines. What is cut, counted and nested is there.
func (r *Rib) Slim() *Rib {
	out := *r
	out.Contour.Upper, out.Contour.Lower = nil, nil
	out.Caps = slices.Clone(r.Caps)
	for i := range out.Caps {
		out.Caps[i].Outline = nil
	}
	return &out
}
