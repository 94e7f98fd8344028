package pack

import (
	"cmp"
	"math"
	"slices"

	"ribwright/geom"
)

// variant is a part at one of its angles.
type variant struct {
	form  int
	angle float64
	off   geom.Pt // the form's origin, in the axes of the turned part
}

// ground is a kind of sheet, as it is filled.
type ground struct {
	sheet   int     // index in NestJob.Sheets
	lo, hi  geom.Pt // the sheet's box, less the margin
	odd     bool    // not an upright rectangle
	outline geom.Ring
	holes   []geom.Ring
	edges   *form // the edges that the box does not stand for, as cores; nil: none
	bars    []*barred
	rows    [][]geom.Pt // by form, see rowPlaces
	area    float64
	price   float64
	left    int // how many there are; −1: as many as needed
}

// rowsKey says which rows: of how many discs, on which ground.
type rowsKey struct {
	g       *ground
	form, n int
}

// bench is a job made ready: forms, their no-fit regions as far as they were asked for, and what was spent.
type bench struct {
	job       NestJob
	tol       float64 // of round outlines
	forms     []*form
	own       int         // the first ones of the forms are the parts', the others probes
	bars      [][]*barred // bars[a][b]: where b may not be beside a that stands at the origin
	parts     [][]variant // by index in NestJob.Parts
	areas     []float64   // likewise, of one
	grounds   []*ground
	rows      map[rowsKey]*board // looked up only
	reach     float64            // the longest side of any form's box, and the gap
	badSheets []int
	steps     int
	effort    int
	stopped   bool
	whole     bool // a first layout is done
}

// newBench makes the job ready, and says of each part that cannot be nested why.
func newBench(job NestJob) (*bench, []Reason) {
	b := &bench{job: job, effort: job.Effort, tol: math.Min(0.05, math.Max(0.01, job.Gap/50))}
	if b.effort <= 0 {
		b.effort = DefaultEffort
	}
	why := make([]Reason, len(job.Parts))
	b.parts = make([][]variant, len(job.Parts))
	gaps := job.Gap >= 0 && job.Margin >= 0 && !math.IsInf(job.Gap+job.Margin, 0)
	if gaps {
		b.readySheets()
	}
	b.areas = make([]float64, len(job.Parts))
	largest := make([]int, len(job.Parts)) // a form may stand in for smaller ones
	for i, p := range job.Parts {
		largest[i], b.areas[i] = i, math.Abs(p.Outline.Area())
	}
	slices.SortStableFunc(largest, func(i, j int) int { return cmp.Compare(b.areas[j], b.areas[i]) })
	for _, i := range largest {
		p := job.Parts[i]
		switch {
		case p.Count <= 0:
		case !gaps:
			why[i] = BadJob
		case len(b.grounds) == 0:
			why[i] = NoSheet
		default:
			why[i] = b.readyPart(i, p)
		}
	}
	for _, f := range b.forms {
		b.reach = max(b.reach, f.w, f.h)
	}
	b.reach += float64(job.Gap) + b.tol
	b.readyProbes()
	b.bars = make([][]*barred, len(b.forms))
	for _, g := range b.grounds {
		g.bars = make([]*barred, len(b.forms))
	}
	return b, why
}

func (b *bench) readyPart(i int, p Part) Reason {
	angles := p.Angles
	if len(angles) == 0 {
		angles = []float64{0}
	}
	fits := false
	for _, a := range angles {
		if math.IsNaN(a - a) {
			continue
		}
		v, ok := b.variantOf(p.Outline, a)
		if !ok {
			return BadOutline
		}
		known := false
		for _, o := range b.parts[i] {
			known = known || o.form == v.form
		}
		if !known {
			b.parts[i] = append(b.parts[i], v)
			f := b.forms[v.form]
			for _, g := range b.grounds {
				fits = fits || (f.w <= g.hi.X-g.lo.X+hair && f.h <= g.hi.Y-g.lo.Y+hair)
			}
		}
	}
	switch {
	case len(b.parts[i]) == 0:
		return BadOutline
	case !fits:
		return TooLarge
	}
	return NoReason
}

