package export

import (
	"encoding/binary"
	"sync"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"ribwright/geom"
)

// The tables of a TrueType font that lettering needs, read as the OpenType specification 1.9 describes
// them (chapters cmap, glyf, head, hhea, hmtx, loca). Only the two Go fonts, which are compiled into the
// program, are ever read: their form is known, so there are no checks for damaged fonts.

// glyph is one letter in font units, y up. A glyph is never changed once it is made.
type glyph struct {
	advance  float64
	contours []Contour
}

// face is one font. Its glyphs are made when first asked for and kept; it may be used from several
// goroutines at once.
type face struct {
	glyf, loca, hmtx, cmap []byte
	longLoca               bool
	advances               int      // entries of hmtx that carry an advance
	capital, descent       float64  // height of H, depth of descenders, font units
	glyphs                 sync.Map // rune → *glyph
}

var (
	regular = sync.OnceValue(func() *face { return newFace(goregular.TTF) })
	bold    = sync.OnceValue(func() *face { return newFace(gobold.TTF) })
)

func u16(b []byte, at int) int { return int(binary.BigEndian.Uint16(b[at:])) }
func i16(b []byte, at int) int { return int(int16(binary.BigEndian.Uint16(b[at:]))) }
func u32(b []byte, at int) int { return int(binary.BigEndian.Uint32(b[at:])) }

func newFace(ttf []byte) *face {
	tables := map[string][]byte{}
	for i := range u16(ttf, 4) {
		rec := ttf[12+16*i:]
		at, n := u32(rec, 8), u32(rec, 12)
		tables[string(rec[:4])] = ttf[at : at+n]
	}
	f := &face{
		glyf: tables["glyf"], loca: tables["loca"], hmtx: tables["hmtx"],
		longLoca: i16(tables["head"], 50) == 1,
		advances: u16(tables["hhea"], 34),
		descent:  -float64(i16(tables["hhea"], 6)),
	}
	cmap := tables["cmap"]
	for i := range u16(cmap, 2) {
		sub := cmap[u32(cmap, 4+8*i+4):]
		if u16(sub, 0) == 4 { // segments of the basic plane: all that the Go fonts hold
			f.cmap = sub
		}
	}
	if f.cmap == nil {
		panic("export: the built-in font has no character map of format 4")
	}
	h := f.outline(f.index('H'))
	for _, c := range h {
		for _, s := range c.Segs {
			f.capital = max(f.capital, s.End.Y)
		}
	}
	return f
}

// index returns the glyph of a rune, 0 where the font has none (cmap format 4).
func (f *face) index(r rune) int {
	if r > 0xFFFF {
		return 0
	}
	n := u16(f.cmap, 6) // twice the number of segments
	ends, starts, deltas, offsets := 14, 16+n, 16+2*n, 16+3*n
	for i := 0; i < n; i += 2 {
		if int(r) > u16(f.cmap, ends+i) {
			continue
		}
		start, off := u16(f.cmap, starts+i), u16(f.cmap, offsets+i)
		if int(r) < start {
			return 0
		}
		g := int(r)
		if off != 0 {
			g = u16(f.cmap, offsets+i+off+2*(int(r)-start))
			if g == 0 {
				return 0
			}
		}
		return (g + u16(f.cmap, deltas+i)) & 0xFFFF
	}
	return 0
}

// glyph returns the letter for a rune, nil where the font has none.
func (f *face) glyph(r rune) *glyph {
	if g, ok := f.glyphs.Load(r); ok {
		return g.(*glyph)
	}
	i := f.index(r)
	var g *glyph
	if i != 0 {
		g = &glyph{float64(u16(f.hmtx, 4*min(i, f.advances-1))), f.outline(i)}
	}
	f.glyphs.Store(r, g)
	return g
}

func (f *face) data(i int) []byte {
	if f.longLoca {
		return f.glyf[u32(f.loca, 4*i):u32(f.loca, 4*i+4)]
	}
	return f.glyf[2*u16(f.loca, 2*i) : 2*u16(f.loca, 2*i+2)]
}

