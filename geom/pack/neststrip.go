package pack

import (
	"math"

	"ribwright/geom"
)

// Strip lays the parts out on one strip of the width given (along y, from 0) and of open length (along x,
// from 0), as short as it can, and returns the length. The job's sheets are not looked at.
func Strip(job NestJob, width float64) (Layout, float64) {
	long := job.Margin
	for _, p := range job.Parts {
		b := p.Outline.Box()
		long += float64(float64(max(p.Count, 0)) * (math.Hypot(b.W(), b.H()) + job.Gap))
	}
	long += job.Margin
	job.Sheets = []Sheet{{Outline: geom.Ring{{}, {X: long}, {X: long, Y: width}, {Y: width}}, Count: 1}}
	l := Nest(job)
	length := 0.0
	for _, p := range l.Placed {
		length = max(length, p.Transform().Path(job.Parts[p.Part].Outline).Box().Max.X+job.Margin)
	}
	for i, u := range l.Unplaced {
		if u.Why == TooLarge {
			l.Unplaced[i].Why = TooWide
		}
	}
	return l, length
}