// variantOf returns the outline at an angle; a form that is known already is used again.
func (b *bench) variantOf(o geom.Path, angle float64) (variant, bool) {
	v := variant{angle: angle}
	f := &form{area: math.Abs(o.Area())}
	t := turn(angle).Path(o)
	if c, r, ok := o.IsCircle(); ok && r > hair && finite(o.Start) {
		c = turn(angle).Pt(c)
		disc := discForm(r)
		disc.area, f = f.area, disc
		v.off = c.Sub(f.inner)
	} else {
		ring := ringAround(t, b.tol)
		if ring == nil {
			return v, false
		}
		box := ring.Box()
		v.off, f.w, f.h = box.Min, box.W(), box.H()
		f.ring = make(geom.Ring, len(ring))
		first := lowest(ring)
		for i := range ring {
			f.ring[i] = ring[(first+i)%len(ring)].Sub(box.Min)
		}
	}
	f.body = t.Box().Move(v.off.Mul(-1))
	for k, o := range b.forms {
		if f.same(o) {
			v.form = k
			return v, true
		}
	}
	if k, by, ok := b.standIn(f, geom.Move(v.off.Mul(-1)).Path(t)); ok {
		v.form, v.off = k, v.off.Sub(by)
		return v, true
	}
	if f.radius == 0 {
		f.cores = convexCover(f.ring)
		f.inner = middle(f.cores[0])
	}
	v.form = len(b.forms)
	b.forms = append(b.forms, f)
	return v, true
}

// discForm returns the form of a disc.
func discForm(r float64) *form {
	f := &form{radius: r, w: 2 * r, h: 2 * r, inner: geom.Pt{X: r, Y: r}}
	f.cores = []geom.Ring{{f.inner}}
	f.ring = geom.Ring{{}, {X: f.w}, {X: f.w, Y: f.h}, {Y: f.h}}
	return f
}

// same reports whether two forms are one shape.
func (f *form) same(o *form) bool {
	if math.Abs(f.radius-o.radius) > 1e-9 || len(f.ring) != len(o.ring) || math.Abs(f.area-o.area) > 1e-6*(1+f.area) {
		return false
	}
	for s := range f.ring { // the lowest corner may be another of two at one height
		i := 0
		for i < len(f.ring) && f.ring[i].Dist(o.ring[(s+i)%len(f.ring)]) < 1e-7 {
			i++
		}
		if i == len(f.ring) {
			return true
		}
	}
	return false
}

func middle(r geom.Ring) geom.Pt {
	var s geom.Pt
	for _, p := range r {
		s = s.Add(p)
	}
	return s.Mul(1 / float64(len(r)))
}

// readySheets makes the sheets ready; those that cannot be cut are left out.
func (b *bench) readySheets() {
	priced := false
	for _, s := range b.job.Sheets {
		priced = priced || s.Price > 0
	}
	for i, s := range b.job.Sheets {
		g := &ground{sheet: i, left: s.Count, price: s.Price}
		if g.left <= 0 {
			g.left = -1
		}
		if g.outline = cleanRing(s.Outline); g.outline == nil {
			b.badSheets = append(b.badSheets, i)
			continue
		}
		g.area = g.outline.Area()
		box := g.outline.Box()
		g.lo, g.hi = box.Grow(-b.job.Margin).Min, box.Grow(-b.job.Margin).Max
		g.odd = len(g.outline) != 4 || math.Abs(g.area-float64(box.W()*box.H())) > 1e-9*g.area
		var edges []geom.Ring
		if g.odd {
			edges = ringEdges(g.outline)
		}
		bad := false
		for _, h := range s.Holes {
			r := cleanRing(h)
			if r == nil {
				bad = bad || len(h) > 0
				continue
			}
			g.area -= r.Area()
			g.holes = append(g.holes, r)
			edges = append(edges, ringEdges(r)...)
		}
		if len(edges) > 0 {
			g.edges = &form{cores: edges}
		}
		if !priced || !(g.price >= 0) {
			g.price = g.area
		}
		if bad || g.area <= 0 || g.hi.X <= g.lo.X || g.hi.Y <= g.lo.Y {
			b.badSheets = append(b.badSheets, i)
			continue
		}
		b.grounds = append(b.grounds, g)
	}
}

func cleanRing(r geom.Ring) geom.Ring {
	for _, p := range r {
		if !finite(p) {
			return nil
		}
	}
	if r = tidyRing(r); len(r) < 3 || !isSimple(r) {
		return nil
	}
	if r.Area() < 0 {
		r = r.Reverse()
	}
	return r
}

func ringEdges(r geom.Ring) []geom.Ring {
	var out []geom.Ring
	for i, p := range r {
		out = append(out, geom.Ring{p, r[(i+1)%len(r)]})
	}
	return out
}

// bar returns the no-fit region of form f beside form a.
func (b *bench) bar(a, f int) *barred {
	if b.bars[a] == nil {
		b.bars[a] = make([]*barred, len(b.forms))
	}
	if b.bars[a][f] == nil {
		b.bars[a][f] = bar(b.forms[a], b.forms[f], b.job.Gap, b.tol)
	}
	return b.bars[a][f]
}

// groundBar returns where form f would cross an edge of the sheet or come nearer to it than the margin; nil: nowhere in the box.
func (b *bench) groundBar(g *ground, f int) *barred {
	if g.edges == nil {
		return nil
	}
	if g.bars[f] == nil {
		g.bars[f] = bar(g.edges, b.forms[f], b.job.Margin, b.tol)
	}
	return g.bars[f]
}
