// Package shop makes what goes into the workshop: the jig drawing, whole and in tiles, the cut files, and
// the lists. It turns the parts of a rib into drawings and tables; writers put those into files.
//
// Lengths are millimetres at scale 1:1. A drawing is first laid out as a field in rib axes (origin at the
// leading edge of the chord line, x aft, y up) and then moved onto its sheet, or onto its pages, by
// nothing but a translation; outlines are the rib's own, without rounding. Lengths for people are written
// in the rib file's units as ribfile.Doc writes them: dimensions on drawings by Doc.Ruler, computed sizes in
// tables by Doc.Decimal, sizes that were given by Doc.Number. The package works nothing out about the rib: what
// is not in rib.Rib, in cut.Layout or in a finding, is not on the drawing. Kerf is geom/cut's: sheets show the way of
// the tool as it gives it. The package opens no files and reads no clock.
package shop

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"ribwright/export"
	"ribwright/geom"
)

// Pens of line group 0.5 (ISO 128-2): wide lines for the wood, narrow ones for everything else, 2 : 1.
const (
	wide   = 0.5
	narrow = 0.25
)

// palest is the lightest grey on any drawing: a copier still takes it.
const palest = 0.5

// Heights of lettering, mm, of the series of ISO 3098-1.
const (
	small  = 2.5 // the least on any drawing
	medium = 3.5
	large  = 5
)

// Layers of the drawings, each named for its purpose.
const (
	layerContour  = "contour" // the rib's outer line
	layerCap      = "cap"
	layerStick    = "stick"
	layerBlock    = "block"
	layerSpar     = "spar"      // the openings for the spars
	layerVoid     = "void"      // the cross that says: an opening
	layerAdjoin   = "adjacent"  // the largest spar that passes
	layerPlate    = "plate"     // on the near face
	layerPlateFar = "plate-far" // on the far face
	layerWeb      = "web"       // a sheet over a whole face
	layerMark     = "mark"      // lines that place a plate
	layerAxis     = "axis"
	layerStation  = "station"
	layerMeasure  = "dimension"
	layerName     = "name"
	layerFinding  = "finding"
	layerCheck    = "check"
	layerFrame    = "frame" // the sheet's frame, and its title
	layerTable    = "title" // the title's thin lines and small lettering, and the tables beside it
	layerLegend   = "legend"
	layerCaution  = "caution"
	layerMatch    = "match" // where pages join
	layerRegister = "register"
	layerMap      = "map"
	layerCut      = "cut"
)

// Dashes of line types as ISO 128-2 builds them from the line's width d: dashes of 12 d, long ones of 24 d,
// gaps of 3 d, dots of half a d. Hidden lines are dashed (type 02), axes long-dashed dotted (04), what
// stands beside the part long-dashed double-dotted (05), and webs long-dashed triplicate-dotted (06).
var (
	dashed     = []float64{12 * narrow, 3 * narrow}
	dashDot    = []float64{24 * narrow, 3 * narrow, 0.5 * narrow, 3 * narrow}
	dashDotDot = []float64{24 * narrow, 3 * narrow, 0.5 * narrow, 3 * narrow, 0.5 * narrow, 3 * narrow}
	dashDots   = []float64{24 * narrow, 3 * narrow, 0.5 * narrow, 3 * narrow, 0.5 * narrow, 3 * narrow, 0.5 * narrow, 3 * narrow}
)

// jigLayers returns the layers of the jig drawing, thin lines first so that the wood's lie over them.
func jigLayers() []export.Layer {
	thin, thick := export.Pen{Width: narrow}, export.Pen{Width: wide}
	return append(boardLayers(), []export.Layer{
		{ID: layerMap, Pen: export.Pen{Width: narrow, Gray: palest}},
		{ID: layerMatch, Pen: export.Pen{Width: narrow, Gray: palest}},
		{ID: layerAxis, Pen: export.Pen{Width: narrow, Dash: dashDot}},
		{ID: layerAdjoin, Pen: export.Pen{Width: narrow, Dash: dashDotDot}},
		{ID: layerPlateFar, Pen: export.Pen{Width: narrow, Dash: dashed}},
		{ID: layerWeb, Pen: export.Pen{Width: narrow, Dash: dashDots}},
		{ID: layerVoid, Pen: thin}, {ID: layerStation, Pen: thin}, {ID: layerMeasure, Pen: thin}, {ID: layerMark, Pen: thin}, {ID: layerPlate, Pen: thin},
		{ID: layerStick, Pen: thick}, {ID: layerBlock, Pen: thick}, {ID: layerSpar, Pen: thick},
		{ID: layerCap, Pen: thick}, {ID: layerContour, Pen: thick},
		{ID: layerName, Pen: thin}, {ID: layerFinding, Pen: thin}, {ID: layerRegister, Pen: thin}, {ID: layerCheck, Pen: thin},
		{ID: layerTable, Pen: thin}, {ID: layerLegend, Pen: thin}, {ID: layerCaution, Pen: thin}, {ID: layerFrame, Pen: thick},
	}...)
}

// canvas gathers items, each ID once.
type canvas struct {
	items []export.Item
	ids   map[string]bool
}

func (c *canvas) path(layer string, p geom.Path) {
	if len(p.Segs) > 0 {
		c.items = append(c.items, export.Item{Layer: layer, Path: p})
	}
}

// part draws a part's outline under its own ID.
func (c *canvas) part(layer, id string, p geom.Path) {
	if len(p.Segs) > 0 {
		c.items = append(c.items, export.Item{Layer: layer, ID: c.unique(id), Path: p})
	}
}

func (c *canvas) line(layer string, a, b geom.Pt) {
	if a != b {
		c.path(layer, geom.Line(a, b))
	}
}

