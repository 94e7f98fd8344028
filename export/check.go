package export

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"ribwright/geom"
)

// Farthest is the largest coordinate that Check lets pass, mm: a drawing a kilometre wide is a mistake.
const Farthest = 1e6

// fullTurn is a bulge so near a full circle (359.98°) that its ends fall together in a file and the arc
// would vanish: a circle is written as two arcs.
const fullTurn = 1e4

// Check returns an error for a drawing that must not become a file: a layer that is not declared or is
// declared twice, a number that is not one, an ID that is doubled or not plain ASCII, lettering without
// height. Such a drawing is a mistake of the program that made it, not of the builder.
func (d Drawing) Check() error {
	for i := range d.Sheets {
		if err := d.CheckSheet(i); err != nil {
			return err
		}
	}
	if len(d.Sheets) == 0 {
		return d.checkHead()
	}
	return nil
}

// CheckSheet is Check for the title, the layers and one sheet, counted from 0.
func (d Drawing) CheckSheet(sheet int) error {
	if err := d.checkHead(); err != nil {
		return err
	}
	if sheet < 0 || sheet >= len(d.Sheets) {
		return fmt.Errorf("export: there is no sheet %d in a drawing of %d", sheet+1, len(d.Sheets))
	}
	s := d.Sheets[sheet]
	where := fmt.Sprintf("export: sheet %d (%s)", sheet+1, s.Name)
	if !line(s.Name) {
		return fmt.Errorf("%s: the name is not one line of text", where)
	}
	if !(s.W > 0 && s.W <= Farthest && s.H > 0 && s.H <= Farthest) {
		return fmt.Errorf("%s: the size %v × %v mm is not one", where, s.W, s.H)
	}
	ids, layer := map[string]bool{}, "" // the layer of the item before
	for _, l := range d.Layers {
		ids[l.ID] = true // a layer's ID names its group in files that hold items' IDs too
	}
	for p, part := range s.Parts {
		if !part.Clip.Empty() && !(finite(part.Clip.Min) && finite(part.Clip.Max)) {
			return fmt.Errorf("%s, part %d: the clip box is not finite", where, p+1)
		}
		items := part.All()
		for i := range items {
			it := &items[i]
			if (it.Layer == "" || it.Layer != layer) && !d.has(it.Layer) {
				return fmt.Errorf("%s, part %d, item %d %s: the layer %q is not declared", where, p+1, i+1, it.ID, it.Layer)
			}
			layer = it.Layer
			if err := it.check(); err != nil {
				return fmt.Errorf("%s, part %d, item %d %s: %w", where, p+1, i+1, it.ID, err)
			}
			if it.ID == "" {
				continue
			}
			if ids[it.ID] {
				return fmt.Errorf("%s, part %d, item %d: the ID %q is taken", where, p+1, i+1, it.ID)
			}
			ids[it.ID] = true
		}
	}
	return nil
}

// Pen returns the pen of a layer, the zero Pen where there is no such layer.
func (d Drawing) Pen(layer string) Pen {
	for _, l := range d.Layers {
		if l.ID == layer {
			return l.Pen
		}
	}
	return Pen{}
}

func (d Drawing) checkHead() error {
	if !line(d.Title) {
		return fmt.Errorf("export: the title %q is not one line of text", d.Title)
	}
	seen, names := map[string]bool{}, map[string]bool{}
	for _, l := range d.Layers {
		if !id(l.ID) || hasUpper(l.ID) {
			return fmt.Errorf("export: the layer's ID %q is not lower-case ASCII that begins with a letter", l.ID)
		}
		if seen[l.ID] {
			return fmt.Errorf("export: the layer %q is declared twice", l.ID)
		}
		seen[l.ID] = true
		if name := strings.ToUpper(cmp.Or(l.Name, l.ID)); names[name] || name != ASCII(name) {
			return fmt.Errorf("export: the layer %q is called %q, which is taken or not plain ASCII", l.ID, l.Name)
		} else {
			names[name] = true
		}
		if err := l.Pen.check(); err != nil {
			return fmt.Errorf("export: layer %q: %w", l.ID, err)
		}
	}
	return nil
}

func (p Pen) check() error {
	if !(p.Width >= 0 && p.Width <= Farthest) {
		return fmt.Errorf("the pen's width %v mm is not one", p.Width)
	}
	if !(p.Gray >= 0 && p.Gray <= 1) {
		return fmt.Errorf("the pen's grey %v is not between 0 and 1", p.Gray)
	}
	if _, ok := p.Color.RGB(); !ok && p.Color != "" {
		return fmt.Errorf("the pen's colour %q is not one", p.Color)
	}
	sum := 0.0
	for _, v := range p.Dash {
		if !(v >= 0 && v <= Farthest) {
			return fmt.Errorf("the dash %v mm is not a length", v)
		}
		sum += v
	}
	if p.Dash != nil && sum == 0 {
		return fmt.Errorf("the dashes have no length")
	}
	return nil
}

