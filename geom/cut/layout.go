package cut

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"ribwright/geom"
	"ribwright/geom/fasten"
	"ribwright/geom/pack"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// Layout is where the plates of the whole set lie on sheets.
type Layout struct {
	Tool   Tool
	Ply    Ply // of the sheets
	Plates []Plate
	Stock  []Stock // what sheets there are
	Sheets []Sheet // the different ones, in the order of cutting
	Left   []Left  // what found no place
}

// Stock is a kind of sheet.
type Stock struct {
	Name    string // "600 × 300 mm", "offcut 2"
	Outline geom.Ring
	Count   int     // 0: as many as needed
	Price   float64 // of one; 0: not given
	AreaMM2 float64
}

// Sheet is a layout that is cut once or several times.
type Sheet struct {
	Stock   int // index in Layout.Stock
	Count   int // to cut
	Placed  []Placed
	AreaMM2 float64 // of the plates on one
}

// Fill returns the share of the sheet that becomes plates.
func (l Layout) Fill(s Sheet) float64 { return s.AreaMM2 / l.Stock[s.Stock].AreaMM2 }

// Placed is one plate in its place: its own axes are turned by Angle and moved to At.
type Placed struct {
	Plate int // index in Layout.Plates
	Angle float64
	At    geom.Pt
}

// Transform returns the map from the plate's own axes to those of the sheet.
func (p Placed) Transform() geom.Transform { return pack.Placed{Angle: p.Angle, At: p.At}.Transform() }

// Left is plates that found no place.
type Left struct {
	IDs   []string // kinds of them
	Count int
	Why   pack.Reason
}

// Pieces returns how many plates lie on all the sheets.
func (l Layout) Pieces() int {
	n := 0
	for _, s := range l.Sheets {
		n += s.Count * len(s.Placed)
	}
	return n
}

// effortStep is how many positions one step of the rib file's effort is worth.
const effortStep = 100_000

// mostNested is how many plates are nested at once: more take long, and sheets cut many times over are as good.
const mostNested = 6000

// Nest lays the plates of the set out on the sheets in stock: a very large set in lots, unless sheets are counted.
// clamps are those of Plates. progress may be nil.
func Nest(set rib.Set, clamps []fasten.Pattern, progress func(done, all int)) Layout {
	doc := set.Shared()
	l := Layout{Tool: ToolOf(doc), Ply: MainPly(set), Plates: Plates(set, clamps), Stock: stock(doc)}
	counts := make([]int, len(l.Plates))
	for k, p := range l.Plates {
		if p.Apart == Together {
			counts[k] = p.Count
		}
	}
	all := lots(counts, mostNested)
	if slices.ContainsFunc(l.Stock, func(s Stock) bool { return s.Count > 0 }) {
		all = []lot{{counts, 1}}
	}
	for i, one := range all {
		part := l
		part.Sheets, part.Left, part.Plates = nil, nil, slices.Clone(l.Plates)
		for k := range part.Plates {
			part.Plates[k].Count = one.counts[k]
		}
		part.nest(doc, func(done, most int) {
			if progress != nil {
				progress(i*most+done, len(all)*most)
			}
		})
		for _, s := range part.Sheets {
			s.Count *= one.times
			l.Sheets = append(l.Sheets, s)
		}
		for _, s := range part.Left {
			s.Count *= one.times
			l.Left = append(l.Left, s)
		}
	}
	return l
}

// nest lays the plates out on sheets as often as their counts say.
func (l *Layout) nest(doc *ribfile.Doc, progress func(done, all int)) {
	job := pack.NestJob{Gap: doc.Sheet.Gap, Margin: doc.Sheet.Margin, Effort: max(1, doc.Sheet.Effort*effortStep), Progress: progress}
	for _, s := range l.Stock {
		job.Sheets = append(job.Sheets, pack.Sheet{ID: s.Name, Outline: s.Outline, Count: s.Count, Price: s.Price})
	}
	across := doc.Sheet.Grain == "width"
	place := map[int]int{} // of each pool in pools; looked up only
	var pools []int        // of the job's parts
	for _, p := range l.Plates {
		if p.Apart != Together {
			continue
		}
		if i, ok := place[p.pool]; ok {
			job.Parts[i].Count += p.Count
			continue
		}
		part := pack.Part{ID: p.ID, Outline: p.Swath, Count: p.Count}
		if _, _, round := p.Swath.IsCircle(); !round {
			part.Angles = p.turns(across)
		}
		place[p.pool] = len(pools)
		pools, job.Parts = append(pools, p.pool), append(job.Parts, part)
	}
	got := pack.Nest(job)
	for _, u := range got.Unplaced {
		left := Left{Count: u.Count, Why: u.Why}
		for _, p := range l.Plates {
			if p.pool == pools[u.Part] && p.Count > 0 {
				left.IDs = append(left.IDs, p.ID)
			}
		}
		l.Left = append(l.Left, left)
	}
	l.share(got, pools, across)
}

