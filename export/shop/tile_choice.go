package shop

import "math"

// plan is one arrangement that is weighed: its windows, and the layout of its pages.
type plan struct {
	lay   layout
	cover cover
	shift float64
	share float64
}

// choice is a layout with the places of its strips that need fewest windows.
type choice struct {
	lay    layout
	cover  cover
	least  int
	shifts []float64
}

// try counts the windows for some places of the strips.
func (c *choice) try(shifts []float64) {
	for _, s := range shifts {
		most := math.MaxInt
		if len(c.shifts) > 0 {
			most = c.least
		}
		switch k, ok := c.cover.count(s, most); {
		case !ok:
		case len(c.shifts) == 0 || k < c.least:
			c.least, c.shifts = k, []float64{s}
		case k == c.least:
			c.shifts = append(c.shifts, s)
		}
	}
}

// coarse tries some places with as few strips as can be.
func (c *choice) coarse() {
	const tries = 12
	n := c.cover.strips(0)
	slack := float64(float64(n)*c.cover.pitch()) + c.cover.overlap - c.cover.box.W()
	shifts := make([]float64, tries+1)
	for i := range shifts {
		shifts[i] = slack * float64(i) / tries
	}
	c.try(shifts)
}

// fine tries every millimetre: a strip more may need fewer windows in all.
func (c *choice) fine() {
	if n := c.cover.strips(0); n == 1 || c.least == n {
		return
	}
	var shifts []float64
	for s := 0.0; s < c.cover.pitch(); s++ {
		shifts = append(shifts, s)
	}
	c.try(shifts)
}

// plans returns some of the arrangements, each with its spare paper above, below, and on both sides.
func (c *choice) plans() []plan {
	const most = 3
	var out []plan
	for i := range min(most, len(c.shifts)) {
		s := c.shifts[i*len(c.shifts)/min(most, len(c.shifts))]
		for _, share := range []float64{0.5, 0, 1} {
			out = append(out, plan{c.lay, c.cover, s, share})
		}
	}
	return out
}
