// Package dxf writes one sheet of a drawing as a DXF file of version AC1015, for cutters and CAD programs.
//
// Lengths are millimetres ($INSUNITS 4) or inches ($INSUNITS 1), y up, origin at the sheet's lower left corner. A full circle is
// a CIRCLE, a single line a LINE, every other path one LWPOLYLINE, closed where the path is, its arcs as
// bulges: no splines and no chains of short lines. Lettering is TEXT in ASCII at the height of its
// capitals. Layers carry their names, or the drawing's IDs in capitals, the pen's width, dashes and
// colour. A colour that is none of the first seven needs version AC1018. Areas are written by their
// outlines, since a cutter has no use for a filling.
//
// A clip cannot be said in these entities, so a sheet with clipped parts is refused: such a sheet is a
// page for a printer. The package takes no account of the tool's width, and knows no ribs.
package dxf

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"strconv"
	"strings"

	"ribwright/export"
	"ribwright/geom"
)

// Unit is what the file's numbers count.
type Unit struct {
	mm      float64 // of one
	insunit int     // its number in $INSUNITS
	metric  int     // of $MEASUREMENT
	places  int     // of a coordinate
}

// The units. Six places of a millimetre keep areas that are read back within 1e-3 mm² on a sheet of a metre;
// eight of an inch are no coarser.
var (
	Millimetre = Unit{1, 4, 1, 6}
	Inch       = Unit{25.4, 1, 0, 8}
)

// Write writes one sheet of the drawing, counted from 0, in millimetres.
func Write(w io.Writer, d export.Drawing, sheet int) error {
	return WriteIn(w, d, sheet, Millimetre)
}

// WriteIn writes one sheet of the drawing, counted from 0, in the unit given. Widths of lines are not its
// business: DXF has them in hundredths of a millimetre always.
func WriteIn(w io.Writer, d export.Drawing, sheet int, unit Unit) error {
	if err := d.CheckSheet(sheet); err != nil {
		return fmt.Errorf("dxf: %w", err)
	}
	s := d.Sheets[sheet]
	for _, part := range s.Parts {
		if !part.Clip.Empty() {
			return fmt.Errorf("dxf: sheet %d (%s) has a clipped part: DXF is written of whole sheets only", sheet+1, s.Name)
		}
	}
	if err := export.WriteFlow(w, func(f *export.Flow, b []byte) []byte { return write(f, b, d, s, unit) }); err != nil {
		return fmt.Errorf("writing DXF: %w", err)
	}
	return nil
}

func write(flow *export.Flow, b []byte, d export.Drawing, s export.Sheet, unit Unit) []byte {
	s.W, s.H, d.Layers = s.W/unit.mm, s.H/unit.mm, unit.layers(d.Layers)
	f := &file{flow: flow, b: b, next: firstFree, unit: unit, heads: map[string]string{}}
	for _, l := range d.Layers {
		f.heads[l.ID] = f.headOf(layerName(l))
		f.trueColor = f.trueColor || l.Pen.Color != "" && l.Pen.Color.Number() == 0
	}
	f.header(s)
	f.classes()
	f.tables(d)
	f.blocks()
	f.entities(s)
	f.objects()
	f.str(0, "EOF")
	return f.b
}

// file gathers groups: a code on one line, its value on the next.
type file struct {
	flow *export.Flow
	b    []byte // what is not handed on yet
	next int    // the next free handle
	unit Unit

	heads     map[string]string // of entities, by the ID of their layer
	trueColor bool              // some layer has a colour without a number of its own
	segs      []geom.Seg        // memory for the path at hand
}

// codes are the groups' codes with their line ends, by custom three places wide.
var codes = func() (out [512]string) {
	for c := range out {
		out[c] = fmt.Sprintf("%3d\n", c)
	}
	return out
}()

func (f *file) code(c int) {
	if c < len(codes) {
		f.b = append(f.b, codes[c]...)
	} else {
		f.b = append(strconv.AppendInt(f.b, int64(c), 10), '\n')
	}
}

func (f *file) str(c int, v string) {
	f.code(c)
	f.b = append(append(f.b, v...), '\n')
}

func (f *file) int(c, v int) {
	f.code(c)
	f.b = append(strconv.AppendInt(f.b, int64(v), 10), '\n')
}

func (f *file) hex(c, v int) {
	f.code(c)
	var digits [16]byte
	i := len(digits)
	for {
		i--
		digits[i] = "0123456789ABCDEF"[v&15]
		if v >>= 4; v == 0 {
			break
		}
	}
	f.b = append(append(f.b, digits[i:]...), '\n')
}

// num writes a real number, always with a point, as readers of old expect it.
func (f *file) num(c int, v float64) {
	f.code(c)
	n := len(f.b)
	f.b = export.AppendNum(f.b, v, f.unit.places)
	if bytes.LastIndexByte(f.b[n:], '.') < 0 {
		f.b = append(f.b, ".0"...)
	}
	f.b = append(f.b, '\n')
}

// exact writes a number that is not a length, such as a bulge, with twelve places: a bulge of six would
// move a long flat arc.
func (f *file) exact(c int, v float64) {
	f.code(c)
	f.b = append(export.AppendNum(f.b, v, 12), '\n')
}

// at writes a point of two or three coordinates under the codes c, c+10 (and c+20).
func (f *file) at(c int, p geom.Pt, flat bool) {
	f.num(c, p.X)
	f.num(c+10, p.Y)
	if !flat {
		f.num(c+20, 0)
	}
}

// handle writes a new handle and returns it.
func (f *file) handle() int {
	h := f.next
	f.next++
	f.hex(5, h)
	return h
}

// layerName returns what a layer is called in the file: its name, or its ID in capitals.
func layerName(l export.Layer) string { return cmp.Or(l.Name, strings.ToUpper(l.ID)) }
