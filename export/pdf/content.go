package pdf

import (
	"math"

	"ribwright/export"
	"ribwright/geom"
)

const (
	places     = 4 // geom.Step
	turnPlaces = 6 // of a direction: a metre long, a line of text ends a thousandth of a millimetre off
)

// arcError is the most that a curve may leave its circle, mm: a tenth of geom.Step, so that areas read back well.
const arcError = 1e-5

// page draws the content of one sheet, in mm.
type page struct {
	b    []byte
	d    export.Drawing
	pen  string     // the layer whose pen is set; "" none
	fill string     // the layer whose colour is set for areas
	segs []geom.Seg // memory for the path at hand

	faces [2]*typeface // regular and bold
}

// content appends the operators that draw the sheet.
func content(b []byte, d export.Drawing, s export.Sheet, faces [2]*typeface) []byte {
	p := &page{b: b, d: d, faces: faces}
	p.b = append(p.b, "2.834645669291 0 0 2.834645669291 0 0 cm\n1 j\n"...) // 72/25.4; round joins
	for _, part := range s.Parts {
		items := part.All()
		if len(items) == 0 {
			continue
		}
		if part.Clip.Empty() {
			p.items(items)
			continue
		}
		c := part.Clip
		p.op("q").nums(places, c.Min.X, c.Min.Y, c.W(), c.H()).op("re W n")
		p.pen, p.fill = "", ""
		p.items(items)
		p.op("Q")
		p.pen, p.fill = "", ""
	}
	return p.b
}

func (p *page) items(items []export.Item) {
	for _, it := range items {
		if it.Text != nil {
			p.lettering(it)
		} else {
			p.shape(it)
		}
	}
}

// op writes an operator and ends the line.
func (p *page) op(s string) *page {
	p.b = append(append(p.b, s...), '\n')
	return p
}

// nums writes operands of so many places, a blank after each.
func (p *page) nums(places int, vs ...float64) *page {
	for _, v := range vs {
		p.b = append(export.AppendNum(p.b, v, places), ' ')
	}
	return p
}

func (p *page) pts(qs ...geom.Pt) *page {
	for _, q := range qs {
		p.nums(places, q.X, q.Y)
	}
	return p
}

func (p *page) setPen(layer string) {
	if p.pen == layer {
		return
	}
	p.pen = layer
	pen := p.d.Pen(layer)
	p.nums(places, pen.Width).op("w").color(pen, "G", "RG")
	p.b = append(p.b, '[')
	for i, v := range pen.Dash {
		if i > 0 {
			p.b = append(p.b, ' ')
		}
		p.b = export.AppendNum(p.b, v, places)
	}
	p.op("] 0 d")
}

func (p *page) setFill(layer string) {
	if p.fill != layer {
		p.fill = layer
		p.color(p.d.Pen(layer), "g", "rg")
	}
}

// color sets the pen's grey by one operator, or its colour, of a screen's red, green and blue, by the other.
func (p *page) color(pen export.Pen, grey, colour string) {
	rgb, ok := pen.Color.RGB()
	if !ok {
		p.nums(places, pen.Gray).op(grey)
		return
	}
	for _, v := range rgb {
		p.nums(places, float64(v)/255)
	}
	p.op(colour)
}

func (p *page) shape(it export.Item) {
	if it.Fill {
		p.setFill(it.Layer)
	} else {
		p.setPen(it.Layer)
	}
	n := len(p.b)
	p.contour(it.Path)
	for _, h := range it.Holes {
		p.contour(h)
	}
	switch {
	case len(p.b) == n:
	case it.Fill:
		p.op("f*")
	default:
		p.op("S")
	}
}

func (p *page) contour(path geom.Path) {
	path = export.SnapIn(p.segs, path, places)
	p.segs = path.Segs
	if len(path.Segs) == 0 {
		return
	}
	p.pts(path.Start).op("m")
	at := path.Start
	for _, s := range path.Segs {
		if s.Bulge == 0 {
			p.pts(s.End).op("l")
		} else {
			p.arc(at, s)
		}
		at = s.End
	}
	if path.Closed {
		p.op("h")
	}
}

// arc draws an arc as cubic curves whose control points lie on the tangents, 4/3·tan(θ/4) radii from the
// ends. Such a curve leaves the circle by (2/27)·sin⁶(θ/4)/cos²(θ/4) radii at most (Goldapp, Approximation
// of circular arcs by cubic polynomials, 1991, cited from memory; the test measures it); with the sine's argument for the
// sine this gives the sweep θ of a piece.
func (p *page) arc(a geom.Pt, s geom.Seg) {
	_, r, _, _ := geom.Arc(a, s.End, s.Bulge)
	most := min(math.Pi/4, 4*math.Cbrt(math.Sqrt(13.5*arcError/r)))
	for _, q := range export.SplitArc(a, s, most) {
		// With b = tan(θ/4): the chord is 2r·sin(θ/2), so 4/3·r·b is chord·(1+b²)/3 on a tangent that
		// stands at θ/2 to the chord, whose cosine is (1−b²)/(1+b²) and sine 2b/(1+b²).
		chord, b := q.End.Sub(a), q.Bulge
		along, out := (1-float64(b*b))/3, 2*b/3
		c1 := a.Along(chord, along).Along(chord.Left(), -out)
		c2 := q.End.Along(chord, -along).Along(chord.Left(), -out)
		p.pts(c1, c2, q.End).op("c")
		a = q.End
	}
}

// lettering shows a line of text. Letters beyond the first font's are shown from the fonts that follow.
func (p *page) lettering(it export.Item) {
	t := *it.Text
	face := p.faces[0]
	if t.Bold {
		face = p.faces[1]
	}
	letters := t.Letters()
	if letters == "" {
		return
	}
	p.setFill(it.Layer)
	o, along := t.Origin(), geom.Polar(t.Angle)
	p.op("BT").nums(turnPlaces, along.X, along.Y, -along.Y, along.X).nums(places, o.X, o.Y).op("Tm")
	font := -1
	for _, r := range letters {
		place := face.place(r)
		if place/perFont != font {
			if font >= 0 {
				p.op("> Tj")
			}
			font = place / perFont
			p.b = append(append(append(p.b, '/'), face.name(font)...), ' ')
			p.nums(places, t.Height).op("Tf")
			p.b = append(p.b, '<')
		}
		p.b = appendHex(p.b, byte(place%perFont+1))
	}
	p.op("> Tj").op("ET")
}

func appendHex(b []byte, c byte) []byte {
	const digits = "0123456789ABCDEF"
	return append(b, digits[c>>4], digits[c&15])
}