func (c *canvas) fill(layer string, p geom.Path) {
	c.items = append(c.items, export.Item{Layer: layer, Path: p, Fill: true})
}

func (c *canvas) dot(layer string, at geom.Pt) { c.fill(layer, geom.Circle(at, dotRadius)) }

func (c *canvas) text(layer string, t export.Text) {
	if t.S != "" {
		c.items = append(c.items, export.Item{Layer: layer, Text: &t})
	}
}

// write letters a line of text, upright.
func (c *canvas) write(layer, s string, at geom.Pt, height float64, anchor export.Anchor, bold bool) {
	c.text(layer, export.Text{S: s, At: at, Height: height, Anchor: anchor, Bold: bold})
}

// unique returns the ID in the characters that files take, with a number where it is taken already.
func (c *canvas) unique(id string) string {
	id = strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '.' {
			return r
		}
		return '-'
	}, export.ASCII(id))
	if c.ids == nil {
		c.ids = map[string]bool{}
	}
	out := id
	for n := 2; c.ids[out]; n++ {
		out = fmt.Sprintf("%s-%d", id, n)
	}
	c.ids[out] = true
	return out
}

// moved returns items moved by v.
func moved(items []export.Item, v geom.Pt) []export.Item { return move(slices.Clone(items), v) }

// move moves items by v where they stand, and returns them. Paths and lettering that they share with others stay.
func move(items []export.Item, v geom.Pt) []export.Item {
	n, texts := 0, 0
	for i := range items {
		n += len(items[i].Path.Segs)
		for _, h := range items[i].Holes {
			n += len(h.Segs)
		}
		if items[i].Text != nil {
			texts++
		}
	}
	m := mover{v, make([]geom.Seg, 0, n)}
	lettering := make([]export.Text, 0, texts)
	for i := range items {
		it := &items[i]
		it.Path = m.path(it.Path)
		holes := it.Holes
		it.Holes = nil
		for _, h := range holes {
			it.Holes = append(it.Holes, m.path(h))
		}
		if it.Text != nil {
			lettering = append(lettering, *it.Text)
			it.Text = &lettering[len(lettering)-1]
			it.Text.At = it.Text.At.Add(v)
		}
	}
	return items
}

// movedParts moves parts by v; their items belong to nobody else.
func movedParts(parts []export.Part, v geom.Pt) []export.Part {
	out := make([]export.Part, len(parts))
	for i, p := range parts {
		out[i] = p.Map(func(items []export.Item) []export.Item { return move(items, v) })
	}
	return out
}

// mover moves paths; the steps of all of them stand in one piece of memory, which has room for them.
type mover struct {
	by   geom.Pt
	segs []geom.Seg
}

func (m *mover) path(p geom.Path) geom.Path {
	if len(p.Segs) == 0 {
		return p
	}
	from := len(m.segs)
	for _, s := range p.Segs {
		m.segs = append(m.segs, geom.Seg{End: s.End.Add(m.by), Bulge: s.Bulge})
	}
	return geom.Path{Start: p.Start.Add(m.by), Segs: m.segs[from:len(m.segs):len(m.segs)], Closed: p.Closed}
}

// bounds returns the box of what is drawn.
func bounds(items []export.Item) geom.Box {
	var b geom.Box
	for _, it := range items {
		b = b.Union(itemBox(it))
	}
	return b
}

func itemBox(it export.Item) geom.Box {
	if it.Text != nil {
		c := it.Text.Corners()
		return geom.NewBox(c[:]...)
	}
	return it.Path.Box()
}

// readable turns a direction so that lettering along it is read from below or from the right (ISO 129-1).
// What stands nearly upright is read from the right, to whichever side it leans.
func readable(angle float64) float64 {
	const tilt = 15 * math.Pi / 180
	a := math.Remainder(angle, math.Pi)
	if a <= -math.Pi/2+tilt {
		a += math.Pi
	}
	return a
}

// textWidth returns the length of lettering.
func textWidth(s string, height float64, bold bool) float64 {
	return export.Text{S: s, Height: height, Bold: bold}.Width()
}

// wrap breaks a text into lines of the width given, between words where it can.
func wrap(s string, height, width float64, bold bool) []string {
	var out []string
	for rest := strings.Join(strings.Fields(s), " "); rest != ""; {
		line := rest[:wordEnd(rest, 0)]
		if len(line) > 1 && textWidth(line, height, bold) > width {
			line = clip(line, height, width, bold, "")
		} else {
			t := export.Text{S: line, Height: height, Bold: bold}
			for long := t.Advance(); len(line) < len(rest); {
				longer := rest[:wordEnd(rest, len(line)+1)]
				t.S = longer[len(line):]
				if long += t.Advance(); t.Length(long) > width {
					break
				}
				line = longer
			}
		}
		out, rest = append(out, line), strings.TrimPrefix(strings.TrimPrefix(rest, line), " ")
	}
	return out
}

// wordEnd returns where the word ends that begins at a place in a text.
func wordEnd(s string, from int) int {
	if i := strings.IndexByte(s[from:], ' '); i >= 0 {
		return from + i
	}
	return len(s)
}

// clip shortens a text to the width given, and ends it with the mark given where it had to; at least one
// letter stays. What stays is a beginning of the text, byte by byte, also where it is not UTF-8.
func clip(s string, height, width float64, bold bool, end string) string {
	if textWidth(s, height, bold) <= width {
		return s
	}
	for {
		_, last := utf8.DecodeLastRuneInString(s)
		if last == len(s) || textWidth(s+end, height, bold) <= width {
			return strings.TrimRight(s, " ") + end
		}
		s = s[:len(s)-last]
	}
}