func (f *face) outline(i int) []Contour {
	d := f.data(i)
	if len(d) == 0 {
		return nil // a space
	}
	if n := i16(d, 0); n >= 0 {
		return simple(d, n)
	}
	return f.composite(d)
}

// composite puts a letter together from others, such as é from e and an accent.
func (f *face) composite(d []byte) []Contour {
	const wide, xy, scaled, more, xyScaled, matrix = 0x1, 0x2, 0x8, 0x20, 0x40, 0x80
	var out []Contour
	for at := 10; ; {
		flags, part := u16(d, at), u16(d, at+2)
		if flags&xy == 0 || flags&(scaled|xyScaled|matrix) != 0 {
			panic("export: the built-in font scales a part of a letter")
		}
		at += 4
		var move geom.Pt
		if flags&wide != 0 {
			move = geom.Pt{X: float64(i16(d, at)), Y: float64(i16(d, at+2))}
			at += 4
		} else {
			move = geom.Pt{X: float64(int8(d[at])), Y: float64(int8(d[at+1]))}
			at += 2
		}
		for _, c := range f.outline(part) {
			out = append(out, c.apply(func(p geom.Pt) geom.Pt { return p.Add(move) }))
		}
		if flags&more == 0 {
			return out
		}
	}
}

// knot is a point of a TrueType outline: on the curve or a control point.
type knot struct {
	p  geom.Pt
	on bool
}

// simple reads the n contours of a glyph that is not put together from others.
func simple(d []byte, n int) []Contour {
	const on, xShort, yShort, repeat, xSame, ySame = 0x1, 0x2, 0x4, 0x8, 0x10, 0x20
	ends := d[10:]
	if n == 0 {
		return nil
	}
	count := u16(ends, 2*(n-1)) + 1
	at := 10 + 2*n + 2 + u16(d, 10+2*n) // past the instructions
	flags := make([]byte, 0, count)
	for len(flags) < count {
		fl := d[at]
		flags = append(flags, fl)
		at++
		if fl&repeat != 0 {
			for range d[at] {
				flags = append(flags, fl)
			}
			at++
		}
	}
	coord := func(short, same byte, set func(k int, v float64)) {
		v := 0
		for k, fl := range flags {
			switch {
			case fl&short != 0 && fl&same != 0:
				v += int(d[at])
				at++
			case fl&short != 0:
				v -= int(d[at])
				at++
			case fl&same == 0:
				v += i16(d, at)
				at += 2
			}
			set(k, float64(v))
		}
	}
	knots := make([]knot, count)
	coord(xShort, xSame, func(k int, v float64) { knots[k].p.X = v })
	coord(yShort, ySame, func(k int, v float64) { knots[k].p.Y = v })
	var out []Contour
	first := 0
	for c := range n {
		end := u16(ends, 2*c) + 1
		for k := first; k < end; k++ {
			knots[k].on = flags[k]&on != 0
		}
		out = append(out, contour(knots[first:end]))
		first = end
	}
	return out
}

// contour turns knots into lines and quadratic curves: between two control points in a row lies a point
// of the curve, half-way.
func contour(ks []knot) Contour {
	start := 0
	for start < len(ks)-1 && !ks[start].on {
		start++
	}
	if !ks[start].on {
		panic("export: the built-in font has a contour without a point on it")
	}
	c := Contour{Start: ks[start].p}
	var ctrl *geom.Pt
	for i := range ks {
		k := ks[(start+1+i)%len(ks)]
		switch {
		case !k.on && ctrl == nil:
			ctrl = &k.p
		case !k.on:
			c.Segs = append(c.Segs, Curve{Ctrl: *ctrl, End: ctrl.Lerp(k.p, 0.5)})
			ctrl = &k.p
		case ctrl != nil:
			c.Segs = append(c.Segs, Curve{Ctrl: *ctrl, End: k.p})
			ctrl = nil
		default:
			c.Segs = append(c.Segs, Curve{End: k.p, Line: true})
		}
	}
	return c
}
