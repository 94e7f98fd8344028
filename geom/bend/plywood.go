package bend

import (
	_ "embed"
	"fmt"
	"math"
	"strings"

	"ribwright/geom/ribfile"
)

// plywood.txt is Table 1-2 of FAA AC 43.13-1B, recommended bend radii of aircraft plywood, in inches.
//
//go:embed plywood.txt
var plywoodTable string

// ply is one row of the table, mm: the least radius of the mandrel by the way the face grain runs against the
// axis of the bend. The radius is that of the sheet's inside.
type ply struct {
	thickness float64
	plies     int
	dry, wet  [2]float64 // square to the face grain; along it and up to 45° from it
}

var plywoods = readPlywood(plywoodTable)

func readPlywood(text string) []ply {
	var out []ply
	for _, line := range strings.Split(text, "\n") {
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		var p ply
		var v [5]float64
		if n, err := fmt.Sscan(line, &v[0], &p.plies, &v[1], &v[2], &v[3], &v[4]); n != 6 {
			panic(fmt.Sprintf("plywood.txt: %q: %v", line, err))
		}
		for i := range v {
			v[i] *= ribfile.MMPerInch
		}
		p.thickness, p.dry, p.wet = v[0], [2]float64{v[1], v[2]}, [2]float64{v[3], v[4]}
		out = append(out, p)
	}
	return out
}

// Sheet is a sheet of plywood that is bent round an axis along the span.
type Sheet struct {
	Thickness float64
	Plies     int // 3, 5, or 0: the fewest that are made in this thickness
	// Along says that the face grain runs along the axis of the bend or up to 45° from it, so that the stiff
	// faces are not bent along their grain.
	Along bool
	Wet   bool // soaked in hot water
}

// Plies returns the sheet's plies, or where they are not said the fewest that the table has in its thickness.
func (s Sheet) plies() int {
	if s.Plies > 0 {
		return s.Plies
	}
	thickest := 0.0
	for _, p := range plywoods {
		if p.plies == 3 {
			thickest = math.Max(thickest, p.thickness)
		}
	}
	if s.Thickness <= thickest+slack {
		return 3
	}
	return 5
}

// slack, mm, forgives 1.0 mm sheet written in thousandths of an inch, and the like.
const slack = 0.005

// LeastRadius returns the least radius, mm, of the mandrel that the sheet is bent on, by FAA AC 43.13-1B Table 1-2.
// Between two thicknesses of the same plies it is interpolated in a straight line. ok is false where the table has
// no such thickness; then from and to are the thicknesses it has for these plies.
func (s Sheet) LeastRadius() (radius, from, to float64, ok bool) {
	var rows []ply
	n := s.plies()
	for _, p := range plywoods {
		if p.plies == n {
			rows = append(rows, p)
		}
	}
	if len(rows) == 0 {
		return 0, 0, 0, false
	}
	from, to = rows[0].thickness, rows[len(rows)-1].thickness
	if s.Thickness < from-slack || s.Thickness > to+slack {
		return 0, from, to, false
	}
	for i := 1; i < len(rows); i++ {
		a, b := rows[i-1], rows[i]
		if s.Thickness <= b.thickness || i == len(rows)-1 {
			share := math.Min(1, math.Max(0, (s.Thickness-a.thickness)/(b.thickness-a.thickness)))
			lo, hi := s.radius(a), s.radius(b)
			return lo + float64((hi-lo)*share), from, to, true
		}
	}
	return 0, from, to, false
}

func (s Sheet) radius(p ply) float64 {
	k := 0
	if s.Along {
		k = 1
	}
	if s.Wet {
		return p.wet[k]
	}
	return p.dry[k]
}