// stock returns the sheets of the rib file, or where it names none one customary size, as many as needed
// (common practice, no source).
func stock(doc *ribfile.Doc) []Stock {
	all := doc.Sheet.Stock
	if len(all) == 0 {
		all = []ribfile.SheetStock{{Length: 600, Width: 300}}
		if doc.Units == ribfile.Inch {
			all = []ribfile.SheetStock{{Length: 24 * ribfile.MMPerInch, Width: 12 * ribfile.MMPerInch}}
		}
	}
	var out []Stock
	for i, s := range all {
		one := Stock{Count: s.Count, Price: s.Price, Name: doc.Number(s.Length) + " × " + doc.Length(s.Width),
			Outline: geom.Ring{{}, {X: s.Length}, {X: s.Length, Y: s.Width}, {Y: s.Width}}}
		if len(s.Outline) > 0 {
			one.Name, one.Outline = fmt.Sprintf("offcut %d", i+1), nil
			for _, c := range s.Outline {
				one.Outline = append(one.Outline, geom.Pt{X: c[0], Y: c[1]})
			}
			low := one.Outline.Box().Min
			one.Outline = geom.Move(low.Mul(-1)).Pts(one.Outline)
			if one.Outline.Area() < 0 {
				one.Outline = one.Outline.Reverse()
			}
		}
		one.AreaMM2 = one.Outline.Area()
		out = append(out, one)
	}
	return out
}

// share says which plate each piece of the layout becomes, so that as many sheets as possible are the same.
func (l *Layout) share(got pack.Layout, pools []int, across bool) {
	on := make([][]pack.Placed, len(got.Uses))
	for _, p := range got.Placed {
		on[p.Use] = append(on[p.Use], p)
	}
	left := make([]int, len(l.Plates))
	for k, p := range l.Plates {
		left[k] = p.Count
	}
	done := make([]bool, len(on))
	for u := range on {
		slices.SortStableFunc(on[u], func(a, b pack.Placed) int { // by rows, as one reads
			return cmp.Or(cmp.Compare(math.Round(b.At.Y), math.Round(a.At.Y)), cmp.Compare(a.At.X, b.At.X))
		})
	}
	for u := range on {
		if done[u] {
			continue
		}
		n := 0 // sheets with the same pieces in the same places
		for v := u; v < len(on); v++ {
			if !done[v] && got.Uses[v].Sheet == got.Uses[u].Sheet && slices.EqualFunc(on[u], on[v], samePlace) {
				done[v] = true
				n++
			}
		}
		for n > 0 {
			s := l.name(on[u], pools, left, n, across)
			s.Stock = got.Uses[u].Sheet
			n -= s.Count
			l.Sheets = append(l.Sheets, s)
		}
	}
}

func samePlace(a, b pack.Placed) bool {
	return a.Part == b.Part && a.Angle == b.Angle && a.At.Dist(b.At) < geom.Coincident
}

// name gives the pieces of at most n equal sheets their names: for as many of the sheets as the plates of each
// kind suffice.
func (l *Layout) name(pieces []pack.Placed, pools, left []int, n int, across bool) Sheet {
	want := map[int]int{} // pieces of each pool; looked up only
	for _, p := range pieces {
		want[pools[p.Part]]++
	}
	for ; n > 1; n-- {
		have := map[int]int{}
		for k, p := range l.Plates {
			have[p.pool] += left[k] / n
		}
		if !slices.ContainsFunc(pieces, func(p pack.Placed) bool { return have[pools[p.Part]] < want[pools[p.Part]] }) {
			break
		}
	}
	give := make([]int, len(l.Plates)) // of each kind, on one sheet
	for again := true; again; {
		again = false
		for k, p := range l.Plates {
			if want[p.pool] > 0 && (give[k]+1)*n <= left[k] {
				give[k]++
				want[p.pool]--
				again = true
			}
		}
	}
	s := Sheet{Count: n}
	for k := range give {
		left[k] -= n * give[k]
	}
	for _, p := range pieces {
		k := pools[p.Part]
		for give[k] == 0 || l.Plates[k].pool != pools[p.Part] {
			k++
		}
		give[k]--
		one := Placed{Plate: k, Angle: p.Angle, At: p.At}
		plate := l.Plates[k]
		if _, _, round := plate.Swath.IsCircle(); round { // turned as its own grain wants
			one.Angle = 0
			if len(plate.Grain) > 0 {
				one.Angle = upright(plate.turns(across))
			}
			c, _, _ := plate.Swath.IsCircle()
			one.At = p.At.Add(c).Sub(geom.Turn(geom.Pt{}, one.Angle).Pt(c))
		}
		s.Placed = append(s.Placed, one)
		s.AreaMM2 += geom.Region{Outer: plate.Outline, Holes: plate.Holes}.Area()
	}
	return s
}

// Hole is where the pilot drill of a hole saw goes.
type Hole struct {
	At    geom.Pt // on the sheet
	Plate int     // index in Layout.Plates
}

// Holes returns the holes of a sheet in the order of drilling, from its corner on.
func (l Layout) Holes(sheet int) []Hole {
	var pts []geom.Pt
	var all []Hole
	for _, p := range l.Sheets[sheet].Placed {
		if l.Plates[p.Plate].Blank > 0 {
			h := Hole{p.Transform().Pt(geom.Pt{}), p.Plate}
			all, pts = append(all, h), append(pts, h.At)
		}
	}
	out := make([]Hole, 0, len(all))
	for _, i := range Tour(geom.Pt{}, pts) {
		out = append(out, all[i])
	}
	return out
}

// AnyHoles reports whether a hole saw cuts any of the plates.
func (l Layout) AnyHoles() bool {
	return slices.ContainsFunc(l.Plates, func(p Plate) bool { return p.Blank > 0 })
}
