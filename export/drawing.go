// Package export says what a drawing is and what a table is, between the parts that make them and the
// writers that put them into files.
//
// A drawing is a list of sheets; a sheet is a list of items, each on a layer named for its purpose.
// Lengths are millimetres on paper at scale 1:1, origin at the sheet's lower left corner, y up. Angles
// are radians. The package opens no files and knows no ribs.
package export

import (
	"slices"
	"sync"

	"ribwright/geom"
)

// Drawing is one file to be drawn: sheets of any size and the layers their items lie on.
type Drawing struct {
	Title  string // plain text, also the document's title
	Layers []Layer
	Sheets []Sheet
}

// Layer is a purpose with the pen that draws it. Its ID is lower-case ASCII, such as "contour". Its Name is
// what files that name layers call it; empty, they call it by its ID.
type Layer struct {
	ID   string
	Name string
	Pen  Pen
}

// Pen says how lines of a layer look.
type Pen struct {
	Width float64   // line width, mm
	Dash  []float64 // lengths of dashes and gaps in turn, mm; nil: continuous
	Gray  float64   // 0 black … 1 white
	Color Color     // in place of the grey, where it is set
}

// Sheet is one page. Items that lie outside W × H are cut off by the writer of pages.
type Sheet struct {
	Name  string
	W, H  float64 // mm
	Parts []Part
}

// Part is a group of items, drawn in order. Clip, where it is not empty, hides what lies outside it.
type Part struct {
	Clip  geom.Box
	Items []Item
	// Later, where it is set, makes the items in place of Items whenever they are wanted, always the same ones, and also several times
	// at once: a drawing that would fill the memory is never there as a whole. They lie on no other layers than On.
	Later func() []Item
	On    []string
}

// All returns the part's items.
func (p Part) All() []Item {
	if p.Later != nil {
		return p.Later()
	}
	return p.Items
}

// May reports whether the part may have items on a layer.
func (p Part) May(layer string) bool { return p.Later == nil || slices.Contains(p.On, layer) }

// Map returns the part with other items, made of its own.
func (p Part) Map(change func([]Item) []Item) Part {
	if later := p.Later; later != nil {
		p.Later = func() []Item { return change(later()) }
	} else {
		p.Items = change(p.Items)
	}
	return p
}

// Kept returns the drawing with items that are made later kept from the first time on: one that takes little memory is made once for all
// that want it.
func (d Drawing) Kept() Drawing {
	d.Sheets = slices.Clone(d.Sheets)
	for i, s := range d.Sheets {
		s.Parts = slices.Clone(s.Parts)
		for k, p := range s.Parts {
			if p.Later != nil {
				s.Parts[k].Later = sync.OnceValue(p.Later)
			}
		}
		d.Sheets[i] = s
	}
	return d
}

// Item is a path or a text: a text where Text is not nil, else a path.
type Item struct {
	Layer string // a layer's ID
	ID    string // ASCII, optional, unique in the sheet: "check-100mm", "plate-U4"
	Path  geom.Path
	Holes []geom.Path // of a filled path, or further contours of the same part
	Fill  bool        // fill with the pen's colour instead of stroking
	Text  *Text
}

// Text is a line of lettering.
type Text struct {
	S      string
	At     geom.Pt // the anchor
	Height float64 // height of a capital letter, mm (ISO 3098)
	Angle  float64 // radians, counter-clockwise
	Anchor Anchor
	Bold   bool
}

// Anchor is the point of a text's box that stands at Text.At.
type Anchor int

// The anchors: on the base line left, centred, right; and centred on half the capital's height.
const (
	Left Anchor = iota
	Center
	Right
	Middle
)
