package png

import (
	"image"
	"math"

	"ribwright/geom"
)

// raster gathers outlines and says how much of each dot they cover. Each step adds, along its row, the
// area that it leaves to its right, signed by its direction; the running sum of a row is the cover. Outlines
// that turn the same way are filled together, one that turns against them is cut out of them.
type raster struct {
	at    image.Rectangle
	width int       // dots of a row, and one for what lies beyond it
	sum   []float64 // of each dot, the change of cover against the dot before
}

// newRaster returns an empty raster, in the room of one that is done with.
func newRaster(at image.Rectangle, room []float64) *raster {
	w := at.Dx() + 2
	if n := w * at.Dy(); cap(room) >= n {
		room = room[:n]
		clear(room)
	} else {
		room = make([]float64, n)
	}
	return &raster{at, w, room}
}

// ring adds a closed outline, in dots of the picture.
func (r *raster) ring(ring []geom.Pt) {
	origin := geom.Pt{X: float64(r.at.Min.X), Y: float64(r.at.Min.Y)}
	for i, q := range ring {
		r.step(ring[(i+len(ring)-1)%len(ring)].Sub(origin), q.Sub(origin))
	}
}

// step adds a straight line, row by row.
func (r *raster) step(a, b geom.Pt) {
	sign := 1.0
	if a.Y > b.Y {
		a, b, sign = b, a, -1
	}
	if a.Y == b.Y || b.Y <= 0 || a.Y >= float64(r.at.Dy()) {
		return
	}
	slope := (b.X - a.X) / (b.Y - a.Y)
	from, to := max(0, int(math.Floor(a.Y))), min(r.at.Dy(), int(math.Ceil(b.Y)))
	for y := from; y < to; y++ {
		y0, y1 := math.Max(a.Y, float64(y)), math.Min(b.Y, float64(y+1))
		x0, x1 := a.X+float64((y0-a.Y)*slope), a.X+float64((y1-a.Y)*slope)
		r.row(y, r.inside(math.Min(x0, x1)), r.inside(math.Max(x0, x1)), sign*(y1-y0))
	}
}

func (r *raster) inside(x float64) float64 { return math.Min(math.Max(x, 0), float64(r.at.Dx())) }

// row adds a step of the height given that runs from x0 to x1 within one row.
func (r *raster) row(y int, x0, x1, height float64) {
	row := r.sum[y*r.width : (y+1)*r.width]
	first, last := int(x0), int(x1)
	if first == last {
		mid := float64((x0+x1)/2) - float64(first)
		row[first] += float64(height * (1 - mid))
		row[first+1] += float64(height * mid)
		return
	}
	per := height / (x1 - x0) // height for each dot of length
	before := 0.0             // cover of the dot before by this step
	for i := first; i <= last; i++ {
		// The part of the step in this dot covers it from where it runs; what ran before covers it whole.
		l, h := math.Max(x0, float64(i)), math.Min(x1, float64(i+1))
		cover := float64(per*(l-x0)) + float64(per*(h-l)*(float64(i+1)-float64((l+h)/2)))
		row[i] += cover - before
		before = cover
	}
	row[last+1] += height - before
}

// paint lays the colour over the picture where the outlines cover it.
func (r *raster) paint(on paper, rgb [3]uint8) {
	for y := range r.at.Dy() {
		cover := 0.0
		row := ((r.at.Min.Y+y-on.rect.Min.Y)*on.rect.Dx() + r.at.Min.X - on.rect.Min.X) * on.step
		for x := range r.at.Dx() {
			cover += r.sum[y*r.width+x]
			c := math.Min(math.Abs(cover), 1)
			if c < 1.0/1024 {
				continue
			}
			dot := on.pix[row+x*on.step:][:on.colours]
			for i, old := range dot {
				was := float64(old)
				dot[i] = uint8(math.Round(was + float64(c*(float64(rgb[i])-was))))
			}
		}
	}
}
