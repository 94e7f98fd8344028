// Package png writes one sheet of a drawing as a picture, for pages and letters: what is measured or cut
// comes from the other writers.
//
// Lengths on the sheet are millimetres, y up; the picture has dpi dots an inch, rounded up to whole
// dots, 8 bits of grey on white, or of each colour where a layer has one. Layers are drawn in the drawing's order, a later one over an earlier
// one. Lines have round ends and joints, arcs are drawn as chords finer than a dot, dashes are drawn,
// lettering is filled outlines. The drawing and the sheet are not changed. The package knows no ribs.
package png

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"io"
	"math"
	"slices"

	"ribwright/export"
	"ribwright/geom"
)

// most is the largest side of a picture, dots.
const most = 20000

// Write writes one sheet of the drawing, counted from 0, at dpi dots an inch.
func Write(w io.Writer, d export.Drawing, sheet int, dpi float64) error {
	if err := d.CheckSheet(sheet); err != nil {
		return fmt.Errorf("png: %w", err)
	}
	s := d.Sheets[sheet]
	k := dpi / 25.4
	width, height := math.Ceil(s.W*k), math.Ceil(s.H*k)
	if !(dpi > 0) || !(width <= most && height <= most) {
		return fmt.Errorf("png: a sheet of %v × %v mm at %v dots an inch is no picture of at most %d dots a side", s.W, s.H, dpi, most)
	}
	p, img := newPainter(d, k, s.H, image.Rect(0, 0, int(width), int(height)))
	for _, l := range d.Layers {
		for _, part := range s.Parts {
			p.layer(l, part)
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		return fmt.Errorf("png: %w", err)
	}
	if _, err := w.Write(withHead(b.Bytes(), dpi)); err != nil {
		return fmt.Errorf("writing PNG: %w", err)
	}
	return nil
}

// Mark is what stands in the first bytes of every picture.
const Mark = "Software\x00Ribwright"

// withHead puts behind a picture's first chunk what it was written by, and how large its dots are, in dots a metre,
// so that other programs know its true size (PNG, third edition, 11.3.3.2 tEXt and 11.3.4.3 pHYs).
func withHead(pic []byte, dpi float64) []byte {
	const first = 8 + 12 + 13 // the signature, and the chunk IHDR
	out := append([]byte(nil), pic[:first]...)
	size := binary.BigEndian.AppendUint32(nil, uint32(math.Round(dpi/0.0254)))
	out = chunk(out, "pHYs", append(append(size, size...), 1))
	out = chunk(out, "tEXt", []byte(Mark))
	return append(out, pic[first:]...)
}

func chunk(b []byte, kind string, data []byte) []byte {
	b = binary.BigEndian.AppendUint32(b, uint32(len(data)))
	body := append([]byte(kind), data...)
	return binary.BigEndian.AppendUint32(append(b, body...), crc32.ChecksumIEEE(body))
}

// painter draws on the picture.
type painter struct {
	k, h  float64 // dots a millimetre; the sheet's height, mm
	paper paper
	in    geom.Box // of what the raster holds, dots
	todo  [][]geom.Pt
	room  []float64 // for the next raster
}

// paper is the dots of a picture: step bytes each, of which the first colours are drawn on.
type paper struct {
	rect          image.Rectangle
	pix           []uint8
	step, colours int
}

// newPainter returns white paper and its picture: a grey one unless some layer has a colour.
func newPainter(d export.Drawing, k, h float64, rect image.Rectangle) (*painter, image.Image) {
	grey := !slices.ContainsFunc(d.Layers, func(l export.Layer) bool { return l.Pen.Color != "" && l.Pen.Color != "black" })
	on := paper{rect: rect, step: 4, colours: 3}
	var img image.Image
	if grey {
		g := image.NewGray(rect)
		img, on = g, paper{rect, g.Pix, 1, 1}
	} else {
		c := image.NewNRGBA(rect)
		img, on.pix = c, c.Pix
	}
	for i := range on.pix {
		on.pix[i] = 0xff
	}
	return &painter{k: k, h: h, paper: on}, img
}

// dot turns a place on the sheet into dots, y down.
func (p *painter) dot(q geom.Pt) geom.Pt {
	return geom.Pt{X: float64(q.X * p.k), Y: float64((p.h - q.Y) * p.k)}
}

func (p *painter) layer(l export.Layer, part export.Part) {
	if !part.May(l.ID) {
		return
	}
	for _, it := range part.All() {
		if it.Layer != l.ID {
			continue
		}
		switch {
		case it.Text != nil:
			for _, c := range it.Text.Outlines() {
				p.add(p.letter(c))
			}
		case it.Fill:
			p.region(it)
		default:
			for _, path := range append([]geom.Path{it.Path}, it.Holes...) {
				for _, line := range dashed(p.flat(path), l.Pen.Dash, p.k) {
					p.stroke(line, math.Max(l.Pen.Width*p.k, 1)/2)
				}
			}
		}
		p.paint(l.Pen, part.Clip)
	}
}

// add notes an outline in dots; outlines are filled together by the non-zero rule.
func (p *painter) add(ring []geom.Pt) {
	for _, q := range ring {
		p.in = p.in.Add(q)
	}
	p.todo = append(p.todo, ring)
}

// paint fills the outlines noted, inside the clip.
func (p *painter) paint(pen export.Pen, clip geom.Box) {
	todo, in := p.todo, p.in
	p.todo, p.in = nil, geom.Box{}
	if len(todo) == 0 {
		return
	}
	box := image.Rect(int(math.Floor(in.Min.X)), int(math.Floor(in.Min.Y)), int(math.Ceil(in.Max.X))+1, int(math.Ceil(in.Max.Y))+1)
	show := box.Intersect(p.paper.rect)
	if !clip.Empty() {
		a, b := p.dot(clip.Min), p.dot(clip.Max)
		show = show.Intersect(image.Rect(int(math.Round(a.X)), int(math.Round(b.Y)), int(math.Round(b.X)), int(math.Round(a.Y))))
	}
	if show.Empty() {
		return
	}
	for y := show.Min.Y; y < show.Max.Y; y += band {
		r := newRaster(image.Rect(show.Min.X, y, show.Max.X, min(y+band, show.Max.Y)), p.room)
		for _, ring := range todo {
			r.ring(ring)
		}
		r.paint(p.paper, pen.RGB())
		p.room = r.sum
	}
}

// band is how many rows are filled at a time: a frame round a large sheet would else need a raster as large.
const band = 256

// region notes a filled path and its holes; holes are turned against the outline.
func (p *painter) region(it export.Item) {
	outer := p.flat(it.Path)
	if len(outer) < 3 {
		return
	}
	p.add(outer)
	for _, h := range it.Holes {
		if ring := p.flat(h); len(ring) > 2 {
			if (turn(ring) > 0) == (turn(outer) > 0) {
				reverse(ring)
			}
			p.add(ring)
		}
	}
}

// turn is twice the signed area of a ring.
func turn(ring []geom.Pt) float64 {
	sum := 0.0
	for i, q := range ring {
		sum += ring[(i+len(ring)-1)%len(ring)].Cross(q)
	}
	return sum
}

func reverse(ring []geom.Pt) {
	for i, j := 0, len(ring)-1; i < j; i, j = i+1, j-1 {
		ring[i], ring[j] = ring[j], ring[i]
	}
}
