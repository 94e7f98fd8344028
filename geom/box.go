package geom

// Box is an upright rectangle, edges included. Its zero value is empty.
type Box struct {
	Min, Max Pt
	full     bool
}

// NewBox returns the smallest box that holds the points.
func NewBox(pts ...Pt) Box {
	if len(pts) == 0 {
		return Box{}
	}
	b := Box{pts[0], pts[0], true}
	for _, p := range pts[1:] {
		b.Min.X, b.Max.X = min(b.Min.X, p.X), max(b.Max.X, p.X)
		b.Min.Y, b.Max.Y = min(b.Min.Y, p.Y), max(b.Max.Y, p.Y)
	}
	return b
}

// Empty reports whether the box holds no point.
func (b Box) Empty() bool { return !b.full }

// Add returns the box grown to hold p.
func (b Box) Add(p Pt) Box {
	if !b.full {
		return Box{p, p, true}
	}
	b.Min = Pt{min(b.Min.X, p.X), min(b.Min.Y, p.Y)}
	b.Max = Pt{max(b.Max.X, p.X), max(b.Max.Y, p.Y)}
	return b
}

// Union returns the smallest box that holds both.
func (b Box) Union(c Box) Box {
	switch {
	case !c.full:
		return b
	case !b.full:
		return c
	}
	b.Min = Pt{min(b.Min.X, c.Min.X), min(b.Min.Y, c.Min.Y)}
	b.Max = Pt{max(b.Max.X, c.Max.X), max(b.Max.Y, c.Max.Y)}
	return b
}

// Grow returns the box with every side moved outward by d; a negative d must not be more than half its width or height.
func (b Box) Grow(d float64) Box {
	if !b.full {
		return b
	}
	d = float64(d) // guarded like Pt.Add
	return Box{Pt{b.Min.X - d, b.Min.Y - d}, Pt{b.Max.X + d, b.Max.Y + d}, true}
}

// Move returns the box moved by v.
func (b Box) Move(v Pt) Box {
	if !b.full {
		return b
	}
	return Box{b.Min.Add(v), b.Max.Add(v), true}
}

// Meets reports whether the boxes have a point in common.
func (b Box) Meets(c Box) bool {
	return b.full && c.full && b.Min.X <= c.Max.X && c.Min.X <= b.Max.X && b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y
}

// Holds reports whether p lies in the box.
func (b Box) Holds(p Pt) bool {
	return b.full && b.Min.X <= p.X && p.X <= b.Max.X && b.Min.Y <= p.Y && p.Y <= b.Max.Y
}

// W returns the width, 0 for the empty box.
func (b Box) W() float64 { return b.Max.X - b.Min.X }

// H returns the height, 0 for the empty box.
func (b Box) H() float64 { return b.Max.Y - b.Min.Y }

// Centre returns the middle of the box, the origin for the empty box.
func (b Box) Centre() Pt { return b.Min.Lerp(b.Max, 0.5) }