func (d Drawing) has(layer string) bool {
	return slices.ContainsFunc(d.Layers, func(l Layer) bool { return l.ID == layer })
}

func (it *Item) check() error {
	if it.ID != "" && !id(it.ID) {
		return fmt.Errorf("the ID %q is not ASCII letters, digits, '-', '.' and '_' that begins with a letter", it.ID)
	}
	if it.Text != nil {
		return it.Text.check()
	}
	if err := checkPath(it.Path); err != nil {
		return err
	}
	for _, h := range it.Holes {
		if err := checkPath(h); err != nil {
			return err
		}
	}
	return nil
}

func (t Text) check() error {
	switch {
	case !line(t.S):
		return fmt.Errorf("the text %q is not one line of text", t.S)
	case !(t.Height > 0 && t.Height <= Farthest):
		return fmt.Errorf("the text %q has the height %v mm", t.S, t.Height)
	case !finite(t.At) || math.IsNaN(t.Angle) || math.IsInf(t.Angle, 0):
		return fmt.Errorf("the text %q stands at %v, turned by %v", t.S, t.At, t.Angle)
	case t.Anchor < Left || t.Anchor > Middle:
		return fmt.Errorf("the text %q has the anchor %d", t.S, t.Anchor)
	}
	return nil
}

func checkPath(p geom.Path) error {
	if !finite(p.Start) {
		return fmt.Errorf("the path starts at %v", p.Start)
	}
	for i, s := range p.Segs {
		if !finite(s.End) || !(math.Abs(s.Bulge) <= fullTurn) {
			return fmt.Errorf("step %d of the path goes to %v with the bulge %v", i+1, s.End, s.Bulge)
		}
	}
	return nil
}

// finite reports whether p is a place on a drawing; comparisons with NaN are false.
func finite(p geom.Pt) bool {
	return math.Abs(p.X) <= Farthest && math.Abs(p.Y) <= Farthest
}

// line reports whether s is UTF-8 without control characters, which XML 1.0 cannot hold (section 2.2).
func line(s string) bool {
	for i := 0; ; i++ { // ASCII for the most part
		if i == len(s) {
			return true
		}
		if s[i] < ' ' || s[i] > '~' {
			break
		}
	}
	for _, r := range s {
		if unicode.IsControl(r) || r == 0xFFFE || r == 0xFFFF {
			return false
		}
	}
	return utf8.ValidString(s)
}

// id reports whether s is a name in ASCII as XML and DXF take it. A name that begins with '_' is left to
// the writers.
func id(s string) bool {
	for i, r := range s {
		letter := r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
		inner := r >= '0' && r <= '9' || r == '-' || r == '.' || r == '_'
		if !letter && (i == 0 || !inner) {
			return false
		}
	}
	return s != ""
}

func hasUpper(s string) bool {
	for _, r := range s {
		if r >= 'A' && r <= 'Z' {
			return true
		}
	}
	return false
}

// Check returns an error for a table that must not become a file: rows longer or shorter than the
// heading, keys that are doubled or not lower-case ASCII, numbers that are not finite.
func (t Table) Check() error {
	if !id(t.ID) || hasUpper(t.ID) {
		return fmt.Errorf("export: the table's ID %q is not lower-case ASCII", t.ID)
	}
	for _, s := range append([]string{t.Title}, t.Notes...) {
		if !utf8.ValidString(s) {
			return fmt.Errorf("export: table %s: %q is not UTF-8 text", t.ID, s)
		}
	}
	seen := map[string]bool{}
	for _, c := range t.Columns {
		if !utf8.ValidString(c.Head + c.Unit) {
			return fmt.Errorf("export: table %s: the heading %q is not UTF-8 text", t.ID, c.Head)
		}
		if !id(c.Key) || hasUpper(c.Key) || seen[c.Key] {
			return fmt.Errorf("export: table %s: the column's key %q is doubled or not lower-case ASCII", t.ID, c.Key)
		}
		seen[c.Key] = true
	}
	for i, row := range t.Rows {
		if len(row) != len(t.Columns) {
			return fmt.Errorf("export: table %s, row %d: %d cells under %d headings", t.ID, i+1, len(row), len(t.Columns))
		}
		for j, c := range row {
			if c.IsNum && (math.IsNaN(c.Num) || math.IsInf(c.Num, 0)) {
				return fmt.Errorf("export: table %s, row %d: %s is %v", t.ID, i+1, t.Columns[j].Key, c.Num)
			}
			if !utf8.ValidString(c.Text) {
				return fmt.Errorf("export: table %s, row %d: %s is not UTF-8 text", t.ID, i+1, t.Columns[j].Key)
			}
		}
	}
	return nil
}
