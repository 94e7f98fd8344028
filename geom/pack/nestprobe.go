package pack

import (
	"math"

	"ribwright/geom"
)

// Where a disc finds no place, no form finds one that holds the disc there. Probes are such discs, a few sizes for all forms: on a sheet
// that is filled for the most part they spare forms the search for their corners, everywhere or where discs and plates lie close.

// probeStep is how much larger the next probe is; fewProbed is how many forms, or parts on a sheet, make probes worth while.
const (
	probeStep = 1.15
	fewProbed = 8
)

// readyProbes adds the probes to the forms, and tells each form its own: the largest that it holds.
func (b *bench) readyProbes() {
	b.own = len(b.forms)
	if b.own < fewProbed {
		return
	}
	least := math.Inf(1)
	for _, f := range b.forms {
		f.middle, f.core = f.held()
		least = min(least, f.core)
	}
	if least < 4*b.tol {
		return
	}
	of := map[int]int{} // probes by size; looked up only
	for _, f := range b.forms[:b.own] {
		k := int(math.Log(f.core/least) / math.Log(probeStep))
		i, ok := of[k]
		if !ok {
			r := float64(least*math.Pow(probeStep, float64(k))) - b.tol - 2*hair // no-fit regions of discs may be too large by tol
			i, of[k] = len(b.forms), len(b.forms)
			b.forms = append(b.forms, discForm(r))
		}
		f.probe = i
	}
}

// held returns a disc that lies in the form.
func (f *form) held() (at geom.Pt, r float64) {
	if f.radius > 0 {
		return f.inner, f.radius
	}
	for _, c := range f.cores {
		for _, p := range [2]geom.Pt{middle(c), c.Box().Centre()} {
			if d := -offConvex(c, p); d > r {
				at, r = p, d
			}
		}
	}
	return at, r
}

// probed returns where form f's probe may lie, as a field that is up to date; nil: nothing is known. by leads from a place of the
// form to that of the probe in it. ok is false where the probe finds no place at all.
func (o *board) probed(f int) (fd *field, by geom.Pt, ok bool) {
	fm := o.b.forms[f]
	if o.b.own == len(o.b.forms) || f >= o.b.own || len(o.items) < fewProbed {
		return nil, by, true
	}
	if fm.core >= o.least {
		return nil, by, false
	}
	probe := o.b.forms[fm.probe]
	if !o.free[f].begun && len(o.spotsOf(fm.probe)) == 0 {
		o.least = probe.radius
		return nil, by, false
	}
	k := fm.probe - o.b.own
	if o.fields == nil {
		o.fields = make([]*field, len(o.b.forms)-o.b.own)
	}
	if o.fields[k] == nil {
		lo, hi, _ := o.room(probe)
		o.fields[k] = newField(lo, hi, probe.radius/2)
	}
	fd = o.fields[k]
	for ; fd.seen < len(o.items); fd.seen++ {
		it := &o.items[fd.seen]
		for _, b := range o.b.bar(it.form, fm.probe).blocks {
			fd.bury(b, it.at)
		}
	}
	return fd, fm.middle.Sub(probe.inner), true
}

// field is the room of a probe in square cells. A cell is dead where one item's region holds the whole of it.
type field struct {
	lo     geom.Pt
	cell   float64
	nx, ny int
	words  int      // of a row
	dead   []uint64 // a bit for each cell, row by row
	seen   int      // items that are taken into account
}

func newField(lo, hi geom.Pt, cell float64) *field {
	w, h := hi.X-lo.X, hi.Y-lo.Y
	cell = max(cell, w/500, h/500)
	fd := &field{lo: lo, cell: cell, nx: int(w/cell) + 1, ny: int(h/cell) + 1}
	fd.words = (fd.nx + 63) / 64
	fd.dead = make([]uint64, fd.words*fd.ny)
	return fd
}

// bury marks the cells dead that lie wholly in the block, moved by at. On every line between two rows of cells the corners that lie
// in the block stand in one stretch.
func (fd *field) bury(b *block, at geom.Pt) {
	off := at.Sub(fd.lo)
	x0, x1 := max(0, int(math.Ceil((b.lo.X+off.X)/fd.cell))), min(fd.nx, int(math.Floor((b.hi.X+off.X)/fd.cell)))
	y0, y1 := max(0, int(math.Ceil((b.lo.Y+off.Y)/fd.cell))), min(fd.ny, int(math.Floor((b.hi.Y+off.Y)/fd.cell)))
	in := func(x, y int) bool {
		return b.depth(geom.Pt{X: float64(float64(x)*fd.cell) - off.X, Y: float64(float64(y)*fd.cell) - off.Y}, hair) > 0
	}
	below, end := 0, 0 // the stretch on the line below
	for y := y0; y <= y1; y++ {
		from, to := x0, x1
		for from <= to && !in(from, y) {
			from++
		}
		for to > from && !in(to, y) {
			to--
		}
		if y > y0 {
			row := fd.dead[(y-1)*fd.words : y*fd.words]
			for x := max(from, below); x < min(to, end); x++ {
				row[x>>6] |= 1 << (x & 63)
			}
		}
		below, end = from, to
	}
}

// isDead reports whether a box of places of the probe lies in dead cells, as far as the probe's room goes.
func (fd *field) isDead(lo, hi geom.Pt) bool {
	x0, x1 := max(0, int((lo.X-fd.lo.X)/fd.cell)), min(fd.nx-1, int((hi.X-fd.lo.X)/fd.cell))
	y0, y1 := max(0, int((lo.Y-fd.lo.Y)/fd.cell)), min(fd.ny-1, int((hi.Y-fd.lo.Y)/fd.cell))
	for y := y0; y <= y1; y++ {
		row := fd.dead[y*fd.words : (y+1)*fd.words]
		for w := x0 >> 6; w <= x1>>6 && x0 <= x1; w++ {
			mask := ^uint64(0)
			if w == x0>>6 {
				mask &= ^uint64(0) << (x0 & 63)
			}
			if w == x1>>6 {
				mask &= ^uint64(0) >> (63 - x1&63)
			}
			if row[w]&mask != mask {
				return false
			}
		}
	}
	return true
}
